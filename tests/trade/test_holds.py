"""The holds on a room: every kind, in every state it can have, and why."""

from dataclasses import replace
from datetime import date

import pytest

from store.trade.jobs import Method, Subfloor
from store.trade.products import Board
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
    air,
    an_order,
    board_moisture,
    carbide,
    cold,
    hold,
    hygrometer,
    laid,
    smoothed,
    standing,
    straightedge,
    timber,
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


# ---- climate


def test_climate_is_to_do_without_an_air_reading():
    assert state(a_job(), "climate") == ("to_do", None)


@pytest.mark.parametrize(
    ("reading", "expected"), [(air("2026-11-12 09:00"), "clear"), (cold("2026-11-12 09:00"), "failed")]
)
def test_before_any_pack_came_the_latest_air_reading_is_judged(reading, expected):
    assert hold(a_job(an_order(), reading), "climate", NOON).state == expected


def test_climate_is_to_do_until_the_air_is_read_again_after_the_packs_came():
    facts = a_job(an_order(), air("2026-11-17 09:29"), a_delivery("2026-11-17 09:30"))
    assert state(facts, "climate") == ("to_do", None)


def test_an_air_reading_at_the_moment_of_delivery_is_one_since_the_packs_came():
    assert state(a_job(a_delivery("2026-11-17 09:30"), air("2026-11-17 09:30")), "climate") == ("clear", None)


def test_the_latest_air_reading_is_the_one_that_counts_in_whatever_order_they_were_filed():
    facts = a_job(a_delivery(), air("2026-11-19 09:00"), cold("2026-11-18 09:00"))
    assert state(facts, "climate") == ("clear", None)
    facts = a_job(a_delivery(), cold("2026-11-19 09:00"), air("2026-11-18 09:00"))
    assert state(facts, "climate") == ("failed", None)


def test_the_air_of_another_room_says_nothing():
    rooms = (a_room(), a_room(HALL))
    assert state(a_job(a_delivery(), air("2026-11-18 09:00", room=HALL), rooms=rooms), "climate") == ("to_do", None)


# ---- a dry subfloor: limits of the German parquet trade and EN 1264-4:2021 (carbide), the UK timber trade body 2022
# (hygrometer: 65 % where glued or heated) and North American and UK makers (timber 12 %); limits inclusive

SCREED = {"subfloor": Subfloor.CEMENT_SCREED}
GYPSUM = {"subfloor": Subfloor.CALCIUM_SULPHATE}
CONCRETE = {"subfloor": Subfloor.CONCRETE}
FLOATING = {"method": Method.FLOATING, "glue": None}
HEATED = {"heated": True}


@pytest.mark.parametrize(
    ("room", "measure", "limit"),
    [
        (SCREED, carbide, 2.0),
        (SCREED | HEATED, carbide, 1.8),
        (GYPSUM, carbide, 0.5),
        (GYPSUM | HEATED, carbide, 0.3),
        (SCREED, hygrometer, 65),
        (SCREED | FLOATING, hygrometer, 75),
        (SCREED | FLOATING | HEATED, hygrometer, 65),
        (CONCRETE, hygrometer, 65),
        (CONCRETE | FLOATING, hygrometer, 75),
        (CONCRETE | HEATED | FLOATING, hygrometer, 65),
        ({"subfloor": Subfloor.OSB}, timber, 12),
        ({"subfloor": Subfloor.PLYWOOD}, timber, 12),
        ({"subfloor": Subfloor.BOARDS}, timber, 12),
    ],
)
def test_a_subfloor_at_its_limit_is_dry_and_a_hair_over_it_is_not(room, measure, limit):
    rooms = (a_room(**room),)
    assert hold(a_job(measure("2026-11-19 09:00", limit), rooms=rooms), "subfloor_dry", NOON).state == "clear"
    assert hold(a_job(measure("2026-11-19 09:00", limit + 0.01), rooms=rooms), "subfloor_dry", NOON).state == "failed"


@pytest.mark.parametrize(("room", "reading"), [(SCREED, timber), (CONCRETE, timber), ({}, carbide), ({}, hygrometer)])
def test_a_reading_of_the_wrong_kind_says_nothing_of_this_subfloor(room, reading):
    facts = a_job(reading("2026-11-19 09:00", 0.1), rooms=(a_room(**room),))
    assert hold(facts, "subfloor_dry", NOON).state == "to_do"


def test_a_moisture_reading_is_good_for_seven_days():
    assert hold(a_job(timber("2026-11-13 12:00")), "subfloor_dry", NOON).state == "clear"
    assert hold(a_job(timber("2026-11-12 12:00")), "subfloor_dry", NOON).state == "to_do"


def test_the_firm_may_trust_a_moisture_reading_for_longer():
    patient = replace(FIRM, reading_good_days=14)
    assert hold(a_job(timber("2026-11-07 12:00")), "subfloor_dry", NOON, firm=patient).state == "clear"


def test_the_latest_moisture_reading_is_the_one_that_counts():
    facts = a_job(timber("2026-11-19 09:00", 9.0), timber("2026-11-18 09:00", 15.0))
    assert hold(facts, "subfloor_dry", NOON).state == "clear"
    facts = a_job(timber("2026-11-19 09:00", 15.0), timber("2026-11-18 09:00", 9.0))
    assert hold(facts, "subfloor_dry", NOON).state == "failed"


# 65 mm of cement laid on 1 October 2026: 50 days and two more for each of 15 mm, 80 days: 20 December 2026.
# 65 mm of calcium sulphate: 40 and two for each of 25 mm, 90 days: 30 December 2026 (UK screed firms' rule of thumb).
POURED = {"screed_mm": 65, "screed_laid_on": date(2026, 10, 1)}


@pytest.mark.parametrize(("screed", "dry_on"), [(SCREED, "2026-12-20"), (GYPSUM, "2026-12-30")])
def test_a_screed_not_measured_or_damp_is_worth_measuring_from_the_morning_it_is_forecast_dry(screed, dry_on):
    rooms = (a_room(**screed, **POURED),)
    assert state(a_job(rooms=rooms), "subfloor_dry") == ("to_do", when(f"{dry_on} 08:00"))
    damp = a_job(carbide("2026-11-19 09:00", 3.0), rooms=rooms)
    assert state(damp, "subfloor_dry") == ("failed", when(f"{dry_on} 08:00"))


def test_a_forecast_never_clears_a_screed():
    facts = a_job(rooms=(a_room(**SCREED, **POURED),))
    assert hold(facts, "subfloor_dry", "2027-06-01 12:00").state == "to_do"


@pytest.mark.parametrize("half", [{"screed_mm": 65}, {"screed_laid_on": date(2026, 10, 1)}])
def test_a_screed_of_unknown_thickness_or_age_has_no_forecast(half):
    assert state(a_job(rooms=(a_room(**SCREED, **half),)), "subfloor_dry") == ("to_do", None)


# ---- a flat subfloor: 3 mm under 2 m unless the firm says otherwise


def test_flatness_is_to_do_without_a_straightedge_reading():
    assert hold(a_job(), "subfloor_flat", NOON).state == "to_do"


def test_three_millimetres_under_the_straightedge_are_flat_and_more_is_not():
    assert hold(a_job(straightedge("2026-11-19 09:00", 3)), "subfloor_flat", NOON).state == "clear"
    assert hold(a_job(straightedge("2026-11-19 09:00", 3.1)), "subfloor_flat", NOON).state == "failed"


def test_the_worst_straightedge_reading_counts_not_the_latest():
    facts = a_job(straightedge("2026-11-18 09:00", 6), straightedge("2026-11-19 09:00", 2))
    found = hold(facts, "subfloor_flat", NOON)
    assert (found.state, found.measured) == ("failed", 6)


def test_smoothing_wipes_out_the_straightedge_readings_before_it():
    before, after = straightedge("2026-11-17 09:00", 6), straightedge("2026-11-19 09:00", 2)
    assert hold(a_job(before, smoothed("2026-11-18 09:00")), "subfloor_flat", NOON).state == "to_do"
    assert hold(a_job(before, smoothed("2026-11-18 09:00"), after), "subfloor_flat", NOON).state == "clear"


def test_smoothing_one_room_leaves_the_readings_of_another():
    rooms = (a_room(), a_room(HALL))
    facts = a_job(straightedge("2026-11-17 09:00", 6), smoothed("2026-11-18 09:00", HALL), rooms=rooms)
    assert hold(facts, "subfloor_flat", NOON).state == "failed"


def test_the_firm_sets_how_flat_is_flat():
    strict = replace(FIRM, flat_limit_mm=2)
    facts = a_job(straightedge("2026-11-19 09:00", 3))
    assert hold(facts, "subfloor_flat", NOON, firm=strict).state == "failed"


# ---- site, and board against a wooden subfloor


def test_a_site_that_will_be_ready_is_waited_for_until_that_morning():
    facts = a_job(rooms=(a_room(site_ready_on=date(2026, 11, 30)),))
    assert state(facts, "site") == ("waiting", when("2026-11-30 08:00"))
    assert state(facts, "site", "2026-11-30 08:00") == ("clear", None)
    assert state(facts, "site", "2026-12-24 12:00") == ("clear", None)


# Allowed: 2 points apart for boards of 76 mm and wider, 4 for narrower strip (North American wood-floor association).
@pytest.mark.parametrize(
    ("width", "board", "subfloor", "expected"),
    [
        (57, 8, 12, "clear"),
        (57, 8, 12.1, "failed"),
        (76, 8, 10, "clear"),
        (76, 8, 10.1, "failed"),
        (140, 9, 7, "clear"),
        (190, 7, 10, "failed"),
    ],
)
def test_boards_and_a_wooden_subfloor_must_be_about_as_damp_as_each_other(width, board, subfloor, expected):
    product: Board = replace(OAK, width_mm=width)
    facts = a_job(
        board_moisture("2026-11-20 09:00", board), timber("2026-11-20 09:00", subfloor), products=(product, MS)
    )
    assert hold(facts, "moisture_gap", NOON).state == expected
