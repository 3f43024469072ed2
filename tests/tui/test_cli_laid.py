"""Laying, curing, closing and other moments by the command line's answers, worked out by hand from the rules."""

import pytest

from tests.tui.somebodys_folder import (
    Shop,
    air,
    board,
    came,
    count,
    folder,
    glue,
    job,
    laid,
    order,
    room,
    stands,
    straightedge,
    timber,
    verdict,
)

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
