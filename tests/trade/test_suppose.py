"""What if: each supposition changes a copy of how things stand, and what follows is told by the sums of always."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.trade.bookings import Booking
from store.trade.clashes import ClashKind
from store.trade.jobs import Subfloor
from store.trade.people import DaysOff, Person
from store.trade.planning.consequences import Consequences, consequences, outlook, plan_moves
from store.trade.planning.propose import propose
from store.trade.planning.situation import Situation, planning_of
from store.trade.planning.suppose import (
    FloorLater,
    OrderComes,
    PromiseMoves,
    ScreedDriesLater,
    SomebodyAway,
    Supposition,
    drying_rooms,
    owed_orders,
    problems_with,
    suppose,
)
from store.trade.readings import Carbide, Hygrometer, InSituProbe, Measure
from store.trade.traditions import Tradition
from tests.trade.conftest import (
    FIRM,
    READING_ROOM,
    a_delivery,
    a_job,
    a_reading,
    a_room,
    air,
    an_order,
    straightedge,
    timber,
    when,
)

MONDAY = date(2026, 11, 16)
GOOD = (air("2026-11-16 07:00"), timber("2026-11-16 07:00"), straightedge("2026-11-16 07:00"))
SCREED = a_room(subfloor=Subfloor.CEMENT_SCREED, screed_mm=50, screed_laid_on=date(2026, 10, 26))


def a_booking(
    person: str, first: date, last: date | None = None, *, number: int = 1, room: str = READING_ROOM
) -> Booking:
    return Booking(id=number, ref="L-0007", person=person, first=first, last=last or first, room=room)


def a_person(name: str, *days_off: DaysOff) -> Person:
    return Person(id=len(name), rev=1, name=name, days_off=days_off)


def on_monday(*events: object, bookings: tuple[Booking, ...] = (), promised: date | None = None, **more) -> Situation:
    """One job on Monday 16 November 2026 at 07:30, its packs due the next morning."""
    facts = a_job(an_order(), *GOOD, *events, **more)
    return Situation(
        firm=FIRM,
        now=when("2026-11-16 07:30"),
        jobs=(replace(facts, job=replace(facts.job, promised_on=promised)),),
        people=(a_person("Maren"), a_person("Nils")),
        bookings=bookings,
    )


def what_follows(situation: Situation, *suppositions: Supposition) -> Consequences:
    return consequences(outlook(situation), outlook(suppose(situation, suppositions)))


def slips(days: int) -> OrderComes:
    return OrderComes(ref="L-0007", order=1, due_on=date(2026, 11, 17) + timedelta(days=days))


def test_a_delivery_a_week_late_ends_the_job_a_week_later_and_the_promise_says_by_how_much() -> None:
    # Due Tue 17 Nov 08:00, 168 h in the room: ready Tue 24 Nov. 21.32 m² at 16 m² a day are 10.7 h: laid by Wed 25 Nov
    # 10:10; the glue takes 72 h, until Sat 28 Nov: handed over Mon 30 Nov. A week later all of it is a week later.
    (end,) = what_follows(on_monday(promised=date(2026, 12, 2)), slips(7)).ends
    assert end.was is not None
    assert end.will_be is not None
    assert (end.was.handover_on, end.was.days_late) == (date(2026, 11, 30), 0)
    assert (end.will_be.handover_on, end.will_be.days_late) == (date(2026, 12, 7), 5)


def test_who_was_booked_for_the_packs_that_came_in_time_comes_too_soon_then() -> None:
    planned = on_monday(bookings=(a_booking("Maren", date(2026, 11, 24), date(2026, 11, 25)),))
    (told,) = what_follows(planned, slips(2)).brings
    assert (told.clash.kind, told.clash.on, told.clash.days) == (ClashKind.TOO_SOON, date(2026, 11, 24), 2)
    assert told.clash.ready_from == when("2026-11-26 08:00")


def test_a_floor_blocked_by_something_to_do_is_judged_by_what_is_possible_at_best() -> None:
    # Without a straightedge the floor is blocked, and the packs still decide its day.
    booked = (a_booking("Maren", date(2026, 11, 24)),)
    blocked = replace(on_monday(bookings=booked), jobs=(a_job(an_order(), GOOD[0], GOOD[1]),))
    assert outlook(blocked).told == {}
    (told,) = what_follows(blocked, slips(7)).brings
    assert told.clash.ready_from == when("2026-12-01 08:00")


def test_what_comes_earlier_takes_a_clash_away() -> None:
    planned = on_monday(bookings=(a_booking("Maren", date(2026, 11, 24)),))
    late = suppose(planned, [slips(3)])
    found = what_follows(late, slips(0))
    assert [one.clash.kind for one in found.takes_away] == [ClashKind.TOO_SOON]
    assert found.brings == ()


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 40), st.integers(0, 40))
def test_the_later_a_delivery_the_later_the_end(one: int, other: int) -> None:
    first, last = sorted((one, other))
    ends = [outlook(suppose(on_monday(), [slips(days)])).times["L-0007"].handover_from for days in (first, last)]
    assert ends[0] is not None
    assert ends[1] is not None
    assert ends[0] <= ends[1]


def test_of_two_suppositions_about_one_order_the_later_counts() -> None:
    assert suppose(on_monday(), [slips(7), slips(2)]) == suppose(on_monday(), [slips(2)])


def away(first: int, last: int, person: str = "Nils") -> SomebodyAway:
    return SomebodyAway(person=person, days=DaysOff(first=date(2026, 11, first), last=date(2026, 11, last)))


def test_somebody_ill_loses_their_days_and_the_floor_has_nobody() -> None:
    planned = on_monday(bookings=(a_booking("Nils", date(2026, 11, 24), date(2026, 11, 26)),))
    found = what_follows(planned, away(20, 25))
    (lost,) = found.lost
    assert (lost.days, lost.nobody_else) == ((date(2026, 11, 24), date(2026, 11, 25)), True)
    assert (found.brings, found.ends) == ((), ())


@pytest.mark.parametrize(
    ("other", "nobody"),
    [
        (a_booking("Maren", date(2026, 11, 24), date(2026, 11, 26), number=2), False),
        (a_booking("Maren", date(2026, 11, 24), date(2026, 11, 26), number=2, room=""), False),
        (a_booking("Maren", date(2026, 11, 24), number=2), True),  # on one of two days only
        (a_booking("Maren", date(2026, 11, 24), date(2026, 11, 26), number=2, room="Hall"), True),
        (a_booking("Ode", date(2026, 11, 24), date(2026, 11, 26), number=2), True),  # works here no longer
    ],
)
def test_a_floor_on_which_somebody_else_is_has_somebody(other: Booking, nobody: bool) -> None:
    rooms = (a_room(), a_room("Hall", id=2))
    planned = on_monday(bookings=(a_booking("Nils", date(2026, 11, 24), date(2026, 11, 25)), other), rooms=rooms)
    (lost,) = what_follows(planned, away(24, 30)).lost
    assert lost.nobody_else is nobody


def test_both_away_means_nobody() -> None:
    both = (a_booking("Nils", date(2026, 11, 24)), a_booking("Maren", date(2026, 11, 24), number=2))
    lost = what_follows(on_monday(bookings=both), away(24, 24), away(24, 24, "Maren")).lost
    assert [one.nobody_else for one in lost] == [True, True]


def test_a_room_with_other_trades_in_it_is_ready_when_they_are_gone() -> None:
    later = FloorLater(ref="L-0007", room=READING_ROOM, on=date(2026, 12, 3))
    seen = outlook(suppose(on_monday(), [later]))
    assert seen.times["L-0007"].ready_at == when("2026-12-03 08:00")


def test_a_screed_found_damp_is_tested_again_later_and_packs_to_come_wait_for_it() -> None:
    # 50 mm of cement screed of 26 October are forecast dry 50 days later, on Tue 15 December (a day for each mm).
    damp = ScreedDriesLater(ref="L-0007", room=READING_ROOM, on=date(2026, 12, 22))
    planned = on_monday(rooms=(SCREED,))
    before, after = outlook(planned), outlook(suppose(planned, [damp]))
    assert before.times["L-0007"].ready_at == when("2026-12-22 08:00")
    assert after.times["L-0007"].ready_at == when("2026-12-29 08:00")


@pytest.mark.parametrize(
    ("tradition", "good"),
    [
        (Tradition.USUAL, Carbide(percent=1.5)),
        (Tradition.USUAL, Hygrometer(rh_percent=60)),
        (Tradition.NORTH_AMERICAN, InSituProbe(rh_percent=60)),
    ],
)
def test_a_test_that_was_good_counts_no_longer_once_one_is_supposed_to_fail(
    tradition: Tradition, good: Measure
) -> None:
    tested = on_monday(a_reading("2026-11-16 07:00", good), rooms=(SCREED,))
    planned = replace(tested, firm=replace(FIRM, tradition=tradition))
    damp = ScreedDriesLater(ref="L-0007", room=READING_ROOM, on=date(2026, 12, 22))
    assert outlook(planned).times["L-0007"].ready_at == when("2026-11-24 08:00")
    assert outlook(suppose(planned, [damp])).times["L-0007"].ready_at == when("2026-12-29 08:00")
    assert [one.name for one in drying_rooms(planned.jobs[0])] == [READING_ROOM]
    assert drying_rooms(on_monday().jobs[0]) == ()


def test_another_promise_changes_what_is_late_and_nothing_else() -> None:
    planned = on_monday(promised=date(2026, 12, 2), bookings=(a_booking("Maren", date(2026, 11, 26)),))
    found = what_follows(planned, PromiseMoves(ref="L-0007", on=date(2026, 11, 25)))
    (end,) = found.ends
    assert end.was is not None
    assert end.will_be is not None
    assert (end.was.handover_on, end.will_be.handover_on) == (date(2026, 11, 30), date(2026, 11, 30))
    assert (end.was.days_late, end.will_be.days_late) == (0, 5)
    assert [(one.clash.kind, one.clash.days) for one in found.brings] == [(ClashKind.LATE, 5)]


def test_a_clash_that_grows_is_told_again_and_one_that_stays_is_not() -> None:
    planned = on_monday(promised=date(2026, 11, 24), bookings=(a_booking("Maren", date(2026, 11, 26)),))
    same = what_follows(planned, PromiseMoves(ref="L-0007", on=date(2026, 11, 24)))
    assert (same.ends, same.brings) == ((), ())
    worse = what_follows(planned, PromiseMoves(ref="L-0007", on=date(2026, 11, 23)))
    # Booked to Thu 26 Nov, and the glue takes three days: handed over on Mon 30 Nov, a week after Mon 23 Nov.
    assert [one.clash.days for one in worse.brings] == [7]


def test_another_plan_says_which_job_ends_otherwise() -> None:
    planned = on_monday(promised=date(2026, 12, 2))
    plans = []
    for situation in (planned, suppose(planned, [slips(7)])):
        planning = planning_of(situation)
        plans.append(list(propose(FIRM, planning.floors, planning.fitters, situation.now))[-1])
    (moves,) = plan_moves(plans[0], plans[1], {"L-0007": "Reading room"})
    assert moves.title == "Reading room"
    assert moves.was is not None
    assert moves.will_be is not None
    assert (moves.was.days_late, moves.will_be.days_late) == (0, 5)
    assert plan_moves(plans[0], plans[0], {}) == ()


def test_what_is_owed_may_come_late_and_what_came_may_not() -> None:
    (owed, code), *rest = owed_orders(on_monday().jobs[0])
    assert (owed.order.id, owed.packs, code, rest) == (1, 12, "OAK-190", [])
    assert owed_orders(on_monday(a_delivery("2026-11-16 07:10")).jobs[0]) == ()


def test_what_is_gone_meanwhile_changes_nothing() -> None:
    planned = on_monday()
    gone = (
        OrderComes(ref="L-0007", order=9, due_on=date(2026, 12, 1)),
        FloorLater(ref="L-0008", room="Hall", on=date(2026, 12, 1)),
        FloorLater(ref="L-0007", room="Hall", on=date(2026, 12, 1)),
        away(24, 25, "Ode"),
    )
    assert what_follows(planned, *gone) == Consequences(ends=(), lost=(), brings=(), takes_away=())


@pytest.mark.parametrize(
    ("wrong", "field", "say"),
    [
        (slips(-2), "day", "That day is over already"),
        (PromiseMoves(ref="L-0007", on=MONDAY - timedelta(days=1)), "day", "That day is over already"),
        (FloorLater(ref="L-0007", room=READING_ROOM, on=date(2090, 1, 1)), "day", "more than ten years off"),
        (away(20, 18), "last", "The last day is before the first"),
        (away(10, 12), "last", "That day is over already"),
    ],
)
def test_what_cannot_be_supposed_is_said_beside_its_field(wrong: Supposition, field: str, say: str) -> None:
    (problem,) = problems_with(on_monday(), wrong)
    assert problem.field == field
    assert say in problem.say
    assert problems_with(on_monday(), slips(0)) == ()
