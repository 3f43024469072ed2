"""Blocks of pattern floors and boards to put aside, against tables worked by hand."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom

from store.errors import Refused
from store.trade.layout.blocks import chevron, diagonal_extra_percent, herringbone
from store.trade.layout.enough import boards_to_have


# Area m², perimeter m, block → loss with half and with all border offcuts lost, blocks (arithmetic).
@pytest.mark.parametrize(
    ("area", "around", "length", "width", "half", "whole", "blocks"),
    [
        (9, 12, 350, 70, 9.90, 19.80, 404),
        (20, 18, 350, 70, 6.68, 13.36, 871),
        (20, 18, 600, 90, 10.98, 21.96, 412),
        (48, 28, 600, 90, 7.12, 14.23, 953),
        (20, 18, 600, 120, 11.46, 22.91, 310),
        (9, 12, 700, 120, 19.33, 38.66, 128),
        (25, 22, 600, 90, 10.73, 21.47, 513),
    ],
)
def test_herringbone_agrees_with_the_table(area, around, length, width, half, whole, blocks):
    room = {"area_mm2": area * 10**6, "perimeter_mm": around * 1000, "length_mm": length, "width_mm": width}
    usual = herringbone(**room)
    assert (usual.blocks, usual.left_hand) == (blocks, math.ceil(blocks / 2))
    assert usual.loss_percent == pytest.approx(half, abs=0.01)
    assert herringbone(**room, unused_share=1).loss_percent == pytest.approx(whole, abs=0.01)


# Room across × along, block, end angle → columns × blocks in a column, loss (plane geometry, worked by hand).
@pytest.mark.parametrize(
    ("across", "along", "length", "width", "end", "blocks", "loss"),
    [
        (4000, 5000, 600, 90, 45, 430, 16.1),
        (5000, 4000, 600, 90, 45, 420, 13.4),
        (6000, 8000, 600, 90, 45, 1005, 13.1),
        (3000, 4000, 510, 90, 45, 315, 20.5),
        (4000, 5000, 500, 70, 45, 660, 15.5),
        (4000, 5000, 600, 90, 60, 408, 10.2),
    ],
)
def test_chevron_agrees_with_the_table(across, along, length, width, end, blocks, loss):
    count = chevron(across_mm=across, along_mm=along, length_mm=length, width_mm=width, end_deg=end)
    assert count.blocks == blocks
    assert count.loss_percent == pytest.approx(loss, abs=0.05)


def test_an_odd_number_of_chevron_columns_needs_a_column_more_of_one_hand():
    count = chevron(across_mm=3000, along_mm=4000, length_mm=510, width_mm=90)
    assert (count.left_hand, count.right_hand) == (175, 140)


@pytest.mark.parametrize(
    ("area", "around", "width", "extra"),
    [(20, 18, 190, 6.05), (20, 18, 90, 2.86), (9, 12, 190, 8.96), (48, 28, 190, 3.92)],
)
def test_diagonal_floors_lose_their_wedges(area, around, width, extra):
    percent = diagonal_extra_percent(area_mm2=area * 10**6, perimeter_mm=around * 1000, width_mm=width)
    assert percent == pytest.approx(extra, abs=0.01)


@pytest.mark.parametrize(
    ("function", "sizes"),
    [
        (herringbone, {"area_mm2": 0, "perimeter_mm": 1, "length_mm": 1, "width_mm": 1}),
        (herringbone, {"area_mm2": 9, "perimeter_mm": math.nan, "length_mm": 1, "width_mm": 1}),
        (herringbone, {"area_mm2": 9, "perimeter_mm": 9, "length_mm": 1, "width_mm": 1, "unused_share": 2}),
        (chevron, {"across_mm": 9, "along_mm": 9, "length_mm": 1, "width_mm": 1, "end_deg": 90}),
        (diagonal_extra_percent, {"area_mm2": 9, "perimeter_mm": 9, "width_mm": -1}),
    ],
)
def test_sizes_that_cannot_be_are_refused(function, sizes):
    with pytest.raises(Refused):
        function(**sizes)


# Boards of a lay, share put aside → boards to have at 50, 80, 90, 95 % (binomial, cumulated by hand).
@pytest.mark.parametrize(
    ("boards", "rate", "enough"),
    [
        (79, 0.03, (81, 83, 84, 84)),
        (31, 0.03, (32, 33, 33, 34)),
        (138, 0.02, (141, 142, 143, 144)),
        (26, 0.05, (27, 28, 29, 30)),
        (10, 0.05, (10, 11, 12, 12)),
        (220, 0.03, (227, 229, 230, 231)),
        (79, 0, (79, 79, 79, 79)),
    ],
)
def test_enough_boards_at_each_confidence(boards, rate, enough):
    confidences = (0.5, 0.8, 0.9, 0.95)
    assert enough == tuple(
        boards_to_have(boards=boards, cull_rate=rate, confidence=confidence) for confidence in confidences
    )


@given(st.integers(1, 400), st.floats(0.001, 0.5), st.floats(0.05, 0.999))
def test_enough_is_enough_and_one_fewer_is_not(boards, rate, confidence):
    have = boards_to_have(boards=boards, cull_rate=rate, confidence=confidence)
    assert binom.sf(boards - 1, have, 1 - rate) >= confidence - 1e-9
    assert binom.sf(boards - 1, have - 1, 1 - rate) <= confidence + 1e-9


def test_a_great_hall_does_not_vanish_in_small_numbers():
    assert boards_to_have(boards=20_000, cull_rate=0.1, confidence=0.9) == pytest.approx(22_222 + 64, abs=8)


@pytest.mark.parametrize(
    ("boards", "rate", "confidence"),
    [
        (0, 0.1, 0.9),
        (10, -0.1, 0.9),
        (10, 0.6, 0.9),
        (10, 0.1, 1.0),
        (10, math.nan, 0.9),
        (10, 0.1, math.nan),
    ],
)
def test_chances_that_cannot_be_are_refused(boards, rate, confidence):
    with pytest.raises(Refused):
        boards_to_have(boards=boards, cull_rate=rate, confidence=confidence)
