"""What a plan is made from when something on file is odd: a promise that is over, who has left, a skill nobody has."""

from dataclasses import replace
from datetime import date

import pytest

from store.errors import Refused
from store.trade.bookings import Booking
from store.trade.people import Person
from store.trade.planning.nouns import Decider, Proposal
from store.trade.planning.propose import propose
from store.trade.planning.situation import Situation, planning_of, times_in
from store.trade.surveyed import Pattern
from tests.trade.conftest import FIRM, READING_ROOM, a_delivery, a_job, a_room, air, straightedge, timber, when

MOMENT = "2026-11-16 07:00"
MAREN = Person(id=1, rev=1, name="Maren")


def a_situation(*, people: tuple[Person, ...] = (MAREN,), promised: date | None = None, **more: object) -> Situation:
    """One job whose packs lie in their room since Mon 9 Nov 2026 09:30, looked at a week later."""
    good = (air("2026-11-09 09:30"), timber(MOMENT), straightedge(MOMENT))
    facts = a_job(a_delivery("2026-11-09 09:30"), *good, rooms=(more.pop("room", a_room()),))  # type: ignore[arg-type]
    return Situation(
        firm=FIRM,
        now=when("2026-11-16 07:30"),
        jobs=(replace(facts, job=replace(facts.job, promised_on=promised)),),
        people=people,
        **({"bookings": ()} | more),  # type: ignore[arg-type]
    )


def best(situation: Situation) -> Proposal:
    planning = planning_of(situation)
    return list(propose(situation.firm, planning.floors, planning.fitters, situation.now))[-1]


def test_a_promise_that_is_over_is_planned_for_and_counted_late() -> None:
    # Ready Mon 16 Nov 09:30. 21.32 m² at 16 m² a day of 8 h are 10.7 h: three half days of 4.25 h, that afternoon and
    # Tue 17 Nov until 16:30. 72 h of glue end on Fri 20 Nov 16:30, as the working day does; the next working moment is
    # Mon 23 Nov, 13 days after Tue 10 Nov.
    late = a_situation(promised=date(2026, 11, 10))
    (end,) = best(late).ends
    assert (end.handover_on, end.days_late) == (date(2026, 11, 23), 13)
    assert times_in(late)["L-0007"].days_late > 0


def test_whoever_left_lays_no_floor_and_their_booking_is_given_to_another() -> None:
    gone = Booking(
        id=1, ref="L-0007", person="Ode", first=date(2026, 11, 18), last=date(2026, 11, 19), room=READING_ROOM
    )
    plan = best(a_situation(bookings=(gone,)))
    assert [visit.fitter for visit in plan.visits] == ["Maren"]
    assert plan.changes == 1


def test_where_nobody_lays_herringbone_the_plan_says_so() -> None:
    plan = best(a_situation(room=a_room(pattern=Pattern.HERRINGBONE)))
    assert [reason.decider for reason in plan.unplaced] == [Decider.NOBODY]
    assert plan.visits == ()


def test_with_nobody_on_file_there_is_no_plan_and_a_sentence() -> None:
    with pytest.raises(Refused, match="Nobody is on file yet"):
        planning_of(a_situation(people=()))


def test_a_firm_that_never_works_is_told_so() -> None:
    idle = replace(a_situation(), firm=replace(FIRM, working_days=()))
    with pytest.raises(Refused, match="no working day"):
        planning_of(idle)
