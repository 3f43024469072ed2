"""Everything on file about one job, and what of it was known at a given moment."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from store.trade.bookings import Booking
from store.trade.buying.nouns import OwnLine
from store.trade.credits import Credit
from store.trade.events import (
    Count,
    Delivery,
    Handover,
    Laying,
    Move,
    Note,
    Opening,
    Order,
    Smoothing,
    Snag,
)
from store.trade.flights import Flight
from store.trade.jobs import Job, Room
from store.trade.materials import Material
from store.trade.morning import MorningCheck
from store.trade.people import Person
from store.trade.plans import Plan
from store.trade.products import Board, Glue, Product
from store.trade.readings import Reading
from store.trade.stock_take import Difference
from store.trade.voiding import Voiding


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFacts:
    """One job whole: every tuple in the order of filing, products by code.

    ``people`` and ``materials`` are the firm's, for whatever job.
    """

    job: Job
    rooms: tuple[Room, ...] = ()
    orders: tuple[Order, ...] = ()
    deliveries: tuple[Delivery, ...] = ()
    moves: tuple[Move, ...] = ()
    openings: tuple[Opening, ...] = ()
    readings: tuple[Reading, ...] = ()
    smoothings: tuple[Smoothing, ...] = ()
    layings: tuple[Laying, ...] = ()
    counts: tuple[Count, ...] = ()
    snags: tuple[Snag, ...] = ()
    notes: tuple[Note, ...] = ()
    plans: tuple[Plan, ...] = ()
    bookings: tuple[Booking, ...] = ()
    mornings: tuple[MorningCheck, ...] = ()
    voidings: tuple[Voiding, ...] = ()
    differences: tuple[Difference, ...] = ()
    own_lines: tuple[OwnLine, ...] = ()
    credits: tuple[Credit, ...] = ()
    flights: tuple[Flight, ...] = ()
    people: tuple[Person, ...] = ()
    materials: tuple[Material, ...] = ()
    handover: Handover | None = None
    products: Mapping[str, Product]

    def room(self, name: str) -> Room:
        """Return the room of this name; KeyError if the job has none."""
        for room in self.rooms:
            if room.name == name:
                return room
        raise KeyError(name)

    def board(self, code: str) -> Board:
        """Return the board of this code; KeyError if it is not a board on file."""
        product = self.products[code]
        if not isinstance(product, Board):
            raise KeyError(code)
        return product

    def glue_of(self, room: Room) -> Glue | None:
        """Return the glue chosen for a room, or None."""
        product = self.products.get(room.glue) if room.glue else None
        return product if isinstance(product, Glue) else None

    def rooms_with(self, code: str) -> tuple[Room, ...]:
        """Return the rooms in which this board is to be laid."""
        return tuple(room for room in self.rooms if room.board == code)

    @property
    def board_codes(self) -> tuple[str, ...]:
        """The boards the job needs, each once, in the order of its rooms."""
        return tuple(dict.fromkeys(room.board for room in self.rooms))


def known_at(facts: JobFacts, now: datetime, today: date) -> JobFacts:
    """Return the facts without what is dated after ``now`` (for an order: after the day ``today``).

    A laying that had begun by then but not ended is known as one still going on, a snag mended later as open.
    """
    return replace(
        facts,
        orders=tuple(_order_at(order, now) for order in facts.orders if order.on <= today),
        credits=tuple(one for one in facts.credits if one.at <= now),
        deliveries=tuple(one for one in facts.deliveries if one.at <= now),
        moves=tuple(one for one in facts.moves if one.at <= now),
        openings=tuple(one for one in facts.openings if one.at <= now),
        readings=tuple(one for one in facts.readings if one.at <= now),
        smoothings=tuple(one for one in facts.smoothings if one.at <= now),
        layings=tuple(_laying_at(one, now) for one in facts.layings if one.begun_at <= now),
        counts=tuple(one for one in facts.counts if one.at <= now),
        snags=tuple(_snag_at(one, now) for one in facts.snags if one.at <= now),
        notes=tuple(one for one in facts.notes if one.at <= now),
        plans=tuple(one for one in facts.plans if one.at <= now),
        mornings=tuple(one for one in facts.mornings if one.at <= now),
        voidings=tuple(one for one in facts.voidings if one.at <= now),
        differences=tuple(one for one in facts.differences if one.at <= now),
        own_lines=tuple(one for one in facts.own_lines if one.at <= now),
        handover=facts.handover if facts.handover and facts.handover.signed_at <= now else None,
    )


def _order_at(order: Order, now: datetime) -> Order:
    if all(one.at <= now for one in order.confirmed):
        return order
    return replace(order, confirmed=tuple(one for one in order.confirmed if one.at <= now))


def _laying_at(laying: Laying, now: datetime) -> Laying:
    if laying.ended_at is None or laying.ended_at <= now:
        return laying
    return replace(laying, ended_at=None, area_mm2=None, tubs=None)


def _snag_at(snag: Snag, now: datetime) -> Snag:
    if snag.mended_at is None or snag.mended_at <= now:
        return snag
    return replace(snag, mended_at=None)
