"""The nouns of a job folder: what leaves the shop and enters it again, whole and without numbers on file."""

from dataclasses import dataclass

from store.trade.bookings import BookingDraft
from store.trade.buying.nouns import OwnLineDraft
from store.trade.credits import CreditDraft
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    SmoothingDraft,
    SnagDraft,
)
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.flights import FlightDraft
from store.trade.jobs import JobDraft, RoomDraft
from store.trade.morning import MorningCheckDraft
from store.trade.people import PersonDraft
from store.trade.plans import PlanDraft
from store.trade.products import ProductDraft
from store.trade.readings import ReadingDraft
from store.trade.stock_take import DifferenceDraft
from store.trade.voiding import VoidingDraft

VERSION = 1
"""The version of the format that this release writes, and the only one it reads."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobFolder:
    """One job whole. What is on file is a draft too, so facts can be put straight in; see ``folder_of``."""

    job: JobDraft
    rooms: tuple[RoomDraft, ...] = ()
    orders: tuple[OrderDraft, ...] = ()
    deliveries: tuple[DeliveryDraft, ...] = ()
    moves: tuple[MoveDraft, ...] = ()
    openings: tuple[OpeningDraft, ...] = ()
    readings: tuple[ReadingDraft, ...] = ()
    smoothings: tuple[SmoothingDraft, ...] = ()
    layings: tuple[LayingDraft, ...] = ()
    counts: tuple[CountDraft, ...] = ()
    snags: tuple[SnagDraft, ...] = ()
    notes: tuple[NoteDraft, ...] = ()
    plans: tuple[PlanDraft, ...] = ()
    bookings: tuple[BookingDraft, ...] = ()
    mornings: tuple[MorningCheckDraft, ...] = ()
    voidings: tuple[VoidingDraft, ...] = ()
    stock_takes: tuple[DifferenceDraft, ...] = ()
    own_lines: tuple[OwnLineDraft, ...] = ()
    credits: tuple[CreditDraft, ...] = ()
    flights: tuple[FlightDraft, ...] = ()
    handover: HandoverDraft | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Folder:
    """The firm, its people, the products that the jobs speak of, and the jobs, each list in its order.

    ``stock_takes`` are the differences of free stock, which belong to no job; a job has those of its own packs.
    """

    firm: FirmDraft
    people: tuple[PersonDraft, ...] = ()
    products: tuple[ProductDraft, ...] = ()
    jobs: tuple[JobFolder, ...] = ()
    stock_takes: tuple[DifferenceDraft, ...] = ()


def folder_of(facts: JobFacts) -> JobFolder:
    """Return everything on file about one job, to be written into a folder."""
    return JobFolder(
        job=facts.job,
        rooms=facts.rooms,
        orders=facts.orders,
        deliveries=facts.deliveries,
        moves=facts.moves,
        openings=facts.openings,
        readings=facts.readings,
        smoothings=facts.smoothings,
        layings=facts.layings,
        counts=facts.counts,
        snags=facts.snags,
        notes=facts.notes,
        plans=facts.plans,
        bookings=facts.bookings,
        mornings=facts.mornings,
        voidings=facts.voidings,
        stock_takes=facts.differences,
        own_lines=facts.own_lines,
        credits=facts.credits,
        flights=facts.flights,
        handover=facts.handover,
    )
