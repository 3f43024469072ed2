"""Walls drawn in by the gap and turned to the rows, and those among them that the rows run along."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from store.trade.outline import Ring

Spot = tuple[float, float]

MITRE_LIMIT = 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ledge:
    """A wall along the rows, drawn in by the gap: its lowest and highest point, and its floor's side."""

    low: float
    high: float
    floor_above: bool


def turned(ring: Ring, about: tuple[int, int], direction_deg: float) -> tuple[Spot, ...]:
    """Return the ring in the frame turned anticlockwise about a point; right angles are turned exactly."""
    quarter = direction_deg / 90
    if quarter == int(quarter):
        cosine, sine = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        cosine, sine = math.cos(math.radians(direction_deg)), math.sin(math.radians(direction_deg))
    x0, y0 = about
    return tuple((x0 + (x - x0) * cosine + (y - y0) * sine, y0 - (x - x0) * sine + (y - y0) * cosine) for x, y in ring)


def ledges_of(ring: tuple[Spot, ...], gap_mm: int, steepest: float) -> Iterator[Ledge]:
    """Yield the walls no steeper than asked, moved by the gap; two spots are one wall, more are a ring."""
    pairs = zip(ring, ring[1:] + ring[:1] if len(ring) > 2 else ring[1:], strict=len(ring) > 2)
    for (ax, ay), (bx, by) in pairs:
        if abs(by - ay) <= steepest * abs(bx - ax):
            away = gap_mm * (bx - ax) / math.hypot(bx - ax, by - ay)
            yield Ledge(low=min(ay, by) + away, high=max(ay, by) + away, floor_above=bx > ax)


def drawn_in(ring: tuple[Spot, ...], gap_mm: int) -> list[Spot]:
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
