"""Rows across a floor: their number and the widths of the first and the last."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.layout.rows import rows


# Worked by hand from the rule in the docstring of `rows` (common practice, no source).
@pytest.mark.parametrize(
    ("across", "board", "gap", "least", "number", "first", "last"),
    [
        (4000, 190, 12, 95, 21, 190, 176),
        (3650, 190, 12, 95, 20, 103, 103),
        (3835, 190, 12, 95, 21, 100.5, 100.5),
        (2805, 190, 12, 60, 15, 190, 121),
        (3064, 190, 12, 60, 16, 190, 190),
        (4214, 190, 12, 95, 23, 100, 100),
        (5000, 220, 15, 110, 23, 220, 130),
        (184, 190, 10, 60, 1, 164, 164),
    ],
)
def test_outer_rows_are_as_wide_as_the_rule_says(across, board, gap, least, number, first, last):
    answer = rows(across_mm=across, board_mm=board, gap_mm=gap, least_mm=least)
    assert (answer.rows, answer.first_mm, answer.last_mm) == (number, first, last)


def test_the_sliver_a_full_first_board_would_leave_is_told():
    assert rows(across_mm=3650, board_mm=190, gap_mm=12).last_if_full_mm == 16
    assert rows(across_mm=3064, board_mm=190, gap_mm=12).last_if_full_mm == 190


def test_a_last_row_of_just_the_least_width_is_kept():
    assert rows(across_mm=2 * 190 + 60 + 20, board_mm=190).last_mm == 60
    assert rows(across_mm=2 * 190 + 59 + 20, board_mm=190).last_mm == 124.5


def test_gap_and_least_have_the_values_of_the_trade_when_left_out():
    assert rows(across_mm=5200, board_mm=190) == rows(across_mm=5200, board_mm=190, gap_mm=10, least_mm=60)


@pytest.mark.parametrize(
    ("across", "board", "gap", "least", "say"),
    [
        (20, 190, 10, 60, "nothing left between two gaps of 10 mm"),
        (4000, 0, 10, 60, "Board width 0 mm"),
        (-4000, 190, 10, 60, "Width across the rows -4000 mm"),
        (4000, 190, -1, 60, "Gap at the wall -1 mm"),
        (4000, 190, 10, -60, "Narrowest row -60 mm"),
        (4000.5, 190, 10, 60, "not whole"),
        (float("nan"), 190, 10, 60, "finite"),
    ],
)
def test_what_cannot_be_is_refused_by_name(across, board, gap, least, say):
    with pytest.raises(Refused, match=say):
        rows(across_mm=across, board_mm=board, gap_mm=gap, least_mm=least)


@given(st.integers(21, 30_000), st.integers(1, 400), st.integers(0, 10), st.integers(0, 200))
def test_the_rows_fill_the_floor_to_the_millimetre(across, board, gap, least):
    answer = rows(across_mm=across, board_mm=board, gap_mm=gap, least_mm=least)
    clear = across - 2 * gap
    if answer.rows == 1:
        assert answer.first_mm == answer.last_mm == clear <= board
    else:
        assert answer.first_mm + (answer.rows - 2) * board + answer.last_mm == clear
    assert answer.rows == -(-clear // board)
    assert 0 < answer.last_mm <= board
