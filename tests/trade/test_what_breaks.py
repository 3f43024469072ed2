"""One move in a plan: what it breaks, what it saves, and whose days late it changes."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.errors import Refused
from store.trade.planning.nouns import Fitter, Floor, FloorKey, Half, Visit
from store.trade.planning.what_breaks import Effects, FaultKind, LateChange, Move, faults_in, moved, what_breaks
from tests.trade.conftest import FIRM, when

MONDAY = date(2026, 11, 16)
MAREN = Fitter(name="Maren", skills=frozenset({"pattern"}))
TOVE = Fitter(name="Tove", off=frozenset({MONDAY + timedelta(days=2)}))
STAFF = (MAREN, TOVE)


def day(number, half=0):
    return Half(MONDAY + timedelta(days=number), half)


def key(job):
    return FloorKey(job, "Hall")


def visit(job, fitter, *halves):
    return Visit(floor=key(job), fitter=fitter, halves=halves)


def floor(job, hours=8.5, *, ready="2026-11-16 08:00", by="2026-11-18", **more):
    promised = date.fromisoformat(by) if by else None
    return Floor(job=job, room="Hall", hours=hours, earliest=when(ready), promised_on=promised, **more)


FLOORS = (floor("A"), floor("B", by="2026-11-19"), floor("C", skills=frozenset({"pattern"}), ready="2026-11-17 08:00"))
PLAN = (
    visit("A", "Maren", day(0), day(0, 1)),
    visit("B", "Tove", day(0), day(0, 1)),
    visit("C", "Maren", day(1), day(1, 1)),
)


def moving(job, *, floors=FLOORS, visits=PLAN, firm=FIRM, **to) -> Effects:
    return what_breaks(firm, floors, STAFF, visits, Move(floor=key(job), **to))


def kinds(effects):
    return [one.kind for one in effects.breaks]


def test_the_plan_to_start_from_has_nothing_wrong_with_it():
    assert list(faults_in(FIRM, FLOORS, STAFF, PLAN)) == []


def test_a_floor_moved_to_where_its_fitter_is_free_breaks_nothing():
    effects = moving("B", start=day(1))
    assert (effects.breaks, effects.saves, effects.late) == ((), (), ())
    assert effects.visits[-1] == visit("B", "Tove", day(1), day(1, 1))


def test_two_floors_in_one_half_day_are_said_once_with_the_half_day_and_both_floors():
    (fault,) = moving("A", start=day(0, 1)).breaks
    assert (fault.kind, fault.floor, fault.other, fault.half) == (
        FaultKind.DOUBLE_BOOKED,
        key("C"),
        key("A"),
        day(1),
    )


def test_a_floor_moved_before_it_is_ready_says_so():
    effects = moving("C", start=day(0))
    assert FaultKind.BEFORE_READY in kinds(effects)


def test_a_fitter_without_the_skill_and_a_day_off_are_both_said():
    effects = moving("C", fitter="Tove", start=day(2))
    assert kinds(effects) == [FaultKind.DAY_OFF, FaultKind.SKILL_MISSING]
    assert effects.breaks[1].skills == {"pattern"}
    assert effects.visits[-1].halves == (day(2), day(2, 1))  # as asked, though Tove is off


def test_a_visit_goes_on_over_days_off_and_weekends():
    assert moving("B", start=day(1, 1)).visits[-1].halves == (day(1, 1), day(3))
    friday = moving("B", start=day(4, 1), halves=3).visits[-1].halves
    assert friday == (day(4, 1), day(7), day(7, 1))


def test_a_day_on_which_the_firm_is_shut_is_said():
    shut = replace(FIRM, holidays=(MONDAY + timedelta(days=3),))
    assert kinds(moving("B", start=day(3), firm=shut)) == [FaultKind.SHUT]
    assert kinds(moving("B", start=day(5), halves=2))[0] is FaultKind.SHUT  # a Saturday


def test_part_timers_are_off_on_the_days_that_are_not_theirs():
    part = Fitter(name="Oona", working_days=(0, 4))
    plan = moved(FIRM, FLOORS, [part], [], Move(floor=key("A"), fitter="Oona", start=day(0, 1)))
    assert plan[0].halves == (day(0, 1), day(4))
    late = moved(FIRM, FLOORS, [part], [], Move(floor=key("A"), fitter="Oona", start=day(1), halves=1))
    assert [one.kind for one in faults_in(FIRM, FLOORS, [part], late)] == [FaultKind.DAY_OFF, FaultKind.TOO_SHORT]


def test_too_few_half_days_are_counted():
    (fault,) = moving("A", halves=1).breaks
    assert (fault.kind, fault.halves) == (FaultKind.TOO_SHORT, 1)


def test_days_late_are_told_job_by_job_before_and_after():
    effects = moving("A", start=day(7))
    assert effects.late == (LateChange(job="A", before=0, after=6),)  # done Monday 23rd, handed over Tuesday 24th
    back = moving("A", visits=effects.visits, start=day(0))
    assert (back.late, back.days_late_more) == ((LateChange(job="A", before=6, after=0),), -6)


def test_the_glue_counts_towards_the_days_late():
    glued = (replace(FLOORS[0], cure_hours=72), *FLOORS[1:])
    # Laid on Monday it is cured on Thursday evening, a day later on Friday evening: handed over on Monday.
    assert moving("A", floors=glued, start=day(1)).late == (LateChange(job="A", before=2, after=5),)


def test_what_a_move_puts_right_is_saved():
    wrong = (visit("C", "Maren", day(0), day(0, 1)), PLAN[0], PLAN[1])
    effects = moving("C", visits=wrong, start=day(1))
    assert {one.kind for one in effects.saves} == {FaultKind.DOUBLE_BOOKED, FaultKind.BEFORE_READY}
    assert effects.breaks == ()


def test_what_was_wrong_before_is_not_the_moves_doing():
    wrong = (visit("C", "Maren", day(0), day(0, 1)), PLAN[1])
    effects = moving("B", visits=wrong, start=day(1))
    assert (effects.breaks, effects.saves) == ((), ())


def test_a_floor_not_in_the_plan_is_put_in_with_the_half_days_it_needs():
    effects = moving("A", visits=PLAN[1:], fitter="Maren", start=day(3))
    assert effects.visits[-1] == visit("A", "Maren", day(3), day(3, 1))
    with pytest.raises(Refused, match="Say who lays this floor"):
        moving("A", visits=PLAN[1:], start=day(3))
    with pytest.raises(Refused, match="from which half day"):
        moving("A", visits=PLAN[1:], fitter="Maren")


def test_a_visit_by_somebody_who_left_is_said():
    gone = (visit("A", "Piet", day(0), day(0, 1)),)
    assert [one.kind for one in faults_in(FIRM, FLOORS, STAFF, gone)] == [FaultKind.NOBODY]


def test_two_who_lay_one_floor_share_its_hours_and_are_moved_one_by_one():
    both = (visit("A", "Maren", day(0)), visit("A", "Tove", day(0)))
    assert list(faults_in(FIRM, FLOORS[:1], STAFF, both)) == []
    apart = moving("A", floors=FLOORS[:1], visits=both, of="Tove", start=day(1))
    assert apart.visits == (both[0], visit("A", "Tove", day(1)))
    assert apart.breaks == ()
    alone = list(faults_in(FIRM, FLOORS[:1], STAFF, both[:1]))
    assert [(one.kind, one.halves) for one in alone] == [(FaultKind.TOO_SHORT, 1)]


def test_moves_that_cannot_be_are_refused():
    with pytest.raises(Refused, match="Hall of Z is not among"):
        moving("Z", start=day(1))
    with pytest.raises(Refused, match="Piet is not among the fitters"):
        moving("A", fitter="Piet")
    with pytest.raises(Refused, match="half days"):
        moving("A", halves=0)
