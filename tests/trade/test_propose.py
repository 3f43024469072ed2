"""Proposed plans: as few days late as can be, then as few changes as can be, then as soon as can be, and why."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

from store.errors import Refused
from store.trade.planning.few_floors import FewFloors
from store.trade.planning.grid import end_of_half, grid_from, halves_needed, start_of_half
from store.trade.planning.nouns import Decider, Fitter, Floor, FloorKey, Half, Visit
from store.trade.planning.placing import Placing
from store.trade.planning.propose import first_come_first_served, propose
from tests.bench.bench_plan import FIRM as BENCH_FIRM
from tests.bench.bench_plan import NOW as BENCH_NOW
from tests.bench.bench_plan import crowded_month
from tests.trade.conftest import FIRM, when
from tests.trade.plan_checker import days_late, faults_in

NOW = when("2026-11-16 07:00")  # a Monday
MONDAY = date(2026, 11, 16)
MAREN, ILSE, TOVE = (Fitter(name=name) for name in ("Maren", "Ilse", "Tove"))
A_DAY = 8.5


def floor(job, hours=A_DAY, *, ready="2026-11-16 08:00", by=None, room="Hall", **more):
    return Floor(
        job=job,
        room=room,
        hours=hours,
        earliest=when(ready),
        promised_on=date.fromisoformat(by) if by else None,
        **more,
    )


def day(number, half=0):
    """A half day, so many days after the first Monday."""
    return Half(MONDAY + timedelta(days=number), half)


def visit(job, fitter, *halves, room="Hall"):
    return Visit(floor=FloorKey(job, room), fitter=fitter, halves=halves)


def best(floors, fitters=(MAREN,), now=NOW, firm=FIRM, seed=1):
    *_, last = propose(firm, floors, fitters, now, seed=seed)
    return last


def reason(plan, job, room="Hall"):
    return next(one for one in plan.reasons if one.floor == FloorKey(job, room))


def place(plan, job, room="Hall"):
    return next(one for one in plan.visits if one.floor == FloorKey(job, room))


# ---- single plans, worked by hand


def test_a_floor_is_laid_as_soon_as_it_is_ready():
    plan = best([floor("A", ready="2026-11-17 09:30")])
    assert plan.visits == (visit("A", "Maren", day(1, 1), day(2, 0)),)
    assert reason(plan, "A").decider is Decider.READY
    assert reason(plan, "A").ready_from == day(1, 1)


def test_nothing_begins_in_the_half_day_that_is_going_on():
    assert place(best([floor("A", 4)], now=when("2026-11-16 09:00")), "A").halves == (day(0, 1),)


def test_the_floor_promised_first_goes_first_though_it_came_last():
    floors = [floor("A", 17), floor("B", by="2026-11-17")]
    came, plan = first_come_first_served(FIRM, floors, [MAREN], NOW), best(floors)
    assert (came.days_late, plan.days_late) == (2, 0)  # done on Wednesday evening, handed over on Thursday
    assert reason(plan, "B").decider is Decider.READY
    assert (reason(plan, "A").decider, reason(plan, "A").behind) == (Decider.FITTER_BUSY, FloorKey("B", "Hall"))


def test_first_come_first_served_gives_a_floor_to_whoever_is_done_with_it_first():
    part = Fitter(name="Ilse", hours_a_day=4)
    plan = first_come_first_served(FIRM, [floor("A"), floor("B")], [part, MAREN], NOW)
    assert (place(plan, "A").fitter, place(plan, "B").fitter) == ("Maren", "Maren")


def test_the_glue_counts_towards_the_days_late():
    (end,) = best([floor("A", by="2026-11-17", cure_hours=72)]).ends
    assert (end.handover_on, end.days_late) == (date(2026, 11, 20), 3)  # laid by Monday 16:30, cured Thursday 16:30


def test_a_job_is_as_late_as_its_latest_floor():
    floors = [floor("A", by="2026-11-16", room=room) for room in ("Hall", "Study")]
    (end,) = best(floors).ends
    assert (end.handover_on, end.days_late) == (date(2026, 11, 18), 2)


def test_days_off_and_holidays_are_passed_over():
    firm = replace(FIRM, holidays=(date(2026, 11, 17),))
    off = Fitter(name="Maren", off=frozenset({MONDAY}))
    plan = best([floor("A")], [off], firm=firm)
    assert place(plan, "A").halves == (day(2, 0), day(2, 1))
    assert reason(plan, "A").decider is Decider.DAYS_OFF


def test_a_fitter_who_works_half_days_takes_twice_the_days():
    part = Fitter(name="Maren", hours_a_day=4.25, working_days=(0, 2))
    assert place(best([floor("A")], [part]), "A").halves == (day(0, 0), day(0, 1), day(2, 0), day(2, 1))


def test_where_a_fitter_is_somewhere_else_no_floor_is_laid():
    busy = Fitter(name="Maren", busy=frozenset({day(0, 1)}))
    assert place(best([floor("A")], [busy]), "A").halves == (day(0), day(1))


def test_a_floor_is_laid_by_somebody_who_has_the_skills():
    skilled = Fitter(name="Tove", skills=frozenset({"pattern"}))
    floors = [floor("A", skills=frozenset({"pattern"})), floor("B")]
    plan = best(floors, [MAREN, skilled])
    assert (place(plan, "A").fitter, place(plan, "B").fitter) == ("Tove", "Maren")


def test_a_floor_nobody_can_lay_is_said_and_the_others_are_planned():
    plan = best([floor("A", skills=frozenset({"chevron"})), floor("B")])
    assert [one.floor.job for one in plan.visits] == ["B"]
    assert [one.decider for one in plan.unplaced] == [Decider.NOBODY]
    assert [one.job for one in plan.ends] == ["B"]


def test_a_floor_ready_in_two_years_has_no_day():
    assert best([floor("A", ready="2028-11-16 08:00")]).unplaced[0].decider is Decider.NO_DAY


# ---- what is booked


def test_a_booking_stays_where_it_is_while_nobody_is_late_for_it():
    plan = best([floor("A", booked=visit("A", "Maren", day(3), day(3, 1))), floor("B")])
    assert place(plan, "A").halves == (day(3), day(3, 1))
    assert (plan.changes, reason(plan, "A").decider) == (0, Decider.BOOKED)
    assert place(plan, "B").halves == (day(0), day(0, 1))


def test_only_as_many_bookings_are_moved_as_the_promises_need():
    booked = [floor(job, booked=visit(job, "Maren", day(at), day(at, 1))) for job, at in (("A", 0), ("B", 1), ("C", 2))]
    plan = best([*booked, floor("D", by="2026-11-17")])
    assert (plan.days_late, plan.changes) == (0, 1)
    assert place(plan, "D").halves == (day(0), day(0, 1))


def test_looking_at_all_plans_of_a_few_floors_keeps_as_many_bookings_as_can_be(monkeypatch):
    monkeypatch.setattr("store.trade.planning.propose.TRIES", 0)
    booked = [floor(job, booked=visit(job, "Maren", day(at), day(at, 1))) for job, at in (("A", 0), ("B", 1), ("C", 2))]
    plan = best([*booked, floor("D", by="2026-11-17")])
    assert (plan.days_late, plan.changes) == (0, 1)


def test_a_booking_before_the_floor_is_ready_is_moved():
    plan = best([floor("A", ready="2026-11-18 08:00", booked=visit("A", "Maren", day(0), day(0, 1)))])
    assert (place(plan, "A").halves, plan.changes) == ((day(2), day(2, 1)), 1)


def test_a_pinned_booking_stays_whatever_it_costs():
    floors = [
        floor("A", ready="2026-11-18 08:00", booked=visit("A", "Maren", day(0), day(0, 1)), pinned=True),
        floor("B", by="2026-11-17"),
    ]
    plan = best(floors)
    assert place(plan, "A").halves == (day(0), day(0, 1))
    assert (reason(plan, "A").decider, plan.days_late) == (Decider.PINNED, 1)


def test_a_booking_going_on_now_stays():
    booked = floor("A", booked=visit("A", "Maren", day(0), day(0, 1)))
    assert best([booked], now=when("2026-11-16 10:00")).changes == 0
    assert best([booked], now=when("2026-11-16 13:00")).changes == 1  # the morning went by


def test_of_two_bookings_in_one_half_day_one_stays():
    floors = [floor(job, booked=visit(job, "Maren", day(1), day(1, 1))) for job in "AB"]
    assert best(floors).changes == 1


# ---- the search


@st.composite
def crowds(draw, most=6, fitters=3):
    skills = st.sets(st.sampled_from(["pattern", "stairs"]), max_size=1).map(frozenset)
    staff = [
        Fitter(
            name=name,
            skills=frozenset({"pattern", "stairs"}) if name == "Maren" else draw(skills),
            off=frozenset(MONDAY + timedelta(days=one) for one in draw(st.sets(st.integers(0, 9), max_size=3))),
        )
        for name in ("Maren", "Ilse", "Tove")[: draw(st.integers(1, fitters))]
    ]
    floors = [
        Floor(
            job=draw(st.sampled_from("ABCDEF")),
            room=str(number),
            hours=draw(st.sampled_from([4, 8, 12, 17])),
            earliest=NOW + timedelta(hours=draw(st.integers(0, 120))),
            promised_on=MONDAY + timedelta(days=draw(st.integers(0, 9))),
            cure_hours=draw(st.sampled_from([0, 24, 72])),
            skills=draw(skills) if draw(st.booleans()) else frozenset(),
        )
        for number in range(draw(st.integers(1, most)))
    ]
    return floors, staff


def fewest_days_late(floors, fitters):
    """The fewest days late of all plans, by integer programming: a 0-1 variable for each floor, fitter and first half.

    Solved exactly by HiGHS through scipy; the objective is one variable for each job, at least the days late of each of
    its floors.
    """
    days = [day(number) for number in range(45) if (MONDAY + timedelta(days=number)).weekday() < 5]
    halves = [half for one in days for half in (one, Half(one.day, 1))]
    jobs = sorted({one.job for one in floors})
    columns, rows, entries, low, high = [], 0, [], [], []
    for number, one in enumerate(floors):
        for who in fitters:
            theirs = [half for half in halves if half.day not in who.off]
            count = halves_needed(FIRM, one.hours, who)
            for first in range(len(theirs) - count + 1):
                at = theirs[first : first + count]
                if one.skills <= who.skills and start_of_half(FIRM, at[0]) >= one.earliest:
                    late = days_late(FIRM, [one], [Visit(floor=one.key, fitter=who.name, halves=tuple(at))])
                    columns.append((number, who.name, at, late.get(one.job, 0)))
    for number, one in enumerate(floors):  # every floor once, and its days late are its job's
        mine = [place for place, column in enumerate(columns) if column[0] == number]
        entries += [(rows, place, 1) for place in mine]
        entries += [(rows + 1, place, -columns[place][3]) for place in mine]
        entries.append((rows + 1, len(columns) + jobs.index(one.job), 1))
        low, high, rows = [*low, 1, 0], [*high, 1, np.inf], rows + 2
    for who in fitters:  # a fitter lays one floor at a time
        for half in halves:
            entries += [(rows, n, 1) for n, one in enumerate(columns) if one[1] == who.name and half in one[2]]
            low, high, rows = [*low, 0], [*high, 1], rows + 1
    size = len(columns) + len(jobs)
    row, column, value = zip(*entries, strict=True)
    solved = milp(
        c=[0] * len(columns) + [1] * len(jobs),
        constraints=LinearConstraint(coo_array((value, (row, column)), shape=(rows, size)).tocsr(), low, high),
        integrality=[1] * len(columns) + [0] * len(jobs),
        bounds=Bounds(0, [1] * len(columns) + [np.inf] * len(jobs)),
    )
    assert solved.success
    return round(solved.fun)


@settings(max_examples=10, deadline=None)
@given(crowd=crowds())
def test_of_a_few_floors_no_plan_is_less_late_as_integer_programming_proves(crowd):
    floors, fitters = crowd
    fewest = fewest_days_late(floors, fitters)
    assert best(floors, fitters).days_late == fewest
    # Looking at every plan that could be better finds as many by itself, without moving floors about.
    grid = grid_from(FIRM, MONDAY, [one.cure_hours for one in floors])
    placing = Placing(FIRM, grid, floors, fitters, NOW)
    looking = FewFloors(placing, range(len(floors)), [0] * len(fitters), [0] * len(placing.jobs))
    way = looking.better_than(10_000)
    chosen = [who for _, who in sorted(way)]
    _, cost = placing.place([number for number, _ in way], chosen, [False] * len(floors))
    assert (cost[0], cost[1], looking.best) == (0, fewest, fewest)
    assert looking.better_than(fewest) is None


@settings(max_examples=10, deadline=None)
@given(crowd=crowds(most=9), data=st.data())
def test_a_plan_breaks_nothing_and_says_of_itself_what_others_say(crowd, data):
    floors, fitters = crowd
    spots = st.sampled_from([day(0), day(1, 1), day(2), day(3), day(4)])
    floors = [
        replace(one, booked=visit(one.job, "Maren", data.draw(spots), room=one.room))
        if data.draw(st.booleans())
        else one
        for one in floors
    ]
    came = first_come_first_served(FIRM, floors, fitters, NOW)
    shown = list(propose(FIRM, floors, fitters, NOW))
    plan = shown[-1]
    assert list(faults_in(FIRM, floors, fitters, plan.visits)) == []
    assert len(plan.visits) == len(floors) == len(plan.reasons)
    assert sum(days_late(FIRM, floors, plan.visits).values()) == plan.days_late <= came.days_late
    at = {one.floor: (one.fitter, one.halves) for one in plan.visits}
    booked = [one.booked for one in floors if one.booked]
    assert plan.changes == sum(at[one.floor] != (one.fitter, one.halves) for one in booked)
    rank = [(one.days_late, one.changes) for one in shown]
    assert rank == sorted(rank, reverse=True)
    assert [one.done for one in shown] == sorted(one.done for one in shown)
    assert plan.done == 1


def test_the_same_seed_gives_the_same_plan():
    floors = [floor(f"J{n}", 4 + 4 * (n % 5), by=f"2026-11-{17 + n % 9}") for n in range(12)]
    assert best(floors, [MAREN, ILSE], seed=5) == best(floors, [MAREN, ILSE], seed=5)


def test_to_cancel_is_to_stop_iterating_and_a_plan_is_there_at_once():
    first = next(propose(FIRM, [floor("A"), floor("B")], [MAREN], NOW))
    assert len(first.visits) == 2
    assert first.done < 1


def test_nothing_to_lay_is_a_plan_too():
    plan = best([])
    assert (plan.visits, plan.days_late, plan.done) == ((), 0, 1.0)


def test_twins_and_people_who_never_work_are_refused():
    with pytest.raises(Refused, match="Two fitters"):
        best([floor("A")], [MAREN, MAREN])
    with pytest.raises(Refused, match="twice"):
        best([floor("A"), floor("A")])
    with pytest.raises(Refused, match="Tove works no hours"):
        best([floor("A")], [Fitter(name="Tove", hours_a_day=0)])
    with pytest.raises(Refused, match="works on none"):
        best([floor("A")], firm=replace(FIRM, working_days=()))


def test_a_half_day_ends_where_the_other_begins_also_when_the_clocks_change():
    for sunday in (date(2026, 3, 29), date(2026, 10, 25)):
        assert end_of_half(FIRM, Half(sunday, 0)) == start_of_half(FIRM, Half(sunday, 1))


def test_in_crowded_months_it_is_never_later_than_first_come_first_served_and_a_fifth_less_in_all():
    months = [crowded_month(seed) for seed in (13, 25)]
    came = [first_come_first_served(BENCH_FIRM, *month, BENCH_NOW).days_late for month in months]
    plans = [best(*month, now=BENCH_NOW, firm=BENCH_FIRM).days_late for month in months]
    assert all(mine <= theirs for mine, theirs in zip(plans, came, strict=True))
    assert sum(plans) <= 0.8 * sum(came)
