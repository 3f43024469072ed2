"""Skirting for a room as it was measured: a piece for every stretch of wall, and the sticks to cut them from.

```
        inner corner: butted            A doorway ends its pieces square. A stretch longer than the
   ┌──────────┐ ▲                       stick is spliced. At an outer corner both pieces are mitred:
   │          │ │ wall                  the saw is set to half the turn from wall to wall, which is
   │    ┌─────┘                         the same as cutting the corner's angle in half.
   │    │ ◄ outer corner: mitred
```
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise

from store.errors import Refused
from store.trade.outline import Ring, twice_area_mm2
from store.trade.surveyed import Doorway
from store.trade.trims import MOST_PIECES, Trims, trims
from store.trade.units import Bounds, Number
from store.trade.walls import Wall, close_pairs, turn, wall_letter, walls_of

STICK = Bounds(what="Stick", unit="mm", least=1000, most=20_000)
KERF = Bounds(what="Saw cut", unit="mm", most=50)
THICKNESS = Bounds(what="Thickness", unit="mm", most=50)
SHORTEST_SPLICED_MM = 300  # a shorter end of a spliced wall is seen; common practice, no source
SHARPEST_MITRE_DEG = 75  # beyond it the long point runs past any saw; common practice, no source
LEAST_MM = 0.5  # less wall than this takes no skirting


class End(StrEnum):
    """How a piece ends."""

    BUTTED = "butted"
    MITRED = "mitred"
    SQUARE = "square"
    SPLICED = "spliced"
    BY_HAND = "by hand"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEnd:
    """One end of a piece; at an outer corner with the corner's angle and the saw's, both in degrees."""

    how: End
    corner_deg: float | None = None
    saw_deg: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SkirtingPiece:
    """A piece on a wall: where it begins along the wall, how much wall it covers, and how long it is cut, in mm.

    ``ring`` is 0 for the outline, 1 for the first cut-out; ``wall`` is counted from 0 within it, ``letter`` its name.
    """

    ring: int
    wall: int
    letter: str
    from_mm: float
    along_mm: float
    cut_mm: int
    begins: PieceEnd
    ends: PieceEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class Skirting:
    """The pieces in the order they are walked, mm of wall they cover, mm left out, and the cutting list."""

    pieces: tuple[SkirtingPiece, ...]
    along_mm: float
    left_out_mm: float
    cutting: Trims


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bare:
    """A stretch of wall without skirting: a doorway, or where a cut-out stands against the wall."""

    start: float
    end: float
    is_door: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stretch:
    start: float
    end: float
    begins: PieceEnd
    ends: PieceEnd


def skirting(
    *,
    outline: Ring,
    stick_mm: Number,
    cut_outs: Sequence[Ring] = (),
    doorways: Sequence[Doorway] = (),
    kerf_mm: Number = 3,
    thickness_mm: Number = 16,
) -> Skirting:
    """The skirting of a room, a piece at a time, and the fewest sticks that give it.

    >>> room = ((0, 0), (3000, 0), (3000, 2000), (0, 2000))
    >>> door = Doorway(wall=0, from_mm=500, width_mm=900)
    >>> answer = skirting(outline=room, stick_mm=2400, doorways=(door,))
    >>> [(piece.letter, piece.cut_mm) for piece in answer.pieces], answer.along_mm
    ([('A', 500), ('A', 1600), ('B', 2000), ('C', 2400), ('C', 600), ('D', 2000)], 9100.0)
    >>> answer.cutting.sticks
    5

    Method: each wall of outline and cut-outs, less its doorways and less what a cut-out standing against it covers.
    Inner corners are butted: the wall's own length, cut back by a thickness on the second piece when it is fitted.
    Outer corners are mitred: the saw stands at half the turn of the wall, which halves the corner, and the piece is
    longer on its long point by thickness × tan of that angle. Outer corners too sharp for a saw are left to the hand.
    Where walls run on in one line, and where a stretch is longer than the stick, pieces are spliced square; no end of
    a spliced stretch is shorter than 300 mm. Lengths to be cut are rounded up to whole mm.

    Args:
        outline: The room, mm, without faults (``faults_in_outline``).
        stick_mm: Length of a stick as sold, whole mm, at least 1000.
        cut_outs: Places without floor, skirted too.
        doorways: Openings in walls of the outline.
        kerf_mm: Lost at each saw cut, whole mm.
        thickness_mm: Of the skirting, for the long points.

    Returns:
        JSON keys: ``metres left_out_metres sticks at_least proved cuts left_mm pieces``; each of ``pieces`` has
        ``ring wall letter from_mm along_mm cut_mm begins ends``, and each end ``how corner_deg saw_deg``.

    Raises:
        Refused: A number cannot be, or the room needs more than 5000 pieces, or has no wall to skirt.

    Source: butted inside and mitred outside by three trade references; half the corner's angle is plane geometry;
        300 mm and the sharpest mitre are common practice, no source.
    """
    stick, kerf = STICK.take_whole(stick_mm), KERF.take_whole(kerf_mm)
    rings = (outline, *cut_outs)
    pieces = skirting_pieces(rings=rings, doorways=doorways, stick_mm=stick, thickness_mm=thickness_mm)
    whole = math.fsum(math.dist(*wall) for corners in rings for wall in walls_of(corners))
    along = math.fsum(piece.along_mm for piece in pieces)
    return Skirting(
        pieces=pieces,
        along_mm=along,
        left_out_mm=max(0.0, whole - along),
        cutting=trims(stick_mm=stick, kerf_mm=kerf, pieces_mm=[piece.cut_mm for piece in pieces]),
    )


def skirting_pieces(
    *, rings: Sequence[Ring], doorways: Sequence[Doorway], stick_mm: int, thickness_mm: Number = 16
) -> tuple[SkirtingPiece, ...]:
    """Return the pieces of a room alone, from an outline and its cut-outs, not yet put on sticks; see ``skirting``.

    Raises:
        Refused: the room needs more than 5000 pieces, or has no wall to skirt.
    """
    thickness = float(THICKNESS.take(thickness_mm))
    bare = _bare_stretches(rings, doorways)
    pieces: list[SkirtingPiece] = []
    for ring, corners in enumerate(rings):
        for wall, stretches in enumerate(_stretches(corners, bare[ring], is_cut_out=ring > 0)):
            for stretch in stretches:
                pieces += _pieces(ring, wall, stretch, stick_mm, thickness)
                if len(pieces) > MOST_PIECES:
                    raise Refused(f"This room needs more than {MOST_PIECES} pieces of skirting: use longer sticks.")
    if not pieces:
        raise Refused("This room has no wall to skirt: its doorways take all of it.")
    return tuple(pieces)


def _bare_stretches(rings: Sequence[Ring], doorways: Sequence[Doorway]) -> list[list[list[_Bare]]]:
    bare: list[list[list[_Bare]]] = [[[] for _ in ring] for ring in rings]
    for door in doorways:
        end = min(float(door.from_mm + door.width_mm), math.dist(*walls_of(rings[0])[door.wall]))
        bare[0][door.wall].append(_Bare(start=float(door.from_mm), end=end, is_door=True))
    walls = [(ring, place, wall) for ring, corners in enumerate(rings) for place, wall in enumerate(walls_of(corners))]
    if len(rings) > 1:
        for i, j in close_pairs([wall for _, _, wall in walls]):
            for one, other in ((walls[i], walls[j]), (walls[j], walls[i])):
                if one[0] != other[0]:
                    bare[one[0]][one[1]] += _covered(one[2], other[2])
    return bare


def _covered(wall: Wall, other: Wall) -> list[_Bare]:
    """Return what another wall in the same line covers of this one."""
    (a, b), (c, d) = wall, other
    if turn(a, b, c) or turn(a, b, d):
        return []
    long = math.dist(a, b)
    along = sorted(((p[0] - a[0]) * (b[0] - a[0]) + (p[1] - a[1]) * (b[1] - a[1])) / long for p in (c, d))
    start, end = max(0.0, along[0]), min(long, along[1])
    return [_Bare(start=start, end=end, is_door=False)] if end - start > LEAST_MM else []


def _stretches(ring: Ring, bare: list[list[_Bare]], *, is_cut_out: bool) -> list[list[_Stretch]]:
    """Return for each wall of a ring what is left of it, with the way each end is cut."""
    walls = walls_of(ring)
    floor_on_left = (twice_area_mm2(ring) > 0) is not is_cut_out
    found = []
    for place, wall in enumerate(walls):
        before, after = (place - 1) % len(walls), (place + 1) % len(walls)
        long = math.dist(*wall)
        at_start = _corner(walls[before], wall, floor_on_left=floor_on_left)
        at_end = _corner(wall, walls[after], floor_on_left=floor_on_left)
        begins = _beside(bare[before], math.dist(*walls[before])) or at_start
        ends = _beside(bare[after], 0.0) or at_end
        found.append(list(_left_of(long, bare[place], begins, ends)))
    return found


def _beside(bare: list[_Bare], at_mm: float) -> PieceEnd | None:
    """Return how a piece ends at a corner beyond which the next wall is bare; None where it is skirted."""
    for one in bare:
        if one.start - LEAST_MM <= at_mm <= one.end + LEAST_MM:
            return _bare_end(one)
    return None


def _bare_end(one: _Bare) -> PieceEnd:
    return PieceEnd(how=End.SQUARE if one.is_door else End.BUTTED)


def _left_of(long: float, bare: list[_Bare], begins: PieceEnd, ends: PieceEnd) -> Iterator[_Stretch]:
    here, how = 0.0, begins
    for one in sorted(bare, key=lambda b: (b.start, b.end)):
        if one.start - here > LEAST_MM:
            yield _Stretch(start=here, end=one.start, begins=how, ends=_bare_end(one))
        if one.end >= here:
            here, how = one.end, _bare_end(one)
    if long - here > LEAST_MM:
        yield _Stretch(start=here, end=long, begins=how, ends=ends)


def _corner(one: Wall, other: Wall, *, floor_on_left: bool) -> PieceEnd:
    (a, b), (_, c) = one, other
    side = turn(a, b, c)
    if side == 0:
        return PieceEnd(how=End.SPLICED)
    if (side > 0) is floor_on_left:
        return PieceEnd(how=End.BUTTED)
    ahead = (b[0] - a[0]) * (c[0] - b[0]) + (b[1] - a[1]) * (c[1] - b[1])
    turned = math.degrees(math.atan2(abs(side), ahead))
    corner = round(180 - turned, 6)
    if turned / 2 > SHARPEST_MITRE_DEG:
        return PieceEnd(how=End.BY_HAND, corner_deg=corner)
    return PieceEnd(how=End.MITRED, corner_deg=corner, saw_deg=round(turned / 2, 6))


def _pieces(ring: int, wall: int, stretch: _Stretch, stick: int, thickness: float) -> Iterator[SkirtingPiece]:
    cuts = [stretch.start, *_splices(stretch, stick, thickness), stretch.end]
    spliced = PieceEnd(how=End.SPLICED)
    for number, (start, end) in enumerate(pairwise(cuts)):
        begins = stretch.begins if number == 0 else spliced
        ends = stretch.ends if number == len(cuts) - 2 else spliced
        along = end - start
        needs = along + _long_point(begins, thickness) + _long_point(ends, thickness)
        yield SkirtingPiece(
            ring=ring,
            wall=wall,
            letter=wall_letter(wall),
            from_mm=start,
            along_mm=along,
            cut_mm=math.ceil(needs - 1e-6),
            begins=begins,
            ends=ends,
        )


def _splices(stretch: _Stretch, stick: int, thickness: float) -> Iterator[float]:
    """Yield where a stretch is spliced: full sticks from its beginning, the last two so that neither is short."""
    here = stretch.start
    room = stick - _long_point(stretch.begins, thickness)
    tail = _long_point(stretch.ends, thickness)
    while stretch.end - here + tail > room + 1e-6:
        whole = math.floor(room + 1e-6)
        left = stretch.end - here - whole
        if left < SHORTEST_SPLICED_MM:
            whole -= math.ceil(SHORTEST_SPLICED_MM - left)
        here += whole
        room = float(stick)
        yield here


def _long_point(end: PieceEnd, thickness: float) -> float:
    return 0.0 if end.saw_deg is None else thickness * math.tan(math.radians(end.saw_deg))
