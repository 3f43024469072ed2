"""What a fitter asks of a lay first: the outer rows, the narrowest strip at any wall, and what is left over."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from store.trade.layout.cuts import left_over
from store.trade.layout.floor import HAIR_MM
from store.trade.layout.footprint import floor_under
from store.trade.layout.inset import Ledge, Spot, ledges_of, turned
from store.trade.layout.lay import Lay, LayRules, Room
from store.trade.layout.rows import rows
from store.trade.layout.strips import some_start_keeps
from store.trade.outline import twice_area_mm2

_STEEPEST = 0.176
"""The tangent of 10°: a wall that runs off by more is met by many rows, and makes no strip."""
_MOST_LEDGES = 400


@dataclass(frozen=True, slots=True, kw_only=True)
class WallStrip:
    """How wide the row is that lies along a wall, at its narrowest, in mm.

    ``wall`` is the wall's place in its ring; ``cut_out`` is None for a wall of the room, else the place of the
    cut-out; ``row`` counts from 0. ``between`` tells that another wall faces it within the row, so that no other start
    of the rows would make the strip wider.
    """

    wall: int
    cut_out: int | None
    row: int
    width_mm: float
    between: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LayFigures:
    """The outer rows of a lay in mm, what a plain start would have made of the last, and the offcuts nobody takes.

    ``last_if_full_mm`` is the last row had the first been a full board; ``at_walls`` begins with the narrowest strip.
    ``some_start_keeps`` tells whether rows could begin so that no wall is left with less than the rules want.
    """

    first_mm: int
    last_mm: int
    last_if_full_mm: float
    at_walls: tuple[WallStrip, ...]
    left_over_mm: tuple[int, ...]
    boards_from_perfect: int
    some_start_keeps: bool


def figures_of(room: Room, lay: Lay, rules: LayRules) -> LayFigures:
    """Return the figures of a lay of this room."""
    floor = floor_under(room, lay)
    across = math.ceil(floor.high - HAIR_MM) - math.floor(floor.low + HAIR_MM)
    plain = rows(across_mm=across, board_mm=lay.board.width_mm, gap_mm=0, least_mm=rules.least_mm)
    widths = [high - low for low, high in lay.row_edges_mm]
    return LayFigures(
        first_mm=widths[0],
        last_mm=widths[-1],
        last_if_full_mm=plain.last_if_full_mm,
        at_walls=strips_at_walls(room, lay),
        left_over_mm=left_over(lay, rules.kerf_mm),
        boards_from_perfect=lay.boards - lay.least_boards,
        some_start_keeps=some_start_keeps(floor, lay.board.width_mm, rules.least_mm),
    )


def strips_at_walls(room: Room, lay: Lay) -> tuple[WallStrip, ...]:
    """Return the strip at every wall that the rows run along, the narrowest first.

    A wall that runs off by more than half a board, or by more than 10°, makes no strip. Where another wall faces it
    within the same row, the strip is what lies between the two.

    >>> from store.trade.layout.lay import BoardSize
    >>> from store.trade.layout.search import lay_room
    >>> room = Room(outline=((0, 0), (4880, 0), (4880, 2290), (0, 2290)), gap_mm=12)
    >>> oak, rules = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6), LayRules(stagger_mm=400)
    >>> [(one.wall, one.row, one.width_mm) for one in strips_at_walls(room, lay_room(room, board=oak, rules=rules))]
    [(2, 11, 176.0), (0, 0, 190.0)]
    """
    by_row: dict[int, list[_Met]] = {}
    for met in _met(room, lay):
        by_row.setdefault(met.row, []).append(met)
    strips = [
        WallStrip(wall=met.wall, cut_out=met.cut_out, row=row, width_mm=round(width, 1), between=between)
        for row, of_row in by_row.items()
        for met in of_row
        for width, between in [_width(met, of_row, lay)]
    ]
    return tuple(sorted(strips, key=lambda strip: (strip.width_mm, strip.cut_out is not None, strip.wall)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Met:
    wall: int
    cut_out: int | None
    row: int
    ledge: Ledge
    left: float
    right: float


def _met(room: Room, lay: Lay) -> Iterator[_Met]:
    """Yield the walls along the rows, each with the row it lies in; no more than 400, the room's own first."""
    found = 0
    for place, ring in enumerate((room.outline, *room.cut_outs)):
        spots = turned(ring, room.outline[0], lay.direction_deg)
        floor_to_left = (twice_area_mm2(ring) > 0) == (place == 0)
        for wall, (a, b) in enumerate(zip(spots, spots[1:] + spots[:1], strict=True)):
            for ledge in _ledges((a, b) if floor_to_left else (b, a), room.gap_mm + (0 if place else room.border_mm)):
                row = _row_at(ledge, lay)
                if row is None or ledge.high - ledge.low >= lay.board.width_mm / 2 or found == _MOST_LEDGES:
                    continue
                found += 1
                left, right = sorted((a[0], b[0]))
                cut_out = place - 1 if place else None
                yield _Met(wall=wall, cut_out=cut_out, row=row, ledge=ledge, left=left, right=right)


def _ledges(wall: tuple[Spot, Spot], gap_mm: int) -> Iterator[Ledge]:
    return ledges_of(wall, gap_mm, _STEEPEST)


def _row_at(ledge: Ledge, lay: Lay) -> int | None:
    inside = ledge.low + 2 * HAIR_MM if ledge.floor_above else ledge.high - 2 * HAIR_MM
    return next((row for row, (low, high) in enumerate(lay.row_edges_mm) if low <= inside <= high), None)


def _width(met: _Met, of_row: list[_Met], lay: Lay) -> tuple[float, bool]:
    low, high = lay.row_edges_mm[met.row]
    facing = [
        one.ledge
        for one in of_row
        if one.ledge.floor_above != met.ledge.floor_above and one.left < met.right and met.left < one.right
    ]
    if met.ledge.floor_above:
        top = min((one.low for one in facing if one.low > met.ledge.high), default=float(high))
        return max(0.0, min(top, high) - met.ledge.high), top < high
    bottom = max((one.high for one in facing if one.high < met.ledge.low), default=float(low))
    return max(0.0, met.ledge.low - max(bottom, low)), bottom > low
