"""Where jobs stand by the command line's answers: every figure here was worked out by hand from the published rules."""

from pathlib import Path

import pytest

from tests.tui.somebodys_folder import (
    CAME,
    ROOM,
    Json,
    Shop,
    air,
    board,
    came,
    count,
    folder,
    glue,
    in_a_hurry,
    job,
    laid,
    order,
    reading,
    room,
    state,
    straightedge,
    timber,
)

CLEAR = ("clear", None, None)
TO_DO = ("to_do", None, None)
FAILED = ("failed", None, None)
GOOD = [
    air("2026-11-09T09:00:00+01:00"),
    straightedge("2026-11-09T09:00:00+01:00"),
    timber("2026-11-09T09:00:00+01:00"),
]


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    in_a_hurry(monkeypatch)
    return Shop(tmp_path)


def stands(shop: Shop, at: str, *jobs: Json, **changes: object) -> Json:
    shop.take_in(folder(*jobs, **changes))  # type: ignore[arg-type]  # the builder's own keywords
    return shop.job(at)


def verdict(answer: Json) -> tuple[str, str | None, str | None, str | None]:
    return answer["stage"], answer["verdict"], answer["ready_from"], answer["best_case"]


def tally(answer: Json) -> tuple[int, ...]:
    (one,) = answer["packs"]
    return tuple(one[key] for key in ("needed", "ordered", "on_site", "ready", "laid", "left"))


# --- survey and delivery -------------------------------------------------------------------------------------------


def test_a_job_with_nothing_on_file_is_a_survey_that_wants_everything_done(shop: Shop) -> None:
    answer = stands(shop, "2026-11-12T10:00:00+01:00", job())
    assert verdict(answer) == ("survey", "blocked", None, None)
    assert state(answer, "packs") == state(answer, "climate") == TO_DO
    assert state(answer, "subfloor_dry") == state(answer, "subfloor_flat") == TO_DO
    assert state(answer, "acclimatisation") == ("waiting", None, None)
    assert tally(answer) == (11, 0, 0, 0, 0, 0)
    assert answer["windows"] == {"walk_on": None, "full_load": None, "handover": None}


def test_ordered_in_time_a_floor_is_ready_the_due_morning_and_the_boards_wait_later(shop: Shop) -> None:
    # Due Tue 17 Nov 08:00; 168 h on: Tue 24 Nov 08:00.
    answer = stands(shop, "2026-11-12T10:00:00+01:00", job(orders=[order()], readings=GOOD))
    assert verdict(answer) == ("delivery", "ready_from", "2026-11-24T08:00:00+01:00", None)
    assert state(answer, "packs") == ("waiting", "2026-11-17T08:00:00+01:00", None)
    assert state(answer, "acclimatisation") == ("waiting", "2026-11-24T08:00:00+01:00", None)
    assert tally(answer) == (11, 12, 0, 0, 0, 0)


def test_an_order_is_overdue_only_once_its_day_is_over(shop: Shop) -> None:
    late = [*GOOD, timber("2026-11-16T09:00:00+01:00")]
    shop.take_in(folder(job(orders=[order()], readings=late)))
    on_the_day = shop.job("2026-11-17T23:59:59+01:00")
    assert verdict(on_the_day) == ("delivery", "ready_from", "2026-11-24T08:00:00+01:00", None)
    the_day_after = shop.job("2026-11-18T00:00:00+01:00")
    assert verdict(the_day_after) == ("delivery", "blocked", None, None)
    assert state(the_day_after, "packs") == TO_DO
    assert state(the_day_after, "acclimatisation") == ("waiting", None, None)


def test_an_order_for_too_few_packs_leaves_something_to_do_and_no_date(shop: Shop) -> None:
    answer = stands(shop, "2026-11-12T10:00:00+01:00", job(orders=[order(10)], readings=GOOD))
    assert verdict(answer) == ("delivery", "blocked", None, None)
    assert state(answer, "packs") == TO_DO
    assert state(answer, "acclimatisation") == ("waiting", None, None)


def test_the_wait_for_packs_ends_with_the_last_open_order_that_is_needed(shop: Shop) -> None:
    orders = [order(6), order(6, due_on="2026-11-20"), order(6, due_on="2026-12-01")]
    answer = stands(shop, "2026-11-12T10:00:00+01:00", job(orders=orders, readings=GOOD))
    assert state(answer, "packs") == ("waiting", "2026-11-20T08:00:00+01:00", None)
    assert answer["ready_from"] == "2026-11-27T08:00:00+01:00"


def test_what_comes_in_fills_the_oldest_due_date_first(shop: Shop) -> None:
    # The later-due order stands first in the file; six packs come and fill the one due on the 17th.
    orders = [order(6, due_on="2026-11-20"), order(6, due_on="2026-11-17")]
    answer = stands(shop, "2026-11-18T10:00:00+01:00", job(orders=orders, deliveries=[came(6)], readings=[air()]))
    assert answer["stage"] == "delivery"
    assert state(answer, "packs") == ("waiting", "2026-11-20T08:00:00+01:00", None)
    assert state(answer, "acclimatisation") == ("waiting", "2026-11-27T08:00:00+01:00", None)


def test_one_needed_order_overdue_is_something_to_do_though_the_others_are_in_time(shop: Shop) -> None:
    orders = [order(6, due_on="2026-11-17"), order(6, due_on="2026-11-20")]
    answer = stands(shop, "2026-11-18T10:00:00+01:00", job(orders=orders))
    assert state(answer, "packs") == TO_DO


def test_damaged_packs_use_up_their_order_and_do_not_count(shop: Shop) -> None:
    # 12 ordered, 11 come of which 2 are spoilt: 9 sound, and the one still to come makes 10 of 11.
    answer = stands(
        shop, "2026-11-17T12:00:00+01:00", job(orders=[order()], deliveries=[came(11, damaged=2)], readings=[air()])
    )
    assert answer["stage"] == "delivery"
    assert state(answer, "packs") == TO_DO
    assert tally(answer) == (11, 12, 9, 0, 0, 9)


def test_an_order_due_across_a_clock_change_waits_its_hours_not_its_wall_clock(shop: Shop) -> None:
    # Clocks in Brussels go back on Sun 25 Oct 2026 (IANA): Fri 23 Oct 08:00+02:00 and 168 h is Fri 30 Oct 07:00+01:00.
    early = [air("2026-10-20T09:00:00+02:00"), straightedge("2026-10-20T09:00:00+02:00")]
    readings = [*early, timber("2026-10-20T09:00:00+02:00")]
    answer = stands(
        shop,
        "2026-10-21T10:00:00+02:00",
        job(orders=[order(on="2026-10-12", due_on="2026-10-23")], readings=readings),
    )
    assert state(answer, "packs") == ("waiting", "2026-10-23T08:00:00+02:00", None)
    assert answer["ready_from"] == "2026-10-30T07:00:00+01:00"


# --- packs needed --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("across", "along", "loss", "needed"), [(5700, 4750, 12, 14), (2850, 4750, 12, 7), (7600, 5700, 10, 22)]
)
def test_no_rounding_error_buys_a_pack(shop: Shop, across: int, along: int, loss: int, needed: int) -> None:
    # Floor with loss is a whole number of packs exactly: 5.7 × 4.75 × 1.12 = 30.324 = 14 × 2.166 m². Floats say more.
    assert across * along * (1 + loss / 100) / (1900 * 190 * 6) > needed
    rooms = [room(across=across, along=along, cut_loss_percent=loss)]
    assert tally(stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=rooms)))[0] == needed


def test_one_square_millimetre_more_buys_one_more_pack(shop: Shop) -> None:
    # Without cut loss ten packs cover 21.66 m² and not one mm² more: 2 corners moved by 1 mm make a sliver of floor.
    outline = [[0, 0], [5700, 0], [5700, 3800], [2, 3800], [0, 3801]]
    rooms = [room(outline=outline, cut_loss_percent=0)]
    assert tally(stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=rooms)))[0] == 11


def test_cut_outs_are_not_laid(shop: Shop) -> None:
    # 21.32 − 2 × 1 = 19.32 m², and a tenth more 21.252 m²: ten packs.
    hearth = [[100, 100], [2100, 100], [2100, 1100], [100, 1100]]
    assert tally(stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=[room(cut_outs=[hearth])])))[0] == 10


def test_rooms_that_share_a_board_are_summed_before_rounding_up(shop: Shop) -> None:
    # 2 × 1.1 m = 2.2 m², with a tenth 2.42 m²: 1.117 packs each, together 2.234: three, not two for each.
    rooms = [room("Cloakroom", 2000, 1100), room("Pantry", 2000, 1100)]
    assert tally(stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=rooms)))[0] == 3


def test_each_room_adds_its_own_cut_loss(shop: Shop) -> None:
    # 4.332 m² without loss and 4.332 m² with half as much again: (4.332 + 6.498) ÷ 2.166 = 5 exactly.
    rooms = [room("North", 2166, 2000, cut_loss_percent=0), room("South", 2166, 2000, cut_loss_percent=50)]
    assert tally(stands(shop, "2026-11-12T10:00:00+01:00", job(rooms=rooms)))[0] == 5


# --- the acclimatisation clock -------------------------------------------------------------------------------------


def test_the_clock_counts_night_and_day_from_the_moment_the_packs_are_in_the_room(shop: Shop) -> None:
    readings = [air(), straightedge(), timber()]
    shop.take_in(folder(job(orders=[order()], deliveries=[came()], readings=readings)))
    waiting = shop.job("2026-11-24T09:29:59+01:00")
    assert verdict(waiting) == ("acclimatisation", "ready_from", "2026-11-24T09:30:00+01:00", None)
    assert state(waiting, "packs") == state(waiting, "climate") == CLEAR
    assert tally(waiting) == (11, 12, 12, 0, 0, 12)
    ready = shop.job("2026-11-24T09:30:00+01:00")
    assert verdict(ready) == ("install", "ready", None, None)
    assert tally(ready) == (11, 12, 12, 12, 0, 12)


@pytest.mark.parametrize(
    ("zone", "came_at", "ready_at"),
    [
        # Clock changes of 2026 and 2027 by the IANA data: Brussels 25 Oct and 28 Mar, New York 1 Nov and 14 Mar.
        ("Europe/Brussels", "2026-10-20T09:30:00+02:00", "2026-10-27T08:30:00+01:00"),
        ("Europe/Brussels", "2027-03-24T09:30:00+01:00", "2027-03-31T10:30:00+02:00"),
        ("America/New_York", "2026-10-30T09:30:00-04:00", "2026-11-06T08:30:00-05:00"),
        ("America/New_York", "2027-03-10T09:30:00-05:00", "2027-03-17T10:30:00-04:00"),
    ],
)
def test_the_clock_counts_hours_across_a_change_of_the_clocks(
    shop: Shop, zone: str, came_at: str, ready_at: str
) -> None:
    orders = [order(on=came_at[:10], due_on=came_at[:10])]
    readings = [air(came_at), straightedge(came_at), timber(came_at)]
    answer = stands(shop, came_at, job(orders=orders, deliveries=[came(at=came_at)], readings=readings), time_zone=zone)
    assert answer["ready_from"] == ready_at


def test_air_out_of_range_stops_the_clock_until_the_next_reading_in_range(shop: Shop) -> None:
    # 48 h counted, a day lost to the cold: ready 24 h later than 24 Nov 09:30.
    cold, warm = air("2026-11-19T09:30:00+01:00", temp=17), air("2026-11-20T09:30:00+01:00")
    readings = [air(), straightedge(), timber(), cold, warm]
    shop.take_in(folder(job(orders=[order()], deliveries=[came()], readings=readings)))
    stopped = shop.job("2026-11-20T09:00:00+01:00")
    assert verdict(stopped) == ("acclimatisation", "blocked", None, None)
    assert state(stopped, "acclimatisation") == TO_DO
    assert state(stopped, "climate") == FAILED
    running = shop.job("2026-11-20T09:30:00+01:00")
    assert verdict(running) == ("acclimatisation", "ready_from", "2026-11-25T09:30:00+01:00", None)


def test_readings_count_by_their_moment_not_by_their_place_in_the_file(shop: Shop) -> None:
    cold, warm = air("2026-11-19T09:30:00+01:00", temp=17), air("2026-11-20T09:30:00+01:00")
    answer = stands(
        shop, "2026-11-21T08:00:00+01:00", job(orders=[order()], deliveries=[came()], readings=[warm, cold, air()])
    )
    assert state(answer, "acclimatisation") == ("waiting", "2026-11-25T09:30:00+01:00", None)


def test_after_bad_air_before_the_packs_the_clock_starts_at_the_first_reading_in_range(shop: Shop) -> None:
    damp, dry = air("2026-11-17T08:00:00+01:00", rh=71), air("2026-11-17T14:30:00+01:00")
    answer = stands(shop, "2026-11-18T08:00:00+01:00", job(orders=[order()], deliveries=[came()], readings=[damp, dry]))
    assert state(answer, "acclimatisation") == ("waiting", "2026-11-24T14:30:00+01:00", None)


def test_air_is_judged_in_the_room_it_was_read_in(shop: Shop) -> None:
    rooms = [room("North"), room("South", board="ASH-140")]
    products = [board(), board("ASH-140"), glue()]
    cold = air("2026-11-18T09:30:00+01:00", temp=12, where="South")
    deliveries = [came(into="North"), came(into="South", product="ASH-140")]
    orders = [order(), order(product="ASH-140")]
    readings = [air(where="North"), air(where="South"), cold]
    answer = stands(
        shop,
        "2026-11-19T08:00:00+01:00",
        job(rooms=rooms, orders=orders, deliveries=deliveries, readings=readings),
        products=products,
    )
    assert state(answer, "acclimatisation", "North") == ("waiting", "2026-11-24T09:30:00+01:00", None)
    assert state(answer, "acclimatisation", "South") == TO_DO


@pytest.mark.parametrize(
    ("temp", "rh", "inside"),
    [(18, 40, True), (24, 65, True), (17.9, 50, False), (24.1, 50, False), (20, 39.9, False), (20, 65.1, False)],
)
def test_the_limits_of_the_air_are_inside_the_range(shop: Shop, temp: float, rh: float, inside: bool) -> None:
    answer = stands(
        shop,
        "2026-11-18T08:00:00+01:00",
        job(orders=[order()], deliveries=[came()], readings=[air(temp=temp, rh=rh)]),
    )
    assert state(answer, "climate") == (CLEAR if inside else FAILED)
    assert (state(answer, "acclimatisation")[0] == "waiting") is inside


def test_a_room_is_ready_with_the_earliest_packs_and_a_late_spare_holds_nothing_up(shop: Shop) -> None:
    deliveries = [came(11), came(1, at="2026-11-19T10:00:00+01:00")]
    readings = [air(), straightedge(), timber("2026-11-20T08:00:00+01:00")]
    shop.take_in(folder(job(orders=[order()], deliveries=deliveries, readings=readings)))
    answer = shop.job("2026-11-24T09:30:00+01:00")
    assert verdict(answer) == ("install", "ready", None, None)
    assert tally(answer) == (11, 12, 12, 11, 0, 12)


def test_two_deliveries_that_are_both_needed_wait_for_the_later_one(shop: Shop) -> None:
    deliveries = [came(6), came(6, at="2026-11-19T10:00:00+01:00", batch="K42")]
    readings = [air(), straightedge(), timber("2026-11-20T08:00:00+01:00")]
    shop.take_in(folder(job(orders=[order()], deliveries=deliveries, readings=readings)))
    answer = shop.job("2026-11-25T08:00:00+01:00")
    assert verdict(answer) == ("acclimatisation", "ready_from", "2026-11-26T10:00:00+01:00", None)
    assert tally(answer) == (11, 12, 12, 6, 0, 12)


def test_packs_in_the_unit_are_on_hand_but_do_not_acclimatise_until_carried_in(shop: Shop) -> None:
    answer = stands(
        shop, "2026-11-18T10:00:00+01:00", job(orders=[order()], deliveries=[came(into="unit")], readings=[air()])
    )
    assert answer["stage"] == "delivery"
    assert state(answer, "packs") == CLEAR
    assert state(answer, "acclimatisation") == TO_DO
    assert tally(answer)[2] == 0


def test_rooms_of_one_board_are_ready_at_one_moment_each_pack_by_the_clock_of_its_room(shop: Shop) -> None:
    # Needed: 2 × 23.452 ÷ 2.166 = 21.65: 22. North's 12 run from the 17th; South's 12 lose a day to the cold.
    rooms = [room("North"), room("South")]
    cold = air("2026-11-18T09:30:00+01:00", temp=12, where="South")
    warm = air("2026-11-19T09:30:00+01:00", where="South")
    readings = [air(where="North"), air(where="South"), cold, warm]
    shop.take_in(
        folder(
            job(
                rooms=rooms,
                orders=[order(24)],
                deliveries=[came(into="North"), came(into="South")],
                readings=readings,
            )
        )
    )
    stopped = shop.job("2026-11-19T08:00:00+01:00")
    assert state(stopped, "acclimatisation", "North") == state(stopped, "acclimatisation", "South") == TO_DO
    running = shop.job("2026-11-20T08:00:00+01:00")
    later = ("waiting", "2026-11-25T09:30:00+01:00", None)
    assert state(running, "acclimatisation", "North") == state(running, "acclimatisation", "South") == later
    assert tally(shop.job("2026-11-24T12:00:00+01:00")) == (22, 24, 24, 12, 0, 24)


def test_a_board_that_needs_no_wait_is_ready_when_it_comes(shop: Shop) -> None:
    answer = stands(
        shop,
        CAME,
        job(orders=[order()], deliveries=[came()], readings=[air(), straightedge(), timber(CAME)]),
        products=[board(acclimatise_hours=0), glue()],
    )
    assert verdict(answer) == ("install", "ready", None, None)


# --- air, subfloor and site ----------------------------------------------------------------------------------------


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


# --- laying, curing, closing ---------------------------------------------------------------------------------------

READY = {"orders": [order()], "deliveries": [came()], "readings": [air(), straightedge(), timber()]}
FRIDAY = laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00")


def test_a_floor_begun_is_being_installed_and_keeps_the_verdict_of_what_is_not_laid(shop: Shop) -> None:
    begun = laid("2026-11-24T10:00:00+01:00", "2026-11-24T16:00:00+01:00", 10)
    answer = stands(shop, "2026-11-25T08:00:00+01:00", job(**READY, laid=[begun]))
    assert (answer["stage"], answer["verdict"]) == ("install", "ready")
    assert answer["windows"]["full_load"] is None


@pytest.mark.parametrize(("area", "wholly"), [(21.1068, True), (21.1067, False)])
def test_a_room_is_wholly_laid_at_ninety_nine_parts_in_a_hundred(shop: Shop, area: float, wholly: bool) -> None:
    # 99 % of 21.32 m² is 21.1068 m².
    part = laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00", area)
    answer = stands(shop, "2026-11-28T12:00:00+01:00", job(**READY, laid=[part]))
    assert answer["stage"] == ("cure" if wholly else "install")
    assert (answer["verdict"] is None) is wholly
    assert (answer["holds"] == []) is wholly


def test_windows_count_from_the_last_board_and_the_handover_waits_for_a_working_moment(shop: Shop) -> None:
    # Last board Fri 27 Nov 15:00: walk on Sat 15:00, full load Mon 30 Nov 15:00, a working moment.
    shop.take_in(folder(job(**READY, laid=[FRIDAY])))
    answer = shop.job("2026-11-30T14:59:59+01:00")
    assert verdict(answer) == ("cure", None, None, None)
    assert answer["windows"] == {
        "walk_on": "2026-11-28T15:00:00+01:00",
        "full_load": "2026-11-30T15:00:00+01:00",
        "handover": "2026-11-30T15:00:00+01:00",
    }
    assert shop.job("2026-11-30T15:00:00+01:00")["stage"] == "handover"


@pytest.mark.parametrize(
    ("ended", "holidays", "handover"),
    [
        ("2026-11-27T17:00:00+01:00", [], "2026-12-01T08:00:00+01:00"),  # full load Mon 17:00, after hours
        ("2026-11-27T16:30:00+01:00", [], "2026-12-01T08:00:00+01:00"),  # at the very end of Monday's hours
        ("2026-11-24T05:00:00+01:00", [], "2026-11-27T08:00:00+01:00"),  # full load Fri 05:00, before hours
        ("2026-11-25T12:00:00+01:00", [], "2026-11-30T08:00:00+01:00"),  # full load on Saturday
        ("2026-12-22T12:00:00+01:00", ["2026-12-25", "2026-12-28"], "2026-12-29T08:00:00+01:00"),
    ],
)
def test_the_handover_is_the_first_working_moment(shop: Shop, ended: str, holidays: list[str], handover: str) -> None:
    done = laid(ended[:11] + "01:00:00+01:00", ended)
    answer = stands(shop, "2026-12-31T12:00:00+01:00", job(**READY, laid=[done]), holidays=holidays)
    assert answer["windows"]["handover"] == handover


def test_the_room_that_takes_longest_decides_the_windows(shop: Shop) -> None:
    rooms = [room("North"), room("South", glue="SLOW")]
    products = [board(), glue(), glue("SLOW", walk_on_hours=48, full_load_hours=168)]
    layings = [
        laid("2026-11-27T08:00:00+01:00", "2026-11-27T12:00:00+01:00", where="North"),
        laid("2026-11-26T08:00:00+01:00", "2026-11-26T12:00:00+01:00", where="South"),
    ]
    answer = stands(
        shop, "2026-11-28T12:00:00+01:00", job(rooms=rooms, orders=[order(24)], laid=layings), products=products
    )
    # North: walk Sat 12:00, load Mon 30 12:00. South: walk Sat 12:00, load Thu 3 Dec 12:00.
    assert answer["windows"]["walk_on"] == "2026-11-28T12:00:00+01:00"
    assert answer["windows"]["full_load"] == "2026-12-03T12:00:00+01:00"
    assert answer["stage"] == "cure"


def test_windows_are_unknown_until_every_room_is_laid_and_the_job_is_at_its_earliest_room(shop: Shop) -> None:
    rooms = [room("North"), room("South", board="ASH-140")]
    north = laid("2026-11-27T08:00:00+01:00", "2026-11-27T12:00:00+01:00", where="North")
    answer = stands(
        shop,
        "2026-12-20T12:00:00+01:00",
        job(rooms=rooms, orders=[order(), order(product="ASH-140")], laid=[north]),
        products=[board(), board("ASH-140"), glue()],
    )
    assert answer["stage"] == "delivery"
    assert answer["windows"] == {"walk_on": None, "full_load": None, "handover": None}
    assert {one["room"] for one in answer["holds"]} == {"South"}


def test_curing_across_a_clock_change_counts_hours(shop: Shop) -> None:
    # Brussels, Sat 24 Oct 15:00+02:00: walk on Sun 14:00+01:00, full load Tue 27 Oct 14:00+01:00.
    saturday = laid("2026-10-24T08:00:00+02:00", "2026-10-24T15:00:00+02:00")
    answer = stands(
        shop, "2026-10-25T12:00:00+01:00", job(orders=[order(on="2026-10-01", due_on="2026-10-08")], laid=[saturday])
    )
    assert answer["windows"] == {
        "walk_on": "2026-10-25T14:00:00+01:00",
        "full_load": "2026-10-27T14:00:00+01:00",
        "handover": "2026-10-27T14:00:00+01:00",
    }


def test_a_job_closes_when_it_is_cured_signed_and_counted_and_leaves_the_days_list(shop: Shop) -> None:
    signed = {"signed_at": "2026-12-01T09:00:00+01:00", "by": "K. Harbour"}
    counted = [count("2026-12-01T10:00:00+01:00")]
    shop.take_in(folder(job(**READY, laid=[FRIDAY], counts=counted, handover=signed)))
    assert shop.job("2026-11-30T16:00:00+01:00")["stage"] == "handover"
    assert shop.job("2026-12-01T09:30:00+01:00")["stage"] == "handover"
    assert [one["ref"] for one in shop.today("2026-12-01T09:59:00+01:00")] == ["L-0007"]
    assert shop.job("2026-12-01T10:00:00+01:00")["stage"] == "closed"
    assert shop.today("2026-12-01T10:00:00+01:00") == []


def test_a_job_signed_before_its_glue_has_cured_goes_on_curing(shop: Shop) -> None:
    signed = {"signed_at": "2026-11-27T16:00:00+01:00", "by": "K. Harbour"}
    counted = [count("2026-11-27T16:00:00+01:00")]
    shop.take_in(folder(job(**READY, laid=[FRIDAY], counts=counted, handover=signed)))
    assert shop.job("2026-11-29T12:00:00+01:00")["stage"] == "cure"
    assert len(shop.today("2026-11-30T14:59:59+01:00")) == 1
    assert shop.job("2026-11-30T15:00:00+01:00")["stage"] == "closed"
    assert shop.today("2026-11-30T15:00:00+01:00") == []


def test_leftovers_are_counted_when_every_board_has_a_count_and_glue_needs_none(shop: Shop) -> None:
    rooms = [room("North"), room("South", board="ASH-140")]
    layings = [
        laid("2026-11-26T08:00:00+01:00", "2026-11-26T15:00:00+01:00", where="North"),
        laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00", where="South"),
    ]
    signed = {"signed_at": "2026-12-01T09:00:00+01:00", "by": "K. Harbour"}
    orders = [order(), order(product="ASH-140")]
    deliveries = [came(into="North"), came(into="South", product="ASH-140")]
    counts = [count("2026-12-01T10:00:00+01:00"), count("2026-12-02T10:00:00+01:00", 0, 0, product="ASH-140")]
    shop.take_in(
        folder(
            job(rooms=rooms, orders=orders, deliveries=deliveries, laid=layings, counts=counts, handover=signed),
            products=[board(), board("ASH-140"), glue()],
        )
    )
    assert shop.job("2026-12-02T09:00:00+01:00")["stage"] == "handover"
    assert shop.job("2026-12-02T10:00:00+01:00")["stage"] == "closed"


def test_a_floating_floor_has_nothing_to_cure(shop: Shop) -> None:
    rooms = [room(method="floating", glue=None)]
    done = laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00")
    answer = stands(shop, "2026-11-27T15:00:00+01:00", job(rooms=rooms, orders=[order()], laid=[done]))
    assert answer["stage"] == "handover"
    assert set(answer["windows"].values()) == {"2026-11-27T15:00:00+01:00"}


# --- another moment ------------------------------------------------------------------------------------------------


def test_at_another_moment_what_is_dated_later_is_not_known_yet(shop: Shop) -> None:
    signed = {"signed_at": "2026-12-01T09:00:00+01:00", "by": "K. Harbour"}
    counted = [count("2026-12-01T10:00:00+01:00")]
    shop.take_in(folder(job(**READY, laid=[FRIDAY], counts=counted, handover=signed)))
    stages = {
        "2026-11-09T23:59:59+01:00": "survey",
        "2026-11-10T00:00:00+01:00": "delivery",  # an order is known from its day on
        "2026-11-17T09:29:59+01:00": "delivery",
        "2026-11-17T09:30:00+01:00": "acclimatisation",
        "2026-11-24T09:30:00+01:00": "install",
        "2026-11-27T15:00:00+01:00": "cure",
        "2026-11-30T15:00:00+01:00": "handover",
        "2026-12-01T10:00:00+01:00": "closed",
    }
    assert {at: shop.job(at)["stage"] for at in stages} == stages


def test_at_tells_the_same_instant_in_any_zone(shop: Shop) -> None:
    shop.take_in(folder(job(**READY)))
    here = shop.run("job", "L-0007", "--json", "--at", "2026-11-24T09:30:00+01:00")
    assert here.out == shop.run("job", "L-0007", "--json", "--at", "2026-11-24T08:30:00Z").out
    assert here.out == shop.run("job", "L-0007", "--json", "--at", "2026-11-24T03:30:00-05:00").out
    # Without an offset it is told by the firm's own clock.
    assert here.out == shop.run("job", "L-0007", "--json", "--at", "2026-11-24T09:30").out


def test_answers_of_a_firm_in_new_york_are_told_in_its_own_time(shop: Shop) -> None:
    # Fri 30 Oct 2026 15:00-04:00 and 72 h is Mon 2 Nov 14:00-05:00: the clocks go back on 1 Nov (IANA).
    friday = laid("2026-10-30T08:00:00-04:00", "2026-10-30T15:00:00-04:00")
    answer = stands(
        shop,
        "2026-10-31T12:00:00Z",
        job(orders=[order(on="2026-10-01", due_on="2026-10-08")], laid=[friday]),
        time_zone="America/New_York",
    )
    assert answer["windows"] == {
        "walk_on": "2026-10-31T15:00:00-04:00",
        "full_load": "2026-11-02T14:00:00-05:00",
        "handover": "2026-11-02T14:00:00-05:00",
    }
