"""Wood moisture, movement and the gap to the base, against printed tables and worked examples."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.moisture import (
    air_for_moisture,
    coefficient_from_shrinkage,
    emc,
    gap_readings,
    moisture_gap,
    movement,
    movement_wide,
)
from store.trade.species import AMERICAN, EUROPEAN, OTHER_NAMES, WOODS

# USDA Wood Handbook FPL-GTR-190, Table 4-2: °F, RH %, printed EMC %.
TABLE_4_2 = [
    (40, 30, 6.3), (40, 50, 9.5), (40, 65, 12.3), (50, 30, 6.3), (50, 40, 7.9), (50, 50, 9.5),
    (50, 60, 11.2), (50, 70, 13.4), (50, 80, 16.4), (60, 25, 5.4), (60, 35, 7.0), (60, 45, 8.6),
    (60, 50, 9.4), (60, 55, 10.2), (60, 65, 12.1), (60, 75, 14.6), (70, 20, 4.5), (70, 30, 6.2),
    (70, 40, 7.7), (70, 45, 8.5), (70, 50, 9.2), (70, 55, 10.1), (70, 60, 11.0), (70, 65, 12.0),
    (70, 75, 14.4), (80, 30, 6.1), (80, 40, 7.6), (80, 50, 9.1), (80, 60, 10.8), (80, 70, 12.9),
    (90, 35, 6.7), (90, 50, 8.9), (90, 65, 11.5), (100, 50, 8.7), (100, 70, 12.3),
]  # fmt: skip

# The same handbook's equation 4-5 at whole degrees, worked out independently.
WORKED = [
    (20, 30, 6.19), (20, 35, 6.96), (20, 40, 7.72), (20, 45, 8.49), (20, 50, 9.27), (20, 55, 10.10),
    (20, 60, 11.00), (20, 65, 12.00), (20, 70, 13.13), (20, 75, 14.45), (18, 65, 12.06), (22, 35, 6.92),
    (24, 45, 8.39), (15, 75, 14.63), (26, 60, 10.80),
]  # fmt: skip


@pytest.mark.parametrize(("fahrenheit", "rh", "printed"), TABLE_4_2)
def test_wood_settles_where_the_wood_handbook_prints_it(fahrenheit, rh, printed):
    answer = emc(temp_c=(fahrenheit - 32) / 1.8, rh_percent=rh)
    assert answer.emc_percent == pytest.approx(printed, abs=0.06)


@pytest.mark.parametrize(("temp", "rh", "worked"), WORKED)
def test_wood_settles_where_equation_4_5_says(temp, rh, worked):
    assert emc(temp_c=temp, rh_percent=rh).emc_percent == pytest.approx(worked, abs=0.0051)


# Bisection of the same equation at 20 °C, worked out independently.
@pytest.mark.parametrize(
    ("moisture", "rh"),
    [(5, 22.8), (6, 28.8), (7, 35.2), (8, 41.8), (9, 48.3), (10, 54.4), (11, 60.0), (12, 65.0)],
)
def test_the_humidity_that_holds_wood_is_found_back(moisture, rh):
    assert air_for_moisture(temp_c=20, emc_percent=moisture).rh_percent == pytest.approx(rh, abs=0.051)


@given(st.floats(-1, 49), st.floats(5, 95))
@example(48.99999999999999, 5.000000000000001)
def test_humidity_and_moisture_are_each_other_turned_round(temp, rh):
    moisture = emc(temp_c=temp, rh_percent=rh).emc_percent
    assert air_for_moisture(temp_c=temp, emc_percent=moisture).rh_percent == pytest.approx(rh, abs=1e-6)


@given(st.floats(-1, 49), st.floats(5, 94.9), st.floats(0.01, 0.1))
def test_damper_air_makes_wetter_wood(temp, rh, more):
    assert emc(temp_c=temp, rh_percent=rh).emc_percent < emc(temp_c=temp, rh_percent=rh + more).emc_percent


@pytest.mark.parametrize(
    ("temp", "rh", "say"),
    [
        (20, 4.9, "give 5 to 95 %"),
        (20, 140, "Relative humidity 140 %"),
        (-1.1, 50, "give -1 to 49 °C"),
        (49.1, 50, r"Air temperature 49\.1 °C"),
        (float("nan"), 50, "finite"),
        (20, float("inf"), "finite"),
    ],
)
def test_air_beyond_the_table_is_refused(temp, rh, say):
    with pytest.raises(Refused, match=say):
        emc(temp_c=temp, rh_percent=rh)


def test_wood_too_wet_for_any_air_is_refused_with_what_can_be():
    with pytest.raises(Refused, match=r"Wood moisture 40 % .* give 1\.4 to 23\.9 %"):
        air_for_moisture(temp_c=20, emc_percent=40)


# Wood Handbook: white fir, 232 mm, 8 to 11 %, +1.7 mm. Association example: white oak, 5 in, 6 to 9 %,
# 0.055 in (1.4 mm). The others are equation 13-2 worked by hand.
@pytest.mark.parametrize(
    ("species", "width", "start", "end", "cut", "change"),
    [
        ("white-fir", 232, 8, 11, "flat", 1.705),
        ("white-oak", 127, 6, 9, "flat", 0.05475 * 25.4),
        ("oak", 180, 9, 7, "flat", -1.296),
        ("oak", 180, 9, 7, "quarter", -0.576),
        ("beech", 70, 9, 12, "flat", 0.861),
        ("hard-maple", 83, 8, 6, "flat", -0.586),
        ("black-walnut", 120, 10, 7, "flat", -0.986),
    ],
)
def test_boards_move_as_the_handbooks_work_it_out(species, width, start, end, cut, change):
    answer = movement(species=species, width_mm=width, from_percent=start, to_percent=end, cut=cut)
    assert answer.change_mm == pytest.approx(change, abs=0.0006)


# Total shrinkage, green to oven-dry, and the coefficient Table 13-5 of the Wood Handbook prints for it.
@pytest.mark.parametrize(
    ("shrinkage", "printed"),
    [
        (11.9, 0.00431), (7.8, 0.00274), (7.1, 0.00248), (9.9, 0.00353), (8.5, 0.00300), (5.5, 0.00190),
        (4.9, 0.00169), (4.8, 0.00165), (7.0, 0.00245), (3.3, 0.00112), (4.5, 0.00155),
    ],
)  # fmt: skip
def test_coefficients_follow_from_shrinkage(shrinkage, printed):
    assert round(coefficient_from_shrinkage(shrinkage_percent=shrinkage), 5) == printed


# Wood Handbook, equation 13-3, worked out independently.
@pytest.mark.parametrize(
    ("width", "shrinkage", "start", "end", "change"),
    [
        (180, 10.5, 9, 7, -1.360),
        (200, 11.8, 12, 5, -5.926),
        (150, 8.5, 16, 8, -3.540),
        (100, 9.9, 19, 9, -3.424),
        (120, 7.8, 10, 7, -0.987),
        (232, 7.0, 8, 11, 1.712),
    ],
)
def test_wet_boards_move_as_equation_13_3_says(width, shrinkage, start, end, change):
    answer = movement_wide(shrinkage_percent=shrinkage, width_mm=width, from_percent=start, to_percent=end)
    assert answer.change_mm == pytest.approx(change, abs=0.0006)


moistures = st.decimals(6, 14, places=2)


@given(st.sampled_from(sorted(WOODS)), st.integers(20, 400), moistures, moistures)
def test_what_a_board_grows_by_it_shrinks_by_again(species, width, start, end):
    there = movement(species=species, width_mm=width, from_percent=start, to_percent=end)
    back = movement(species=species, width_mm=width, from_percent=end, to_percent=start)
    assert there.change_mm == -back.change_mm
    assert (there.change_mm > 0) is (end > start)


@pytest.mark.parametrize("species", sorted(name for name, wood in WOODS.items() if wood.quarter is not None))
def test_quarter_sawn_boards_move_less_than_flat_sawn_ones(species):
    assert WOODS[species].quarter < WOODS[species].flat


def test_plain_names_are_the_european_table_and_whole_names_the_american_woods():
    assert {"oak", "beech", "ash", "birch", "spruce", "larch", "pine", "iroko", "afzelia"} <= EUROPEAN.keys()
    assert {"white-oak", "red-oak", "hard-maple"} <= AMERICAN.keys()
    assert not EUROPEAN.keys() & AMERICAN.keys()
    assert set(OTHER_NAMES.values()) <= AMERICAN.keys()
    assert float(EUROPEAN["oak"].flat) == 0.0036
    assert float(AMERICAN["white-oak"].flat) == 0.00365


def test_a_wood_may_be_typed_with_spaces_or_by_its_other_name():
    facts = {"width_mm": 100, "from_percent": 8, "to_percent": 10}
    assert movement(species="White Oak", **facts) == movement(species="white-oak", **facts)
    assert movement(species="robinia", **facts) == movement(species="black-locust", **facts)


@pytest.mark.parametrize(
    ("wrong", "say"),
    [
        ({"species": "maple"}, "'maple': give hard-maple or red-maple"),
        ({"species": "beach"}, "give beech"),
        ({"species": ""}, "give one of afzelia, american-beech"),
        ({"species": "jatoba", "cut": "quarter"}, "No quarter-sawn figure is known for jatoba"),
        ({"cut": "rift"}, "Cut 'rift' is not known: give flat or quarter"),
        ({"from_percent": 5.9}, r"Moisture at the start 5\.9 %"),
        ({"to_percent": 14.1}, "give 6 to 14 %"),
        ({"width_mm": 0}, "Board width 0 mm"),
        ({"width_mm": float("nan")}, "finite"),
    ],
)
def test_a_movement_that_is_not_covered_is_refused_by_name(wrong, say):
    facts = {"species": "oak", "width_mm": 180, "from_percent": 9, "to_percent": 7}
    with pytest.raises(Refused, match=say):
        movement(**(facts | wrong))


# US wood-floor association: 4 points for solid strip under 3 in, 2 points from 3 in on.
@pytest.mark.parametrize(
    ("width", "board", "subfloor", "limit", "ok"),
    [
        (57, 8, 12, 4, True),
        (57, 8, 12.1, 4, False),
        (76, 8, 10, 2, True),
        (76, 8, 10.1, 2, False),
        (75.9, 8, 12, 4, True),
        (140, 9, 7, 2, True),
        (180, 7, 10, 2, False),
    ],
)
def test_wide_boards_must_be_closer_to_the_subfloor(width, board, subfloor, limit, ok):
    answer = moisture_gap(board_percent=board, subfloor_percent=subfloor, width_mm=width)
    assert (answer.limit, answer.ok) == (limit, ok)
    assert answer.difference == pytest.approx(abs(board - subfloor))


def test_a_gap_of_just_the_limit_is_not_lost_to_floats():
    assert 8.3 - 6.3 > 2  # what floats make of it
    assert moisture_gap(board_percent=8.3, subfloor_percent=6.3, width_mm=140).ok


def test_a_moisture_of_140_per_cent_is_refused():
    with pytest.raises(Refused, match="Moisture of the subfloor 140 %"):
        moisture_gap(board_percent=9, subfloor_percent=140, width_mm=140)


# 40 boards and 20 subfloor readings per 1000 ft² (US association magazine), in proportion.
@pytest.mark.parametrize(
    ("area", "boards", "subfloor"),
    [(20, 9, 5), (46.5, 21, 11), (92.9, 40, 20), (93, 41, 21), (150, 65, 33), (250, 108, 54)],
)
def test_readings_grow_with_the_floor(area, boards, subfloor):
    answer = gap_readings(area_m2=area)
    assert (answer.boards, answer.subfloor) == (boards, subfloor)
