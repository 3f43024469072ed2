"""The firm's days: when one starts, which are worked, and the first working moment after a wait."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest
from dateutil.rrule import WEEKLY, rrule, rruleset, rrulestr
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.bookings import worked_day
from store.trade.diary import day_of, first_working_moment, is_worked, later, start_of, wall_instant
from tests.trade.conftest import FIRM, when

LONDON = replace(FIRM, time_zone="Europe/London")
NEW_YORK = replace(FIRM, time_zone="America/New_York")


# ---- clock changes, held against the IANA time zone data
# The moments of change, UTC, as tzdata gives them: in the European Union and the United Kingdom 01:00 UTC on the last
# Sundays of March and October; in New York 07:00 UTC on the second Sunday of March, 06:00 on the first of November.

CHANGES = [
    (FIRM, "2026-03-29T01:00Z", 1),
    (FIRM, "2026-10-25T01:00Z", -1),
    (FIRM, "2027-03-28T01:00Z", 1),
    (FIRM, "2027-10-31T01:00Z", -1),
    (LONDON, "2026-03-29T01:00Z", 1),
    (LONDON, "2026-10-25T01:00Z", -1),
    (LONDON, "2027-03-28T01:00Z", 1),
    (LONDON, "2027-10-31T01:00Z", -1),
    (NEW_YORK, "2026-03-08T07:00Z", 1),
    (NEW_YORK, "2026-11-01T06:00Z", -1),
    (NEW_YORK, "2027-03-14T07:00Z", 1),
    (NEW_YORK, "2027-11-07T06:00Z", -1),
]


@pytest.mark.parametrize(("firm", "change", "forward"), CHANGES)
def test_twenty_four_hours_over_a_clock_change_show_an_hour_more_or_less_on_the_wall(firm, change, forward):
    noon_before = datetime.combine(
        day_of(firm, datetime.fromisoformat(change)) - timedelta(days=1), time(12), tzinfo=firm.zone
    )
    after = later(noon_before, 24).astimezone(firm.zone)
    assert (after.date() - noon_before.date(), after.hour) == (timedelta(days=1), 12 + forward)


@pytest.mark.parametrize(("firm", "change", "forward"), CHANGES)
def test_the_day_of_a_clock_change_is_an_hour_shorter_or_longer(firm, change, forward):
    day = day_of(firm, datetime.fromisoformat(change))
    midnight = wall_instant(firm, day, time(0))
    assert wall_instant(firm, day + timedelta(days=1), time(0)) - midnight == timedelta(hours=24 - forward)


@pytest.mark.parametrize(("firm", "change", "forward"), CHANGES)
def test_the_working_day_starts_by_the_wall_clock_on_either_side_of_a_clock_change(firm, change, forward):
    day = day_of(firm, datetime.fromisoformat(change))
    between = start_of(firm, day) - start_of(firm, day - timedelta(days=1))
    assert between == timedelta(hours=24 - forward)
    assert start_of(firm, day).astimezone(firm.zone).time() == firm.day_starts


@pytest.mark.parametrize(
    ("firm", "day", "clock", "instant"),
    [
        (FIRM, date(2026, 3, 29), time(2, 30), "2026-03-29T01:30Z"),  # skipped: the offset before the gap
        (FIRM, date(2026, 10, 25), time(2, 30), "2026-10-25T00:30Z"),  # twice: the first
        (LONDON, date(2026, 3, 29), time(1, 30), "2026-03-29T01:30Z"),
        (LONDON, date(2026, 10, 25), time(1, 30), "2026-10-25T00:30Z"),
        (NEW_YORK, date(2026, 3, 8), time(2, 30), "2026-03-08T07:30Z"),
        (NEW_YORK, date(2026, 11, 1), time(1, 30), "2026-11-01T05:30Z"),
    ],
)
def test_a_day_that_starts_in_a_gap_or_a_fold_starts_as_calendars_agree(firm, day, clock, instant):
    # RFC 5545 §3.3.5: a time that occurs twice is the first; one that never occurs has the offset before the gap.
    early = replace(firm, day_starts=clock)
    assert start_of(early, day) == datetime.fromisoformat(instant)


def test_a_day_begins_at_midnight_in_the_firms_zone():
    assert day_of(FIRM, datetime(2026, 11, 25, 22, 59, tzinfo=UTC)) == date(2026, 11, 25)
    assert day_of(FIRM, datetime(2026, 11, 25, 23, 0, tzinfo=UTC)) == date(2026, 11, 26)
    assert day_of(NEW_YORK, datetime(2026, 11, 26, 4, 59, tzinfo=UTC)) == date(2026, 11, 25)


# ---- working moments: 2026-11-20 is a Friday


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        ("2026-11-20 07:59", "2026-11-20 08:00"),
        ("2026-11-20 08:00", "2026-11-20 08:00"),
        ("2026-11-20 12:34", "2026-11-20 12:34"),
        ("2026-11-20 16:29", "2026-11-20 16:29"),
        ("2026-11-20 16:30", "2026-11-23 08:00"),
        ("2026-11-20 23:00", "2026-11-23 08:00"),
        ("2026-11-21 10:00", "2026-11-23 08:00"),
        ("2026-11-22 23:59", "2026-11-23 08:00"),
        ("2026-11-24 17:00", "2026-11-25 08:00"),
    ],
)
def test_work_goes_on_at_the_first_moment_in_working_hours_their_end_excluded(asked, found):
    assert first_working_moment(FIRM, when(asked)) == when(found)


def test_a_holiday_is_passed_over_like_a_weekend():
    firm = replace(FIRM, holidays=(date(2026, 12, 25), date(2026, 12, 28)))
    assert not is_worked(firm, date(2026, 12, 25))
    assert first_working_moment(firm, when("2026-12-24 17:00")) == when("2026-12-29 08:00")
    assert first_working_moment(firm, when("2026-12-25 10:00")) == when("2026-12-29 08:00")


def test_a_firm_that_works_saturdays_works_on_saturday():
    firm = replace(FIRM, working_days=(5,))
    assert first_working_moment(firm, when("2026-11-20 10:00")) == when("2026-11-21 08:00")


def test_the_first_working_moment_is_found_by_the_firms_wall_clock():
    asked = datetime(2026, 11, 20, 20, 0, tzinfo=UTC)  # a Friday: 21:00 in Brussels, 15:00 in New York
    assert first_working_moment(FIRM, asked) == when("2026-11-23 08:00")
    assert first_working_moment(NEW_YORK, asked) == asked


def test_a_firm_that_never_works_is_told_so_rather_than_searched_for_ever():
    with pytest.raises(Refused, match="no working day"):
        first_working_moment(replace(FIRM, working_days=()), when("2026-11-20 10:00"))


days = st.dates(date(2026, 1, 1), date(2027, 12, 31))


@given(
    worked=st.sets(st.integers(0, 6), min_size=1),
    holidays=st.sets(days, max_size=30),
    day=days,
    minute=st.integers(0, 24 * 60 - 1),
    firm=st.sampled_from([FIRM, LONDON, NEW_YORK]),
)
def test_the_next_morning_of_work_is_the_one_a_calendar_recurrence_names(worked, holidays, day, minute, firm):
    firm = replace(firm, working_days=tuple(sorted(worked)), holidays=tuple(holidays))
    clock = time(minute // 60, minute % 60)
    mornings = rruleset()
    mornings.rrule(rrule(WEEKLY, byweekday=sorted(worked), dtstart=datetime.combine(day, firm.day_starts), count=2000))
    for holiday in holidays:
        mornings.exdate(datetime.combine(holiday, firm.day_starts))
    at_work = firm.day_starts <= clock < firm.day_ends and datetime.combine(day, firm.day_starts) in mornings
    asked = datetime.combine(day, clock)
    expected = asked if at_work else mornings.after(asked, inc=True)
    found = first_working_moment(firm, asked.replace(tzinfo=firm.zone))
    assert found == expected.replace(tzinfo=firm.zone)


@given(asked=st.builds(lambda day, clock: datetime.combine(day, clock, tzinfo=UTC), days, st.times()))
def test_a_working_moment_is_never_before_it_was_asked_for_and_is_its_own_first(asked):
    found = first_working_moment(FIRM, asked)
    assert found >= asked
    assert first_working_moment(FIRM, found) == found


# RFC 5545 §3.8.5.3 prints these rules with their days, in New York; rules and days told from memory, and reckoned again
# here by dateutil.
WEEKDAYS = "DTSTART:19970929T090000\nRRULE:FREQ=MONTHLY;COUNT=7;BYDAY=MO,TU,WE,TH,FR;BYSETPOS={}"
SECOND_TO_LAST = ("1997-09-29", "1997-10-30", "1997-11-27", "1997-12-30", "1998-01-29", "1998-02-26", "1998-03-30")


@pytest.mark.parametrize("from_the_end", [1, 2])
def test_the_last_working_days_of_a_month_are_those_the_calendar_standard_prints(from_the_end):
    rule = WEEKDAYS.format(-from_the_end)
    expected = [at.date() for at in rrulestr(rule)]
    if from_the_end == 2:
        assert [day.isoformat() for day in expected] == list(SECOND_TO_LAST)
    next_months = [(day.replace(day=1) + timedelta(days=31)).replace(day=1) for day in expected]
    assert [worked_day(NEW_YORK, first, -from_the_end) for first in next_months] == expected


def test_nine_in_the_morning_is_the_same_on_the_wall_before_and_after_the_clocks_change_in_the_standards_example():
    # 29 September 1997 is printed as 9:00 AM EDT (UTC −4), 30 October as 9:00 AM EST (UTC −5).
    at_nine = replace(NEW_YORK, day_starts=time(9))
    found = [start_of(at_nine, date.fromisoformat(day)).astimezone(UTC).hour for day in SECOND_TO_LAST]
    assert found == [13, 14, 14, 14, 14, 14, 14]
