"""Air, subfloor and site by the command line's answers, with states worked out by hand from the published rules."""

import pytest

from tests.tui.somebodys_folder import (
    ROOM,
    Json,
    Shop,
    air,
    came,
    folder,
    job,
    order,
    reading,
    room,
    stands,
    state,
    straightedge,
    timber,
    verdict,
)

CLEAR = ("clear", None, None)
TO_DO = ("to_do", None, None)
FAILED = ("failed", None, None)


def test_air_read_before_the_packs_came_is_to_be_read_again(shop: Shop) -> None:
    before = air("2026-11-17T09:00:00+01:00")
    shop.take_in(folder(job(orders=[order()], deliveries=[came()], readings=[before])))
    assert state(shop.job("2026-11-17T09:15:00+01:00"), "climate") == CLEAR
    assert state(shop.job("2026-11-17T10:00:00+01:00"), "climate") == TO_DO


@pytest.mark.parametrize(
    ("where", "measured", "wanted"),
    [
        ({"subfloor": "osb"}, {"kind": "timber_subfloor", "percent": 12}, CLEAR),
        ({"subfloor": "plywood"}, {"kind": "timber_subfloor", "percent": 12.1}, FAILED),
        ({"subfloor": "cement_screed"}, {"kind": "carbide", "percent": 2.0}, CLEAR),
        ({"subfloor": "cement_screed"}, {"kind": "carbide", "percent": 2.05}, FAILED),
        ({"subfloor": "cement_screed", "heated": True}, {"kind": "carbide", "percent": 1.8}, CLEAR),
        ({"subfloor": "cement_screed", "heated": True}, {"kind": "carbide", "percent": 1.9}, FAILED),
        ({"subfloor": "calcium_sulphate"}, {"kind": "carbide", "percent": 0.5}, CLEAR),
        ({"subfloor": "calcium_sulphate", "heated": True}, {"kind": "carbide", "percent": 0.4}, FAILED),
        ({"subfloor": "concrete"}, {"kind": "hygrometer", "rh_percent": 65}, CLEAR),
        ({"subfloor": "concrete"}, {"kind": "hygrometer", "rh_percent": 66}, FAILED),
        ({"subfloor": "concrete", "method": "floating"}, {"kind": "hygrometer", "rh_percent": 75}, CLEAR),
        # A reading of a kind that says nothing about this subfloor is no reading.
        ({"subfloor": "concrete"}, {"kind": "timber_subfloor", "percent": 9}, TO_DO),
        ({"subfloor": "osb"}, {"kind": "carbide", "percent": 0.2}, TO_DO),
    ],
)
def test_a_subfloor_is_dry_by_the_limit_of_its_kind(shop: Shop, where: Json, measured: Json, wanted: object) -> None:
    # Limits: EN 1264-4:2021 and the German parquet trade (carbide), UK timber trade body (hygrometer), 12 % timber.
    taken = {"room": ROOM, "at": "2026-11-12T09:00:00+01:00"} | measured
    answer = stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=[room(**where)], readings=[taken]))
    assert state(answer, "subfloor_dry") == wanted


def test_a_subfloor_reading_is_good_for_seven_days(shop: Shop) -> None:
    shop.take_in(folder(job(readings=[timber("2026-11-12T09:00:00+01:00")])))
    assert state(shop.job("2026-11-19T08:59:00+01:00"), "subfloor_dry") == CLEAR
    assert state(shop.job("2026-11-19T09:01:00+01:00"), "subfloor_dry") == TO_DO


def test_the_latest_subfloor_reading_counts_not_the_best(shop: Shop) -> None:
    readings = [timber("2026-11-12T09:00:00+01:00", 14), timber("2026-11-13T09:00:00+01:00", 11)]
    shop.take_in(folder(job(readings=readings)))
    assert state(shop.job("2026-11-12T12:00:00+01:00"), "subfloor_dry") == FAILED
    assert state(shop.job("2026-11-13T12:00:00+01:00"), "subfloor_dry") == CLEAR


def test_a_drying_forecast_says_when_to_test_and_never_clears_the_floor(shop: Shop) -> None:
    # Cement screed of 66 mm laid on 1 Oct: 50 days for 50 mm, 2 for each of the 16 beyond, 82 in all: Tue 22 Dec.
    screed = room(subfloor="cement_screed", screed_mm=66, screed_laid_on="2026-10-01")
    damp = reading("carbide", "2026-11-24T09:00:00+01:00", percent=3.1)
    shop.take_in(
        folder(job(rooms=[screed], orders=[order()], deliveries=[came()], readings=[air(), straightedge(), damp]))
    )
    before = shop.job("2026-11-23T10:00:00+01:00")
    assert state(before, "subfloor_dry") == ("to_do", None, "2026-12-22T08:00:00+01:00")
    assert verdict(before) == ("acclimatisation", "blocked", None, "2026-12-22T08:00:00+01:00")
    measured = shop.job("2026-11-24T10:00:00+01:00")
    assert state(measured, "subfloor_dry") == ("failed", None, "2026-12-22T08:00:00+01:00")
    long_after = shop.job("2027-02-01T10:00:00+01:00")
    assert state(long_after, "subfloor_dry")[0] == "to_do"
    assert long_after["verdict"] == "blocked"


def test_the_best_case_of_a_blocked_floor_is_its_latest_known_moment(shop: Shop) -> None:
    # Boards ready on 24 Nov 09:30, the site on Fri 27 Nov, and the subfloor still to be tested.
    rooms = [room(site_ready_on="2026-11-27")]
    answer = stands(
        shop, "2026-11-18T10:00:00+01:00", job(rooms=rooms, orders=[order()], deliveries=[came()], readings=[air()])
    )
    assert state(answer, "site") == ("waiting", "2026-11-27T08:00:00+01:00", None)
    assert verdict(answer) == ("acclimatisation", "blocked", None, "2026-11-27T08:00:00+01:00")


def test_ready_from_is_the_latest_moment_that_is_waited_for(shop: Shop) -> None:
    rooms = [room(site_ready_on="2026-11-27")]
    readings = [air(), straightedge(), timber()]
    shop.take_in(folder(job(rooms=rooms, orders=[order()], deliveries=[came()], readings=readings)))
    answer = shop.job("2026-11-20T10:00:00+01:00")
    assert verdict(answer) == ("acclimatisation", "ready_from", "2026-11-27T08:00:00+01:00", None)
    assert state(shop.job("2026-11-27T00:00:00+01:00"), "site") == CLEAR


@pytest.mark.parametrize(("gaps", "wanted"), [([3], CLEAR), ([3.1], FAILED), ([2, 4, 1], FAILED), ([0], CLEAR)])
def test_a_subfloor_is_as_flat_as_its_worst_place(shop: Shop, gaps: list[float], wanted: object) -> None:
    readings = [straightedge(f"2026-11-1{day}T09:00:00+01:00", gap) for day, gap in enumerate(gaps)]
    answer = stands(shop, "2026-11-14T10:00:00+01:00", job(readings=readings))
    assert state(answer, "subfloor_flat") == wanted


def test_what_nobody_wrote_down_holds_no_unheated_mineral_floor_up(shop: Shop) -> None:
    concrete = room(subfloor="concrete", site_ready_on="2026-11-01")
    dry = reading("hygrometer", "2026-11-23T09:00:00+01:00", rh_percent=60)
    readings = [air(), straightedge(), dry]
    answer = stands(
        shop,
        "2026-11-24T10:00:00+01:00",
        job(rooms=[concrete], orders=[order()], deliveries=[came()], readings=readings),
    )
    kinds = ("site", "heating", "moisture_gap", "glue", "old_floor", "people")
    assert [state(answer, kind) for kind in kinds] == [CLEAR] * 6
    assert verdict(answer) == ("install", "ready", None, None)
