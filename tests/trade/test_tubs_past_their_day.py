"""Glue past its day: it holds no floor, is ordered again, and is gone once it was taken away."""

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.events import Count, Delivery, DeliveryLine, Move, OrderLine
from store.trade.facts import JobFacts
from store.trade.lasting import will_it_last
from store.trade.shopping import still_to_order
from store.trade.stock_take import Difference, Way
from store.trade.tubs import glue_on_hand
from store.trade.verdict import DeedKind, Hold, HoldState, Why
from tests.trade.conftest import (
    FIRM,
    MS,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    a_place,
    an_order,
    hold,
    laid,
    standing,
    when,
)

# 21.32 m² at 1,000 g/m² in tubs of 15 kg: 1.42 tubs, so two whole ones.
DAY = "2026-11-25 08:00"
STALE, FRESH = date(2026, 11, 20), date(2027, 3, 1)
BOARDS = (an_order(12), a_delivery())


def tubs(
    many: int = 2, use_by: date | None = STALE, *, at: str = "2026-11-17 09:30", batch: str = "G1", into: str = "unit"
) -> Delivery:
    line = DeliveryLine(product=MS.code, batch=batch, packs=many, use_by=use_by)
    return Delivery(id=1, at=when(at), into=a_place(into), lines=(line,))


def carried(many: int, source: str, target: str, *, at: str = "2026-11-22 09:00", batch: str = "G1") -> Move:
    return replace(a_move(at, many, source, target, batch=batch), product=MS.code)


def scrapped(many: int, *, at: str = "2026-11-22 09:00", batch: str = "G1", to: str = "scrap") -> Count:
    return replace(a_count(at, many, to=to, batch=batch), product=MS.code)


def glue_hold(*events: object, at: str = DAY) -> Hold:
    return hold(a_job(*BOARDS, *events), "glue", at)


def told(*events: object, at: str = DAY) -> tuple[HoldState, Why, int | None]:
    found = glue_hold(*events, at=at)
    return found.state, found.why, found.packs


def tubs_to_order(facts: JobFacts, at: str = DAY) -> int:
    lines = still_to_order(facts, standing(facts, at), when(at).date())
    return sum(one.packs for one in lines if one.product == MS.code)


# ---- what is still to order


def test_tubs_past_their_day_are_ordered_again_as_the_hold_says() -> None:
    facts = a_job(*BOARDS, tubs())
    assert told(tubs()) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)
    assert still_to_order(facts, standing(facts, DAY), when(DAY).date()) == (OrderLine(product=MS.code, packs=2),)
    on_its_day = "2026-11-20 16:00"
    assert told(tubs(), at=on_its_day) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)
    assert tubs_to_order(facts, on_its_day) == 0


def test_a_tub_past_its_day_is_no_help_to_one_that_is_missing() -> None:
    assert told(tubs(1)) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)
    assert told(tubs(1, FRESH)) == (HoldState.TO_DO, Why.GLUE_SHORT, 1)


def test_what_is_on_order_is_not_ordered_twice() -> None:
    one_more = (tubs(), an_order(3, of=MS.code, due="2026-11-27"))  # two of the three have come
    assert told(*one_more) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 1)
    assert tubs_to_order(a_job(*BOARDS, *one_more)) == 1


_came = st.builds(
    tubs,
    st.integers(1, 3),
    st.sampled_from([STALE, FRESH, None]),
    batch=st.sampled_from(["", "G1", "G2"]),
    at=st.sampled_from(["2026-11-17 09:30", "2026-11-21 09:30"]),
)
_went = st.builds(
    carried,
    st.integers(1, 3),
    st.sampled_from(["unit", "shelf"]),
    st.sampled_from(["unit", "shelf", READING_ROOM]),
    at=st.sampled_from(["2026-11-20 09:30", "2026-11-23 09:30"]),
    batch=st.sampled_from(["", "G1", "G2"]),
)
_counted = st.builds(scrapped, st.integers(0, 3), batch=st.sampled_from(["", "G1", "G2"]))
_ordered = st.builds(an_order, st.integers(1, 5), of=st.just(MS.code), due=st.sampled_from([None, "2026-11-24"]))
_layings = st.builds(
    lambda many: replace(laid("2026-11-24 08:00", "2026-11-24 16:00", 6), tubs=many), st.none() | st.integers(0, 2)
)
_events = st.lists(st.one_of(_came, _went, _counted, _ordered, _layings), max_size=7)


@given(_events)
def test_the_hold_and_what_is_still_to_order_agree_whatever_happened(events: list[object]) -> None:
    facts = a_job(*BOARDS, *events)
    deeds = [deed for deed in standing(facts, DAY).to_do if deed.kind is DeedKind.ORDER_GLUE]
    # Of a job that neither ordered nor took in this glue the hold says nothing.
    if any(isinstance(one, Delivery | Move) for one in events) or any(
        one.lines[0].product == MS.code for one in facts.orders
    ):
        assert sum(deed.packs or 0 for deed in deeds) == tubs_to_order(facts)


@given(_events)
def test_no_more_is_in_date_than_is_left_and_a_later_day_brings_none_back(events: list[object]) -> None:
    facts = a_job(*BOARDS, *events)
    days = [glue_on_hand(facts, MS, day) for day in (date(2026, 11, 19), date(2026, 11, 25), date(2027, 4, 1))]
    assert all(0 <= one.in_date <= one.left for one in days)
    assert days[0].in_date >= days[1].in_date >= days[2].in_date
    assert len({(one.needed, one.left) for one in days}) == 1


# ---- what was taken away is no longer there


@pytest.mark.parametrize("batch", ["G2", "G1", ""])
@pytest.mark.parametrize(
    "gone",
    [
        [scrapped(2)],
        [scrapped(1), scrapped(1, at="2026-11-22 10:00", to="return")],
        [carried(2, "unit", "shelf")],
        [carried(2, "unit", READING_ROOM), carried(2, READING_ROOM, "shelf", at="2026-11-22 10:00")],
        [
            Difference(
                id=1,
                at=when("2026-11-22 09:00"),
                product=MS.code,
                batch="G1",
                packs=2,
                boards=0,
                way=Way.MISSING,
                why="?",
            )
        ],
    ],
)
def test_stale_tubs_that_went_do_not_make_the_fresh_ones_old(gone: list[object], batch: str) -> None:
    # Whether the fresh tubs are of another batch, of the same, or of one that nobody wrote down.
    for fresh in (
        tubs(2, FRESH, at="2026-11-23 09:00", batch=batch),
        tubs(2, None, at="2026-11-23 09:00", batch=batch),
    ):
        assert told(tubs(), *gone, fresh) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)
        assert tubs_to_order(a_job(*BOARDS, tubs(), *gone, fresh)) == 0


def test_fresh_tubs_from_free_stock_take_the_place_of_stale_ones_that_went() -> None:
    no_name = tubs(batch="")
    fresh = carried(2, "shelf", "unit", at="2026-11-23 09:00", batch="")
    assert told(no_name, scrapped(2, batch=""), fresh) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)


def test_stale_tubs_that_come_back_from_free_stock_are_as_stale_as_before() -> None:
    for batch in ("G1", ""):
        there = carried(2, "unit", "shelf", batch=batch)
        back = carried(2, "shelf", "unit", at="2026-11-23 09:00", batch=batch)
        assert told(tubs(batch=batch), there, back) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)
        counted = scrapped(2, batch=batch, to="unit")
        assert told(tubs(batch=batch, into=READING_ROOM), counted, back) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)


def test_more_tubs_of_a_batch_say_the_day_that_the_batch_says() -> None:
    assert told(tubs(1), carried(1, "shelf", "unit")) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)
    other = carried(2, "shelf", "unit", batch="G9")
    assert told(tubs(1), other) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)


def test_fresh_tubs_that_went_leave_the_stale_ones_there() -> None:
    both = (tubs(), tubs(2, FRESH, batch="G2"))
    assert told(*both) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)
    assert told(*both, scrapped(2, batch="G2")) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 2)
    assert told(*both, carried(1, "unit", "shelf", batch="G2")) == (HoldState.TO_DO, Why.GLUE_TOO_OLD, 1)


def test_of_one_batch_with_two_days_the_tubs_that_go_off_first_went_first() -> None:
    both = (tubs(2, FRESH), tubs())
    assert told(*both, scrapped(2)) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)
    assert told(*both, scrapped(3)) == (HoldState.TO_DO, Why.GLUE_SHORT, 1)


def test_glue_past_its_day_was_used_first_and_what_is_left_of_it_may_be_scrapped() -> None:
    half = replace(laid("2026-11-24 08:00", "2026-11-24 16:00", 10.66), tubs=1)
    both = (tubs(), tubs(1, FRESH, batch="G2"))
    on_hand = glue_on_hand(a_job(*BOARDS, *both, half), MS, when(DAY).date())
    assert (on_hand.left, on_hand.in_date) == (2, 1)
    scrap = scrapped(1, at="2026-11-24 17:00")
    on_hand = glue_on_hand(a_job(*BOARDS, *both, half, scrap), MS, when(DAY).date())
    assert (on_hand.left, on_hand.in_date) == (1, 1)


def test_what_goes_from_free_stock_elsewhere_never_lay_here() -> None:
    passing = carried(2, "shelf", "shelf")
    assert told(tubs(1), tubs(2, FRESH, batch="G2"), passing) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)


def test_tubs_that_came_and_went_at_the_same_moment_went() -> None:
    at = "2026-11-22 09:00"
    gone = scrapped(2, at=at)
    assert told(gone, tubs(at=at), tubs(2, FRESH, batch="G2")) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)
    there = carried(2, "unit", READING_ROOM, at=at)
    assert told(gone, there, tubs(at=at), tubs(2, FRESH, batch="G2")) == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)


# ---- a replacement on order


def test_the_floor_waits_for_a_replacement_until_its_day_and_chases_it_when_that_is_over() -> None:
    again = (
        tubs(),
        an_order(2, of=MS.code, on="2026-11-10"),
        an_order(2, of=MS.code, on="2026-11-24", due="2026-11-27"),
    )
    waits = glue_hold(*again)
    assert (waits.state, waits.why, waits.packs) == (HoldState.WAITING, Why.GLUE_ON_ORDER, 2)
    assert (waits.due_on, waits.clears_at) == (date(2026, 11, 27), when("2026-11-27 08:00"))
    assert glue_hold(*again, at="2026-11-27 16:00").state is HoldState.WAITING
    late = glue_hold(*again, at="2026-11-28 08:00")
    assert (late.state, late.why, late.due_on) == (HoldState.TO_DO, Why.GLUE_OVERDUE, date(2026, 11, 27))
    deeds = [deed.kind for deed in standing(a_job(*BOARDS, *again), "2026-11-28 08:00").to_do]
    assert DeedKind.CHASE_GLUE in deeds
    assert DeedKind.ORDER_GLUE not in deeds
    came = tubs(2, FRESH, at="2026-11-28 09:00", batch="G2")
    assert told(*again, came, at="2026-11-28 10:00") == (HoldState.CLEAR, Why.GLUE_ENOUGH, 2)


def test_a_replacement_without_a_day_is_asked_for() -> None:
    again = (tubs(), an_order(4, of=MS.code, due=None))
    assert told(*again) == (HoldState.TO_DO, Why.GLUE_OVERDUE, 2)
    assert tubs_to_order(a_job(*BOARDS, *again)) == 0


# ---- will it last


def test_tubs_past_their_day_do_not_last() -> None:
    half = replace(laid("2026-11-24 08:00", "2026-11-24 16:00", 10.66), tubs=1)
    facts = a_job(*BOARDS, tubs(3), half)
    before, after = (will_it_last(FIRM, facts, {}, day).glues[0] for day in (STALE, when(DAY).date()))
    assert (before.tubs, before.too_old, before.short) == (2, 0, 0)
    assert (after.tubs, after.too_old, after.short) == (0, 2, 1)
    mixed = will_it_last(FIRM, a_job(*BOARDS, tubs(3), tubs(1, FRESH, batch="G2"), half), {}, when(DAY).date()).glues[0]
    assert (mixed.tubs, mixed.too_old, mixed.short) == (1, 2, 0)
