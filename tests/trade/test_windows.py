"""When a finished floor may be walked on, loaded and handed over."""

from dataclasses import replace
from datetime import date

from store.trade.jobs import Method
from tests.trade.conftest import FIRM, MS, OAK, a_job, a_room, laid, standing, when

HALL = "Hall"
NOW = "2027-04-15 12:00"
LAID = laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32)


def windows(facts, moment=NOW, firm=FIRM):
    found = standing(facts, moment, firm).windows
    return found.walk_on, found.full_load, found.handover


def test_the_glues_hours_run_from_the_last_board():
    expected = (when("2026-11-25 16:00"), when("2026-11-27 16:00"), when("2026-11-27 16:00"))
    assert windows(a_job(LAID)) == expected


def test_there_are_no_windows_until_every_room_is_wholly_laid():
    rooms = (a_room(), a_room(HALL))
    assert windows(a_job()) == (None, None, None)
    assert windows(a_job(laid("2026-11-24 10:00", "2026-11-24 16:00", 20))) == (None, None, None)
    assert windows(a_job(LAID, rooms=rooms)) == (None, None, None)
    assert windows(a_job(LAID, laid("2026-11-25 08:00", room=HALL), rooms=rooms)) == (None, None, None)


def test_windows_are_not_foretold_while_the_last_board_is_not_in_the_glue():
    assert windows(a_job(LAID), "2026-11-24 15:59") == (None, None, None)


def test_the_last_of_several_days_of_laying_starts_the_glues_hours():
    facts = a_job(laid("2026-11-25 08:00", "2026-11-25 14:00", 9.32), laid("2026-11-24 10:00", "2026-11-24 16:00", 12))
    assert windows(facts)[1] == when("2026-11-28 14:00")


def test_handover_waits_for_the_first_working_moment_after_a_weekend():
    friday = laid("2026-11-20 08:00", "2026-11-20 15:00", 21.32)  # bears full load on Monday 23 November at 15:00
    assert windows(a_job(friday))[2] == when("2026-11-23 15:00")
    wednesday = laid("2026-11-18 08:00", "2026-11-18 15:00", 21.32)  # on Saturday at 15:00
    assert windows(a_job(wednesday))[1:] == (when("2026-11-21 15:00"), when("2026-11-23 08:00"))
    tuesday_night = laid("2026-11-17 08:00", "2026-11-17 16:30", 21.32)  # on Friday at 16:30, as the day ends
    assert windows(a_job(tuesday_night))[2] == when("2026-11-23 08:00")


def test_handover_passes_over_holidays():
    firm = replace(FIRM, holidays=(date(2026, 11, 27), date(2026, 11, 30)))
    assert windows(a_job(LAID), firm=firm)[2] == when("2026-12-01 08:00")


def test_full_load_hours_are_elapsed_hours_across_a_clock_change():
    # Europe/Brussels goes forward on 2027-03-28 at 01:00 UTC (IANA tzdata).
    facts = a_job(laid("2027-03-26 08:00", "2027-03-26 12:00", 21.32))
    assert windows(facts)[:2] == (when("2027-03-27 12:00"), when("2027-03-29 13:00"))


SLOW = replace(MS, code="PU-20", id=4, walk_on_hours=12, full_load_hours=120)


def test_the_room_that_takes_longest_counts_for_each_window_on_its_own():
    rooms = (a_room(), a_room(HALL, glue="PU-20"))
    facts = a_job(LAID, replace(LAID, room=HALL), rooms=rooms, products=(OAK, MS, SLOW))
    # The Reading room's glue is walked on last, after 24 h; the Hall's bears load last, after 120 h.
    assert windows(facts) == (when("2026-11-25 16:00"), when("2026-11-29 16:00"), when("2026-11-30 08:00"))


def test_a_floating_floor_may_be_walked_on_and_loaded_as_soon_as_it_lies():
    facts = a_job(LAID, rooms=(a_room(method=Method.FLOATING, glue=None),))
    assert windows(facts) == (when("2026-11-24 16:00"),) * 3


def test_a_floating_room_laid_last_still_counts_among_glued_ones():
    rooms = (a_room(), a_room(HALL, method=Method.FLOATING, glue=None))
    last = laid("2026-11-29 10:00", "2026-11-29 12:00", 21.32, room=HALL)
    assert windows(a_job(LAID, last, rooms=rooms))[:2] == (when("2026-11-29 12:00"),) * 2
