"""How each happening of the made-up firm is filed: one plain function for each word that demo_data uses."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from itertools import islice
from typing import cast

from store.desk.demo_drafts import Toml
from store.desk.desk import Desk
from store.trade.bookings import BookingDraft, Part
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.events import (
    SHELF,
    UNIT,
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
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.evidence import Evidence
from store.trade.flights import FlightDraft
from store.trade.jobs import UNIT_WORD, JobDraft, RoomDraft
from store.trade.layout.lay import LayRules
from store.trade.plans import PlanDraft, shape_of, size_of
from store.trade.readings import KINDS, Measure, ReadingDraft
from store.trade.stock_take import CountedLine, StockTake

_FIGURES = ("temp_c", "rh_percent", "percent", "span_mm", "gap_mm", "spacing_mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One happening: the job it belongs to, its moment, and what demo_data tells about it."""

    ref: str
    at: datetime
    told: Toml
    job: JobDraft
    rooms: tuple[RoomDraft, ...]
    flights: tuple[FlightDraft, ...]
    day: Callable[[str], date]

    def word(self, key: str) -> str:
        return str(self.told.get(key, ""))

    def lines(self) -> list[Toml]:
        return cast("list[Toml]", self.told["lines"])


def _place(word: str) -> Place:
    return {UNIT_WORD: UNIT, "shelf": SHELF}.get(word) or in_room(word)


def _taken_on(desk: Desk, scene: Scene) -> None:
    desk.jobs.take_on(scene.job)
    for room in scene.rooms:
        desk.jobs.add_room(scene.ref, room)
    for flight in scene.flights:
        desk.flights.add(scene.ref, flight)


def _ordered(desk: Desk, scene: Scene) -> None:
    lines = tuple(
        OrderLine(
            product=str(one["product"]),
            packs=cast("int", one["packs"]),
            price_minor=cast("int | None", one.get("price_minor")),
        )
        for one in scene.lines()
    )
    draft = OrderDraft(
        on=scene.at.astimezone(desk.zone()).date(),
        due_on=scene.day(scene.word("due")),
        lines=lines,
        supplier=scene.word("supplier"),
        freight_minor=cast("int", scene.told.get("freight_minor", 0)),
    )
    desk.packs.order(scene.ref, draft)


def _confirmed(desk: Desk, scene: Scene) -> None:
    lines = tuple(
        ConfirmedLine(
            product=str(one["product"]),
            packs=cast("int", one["packs"]),
            due_on=scene.day(str(one["due"])),
            price_minor=cast("int | None", one.get("price_minor")),
        )
        for one in scene.lines()
    )
    order = desk.jobs.card(scene.ref).facts.orders[-1]
    desk.orders.confirm(scene.ref, order, ConfirmationDraft(at=scene.at, lines=lines, number=scene.word("number")))


def _unit_counted(desk: Desk, scene: Scene) -> None:
    """A stock-take of the lines that are told; the job it stands with only gives its moment."""
    filed = {(one.product, one.batch): one for one in desk.stock.lines() if not one.job_ref}
    lines = []
    for one in scene.lines():
        told = filed[str(one["product"]), str(one["batch"])]
        per_pack = desk.jobs.card(scene.ref).facts.board(told.product).boards_per_pack
        lines.append(
            CountedLine(
                product=told.product,
                batch=told.batch,
                job_ref="",
                packs=cast("int", one["packs"]),
                boards=cast("int", one.get("boards", 0)),
                filed=told.packs * per_pack + told.boards,
            )
        )
    desk.stock.book(StockTake(lines=tuple(lines), why=scene.word("why")))


def _came(desk: Desk, scene: Scene) -> None:
    lines = tuple(
        DeliveryLine(
            product=str(one["product"]),
            batch=str(one.get("batch", "")),
            packs=cast("int", one["packs"]),
            damaged_packs=cast("int", one.get("damaged", 0)),
            use_by=scene.day(str(one["use_by"])) if "use_by" in one else None,
        )
        for one in scene.lines()
    )
    desk.packs.take_in(scene.ref, DeliveryDraft(at=scene.at, into=_place(scene.word("into")), lines=lines))


def _carried(desk: Desk, scene: Scene) -> None:
    desk.packs.carry(
        scene.ref,
        MoveDraft(
            at=scene.at,
            product=scene.word("product"),
            batch=scene.word("batch"),
            packs=cast("int", scene.told["packs"]),
            source=_place(scene.word("from")),
            target=_place(scene.word("to")),
        ),
    )


def _read(desk: Desk, scene: Scene) -> None:
    figures = {key: value for key, value in scene.told.items() if key in _FIGURES}
    if "heights_mm" in scene.told:
        figures["heights_mm"] = tuple(tuple(row) for row in cast("list[list[float]]", scene.told["heights_mm"]))
    measure = cast("Callable[..., Measure]", KINDS[scene.word("kind")])(**figures)
    draft = ReadingDraft(
        room=scene.word("room"),
        at=scene.at,
        measure=measure,
        taken_by=scene.word("by"),
        evidence=Evidence(point=scene.word("point"), instrument=scene.word("instrument")),
    )
    desk.readings.take(scene.ref, draft)


def _smoothed(desk: Desk, scene: Scene) -> None:
    draft = SmoothingDraft(room=scene.word("room"), at=scene.at, note=scene.word("note"))
    desk.readings.smoothed(scene.ref, draft)


def _started(desk: Desk, scene: Scene) -> None:
    openings = tuple(
        OpeningDraft(
            at=scene.at,
            room=scene.word("room"),
            product=str(one["product"]),
            batch=str(one["batch"]),
            packs=cast("int", one["packs"]),
        )
        for one in cast("list[Toml]", scene.told.get("opened", []))
    )
    desk.laying.start(scene.ref, LayingDraft(room=scene.word("room"), begun_at=scene.at), openings)


def _finished(desk: Desk, scene: Scene) -> None:
    facts = desk.jobs.card(scene.ref).facts
    going_on = next(one for one in facts.layings if one.room == scene.word("room") and one.ended_at is None)
    area = cast("float | None", scene.told.get("area_m2"))
    room = facts.room(scene.word("room"))
    draft = LayingDraft(
        room=room.name,
        begun_at=going_on.begun_at,
        ended_at=scene.at,
        area_mm2=room.net_mm2 if area is None else round(area * 1_000_000),
        tubs=cast("int | None", scene.told.get("tubs")),
    )
    desk.laying.finish(scene.ref, going_on, draft)


def _counted(desk: Desk, scene: Scene) -> None:
    drafts = tuple(
        CountDraft(
            at=scene.at,
            product=str(one["product"]),
            batch=str(one["batch"]),
            packs=cast("int", one.get("packs", 0)),
            boards=cast("int", one.get("boards", 0)),
            to=Destination(str(one["to"])),
        )
        for one in scene.lines()
    )
    desk.closing.count(scene.ref, drafts)


def _signed(desk: Desk, scene: Scene) -> None:
    desk.closing.sign(scene.ref, HandoverDraft(signed_at=scene.at, by=scene.word("by")))


def _snag(desk: Desk, scene: Scene) -> None:
    desk.closing.add_snag(scene.ref, SnagDraft(at=scene.at, what=scene.word("what"), room=scene.word("room")))


def _planned(desk: Desk, scene: Scene) -> None:
    facts = desk.jobs.card(scene.ref).facts
    room = facts.room(scene.word("room"))
    board = facts.board(room.board)
    rules, seed = LayRules.usual_for(size_of(board)), 1
    # The made-up firm is to open at once, so it looks at the first few lays only.
    *_, best = islice(desk.plans.search(room, board, rules, seed), 3)
    draft = PlanDraft(
        room=room.name,
        at=scene.at,
        board=board.code,
        rules=rules,
        seed=seed,
        spare_packs=cast("int", scene.told.get("spare_packs", 0)),
        shape=shape_of(room, board),
        lay=best.lay,
    )
    desk.plans.file(scene.ref, draft)


def _note(desk: Desk, scene: Scene) -> None:
    desk.closing.add_note(scene.ref, NoteDraft(at=scene.at, text=scene.word("text")))


def _booked(desk: Desk, scene: Scene) -> None:
    draft = BookingDraft(
        person=scene.word("who"),
        first=scene.day(scene.word("from")),
        last=scene.day(scene.word("to")),
        room=scene.word("room"),
        part=Part(scene.word("part") or Part.WHOLE.value),
    )
    desk.diary.book(scene.ref, draft)


DEEDS: dict[str, Callable[[Desk, Scene], None]] = {
    "taken_on": _taken_on,
    "ordered": _ordered,
    "confirmed": _confirmed,
    "came": _came,
    "unit_counted": _unit_counted,
    "carried": _carried,
    "read": _read,
    "smoothed": _smoothed,
    "started": _started,
    "finished": _finished,
    "counted": _counted,
    "signed": _signed,
    "snag": _snag,
    "note": _note,
    "planned": _planned,
    "booked": _booked,
}
