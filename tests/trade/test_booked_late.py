"""A booking that ends before the promised day may still break the promise: the glue cures first."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.trade.bookings import Booking, Part
from store.trade.clashes import ClashKind, booked_late
from store.trade.diary import day_of, end_of, is_worked, start_of
from store.trade.facts import JobFacts
from store.trade.jobs import Method
from store.trade.planning.job_network import job_times
from tests.trade.conftest import FIRM, MS, OAK, READING_ROOM, a_job, a_room, laid, when

TODAY = date(2026, 11, 27)
MON, TUE, WED, THU, FRI = (date(2026, 11, 30), *(date(2026, 12, day) for day in (1, 2, 3, 4)))


def a_job_promised(day: date | None, *events: object, **room: object) -> JobFacts:
    facts = a_job(*events, rooms=(a_room(**room),), products=(OAK, MS))
    return replace(facts, job=replace(facts.job, promised_on=day))


def booked(last: date, part: Part = Part.WHOLE, **more: object) -> Booking:
    told: dict[str, object] = {"id": 1, "ref": "L-0007", "room": READING_ROOM, "person": "Nils", "first": last}
    return Booking(**(told | {"last": last, "part": part} | more))  # type: ignore[arg-type]  # told by name


def days_late(facts: JobFacts, booking: Booking) -> int:
    clash = booked_late(FIRM, facts, booking, TODAY)
    assert clash is None or clash.kind is ClashKind.LATE
    return 0 if clash is None else clash.days


# MS-15 takes its full load after 72 hours. Laid by Mon 30 Nov 16:30 it has cured by Thu 3 Dec 16:30, the end of that
# working day; laid by Tue 1 Dec 16:30 by Fri 4 Dec 16:30; laid on Wednesday it cures on Saturday: Mon 7 Dec. By hand.
@pytest.mark.parametrize(
    ("last", "promised", "late"),
    [(MON, THU, 0), (TUE, THU, 1), (TUE, FRI, 0), (WED, FRI, 3), (WED, date(2026, 12, 7), 0), (MON, WED, 1)],
)
def test_the_glue_cures_before_the_floor_is_handed_over(last: date, promised: date, late: int) -> None:
    assert days_late(a_job_promised(promised), booked(last)) == late


def test_a_floor_laid_at_noon_is_cured_by_the_noon_of_the_third_day() -> None:
    assert days_late(a_job_promised(THU), booked(MON, Part.MORNING)) == 0
    assert days_late(a_job_promised(WED), booked(MON, Part.MORNING)) == 1


def test_a_floor_without_glue_has_nothing_to_cure() -> None:
    facts = a_job_promised(TUE, method=Method.FLOATING, glue=None)
    assert (days_late(facts, booked(TUE)), days_late(facts, booked(WED))) == (0, 1)


def test_where_nobody_knows_the_glue_only_the_booking_itself_is_held_against_the_promise() -> None:
    facts = a_job_promised(TUE, glue=None)
    assert (days_late(facts, booked(TUE)), days_late(facts, booked(WED))) == (0, 1)


def test_work_on_a_floor_that_is_laid_already_waits_for_no_glue() -> None:
    facts = a_job_promised(TUE, laid("2026-11-24 08:00", "2026-11-25 16:00", 21.32))
    assert (days_late(facts, booked(TUE)), days_late(facts, booked(WED))) == (0, 1)


@pytest.mark.parametrize(
    "booking", [booked(date(2026, 11, 26)), booked(FRI, cancelled=True)], ids=["that is over", "that was cancelled"]
)
def test_nothing_is_held_against_a_booking(booking: Booking) -> None:
    assert days_late(a_job_promised(date(2026, 11, 20)), booking) == 0


def test_nothing_is_late_where_nothing_is_promised() -> None:
    assert days_late(a_job_promised(None), booked(FRI)) == 0


def test_what_is_booked_up_to_the_last_day_a_floor_can_be_laid_keeps_its_promise_and_a_day_more_breaks_it() -> None:
    facts = a_job_promised(THU)
    by = job_times(FIRM, facts, when("2026-11-09 08:00")).laid_by(READING_ROOM)
    assert by is not None
    last = by.astimezone(FIRM.zone).date()
    assert (days_late(facts, booked(last)), days_late(facts, booked(TUE))) == (0, 1)
    assert last == MON


@pytest.mark.parametrize("promised", [date(2026, 12, 7) + timedelta(days=days) for days in range(7)])
def test_a_floor_is_to_be_laid_by_a_day_on_which_somebody_works(promised: date) -> None:
    # 72 h before a Tuesday's end is a Saturday's: then it must lie on the Friday.
    by = job_times(FIRM, a_job_promised(promised), when("2026-11-09 08:00")).laid_by(READING_ROOM)
    assert by is not None
    assert is_worked(FIRM, day_of(FIRM, by))
    assert by == end_of(FIRM, day_of(FIRM, by)) or start_of(FIRM, day_of(FIRM, by)) < by
