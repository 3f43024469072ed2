"""A room as the tape gives it: walks that nearly close, slants and bays, four sides with their diagonals."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon

from store.errors import Refused
from store.trade.outline import rectangle
from store.trade.squareness import four_sided
from store.trade.walk import walked
from store.trade.walls import wall_letter, wall_of_letter

sides = st.integers(1_500, 12_000)


def test_a_walk_that_closes_has_no_error():
    walk = walked("5200 right, 4100 up, 5200 left, 4100 down")
    assert (walk.ring, walk.off_mm) == (rectangle(5200, 4100), 0)


@given(sides, sides, st.integers(-7, 7), st.integers(-7, 7))
def test_a_small_error_is_shared_out_and_right_angles_stay_right(long, wide, off_x, off_y):
    walk = walked(f"{long + off_x} right, {wide + off_y} up, {long} left, {wide} down")
    assert (walk.off_x_mm, walk.off_y_mm) == (off_x, off_y)
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = walk.ring
    assert (ay, by - cy, bx - cx, ax, dx, cy - dy) == (by, by - cy, 0, 0, 0, 0)
    assert abs((bx - ax) - long) <= 7
    assert abs((cy - by) - wide) <= 7


@given(st.lists(st.tuples(st.integers(-6000, 6000), st.integers(-6000, 6000)), min_size=3, max_size=9))
def test_whatever_the_error_no_wall_is_changed_by_more_than_its_share(corners):
    assume(all(a != b for a, b in zip(corners, corners[1:] + corners[:1], strict=True)))
    ways = [(bx - ax, by - ay) for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)]
    ways[-1] = (ways[-1][0] + 6, ways[-1][1] - 5)
    steps = [
        f"{abs(x)} {'right' if x > 0 else 'left'}" + (f" and {abs(y)} {'up' if y > 0 else 'down'}" if y else "")
        if x
        else f"{abs(y)} {'up' if y > 0 else 'down'}"
        for x, y in ways
        if (x, y) != (0, 0)
    ]
    assume(len(steps) == len(ways))
    walk = walked("; ".join(steps))
    drawn = [(bx - ax, by - ay) for (ax, ay), (bx, by) in zip(walk.ring, walk.ring[1:] + walk.ring[:1], strict=True)]
    for (x, y), (drawn_x, drawn_y) in zip(ways, drawn, strict=True):
        assert abs(x - drawn_x) <= 7
        assert abs(y - drawn_y) <= 7


def test_a_bay_is_walked_by_its_legs_or_by_its_angles():
    by_legs = "1000 right, 300 right and 300 down, 1000 r, 300 r + 300 u, 1000 right, 3000 up, 3600 left, 3000 down"
    by_angles = "1000 right, 424 at -45, 1000 right, 424 at 45°, 1000 right, 3000 up, 3600 left, 3000 down"
    bay = ((0, 0), (1000, 0), (1300, -300), (2300, -300), (2600, 0), (3600, 0), (3600, 3000), (0, 3000))
    assert walked(by_legs).ring == walked(by_angles).ring == bay


def test_a_walk_that_is_off_by_more_than_the_tape_says_which_step_would_close_it():
    with pytest.raises(Refused, match=r"60 mm to the right of the start.*step 1 were 5200 or step 3 were 5260"):
        walked("5260 right, 4100 up, 5200 left, 4100 down")


@pytest.mark.parametrize("step", ["300 right and 300 right", "300 up and 20 down", "0 at 45", "424 at", "4 and 4 up"])
def test_a_slant_that_cannot_be_is_refused_by_its_number(step):
    with pytest.raises(Refused, match="Step 2 of the walk"):
        walked(f"5200 right, {step}, 5200 left")


def test_a_right_triangle_of_three_four_five_makes_a_square_room():
    room = four_sided([4000, 3000], [5000, 5000])
    assert (room.ring, room.out_of_square_mm, room.residual_mm) == (rectangle(4000, 3000), 0, 0.0)


def test_a_room_that_leans_is_drawn_as_it_leans():
    room = four_sided([5200, 4100], [6622, 6610])
    assert room.ring[2][0] - 5200 == room.ring[3][0] == room.out_of_square_mm == 8


corners = st.tuples(
    st.tuples(st.integers(-300, 300), st.integers(-300, 300)),
    st.tuples(st.integers(3000, 5000), st.just(0)),
    st.tuples(st.integers(3000, 5000), st.integers(2500, 5000)),
    st.tuples(st.integers(-300, 300), st.integers(2500, 5000)),
)


@given(corners)
def test_sides_and_diagonals_of_any_four_corners_give_the_room_back(found):
    shape = Polygon(found)
    assume(shape.is_valid and shape.equals(shape.convex_hull))
    a, b, c, d = found
    sides_mm = [round(math.dist(*pair)) for pair in ((a, b), (b, c), (c, d), (d, a))]
    room = four_sided(sides_mm, [round(math.dist(a, c)), round(math.dist(b, d))])
    assert room.residual_mm <= 4
    assert math.isclose(Polygon(room.ring).area, shape.area, rel_tol=0.002)


@pytest.mark.parametrize(
    ("sides_mm", "diagonals_mm", "said"),
    [
        ([4000], [5000, 5000], "two or four sides"),
        ([4000, 3000], [5000], "both diagonals"),
        ([4000, 0], [5000, 5000], "more than 0"),
        ([4000, 3000], [900, 5000], "make no triangle"),
        ([4000, 3000], [7100, 5000], "make no triangle"),
        ([4000, 3000], [5000, 4900], "would be 5000 mm, not 4900"),
    ],
)
def test_sizes_that_do_not_go_together_are_refused_with_what_to_measure_again(sides_mm, diagonals_mm, said):
    with pytest.raises(Refused, match=said):
        four_sided(sides_mm, diagonals_mm)


@given(st.integers(0, 18_000))
def test_a_walls_letter_is_read_back_as_the_wall(index):
    assert wall_of_letter(wall_letter(index)) == index
    assert wall_of_letter(wall_letter(index).lower()) == index


@pytest.mark.parametrize("typed", ["", "ABCD", "1", "Å", "A1", " "])
def test_what_is_no_letter_of_a_wall_is_none(typed):
    assert wall_of_letter(typed) is None
