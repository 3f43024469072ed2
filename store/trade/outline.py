"""A room's outline in whole millimetres: its area, its walls, and what is wrong with it."""

import math
from itertools import combinations, islice

from store.errors import Refused
from store.trade.walls import INSIDE, OUTSIDE, Wall, close_pairs, cross, overlap, runs, touch, turn, wall_name, walls_of

Corner = tuple[int, int]
Ring = tuple[Corner, ...]

MOST_CORNERS = 2_000
FARTHEST_MM = 1_000_000
MOST_FAULTS = 12


def twice_area_mm2(ring: Ring) -> int:
    """Return twice the signed area of a ring in mm², exact; positive if its corners run anticlockwise.

    The shoelace formula (textbook). Doubled, so that a whole number stays a whole number.

    >>> twice_area_mm2(((0, 0), (5200, 0), (5200, 4100), (0, 4100)))
    42640000
    """
    total = 0
    ax, ay = ring[-1] if ring else (0, 0)
    for bx, by in ring:
        total += ax * by - bx * ay
        ax, ay = bx, by
    return total


def net_area_mm2(outline: Ring, cut_outs: tuple[Ring, ...] = ()) -> int:
    """Return the area of the outline less its cut-outs in mm², whichever way their corners run.

    Half a square millimetre is rounded up, so that rounding never makes a floor smaller than it is. Cut-outs
    are taken to lie inside and apart; ``faults_in_outline`` tells whether they do.

    >>> hearth = ((0, 0), (1000, 0), (1000, 500), (0, 500))
    >>> net_area_mm2(((0, 0), (5200, 0), (5200, 4100), (0, 4100)), (hearth,))
    20820000
    """
    twice = abs(twice_area_mm2(outline)) - sum(abs(twice_area_mm2(ring)) for ring in cut_outs)
    return (twice + 1) // 2


def perimeter_mm(ring: Ring) -> float:
    """Return the length of all walls of a ring together, in mm.

    >>> perimeter_mm(((0, 0), (3000, 0), (0, 4000)))
    12000.0
    """
    return math.fsum(math.dist(a, b) for a, b in walls_of(ring))


def rectangle(length_mm: int, width_mm: int) -> Ring:
    """Return a room with four right angles, its first corner at (0, 0), ``length_mm`` along x.

    Raises:
        Refused: a side that is not longer than nothing.
    """
    if length_mm <= 0 or width_mm <= 0:
        raise Refused(f"A room of {length_mm} × {width_mm} mm has no floor; both sides must be more than 0.")
    return ((0, 0), (length_mm, 0), (length_mm, width_mm), (0, width_mm))


def faults_in_outline(outline: Ring, cut_outs: tuple[Ring, ...] = ()) -> tuple[str, ...]:
    """Return one sentence for each fault of a room's shape; nothing if a floor can be drawn from it.

    Walls go by letters, and are counted from 0 like corners, as the wall a lay starts from is. Refused are: fewer than
    three corners, more than 2,000 in all, corners more than a kilometre out, walls without length, walls that cross
    or touch, walls that double back, a ring without area, a cut-out that reaches outside or shares floor with
    another one. A cut-out may stand against a wall. No more than a dozen faults are listed.
    """
    if sum(len(ring) for ring in (outline, *cut_outs)) > MOST_CORNERS:
        return (f"A room may have {MOST_CORNERS:,} corners with its cut-outs; this one has more.",)
    named = [("the outline", outline), *((f"cut-out {i}", ring) for i, ring in enumerate(cut_outs))]
    faults = [fault for name, ring in named for fault in islice(_faults_in_ring(name, ring), MOST_FAULTS)]
    if not faults:
        faults = _faults_between(_anticlockwise(outline), tuple(_anticlockwise(ring) for ring in cut_outs))
    if not faults and cut_outs and net_area_mm2(outline, cut_outs) <= 0:
        faults = ["The cut-outs leave no floor."]
    return tuple(faults[:MOST_FAULTS])


def _anticlockwise(ring: Ring) -> Ring:
    return ring if twice_area_mm2(ring) > 0 else ring[::-1]


def _named(index: int, wall: Wall, name: str) -> str:
    return f"{wall_name(index)} of {name}, from {wall[0]} to {wall[1]},"


def _faults_in_ring(name: str, ring: Ring) -> list[str]:
    if len(ring) < 3:
        return [f"A room needs three corners or more; {name} has {len(ring)}."]
    far = [corner for corner in ring if max(abs(corner[0]), abs(corner[1])) > FARTHEST_MM]
    if far:
        return [f"Corner {far[0]} of {name} is more than a kilometre out; corners are in millimetres."]
    walls = walls_of(ring)
    empty = [index for index, (a, b) in enumerate(walls) if a == b]
    if empty:
        return [
            f"Corners {i} and {(i + 1) % len(ring)} of {name} are both {ring[i]}; give each corner once, "
            "the ring closes by itself."
            for i in empty
        ]
    return _doubling_back(name, walls) or _meeting(name, walls) or _without_area(name, ring)


def _without_area(name: str, ring: Ring) -> list[str]:
    return [] if twice_area_mm2(ring) else [f"All corners of {name} lie in one line; it has no area."]


def _doubling_back(name: str, walls: list[Wall]) -> list[str]:
    faults = []
    for index, (b, c) in enumerate(walls):
        a = walls[index - 1][0]
        if turn(a, b, c) == 0 and (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1]) < 0:
            say = f"{wall_name(index)}, from {b} to {c}, lies on the one before it"
            faults.append(f"At corner {index} {name} doubles back: {say}.")
    return faults


def _meeting(name: str, walls: list[Wall]) -> list[str]:
    faults: list[str] = []
    last = len(walls) - 1
    for i, j in close_pairs(walls):
        if j - i == 1 or (i == 0 and j == last):
            continue
        crossing = cross(walls[i], walls[j])
        if crossing or touch(walls[i], walls[j]):
            verb = "crosses" if crossing else "touches"
            faults.append(f"{_named(j, walls[j], name)} {verb} {wall_name(i)}, from {walls[i][0]} to {walls[i][1]}.")
            faults[-1] = faults[-1][0].upper() + faults[-1][1:]
        if len(faults) >= MOST_FAULTS:
            break
    return faults


def _faults_between(outline: Ring, cut_outs: tuple[Ring, ...]) -> list[str]:
    faults = [
        fault for index, ring in enumerate(cut_outs) if (fault := _out_of_the_room(outline, index, ring)) is not None
    ]
    if not faults:
        faults = [
            f"Cut-outs {i} and {j} share floor; draw them as one."
            for (i, one), (j, other) in combinations(enumerate(cut_outs), 2)
            if overlap(one, other)
        ]
    return faults


def _out_of_the_room(outline: Ring, index: int, ring: Ring) -> str | None:
    walls, ring_walls = walls_of(outline), walls_of(ring)
    for i, j in close_pairs(walls + ring_walls):
        if i < len(walls) <= j and cross(walls[i], ring_walls[j - len(walls)]):
            say = f"crosses {wall_name(i)} of the outline, from {walls[i][0]} to {walls[i][1]}"
            return f"Cut-out {index} {say}."
    if runs(ring, outline, OUTSIDE) or runs(outline, ring, INSIDE):
        return f"Cut-out {index} lies outside the outline, or part of it does."
    return None
