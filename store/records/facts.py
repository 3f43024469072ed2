"""The drawer of facts: jobs whole, by a fixed number of questions however many jobs there are."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from store.records import filed_differences, filed_events, filed_on_site, filed_orders, filed_own_lines, filed_plans
from store.records.bookings import BookingDrawer
from store.records.database import OpenFile
from store.records.event_tables import (
    CreditRow,
    DeliveryRow,
    HandoverRow,
    LayingRow,
    LayPlanRow,
    MorningCheckRow,
    NoteRow,
    OwnLineRow,
    PurchaseRow,
    ReadingRow,
    SmoothingRow,
    SnagRow,
    VoidingRow,
)
from store.records.filed_events import grouped, of_jobs
from store.records.filed_movements import Pages, ledger_of
from store.records.flights import FlightDrawer
from store.records.jobs import JobDrawer
from store.records.people import PeopleDrawer
from store.records.products import ProductDrawer
from store.records.rooms import RoomDrawer
from store.records.trouble import making_sense
from store.trade.bookings import Booking
from store.trade.buying.nouns import OwnLine
from store.trade.credits import Credit
from store.trade.events import Delivery, Handover, Laying, Note, Order, Smoothing, Snag
from store.trade.facts import JobFacts
from store.trade.flights import Flight
from store.trade.jobs import Job, Room
from store.trade.materials import Material
from store.trade.morning import MorningCheck
from store.trade.people import Person
from store.trade.plans import Plan
from store.trade.products import Board, Product
from store.trade.readings import Reading
from store.trade.stock_take import Difference
from store.trade.voiding import Voiding


@dataclass(frozen=True, slots=True, kw_only=True)
class _Found:
    """Everything about some jobs, by the job's number."""

    rooms: dict[int, list[Room]]
    orders: dict[int, list[Order]]
    deliveries: dict[int, list[Delivery]]
    ledger: Pages
    readings: dict[int, list[Reading]]
    smoothings: dict[int, list[Smoothing]]
    layings: dict[int, list[Laying]]
    handovers: dict[int, list[Handover]]
    snags: dict[int, list[Snag]]
    notes: dict[int, list[Note]]
    plans: dict[int, list[Plan]]
    bookings: dict[int, list[Booking]]
    mornings: dict[int, list[MorningCheck]]
    voidings: dict[int, list[Voiding]]
    differences: dict[int, list[Difference]]
    own_lines: dict[int, list[OwnLine]]
    credits: dict[int, list[Credit]]
    flights: dict[int, list[Flight]]
    people: tuple[Person, ...]
    materials: tuple[Material, ...]


class FactsDrawer:
    """Hands out jobs whole, as they were on file at one moment; what was taken back is left out.

    Lay plans come without their pieces, which are many and which no count asks for, unless they are asked for.
    """

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._jobs = JobDrawer(file)
        self._rooms = RoomDrawer(file)
        self._flights = FlightDrawer(file)
        self._products = ProductDrawer(file)
        self._bookings = BookingDrawer(file)
        self._people = PeopleDrawer(file)

    def of_ref(self, ref: str) -> JobFacts | None:
        """Return one job, or None if there is no job of this reference."""
        found = self.many((ref,), pieces=False)
        return found[0] if found else None

    def open_at(self, now: datetime) -> tuple[JobFacts, ...]:
        """Return every job not closed by then, in the order of filing."""
        with self._file.standing_still():
            jobs = self._jobs.open_at(now)
            return self._whole(jobs, tuple(job.id for job in jobs), pieces=False)

    def many(self, refs: Sequence[str] | None, *, pieces: bool = True) -> tuple[JobFacts, ...]:
        """Return the jobs of these references, or all of them for None, in the order of filing."""
        with self._file.standing_still():
            if refs is None:
                return self._whole(self._jobs.all(), None, pieces=pieces)
            jobs = self._jobs.of_refs(refs)
            return self._whole(jobs, tuple(job.id for job in jobs), pieces=pieces)

    def _whole(self, jobs: tuple[Job, ...], job_ids: tuple[int, ...] | None, *, pieces: bool) -> tuple[JobFacts, ...]:
        found = self._found(job_ids, pieces=pieces)
        named = {job.id: _codes_of(job.id, found) for job in jobs}
        products = self._products.of_codes(frozenset().union(*named.values()))
        with making_sense(self._file.path):
            return tuple(_facts(job, found, named[job.id], products) for job in jobs)

    def _found(self, job_ids: tuple[int, ...] | None, *, pieces: bool) -> _Found:
        file = self._file
        ledger = ledger_of(file, job_ids)
        deliveries = filed_events.deliveries(file, of_jobs(DeliveryRow, "delivery", job_ids), ledger.delivered)
        return _Found(
            rooms=grouped(self._rooms.of_jobs(job_ids)),
            orders=grouped(filed_orders.orders(file, of_jobs(PurchaseRow, "order", job_ids))),
            deliveries=grouped(deliveries),
            ledger=ledger,
            readings=grouped(filed_events.readings(file, of_jobs(ReadingRow, "reading", job_ids))),
            smoothings=grouped(filed_events.smoothings(file, of_jobs(SmoothingRow, "smoothing", job_ids))),
            layings=grouped(filed_events.layings(file, of_jobs(LayingRow, "laying", job_ids))),
            handovers=grouped(filed_events.handovers(file, of_jobs(HandoverRow, "handover", job_ids))),
            snags=grouped(filed_events.snags(file, of_jobs(SnagRow, "snag", job_ids))),
            notes=grouped(filed_events.notes(file, of_jobs(NoteRow, "note", job_ids))),
            plans=grouped(filed_plans.plans(file, of_jobs(LayPlanRow, "plan", job_ids), pieces=pieces)),
            bookings=grouped(self._bookings.of_jobs(job_ids)),
            mornings=grouped(filed_on_site.mornings(file, of_jobs(MorningCheckRow, "morning list", job_ids))),
            voidings=grouped(filed_on_site.voidings(file, of_jobs(VoidingRow, "voiding", job_ids))),
            differences=grouped(filed_differences.differences(file, job_ids)),
            own_lines=grouped(filed_own_lines.own_lines(file, of_jobs(OwnLineRow, "own line", job_ids))),
            credits=grouped(filed_orders.credit_notes(file, of_jobs(CreditRow, "credit", job_ids))),
            flights=grouped(self._flights.of_jobs(job_ids)),
            people=self._people.all(),
            materials=self._products.materials(),
        )


def _codes_of(job_id: int, found: _Found) -> set[str]:
    rooms = found.rooms.get(job_id, ())
    codes = {room.board for room in rooms} | {room.glue for room in rooms if room.glue is not None}
    happened: Iterable[Order | Delivery] = (*found.orders.get(job_id, ()), *found.deliveries.get(job_id, ()))
    codes.update(line.product for one in happened for line in one.lines)
    ledger = found.ledger
    for page in (ledger.moves, ledger.openings, ledger.counts):
        codes.update(entry.product for entry in page.get(job_id, ()))
    codes.update(one.product for one in found.differences.get(job_id, ()))
    codes.update(plan.board for plan in found.plans.get(job_id, ()))
    codes.update(one.product for one in found.own_lines.get(job_id, ()) if one.product)
    codes.update(one.board for one in found.flights.get(job_id, ()) if one.board)
    return codes


def _facts(job: Job, found: _Found, codes: set[str], products: dict[str, Product]) -> JobFacts:
    number = job.id
    if not all(isinstance(products[room.board], Board) for room in found.rooms.get(number, ())):
        raise ValueError("A room is to be laid with what is no board.")
    handovers = found.handovers.get(number)
    return JobFacts(
        job=job,
        rooms=tuple(found.rooms.get(number, ())),
        orders=tuple(found.orders.get(number, ())),
        deliveries=tuple(found.deliveries.get(number, ())),
        moves=tuple(found.ledger.moves.get(number, ())),
        openings=tuple(found.ledger.openings.get(number, ())),
        readings=tuple(found.readings.get(number, ())),
        smoothings=tuple(found.smoothings.get(number, ())),
        layings=tuple(found.layings.get(number, ())),
        counts=tuple(found.ledger.counts.get(number, ())),
        snags=tuple(found.snags.get(number, ())),
        notes=tuple(found.notes.get(number, ())),
        plans=tuple(found.plans.get(number, ())),
        bookings=tuple(found.bookings.get(number, ())),
        mornings=tuple(found.mornings.get(number, ())),
        voidings=tuple(found.voidings.get(number, ())),
        differences=tuple(found.differences.get(number, ())),
        own_lines=tuple(found.own_lines.get(number, ())),
        credits=tuple(found.credits.get(number, ())),
        flights=tuple(found.flights.get(number, ())),
        people=found.people,
        materials=found.materials,
        handover=handovers[-1] if handovers else None,
        products={code: products[code] for code in sorted(codes)},
    )
