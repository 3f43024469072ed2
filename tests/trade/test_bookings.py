"""Bookings in working days: what they take, how they move and stretch, and what speaks against them."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.bookings import (
    Booking,
    BookingDraft,
    Part,
    days_of,
    moved,
    problems_with_booking,
    stretched,
    worked_day,
)
from store.trade.clashes import ClashKind, Ground, clashes_of, hours_of
from store.trade.diary import is_worked
from store.trade.firm import FirmDraft
from store.trade.people import DaysOff, PersonDraft, problems_with_person

CHRISTMAS = date(2026, 12, 25)
FIRM = FirmDraft(name="Gannet Quay Floors", holidays=(CHRISTMAS,))
NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)  # Wed 25 Nov 2026, 07:30 in Brussels
FRIDAY, MONDAY = date(2026, 11, 27), date(2026, 11, 30)


def booking(first: date = FRIDAY, last: date = MONDAY, **more: object) -> Booking:
    told: dict[str, object] = {"person": "Nils", "id": 1, "ref": "L-0001"}
    return Booking(first=first, last=last, **(told | more))  # type: ignore[arg-type]  # told by name


def ground(*people: PersonDraft) -> Ground:
    return Ground(firm=FIRM, now=NOW, people={one.name: one for one in people or [PersonDraft(name="Nils")]}, jobs={})


def kinds(one: Booking, *others: Booking, people: tuple[PersonDraft, ...] = ()) -> list[ClashKind]:
    return [clash.kind for clash in clashes_of(ground(*people), one, (one, *others))]


def test_a_booking_over_a_weekend_takes_the_friday_and_the_monday() -> None:
    assert days_of(FIRM, booking()) == (FRIDAY, MONDAY)


def test_who_is_booked_for_a_saturday_alone_works_that_saturday() -> None:
    saturday = date(2026, 11, 28)
    assert days_of(FIRM, booking(saturday, saturday)) == (saturday,)
    assert kinds(booking(saturday, saturday)) == [ClashKind.NOT_WORKED]


def test_a_booking_moves_over_weekends_and_holidays_and_keeps_its_length() -> None:
    later = moved(FIRM, booking(), 1)
    assert (later.first, later.last) == (MONDAY, date(2026, 12, 1))
    before_christmas = moved(FIRM, booking(date(2026, 12, 24), date(2026, 12, 24)), 1)
    assert before_christmas.first == date(2026, 12, 28)


@given(st.dates(date(2026, 1, 1), date(2027, 12, 31)), st.integers(0, 9), st.integers(-30, 30))
def test_wherever_a_booking_of_worked_days_is_moved_it_takes_as_many_days_and_can_be_moved_back(
    day: date, longer: int, steps: int
) -> None:
    first = worked_day(FIRM, day, 1)
    was = booking(first, worked_day(FIRM, first, longer))
    there = moved(FIRM, was, steps)
    assert len(days_of(FIRM, there)) == longer + 1
    assert all(is_worked(FIRM, one) for one in days_of(FIRM, there))
    assert moved(FIRM, there, -steps) == was


def test_a_booking_grows_and_shrinks_by_working_days_but_never_below_one() -> None:
    assert stretched(FIRM, booking(), 1).last == date(2026, 12, 1)
    assert stretched(FIRM, booking(), -1).last == FRIDAY
    assert stretched(FIRM, booking(), -5).last == FRIDAY


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (BookingDraft(person=" ", first=FRIDAY, last=FRIDAY), "person"),
        (BookingDraft(person="Nils", first=FRIDAY, last=FRIDAY, room="Attic"), "room"),
        (BookingDraft(person="Nils", first=MONDAY, last=FRIDAY), "last"),
        (BookingDraft(person="Nils", first=FRIDAY, last=FRIDAY + timedelta(days=400)), "last"),
        (BookingDraft(person="Nils", first=FRIDAY, last=MONDAY, part=Part.MORNING), "part"),
        (BookingDraft(person="Nils", first=date(1850, 1, 1), last=date(1850, 1, 1)), "first"),
    ],
)
def test_what_cannot_be_booked_is_said_beside_its_field(draft: BookingDraft, field: str) -> None:
    assert [problem.field for problem in problems_with_booking(draft, {"Reading room"})] == [field]


def test_two_bookings_of_one_person_clash_on_the_days_they_share() -> None:
    one, other = booking(), booking(MONDAY, MONDAY, id=2, ref="L-0002")
    (clash,) = clashes_of(ground(), one, (one, other))
    assert (clash.kind, clash.on, clash.days, clash.ref) == (ClashKind.TWICE, MONDAY, 1, "L-0002")
    assert kinds(one, booking(MONDAY, MONDAY, id=2, person="Tove")) == []


def test_a_morning_and_an_afternoon_do_not_clash_but_a_whole_day_meets_both() -> None:
    morning = booking(FRIDAY, FRIDAY, part=Part.MORNING)
    assert kinds(morning, booking(FRIDAY, FRIDAY, id=2, part=Part.AFTERNOON)) == []
    assert kinds(morning, booking(FRIDAY, FRIDAY, id=2)) == [ClashKind.TWICE]


def test_days_off_holidays_and_somebody_not_on_file_speak_against_a_booking() -> None:
    away = PersonDraft(name="Nils", days_off=(DaysOff(first=MONDAY, last=MONDAY, reason="Dentist"),))
    (clash,) = clashes_of(ground(away), booking(), (booking(),))
    assert (clash.kind, clash.on, clash.reason) == (ClashKind.AWAY, MONDAY, "Dentist")
    assert kinds(booking(CHRISTMAS, CHRISTMAS)) == [ClashKind.NOT_WORKED]
    assert kinds(booking(person="Wren")) == [ClashKind.NOT_ON_FILE]


def test_what_is_over_is_held_against_nobody() -> None:
    long_ago = booking(date(2026, 11, 21), date(2026, 11, 21))
    assert kinds(long_ago) == []


def test_the_halves_of_a_day_meet_in_the_middle_of_the_working_hours() -> None:
    # 08:00 to 16:30 in Brussels, UTC+1 in winter: the middle is 12:15.
    assert hours_of(FIRM, Part.MORNING, FRIDAY)[1] == datetime(2026, 11, 27, 11, 15, tzinfo=UTC)
    assert hours_of(FIRM, Part.AFTERNOON, FRIDAY)[0] == datetime(2026, 11, 27, 11, 15, tzinfo=UTC)
    # On 26 October 2026, the Monday after the clocks went back, 08:00 is 07:00 UTC (IANA).
    assert hours_of(FIRM, Part.WHOLE, date(2026, 10, 26))[0] == datetime(2026, 10, 26, 7, tzinfo=UTC)


def test_days_off_that_end_before_they_start_are_wrong_and_a_name_is_had_by_one() -> None:
    draft = PersonDraft(name="Nils", days_off=(DaysOff(first=MONDAY, last=FRIDAY),))
    assert [one.field for one in problems_with_person(draft)] == ["days_off.0"]
    assert [one.field for one in problems_with_person(PersonDraft(name="Nils"), {"Nils"})] == ["name"]
    assert [one.field for one in problems_with_person(PersonDraft(name=" "))] == ["name"]
