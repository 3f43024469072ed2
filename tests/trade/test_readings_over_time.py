"""Readings over time: what counted towards the wait agrees with the clock, and each figure has its range beside it."""

import itertools
from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.acclimatisation import Tick, hour_count
from store.trade.firm import ClockForm
from store.trade.hours_that_count import stretches
from store.trade.jobs import Subfloor
from store.trade.series import series_in
from tests.trade.conftest import (
    FIRM,
    ZERO,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    board_moisture,
    carbide,
    cold,
    smoothed,
    standing,
    straightedge,
    timber,
    when,
)

STRICT = replace(FIRM, clock_form=ClockForm.STRICT_LOG)
HOUR = timedelta(hours=1)


@given(
    log=st.lists(st.tuples(st.integers(-50, 300), st.booleans()), max_size=12, unique_by=lambda one: one[0]),
    needed=st.integers(1, 200),
    asked=st.integers(0, 320),
    firm=st.sampled_from((FIRM, STRICT)),
)
def test_the_stretches_that_count_are_the_hours_of_the_clock_and_never_overlap(log, needed, asked, firm):
    now = ZERO + asked * HOUR
    ticks = [Tick(at=ZERO + at * HOUR, inside=good) for at, good in sorted(log) if at <= asked]
    counted = stretches(firm, ticks, ZERO, needed, now)
    hours = sum((ended - begun) / HOUR for begun, ended in counted)
    assert hours == pytest.approx(hour_count(firm, ticks, ZERO, needed, now).hours)
    assert all(begun < ended for begun, ended in counted)
    assert all(one[1] < other[0] for one, other in itertools.pairwise(counted))


def followed(facts, moment, firm=FIRM):
    stands = standing(facts, moment, firm)
    return {(one.kind, one.figure): one for one in series_in(firm, facts, facts.rooms[0], stands.clocks, when(moment))}


COME = (an_order(), a_delivery("2026-11-17 09:30"))


def test_the_air_of_a_room_is_two_figures_with_the_range_of_its_board_and_the_hours_that_counted():
    facts = a_job(*COME, air("2026-11-17 09:30"), cold("2026-11-19 09:30"), air("2026-11-20 09:30", temp=24.0))
    series = followed(facts, "2026-11-21 09:30")
    warm, damp = series["air", "temp_c"], series["air", "rh_percent"]
    assert [value for _, value in warm.points] == [20.5, 14.0, 24.0]
    assert (warm.lowest_good, warm.highest_good, warm.amiss) == (18, 24, 1)
    assert (damp.lowest_good, damp.highest_good, damp.amiss) == (40, 65, 0)
    # Two days until the cold reading, one day since it was warm again.
    assert [(ended - begun) / HOUR for begun, ended in warm.counted] == [48, 24]


def test_what_was_levelled_away_is_not_drawn_and_a_moisture_has_its_limit_above():
    facts = a_job(
        straightedge("2026-11-10 09:00", 6), smoothed("2026-11-12 09:00"), straightedge("2026-11-13 09:00", 2)
    )
    gap = followed(facts, "2026-11-14 09:00")["straightedge", "gap_mm"]
    assert [value for _, value in gap.points] == [2]
    assert (gap.lowest_good, gap.highest_good) == (None, 3)
    room = a_room(subfloor=Subfloor.CEMENT_SCREED)
    wet = a_job(carbide("2026-11-02 09:00", 3.1), carbide("2026-11-09 09:00", 2.0), rooms=(room,))
    moisture = followed(wet, "2026-11-10 09:00")["carbide", "percent"]
    assert (moisture.highest_good, moisture.amiss) == (2.0, 1)


def test_boards_are_drawn_between_two_and_four_points_about_their_subfloor():
    facts = a_job(timber("2026-11-10 09:00", 9.0), board_moisture("2026-11-10 10:00", 12.0))
    boards = followed(facts, "2026-11-11 09:00")["board", "percent"]
    # A board of 190 mm: 2 points apart at most (the wood-flooring association's rule for 76 mm and wider).
    assert (boards.lowest_good, boards.highest_good, boards.amiss) == (7.0, 11.0, 1)


def test_a_room_in_which_nothing_was_read_has_no_series():
    assert followed(a_job(*COME), "2026-11-18 09:00") == {}
