"""The verdict on a job: ready, ready from, or blocked, with the best that can be hoped for."""

from dataclasses import replace
from datetime import date

import pytest

from store.trade.events import Snag
from store.trade.facts import known_at
from store.trade.jobs import Method, Subfloor
from store.trade.readiness import verdict_of
from store.trade.verdict import Hold, HoldKind, HoldState, Why
from tests.trade.conftest import (
    FIRM,
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    a_room,
    air,
    an_opening,
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

HALL = "Hall"
COME = (an_order(), a_delivery("2026-11-17 09:30"))
MEASURED = (air("2026-11-17 09:30"), straightedge("2026-11-17 09:30"), timber("2026-11-20 09:00"))
MON, TUE, WED = (when(f"2026-11-{day} 08:00") for day in (23, 24, 25))


def verdict(facts, moment):
    found = standing(facts, moment)
    return found.verdict, found.ready_from, found.best_case


def a_hold(state, clears_at=None, not_before=None):
    return Hold(
        room=READING_ROOM,
        kind=HoldKind.SITE,
        state=HoldState(state),
        why=Why.NOTHING_ON_FILE,
        clears_at=clears_at,
        not_before=not_before,
    )


CLEAR, FAILED, TO_DO = a_hold("clear"), a_hold("failed"), a_hold("to_do")


# ---- from holds to verdict


@pytest.mark.parametrize(
    ("holds", "expected"),
    [
        ((CLEAR, CLEAR), ("ready", None, None)),
        ((CLEAR, a_hold("waiting", TUE)), ("ready_from", TUE, None)),
        ((a_hold("waiting", WED), a_hold("waiting", TUE)), ("ready_from", WED, None)),
        ((TO_DO,), ("blocked", None, None)),
        ((FAILED,), ("blocked", None, None)),
        ((FAILED, a_hold("waiting", TUE)), ("blocked", None, TUE)),
        ((TO_DO, a_hold("waiting", TUE)), ("blocked", None, TUE)),
        ((a_hold("to_do", not_before=WED), a_hold("waiting", TUE)), ("blocked", None, WED)),
        ((a_hold("failed", not_before=MON), a_hold("waiting", TUE)), ("blocked", None, TUE)),
        ((a_hold("failed", not_before=MON), a_hold("to_do", not_before=WED)), ("blocked", None, WED)),
        ((a_hold("failed", not_before=MON), a_hold("waiting")), ("blocked", None, None)),
        ((TO_DO, a_hold("waiting"), a_hold("waiting", WED)), ("blocked", None, None)),
    ],
)
def test_the_verdict_follows_from_the_states_of_the_holds(holds, expected):
    assert verdict_of(holds) == expected


# ---- whole jobs


def test_a_job_with_everything_measured_is_ready_from_the_end_of_its_wait():
    assert verdict(a_job(*COME, *MEASURED), "2026-11-20 12:00") == ("ready_from", when("2026-11-24 09:30"), None)


def test_a_job_is_ready_once_the_wait_is_over():
    assert verdict(a_job(*COME, *MEASURED), "2026-11-24 09:30") == ("ready", None, None)


def test_a_blocked_job_says_when_it_could_be_ready_at_best():
    facts = a_job(*COME, *MEASURED[:2])
    assert verdict(facts, "2026-11-20 12:00") == ("blocked", None, when("2026-11-24 09:30"))


def test_the_best_case_of_a_damp_screed_is_the_morning_it_is_forecast_dry():
    rooms = (a_room(subfloor=Subfloor.CEMENT_SCREED, screed_mm=65, screed_laid_on=date(2026, 10, 1)),)
    facts = a_job(*COME, *MEASURED[:2], carbide("2026-11-19 09:00", 3.4), rooms=rooms)
    assert verdict(facts, "2026-11-20 12:00") == ("blocked", None, when("2026-12-20 08:00"))


def test_a_job_that_waits_for_no_known_moment_has_no_best_case():
    assert verdict(a_job(an_order(10), *MEASURED), "2026-11-12 12:00") == ("blocked", None, None)
    assert verdict(a_job(an_order(11), *MEASURED), "2026-11-18 12:00") == ("blocked", None, None)


def test_a_stopped_clock_blocks_with_no_best_case_of_its_own():
    facts = a_job(*COME, *MEASURED, cold("2026-11-19 12:00"))
    assert verdict(facts, "2026-11-20 12:00") == ("blocked", None, None)


def test_a_stopped_clock_leaves_the_best_case_to_what_else_is_waited_for():
    rooms = (a_room(site_ready_on=date(2026, 12, 7)),)
    facts = a_job(*COME, *MEASURED, cold("2026-11-19 12:00"), rooms=rooms)
    assert verdict(facts, "2026-11-20 12:00") == ("blocked", None, when("2026-12-07 08:00"))


def test_an_ordered_job_is_ready_from_the_due_date_and_the_wait_after_it():
    facts = a_job(an_order(due="2026-11-25"), *MEASURED)
    assert verdict(facts, "2026-11-20 12:00") == ("ready_from", when("2026-12-02 08:00"), None)


def test_a_job_waits_for_the_slowest_of_its_rooms():
    rooms = (a_room(), a_room(HALL, board="ASH-140"))
    ash = replace(OAK, code="ASH-140", id=3, acclimatise_hours=400)
    there = (air("2026-11-17 09:30", room=HALL), straightedge("2026-11-17 09:30", room=HALL))
    dry = timber("2026-11-20 09:00", room=HALL)
    facts = a_job(
        *COME,
        *MEASURED,
        an_order(of="ASH-140"),
        a_delivery("2026-11-17 09:30", of="ASH-140", into=HALL),
        *there,
        dry,
        rooms=rooms,
        products=(OAK, ash, MS),
    )
    assert verdict(facts, "2026-11-20 12:00") == ("ready_from", when("2026-12-04 01:30"), None)


def test_a_job_partly_laid_has_the_verdict_of_its_rooms_not_wholly_laid():
    rooms = (a_room(), a_room(HALL, wide=1000, deep=1000))
    facts = a_job(
        an_order(12),
        a_delivery("2026-11-17 09:30"),
        *MEASURED,
        laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32),
        rooms=rooms,
    )
    found = standing(facts, "2026-11-25 09:00")
    assert found.verdict == "blocked"
    assert {one.room for one in found.holds} == {HALL}


def test_a_job_whose_rooms_are_all_laid_has_no_verdict_and_no_holds():
    facts = a_job(*COME, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32))
    found = standing(facts, "2026-11-25 09:00")
    assert (found.verdict, found.ready_from, found.best_case, found.holds) == (None, None, None, ())


# ---- as it was known at an earlier moment


def test_what_is_dated_later_is_not_known_yet():
    facts = a_job(*COME, *MEASURED, cold("2026-11-25 09:00"))
    assert verdict(facts, "2026-11-24 12:00") == ("ready", None, None)
    assert standing(facts, "2026-11-16 12:00").stage == "delivery"
    assert standing(facts, "2026-11-09 12:00").stage == "survey"


def test_what_is_dated_at_that_very_moment_is_known():
    noon = "2026-11-18 12:00"
    facts = a_job(
        a_delivery(noon),
        air(noon),
        laid(noon, "2026-11-18 14:00", 5),
        a_count(noon, packs=1),
        an_opening(noon, 1),
        smoothed(noon),
        a_move(noon, 1, READING_ROOM, "unit"),
        handover=signed(noon),
    )
    seen = known_at(facts, when(noon), date(2026, 11, 18))
    assert (len(seen.deliveries), len(seen.readings), len(seen.layings), len(seen.counts)) == (1, 1, 1, 1)
    assert (len(seen.openings), len(seen.smoothings), len(seen.moves), seen.handover) == (1, 1, 1, facts.handover)
    before = known_at(facts, when("2026-11-18 11:59"), date(2026, 11, 18))
    assert before == replace(a_job(), job=facts.job)


def test_an_order_is_known_from_the_start_of_its_day_in_the_firms_zone():
    facts = a_job(an_order(on="2026-11-10"))
    assert standing(facts, "2026-11-09T22:59:00+00:00").stage == "survey"
    assert standing(facts, "2026-11-09T23:00:00+00:00").stage == "delivery"
    west = replace(FIRM, time_zone="America/New_York")
    assert standing(facts, "2026-11-10T04:59:00+00:00", west).stage == "survey"
    assert standing(facts, "2026-11-10T05:00:00+00:00", west).stage == "delivery"


def test_a_floor_whose_laying_had_not_ended_by_then_was_not_laid_yet():
    facts = a_job(*COME, *MEASURED, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32))
    during = standing(facts, "2026-11-24 15:59")
    assert (during.stage, during.verdict) == ("install", "ready")
    assert standing(facts, "2026-11-24 16:00").verdict is None


def test_asking_about_a_moment_gives_what_was_said_then_whatever_has_been_filed_since():
    then = a_job(*COME, *MEASURED)
    since = a_job(
        *COME,
        *MEASURED,
        cold("2026-11-21 09:00"),
        a_move("2026-11-21 10:00", 12, READING_ROOM, "shelf"),
        smoothed("2026-11-21 11:00"),
        laid("2026-11-21 12:00", "2026-11-21 16:00", 21.32),
        a_count("2026-11-22 12:00", packs=1),
        handover=signed("2026-11-22 12:00"),
    )
    assert standing(since, "2026-11-20 12:00") == standing(then, "2026-11-20 12:00")


def test_a_snag_mended_later_was_still_to_be_mended():
    rooms = (a_room(method=Method.FLOATING, glue=None),)
    snag = Snag(id=1, rev=1, at=when("2026-11-24 17:00"), what="A chip", mended_at=when("2026-11-26 10:00"))
    facts = a_job(*COME, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32), snag, rooms=rooms)
    assert "mend" in [deed.kind for deed in standing(facts, "2026-11-25 12:00").to_do]
    assert "mend" not in [deed.kind for deed in standing(facts, "2026-11-26 12:00").to_do]


def test_a_floating_floor_needs_no_glue_to_be_ready():
    rooms = (a_room(method=Method.FLOATING, glue=None),)
    assert verdict(a_job(*COME, *MEASURED, rooms=rooms), "2026-11-24 12:00") == ("ready", None, None)
