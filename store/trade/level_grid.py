"""What a grid of heights says of a floor: the gap a straightedge would find, the high and the low spot, the fill.

**The problem.** A laser gives heights on a grid; the rule speaks of the gap under a straightedge. A straightedge laid
along a line of points rests on the highest of them: what lies under it is the line's upper hull, and the gap is the
hull less the floor.

     ────•━━━━━━━━━━━━━━━━━━•────   the straightedge rests on two points
         │╲    gap         ╱
         │  ╲___     ____╱          the floor between them
               ╲___╱

**Method.** Along each row, each column and each diagonal the straightedge is begun at every point and laid over as many
further ones as its length reaches; of each such stretch the upper hull is found in one pass. Tilting or lifting the
whole floor changes no gap. What lies between the points nobody has read, so a grid can prove a floor uneven, never
even.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from store.trade.flatness import STRAIGHTEDGE_MM, Smoothing, smoothing
from store.trade.readings import LevelGrid

Point = tuple[float, float, int, int]
"""How far along a line of points, mm; how high, mm; its row; its place in the row."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A point of the grid: its row and its place in the row, both from 0, and its figure in mm."""

    row: int
    column: int
    mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class GridSum:
    """What a grid comes to: its highest and its lowest point, mm from the one to the other, the widest gap.

    ``gap`` is the one under a 2 m straightedge, None where none can be told. ``fill_mm`` is how deep compound would lie
    on average to bring the floor up to its highest point, ``compound`` how much that is; None where nothing is to fill.
    ``unread`` counts the points that could not be read.
    """

    high: Spot
    low: Spot
    fall_mm: float
    gap: Spot | None
    fill_mm: float
    compound: Smoothing | None
    unread: int


def sum_of_grid(grid: LevelGrid, area_mm2: int) -> GridSum:
    """Return what the heights read in a room of an area come to."""
    read = _read(grid)
    high = max(read, key=lambda one: (one.mm, -one.row, -one.column))
    low = min(read, key=lambda one: (one.mm, one.row, one.column))
    fill = mean_fill_mm(grid)
    compound = smoothing(area_m2=Fraction(area_mm2, 1_000_000), depth_mm=fill) if fill > 0 else None
    unread = sum(one is None for row in grid.heights_mm for one in row)
    return GridSum(
        high=high,
        low=low,
        fall_mm=round(high.mm - low.mm, 9),
        gap=worst_gap(grid),
        fill_mm=fill,
        compound=compound,
        unread=unread,
    )


def depths_mm(grid: LevelGrid) -> tuple[tuple[float | None, ...], ...]:
    """Return how far each point lies under the highest, mm; None where it could not be read."""
    top = max(one.mm for one in _read(grid))
    return tuple(tuple(None if one is None else round(top - one, 9) for one in row) for row in grid.heights_mm)


@lru_cache(maxsize=64)  # a floor is asked about many times a minute, and the largest grid takes a second
def worst_gap(grid: LevelGrid, span_mm: int = STRAIGHTEDGE_MM) -> Spot | None:
    """Return the widest gap under a straightedge of a length, and the point it lies at; None if none can be laid.

    None means that the points stand so far apart, or so few are read, that no three in line lie under it.

    >>> worst_gap(LevelGrid(spacing_mm=500, heights_mm=((0, -1, -4, -1, 0),)))
    Spot(row=0, column=2, mm=4.0)
    """
    found = [gap for line in _lines(grid) for gap in _gaps_along(line, span_mm)]
    return max(found, key=lambda one: (one.mm, -one.row, -one.column), default=None)


def mean_fill_mm(grid: LevelGrid) -> float:
    """Return how deep compound would lie on average to bring the floor up to its highest point, mm.

    >>> mean_fill_mm(LevelGrid(spacing_mm=1000, heights_mm=((0, 2), (4, 2))))
    2.0
    """
    read = [one.mm for one in _read(grid)]
    return round(max(read) - math.fsum(read) / len(read), 9)


def _read(grid: LevelGrid) -> list[Spot]:
    return [
        Spot(row=row, column=column, mm=mm)
        for row, heights in enumerate(grid.heights_mm)
        for column, mm in enumerate(heights)
        if mm is not None
    ]


def _lines(grid: LevelGrid) -> Iterator[list[Point]]:
    """Yield the points that were read along every row, column and diagonal."""
    rows, columns = len(grid.heights_mm), len(grid.heights_mm[0])
    starts = {
        (0, 1): [(row, 0) for row in range(rows)],
        (1, 0): [(0, column) for column in range(columns)],
        (1, 1): [*((0, column) for column in range(columns)), *((row, 0) for row in range(1, rows))],
        (1, -1): [*((0, column) for column in range(columns)), *((row, columns - 1) for row in range(1, rows))],
    }
    for (down, across), begins in starts.items():
        step = grid.spacing_mm * math.hypot(down, across)
        for row, column in begins:
            yield [
                (count * step, float(mm), row + count * down, column + count * across)
                for count in range(max(rows, columns))
                if row + count * down < rows and 0 <= column + count * across < columns
                if (mm := grid.heights_mm[row + count * down][column + count * across]) is not None
            ]


def _gaps_along(line: Sequence[Point], span_mm: int) -> Iterator[Spot]:
    for first in range(len(line) - 2):
        under = [point for point in line[first:] if point[0] - line[first][0] <= span_mm]
        hull = _upper_hull(under)
        edge = 0
        for along, mm, row, column in under if len(under) > 2 else ():
            while hull[edge + 1][0] < along:
                edge += 1
            (left, low, *_), (right, high, *_) = hull[edge], hull[edge + 1]
            resting = low + (high - low) * (along - left) / (right - left)
            yield Spot(row=row, column=column, mm=max(0.0, round(resting - mm, 9)))


def _upper_hull(points: Sequence[Point]) -> list[Point]:
    hull: list[Point] = []
    for point in points:
        while len(hull) > 1 and _bends_up(hull[-2], hull[-1], point):
            hull.pop()
        hull.append(point)
    return hull


def _bends_up(one: Point, two: Point, three: Point) -> bool:
    """Whether the middle point lies on or under the line between the others."""
    return (two[0] - one[0]) * (three[1] - one[1]) >= (two[1] - one[1]) * (three[0] - one[0])
