"""A room's outline: area, walls, faults and walks, held against a geometry library."""

import math
import random
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from store.errors import Refused
from store.trade.outline import (
    Ring,
    faults_in_outline,
    net_area_mm2,
    perimeter_mm,
    rectangle,
    twice_area_mm2,
)
from store.trade.walk import walked

ROOM = rectangle(5200, 4100)
L_SHAPED: Ring = ((0, 0), (4240, 0), (4240, 1610), (2720, 1610), (2720, 2830), (0, 2830))

corner = st.tuples(st.integers(-40, 40), st.integers(-40, 40))
any_ring = st.lists(corner, min_size=3, max_size=9).map(tuple)


def in_order_round_the_middle(corners: list[tuple[int, int]]) -> Ring:
    x, y = (sum(side) / len(corners) for side in zip(*corners, strict=True))
    return tuple(sorted(corners, key=lambda c: (math.atan2(c[1] - y, c[0] - x), math.dist(c, (x, y)))))


coarse = st.tuples(st.integers(-6, 6), st.integers(-6, 6))
sound_ring = (
    st.lists(coarse, min_size=3, max_size=9, unique=True)
    .map(in_order_round_the_middle)
    .filter(lambda ring: not faults_in_outline(ring))
)


@given(any_ring)
@settings(max_examples=300, deadline=None)
def test_an_outline_is_faultless_exactly_when_a_geometry_library_calls_it_valid(ring):
    repeated = any(a == b for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    polygon = Polygon(ring)
    sound = polygon.is_valid and polygon.area > 0 and not repeated
    assert (faults_in_outline(ring) == ()) == sound


@given(sound_ring)
@settings(max_examples=200, deadline=None)
def test_area_and_perimeter_agree_with_a_geometry_library(ring):
    assert abs(twice_area_mm2(ring)) == 2 * Polygon(ring).area
    assert math.isclose(perimeter_mm(ring), Polygon(ring).length)


@given(sound_ring, sound_ring, st.tuples(st.integers(-4, 4), st.integers(-4, 4)), st.integers(1, 3))
@settings(max_examples=400, deadline=None)
def test_a_cut_out_is_accepted_exactly_when_the_outline_covers_it_and_floor_is_left(ring, hole, shift, times):
    ring = tuple((x * times, y * times) for x, y in ring)
    hole = tuple((x + shift[0], y + shift[1]) for x, y in hole)
    room, cut = Polygon(ring), Polygon(hole)
    sound = room.covers(cut) and room.area > cut.area
    assert (faults_in_outline(ring, (hole,)) == ()) == sound


@given(sound_ring, sound_ring)
@settings(max_examples=300, deadline=None)
def test_two_cut_outs_are_accepted_exactly_when_they_share_no_floor(one, other):
    outline = ((-100, -100), (100, -100), (100, 100), (-100, 100))
    sound = Polygon(one).intersection(Polygon(other)).area == 0
    assert (faults_in_outline(outline, (one, other)) == ()) == sound
    if sound:
        left = Polygon(outline).area - Polygon(one).area - Polygon(other).area
        assert net_area_mm2(outline, (one, other)) == math.ceil(left)


def test_corners_may_run_either_way_round():
    assert net_area_mm2(L_SHAPED) == net_area_mm2(L_SHAPED[::-1]) == 4240 * 1610 + 2720 * 1220
    assert faults_in_outline(L_SHAPED[::-1]) == ()


def test_half_a_square_millimetre_is_rounded_up():
    assert net_area_mm2(((0, 0), (1, 0), (0, 1))) == 1


def test_a_crossing_outline_names_both_walls_with_their_corners():
    (fault,) = faults_in_outline(((0, 0), (4000, 0), (0, 3000), (4000, 3500)))
    assert fault == (
        "Wall D (3) of the outline, from (4000, 3500) to (0, 0), crosses wall B (1), from (4000, 0) to (0, 3000)."
    )


def test_an_outline_that_touches_itself_is_refused():
    ring = ((0, 0), (4000, 0), (4000, 3000), (2000, 0), (0, 3000))
    assert "touches wall A (0)" in faults_in_outline(ring)[0]


@pytest.mark.parametrize(
    ("ring", "word"),
    [
        (((0, 0), (10, 0)), "three corners"),
        (((0, 0), (10, 0), (10, 0), (0, 10)), "Corners 1 and 2"),
        (((0, 0), (10, 0), (10, 10), (0, 0)), "Corners 3 and 0"),
        (((0, 0), (10, 0), (20, 0)), "doubles back"),
        (((0, 0), (10, 0), (10, 10), (10, 5), (0, 5)), "doubles back"),
        (((0, 0), (1_000_001, 0), (0, 10)), "more than a kilometre"),
    ],
)
def test_each_other_fault_has_its_sentence(ring, word):
    assert word in faults_in_outline(ring)[0]


def test_a_corner_in_the_middle_of_a_straight_wall_is_no_fault():
    assert faults_in_outline(((0, 0), (2000, 0), (4000, 0), (4000, 3000), (0, 3000))) == ()


def test_a_hearth_may_stand_against_the_wall_but_not_reach_through_it():
    hearth = ((1000, 0), (2000, 0), (2000, 500), (1000, 500))
    through = ((1000, -1), (2000, -1), (2000, 500), (1000, 500))
    assert faults_in_outline(ROOM, (hearth,)) == ()
    assert "Cut-out 0" in faults_in_outline(ROOM, (through,))[0]


def test_a_cut_out_elsewhere_or_as_large_as_the_room_is_refused():
    assert "outside" in faults_in_outline(ROOM, (((6000, 0), (7000, 0), (7000, 500)),))[0]
    assert faults_in_outline(ROOM, (ROOM,)) == ("The cut-outs leave no floor.",)


def test_ten_thousand_corners_are_refused_at_once():
    ring = tuple((i, i * i % 7919) for i in range(10_000))
    began = time.perf_counter()
    assert "2,000 corners" in faults_in_outline(ring)[0]
    assert time.perf_counter() - began < 0.1


def test_two_thousand_tangled_corners_are_judged_within_seconds():
    tangle = random.Random(4)
    ring = tuple((tangle.randrange(10_000), tangle.randrange(10_000)) for _ in range(2_000))
    star = tuple(
        (round(9_000 * math.cos(a / 2000 * math.tau)), round(9_000 * math.sin(a / 2000 * math.tau)))
        for a in range(2_000)
    )
    began = time.perf_counter()
    assert len(faults_in_outline(ring)) == 12
    assert faults_in_outline(star) == ()
    assert time.perf_counter() - began < 4


def test_a_walk_that_misses_the_start_says_by_how_much():
    with pytest.raises(Refused, match="ends 32 mm to the right of and 3 mm above the start"):
        walked("5232 right, 4103 up, 5200 left, 4100 down")
    with pytest.raises(Refused, match="ends 40 mm below the start"):
        walked("5200 right; 4100 u; 5200 l; 4140 d")


@pytest.mark.parametrize(
    "text", ["", "5200 right", "5200 sideways, 1 up, 1 down", "0 right, 1 up, 1 down", "1 up," * 3000]
)
def test_a_walk_that_cannot_be_read_is_refused(text):
    with pytest.raises(Refused):
        walked(text)


@given(st.integers(1, 90_000), st.integers(1, 90_000))
def test_a_walk_round_a_rectangle_draws_it(length_mm, width_mm):
    walk = f"{length_mm} right\n{width_mm} up\n{length_mm} mm LEFT\n{width_mm} down"
    assert walked(walk).ring == rectangle(length_mm, width_mm)


def test_a_rectangle_without_a_side_is_refused():
    with pytest.raises(Refused):
        rectangle(0, 4100)
