"""The strict log: what its readings prove, and what it asks for."""

from dataclasses import replace

import pytest

from store.trade.acclimatisation import strict_count
from store.trade.firm import ClimateRange, ClockForm
from tests.trade.conftest import (
    FIRM,
    ZERO,
    a_delivery,
    a_job,
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

STRICT = replace(FIRM, clock_form=ClockForm.STRICT_LOG)
READY = (straightedge("2026-11-17 09:30"), timber("2026-11-23 09:00"))
COME = (an_order(), a_delivery("2026-11-17 09:30"))


def strict_by_day(ticks, since, needed, now):
    return strict_count(ticks, since, needed, now, 24)


# ---- the strict log: 18–24 °C and 40–65 % RH, an interval counts between two good readings at most so far apart
# Check values worked out by hand from the rule in words; a house rule, no standard gives one.

DEFAULT = ClimateRange()


def log(*readings):
    return tuple(tick(hour, good=DEFAULT.holds(temp, rh)) for hour, temp, rh in readings)


@pytest.mark.parametrize(
    ("ticks", "gap_hours", "proved"),
    [
        (log(*((24 * day, 20, 50) for day in range(8))), 24, 168),
        (log(*((24 * day, 16.5 if day == 3 else 20, 50) for day in range(8))), 24, 120),
        (log(*((24 * day, 20, 50 if day else 70) for day in range(8))), 24, 144),
        (log((0, 20, 50), (30, 20, 50), (54, 20, 50)), 24, 24),
        (log((0, 18.0, 65.0), (24, 24.0, 40.0)), 24, 24),
        (log((0, 18.0, 65.1), (24, 20, 50)), 24, 0),
        (log(*((hour, 17 if 20 <= hour <= 25 else 20, 50) for hour in range(49))), 3, 41),
        (log((0, 20, 50)), 24, 0),
        ((), 24, 0),
    ],
    ids=[
        "eight good days",
        "a cold reading on day 3",
        "a damp first reading",
        "thirty hours without a reading",
        "on the limits",
        "a tenth over a limit",
        "six cold hours of forty-eight",
        "one reading",
        "none",
    ],
)
def test_a_strict_log_proves_the_hours_between_two_good_readings_close_enough(ticks, gap_hours, proved):
    first, last = (ticks[0].at, ticks[-1].at) if ticks else (ZERO, ZERO)
    assert strict_count(ticks, first, 1_000, last, gap_hours).hours == proved


@pytest.mark.parametrize(("temp", "rh"), [(17.9, 50), (24.1, 50), (20, 39.9), (20, 65.1)])
def test_air_a_tenth_past_any_limit_is_out_of_range(temp, rh):
    assert not DEFAULT.holds(temp, rh)


@pytest.mark.parametrize(("temp", "rh"), [(18, 40), (24, 65), (18, 65), (24, 40)])
def test_air_on_a_limit_is_in_range(temp, rh):
    assert DEFAULT.holds(temp, rh)


def test_hours_before_the_packs_came_prove_nothing_for_them():
    ticks = (tick(-24), tick(-12), tick(12))
    assert strict_by_day(ticks, ZERO, 168, ZERO + hours(12)).hours == 12


def test_a_strict_log_proves_nothing_after_its_last_reading():
    assert strict_by_day((tick(0), tick(24)), ZERO, 168, ZERO + hours(40)).hours == 24


def test_boards_with_a_strict_log_of_seven_good_days_are_ready():
    ticks = tuple(tick(24 * day) for day in range(8))
    assert ready_hour(strict_by_day(ticks, ZERO, 168, ZERO + hours(168))) == 168


def test_under_the_strict_log_a_job_waits_for_readings_not_for_time():
    daily = [air(f"2026-11-{day} 09:30") for day in range(17, 25)]
    facts = a_job(*COME, *READY, *daily)
    assert hold(facts, "acclimatisation", "2026-11-24 09:30", firm=STRICT).state == "clear"
    gone = a_job(*COME, *READY, *daily[:3], *daily[4:])
    assert hold(gone, "acclimatisation", "2026-11-24 09:30", firm=STRICT).state != "clear"
    assert hold(gone, "acclimatisation", "2026-11-24 09:30").state == "clear"


def test_the_last_hours_of_a_strict_log_need_a_reading_that_proves_them():
    ticks = tuple(tick(24 * day) for day in range(7))
    waiting = strict_by_day(ticks, ZERO, 168, ZERO + hours(167))
    assert (waiting.hours, waiting.running, ready_hour(waiting)) == (144, True, 168)
    unproved = strict_by_day(ticks, ZERO, 168, ZERO + hours(168))
    assert (unproved.hours, unproved.running, unproved.ready_at, unproved.unread) == (144, False, None, True)
    assert ready_hour(strict_by_day((*ticks, tick(168)), ZERO, 168, ZERO + hours(168))) == 168


def test_a_strict_log_that_nobody_goes_on_with_asks_for_a_reading_not_for_better_air():
    facts = a_job(*COME, *READY, air("2026-11-17 09:30"))
    wait = hold(facts, "acclimatisation", "2026-11-18 09:31", firm=STRICT)
    assert (wait.state, wait.why) == ("to_do", "log_broken")
    assert "read_air" in [deed.kind for deed in standing(facts, "2026-11-18 09:31", STRICT).to_do]
    worse = a_job(*COME, *READY, cold("2026-11-17 09:30"))
    assert hold(worse, "acclimatisation", "2026-11-18 09:31", firm=STRICT).why == "clock_stopped"


def test_a_strict_log_kept_daily_waits_for_its_seventh_day():
    facts = a_job(*COME, *READY, *[air(f"2026-11-{day} 09:30") for day in range(17, 21)])
    wait = hold(facts, "acclimatisation", "2026-11-20 12:00", firm=STRICT)
    assert (wait.state, wait.clears_at) == ("waiting", when("2026-11-24 09:30"))


def test_a_strict_log_over_a_clock_change_is_of_elapsed_hours():
    # From noon to noon over 2026-10-25 in Europe/Brussels are 25 hours (IANA tzdata): too long for a log of 24.
    come = (an_order(on="2026-10-01", due="2026-10-24"), a_delivery("2026-10-24 12:00"))
    noons = (air("2026-10-24 12:00"), air("2026-10-25 12:00"))
    (clock,) = standing(a_job(*come, *noons), "2026-10-25 12:00", STRICT).clocks
    assert clock.hours_counted == 0
    (clock,) = standing(a_job(*come, noons[0], air("2026-10-25 11:00")), "2026-10-25 12:00", STRICT).clocks
    assert clock.hours_counted == 24
