"""Packs as they lie: what came to site, what waits in the unit, and what the orders still owe."""

from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction

from store.trade.events import Order, PlaceKind
from store.trade.facts import JobFacts
from store.trade.jobs import RoomDraft
from store.trade.orders import lines_to_come
from store.trade.products import BoardDraft


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """Sound packs of one batch put into one room at one moment."""

    room: str
    product: str
    batch: str
    packs: int
    since: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Owed:
    """Packs of one product that an order still owes, and the day they are due."""

    order: Order
    packs: int
    due_on: date | None


def packs_for(rooms: tuple[RoomDraft, ...], board: BoardDraft) -> int:
    """Return the packs needed for rooms laid with one board, without a lay plan.

    The rooms' floors, each with its own cut loss added, are summed before rounding up to whole packs, in exact
    fractions of mm² so that no rounding error buys a pack.

    >>> from store.trade.jobs import Method, RoomDraft, Subfloor
    >>> room = RoomDraft(name="Hall", outline=((0, 0), (5200, 0), (5200, 4100), (0, 4100)), board="OAK-190",
    ...                  subfloor=Subfloor.OSB, method=Method.GLUED)
    >>> oak = BoardDraft(code="OAK-190", name="Oak", length_mm=1900, width_mm=190, thickness_mm=14,
    ...                  boards_per_pack=6, acclimatise_hours=168)
    >>> packs_for((room,), oak)  # 21.32 m² with 10 % is 23.452 m², at 2.166 m² a pack
    11
    """
    return -(-with_cut_loss(rooms) // board.pack_mm2)


def with_cut_loss(rooms: tuple[RoomDraft, ...]) -> Fraction:
    """Return the floor of some rooms, each with its own cut loss added, in exact fractions of mm²."""
    return sum((room.net_mm2 * (1 + Fraction(repr(room.cut_loss_percent)) / 100) for room in rooms), Fraction())


def stacks_on_site(facts: JobFacts, code: str) -> tuple[Stack, ...]:
    """Return the stacks of one board in the job's rooms, oldest first, opened packs included.

    What is carried out of a room or counted away is taken from what came last, of the same batch where it can be.
    """
    stacks: list[Stack] = []
    for at, change in _changes(facts, code):
        if change.packs > 0:
            stacks.append(replace(change, since=at))
        else:
            _take_away(stacks, change)
    return tuple(stack for stack in stacks if stack.packs > 0)


def packs_in_unit(facts: JobFacts, code: str) -> int:
    """Return the sound packs of one product that lie in the unit for this job."""
    unit = PlaceKind.UNIT
    came = sum(
        line.packs - line.damaged_packs
        for delivery in facts.deliveries
        if delivery.into.kind is unit
        for line in delivery.lines
        if line.product == code
    )
    moved = sum(
        move.packs * ((move.target.kind is unit) - (move.source.kind is unit))
        for move in facts.moves
        if move.product == code
    )
    counted = sum(one.packs_more for one in facts.differences if one.product == code)
    return came + moved + counted


def packs_ordered(facts: JobFacts, code: str) -> int:
    """Return the packs of one product ordered for this job."""
    return sum(line.packs for order in facts.orders for line in order.lines if line.product == code)


def packs_promised(facts: JobFacts, code: str) -> int:
    """Return the packs of one product that the orders bring in all: what was asked for, less what is never sent."""
    return sum(line.packs for order in facts.orders for line in lines_to_come(order) if line.product == code)


def packs_damaged(facts: JobFacts, code: str) -> int:
    """Return the packs of one product that came damaged."""
    return sum(line.damaged_packs for one in facts.deliveries for line in one.lines if line.product == code)


def packs_delivered(facts: JobFacts, code: str) -> int:
    """Return the packs of one product that came from the supplier, damaged ones included."""
    return sum(line.packs for one in facts.deliveries for line in one.lines if line.product == code)


def packs_from_free_stock(facts: JobFacts, code: str) -> int:
    """Return the packs of one product that were kept from free stock for this job, less those it set free again."""
    shelf = PlaceKind.SHELF
    return sum(
        one.packs * ((one.source.kind is shelf) - (one.target.kind is shelf))
        for one in facts.moves
        if one.product == code
    )


def still_owed(facts: JobFacts, code: str) -> tuple[Owed, ...]:
    """Return what the orders still owe of one product, the earliest due first.

    What comes in fills the oldest due date first; damaged packs use up their order. What a supplier does not send is
    not owed, and what was confirmed for a later day stands by itself.
    """
    asked = [
        Owed(order=order, packs=line.packs, due_on=line.due_on)
        for order in facts.orders
        for line in lines_to_come(order)
        if line.product == code
    ]
    come = packs_delivered(facts, code)
    owed: list[Owed] = []
    for one in sorted(asked, key=lambda one: (one.due_on or date.max, one.order.on, one.order.id)):
        filled = min(one.packs, come)
        come -= filled
        if one.packs > filled:
            owed.append(replace(one, packs=one.packs - filled))
    return tuple(owed)


def orders_needed(owed: tuple[Owed, ...], short: int) -> tuple[Owed, ...] | None:
    """Return the open orders that cover ``short`` packs, the earliest due first; None if all do not."""
    taken: list[Owed] = []
    for one in owed:
        if short <= 0:
            break
        taken.append(one)
        short -= one.packs
    return None if short > 0 else tuple(taken)


def _changes(facts: JobFacts, code: str) -> list[tuple[datetime, Stack]]:
    """Everything that brings whole packs into a room (packs > 0) or takes them out (packs < 0), in order."""
    found: list[tuple[datetime, Stack]] = []

    def change(at: datetime, room: str, batch: str, packs: int) -> None:
        if packs:
            found.append((at, Stack(room=room, product=code, batch=batch, packs=packs, since=at)))

    for delivery in facts.deliveries:
        for line in delivery.lines:
            if line.product == code and delivery.into.kind is PlaceKind.ROOM:
                change(delivery.at, delivery.into.room, line.batch, line.packs - line.damaged_packs)
    for move in facts.moves:
        if move.product == code and move.source.kind is PlaceKind.ROOM:
            change(move.at, move.source.room, move.batch, -move.packs)
        if move.product == code and move.target.kind is PlaceKind.ROOM:
            change(move.at, move.target.room, move.batch, move.packs)
    for count in facts.counts:
        if count.product == code:
            change(count.at, "", count.batch, -count.packs)
    return sorted(found, key=lambda pair: pair[0])


def _take_away(stacks: list[Stack], change: Stack) -> None:
    """Take packs from the latest stacks: of the batch and room named first, then of any in that room."""
    left = -change.packs
    for same_batch in (True, False):
        for index in range(len(stacks) - 1, -1, -1):
            stack = stacks[index]
            if change.room not in {"", stack.room} or (stack.batch == change.batch) is not same_batch:
                continue
            taken = min(left, stack.packs)
            stacks[index] = replace(stack, packs=stack.packs - taken)
            left -= taken
