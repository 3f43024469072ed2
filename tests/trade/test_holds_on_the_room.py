"""The holds on the room itself: its site, its subfloor, its air, and boards against subfloor."""

from dataclasses import replace
from datetime import date

import pytest

from store.trade.jobs import Method, Subfloor
from store.trade.products import Board
from tests.trade.conftest import (
    FIRM,
    MS,
    OAK,
    a_delivery,
    a_job,
    a_room,
    air,
    an_order,
    board_moisture,
    carbide,
    cold,
    hold,
    hygrometer,
    smoothed,
    straightedge,
    timber,
    when,
)

NOON = "2026-11-20 12:00"
HALL = "Hall"


def state(facts, kind, moment=NOON, **where):
    found = hold(facts, kind, moment, **where)
    return found.state, found.clears_at or found.not_before


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
