"""Cutting the floor into rows, and every row into the runs that boards are laid in."""

import math
from bisect import bisect_right
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from store.errors import Refused
from store.trade.layout.floor import HAIR_MM, Floor
from store.trade.layout.inset import Ledge

MOST_ROWS = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One unbroken stretch of a row, in whole mm along the row, from wall to wall."""

    row: int
    left_mm: int
    right_mm: int

    @property
    def length_mm(self) -> int:
        return self.right_mm - self.left_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """The rows in laying order (each from its lower to its upper edge in whole mm) and their runs."""

    edges_mm: tuple[tuple[int, int], ...]
    runs: tuple[Run, ...]


def strips_of(floor: Floor, width_mm: int, least_mm: int, line_mm: int | None = None) -> Strips:
    """Return the rows of a floor and their runs, the first row on the start wall.

    A row that lies against a wall is ripped to what is left there. A full first board is preferred; the
    rows move only where a wall would be left with a strip narrower than ``least_mm``. Then they lie so that
    the first and the last row keep ``least_mm`` if that can be done, and the narrowest strip at any wall is
    as wide as it can be (for a room with four walls: both rows equally wide, the trade's usual rule).
    Without a start wall the lower or the upper wall is taken, whichever needs less board. A floor narrower
    than one board is one row. Where a line is given, an edge between two rows lies on it, whatever that leaves at the
    walls: rows run on from the next room.

    Raises:
        Refused: more rows than can be laid in one go.

    Source: common practice, no published source.
    """
    low, high = math.floor(floor.low + HAIR_MM), math.ceil(floor.high - HAIR_MM)
    if high - low > MOST_ROWS * width_mm:
        raise Refused(f"This floor has more than {MOST_ROWS:,} rows; lay it in fields.")
    if high - low <= width_mm:
        return _cut(floor, [(low, high)], upward=floor.start is None or floor.start.floor_above)
    if line_mm is not None:
        upward = floor.start is None or floor.start.floor_above
        return _cut(floor, _edges(low, high, width_mm, line_mm % width_mm), upward=upward)
    if floor.start is not None:
        phase = _phase(floor, floor.start, width_mm, least_mm)
        return _cut(floor, _edges(low, high, width_mm, phase), upward=floor.start.floor_above)
    walls = (Ledge(low=low, high=low, floor_above=True), Ledge(low=high, high=high, floor_above=False))
    both = []
    for wall in walls:
        phase = _phase(floor, wall, width_mm, least_mm)
        strips = _cut(floor, _edges(low, high, width_mm, phase), upward=wall.floor_above)
        moved = phase != _full_first(wall, width_mm)
        both.append((moved, sum(run.length_mm for run in strips.runs), not wall.floor_above, strips))
    return min(both, key=lambda way: way[:3])[3]


def some_start_keeps(floor: Floor, width_mm: int, least_mm: int) -> bool:
    """Tell whether rows could begin so that no wall along them is left with a strip narrower than ``least_mm``."""
    ledges = [ledge for ledge in floor.ledges if ledge.high - ledge.low < width_mm / 2]
    return any(_narrowest(ledges, phase, width_mm) >= least_mm for phase in range(width_mm))


def _full_first(wall: Ledge, width_mm: int) -> int:
    return (math.floor(wall.low + HAIR_MM) if wall.floor_above else math.ceil(wall.high - HAIR_MM)) % width_mm


def _phase(floor: Floor, wall: Ledge, width_mm: int, least_mm: int) -> int:
    """Return where rows begin, as a remainder by the board's width."""
    wanted = _full_first(wall, width_mm)
    ledges = [ledge for ledge in floor.ledges if ledge.high - ledge.low < width_mm / 2]
    if _narrowest(ledges, wanted, width_mm) >= least_mm:
        return wanted
    outermost = [ledge for ledge in ledges if _at_the_end(floor, ledge, 1)]
    outer_rows = [ledge for ledge in ledges if _at_the_end(floor, ledge, width_mm)]

    def merit(phase: int) -> tuple[float, float, float, float, bool]:
        first_and_last = _narrowest(outermost, phase, width_mm)
        return (
            min(first_and_last, least_mm),
            min(_narrowest(outer_rows, phase, width_mm), least_mm),
            _narrowest(ledges, phase, width_mm),
            first_and_last,
            phase == wanted,
        )

    return max(range(0, width_mm, max(1, width_mm // 2_000)), key=merit)


def _at_the_end(floor: Floor, ledge: Ledge, within_mm: int) -> bool:
    if ledge.floor_above:
        return ledge.low < floor.low + within_mm
    return ledge.high > floor.high - within_mm


def _narrowest(ledges: Iterable[Ledge], phase: int, width_mm: int) -> float:
    return min((_strip(ledge, phase, width_mm) for ledge in ledges), default=math.inf)


def _strip(ledge: Ledge, phase: int, width_mm: int) -> float:
    """Return how wide the row is that lies along a wall, where it is narrowest."""
    if ledge.floor_above:
        below = (ledge.low - phase + HAIR_MM) % width_mm - HAIR_MM
    else:
        below = (phase - ledge.high + HAIR_MM) % width_mm - HAIR_MM
    return max(0.0, width_mm - below - (ledge.high - ledge.low))


def _edges(low: int, high: int, width_mm: int, phase: int) -> list[tuple[int, int]]:
    first = low + ((phase - low) % width_mm or width_mm)
    lines = [low, *range(first, high, width_mm), high]
    return list(pairwise(lines))


def _cut(floor: Floor, edges: list[tuple[int, int]], *, upward: bool) -> Strips:
    spans: list[list[tuple[int, int]]] = [[] for _ in edges]
    upper_edges = [high for _, high in edges]
    for slab in floor.slabs:
        row = bisect_right(upper_edges, slab.low)
        while row < len(edges) and edges[row][0] < slab.high:
            span = slab.between(*edges[row])
            if span is not None:
                spans[row].append((math.floor(span[0] + HAIR_MM), math.ceil(span[1] - HAIR_MM)))
            row += 1
    if not upward:
        edges, spans = edges[::-1], spans[::-1]
    runs = tuple(
        Run(row=row, left_mm=left, right_mm=right)
        for row, of_row in enumerate(spans)
        for left, right in _joined(sorted(of_row))
    )
    return Strips(edges_mm=tuple(edges), runs=runs)


def _joined(spans: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Join spans that overlap or touch: one board lies across them all."""
    joined: list[tuple[int, int]] = []
    for left, right in spans:
        if joined and left <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(right, joined[-1][1]))
        else:
            joined.append((left, right))
    return joined
