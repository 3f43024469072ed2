"""A room's outline drawn by walking along its walls, and what is done about a walk that does not quite close."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

from store.errors import Refused
from store.trade.outline import MOST_CORNERS, Ring

LEAST_TOLERANCE_MM = 10
TOLERANCE_PER_METRE_MM = 1
"""How far a walk may miss its start: 10 mm, or 1 mm for every metre walked (common practice, no source)."""

_WAYS = {"right": (1, 0), "left": (-1, 0), "up": (0, 1), "down": (0, -1)}
_LENGTH = r"([0-9]{1,7})\s*(?:mm)?\s*"
_WAY = r"(right|left|up|down|r|l|u|d)"
_STRAIGHT = re.compile(_LENGTH + _WAY, re.IGNORECASE)
_BY_LEGS = re.compile(rf"{_LENGTH}{_WAY}\s*(?:and|\+|&)\s*{_LENGTH}{_WAY}", re.IGNORECASE)
_BY_ANGLE = re.compile(_LENGTH + r"at\s*(-?[0-9]{1,3}(?:[.,][0-9]{1,3})?)\s*(?:°|deg)?", re.IGNORECASE)

Way = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Walk:
    """An outline that a walk draws, starting from (0, 0), and by how much its end missed the start, in mm."""

    ring: Ring
    off_x_mm: int
    off_y_mm: int

    @property
    def off_mm(self) -> float:
        """The closing error: how far the end was from the start."""
        return math.hypot(self.off_x_mm, self.off_y_mm)


def walked(text: str) -> Walk:
    """Return the outline that a walk along the walls draws.

    Steps are parted by commas, semicolons or line ends. A step is a length in whole millimetres and a way (right, left,
    up, down, or their first letters), or it goes slantwise: by its two legs, “300 right and 300 up”, or by an angle in
    degrees anticlockwise from right, “424 at 45”.

    No tape closes to the millimetre. A walk that ends within the tolerance of its start is closed by sharing the error
    out over the walls in proportion to their lengths (the compass rule of surveying, textbook), each way for itself, so
    that walls along the axes stay so. Whether walls cross is another question: ask ``faults_in_outline``.

    Raises:
        Refused: a step that cannot be read, too few or too many steps, or a walk that misses its start by more than the
            tolerance.

    >>> walked("5200 right, 1400 up, 900 left, 2700 up, 4300 left, 4100 down").ring
    ((0, 0), (5200, 0), (5200, 1400), (4300, 1400), (4300, 4100), (0, 4100))
    >>> walked("5206 right, 4100 up, 5200 left, 4100 down")
    Walk(ring=((0, 0), (5203, 0), (5203, 4100), (0, 4100)), off_x_mm=6, off_y_mm=0)
    """
    steps = [step for step in (part.strip() for part in re.split(r"[,;\n]", text[: 40 * MOST_CORNERS])) if step]
    if len(text) > 40 * MOST_CORNERS or len(steps) > MOST_CORNERS:
        raise Refused(f"A walk of more than {MOST_CORNERS:,} steps is too long for a room.")
    if len(steps) < 3:
        raise Refused("A walk round a room has at least three steps.")
    ways = [_step(number, step) for number, step in enumerate(steps, start=1)]
    off_x, off_y = sum(x for x, _ in ways), sum(y for _, y in ways)
    long = sum(math.hypot(x, y) for x, y in ways)
    if math.hypot(off_x, off_y) > max(LEAST_TOLERANCE_MM, TOLERANCE_PER_METRE_MM * long / 1000):
        raise Refused(
            f"The walk does not close: it ends {_off(off_x, off_y)} the start. Measure again, or add a step."
            f"{_which_wall(ways, off_x, off_y)}"
        )
    return Walk(ring=_closed(ways, off_x, off_y), off_x_mm=off_x, off_y_mm=off_y)


def _step(number: int, step: str) -> Way:
    legs = _BY_LEGS.fullmatch(step)
    if legs is not None:
        (x, y), (more_x, more_y) = _leg(legs[1], legs[2]), _leg(legs[3], legs[4])
        if (x == 0) != (more_x == 0) and (x + more_x) and (y + more_y):
            return x + more_x, y + more_y
    slant = _BY_ANGLE.fullmatch(step)
    if slant is not None and int(slant[1]):
        angle = math.radians(float(slant[2].replace(",", ".")))
        return round(int(slant[1]) * math.cos(angle)), round(int(slant[1]) * math.sin(angle))
    straight = _STRAIGHT.fullmatch(step)
    if straight is None or int(straight[1]) == 0:
        raise Refused(
            f"Step {number} of the walk, “{step[:40]}”, is no step; write them like “5200 right”, or slantwise like "
            "“300 right and 300 up” or “424 at 45”."
        )
    return _leg(straight[1], straight[2])


def _leg(length: str, way: str) -> Way:
    across, upward = next(to for name, to in _WAYS.items() if name.startswith(way.lower()))
    return across * int(length), upward * int(length)


def _closed(ways: Sequence[Way], off_x: int, off_y: int) -> Ring:
    """Return the corners, each way's error taken off in proportion to how far was walked that way by then."""
    whole_x, whole_y = sum(abs(x) for x, _ in ways), sum(abs(y) for _, y in ways)
    x = y = gone_x = gone_y = 0
    corners = []
    for way_x, way_y in ways:
        share_x = round(off_x * gone_x / whole_x) if whole_x else 0
        share_y = round(off_y * gone_y / whole_y) if whole_y else 0
        corners.append((x - share_x, y - share_y))
        x, y, gone_x, gone_y = x + way_x, y + way_y, gone_x + abs(way_x), gone_y + abs(way_y)
    return tuple(corners)


def _which_wall(ways: Sequence[Way], off_x: int, off_y: int) -> str:
    """Return which one or two steps would close the walk, were they shorter or longer; empty if none or more would."""
    if bool(off_x) == bool(off_y):
        return ""
    place, off = (0, off_x) if off_x else (1, off_y)
    along = [(number, way[place]) for number, way in enumerate(ways, start=1) if way[place] and not way[1 - place]]
    mended = [(number, abs(length - off)) for number, length in along if (length - off) * length > 0]
    if not 1 <= len(mended) <= 2:
        return ""
    return f" It would close if {' or '.join(f'step {number} were {length}' for number, length in mended)}."


def _off(x: int, y: int) -> str:
    parts = []
    if x:
        parts.append(f"{abs(x)} mm to the {'right' if x > 0 else 'left'}")
    if y:
        parts.append(f"{abs(y)} mm {'above' if y > 0 else 'below'}")
    return " of and ".join(parts) if len(parts) == 2 else parts[0] + (" of" if x else "")
