"""The floor to be covered: the outline less its cut-outs, drawn in by the gap and turned to the rows."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from store.errors import Refused
from store.trade.layout.inset import Ledge, Spot, drawn_in, ledges_of, turned
from store.trade.layout.lay import Room
from store.trade.outline import Ring, faults_in_outline, twice_area_mm2
from store.trade.walls import wall_name

HAIR_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Slab:
    """A part of the floor between two heights, with one straight side to the left and one to the right."""

    low: float
    high: float
    left_low: float
    left_high: float
    right_low: float
    right_high: float

    def between(self, low: float, high: float) -> tuple[float, float] | None:
        """Return the farthest left and right between two heights, or None if there is no floor."""
        bottom, top = max(low, self.low), min(high, self.high)
        if top - bottom <= HAIR_MM:
            return None
        here, there = ((y - self.low) / (self.high - self.low) for y in (bottom, top))
        left, right = self.left_high - self.left_low, self.right_high - self.right_low
        return (
            self.left_low + left * (here if left > 0 else there),
            self.right_low + right * (there if right > 0 else here),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """The floor in the turned frame: slabs from low to high, the walls along the rows, its area in mm²."""

    slabs: tuple[Slab, ...]
    ledges: tuple[Ledge, ...]
    start: Ledge | None
    direction_deg: float
    area_mm2: float

    @property
    def low(self) -> float:
        return self.slabs[0].low

    @property
    def high(self) -> float:
        return max(slab.high for slab in self.slabs)


def floor_of_room(room: Room, *, with_border: bool = False) -> Floor:
    """Return the floor of a room's field, or with its border: see ``floor_of``."""
    edge = 0 if with_border else room.border_mm
    return floor_of(room.outline, room.cut_outs, room.gap_mm, room.direction_deg, room.start, border_mm=edge)


def floor_of(
    outline: Ring,
    cut_outs: tuple[Ring, ...],
    gap_mm: int,
    direction_deg: float | None,
    start: int | None,
    *,
    border_mm: int = 0,
) -> Floor:
    """Return the floor of a room, drawn in by the gap on every wall and turned so that the rows run along x.

    The frame turns about the outline's first corner, which keeps its coordinates. Corners of walls that jut
    into the room are mitred, up to five times the gap. A cut-out may stand against a wall. A border is taken off the
    outline's walls as well, not off those of the cut-outs.

    Method: every ring is drawn in wall by wall to its floor side; what then lies inside the outline's ring
    and in none of the cut-outs' rings is floor. Rings that overlap themselves because a part was narrower
    than two gaps wind backwards there, and only what winds once forwards counts (positive fill rule,
    textbook computational geometry). The floor is cut at every corner and crossing into slabs with straight
    sides.

    Raises:
        Refused: a fault of the outline, a start that is no wall or crosses the rows, or no floor left by
            the gap.

    >>> floor_of(((0, 0), (5200, 0), (5200, 4100), (0, 4100)), (), 10, 0, None).area_mm2
    21134400.0
    """
    faults = faults_in_outline(outline, cut_outs)
    if faults:
        raise Refused(faults[0])
    direction = _direction(outline, direction_deg, start)
    forwards = [outline if twice_area_mm2(outline) > 0 else outline[::-1]]
    forwards += [ring if twice_area_mm2(ring) < 0 else ring[::-1] for ring in cut_outs]
    rings = [turned(ring, outline[0], direction) for ring in forwards]
    inward = [gap_mm + border_mm] + [gap_mm] * len(cut_outs)
    slabs = tuple(_slabs([drawn_in(ring, by) for ring, by in zip(rings, inward, strict=True)]))
    area = math.fsum(_area(slab) for slab in slabs)
    if area < 1:
        border = f" and a border of {border_mm} mm" if border_mm else ""
        raise Refused(f"A gap of {gap_mm} mm{border} on every wall leaves no floor.")
    return Floor(
        slabs=slabs,
        ledges=tuple(
            dict.fromkeys(
                ledge
                for ring, by in zip(rings, inward, strict=True)
                for ledge in ledges_of(ring, by, math.tan(math.radians(10)))
            )
        ),
        start=_start(outline, rings[0], start, inward[0]),
        direction_deg=direction,
        area_mm2=area,
    )


def _direction(outline: Ring, direction_deg: float | None, start: int | None) -> float:
    if start is not None and not 0 <= start < len(outline):
        raise Refused(f"Start {start} is no wall; the outline has walls 0 to {len(outline) - 1}.")
    if direction_deg is not None:
        if not math.isfinite(direction_deg):
            raise Refused("The direction of the rows must be a number of degrees.")
        return direction_deg
    if start is None:
        return 0.0
    (ax, ay), (bx, by) = outline[start], outline[(start + 1) % len(outline)]
    return math.degrees(math.atan2(by - ay, bx - ax)) % 180


def _start(outline: Ring, ring: tuple[Spot, ...], start: int | None, gap_mm: int) -> Ledge | None:
    if start is None:
        return None
    count = len(outline)
    index = start if twice_area_mm2(outline) > 0 else (2 * count - 2 - start) % count
    ledges = list(ledges_of((ring[index], ring[(index + 1) % count]), gap_mm, 1.0))
    if not ledges:
        raise Refused(f"W{wall_name(start)[1:]} runs across the rows; the first row cannot stand on it.")
    return ledges[0]


def _area(slab: Slab) -> float:
    widths = slab.right_low - slab.left_low + slab.right_high - slab.left_high
    return widths * (slab.high - slab.low) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class _Side:
    low: Spot
    high: Spot
    ring: int
    winds: int

    def at(self, y: float) -> float:
        (ax, ay), (bx, by) = self.low, self.high
        if ax == bx:
            return ax
        return ax + (bx - ax) * min(1.0, max(0.0, (y - ay) / (by - ay)))


def _slabs(rings: list[list[Spot]]) -> Iterator[Slab]:
    sides = [
        _Side(
            low=min(a, b, key=_height),
            high=max(a, b, key=_height),
            ring=index,
            winds=1 if b[1] < a[1] else -1,
        )
        for index, ring in enumerate(rings)
        for a, b in zip(ring, ring[1:] + ring[:1], strict=True)
        if a[1] != b[1]
    ]
    sides.sort(key=lambda side: side.low[1])
    heights = sorted({*(spot[1] for ring in rings for spot in ring), *_crossings(sides)})
    active: list[_Side] = []
    waiting = iter(sides)
    coming = next(waiting, None)
    for low, high in pairwise(heights):
        if high - low <= HAIR_MM / 10:
            continue
        middle = (low + high) / 2
        while coming is not None and coming.low[1] < middle:
            active.append(coming)
            coming = next(waiting, None)
        active = [side for side in active if side.high[1] > middle]
        for left, right in _filled(sorted((side.at(middle), i) for i, side in enumerate(active)), active):
            yield Slab(
                low=low,
                high=high,
                left_low=left.at(low),
                left_high=left.at(high),
                right_low=right.at(low),
                right_high=right.at(high),
            )


def _height(spot: Spot) -> float:
    return spot[1]


def _filled(passed: list[tuple[float, int]], sides: list[_Side]) -> Iterator[tuple[_Side, _Side]]:
    """Yield left and right sides of the floor along one line: inside the outline, outside every cut-out."""
    winding: dict[int, int] = {}
    blocked = 0
    left: tuple[float, _Side] | None = None
    for x, index in passed:
        side = sides[index]
        was = winding.get(side.ring, 0)
        winding[side.ring] = was + side.winds
        if side.ring > 0:
            blocked += (was + side.winds < 0) - (was < 0)
        is_floor = winding.get(0, 0) > 0 and blocked == 0
        if is_floor and left is None:
            left = (x, side)
        elif not is_floor and left is not None:
            if x - left[0] > HAIR_MM:
                yield left[1], side
            left = None


def _crossings(sides: list[_Side]) -> Iterator[float]:
    """Yield the heights at which two sides cross; the sides come sorted by their lower ends."""
    still_open: list[_Side] = []
    for side in sides:
        (ax, ay), (bx, by) = side.low, side.high
        still_open = [earlier for earlier in still_open if earlier.high[1] > ay]
        left, right = min(ax, bx), max(ax, bx)
        for other in still_open:
            (cx, cy), (dx, dy) = other.low, other.high
            if (cx < left and dx < left) or (cx > right and dx > right):
                continue
            across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
            if across:
                part = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across
                other_part = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / across
                if 0 < part < 1 and 0 <= other_part <= 1:
                    yield ay + part * (by - ay)
        still_open.append(side)
