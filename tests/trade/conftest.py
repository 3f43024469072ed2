"""A made-up job, built in a few words: every test says only what it is about, the rest is as usual."""

from collections import defaultdict
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache
from typing import Any

from store.trade.acclimatisation import HourCount, Tick
from store.trade.credits import Credit
from store.trade.events import (
    UNIT,
    Count,
    Delivery,
    DeliveryLine,
    Destination,
    Handover,
    Laying,
    Move,
    Opening,
    Order,
    OrderLine,
    Place,
    PlaceKind,
    Smoothing,
    Snag,
    in_room,
)
from store.trade.facts import JobFacts
from store.trade.firm import Firm
from store.trade.jobs import CustomerDraft, Job, Method, Room, Subfloor
from store.trade.layout.lay import Lay, LayRules
from store.trade.outline import rectangle
from store.trade.plans import Plan, search, shape_of
from store.trade.products import Board, Glue
from store.trade.readings import Air, BoardMoisture, Carbide, Hygrometer, Measure, Reading, Straightedge, TimberSubfloor
from store.trade.standing import standing_at
from store.trade.stock_take import Difference
from store.trade.verdict import Hold, Standing

READING_ROOM = "Reading room"
FIRM = Firm(name="Gannet Quay Floors", rev=1)
OAK = Board(
    id=1,
    rev=1,
    code="OAK-190",
    name="Oak 190",
    length_mm=1900,
    width_mm=190,
    thickness_mm=14,
    boards_per_pack=6,
    acclimatise_hours=168,
    build="engineered",
    species="oak",
    price_minor=18240,
)
MS = Glue(
    id=2,
    rev=1,
    code="MS-15",
    name="Elastic glue",
    rate_g_per_m2=1000,
    tub_kg=15,
    open_time_min=40,
    walk_on_hours=24,
    full_load_hours=72,
    price_minor=9900,
)
_PILES = {
    Order: "orders",
    Delivery: "deliveries",
    Move: "moves",
    Opening: "openings",
    Reading: "readings",
    Smoothing: "smoothings",
    Laying: "layings",
    Count: "counts",
    Snag: "snags",
    Plan: "plans",
    Difference: "differences",
    Credit: "credits",
}


def when(moment: str, firm: Firm = FIRM) -> datetime:
    """'2026-11-17 09:30' by the wall clock of the firm; an offset in the text goes before it."""
    read = datetime.fromisoformat(moment)
    return read if read.tzinfo else read.replace(tzinfo=firm.zone)


def hours(count: float) -> timedelta:
    return timedelta(hours=count)


ZERO = datetime(2026, 11, 2, 8, tzinfo=UTC)


def tick(hour: float, good: bool = True) -> Tick:
    return Tick(at=ZERO + hours(hour), inside=good)


def ready_hour(count: HourCount) -> float | None:
    """The hour after ZERO at which the wait is or would be over."""
    return None if count.ready_at is None else (count.ready_at - ZERO) / hours(1)


def a_room(name: str = READING_ROOM, *, wide: int = 5200, deep: int = 4100, **changes: Any) -> Room:
    usual = {
        "outline": rectangle(wide, deep),
        "subfloor": Subfloor.OSB,
        "method": Method.GLUED,
        "board": OAK.code,
        "glue": MS.code,
        "id": 1,
        "rev": 1,
    }
    return Room(name=name, **(usual | changes))


def an_order(packs: int = 12, *, on: str = "2026-11-10", due: str | None = "2026-11-17", of: str = "OAK-190") -> Order:
    due_on = date.fromisoformat(due) if due else None
    return Order(id=1, on=date.fromisoformat(on), due_on=due_on, lines=(OrderLine(product=of, packs=packs),))


def a_place(word: str) -> Place:
    if word == "unit":
        return UNIT
    if word == "shelf":
        return Place(kind=PlaceKind.SHELF)
    return in_room(word)


def a_delivery(
    moment: str = "2026-11-17 09:30",
    packs: int = 12,
    *,
    into: str = READING_ROOM,
    damaged: int = 0,
    batch: str = "K41",
    of: str = "OAK-190",
) -> Delivery:
    line = DeliveryLine(product=of, batch=batch, packs=packs, damaged_packs=damaged)
    return Delivery(id=1, at=when(moment), into=a_place(into), lines=(line,))


def a_move(moment: str, packs: int, source: str, target: str, *, batch: str = "K41") -> Move:
    return Move(
        id=1,
        at=when(moment),
        product=OAK.code,
        batch=batch,
        packs=packs,
        source=a_place(source),
        target=a_place(target),
    )


def an_opening(moment: str, packs: int, *, room: str = READING_ROOM, batch: str = "K41") -> Opening:
    return Opening(id=1, at=when(moment), room=room, product=OAK.code, batch=batch, packs=packs)


def a_reading(moment: str, measure: Measure, room: str = READING_ROOM) -> Reading:
    return Reading(id=1, room=room, at=when(moment), measure=measure)


def air(moment: str, temp: float = 20.5, rh: float = 52, *, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, Air(temp_c=temp, rh_percent=rh), room)


def cold(moment: str, *, room: str = READING_ROOM) -> Reading:
    return air(moment, temp=14.0, room=room)


def timber(moment: str, percent: float = 9.5, *, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, TimberSubfloor(percent=percent), room)


def carbide(moment: str, percent: float, *, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, Carbide(percent=percent), room)


def hygrometer(moment: str, rh: float, *, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, Hygrometer(rh_percent=rh), room)


def board_moisture(moment: str, percent: float, *, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, BoardMoisture(percent=percent), room)


def straightedge(moment: str, gap: float = 2, *, span: int = 2000, room: str = READING_ROOM) -> Reading:
    return a_reading(moment, Straightedge(span_mm=span, gap_mm=gap), room)


def smoothed(moment: str, room: str = READING_ROOM) -> Smoothing:
    return Smoothing(id=1, room=room, at=when(moment))


def laid(begun: str, ended: str | None = None, m2: float | None = None, *, room: str = READING_ROOM) -> Laying:
    area = None if m2 is None else round(m2 * 1_000_000)
    return Laying(id=1, rev=1, room=room, begun_at=when(begun), ended_at=when(ended) if ended else None, area_mm2=area)


def a_count(moment: str, packs: int = 0, boards: int = 0, *, to: str = "customer", batch: str = "K41") -> Count:
    return Count(id=1, at=when(moment), product=OAK.code, batch=batch, packs=packs, boards=boards, to=Destination(to))


@cache
def _a_lay(room: Room, board: Board) -> Lay:
    return next(search(room, board, LayRules(stagger_mm=400), 1)).lay


def a_plan(room: Room, moment: str = "2026-11-09 10:00", *, board: Board = OAK, **changes: Any) -> Plan:
    """A plan that fits the room: the first lay that a search comes upon."""
    usual = {
        "room": room.name,
        "at": when(moment),
        "board": board.code,
        "rules": LayRules(stagger_mm=400),
        "seed": 1,
        "shape": shape_of(room, board),
        "lay": _a_lay(room, board),
        "id": 1,
    }
    return Plan(**(usual | changes))


def signed(moment: str) -> Handover:
    return Handover(id=1, signed_at=when(moment), by="M. Sandell")


def a_job(
    *events: object,
    rooms: tuple[Room, ...] | None = None,
    products: tuple[Board | Glue, ...] = (OAK, MS),
    handover: Handover | None = None,
) -> JobFacts:
    """A job with these orders, deliveries, readings…, each filed in the order given."""
    piles: dict[str, list[Any]] = defaultdict(list)
    for number, event in enumerate(events, start=1):
        piles[_PILES[type(event)]].append(replace(event, id=number))
    return JobFacts(
        job=Job(id=1, rev=1, ref="L-0007", title="Reading room", customer=CustomerDraft(name="The Lamp Room")),
        rooms=rooms or (a_room(),),
        products={product.code: product for product in products},
        handover=handover,
        **{pile: tuple(filed) for pile, filed in piles.items()},
    )


def standing(facts: JobFacts, moment: str, firm: Firm = FIRM) -> Standing:
    return standing_at(firm, facts, when(moment, firm))


def hold(facts: JobFacts, kind: str, moment: str, *, room: str = READING_ROOM, firm: Firm = FIRM) -> Hold:
    """The one hold of this kind on this room."""
    (found,) = (one for one in standing(facts, moment, firm).holds if one.kind == kind and one.room == room)
    return found
