"""Packs for rooms laid in a pattern or with a border: counted block by block, in the job's one need."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.trade.counts import reckon
from store.trade.jobs import problems_with_room
from store.trade.needs import boards_worth, loss_percent, take_off_of, wanted
from store.trade.plans import floor_in, search, shape_of
from store.trade.products import problems_with_product
from store.trade.surveyed import Pattern
from tests.trade.conftest import OAK, a_job, a_plan, a_room

ROOM = a_room(wide=4000, deep=3000)
HERRINGBONE = replace(ROOM, pattern=Pattern.HERRINGBONE)
CHEVRON = replace(ROOM, pattern=Pattern.CHEVRON)


@pytest.mark.parametrize("room", [HERRINGBONE, CHEVRON, replace(HERRINGBONE, border_mm=190)])
def test_a_pattern_is_needed_as_its_take_off_counts_it(room):
    taken, need = take_off_of(room, OAK), wanted(a_job(rooms=(room,)), OAK.code)
    assert (need.pattern_boards, need.allowed_boards, need.by_plan) == (taken.boards, 0, False)
    assert need.packs == -(-taken.boards // 6)
    assert boards_worth(a_job(rooms=(room,)), room) == taken.boards
    assert loss_percent(a_job(rooms=(room,)), room) == taken.loss_percent


def test_left_and_right_blocks_are_rounded_up_each_for_itself():
    handed = replace(OAK, handed=True, boards_per_pack=100)
    facts = replace(a_job(rooms=(HERRINGBONE,)), products={OAK.code: handed})
    assert wanted(facts, OAK.code).packs == 2
    plain = replace(facts, products={OAK.code: replace(handed, handed=False)})
    assert wanted(plain, OAK.code).packs == 1


def test_a_straight_room_beside_a_pattern_keeps_its_allowance_and_is_rounded_up_with_it():
    straight = a_room("Study", wide=2900, deep=2600)
    need = wanted(a_job(rooms=(HERRINGBONE, straight)), OAK.code)
    # 2.9 × 2.6 m with 10 % is 8.294 m², at 0.361 m² a board 22.97 boards.
    assert need.allowed_boards == 23
    taken = take_off_of(HERRINGBONE, OAK).boards
    assert need.packs == -(-(taken + Fraction(8_294_000, 361_000)) // 6)


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 300), st.integers(1, 200))
def test_a_wider_border_is_more_border_and_less_field(border, more):
    narrow, wide = (take_off_of(replace(HERRINGBONE, border_mm=width), OAK) for width in (border, border + more))
    assert wide.border_boards >= narrow.border_boards
    assert wide.blocks <= narrow.blocks


def test_a_planned_rooms_border_comes_on_top_of_its_lay():
    room = replace(ROOM, border_mm=190)
    *_, best = search(room, OAK, a_plan(ROOM).rules, 1)
    plan = replace(a_plan(room), lay=best.lay, shape=shape_of(room, OAK), culls_percent=0.0)
    need = wanted(a_job(plan, rooms=(room,)), OAK.code)
    # The middle line of a border 190 wide, 10 from the walls: 2 × (3790 + 2790) = 13,160; mitres 4 × 190: 13,920 mm,
    # eight boards of 1900.
    assert (need.lay_boards, need.pattern_boards) == (best.lay.boards, 8)
    assert best.lay.floor_area_mm2 == pytest.approx((4000 - 400) * (3000 - 400))
    assert boards_worth(a_job(plan, rooms=(room,)), room) == best.lay.boards + 8


def test_a_lay_made_for_a_plain_floor_no_longer_counts_once_the_room_gets_a_border():
    plan = a_plan(ROOM)
    assert wanted(a_job(plan, rooms=(ROOM,)), OAK.code).by_plan
    assert not wanted(a_job(plan, rooms=(replace(ROOM, border_mm=100),)), OAK.code).by_plan
    assert not wanted(a_job(plan, rooms=(replace(ROOM, line_mm=30),)), OAK.code).by_plan


def test_a_pattern_that_gap_and_border_leave_no_field_for_is_counted_by_the_allowance():
    room = replace(HERRINGBONE, border_mm=1500)
    assert wanted(a_job(rooms=(room,)), OAK.code).packs == wanted(a_job(rooms=(ROOM,)), OAK.code).packs
    (problem,) = problems_with_room(room, [OAK.code], [room.glue or ""], ())
    assert problem.field == "border_mm"


def test_the_close_out_allows_what_the_pattern_counts():
    assert reckon(a_job(rooms=(HERRINGBONE,)), OAK.code).allowed_loss_percent == pytest.approx(
        take_off_of(HERRINGBONE, OAK).loss_percent
    )


def test_a_field_inside_a_border_is_what_is_laid():
    assert floor_in(replace(ROOM, border_mm=190)).border_mm == 190


@pytest.mark.parametrize(
    ("changes", "field"),
    [
        ({"lengths": ((1900, 5), (1000, 2))}, "lengths"),
        ({"lengths": ((1800, 6),)}, "lengths"),
        ({"lengths": ((1000, 3), (1900, 3))}, "lengths"),
        ({"lengths": ((1900, 3), (1900, 3))}, "lengths"),
        ({"lengths": ((1900, 6),), "shortest_mm": 500}, "lengths"),
        ({"shortest_mm": 1900}, "shortest_mm"),
        ({"shortest_mm": 10}, "shortest_mm"),
        ({"shortest_mm": 500, "pack_run_mm": 2_999}, "pack_run_mm"),
        ({"shortest_mm": 500, "pack_run_mm": 11_401}, "pack_run_mm"),
        ({"pack_run_mm": 11_400}, "pack_run_mm"),
    ],
)
def test_a_pack_whose_lengths_cannot_be_is_told_at_its_field(changes, field):
    assert [problem.field for problem in problems_with_product(replace(OAK, **changes))] == [field]


@pytest.mark.parametrize(
    ("changes", "run_mm"),
    [
        ({}, 11_400),
        ({"lengths": ((1900, 4), (1000, 2))}, 9_600),
        ({"shortest_mm": 500, "pack_run_mm": 7_000}, 7_000),
        ({"shortest_mm": 500}, 7_200),
    ],
)
def test_a_pack_covers_what_its_boards_measure_end_to_end(changes, run_mm):
    board = replace(OAK, **changes)
    assert problems_with_product(board) == ()
    assert (board.run_mm, board.pack_mm2, board.board_mm2 * 6) == (run_mm, run_mm * 190, run_mm * 190)
