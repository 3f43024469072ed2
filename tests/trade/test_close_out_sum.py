"""The close-out sum: where every board of a job went, and what nobody can account for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.counts import reckon
from tests.trade.conftest import (
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    a_room,
    an_opening,
    an_order,
    laid,
    standing,
)

LAID = laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32)
EVENING = "2026-11-24 17:00"


def balance(sum_):
    came = sum_.ordered + sum_.from_stock + sum_.more_came
    went = sum_.used + sum_.customer + sum_.unit + sum_.returned + sum_.scrapped + sum_.unaccounted
    return came, sum_.never_came + sum_.damaged + sum_.to_stock + went


def test_every_board_is_used_left_returned_or_scrapped():
    facts = a_job(
        an_order(12),
        a_delivery(packs=12, damaged=1),
        an_opening("2026-11-24 10:00", 10),
        LAID,
        a_count(EVENING, packs=1, to="return"),
    )
    found = reckon(facts, OAK.code)
    assert (found.ordered, found.never_came, found.damaged, found.opened) == (72, 0, 6, 60)
    assert (found.used, found.returned, found.unaccounted) == (60, 6, 0)
    assert (found.counted, found.adds_up) == (True, True)
    # 60 boards of 0.361 m² are 21.66 m², 0.34 m² more than the 21.32 m² laid: 1.59 %.
    assert (found.used_mm2, found.laid_mm2) == (21_660_000, 21_320_000)
    assert found.real_loss_percent == pytest.approx(100 * 0.34 / 21.32)
    assert found.allowed_loss_percent == 10


def test_loose_boards_that_are_counted_were_opened_but_not_used():
    facts = a_job(
        an_order(12),
        a_delivery(packs=12),
        an_opening("2026-11-24 10:00", 11),
        LAID,
        a_count(EVENING, packs=1, boards=2),
        a_count(EVENING, boards=3, to="scrap"),
    )
    found = reckon(facts, OAK.code)
    assert (found.opened, found.used, found.customer, found.scrapped, found.unaccounted) == (66, 61, 8, 3, 0)


def test_a_pack_neither_opened_nor_counted_is_unaccounted_for_and_has_its_price():
    facts = a_job(
        an_order(12), a_delivery(packs=12), an_opening("2026-11-24 10:00", 10), LAID, a_count(EVENING, packs=1)
    )
    found = reckon(facts, OAK.code)
    assert (found.used, found.customer, found.unaccounted, found.adds_up) == (60, 6, 6, False)
    assert found.unaccounted_minor == 18240


def test_where_nobody_wrote_down_openings_what_is_not_left_was_used():
    found = reckon(a_job(an_order(12), a_delivery(packs=12), LAID, a_count(EVENING, packs=1, boards=2)), OAK.code)
    assert (found.opened, found.used, found.customer, found.unaccounted) == (None, 64, 8, 0)


def test_what_was_ordered_and_never_came_is_neither_used_nor_lost():
    found = reckon(a_job(an_order(12), a_delivery(packs=11), LAID, a_count(EVENING)), OAK.code)
    assert (found.ordered, found.never_came, found.more_came, found.used) == (72, 6, 0, 66)


def test_what_came_beyond_the_order_is_said_too():
    found = reckon(a_job(an_order(11), a_delivery(packs=12), LAID, a_count(EVENING, packs=1)), OAK.code)
    assert (found.ordered, found.never_came, found.more_came, found.used) == (66, 0, 6, 66)


@pytest.mark.parametrize("openings", [(), (an_opening("2026-11-24 10:00", 10),)])
def test_a_pack_that_never_left_the_unit_is_in_the_unit_and_neither_used_nor_missing(openings):
    come = (an_order(12), a_delivery(packs=10), a_delivery(packs=2, into="unit"))
    found = reckon(a_job(*come, *openings, LAID, a_count(EVENING)), OAK.code)
    assert (found.used, found.unit, found.unaccounted, found.adds_up) == (60, 12, 0, True)


def test_more_floor_than_boards_does_not_add_up():
    facts = a_job(an_order(12), a_delivery(packs=9), LAID, a_count(EVENING))
    found = reckon(facts, OAK.code)
    assert found.real_loss_percent < 0
    assert not found.adds_up


def test_before_anything_is_laid_there_is_no_real_loss():
    found = reckon(a_job(an_order(12), a_delivery(packs=12)), OAK.code)
    assert (found.real_loss_percent, found.counted) == (None, False)


def test_rooms_of_one_board_allow_the_loss_of_their_floors_together():
    # 4 m² at 10 % and 12 m² at 30 % are 4 m² of loss on 16 m² of floor.
    rooms = (
        a_room(wide=2000, deep=2000, cut_loss_percent=10),
        a_room("Hall", wide=4000, deep=3000, cut_loss_percent=30),
    )
    assert reckon(a_job(rooms=rooms), OAK.code).allowed_loss_percent == pytest.approx(25)


def test_a_board_not_on_file_is_asked_for_in_vain():
    with pytest.raises(KeyError):
        reckon(a_job(), "MS-15")


few = st.integers(0, 9)
places = st.sampled_from(["unit", READING_ROOM, "Hall", "shelf"])
destinations = st.sampled_from(["customer", "unit", "return", "scrap"])
happenings = st.lists(
    st.one_of(
        st.builds(lambda packs: an_order(packs), few),
        st.builds(
            lambda packs, damaged, into: a_delivery(packs=packs + damaged, damaged=damaged, into=into),
            few,
            st.integers(0, 2),
            st.sampled_from(["unit", READING_ROOM, "Hall"]),
        ),
        st.builds(lambda packs, source, target: a_move("2026-11-20 09:00", packs, source, target), few, places, places),
        st.builds(lambda packs: an_opening("2026-11-24 10:00", packs), few),
        st.builds(lambda packs, boards, to: a_count(EVENING, packs, boards, to=to), few, few, destinations),
        st.just(LAID),
    ),
    max_size=12,
)


@given(happened=happenings)
def test_what_came_is_always_what_went_whatever_was_filed(happened):
    rooms = (a_room(), a_room("Hall"))
    came, went = balance(reckon(a_job(*happened, rooms=rooms), OAK.code))
    assert came == went


@given(happened=happenings, order=st.randoms(use_true_random=False))
def test_the_close_out_sum_does_not_depend_on_the_order_of_entry(happened, order):
    rooms = (a_room(), a_room("Hall"))
    shuffled = list(happened)
    order.shuffle(shuffled)
    assert reckon(a_job(*shuffled, rooms=rooms), OAK.code) == reckon(a_job(*happened, rooms=rooms), OAK.code)


# ---- the same packs, as the day's answer tallies them


def tally(*events):
    (found,) = standing(a_job(*events), "2026-11-25 12:00").packs
    return found.on_site, found.laid, found.left


def test_counted_leftovers_say_best_what_was_laid():
    come = (an_order(12), a_delivery(packs=12), LAID)
    assert tally(*come, a_count(EVENING, packs=1))[1] == 11
    assert tally(*come, an_opening("2026-11-24 10:00", 10))[1] == 10


@given(happened=happenings)
def test_packs_laid_and_left_are_never_less_than_nought_nor_more_than_came(happened):
    facts = a_job(*happened, rooms=(a_room(), a_room("Hall")))
    (found,) = standing(facts, "2026-11-25 12:00").packs
    assert 0 <= found.laid <= max(found.on_site, 0)
    assert found.laid + found.left == found.on_site
    assert 0 <= found.ready <= found.on_site
