"""A grid of levels says what gap a straightedge would find, where the floor is high and low, and what fills it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import ConvexHull, QhullError

from store.trade.level_grid import depths_mm, mean_fill_mm, sum_of_grid, worst_gap
from store.trade.readings import LEAST_POINTS, LONGEST_SIDE, LevelGrid, problems_with_measure

heights = st.integers(-40, 40).map(lambda tenths: tenths / 10)


def a_grid(*rows: tuple[float | None, ...], spacing: int = 500) -> LevelGrid:
    return LevelGrid(spacing_mm=spacing, heights_mm=rows)


def gap_of(grid: LevelGrid) -> float:
    found = worst_gap(grid)
    assert found is not None
    return found.mm


def grids(least: int = 1, most: int = 6) -> st.SearchStrategy[LevelGrid]:
    rows = st.integers(3, most).flatmap(
        lambda wide: st.lists(st.lists(heights, min_size=wide, max_size=wide).map(tuple), min_size=least, max_size=most)
    )
    return st.builds(LevelGrid, spacing_mm=st.sampled_from([250, 400, 500, 1000]), heights_mm=rows.map(tuple))


def test_a_dip_in_the_middle_is_the_gap_under_the_straightedge_that_spans_it() -> None:
    assert gap_of(a_grid((0, -1, -4, -1, 0))) == 4


def test_a_hump_makes_no_gap_under_itself_but_beside_it_where_the_next_point_carries_the_other_end() -> None:
    # Points 0 and 3 at 0, the hump of 3 between: the edge from the hump down to the last point leaves 1 mm at half way.
    assert gap_of(a_grid((0, 3, 0.5, 0), spacing=500)) == 1


def test_a_sloping_floor_is_flat() -> None:
    assert gap_of(a_grid((0, 5, 10, 15), (5, 10, 15, 20))) == 0


def test_a_straightedge_is_no_longer_than_it_is() -> None:
    # Six points 500 mm apart are 2.5 m long: a 2 m straightedge begins at the one end or ends at the other.
    long_dip = a_grid((5, 0, 0, 0, 0, 5))
    assert gap_of(long_dip) == 3.75
    assert worst_gap(long_dip, 2500) is not None
    assert worst_gap(long_dip, 2500).mm == 5  # type: ignore[union-attr]


def test_a_dip_that_only_a_slanting_straightedge_crosses_is_found() -> None:
    cross = a_grid((2, 0, 2), (0, -1, 0), (2, 0, 2), spacing=400)
    found = worst_gap(cross)
    assert found is not None
    assert (found.mm, found.row, found.column) == (3, 1, 1)


def test_points_too_far_apart_tell_no_gap() -> None:
    assert worst_gap(a_grid((0, -9, 0), spacing=1500)) is None
    assert worst_gap(a_grid((0, None, 0, None, 0), spacing=600)) is None


def test_a_point_that_could_not_be_read_carries_nothing_and_is_passed_over() -> None:
    assert gap_of(a_grid((0, None, -4, -1, 0))) == 4
    assert sum_of_grid(a_grid((0, None, -4, -1, 0)), 1_000_000).unread == 1


@given(grids(), st.floats(-3, 3), st.floats(-3, 3), st.integers(-500, 500))
def test_tilting_or_lifting_the_whole_floor_changes_no_gap(
    grid: LevelGrid, down: float, across: float, up: int
) -> None:
    tilted = tuple(
        tuple(mm + row * down + column * across + up for column, mm in enumerate(line))
        for row, line in enumerate(grid.heights_mm)
        for line in [tuple(one for one in line if one is not None)]
    )
    before, after = worst_gap(grid), worst_gap(LevelGrid(spacing_mm=grid.spacing_mm, heights_mm=tilted))
    assert (before is None) == (after is None)
    if before is not None and after is not None:
        assert after.mm == pytest.approx(before.mm, abs=1e-6)


@given(grids())
def test_a_longer_straightedge_never_finds_a_smaller_gap(grid: LevelGrid) -> None:
    gaps = [found.mm if (found := worst_gap(grid, span)) else -1 for span in (1000, 1500, 2000, 3000)]
    assert gaps == sorted(gaps)


@given(grids(most=8), st.sampled_from([1000, 2000, 4000]))
def test_along_one_row_the_gap_is_that_under_scipys_hull(grid: LevelGrid, span: int) -> None:
    row = grid.heights_mm[0]
    expected = [gap for first in range(len(row)) for gap in hull_gaps(row[first:], grid.spacing_mm, span)]
    found = worst_gap(LevelGrid(spacing_mm=grid.spacing_mm, heights_mm=(row,)), span)
    assert (found.mm if found else 0) == pytest.approx(max(expected, default=0), abs=1e-6)


def hull_gaps(row: tuple[float | None, ...], spacing: int, span: int) -> list[float]:
    """Gaps under the upper hull that scipy's Qhull finds over the points within one span."""
    points = [(place * spacing, mm) for place, mm in enumerate(row) if mm is not None and place * spacing <= span]
    if len(points) < 3:
        return []
    try:
        edges = ConvexHull(points).simplices
    except QhullError:  # all in one line
        return [0.0]
    tops = []
    for x, y in points:
        over = [
            low + (high - low) * (x - left) / (right - left)
            for (left, low), (right, high) in (sorted((points[a], points[b])) for a, b in edges)
            if left <= x <= right and left != right
        ]
        tops.append(max(over, default=y) - y)
    return tops


def test_what_fills_a_floor_is_the_mean_depth_under_its_highest_point() -> None:
    # By hand: depths 3, 2, 1, 0 are 1.5 mm on average; 20 m² × 1.5 mm × 1.7 kg = 51 kg, three bags of 25 kg.
    grid = a_grid((0, 1), (2, 3))
    assert depths_mm(grid) == ((3, 2), (1, 0))
    assert mean_fill_mm(grid) == 1.5
    found = sum_of_grid(grid, 20_000_000)
    assert found.compound is not None
    assert (found.compound.kg, found.compound.bags) == (pytest.approx(51), 3)
    assert ((found.high.row, found.high.column), (found.low.row, found.low.column)) == ((1, 1), (0, 0))
    assert found.fall_mm == 3


def test_a_level_floor_takes_no_compound() -> None:
    assert sum_of_grid(a_grid((1, 1), (1, 1)), 20_000_000).compound is None


@pytest.mark.parametrize(
    ("rows", "says"),
    [
        ((), "3 read points or more"),
        (((0.0, 1.0),), "3 read points or more"),
        (((0.0, None, None, 1.0),), "3 read points or more"),
        (((0.0, 1.0, 2.0), (0.0, 1.0)), "Row 2 has 2 points, row 1 has 3; write - for a missing one."),
        (((0.0, 1.0, math.nan),), "A height is from"),
        (((0.0, 1.0, 20_000.0),), "A height is from"),
        (((0.0,) * (LONGEST_SIDE + 1),), "at most 60 rows of 60 points"),
    ],
)
def test_a_grid_that_is_none_is_said_to_be_none(rows: tuple[tuple[float | None, ...], ...], says: str) -> None:
    assert LEAST_POINTS == 3
    (problem,) = problems_with_measure(a_grid(*rows))
    assert problem.field == "heights_mm"
    assert says in problem.say
