"""How each happening of the made-up firm is filed: one plain function for each word that demo_data uses."""

from collections.abc import Callable
from itertools import islice
from typing import cast

from store.desk import demo_packs
from store.desk.demo_drafts import Toml
from store.desk.demo_scene import Scene
from store.desk.desk import Desk
from store.trade.bookings import BookingDraft, Part
from store.trade.events import (
    HandoverDraft,
    LayingDraft,
    NoteDraft,
    OpeningDraft,
    SmoothingDraft,
    SnagDraft,
)
from store.trade.evidence import Evidence
from store.trade.layout.lay import LayRules
from store.trade.plans import PlanDraft, shape_of, size_of
from store.trade.readings import KINDS, Measure, ReadingDraft

_FIGURES = ("temp_c", "rh_percent", "percent", "span_mm", "gap_mm", "spacing_mm")


def _taken_on(desk: Desk, scene: Scene) -> None:
    desk.jobs.take_on(scene.job)
    for room in scene.rooms:
        desk.jobs.add_room(scene.ref, room)
    for flight in scene.flights:
        desk.flights.add(scene.ref, flight)


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
    "ordered": demo_packs.ordered,
    "confirmed": demo_packs.confirmed,
    "credited": demo_packs.credited,
    "came": demo_packs.came,
    "unit_counted": demo_packs.unit_counted,
    "carried": demo_packs.carried,
    "read": _read,
    "smoothed": _smoothed,
    "started": _started,
    "finished": _finished,
    "counted": demo_packs.counted,
    "signed": _signed,
    "snag": _snag,
    "note": _note,
    "planned": _planned,
    "booked": _booked,
}
