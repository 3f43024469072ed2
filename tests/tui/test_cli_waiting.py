"""The acclimatisation clock by the command line's answers, with moments worked out by hand from the published rules."""

import pytest

from tests.tui.somebodys_folder import (
    CAME,
    Shop,
    air,
    board,
    came,
    folder,
    glue,
    job,
    order,
    room,
    stands,
    state,
    straightedge,
    tally,
    timber,
    verdict,
)

CLEAR = ("clear", None, None)
TO_DO = ("to_do", None, None)
FAILED = ("failed", None, None)


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
