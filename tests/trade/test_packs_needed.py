"""Packs for rooms without a lay plan: floor, cut loss and packs in exact whole mm²."""

import math
from dataclasses import replace
from decimal import Decimal, localcontext

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.outline import rectangle
from store.trade.stacks import packs_for
from tests.trade.conftest import OAK, a_room


def a_board(length, width, per_pack):
    return replace(OAK, length_mm=length, width_mm=width, boards_per_pack=per_pack)


def of_area(mm2, loss):
    """A room of exactly so many mm², one metre deep and a cut-out for what is over."""
    wide = -(-mm2 // 1000)
    over = wide * 1000 - mm2
    cut_outs = (((0, 0), (1, 0), (1, over), (0, over)),) if over else ()
    return a_room(outline=rectangle(wide, 1000), cut_outs=cut_outs, cut_loss_percent=loss)


# Check values worked out by hand from the rule: ceil(area × (1 + loss) ÷ pack area).
@pytest.mark.parametrize(
    ("m2", "loss", "board", "packs"),
    [
        ("20", 10, (1900, 190, 6), 11),
        ("20", 5, (1900, 190, 6), 10),
        ("19.69", 10, (1900, 190, 6), 10),
        ("8.0", 10, (1900, 190, 8), 4),
        ("45.3", 7, (1900, 190, 6), 23),
        ("33.0", 15, (600, 90, 20), 36),
        ("21.66", 0, (1900, 190, 6), 10),
        ("21.66", 10, (1900, 190, 6), 11),
        ("216.6", 7, (1900, 190, 6), 107),
        ("21.660001", 0, (1900, 190, 6), 11),
        ("2.166", 0, (1900, 190, 6), 1),
        ("0.000001", 0, (1900, 190, 6), 1),
    ],
)
def test_packs_are_rounded_up_once_and_no_rounding_error_buys_one(m2, loss, board, packs):
    assert packs_for((of_area(int(Decimal(m2) * 10**6), loss),), a_board(*board)) == packs


def test_a_cut_loss_of_a_tenth_of_a_percent_is_taken_as_it_is_written():
    # 1000 packs of 1 m² less the loss: 0.1 % of 1000 m² is exactly one pack more, no float's worth of a second.
    thousand = a_room(outline=rectangle(100_000, 10_000), cut_loss_percent=0.1)
    assert packs_for((thousand,), a_board(1000, 100, 10)) == 1001


def test_cut_outs_are_floor_that_needs_no_boards():
    room = a_room(wide=5000, deep=4332, cut_loss_percent=0)
    assert packs_for((room,), OAK) == 10
    hearth = ((0, 0), (1140, 0), (1140, 1900), (0, 1900))
    assert packs_for((replace(room, cut_outs=(hearth,)),), OAK) == 9


def test_rooms_that_share_a_board_are_summed_before_rounding_up():
    half_a_pack = of_area(1_083_000, 0)
    assert packs_for((half_a_pack,), OAK) == 1
    assert packs_for((half_a_pack, half_a_pack), OAK) == 1
    assert packs_for((half_a_pack,) * 3, OAK) == 2


def test_each_room_adds_its_own_cut_loss():
    plain, herringbone = of_area(10_000_000, 0), of_area(10_000_000, 30)
    assert packs_for((plain, herringbone), OAK) == math.ceil(23 / 2.166)


@given(
    rooms=st.lists(
        st.tuples(st.integers(100, 30_000), st.integers(100, 30_000), st.decimals(0, 100, places=2)),
        min_size=1,
        max_size=4,
    ),
    board=st.tuples(st.integers(50, 10_000), st.integers(10, 2_000), st.integers(1, 60)),
)
def test_packs_are_what_decimal_arithmetic_says(rooms, board):
    made = tuple(a_room(wide=wide, deep=deep, cut_loss_percent=float(loss)) for wide, deep, loss in rooms)
    with localcontext(prec=60):
        floor = sum(wide * deep * (100 + loss) for wide, deep, loss in rooms)
        pack = Decimal(math.prod(board) * 100)
        expected = int(floor // pack) + (floor % pack > 0)
    assert packs_for(made, a_board(*board)) == expected
