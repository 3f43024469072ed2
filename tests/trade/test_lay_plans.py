"""A lay plan is one for a room as it was measured and a board as it was sold; what is no lay is not taken."""

import re
from dataclasses import replace

import pytest

from store.trade.facts import known_at
from store.trade.needs import current_plan
from store.trade.outline import rectangle
from store.trade.plan_checks import problems_with_floor, problems_with_plan, problems_with_terms
from store.trade.plans import fits, in_short, search, shape_of
from tests.trade.conftest import OAK, a_job, a_plan, a_room, when

ROOM = a_room(wide=4000, deep=3000)
PLAN = a_plan(ROOM)
HEARTH = ((1000, 1000), (1500, 1000), (1500, 1500), (1000, 1500))
MATTERS = {
    "outline": {"outline": rectangle(4000, 3001)},
    "outline's first corner": {"outline": (*rectangle(4000, 3000)[1:], rectangle(4000, 3000)[0])},
    "cut-outs": {"cut_outs": (HEARTH,)},
    "gap": {"gap_mm": 12},
    "direction": {"direction_deg": 90.0},
    "start": {"start": 2},
}
DOES_NOT = {
    "cut loss": {"cut_loss_percent": 15.0},
    "heating": {"heated": True},
    "glue": {"glue": None},
    "site": {"site_ready_on": when("2026-11-09 00:00").date()},
}
SIZES = ("length_mm", "width_mm", "boards_per_pack")


@pytest.mark.parametrize("what", MATTERS)
def test_a_room_measured_anew_asks_for_a_new_plan(what: str) -> None:
    assert fits(PLAN, ROOM, OAK)
    assert not fits(PLAN, replace(ROOM, **MATTERS[what]), OAK)


@pytest.mark.parametrize("size", SIZES)
def test_a_board_of_another_size_asks_for_a_new_plan(size: str) -> None:
    assert not fits(PLAN, ROOM, replace(OAK, **{size: getattr(OAK, size) + 1}))


@pytest.mark.parametrize("what", DOES_NOT)
def test_what_the_lay_does_not_depend_on_leaves_the_plan_standing(what: str) -> None:
    assert fits(PLAN, replace(ROOM, **DOES_NOT[what]), replace(OAK, price_minor=1, acclimatise_hours=0))


def test_a_plan_is_for_one_room_and_one_board_of_the_job() -> None:
    assert not fits(PLAN, replace(ROOM, name="Hall"), OAK)
    assert not fits(PLAN, ROOM, replace(OAK, code="OAK-190-B"))


def test_the_fingerprint_is_sixteen_figures_and_the_same_however_a_direction_is_written() -> None:
    shape = shape_of(ROOM, OAK)
    assert re.fullmatch("[0-9a-f]{16}", shape)
    assert len({shape_of(replace(ROOM, direction_deg=one), OAK) for one in (0, 0.0, -0.0)}) == 1
    assert shape != shape_of(replace(ROOM, direction_deg=0.0), OAK)


def test_the_latest_plan_that_still_fits_is_the_one_that_counts() -> None:
    old, new = a_plan(ROOM, "2026-11-09 10:00", seed=1), a_plan(ROOM, "2026-11-10 10:00", seed=2)
    wider = replace(ROOM, outline=rectangle(4100, 3000))
    other_shape = a_plan(wider, "2026-11-11 10:00", seed=3)
    facts = a_job(new, other_shape, old, rooms=(ROOM,))
    assert current_plan(facts, ROOM).seed == 2
    assert current_plan(replace(facts, rooms=(wider,)), wider).seed == 3
    assert current_plan(replace(facts, plans=facts.plans[2:]), ROOM).seed == 1
    assert current_plan(replace(facts, plans=()), ROOM) is None


def test_of_two_plans_of_one_moment_the_one_filed_last_counts() -> None:
    facts = a_job(a_plan(ROOM, seed=1), a_plan(ROOM, seed=2), rooms=(ROOM,))
    assert current_plan(facts, ROOM).seed == 2


def test_a_plan_made_later_is_not_known_yet() -> None:
    facts = a_job(a_plan(ROOM, "2026-11-10 10:00"), rooms=(ROOM,))
    for moment, known in (("2026-11-10 09:59", 0), ("2026-11-10 10:00", 1)):
        assert len(known_at(facts, when(moment), when(moment).date()).plans) == known


def test_a_search_for_a_jobs_room_keeps_its_gap_direction_and_start() -> None:
    *_, best = search(replace(ROOM, gap_mm=15, direction_deg=90.0, start=1), OAK, PLAN.rules, 1)
    assert (best.done, best.lay.direction_deg) == (1.0, 90.0)
    assert best.lay.floor_area_mm2 == pytest.approx(3970 * 2970)


def test_a_plan_in_short_has_its_counts_and_rules_but_no_piece() -> None:
    short = in_short(PLAN)
    assert (short.lay.boards, short.rules, short.lay.pieces) == (PLAN.lay.boards, PLAN.rules, ())


FACTS = a_job(rooms=(ROOM, a_room("Hall", board="ASH-140")), products=(OAK, replace(OAK, code="ASH-140")))
NOW = when("2026-11-09 10:00")


def fields_of(problems) -> list[str]:
    return [problem.field for problem in problems]


def test_a_plan_that_fits_is_taken() -> None:
    assert problems_with_plan(PLAN, FACTS, NOW) == ()


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("at", {"at": when("2026-11-09 10:01")}),
        ("room", {"room": "Cellar"}),
        ("board", {"room": "Hall"}),
        ("shape", {"shape": "0" * 16}),
        ("culls_percent", {"culls_percent": 50.1}),
        ("culls_percent", {"culls_percent": float("nan")}),
        ("confidence_percent", {"confidence_percent": 49.9}),
        ("confidence_percent", {"confidence_percent": 100.0}),
        ("spare_packs", {"spare_packs": -1}),
        ("spare_packs", {"spare_packs": 1_001}),
        ("seed", {"seed": -1}),
        ("lay", {"rules": replace(PLAN.rules, kerf_mm=-1)}),
        ("lay", {"rules": replace(PLAN.rules, shortest_mm=1901)}),
    ],
)
def test_a_plan_that_cannot_be_is_refused_at_its_field(field: str, changes: dict[str, object]) -> None:
    problems = problems_with_plan(replace(PLAN, **changes), FACTS, NOW)
    assert fields_of(problems) == [field]
    assert problems[0].say.endswith(".")


LAY = PLAN.lay
FIRST = LAY.pieces[0]
NO_LAYS = {
    "fewer boards than its pieces come from": {"boards": LAY.boards - 1, "least_boards": 1},
    "a bound above its boards": {"least_boards": LAY.boards + 1},
    "other packs": {"packs": LAY.packs + 1},
    "no floor": {"floor_area_mm2": 0.0},
    "a floor that is no number": {"floor_area_mm2": float("nan")},
    "more floor than the room": {"floor_area_mm2": LAY.net_area_mm2 + 1.0},
    "a direction that is no number": {"direction_deg": float("inf")},
    "a row without width": {"row_edges_mm": ((5, 5), *LAY.row_edges_mm[1:])},
    "no pieces": {"pieces": ()},
    "a piece in no row": {"pieces": (replace(FIRST, row=LAY.rows), *LAY.pieces[1:])},
    "a piece of two lengths": {"pieces": (replace(FIRST, to_mm=FIRST.to_mm + 1), *LAY.pieces[1:])},
    "a piece longer than its board": {
        "pieces": (replace(FIRST, board_from_mm=0, to_mm=FIRST.from_mm + 1901, board_to_mm=1901), *LAY.pieces[1:])
    },
    "a piece cut twice": {"pieces": (*LAY.pieces, FIRST)},
    "bare floor": {
        "boards": 1,
        "least_boards": 1,
        "packs": 1,
        "pieces": (replace(FIRST, board=1),),
    },
}


@pytest.mark.parametrize("what", NO_LAYS)
def test_counts_and_pieces_that_never_were_a_lay_are_refused(what: str) -> None:
    forged = replace(PLAN, lay=replace(LAY, **NO_LAYS[what]))
    assert fields_of(problems_with_terms(forged)) == ["lay"]


def test_a_lay_of_a_smaller_room_is_not_taken_for_this_one() -> None:
    small = a_plan(a_room(wide=2000, deep=1500))
    assert fields_of(problems_with_floor(replace(small, shape=PLAN.shape), ROOM)) == ["lay"]
    assert problems_with_floor(small, ROOM) == ()  # one for another shape, which does not count


def test_pieces_of_one_board_leave_the_kerf_between_them() -> None:
    assert problems_with_terms(replace(PLAN, rules=replace(PLAN.rules, kerf_mm=3))) == ()
    wider_saw = replace(PLAN, rules=replace(PLAN.rules, kerf_mm=1900))
    assert fields_of(problems_with_terms(wider_saw)) == ["lay"]
