"""Reads the outline of a room and its cut-outs as somebody types them, and writes them the same way."""

import re
from dataclasses import dataclass

from store.errors import Refused
from store.trade.outline import Ring
from store.trade.squareness import four_sided
from store.trade.walk import walked
from tui.typed.figures import Misread, read_mm, shown, tidy
from tui.words.wording import figure

_SIDES = re.compile(r"(.*?[0-9]\s*(?:mm|cm|m|))\s*[x×*]\s*(.+)", re.IGNORECASE | re.DOTALL)
_CORNER = re.compile(r"[\[(]?\s*(-?[0-9]{1,7})\s*,\s*(-?[0-9]{1,7})\s*[\])]?")
_AT = re.compile(r"(.+?)\s*(?:at|@)\s*(-?[0-9]{1,7})\s*,\s*(-?[0-9]{1,7})", re.IGNORECASE | re.DOTALL)

_STEP = re.compile(r"([0-9]+(?:[.,][0-9]+)?)\s*(mm|cm|m|)\s*(right|left|up|down|r|l|u|d|at)\b", re.IGNORECASE)
_DIAGONALS = re.compile(r"(.+?)[\s,;]+diagonals?[\s:]+(.+)", re.IGNORECASE | re.DOTALL)
_ONE_LENGTH = re.compile(r"[0-9]+(?:[.,][0-9]+)?\s*(?:mm|cm|m\b)?", re.IGNORECASE)
_LEAST_ROOM_MM = 30


def read_sides(text: str) -> tuple[int, int] | Misread:
    """Read two sides in mm: “5200 x 4100”, “5.2 x 4.1 m”."""
    example = "5200 x 4100, or 5.2 x 4.1 m"
    sides = _SIDES.fullmatch(tidy(text))
    if sides is None:
        return Misread(say=f"{shown(text)} is no pair of sides; write {example}.")
    first, second = sides[1].strip(), sides[2].strip()
    unit = re.search(r"(mm|cm|m)$", second, re.IGNORECASE)
    if unit and not re.search(r"(mm|cm|m)$", first, re.IGNORECASE):
        first += f" {unit[1]}"
    length, width = read_mm(first), read_mm(second)
    if isinstance(length, Misread):
        return length
    if isinstance(width, Misread):
        return width
    if length <= 0 or width <= 0:
        return Misread(say=f"Both sides must be longer than nothing; write {example}.")
    return length, width


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """An outline as it was measured, and what the tape says about itself: “closes with 6 mm, shared out”."""

    ring: Ring
    say: str = ""


def read_ring(text: str) -> Ring | Misread:
    """Read an outline as in ``read_measured``, without what the tape says."""
    measured = read_measured(text)
    return measured if isinstance(measured, Misread) else measured.ring


def read_measured(text: str) -> Measured | Misread:
    """Read an outline: two sides, with both diagonals if they were taken, a walk along the walls, or its corners in mm.

    “5200 x 4100” · “5200 x 4100 diagonals 6622 6610” · “5200 4100 5210 4095 diagonals 6640 6615” · “5200 right, 4100
    up, 5200 left, 4100 down” · “300 right and 300 up” · “424 at 45” · “0,0 5200,0 5200,4100 0,4100”.
    """
    typed = tidy(text)
    diagonals = _DIAGONALS.fullmatch(typed)
    if diagonals is not None:
        return _read_four_sided(diagonals[1], diagonals[2])
    if _STEP.search(typed):
        return _read_walk(typed)
    ring = _read_plain(typed)
    return ring if isinstance(ring, Misread) else Measured(ring=ring)


def _read_four_sided(sides: str, diagonals: str) -> Measured | Misread:
    lengths = [[read_mm(one) for one in _ONE_LENGTH.findall(part)] for part in (sides, diagonals)]
    for one in (*lengths[0], *lengths[1]):
        if isinstance(one, Misread):
            return one
    given, across = ([one for one in part if isinstance(one, int)] for part in lengths)
    if len(given) not in {2, 4} or len(across) != 2:
        return Misread(say="Write two or four sides and both diagonals: 5200 x 4100 diagonals 6622 6610.")
    try:
        room = four_sided(given, across)
    except Refused as refused:
        return Misread(say=str(refused))
    square = f"out of square by {room.out_of_square_mm} mm" if room.out_of_square_mm else "square"
    agrees = f"; the tape agrees to {figure(room.residual_mm, 1)} mm" if room.residual_mm else ""
    return Measured(ring=room.ring, say=f"{square}{agrees}")


def _read_plain(typed: str) -> Ring | Misread:
    if not typed:
        return Misread(say="Write two sides like 5200 x 4100, or walk along the walls: 5200 right, 4100 up …")
    if re.search(r"[x×*]", typed, re.IGNORECASE):
        sides = read_sides(typed)
        if isinstance(sides, Misread):
            return sides
        if max(sides) < _LEAST_ROOM_MM:
            return Misread(
                say=f"{shown(typed)} is {sides[0]} by {sides[1]} mm; for metres write {shown(f'{typed} m')}."
            )
        return _rectangle(*sides, 0, 0)
    return _read_corners(typed)


def _read_walk(typed: str) -> Measured | Misread:
    steps = typed
    for step in _STEP.finditer(typed):
        length = read_mm(f"{step[1]} {step[2]}") if step[2] else None
        if isinstance(length, Misread):
            return length
        if length is not None:
            steps = steps.replace(step[0], f"{length} {step[3]}", 1)
    try:
        walk = walked(steps)
    except Refused as refused:
        return Misread(say=str(refused))
    off = f"closes with {figure(walk.off_mm, 0)} mm, shared out over the walls" if walk.off_mm else "closes"
    return Measured(ring=walk.ring, say=off)


def _read_corners(typed: str) -> Ring | Misread:
    example = "corners in mm are written 0,0 5200,0 5200,4100 0,4100"
    inner = typed[1:-1] if typed.startswith("[[") and typed.endswith("]]") else typed
    left = re.sub(r"[\s,;]+", "", _CORNER.sub("", inner))
    corners = tuple((int(x), int(y)) for x, y in _CORNER.findall(inner))
    if left or len(corners) < 3:
        return Misread(say=f"{shown(typed)} is no outline; write two sides like 5200 x 4100; {example}.")
    return corners


def _rectangle(length: int, width: int, x: int, y: int) -> Ring:
    return ((x, y), (x + length, y), (x + length, y + width), (x, y + width))


def read_cut_outs(text: str) -> tuple[Ring, ...] | Misread:
    """Read cut-outs, parted by semicolons: “1000 x 500 at 0,0; 400 x 400 at 1200,300”, or corners."""
    rings: list[Ring] = []
    for part in (one for one in tidy(text).split(";") if one.strip()):
        placed = _AT.fullmatch(part.strip())
        if placed is None:
            ring = _read_corners(part.strip())
            if isinstance(ring, Misread):
                return Misread(say=f"{shown(part)} is no cut-out; write 1000 x 500 at 0,0; the next after a semicolon.")
        else:
            sides = read_sides(placed[1])
            if isinstance(sides, Misread):
                return sides
            ring = _rectangle(*sides, int(placed[2]), int(placed[3]))
        rings.append(ring)
    return tuple(rings)


def typed_ring(ring: Ring) -> str:
    """Return an outline as a field is filled with it, to be read back the same."""
    if len(ring) == 4 and max(ring[2]) >= _LEAST_ROOM_MM and ring == _rectangle(ring[2][0], ring[2][1], 0, 0):
        return f"{ring[2][0]} x {ring[2][1]}"
    return " ".join(f"{x},{y}" for x, y in ring)


def typed_cut_outs(rings: tuple[Ring, ...]) -> str:
    """Return cut-outs as a field is filled with them, to be read back the same."""
    return "; ".join(_typed_cut_out(ring) for ring in rings)


def _typed_cut_out(ring: Ring) -> str:
    x, y = ring[0]
    if len(ring) == 4:
        length, width = ring[2][0] - x, ring[2][1] - y
        if length > 0 and width > 0 and ring == _rectangle(length, width, x, y):
            return f"{length} x {width} at {x},{y}"
    return typed_ring(ring) if ring[0] != (0, 0) else " ".join(f"{x},{y}" for x, y in ring)
