"""A job's earliest and latest days: from what is on file to when its floors can and must be laid."""

from dataclasses import replace
from datetime import date, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.trade.diary import first_working_moment, later
from store.trade.jobs import Method, Subfloor
from store.trade.outline import rectangle
from store.trade.planning.job_network import job_times
from store.trade.planning.job_steps import Allowances
from store.trade.traditions import Tradition
from store.trade.verdict import Verdict
from tests.trade.conftest import (
    FIRM,
    MS,
    OAK,
    READING_ROOM,
    a_delivery,
    a_job,
    a_move,
    a_room,
    air,
    an_order,
    carbide,
    cold,
    laid,
    signed,
    smoothed,
    standing,
    straightedge,
    timber,
    when,
)

PLAIN = Allowances(with_skirting=False)
EIGHT_HOURS = rectangle(4000, 4000)  # 16 m² glued: 8 hours by the trade's rule, 9 packs


def good(moment="2026-11-16 09:00", room=READING_ROOM):
    return air(moment, room=room), timber(moment, room=room), straightedge(moment, room=room)


def times(facts, moment, firm=FIRM, **more):
    return job_times(firm, facts, when(moment, firm), **more)


def promised(facts, day):
    return replace(facts, job=replace(facts.job, promised_on=date.fromisoformat(day)))


def chain(found):
    return [one.activity.step for one in found.chain]


# ---- where standing speaks, this says the same


def test_laying_starts_when_the_verdict_says_ready_from():
    facts = a_job(an_order(), a_delivery("2026-11-17 09:30"), *good("2026-11-17 10:00"))
    asked = "2026-11-20 12:00"
    found, stands = times(facts, asked), standing(facts, asked)
    assert stands.verdict is Verdict.READY_FROM
    assert found.ready_at == stands.ready_from == when("2026-11-24 09:30")
    assert found.lay_from == when("2026-11-24 09:30")


def test_boards_ready_on_a_saturday_are_laid_on_monday():
    facts = a_job(an_order(), a_delivery("2026-11-14 09:30"), *good("2026-11-17 10:00"))
    found = times(facts, "2026-11-20 12:00")
    assert found.ready_at == when("2026-11-21 09:30")
    assert found.lay_from == when("2026-11-23 08:00")


def test_packs_due_today_count_from_this_morning_as_their_hold_does():
    facts = a_job(an_order(due="2026-11-17"), *good())
    asked = "2026-11-17 14:00"
    assert times(facts, asked).ready_at == standing(facts, asked).ready_from == when("2026-11-24 08:00")


@settings(max_examples=40, deadline=None)
@given(
    came=st.integers(0, 12),
    due=st.integers(0, 30),
    site=st.integers(-5, 40),
    asked=st.integers(0, 200),
    cold_at=st.none() | st.integers(0, 100),
    hours_asked=st.sampled_from([0, 48, 168]),
    days=st.sets(st.integers(0, 6), min_size=1),
)
def test_whatever_is_on_file_ready_from_is_the_same_here_and_there(came, due, site, asked, cold_at, hours_asked, days):
    firm = replace(FIRM, working_days=tuple(sorted(days)))
    start = when("2026-10-20 09:00")
    moment = later(start, 30 + asked)
    stamp = start.isoformat()
    facts = a_job(
        an_order(12, on="2026-10-19", due=(date(2026, 10, 20) + timedelta(days=due)).isoformat()),
        *([a_delivery(stamp, came)] if came else []),
        *([cold(later(start, cold_at).isoformat())] if cold_at is not None else []),
        *good(later(moment, -1).isoformat()),
        rooms=(a_room(site_ready_on=date(2026, 10, 20) + timedelta(days=site)),),
        products=(replace(OAK, acclimatise_hours=hours_asked), MS),
    )
    stands = standing(facts, moment.isoformat(), firm)
    found = job_times(firm, facts, moment)
    if stands.verdict is Verdict.READY:
        assert found.ready_at == moment
    elif stands.verdict is Verdict.READY_FROM:
        assert found.ready_at == max(moment, stands.ready_from)
    if stands.verdict is not Verdict.BLOCKED:
        assert found.lay_from == first_working_moment(firm, found.ready_at)


def test_a_floor_all_laid_is_handed_over_when_its_windows_say():
    facts = a_job(an_order(), a_delivery(), *good(), laid("2026-11-25 08:00", "2026-11-26 15:00", 21.32))
    found, stands = times(facts, "2026-11-27 09:00"), standing(facts, "2026-11-27 09:00")
    assert found.handover_from == stands.windows.handover == when("2026-11-30 08:00")
    assert (found.ready_at, found.lay_from, found.boards) == (None, None, ())


def test_a_signed_job_stands_at_its_signature():
    facts = a_job(laid("2026-11-25 08:00", "2026-11-26 15:00", 21.32), handover=signed("2026-12-01 10:00"))
    found = times(facts, "2026-12-02 09:00")
    assert found.handover_from == when("2026-12-01 10:00")
    assert found.float_hours is None


# ---- from nothing ordered to the handover


def test_a_job_with_nothing_ordered_goes_from_the_order_to_the_handover():
    facts = promised(a_job(*good(), rooms=(a_room(outline=EIGHT_HOURS),)), "2026-12-18")
    found = times(facts, "2026-11-16 10:00", lead_days={"OAK-190": 10}, allow=PLAIN)
    table = found.timetable
    assert table.of("order OAK-190").earliest_start == when("2026-11-16 10:00")
    assert table.of("deliver OAK-190").earliest_finish == when("2026-11-26 08:00")
    assert found.ready_at == when("2026-12-03 08:00")
    assert found.room(READING_ROOM).earliest_finish == when("2026-12-03 16:00")
    assert found.handover_from == when("2026-12-07 08:00")  # 72 hours of glue end on Sunday at 16:00
    assert chain(found) == ["order", "lead", "deliver", "acclimatise", "lay", "cure", "handover"]


def test_the_last_safe_days_lead_from_the_promise_back_to_the_order():
    facts = promised(a_job(*good(), rooms=(a_room(outline=EIGHT_HOURS),)), "2026-12-18")
    found = times(facts, "2026-11-16 10:00", lead_days={"OAK-190": 10}, allow=PLAIN)
    # Handed over by Friday 18th 16:30, so laid by Tuesday 15th 16:30, so begun just before 8:30 that day.
    assert found.lay_by == when("2026-12-15 08:30") - datetime.resolution
    (boards,) = found.boards
    # Packs must lie from Tuesday 8th, 8:30; those that come on Monday 7th at any hour do.
    assert (boards.deliver_by, boards.order_by) == (date(2026, 12, 7), date(2026, 11, 27))
    # The order itself has the least room: from Monday 16th, 10:00, to Friday 27th, 16:30.
    assert found.float_hours == pytest.approx(11 * 24 + 6.5)


def test_ordered_on_the_last_safe_day_the_promise_is_kept_and_a_week_later_it_is_not():
    facts = promised(a_job(*good(), rooms=(a_room(outline=EIGHT_HOURS),)), "2026-12-18")
    boards = times(facts, "2026-11-16 10:00", allow=PLAIN).boards[0]
    evening = f"{boards.order_by} 16:00"
    assert times(facts, evening, allow=PLAIN).handover_from <= when("2026-12-18 16:30")
    late = times(facts, f"{boards.order_by + timedelta(days=7)} 08:00", allow=PLAIN)
    assert late.float_hours < 0
    assert late.handover_from > when("2026-12-18 16:30")


def test_what_is_ordered_has_no_last_day_to_order_but_one_to_come():
    facts = promised(a_job(an_order(), *good()), "2026-12-18")
    (boards,) = times(facts, "2026-11-12 10:00").boards
    assert boards.order_by is None
    assert boards.deliver_by == date(2026, 12, 4)


def test_without_a_promise_there_is_nothing_late():
    found = times(a_job(*good()), "2026-11-16 10:00")
    assert (found.days_late, found.lay_by, found.float_hours, found.boards) == (0, None, None, ())


def test_an_order_without_a_day_is_reckoned_by_its_lead_time():
    facts = a_job(an_order(on="2026-11-10", due=None), *good())
    found = times(facts, "2026-11-12 10:00", lead_days={"OAK-190": 9})
    assert found.timetable.of("deliver OAK-190").earliest_finish == when("2026-11-19 08:00")


def test_too_few_ordered_means_another_order():
    facts = a_job(an_order(5, due="2026-12-30"), *good())
    found = times(facts, "2026-11-12 10:00", lead_days={"OAK-190": 9})
    assert found.timetable.of("lead OAK-190").earliest_finish == when("2026-11-21 08:00")
    assert found.timetable.of("deliver OAK-190").earliest_finish == when("2026-12-30 08:00")


def test_packs_in_the_unit_are_carried_in_at_a_working_moment_and_then_wait_their_whole_time():
    facts = a_job(an_order(), a_delivery(into="unit"), *good())
    found = times(facts, "2026-11-20 18:00")
    assert found.timetable.of("carry_in OAK-190").earliest_finish == when("2026-11-23 08:00")
    assert found.ready_at == when("2026-11-30 08:00")


def test_a_clock_that_stands_goes_on_from_the_next_working_moment():
    facts = a_job(an_order(), a_delivery("2026-11-16 08:00"), *good(), cold("2026-11-18 08:00"))
    found = times(facts, "2026-11-18 12:00")
    assert found.ready_at == later(when("2026-11-18 12:00"), 120)


def test_part_of_the_packs_moved_on_waits_for_the_others():
    facts = a_job(
        an_order(), a_delivery(packs=12, into="unit"), a_move("2026-11-17 10:00", 5, "unit", READING_ROOM), *good()
    )
    found = times(facts, "2026-11-18 12:00")
    assert found.ready_at == later(when("2026-11-18 12:00"), 168)


# ---- the room


def test_a_screed_dries_is_tested_and_only_then_the_packs_come_in():
    room = a_room(subfloor=Subfloor.CEMENT_SCREED, screed_mm=60, screed_laid_on=date(2026, 10, 1))  # dry on 10 December
    facts = a_job(
        an_order(), a_delivery(into="unit"), air("2026-11-16 09:00"), straightedge("2026-11-16 09:00"), rooms=(room,)
    )
    found = times(facts, "2026-11-20 10:00", allow=PLAIN)
    assert found.timetable.of(f"test_damp {READING_ROOM}").earliest_finish == when("2026-12-10 08:00")
    assert found.ready_at == when("2026-12-17 08:00")
    assert chain(found)[:4] == ["screed_dry", "test_damp", "carry_in", "acclimatise"]


def test_packs_on_order_wait_for_the_test_though_they_come_before_it():
    room = a_room(subfloor=Subfloor.CEMENT_SCREED, screed_mm=60, screed_laid_on=date(2026, 10, 1))
    facts = a_job(an_order(), air("2026-11-16 09:00"), straightedge("2026-11-16 09:00"), rooms=(room,))
    assert times(facts, "2026-11-16 10:00").ready_at == when("2026-12-17 08:00")


def test_a_screed_found_dry_holds_nothing_up_whatever_the_forecast_says():
    room = a_room(subfloor=Subfloor.CEMENT_SCREED, screed_mm=60, screed_laid_on=date(2026, 10, 1))
    facts = a_job(an_order(), a_delivery(), *good(), carbide("2026-11-19 09:00", 1.9), rooms=(room,))
    assert times(facts, "2026-11-20 10:00").ready_at == when("2026-11-24 09:30")


@pytest.mark.parametrize(
    ("tradition", "ready"),
    # Off, or held steady, for 3 days before laying (German association of flooring glues), in France for 48 hours.
    [(Tradition.USUAL, "2026-12-03 08:00"), (Tradition.FRENCH, "2026-12-02 08:00")],
)
def test_a_heated_screed_is_heated_for_the_first_time_then_the_heating_is_off_some_days(tradition, ready):
    room = a_room(subfloor=Subfloor.CEMENT_SCREED, heated=True, screed_mm=40, screed_laid_on=date(2026, 11, 2))
    facts = a_job(an_order(), a_delivery(), *good(), carbide("2026-11-25 09:00", 1.7), rooms=(room,))
    found = times(facts, "2026-11-27 10:00", firm=replace(FIRM, tradition=tradition))
    # EN 1264-4: from 21 days on, 3 days gentle and 4 at full flow: over on 30 November.
    assert found.timetable.of(f"first_heating {READING_ROOM}").earliest_finish == when("2026-11-30 08:00")
    assert found.ready_at == when(ready)


def test_where_days_of_the_heating_are_on_file_its_hold_says_what_is_still_to_come():
    told = {"heating_begun_on": date(2026, 11, 16), "heating_proved_on": date(2026, 11, 24)}
    room = a_room(
        subfloor=Subfloor.CEMENT_SCREED, heated=True, screed_laid_on=date(2026, 10, 1), **told,
        heating_off_from=date(2026, 11, 26),
    )  # fmt: skip
    facts = a_job(an_order(), a_delivery(), *good(), carbide("2026-11-25 09:00", 1.7), rooms=(room,))
    found = times(facts, "2026-11-27 10:00")
    steps = {one.activity.step for one in found.timetable.times}
    assert not steps & {"first_heating", "heating_off"}
    # Off from Thu 26 Nov: three days later is Sun 29 Nov.
    assert found.timetable.of(f"heating {READING_ROOM}").earliest_finish == when("2026-11-29 08:00")


def test_a_subfloor_that_is_not_flat_is_smoothed_dried_and_checked():
    facts = a_job(
        an_order(),
        a_delivery("2026-11-02 09:00"),
        air("2026-11-18 09:00"),
        timber("2026-11-18 09:00"),
        straightedge("2026-11-18 09:00", 6),
    )
    found = times(facts, "2026-11-19 08:00")
    smooth = found.timetable.of(f"smooth {READING_ROOM}")
    assert (smooth.earliest_finish - smooth.earliest_start) / timedelta(hours=1) == pytest.approx(8 * 21.32 / 80)
    assert found.ready_at == smooth.earliest_finish + timedelta(hours=24)


def test_fresh_compound_is_left_a_day_though_the_straightedge_is_good():
    facts = a_job(an_order(), a_delivery("2026-11-02 09:00"), *good("2026-11-19 15:00"), smoothed("2026-11-19 10:00"))
    assert times(facts, "2026-11-19 16:00").ready_at == when("2026-11-20 10:00")


def test_what_somebody_must_do_can_be_done_at_the_next_working_moment():
    facts = a_job(an_order(), a_delivery("2026-11-02 09:00"), *good()[1:])  # no air reading since
    found = times(facts, "2026-11-20 18:00")
    assert found.ready_at == when("2026-11-23 08:00")


# ---- laying


def test_two_rooms_are_laid_one_after_the_other_the_first_ready_first():
    rooms = (
        a_room(outline=EIGHT_HOURS, site_ready_on=date(2026, 12, 7)),
        a_room("Hall", outline=EIGHT_HOURS),
    )
    facts = a_job(an_order(40), a_delivery("2026-11-02 09:00", 40), *good(), *good(room="Hall"), rooms=rooms)
    found = times(facts, "2026-11-20 08:00")
    assert found.room("Hall").earliest_start == found.lay_from == when("2026-11-20 08:00")
    assert found.room(READING_ROOM).earliest_start == found.ready_at == when("2026-12-07 08:00")
    alike = times(replace(facts, rooms=(rooms[1], a_room(outline=EIGHT_HOURS))), "2026-11-20 08:00")
    assert alike.room(READING_ROOM).earliest_start == when("2026-11-20 16:00")


def test_two_fitters_lay_in_half_the_time():
    facts = a_job(an_order(), a_delivery("2026-11-02 09:00"), *good(), rooms=(a_room(outline=EIGHT_HOURS),))
    assert times(facts, "2026-11-20 08:00", fitters=2).room(READING_ROOM).earliest_finish == when("2026-11-20 12:00")


def test_half_a_floor_laid_leaves_half_the_hours():
    rooms = (a_room(outline=EIGHT_HOURS),)
    done = laid("2026-11-19 08:00", "2026-11-19 12:00", 8)
    facts = a_job(an_order(), a_delivery("2026-11-02 09:00"), *good(), done, rooms=rooms)
    assert times(facts, "2026-11-20 08:00").room(READING_ROOM).earliest_finish == when("2026-11-20 12:00")


def test_a_laying_that_goes_on_needs_what_is_left_of_it():
    rooms = (a_room(outline=EIGHT_HOURS),)
    facts = a_job(
        an_order(), a_delivery("2026-11-02 09:00"), *good("2026-11-02 09:00"), laid("2026-11-20 08:00"), rooms=rooms
    )
    assert times(facts, "2026-11-20 10:00").room(READING_ROOM).earliest_finish == when("2026-11-20 16:00")


def test_a_room_goes_its_way_from_glue_to_skirting_to_handover():
    facts = a_job(
        an_order(),
        a_delivery("2026-11-02 09:00"),
        *good(),
        rooms=(a_room(outline=EIGHT_HOURS, method=Method.FLOATING, glue=None),),
    )
    found = times(facts, "2026-11-20 08:00")
    # 16 m² of floating floor at 25 m² a day, then 16 m of skirting at 6 m an hour; nothing cures.
    assert found.handover_from == found.timetable.of(f"skirting {READING_ROOM}").earliest_finish
    assert found.handover_from == when("2026-11-20 15:47:12")
    assert chain(found)[-2:] == ["skirting", "handover"]


def test_a_glue_that_is_not_on_file_is_said_to_be_assumed():
    facts = a_job(an_order(), a_delivery("2026-11-02 09:00"), *good(), rooms=(a_room(outline=EIGHT_HOURS, glue=None),))
    found = times(facts, "2026-11-20 08:00", allow=PLAIN)
    assert found.assumed_cure == (READING_ROOM,)
    assert found.handover_from == when("2026-11-27 16:00")


def test_a_job_without_rooms_has_nothing_to_lay():
    facts = replace(a_job(), rooms=())
    found = times(facts, "2026-11-20 18:00")
    assert (found.ready_at, found.lay_from, found.handover_from, found.boards) == (None, None, None, ())
