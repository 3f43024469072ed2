"""Glue: whole tubs, and rows spread at once."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.glue import glue, spreading


# Worked by hand.
@pytest.mark.parametrize(
    ("area", "rate", "tub", "waste", "kg", "tubs"),
    [
        (20, 900, 15, 0, 18.0, 2),
        (20, 1100, 15, 0, 22, 2),
        (45, 1200, 15, 5, 56.7, 4),
        (12.5, 1000, 16, 5, 13.125, 1),
        (33, 1250, 18, 0, 41.25, 3),
        (10, 750, 15, 0, 7.5, 1),
        (15, 1000, 15, 0, 15, 1),
    ],
)
def test_glue_comes_in_whole_tubs(area, rate, tub, waste, kg, tubs):
    answer = glue(area_m2=area, rate_g_per_m2=rate, tub_kg=tub, waste_percent=waste)
    assert (answer.kg, answer.tubs, answer.rows_at_once) == (kg, tubs, None)


@given(st.integers(1, 5000), st.integers(1, 50))
def test_an_area_that_empties_its_tubs_buys_no_further_one(tenths, tubs):
    area = tenths / 10
    rate = 15_000 * tubs / tenths * 10
    if (15_000 * tubs * 10) % tenths == 0:
        assert glue(area_m2=area, rate_g_per_m2=rate, tub_kg=15).tubs == tubs


# Open time x pace against the area of a row, worked by hand; the cap of three rows is common practice.
@pytest.mark.parametrize(
    ("pace", "minutes", "run", "board", "rows"),
    [
        (4, 40, 5000, 190, 2),  # 2.67 m² in rows of 0.95
        (4, 30, 5000, 190, 2),  # 2.00 m²
        (12, 40, 5000, 190, 3),  # 8 m² would be eight rows
        (3, 20, 6000, 220, 1),  # 1 m² is less than a row of 1.32
        (2.5, 40, 4000, 90, 3),  # 1.67 m² in rows of 0.36
        (4, 30, 5000, 200, 2),  # just two rows of 1 m²
    ],
)
def test_rows_are_spread_only_as_far_as_the_open_time_lasts(pace, minutes, run, board, rows):
    at_pace = spreading(open_time_min=minutes, pace_m2_per_hour=pace, board_mm=board, run_mm=run)
    assert glue(area_m2=20, rate_g_per_m2=1000, tub_kg=15, at_pace=at_pace).rows_at_once == rows


def test_half_the_facts_of_spreading_are_refused_with_those_that_miss():
    assert spreading() is None
    with pytest.raises(Refused, match="give board width and length of a row too"):
        spreading(open_time_min=40, pace_m2_per_hour=4)


@pytest.mark.parametrize(
    "bad",
    [
        {"area_m2": 0},
        {"rate_g_per_m2": -1},
        {"tub_kg": 0},
        {"area_m2": float("nan")},
        {"tub_kg": float("inf")},
    ],
)
def test_glue_for_what_cannot_be_is_refused(bad):
    with pytest.raises(Refused):
        glue(**({"area_m2": 20, "rate_g_per_m2": 1000, "tub_kg": 15} | bad))


def test_a_pace_that_cannot_be_is_refused():
    at_pace = spreading(open_time_min=40, pace_m2_per_hour=float("nan"), board_mm=190, run_mm=5000)
    with pytest.raises(Refused, match="Pace must be a finite number"):
        glue(area_m2=20, rate_g_per_m2=1000, tub_kg=15, at_pace=at_pace)
