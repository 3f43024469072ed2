"""The floor to be covered: the outline less its cut-outs, drawn in by the gap and turned to the rows."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from store.errors import Refused
from store.trade.outline import Ring, faults_in_outline, twice_area_mm2

Spot = tuple[float, float]

MITRE_LIMIT = 5.0
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
        """Return the farthest left and right of the slab between two heights, or None if it has no floor there."""
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
class Ledge:
    """A wall that runs along the rows, drawn in by the gap: its lowest and highest point, and its floor's side."""

    low: float
    high: float
    floor_above: bool


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


def floor_of(
    outline: Ring, cut_outs: tuple[Ring, ...], gap_mm: int, direction_deg: float | None, start: int | None
) -> Floor:
    """Return the floor of a room, drawn in by the gap on every wall and turned so that the rows run along x.

    The frame turns about the outline's first corner, which keeps its coordinates. Corners of walls that jut into the
    room are mitred, up to five times the gap. A cut-out may stand against a wall.

    Method: every ring is drawn in wall by wall to its floor side; what then lies inside the outline's ring and in
    none of the cut-outs' rings is floor. Rings that overlap themselves because a part was narrower than two gaps wind
    backwards there, and only what winds once forwards counts (positive fill rule, textbook computational geometry).
    The floor is cut at every corner and crossing into slabs with straight sides.

    Raises:
        Refused: a fault of the outline, a start that is no wall or crosses the rows, or no floor left by the gap.

    >>> floor_of(((0, 0), (5200, 0), (5200, 4100), (0, 4100)), (), 10, 0, None).area_mm2
    21134400.0
    """
    faults = faults_in_outline(outline, cut_outs)
    if faults:
        raise Refused(faults[0])
    direction = _direction(outline, direction_deg, start)
    rings = [outline if twice_area_mm2(outline) > 0 else outline[::-1]]
    rings += [ring if twice_area_mm2(ring) < 0 else ring[::-1] for ring in cut_outs]
    turned = [_turned(ring, outline[0], direction) for ring in rings]
    slabs = tuple(_slabs([_drawn_in(ring, gap_mm) for ring in turned]))
    area = math.fsum(_area(slab) for slab in slabs)
    if area < 1:
        raise Refused(f"A gap of {gap_mm} mm on every wall leaves no floor.")
    return Floor(
        slabs=slabs,
        ledges=tuple(
            dict.fromkeys(
                ledge for ring in turned for ledge in _ledges(ring, gap_mm, math.tan(math.radians(10)))
            )
        ),
        start=_start(outline, turned[0], start, gap_mm),
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


def _start(outline: Ring, turned: tuple[Spot, ...], start: int | None, gap_mm: int) -> Ledge | None:
    if start is None:
        return None
    count = len(outline)
    index = start if twice_area_mm2(outline) > 0 else (2 * count - 2 - start) % count
    ledges = list(_ledges((turned[index], turned[(index + 1) % count]), gap_mm, 1.0))
    if not ledges:
        raise Refused(f"Wall {start} runs across the rows; the first row cannot stand on it.")
    return ledges[0]


def _turned(ring: Ring, about: tuple[int, int], direction_deg: float) -> tuple[Spot, ...]:
    quarter = direction_deg / 90
    if quarter == int(quarter):
        cosine, sine = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        cosine, sine = math.cos(math.radians(direction_deg)), math.sin(math.radians(direction_deg))
    x0, y0 = about
    return tuple(
        (x0 + (x - x0) * cosine + (y - y0) * sine, y0 - (x - x0) * sine + (y - y0) * cosine) for x, y in ring
    )


def _ledges(ring: tuple[Spot, ...], gap_mm: int, steepest: float) -> Iterator[Ledge]:
    pairs = zip(ring, ring[1:] + ring[:1] if len(ring) > 2 else ring[1:], strict=len(ring) > 2)
    for (ax, ay), (bx, by) in pairs:
        if abs(by - ay) <= steepest * abs(bx - ax):
            away = gap_mm * (bx - ax) / math.hypot(bx - ax, by - ay)
            yield Ledge(low=min(ay, by) + away, high=max(ay, by) + away, floor_above=bx > ax)


def _drawn_in(ring: tuple[Spot, ...], gap_mm: int) -> list[Spot]:
    """Return the ring moved to its left by the gap; where it overlaps itself it winds backwards."""
    count = len(ring)
    lengths = [math.dist(ring[i], ring[(i + 1) % count]) for i in range(count)]
    ways = [
        ((ring[(i + 1) % count][0] - ring[i][0]) / length, (ring[(i + 1) % count][1] - ring[i][1]) / length)
        for i, length in enumerate(lengths)
    ]
    moved: list[Spot] = []
    for i, (x, y) in enumerate(ring):
        short = min(lengths[i - 1], lengths[i])
        moved += [(x + dx, y + dy) for dx, dy in _corner(ways[i - 1], ways[i], short, gap_mm)]
    return moved


def _corner(before: Spot, after: Spot, short: float, gap: float) -> list[Spot]:
    """Return where a corner goes, relative to it, between walls that run in these two directions."""
    sine = before[0] * after[1] - before[1] * after[0]
    cosine = before[0] * after[0] + before[1] * after[1]
    one, two = (-before[1] * gap, before[0] * gap), (-after[1] * gap, after[0] * gap)
    mitre = ((one[0] + two[0]) / (1 + cosine), (one[1] + two[1]) / (1 + cosine)) if cosine > -1 else one
    if sine > 0:
        fits = cosine > -1 and gap * sine / (1 + cosine) <= short / 2
        return [mitre] if fits else [one, (0.0, 0.0), two]
    if cosine > 2 / MITRE_LIMIT**2 - 1:
        return [mitre]
    half_cosine, half_sine = math.sqrt(max(0.0, (1 + cosine) / 2)), math.sqrt((1 - cosine) / 2)
    on = gap * (MITRE_LIMIT - half_cosine) / half_sine
    return [
        (one[0] + on * before[0], one[1] + on * before[1]),
        (two[0] - on * after[0], two[1] - on * after[1]),
    ]


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
    for low, high in zip(heights, heights[1:], strict=False):
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
