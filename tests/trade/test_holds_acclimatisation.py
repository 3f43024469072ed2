"""The acclimatisation hold: what a floor waits for while its packs are to come, wait, or lie elsewhere."""

from dataclasses import replace

from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    cold,
    hold,
    standing,
    when,
)

NOON = "2026-11-20 12:00"
HALL = "Hall"
HALF = {"wide": 2000, "deep": 2000}  # 4 m²: with 10 % on top, three packs of the usual board (2.03)


def state(facts, kind, moment=NOON, **where):
    found = hold(facts, kind, moment, **where)
    return found.state, found.clears_at or found.not_before


# ---- acclimatisation


def test_acclimatisation_waits_for_the_due_date_and_the_boards_hours_after_it():
    facts = a_job(an_order(11))
    assert state(facts, "acclimatisation", "2026-11-12 12:00") == ("waiting", when("2026-11-24 08:00"))


def test_acclimatisation_waits_for_no_known_moment_while_too_little_is_ordered_or_it_is_overdue():
    for facts, moment in ((a_job(), NOON), (a_job(an_order(10)), "2026-11-12 12:00"), (a_job(an_order(11)), NOON)):
        assert state(facts, "acclimatisation", moment) == ("waiting", None)


def test_acclimatisation_waits_for_the_last_needed_pack_of_an_order_that_came_in_part():
    facts = a_job(an_order(12, due="2026-11-24"), a_delivery(packs=8))
    assert state(facts, "acclimatisation") == ("waiting", when("2026-12-01 08:00"))


def test_acclimatisation_is_clear_from_the_moment_the_wait_is_over():
    facts = a_job(an_order(), a_delivery("2026-11-17 09:30"))
    assert state(facts, "acclimatisation", "2026-11-24 09:29") == ("waiting", when("2026-11-24 09:30"))
    assert state(facts, "acclimatisation", "2026-11-24 09:30") == ("clear", None)


def test_a_stopped_clock_is_to_do_and_nobody_knows_from_when():
    found = hold(a_job(an_order(), a_delivery(), cold("2026-11-19 09:00")), "acclimatisation", NOON)
    assert (found.state, found.why, found.clears_at, found.not_before) == ("to_do", "clock_stopped", None, None)


def test_a_stopped_clock_of_packs_that_came_in_part_is_to_do_already():
    facts = a_job(an_order(12, due="2026-11-24"), a_delivery(packs=8), cold("2026-11-19 09:00"))
    assert state(facts, "acclimatisation") == ("to_do", None)


def test_a_clock_stopped_after_the_wait_was_over_holds_nothing_up():
    facts = a_job(an_order(), a_delivery("2026-11-17 09:30"), cold("2026-11-25 09:00"))
    assert state(facts, "acclimatisation", "2026-11-26 09:00") == ("clear", None)


def test_packs_that_lie_in_the_unit_must_be_carried_in():
    found = hold(a_job(an_order(), a_delivery(packs=11, into="unit")), "acclimatisation", NOON)
    assert (found.state, found.why, found.clears_at) == ("to_do", "in_the_unit", None)


def test_packs_that_lie_in_the_unit_must_be_carried_in_though_more_are_on_order():
    facts = a_job(an_order(12, due="2026-11-24"), a_delivery(packs=8, into="unit"))
    assert hold(facts, "acclimatisation", NOON).why == "in_the_unit"


def test_spares_left_in_the_unit_hold_nothing_up():
    facts = a_job(an_order(), a_delivery("2026-11-17 09:30", packs=11), a_delivery("2026-11-19 09:30", into="unit"))
    assert state(facts, "acclimatisation", "2026-11-24 09:30") == ("clear", None)


def test_a_room_is_ready_when_enough_packs_are_the_earliest_ready_first():
    facts = a_job(
        an_order(24),
        a_delivery("2026-11-10 09:30", packs=6),
        a_delivery("2026-11-12 09:30", packs=6),
        a_delivery("2026-11-19 09:30", packs=6),
    )
    assert state(facts, "acclimatisation", "2026-11-18 09:30") == ("waiting", when("2026-11-19 09:30"))
    assert state(facts, "acclimatisation", "2026-11-19 12:00") == ("clear", None)


def test_a_late_spare_pack_does_not_start_the_wait_again():
    facts = a_job(an_order(), a_delivery("2026-11-10 09:30", packs=11), a_delivery("2026-11-17 09:00", packs=1))
    assert state(facts, "acclimatisation", "2026-11-17 09:30") == ("clear", None)


def test_a_spare_pack_in_a_cold_room_stops_nothing():
    rooms = (a_room(), a_room(HALL, wide=100, deep=100))
    facts = a_job(
        an_order(13),
        a_delivery("2026-11-17 09:30", packs=11),
        a_delivery("2026-11-17 09:30", packs=2, into=HALL),
        cold("2026-11-17 10:00", room=HALL),
        rooms=rooms,
    )
    assert state(facts, "acclimatisation") == ("waiting", when("2026-11-24 09:30"))


def test_a_needed_pack_in_a_cold_room_stops_the_floor():
    rooms = (a_room(), a_room(HALL, wide=100, deep=100))
    facts = a_job(
        an_order(13),
        a_delivery("2026-11-17 09:30", packs=10),
        a_delivery("2026-11-17 09:30", packs=3, into=HALL),
        cold("2026-11-17 10:00", room=HALL),
        rooms=rooms,
    )
    assert state(facts, "acclimatisation") == ("to_do", None)


def test_the_air_to_put_right_is_that_of_the_room_where_the_packs_lie():
    rooms = (a_room(), a_room(HALL, wide=100, deep=100))
    facts = a_job(
        an_order(12),
        a_delivery("2026-11-17 09:30", into=HALL),
        cold("2026-11-17 10:00", room=HALL),
        air("2026-11-17 10:00"),
        rooms=rooms,
    )
    assert hold(facts, "acclimatisation", NOON).lies_in == HALL
    assert {deed.room for deed in standing(facts, NOON).to_do if deed.kind == "put_air_right"} == {HALL}


def test_rooms_that_share_a_board_share_their_packs_and_are_ready_at_the_same_moment():
    rooms = (a_room(**HALF), a_room(HALL, **HALF))  # together 8.8 m²: five packs
    facts = a_job(
        an_order(5), a_delivery("2026-11-17 09:30", packs=3), a_delivery("2026-11-18 09:30", packs=2), rooms=rooms
    )
    for room in (READING_ROOM, HALL):
        assert state(facts, "packs", room=room) == ("clear", None)
        assert state(facts, "acclimatisation", room=room) == ("waiting", when("2026-11-25 09:30"))
    short = a_job(an_order(5, due="2026-11-25"), a_delivery(packs=4), rooms=rooms)
    for room in (READING_ROOM, HALL):
        assert state(short, "packs", room=room) == ("waiting", when("2026-11-25 08:00"))


def test_rooms_with_different_boards_wait_each_for_its_own():
    rooms = (a_room(), a_room(HALL, board="ASH-140"))
    ash = replace(OAK, code="ASH-140", id=3, acclimatise_hours=48)
    facts = a_job(
        an_order(),
        a_delivery("2026-11-17 09:30"),
        an_order(of="ASH-140"),
        a_delivery(into=HALL, of="ASH-140"),
        rooms=rooms,
        products=(OAK, ash, MS),
    )
    assert state(facts, "acclimatisation", "2026-11-18 12:00") == ("waiting", when("2026-11-24 09:30"))
    assert state(facts, "acclimatisation", "2026-11-18 12:00", room=HALL) == ("waiting", when("2026-11-19 09:30"))
