"""Where each piece lies on the floor, to its true shape at walls that stand aslant or inside a row."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from store.trade.layout.floor import Floor, Slab, floor_of_room
from store.trade.layout.inset import Spot
from store.trade.layout.lay import Lay, Piece, Room

_PER_MM = 1000
_Point = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Footprint:
    """The floor that one piece covers: rings of spots in mm, in the frame of the rows; holes run backwards."""

    piece: Piece
    rings: tuple[tuple[Spot, ...], ...]

    @property
    def area_mm2(self) -> float:
        """The floor covered, mm² (shoelace formula, textbook)."""
        return sum((ax * by - bx * ay) / 2 for ring in self.rings for (ax, ay), (bx, by) in pairwise((*ring, ring[0])))

    @property
    def middle(self) -> Spot | None:
        """The centre of gravity of the floor covered (textbook); None where nothing is covered."""
        area, x, y = 0.0, 0.0, 0.0
        for ring in self.rings:
            for (ax, ay), (bx, by) in pairwise((*ring, ring[0])):
                twice = ax * by - bx * ay
                area, x, y = area + twice * 3, x + (ax + bx) * twice, y + (ay + by) * twice
        return (x / area, y / area) if area > 1 else None


def floor_under(room: Room, lay: Lay) -> Floor:
    """Return the floor that a lay of this room covers, in the frame of its rows."""
    return floor_of_room(replace(room, direction_deg=lay.direction_deg, start=None))


def footprints(floor: Floor, lay: Lay) -> tuple[Footprint, ...]:
    """Return what every piece of a lay covers, in the lay's order.

    1. The slabs of the floor are cut to the piece's row, and to the piece's two ends.
    2. What slabs of one piece have in common, the level lines between them, is taken away.
    3. The lines left over are strung together into rings.

    Spots are kept to the thousandth of a millimetre, so that lines which meet are found to meet.
    """
    by_row = [[slab for slab in floor.slabs if slab.low < high and slab.high > low] for low, high in lay.row_edges_mm]
    return tuple(
        Footprint(
            piece=piece,
            rings=tuple(_rings(_lines(_parts(by_row[piece.row], piece, lay.row_edges_mm[piece.row])))),
        )
        for piece in lay.pieces
    )


def _parts(slabs: Iterable[Slab], piece: Piece, edges: tuple[int, int]) -> Iterator[list[_Point]]:
    for slab in slabs:
        if max(slab.right_low, slab.right_high) <= piece.from_mm or min(slab.left_low, slab.left_high) >= piece.to_mm:
            continue
        corners = [
            (slab.left_low, slab.low),
            (slab.right_low, slab.low),
            (slab.right_high, slab.high),
            (slab.left_high, slab.high),
        ]
        for axis, limit, sign in ((1, edges[0], 1), (1, edges[1], -1), (0, piece.from_mm, 1), (0, piece.to_mm, -1)):
            corners = _clipped(corners, axis, limit, sign)
        points = [(round(x * _PER_MM), round(y * _PER_MM)) for x, y in corners]
        around = [one for one, before in zip(points, points[-1:] + points[:-1], strict=True) if one != before]
        if len(around) > 2:
            yield around


def _clipped(corners: list[Spot], axis: int, limit: float, sign: int) -> list[Spot]:
    """Return the part of a convex ring on one side of a line along an axis (Sutherland–Hodgman, textbook)."""
    kept: list[Spot] = []
    for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
        one, other = sign * (here[axis] - limit), sign * (there[axis] - limit)
        if one >= 0:
            kept.append(here)
        if one * other < 0:
            share = one / (one - other)
            crossing = [here[0] + share * (there[0] - here[0]), here[1] + share * (there[1] - here[1])]
            crossing[axis] = limit
            kept.append((crossing[0], crossing[1]))
    return kept


def _lines(parts: Iterable[list[_Point]]) -> list[tuple[_Point, _Point]]:
    """Return the lines round all parts together: level lines that two parts share cancel out."""
    lines: list[tuple[_Point, _Point]] = []
    level: dict[int, list[tuple[int, int]]] = {}
    for part in parts:
        for a, b in zip(part, part[1:] + part[:1], strict=True):
            if a[1] == b[1]:
                level.setdefault(a[1], []).append((a[0], b[0]))
            else:
                lines.append((a, b))
    for y, stretches in level.items():
        for left, right in pairwise(sorted({x for stretch in stretches for x in stretch})):
            net = sum((a <= left and b >= right) - (b <= left and a >= right) for a, b in stretches)
            if net:
                lines.append(((left, y), (right, y)) if net > 0 else ((right, y), (left, y)))
    return lines


def _rings(lines: list[tuple[_Point, _Point]]) -> Iterator[tuple[Spot, ...]]:
    onward: dict[_Point, list[_Point]] = {}
    for a, b in lines:
        onward.setdefault(a, []).append(b)
    while onward:
        start = here = next(iter(onward))
        ring: list[_Point] = []
        while here in onward:
            ring.append(here)
            ends = onward[here]
            there = ends.pop()
            if not ends:
                del onward[here]
            here = there
            if here == start:
                break
        corners = _corners(ring)
        if len(corners) > 2:
            yield tuple((x / _PER_MM, y / _PER_MM) for x, y in corners)


def _corners(ring: list[_Point]) -> list[_Point]:
    """Leave out the points at which a ring goes straight on."""
    return [
        here
        for before, here, after in zip(ring[-1:] + ring[:-1], ring, ring[1:] + ring[:1], strict=True)
        if (here[0] - before[0]) * (after[1] - here[1]) != (here[1] - before[1]) * (after[0] - here[0])
    ]
