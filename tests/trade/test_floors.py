"""From jobs on file to floors that can be planned, and from planned visits back to days that can be booked."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.trade.people import PersonDraft
from store.trade.planning.floors import Stretch, floors_to_lay, stretches_of
from store.trade.planning.job_network import job_times
from store.trade.planning.nouns import Decider, Fitter, FloorKey, Half, Visit
from store.trade.planning.propose import propose
from store.trade.surveyed import Pattern
from tests.trade.conftest import (
    FIRM,
    READING_ROOM,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    laid,
    straightedge,
    timber,
    when,
)

MONDAY = date(2026, 11, 23)


def half(number, part=0):
    return Half(MONDAY + timedelta(days=number), part)


def a_ready_job(*events, **more):
    good = (air("2026-11-18 09:00"), timber("2026-11-18 09:00"), straightedge("2026-11-18 09:00"))
    return a_job(an_order(), a_delivery("2026-11-17 09:30"), *good, *events, **more)


def planned(facts, now="2026-11-20 12:00", booked=None):
    return floors_to_lay(facts, job_times(FIRM, facts, when(now)), booked)


def test_a_room_becomes_a_floor_that_is_ready_when_its_verdict_says():
    (floor,) = planned(a_ready_job())
    assert (floor.key, floor.earliest) == (FloorKey("L-0007", READING_ROOM), when("2026-11-24 09:30"))
    assert floor.hours == pytest.approx(8 * 21.32 / 16)
    assert (floor.cure_hours, floor.skills, floor.pinned) == (72, frozenset(), False)


def test_a_herringbone_asks_for_somebody_who_lays_it():
    (floor,) = planned(a_ready_job(rooms=(a_room(pattern=Pattern.HERRINGBONE),)))
    assert floor.skills == PersonDraft(name="Maren", herringbone=True).skills != frozenset()


def test_what_is_laid_is_not_planned_again():
    assert planned(a_ready_job(laid("2026-11-19 08:00", "2026-11-19 16:00", 21.32))) == ()


def test_a_laying_that_is_going_on_stays_with_whoever_began_it():
    key = FloorKey("L-0007", READING_ROOM)
    booked = {key: Visit(floor=key, fitter="Tove", halves=(Half(date(2026, 11, 20), 0), Half(date(2026, 11, 20), 1)))}
    facts = a_ready_job(laid("2026-11-20 08:00"))
    floors = planned(facts, booked=booked)
    assert floors[0].pinned
    assert floors[0].earliest == when("2026-11-20 08:00")
    *_, plan = propose(FIRM, floors, [Fitter(name="Maren"), Fitter(name="Tove")], when("2026-11-20 12:00"))
    assert [one.decider for one in plan.reasons] == [Decider.PINNED]


def visit(*halves):
    return Visit(floor=FloorKey("A", "Hall"), fitter="Maren", halves=halves)


def test_a_visit_is_booked_as_an_afternoon_whole_days_and_a_morning():
    asked = visit(half(0, 1), half(1), half(1, 1), half(2), half(2, 1), half(3))
    days = [MONDAY + timedelta(days=number) for number in range(4)]
    assert list(stretches_of(FIRM, asked)) == [
        Stretch(first=days[0], last=days[0], half=1),
        Stretch(first=days[1], last=days[2]),
        Stretch(first=days[3], last=days[3], half=0),
    ]


def test_a_weekend_does_not_end_a_stretch_and_a_day_off_does():
    over = visit(half(4), half(4, 1), half(7), half(7, 1))
    assert list(stretches_of(FIRM, over)) == [Stretch(first=half(4).day, last=half(7).day)]
    off = visit(half(0), half(0, 1), half(2), half(2, 1))
    assert [one.first for one in stretches_of(FIRM, off)] == [half(0).day, half(2).day]
    holiday = replace(FIRM, holidays=(half(1).day,))
    assert len(list(stretches_of(holiday, off))) == 1
