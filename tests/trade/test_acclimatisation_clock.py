"""The acclimatisation clock, both forms: what counts, what stops it, and when it has run out."""

from dataclasses import replace
from itertools import accumulate

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.acclimatisation import hour_count, running_count, strict_count
from store.trade.firm import ClimateRange, ClockForm
from tests.trade.conftest import (
    FIRM,
    OAK,
    READING_ROOM,
    ZERO,
    a_delivery,
    a_job,
    a_move,
    a_room,
    air,
    an_order,
    cold,
    hold,
    hours,
    ready_hour,
    standing,
    straightedge,
    tick,
    timber,
    when,
)

READY = (straightedge("2026-11-17 09:30"), timber("2026-11-23 09:00"))
STRICT = replace(FIRM, clock_form=ClockForm.STRICT_LOG)
COME = (an_order(), a_delivery("2026-11-17 09:30"))


# ---- the running clock


def test_the_clock_runs_from_the_moment_the_packs_are_put_in_day_and_night():
    count = running_count((tick(0),), ZERO, 168, ZERO + hours(100))
    assert (count.hours, count.running, ready_hour(count), count.stopped_at) == (100, True, 168, None)


def test_the_clock_runs_even_before_anybody_has_read_the_air():
    count = running_count((), ZERO, 168, ZERO + hours(48))
    assert (count.hours, count.running, ready_hour(count)) == (48, True, 168)


def test_a_reading_out_of_range_stops_the_clock_from_that_reading_on():
    count = running_count((tick(0), tick(30, good=False)), ZERO, 168, ZERO + hours(100))
    assert (count.hours, count.running, count.ready_at) == (30, False, None)
    assert count.stopped_at == ZERO + hours(30)


def test_the_next_reading_in_range_starts_the_clock_again_and_what_was_counted_stays():
    count = running_count((tick(0), tick(30, good=False), tick(50)), ZERO, 168, ZERO + hours(60))
    assert (count.hours, count.running, ready_hour(count)) == (40, True, 188)


def test_a_second_reading_out_of_range_moves_nothing_while_the_clock_stands():
    ticks = (tick(0), tick(30, good=False), tick(40, good=False), tick(50))
    count = running_count(ticks, ZERO, 168, ZERO + hours(60))
    assert (count.hours, ready_hour(count)) == (40, 188)
    still = running_count(ticks[:3], ZERO, 168, ZERO + hours(45))
    assert still.stopped_at == ZERO + hours(30)


def test_bad_air_before_the_packs_came_holds_the_clock_until_the_first_good_reading():
    count = running_count((tick(-5, good=False), tick(20)), ZERO, 168, ZERO + hours(21))
    assert (count.hours, ready_hour(count)) == (1, 188)


def test_only_the_last_reading_before_the_packs_came_is_asked():
    count = running_count((tick(-9, good=False), tick(-1)), ZERO, 168, ZERO + hours(10))
    assert (count.hours, ready_hour(count)) == (10, 168)
    count = running_count((tick(-9), tick(-1, good=False)), ZERO, 168, ZERO + hours(10))
    assert (count.hours, count.running) == (0, False)


def test_a_bad_reading_at_the_very_moment_of_delivery_stops_the_clock_at_nought():
    count = running_count((tick(0, good=False),), ZERO, 168, ZERO + hours(10))
    assert (count.hours, count.running, count.ready_at) == (0, False, None)


def test_boards_that_were_ready_stay_ready_when_the_air_goes_bad_afterwards():
    count = running_count((tick(0), tick(200, good=False)), ZERO, 168, ZERO + hours(300))
    assert (count.hours, ready_hour(count)) == (168, 168)


def test_a_bad_reading_at_the_hour_the_wait_ends_comes_too_late_to_stop_it():
    count = running_count((tick(0), tick(168, good=False)), ZERO, 168, ZERO + hours(168))
    assert (count.hours, ready_hour(count)) == (168, 168)


def test_a_bad_reading_an_hour_before_the_end_leaves_an_hour_to_wait():
    count = running_count((tick(0), tick(167, good=False), tick(400)), ZERO, 168, ZERO + hours(400))
    assert (count.hours, ready_hour(count)) == (167, 401)


def test_the_clock_counts_no_further_than_the_board_asks():
    assert running_count((tick(0),), ZERO, 72, ZERO + hours(500)).hours == 72


@pytest.mark.parametrize("form", list(ClockForm))
def test_boards_that_ask_for_no_wait_are_ready_as_they_come_in_whatever_the_air(form):
    count = hour_count(replace(FIRM, clock_form=form), (tick(0, good=False),), ZERO, 0, ZERO)
    assert ready_hour(count) == 0


moments = st.integers(-72, 400)
logs = st.lists(st.tuples(moments, st.booleans()), max_size=8, unique_by=lambda pair: pair[0]).map(
    lambda pairs: tuple(tick(hour, good=good) for hour, good in sorted(pairs))
)


def known(ticks, hour):
    return tuple(one for one in ticks if one.at <= ZERO + hours(hour))


@given(log=logs, extra=moments)
def test_one_more_reading_out_of_range_never_makes_boards_ready_earlier(log, extra):
    worse = tuple(sorted((*(one for one in log if one.at != ZERO + hours(extra)), tick(extra, good=False)), key=at))
    for form in (running_count, strict_by_day):
        before = form(log, ZERO, 168, ZERO + hours(400))
        after = form(worse, ZERO, 168, ZERO + hours(400))
        assert after.hours <= before.hours
        assert ready_hour(after) is None or before.ready_at is None or before.ready_at <= after.ready_at


@given(log=logs)
def test_the_hours_counted_never_go_back_as_time_goes_on(log):
    for form in (running_count, strict_by_day):
        shown = [form(known(log, hour), ZERO, 168, ZERO + hours(hour)).hours for hour in range(0, 401, 7)]
        assert shown == list(accumulate(shown, max))
        assert all(0 <= counted <= 168 for counted in shown)


@given(log=logs)
def test_boards_once_ready_stay_ready_from_the_same_moment(log):
    for form in (running_count, strict_by_day):
        said = None
        for hour in range(0, 401, 7):
            count = form(known(log, hour), ZERO, 168, ZERO + hours(hour))
            ready = count.ready_at is not None and count.ready_at <= ZERO + hours(hour)
            assert ready or said is None
            said = said or (count.ready_at if ready else None)
            assert said is None or said == count.ready_at


@given(log=logs, hour=st.integers(0, 400))
def test_the_running_clock_shows_the_hours_that_a_plain_walk_through_the_log_counts(log, hour):
    ticks = known(log, hour)
    counted = 0
    for whole in range(hour):
        last = [one for one in ticks if one.at <= ZERO + hours(whole)]
        counted += not last or last[-1].inside
    assert running_count(ticks, ZERO, 168, ZERO + hours(hour)).hours == min(168, counted)


def at(one):
    return one.at


def strict_by_day(ticks, since, needed, now):
    return strict_count(ticks, since, needed, now, 24)


# ---- the clock of a job


def test_a_job_is_ready_seven_days_of_hours_after_its_packs_were_put_into_the_room():
    facts = a_job(*COME, *READY, air("2026-11-17 09:30"))
    wait = hold(facts, "acclimatisation", "2026-11-20 12:00")
    assert (wait.state, wait.clears_at) == ("waiting", when("2026-11-24 09:30"))


def test_packs_in_the_unit_do_not_count_until_they_are_moved_into_the_room():
    facts = a_job(
        an_order(),
        a_delivery("2026-11-10 09:30", into="unit"),
        air("2026-11-17 09:30"),
        a_move("2026-11-17 09:30", 12, "unit", READING_ROOM),
    )
    assert hold(facts, "acclimatisation", "2026-11-20 12:00").clears_at == when("2026-11-24 09:30")


def test_packs_carried_to_another_room_start_their_wait_there_anew():
    rooms = (a_room(), a_room("Hall", wide=1000, deep=1000))
    facts = a_job(*COME, a_move("2026-11-20 09:30", 12, READING_ROOM, "Hall"), rooms=rooms)
    assert hold(facts, "acclimatisation", "2026-11-21 12:00").clears_at == when("2026-11-27 09:30")


def test_only_the_air_of_the_room_the_packs_lie_in_moves_their_clock():
    rooms = (a_room(), a_room("Hall", wide=1000, deep=1000))
    facts = a_job(*COME, cold("2026-11-18 09:30", room="Hall"), rooms=rooms)
    assert hold(facts, "acclimatisation", "2026-11-20 12:00").clears_at == when("2026-11-24 09:30")


def test_the_makers_own_range_goes_before_the_firms():
    tolerant = replace(OAK, climate=ClimateRange(temp_min_c=10))
    facts = a_job(*COME, cold("2026-11-18 09:30"), products=(tolerant,))
    assert hold(facts, "acclimatisation", "2026-11-20 12:00").state == "waiting"
    assert hold(replace(facts, products={OAK.code: OAK}), "acclimatisation", "2026-11-20 12:00").state == "to_do"


def test_a_wait_over_a_clock_change_is_of_elapsed_hours():
    # Europe/Brussels goes back an hour on 2026-10-25 at 01:00 UTC, and forward on 2027-03-28 (IANA tzdata).
    autumn = a_job(an_order(on="2026-10-01", due="2026-10-20"), a_delivery("2026-10-20 09:30"))
    assert hold(autumn, "acclimatisation", "2026-10-21 12:00").clears_at == when("2026-10-27 08:30")
    spring = a_job(an_order(on="2027-03-01", due="2027-03-24"), a_delivery("2027-03-24 09:30"))
    assert hold(spring, "acclimatisation", "2027-03-25 12:00").clears_at == when("2027-03-31 10:30")


def test_the_hours_counted_across_a_clock_change_are_elapsed_hours():
    facts = a_job(an_order(on="2026-10-01", due="2026-10-24"), a_delivery("2026-10-24 12:00"))
    (clock,) = standing(facts, "2026-10-25 12:00").clocks
    assert clock.hours_counted == 25
