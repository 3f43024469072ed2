"""Days and moments are read day before month, by the firm's wall clock."""

from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui.typed.figures import Misread
from tui.typed.wall_clock import WallClock
from tui.typed.when import read_day, read_days, read_days_of_week, read_instant, read_time, typed_days_of_week
from tui.words.wording import typed_day, typed_instant

ZONE = ZoneInfo("Europe/Brussels")
NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)  # Wed 25 Nov 2026 07:30 in Brussels
TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("28/11", date(2026, 11, 28)),
        ("28.11.", date(2026, 11, 28)),
        ("28-11-2026", date(2026, 11, 28)),
        ("28/11/26", date(2026, 11, 28)),
        ("2026-03-04", date(2026, 3, 4)),
        ("3/4/2026", date(2026, 4, 3)),
        ("28 nov", date(2026, 11, 28)),
        ("Sat 28 Nov", date(2026, 11, 28)),
        ("Sat 28 November 2026", date(2026, 11, 28)),
        ("today", TODAY),
        ("Tomorrow", date(2026, 11, 26)),
        ("yesterday", date(2026, 11, 24)),
        ("+3", date(2026, 11, 28)),
        ("-2", date(2026, 11, 23)),
        ("fri", date(2026, 11, 27)),
        ("wed", TODAY),
        ("tuesday", date(2026, 12, 1)),
        ("4/1", date(2027, 1, 4)),
        ("29/2/2028", date(2028, 2, 29)),
    ],
)
def test_a_day_may_be_typed_in_many_ways(text: str, day: date) -> None:
    assert read_day(text, TODAY) == day


def test_for_what_is_over_a_weekday_is_the_last_of_its_name() -> None:
    assert read_day("fri", TODAY, back=True) == date(2026, 11, 20)
    assert read_day("wed", TODAY, back=True) == TODAY


@pytest.mark.parametrize(
    "text",
    ["", "30/2", "32/1", "2026-13-01", "1", "99", "Nov", "10/2026", "t", "next year", "Fri 28 Nov", "+99999"],
)
def test_what_is_no_day_is_refused_in_a_sentence(text: str) -> None:
    assert isinstance(read_day(text, TODAY), Misread)


def test_a_weekday_that_does_not_fit_its_date_is_told_the_right_one() -> None:
    read = read_day("Fri 28 Nov", TODAY)
    assert isinstance(read, Misread)
    assert read.say == "28 Nov 2026 is a Saturday."


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("now", "2026-11-25 07:30"),
        ("9:30", "2026-11-25 09:30"),
        ("09.30", "2026-11-25 09:30"),
        ("9h30", "2026-11-25 09:30"),
        ("today 9:30", "2026-11-25 09:30"),
        ("yesterday 16:00", "2026-11-24 16:00"),
        ("28/11 9.30", "2026-11-28 09:30"),
        ("2026-11-28 09:30", "2026-11-28 09:30"),
        ("Sat 28 Nov 09:30", "2026-11-28 09:30"),
        ("Tue 9:30", "2026-11-24 09:30"),
    ],
)
def test_a_moment_may_be_typed_in_many_ways(text: str, at: str) -> None:
    read = read_instant(text, NOW, ZONE)
    assert isinstance(read, datetime)
    assert f"{read:%Y-%m-%d %H:%M}" == at
    assert read.tzinfo is not None


@pytest.mark.parametrize("text", ["", "28/11", "25:00", "9:75", "28/11 9", "soon", "31/2 9:30", "9:30 28/11"])
def test_what_is_no_moment_is_refused_in_a_sentence(text: str) -> None:
    assert isinstance(read_instant(text, NOW, ZONE), Misread)


def test_a_day_without_a_time_is_told_to_add_it() -> None:
    read = read_instant("28/11", NOW, ZONE)
    assert isinstance(read, Misread)
    assert read.say == "Add the time to the day, like 28/11 9:30."


def test_the_hour_that_the_clocks_skip_is_refused_and_the_one_that_comes_twice_is_the_first() -> None:
    # IANA: Brussels skips 02:00–03:00 on 29 March 2026 and repeats it on 25 October 2026, both at 01:00 UTC.
    assert isinstance(read_instant("29/3/2026 2:30", NOW, ZONE), Misread)
    twice = read_instant("25/10/2026 2:30", NOW, ZONE)
    assert isinstance(twice, datetime)
    assert twice.astimezone(UTC) == datetime(2026, 10, 25, 0, 30, tzinfo=UTC)


def test_a_time_of_day_is_hours_and_minutes() -> None:
    assert read_time("8:00") == time(8)
    assert isinstance(read_time("8"), Misread)


@pytest.mark.parametrize(
    ("text", "days"),
    [("mon-fri", (0, 1, 2, 3, 4)), ("mon tue thu", (0, 1, 3)), ("sat - mon", (0, 5, 6)), ("Wednesday", (2,))],
)
def test_working_days_are_a_list_or_a_span(text: str, days: tuple[int, ...]) -> None:
    assert read_days_of_week(text) == days


@given(st.sets(st.integers(0, 6), min_size=1))
def test_working_days_filled_into_a_field_are_read_back_the_same(days: set[int]) -> None:
    assert read_days_of_week(typed_days_of_week(tuple(sorted(days)))) == tuple(sorted(days))


def test_holidays_are_sorted_and_each_is_kept_once() -> None:
    assert read_days("1/1/2027, 25/12/2026; 25/12/2026", TODAY) == (date(2026, 12, 25), date(2027, 1, 1))
    assert read_days("", TODAY) == ()
    assert isinstance(read_days("25/12, x", TODAY), Misread)


@given(st.dates(date(2000, 1, 1), date(2099, 12, 31)))
def test_a_day_filled_into_a_field_is_read_back_the_same(day: date) -> None:
    assert read_day(typed_day(day), TODAY) == day


@given(st.integers(946_684_800, 4_102_444_800).map(lambda seconds: datetime.fromtimestamp(seconds, UTC)))
def test_a_moment_filled_into_a_field_is_read_back_to_the_minute(at: datetime) -> None:
    instant = at.replace(second=0, microsecond=0, tzinfo=UTC)
    read = read_instant(typed_instant(instant, ZONE), NOW, ZONE)
    assert isinstance(read, datetime)
    # The hour that comes twice in autumn cannot be told apart by a wall clock.
    assert typed_instant(read, ZONE) == typed_instant(instant, ZONE)


@given(st.text() | st.text(alphabet="0123456789/.-: nowfritday+"))
def test_no_text_makes_reading_a_day_or_a_moment_fail(text: str) -> None:
    for read in (
        read_day(text, TODAY),
        read_instant(text, NOW, ZONE),
        read_days(text, TODAY),
        read_days_of_week(text),
    ):
        if isinstance(read, Misread):
            assert "\x1b" not in read.say


def test_the_wall_clock_says_and_reads_the_same_moments() -> None:
    clock = WallClock(now=NOW, zone=ZONE)
    assert clock.today == TODAY
    assert clock.typed() == "25/11/2026 07:30"
    assert clock.echo("fri 9:30") == "Fri 20 Nov 09:30"
    assert clock.echo("oops") == ""
    assert clock.echo_day("fri") == "Fri 27 Nov"
    assert clock.echo_past_day("fri") == "Fri 20 Nov"
