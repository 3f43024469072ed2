"""Surveys, orders and deliveries by the command line's answers, with figures worked out by hand from the rules."""

import pytest

from tests.tui.somebodys_folder import (
    Shop,
    air,
    came,
    folder,
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

TO_DO = ("to_do", None, None)
GOOD = [
    air("2026-11-09T09:00:00+01:00"),
    straightedge("2026-11-09T09:00:00+01:00"),
    timber("2026-11-09T09:00:00+01:00"),
]


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
