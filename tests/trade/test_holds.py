"""The holds on a room: every kind, in every state it can have, and why."""

from dataclasses import replace

from store.trade.jobs import Subfloor
from store.trade.verdict import HoldKind
from tests.trade.conftest import (
    FIRM,
    MS,
    OAK,
    READING_ROOM,
    a_delivery,
    a_job,
    a_move,
    a_room,
    an_order,
    hold,
    laid,
    standing,
    when,
)

NOON = "2026-11-20 12:00"
HALL = "Hall"
HALF = {"wide": 2000, "deep": 2000}  # 4 m²: with 10 % on top, three packs of the usual board (2.03)


def state(facts, kind, moment=NOON, **where):
    found = hold(facts, kind, moment, **where)
    return found.state, found.clears_at or found.not_before


# ---- every room has every hold, until it is wholly laid


def test_every_kind_of_hold_is_said_once_for_each_room_not_wholly_laid():
    rooms = (a_room(), a_room(HALL))
    facts = a_job(laid("2026-11-19 08:00", "2026-11-19 16:00", 21.32, room=HALL), rooms=rooms)
    said = [(one.room, one.kind) for one in standing(facts, NOON).holds]
    assert sorted(said) == sorted((READING_ROOM, kind) for kind in HoldKind)


def test_what_nobody_has_filed_anything_about_is_clear_on_an_unheated_mineral_subfloor():
    facts = a_job(rooms=(a_room(subfloor=Subfloor.CONCRETE),))
    for kind in ("site", "heating", "moisture_gap", "glue", "old_floor", "people"):
        assert state(facts, kind) == ("clear", None), kind


# ---- packs


def test_packs_are_to_do_while_nothing_is_ordered():
    found = hold(a_job(), "packs", NOON)
    assert (found.state, found.why, found.packs) == ("to_do", "not_ordered", 11)


def test_packs_are_to_do_while_too_few_are_ordered():
    assert hold(a_job(an_order(10)), "packs", "2026-11-12 12:00").state == "to_do"


def test_packs_wait_for_the_due_date_when_enough_are_ordered():
    assert state(a_job(an_order(11)), "packs", "2026-11-12 12:00") == ("waiting", when("2026-11-17 08:00"))


def test_packs_still_wait_late_on_the_due_date():
    assert hold(a_job(an_order(11)), "packs", "2026-11-17 23:59").state == "waiting"


def test_packs_are_to_be_chased_once_the_due_day_is_over():
    found = hold(a_job(an_order(11)), "packs", "2026-11-18 00:00")
    assert (found.state, found.why, found.clears_at) == ("to_do", "overdue", None)


def test_a_day_is_over_at_midnight_in_the_firms_zone():
    west = replace(FIRM, time_zone="America/New_York")
    facts = a_job(an_order(11))
    assert hold(facts, "packs", "2026-11-18T04:59:00+00:00", firm=west).state == "waiting"
    assert hold(facts, "packs", "2026-11-18T05:00:00+00:00", firm=west).state == "to_do"
    assert hold(facts, "packs", "2026-11-17T22:59:00+00:00").state == "waiting"
    assert hold(facts, "packs", "2026-11-17T23:00:00+00:00").state == "to_do"


def test_packs_are_clear_when_enough_sound_ones_are_on_site():
    assert state(a_job(an_order(), a_delivery(packs=11)), "packs") == ("clear", None)


def test_packs_in_the_unit_for_the_job_are_packs_on_hand():
    assert state(a_job(an_order(), a_delivery(packs=11, into="unit")), "packs") == ("clear", None)


def test_packs_in_the_unit_and_in_the_room_count_together():
    facts = a_job(an_order(), a_delivery(packs=6, into="unit"), a_delivery(packs=5))
    assert state(facts, "packs") == ("clear", None)


def test_damaged_packs_are_no_packs_and_use_up_their_order():
    facts = a_job(an_order(12), a_delivery(packs=12, damaged=2))
    found = hold(facts, "packs", "2026-11-17 12:00")
    assert (found.state, found.clears_at) == ("to_do", None)


def test_a_damaged_pack_beyond_the_need_holds_nothing_up():
    assert state(a_job(an_order(12), a_delivery(packs=12, damaged=1)), "packs") == ("clear", None)


def test_the_rest_of_an_order_is_waited_for_after_part_of_it_came():
    facts = a_job(an_order(12, due="2026-11-24"), a_delivery(packs=8))
    assert state(facts, "packs") == ("waiting", when("2026-11-24 08:00"))


def test_packs_wait_for_the_last_open_order_that_is_needed():
    orders = (an_order(5, due="2026-11-25"), an_order(6, due="2026-12-01"), an_order(9, due="2026-12-20"))
    assert state(a_job(*orders), "packs") == ("waiting", when("2026-12-01 08:00"))


def test_a_late_spare_holds_nothing_up():
    orders = (an_order(11, due="2026-11-25"), an_order(1, due="2026-11-12"))
    assert state(a_job(orders[0]), "packs") == ("waiting", when("2026-11-25 08:00"))
    spare_later = (an_order(11, due="2026-11-25"), an_order(1, due="2026-12-24"))
    assert state(a_job(*spare_later), "packs") == ("waiting", when("2026-11-25 08:00"))
    assert state(a_job(an_order(12), a_delivery(packs=11)), "packs") == ("clear", None)


def test_packs_are_to_be_chased_once_the_day_of_any_needed_order_is_over():
    orders = (an_order(5, due="2026-11-19"), an_order(6, due="2026-12-01"))
    assert hold(a_job(*orders), "packs", NOON).why == "overdue"


def test_what_comes_in_fills_the_oldest_due_date_first_whichever_was_ordered_first():
    late, soon = an_order(6, on="2026-11-01", due="2026-12-01"), an_order(5, on="2026-11-10", due="2026-11-18")
    facts = a_job(late, soon, a_delivery("2026-11-17 09:30", packs=5))
    assert state(facts, "packs") == ("waiting", when("2026-12-01 08:00"))
    facts = a_job(late, soon, a_delivery("2026-11-17 09:30", packs=4))
    assert hold(facts, "packs", NOON).why == "overdue"


def test_an_order_without_a_due_date_gives_no_moment_to_wait_for():
    found = hold(a_job(an_order(11, due=None)), "packs", NOON)
    assert (found.state == "clear", found.clears_at) == (False, None)


def test_only_orders_of_the_same_board_are_counted():
    other = replace(OAK, code="ASH-140", id=3)
    facts = a_job(an_order(11, of="ASH-140", due="2026-11-25"), products=(OAK, other, MS))
    assert hold(facts, "packs", NOON).state == "to_do"


def test_packs_carried_out_of_the_room_are_missed():
    facts = a_job(an_order(), a_delivery(packs=11), a_move("2026-11-18 09:00", 1, READING_ROOM, "shelf"))
    assert hold(facts, "packs", NOON).state == "to_do"


def test_packs_from_free_stock_are_packs_on_hand():
    facts = a_job(an_order(), a_delivery(packs=10), a_move("2026-11-18 09:00", 1, "shelf", READING_ROOM))
    assert hold(facts, "packs", NOON).state == "clear"
