"""Packs needed by plan: the boards of the lays, boards in case some are not good, and spare packs, rounded up once."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.counts import packs_used, reckon
from store.trade.needs import wanted
from store.trade.outline import rectangle
from store.trade.stacks import packs_for
from store.trade.verdict import Need
from tests.trade.conftest import OAK, a_count, a_delivery, a_job, a_plan, a_room, an_order, laid, standing

ROOM = a_room(wide=4000, deep=3000)
STUDY = a_room("Study", wide=2900, deep=2600)


def with_boards(plan, boards: int):
    return replace(plan, lay=replace(plan.lay, boards=boards))


# Worked out beforehand from the binomial distribution, boards and culls to boards to have at 50, 80, 90 and 95 %.
@pytest.mark.parametrize(
    ("boards", "culls", "to_have", "packs"),
    [
        (79, 3.0, (81, 83, 84, 84), 14),
        (31, 3.0, (32, 33, 33, 34), 6),
        (138, 2.0, (141, 142, 143, 144), 24),
        (26, 5.0, (27, 28, 29, 30), 5),
        (10, 5.0, (10, 11, 12, 12), 2),
        (220, 3.0, (227, 229, 230, 231), 39),
        (79, 0.0, (79, 79, 79, 79), 14),
    ],
)
def test_boards_for_culls_are_as_many_as_the_confidence_asks(boards, culls, to_have, packs) -> None:
    for confidence, have in zip((50.0, 80.0, 90.0, 95.0), to_have, strict=True):
        plan = with_boards(a_plan(ROOM, culls_percent=culls, confidence_percent=confidence), boards)
        need = wanted(a_job(plan, rooms=(ROOM,)), OAK.code)
        assert (need.lay_boards, need.cull_boards) == (boards, have - boards)
        assert need.packs == packs or confidence != 90.0


def test_spare_packs_come_whole_on_top_and_are_told_apart() -> None:
    plan = with_boards(a_plan(ROOM, spare_packs=2), 79)
    assert wanted(a_job(plan, rooms=(ROOM,)), OAK.code) == Need(
        product=OAK.code, lay_boards=79, cull_boards=5, allowed_boards=0, spare_packs=2, packs=16, by_plan=True
    )


def test_a_room_without_a_plan_is_counted_by_its_cut_loss_before_rounding_up_once() -> None:
    # 2.9 × 2.6 m with 10 % is 8.294 m², at 0.361 m² a board 22.97 boards; 32 + 22.97 are 54.97: 10 packs of 6.
    plan = with_boards(a_plan(ROOM, culls_percent=0.0), 32)
    need = wanted(a_job(plan, rooms=(ROOM, STUDY)), OAK.code)
    assert (need.lay_boards, need.cull_boards, need.allowed_boards, need.packs) == (32, 0, 23, 10)
    # 37 + 22.97 are 59.97, still 10 packs; a board more is 60.97 and breaks into the eleventh.
    for boards, packs in ((37, 10), (38, 11)):
        more = with_boards(a_plan(ROOM, culls_percent=0.0), boards)
        assert wanted(a_job(more, rooms=(ROOM, STUDY)), OAK.code).packs == packs


def test_rooms_whose_culls_are_expected_alike_share_their_safety() -> None:
    first, second = with_boards(a_plan(ROOM), 40), with_boards(a_plan(STUDY), 39)
    together = wanted(a_job(first, second, rooms=(ROOM, STUDY)), OAK.code)
    assert (together.lay_boards, together.cull_boards) == (79, 5)
    apart = wanted(a_job(first, replace(second, culls_percent=2.0), rooms=(ROOM, STUDY)), OAK.code)
    alone = [
        wanted(a_job(plan, rooms=(room,)), OAK.code).cull_boards
        for plan, room in ((first, ROOM), (replace(second, culls_percent=2.0), STUDY))
    ]
    assert apart.cull_boards == sum(alone)


def test_a_plan_that_no_longer_fits_does_not_count() -> None:
    facts = a_job(a_plan(ROOM, spare_packs=3), rooms=(ROOM,))
    wider = replace(ROOM, outline=rectangle(4100, 3000))
    assert wanted(facts, OAK.code).by_plan
    need = wanted(replace(facts, rooms=(wider,)), OAK.code)
    assert (need.by_plan, need.spare_packs, need.packs) == (False, 0, packs_for((wider,), OAK))


@given(
    st.lists(
        st.tuples(st.integers(100, 30_000), st.integers(100, 30_000), st.decimals(0, 100, places=2)),
        min_size=1,
        max_size=3,
    ),
    st.integers(1, 60),
)
def test_without_a_plan_the_need_is_what_the_floor_and_its_cut_loss_say(rooms, per_pack) -> None:
    made = tuple(
        a_room(f"Room {index}", wide=wide, deep=deep, cut_loss_percent=float(loss))
        for index, (wide, deep, loss) in enumerate(rooms)
    )
    board = replace(OAK, boards_per_pack=per_pack)
    need = wanted(a_job(rooms=made, products=(board,)), OAK.code)
    assert need.packs == packs_for(made, board)
    exact = sum(Fraction(wide * deep) * (100 + Fraction(loss)) / 100 for wide, deep, loss in rooms) / board.board_mm2
    assert need.allowed_boards == -(-exact // 1)
    assert (need.lay_boards, need.cull_boards, need.spare_packs, need.by_plan) == (0, 0, 0, False)


def test_more_boards_than_the_rule_takes_at_once_are_reckoned_in_parts() -> None:
    plans = [with_boards(a_plan(one), 90_000) for one in (ROOM, STUDY)]
    need = wanted(a_job(*plans, rooms=(ROOM, STUDY)), OAK.code)
    assert need.lay_boards == 180_000
    assert need.cull_boards > 5_000


def test_the_packs_hold_and_the_tally_ask_for_the_packs_of_the_plan() -> None:
    plan = with_boards(a_plan(ROOM, spare_packs=1), 31)
    facts = a_job(plan, an_order(7), a_delivery(packs=7), rooms=(ROOM,))
    now = standing(facts, "2026-11-20 09:00")
    (need,) = now.needs
    assert (now.packs[0].needed, need.packs, need.product) == (7, 7, OAK.code)
    assert standing(replace(facts, plans=()), "2026-11-20 09:00").packs[0].needed == 7
    more = replace(facts, plans=(with_boards(plan, 37),))
    assert standing(more, "2026-11-20 09:00").packs[0].needed == 8
    assert standing(more, "2026-11-20 09:00").stage == "delivery"


def test_before_the_plan_was_made_the_job_stood_without_it() -> None:
    plan = with_boards(a_plan(ROOM, "2026-11-10 10:00"), 79)
    facts = a_job(plan, rooms=(ROOM,))
    needed = [standing(facts, moment).packs[0].needed for moment in ("2026-11-10 09:00", "2026-11-10 10:00")]
    assert needed == [packs_for((ROOM,), OAK), 14]


def test_the_loss_allowed_is_the_plans_and_the_real_loss_is_what_it_was() -> None:
    plan = a_plan(ROOM)
    story = (an_order(8), a_delivery(packs=8), laid("2026-11-24 08:00", "2026-11-24 15:00", 12.0))
    counted = a_count("2026-11-25 09:00", packs=2)
    with_plan, without = (reckon(a_job(*story, counted, *plans, rooms=(ROOM,)), OAK.code) for plans in ((plan,), ()))
    assert with_plan.allowed_loss_percent == pytest.approx(plan.lay.cut_loss_percent)
    assert without.allowed_loss_percent == ROOM.cut_loss_percent
    assert replace(with_plan, allowed_loss_percent=0.0) == replace(without, allowed_loss_percent=0.0)


def test_until_leftovers_are_counted_a_planned_floor_has_used_its_plans_boards() -> None:
    plan = with_boards(a_plan(ROOM), 43)
    facts = a_job(plan, an_order(9), a_delivery(packs=9), rooms=(ROOM,))
    for square_metres, packs in ((12.0, 8), (6.0, 4)):
        done = replace(facts, layings=(laid("2026-11-24 08:00", "2026-11-24 15:00", square_metres),))
        assert packs_used(done, OAK) == packs
