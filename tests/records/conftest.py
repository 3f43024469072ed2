"""A small made-up shop on file, for every test of the records."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from store.records.cabinet import Cabinet
from store.records.opening import open_cabinet
from store.trade.buying.nouns import OwnLineDraft
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.credits import CreditDraft
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    Place,
    PlaceKind,
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.firm import FirmDraft
from store.trade.history import HistoryDraft
from store.trade.jobs import CustomerDraft, Job, JobDraft, Method, Room, RoomDraft, Subfloor
from store.trade.layout.lay import LayRules
from store.trade.morning import MorningCheckDraft
from store.trade.people import PersonDraft
from store.trade.plans import PlanDraft, search, shape_of
from store.trade.products import BoardDraft, GlueDraft
from store.trade.readings import Air, ReadingDraft, Straightedge
from store.trade.stock_take import DifferenceDraft, Way
from store.trade.things import Thing
from store.trade.voiding import VoidedBy, VoidingDraft

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
BOARD = BoardDraft(
    code="OAK-190",
    name="Oak, three-ply",
    length_mm=1900,
    width_mm=190,
    thickness_mm=14,
    boards_per_pack=6,
    acclimatise_hours=168,
    species="oak",
)
GLUE = GlueDraft(
    code="MS-15",
    name="Elastic glue",
    rate_g_per_m2=1000,
    tub_kg=15.0,
    open_time_min=40,
    walk_on_hours=24,
    full_load_hours=72,
)
ROOM = RoomDraft(
    name="Reading room",
    outline=((0, 0), (5200, 0), (5200, 4100), (0, 4100)),
    subfloor=Subfloor.OSB,
    method=Method.GLUED,
    board="OAK-190",
    glue="MS-15",
)
RULES = LayRules(stagger_mm=400)
PLAN = PlanDraft(
    room="Reading room",
    at=NOW,
    board="OAK-190",
    rules=RULES,
    seed=7,
    culls_percent=2.5,
    confidence_percent=95.0,
    spare_packs=1,
    shape=shape_of(ROOM, BOARD),
    lay=next(search(ROOM, BOARD, RULES, 7)).lay,
)


@dataclass(frozen=True)
class Shop:
    """An open cabinet with one job that everything has happened to."""

    cabinet: Cabinet
    job: Job
    room: Room
    now: datetime = NOW

    @property
    def path(self) -> Path:
        return self.cabinet.path

    def another_job(self, ref: str) -> tuple[Job, Room]:
        draft = JobDraft(ref=ref, title="Another floor", customer=CustomerDraft(name="Harbour office"))
        job = self.cabinet.jobs.add(draft)
        return job, self.cabinet.rooms.add(job.id, ROOM)

    def let_everything_happen_to(self, job: Job) -> dict[str, int]:
        """File one of each event; return the number of each by its kind."""
        events, room = self.cabinet.events, in_room(ROOM.name)
        pack = {"at": NOW, "product": "OAK-190", "batch": "K41", "packs": 1}
        unit = Place(kind=PlaceKind.UNIT)
        lines = (DeliveryLine(product="OAK-190", batch="K41", packs=12, damaged_packs=1),)
        ordered = (OrderLine(product="OAK-190", packs=12, price_minor=17_950), OrderLine(product="MS-15", packs=2))
        order = events.add_order(
            job.id, OrderDraft(on=date(2026, 11, 10), due_on=date(2026, 11, 17), lines=ordered, freight_minor=4_500)
        )
        confirmed = ConfirmedLine(product="OAK-190", packs=12, due_on=date(2026, 11, 18), price_minor=17_900)
        said = ConfirmationDraft(at=NOW, lines=(confirmed,), number="C-77")
        return {
            "order": order.id,
            "confirmation": events.add_confirmation(job.id, order.id, said).id,
            "credit": events.add_credit(
                job.id, CreditDraft(at=NOW, product="OAK-190", amount_minor=13_425, number="N-5")
            ).id,
            "delivery": events.add_delivery(job.id, DeliveryDraft(at=NOW, into=room, lines=lines)).id,
            "move": events.add_move(job.id, MoveDraft(**pack, source=room, target=unit)).id,
            "opening": events.add_opening(job.id, OpeningDraft(**pack, room=ROOM.name)).id,
            "count": events.add_count(job.id, CountDraft(**pack, boards=2, to=Destination.UNIT)).id,
            "reading": events.add_reading(
                job.id, ReadingDraft(room=ROOM.name, at=NOW, measure=Air(temp_c=20.5, rh_percent=52.0))
            ).id,
            "smoothing": events.add_smoothing(job.id, SmoothingDraft(room=ROOM.name, at=NOW)).id,
            "laying": events.add_laying(job.id, LayingDraft(room=ROOM.name, begun_at=NOW)).id,
            "handover": events.add_handover(job.id, HandoverDraft(signed_at=NOW, by="R. Quill")).id,
            "snag": events.add_snag(job.id, SnagDraft(at=NOW, what="A scratch by the door")).id,
            "note": events.add_note(job.id, NoteDraft(at=NOW, text="The key is under the blue pot")).id,
            "plan": events.add_plan(job.id, PLAN).id,
            "morning list": events.add_morning(
                job.id,
                MorningCheckDraft(room=ROOM.name, at=NOW, temp_c=20.0, rh_percent=50.0, surface_c=18.0, mixed=True),
            ).id,
            "voiding": events.add_voiding(
                job.id, VoidingDraft(room=ROOM.name, at=NOW, cause=VoidedBy.LEAK, note="The tap in the yard")
            ).id,
            "stock-take": self.cabinet.stock.book(
                job.id, DifferenceDraft(**pack, boards=0, way=Way.FOUND, why="Behind the skirting")
            ).id,
            "own line": events.add_own_line(
                job.id, OwnLineDraft(thing=Thing.GLUE, product="MS-15", at=NOW, units=3, why="One tub stands open")
            ).id,
        }

    def write_history(self, subject: str) -> int:
        line = HistoryDraft(
            at=NOW,
            who="Wren",
            deed="filed",
            job_ref="L-0001",
            subject=subject,
            before="",
            after='{"packs":12}',
        )
        return self.cabinet.history.write(line).id


@pytest.fixture
def cabinet(tmp_path: Path) -> Iterator[Cabinet]:
    """Yield an empty cabinet on a file of its own."""
    opened = open_cabinet(tmp_path / "gannet.layday", create=True)
    yield opened
    opened.close()


@pytest.fixture
def shop(cabinet: Cabinet) -> Shop:
    """Return a cabinet with a firm, two people, two products, and a job with a room."""
    with cabinet.deed():
        cabinet.firm.put(FirmDraft(name="Gannet Quay Floors"))
        for name in ("Wren", "Tern"):
            cabinet.people.add(PersonDraft(name=name))
        cabinet.products.add(BOARD)
        cabinet.products.add(GLUE)
        customer = CustomerDraft(name="Harbour library", phone="+32 9 000 00 00", email="desk@library.invalid")
        job = cabinet.jobs.add(JobDraft(ref="L-0001", title="Reading room", customer=customer))
        room = cabinet.rooms.add(job.id, ROOM)
        cabinet.events.add_reading(
            job.id,
            ReadingDraft(room=ROOM.name, at=NOW, measure=Straightedge(span_mm=2000, gap_mm=1.5)),
        )
    return Shop(cabinet=cabinet, job=job, room=room)


@pytest.fixture
def full_shop(shop: Shop) -> Shop:
    """Return a shop where one of every event is on file, and twenty lines of history."""
    with shop.cabinet.deed():
        shop.let_everything_happen_to(shop.job)
        for number in range(20):
            shop.write_history(f"line {number}")
    return shop
