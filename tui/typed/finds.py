"""Reads the doorways and the fixed things of a room as somebody types them, and writes them the same way."""

import math
import re

from store.trade.outline import Ring
from store.trade.surveyed import Doorway, FixedThing
from store.trade.walls import wall_letter, wall_of_letter, walls_of
from tui.typed.figures import Misread, read_mm, read_number, shown, tidy
from tui.words.wording import clean

DOORWAY_EXAMPLE = "C 600 900 Hall: in wall C, 600 from its first corner, 900 wide, to the hall"
FIXED_EXAMPLE = "radiator pipe 22 at 1200,300"

_DIRECTION = re.compile(
    r"(?:(light|from|along)\s+)?(?:wall\s+)?([a-z]{1,2})|(?:along\s+)?(?:the\s+)?(long(?:est)?(?:\s+wall)?)",
    re.IGNORECASE,
)
_LENGTH = r"([0-9]+(?:[.,][0-9]+)?\s*(?:mm|cm|m\b)?)"
_DOORWAY = re.compile(
    rf"(?:wall\s+)?([a-z]{{1,3}}|[0-9]{{1,4}})\s*[:,]?\s+{_LENGTH}[\s,]+{_LENGTH}(?:\s*[,]?\s*deep\s+{_LENGTH})?(?:[\s,]+(.*))?",
    re.IGNORECASE | re.DOTALL,
)
_FIXED = re.compile(
    rf"(.+?)\s+{_LENGTH}\s*(?:at|@)\s*(-?[0-9]{{1,7}})\s*,\s*(-?[0-9]{{1,7}})", re.IGNORECASE | re.DOTALL
)


def read_wall(text: str) -> int | Misread:
    """Read a wall by its letter, or by its place as a job folder counts it: “C”, “wall C”, “2”."""
    typed = re.sub(r"^wall\s+", "", tidy(text), flags=re.IGNORECASE)
    wall = int(typed) if re.fullmatch(r"[0-9]{1,4}", typed) else wall_of_letter(typed)
    return Misread(say=f"{shown(text)} is no wall; write its letter, like C.") if wall is None else wall


def read_direction(text: str, outline: Ring) -> float | Misread:
    """Read which way rows run over a room: degrees, along a wall, or along the light that comes in by one.

    “45” · “B” or “along B” · “long wall” · “light C”: away from the window in wall C. Without an outline only degrees.
    """
    typed = tidy(text)
    named = _DIRECTION.fullmatch(typed)
    if named is None or not outline:
        return read_number(typed)
    walls = walls_of(outline)
    if named[3]:
        wall = max(range(len(walls)), key=lambda place: (math.dist(*walls[place]), -place))
    else:
        read = wall_of_letter(named[2])
        if read is None or read >= len(walls):
            return Misread(say=f"{shown(text)} is no wall of this room; its last is {wall_letter(len(walls) - 1)}.")
        wall = read
    (ax, ay), (bx, by) = walls[wall]
    along = math.degrees(math.atan2(by - ay, bx - ax))
    return round((along + (90 if (named[1] or "").lower() in {"light", "from"} else 0)) % 180, 3) % 180


def read_doorways(text: str) -> tuple[Doorway, ...] | Misread:
    """Read doorways, parted by semicolons: “C 600 900 Hall; A 200 826 deep 120”."""
    found: list[Doorway] = []
    for part in (one.strip() for one in tidy(text).split(";") if one.strip()):
        read = _DOORWAY.fullmatch(part)
        if read is None:
            return Misread(say=f"{shown(part)} is no doorway; write {DOORWAY_EXAMPLE}.")
        wall = read_wall(read[1])
        sizes = [0 if one is None else read_mm(one) for one in (read[2], read[3], read[4])]
        for one in (wall, *sizes):
            if isinstance(one, Misread):
                return one
        from_mm, width_mm, deep_mm = (one for one in sizes if isinstance(one, int))
        if isinstance(wall, int):
            to = clean(re.sub(r"^to\s+", "", (read[5] or "").strip(), flags=re.IGNORECASE))
            found.append(Doorway(wall=wall, from_mm=from_mm, width_mm=width_mm, deep_mm=deep_mm, to=to))
    return tuple(found)


def typed_doorways(doorways: tuple[Doorway, ...]) -> str:
    """Return doorways as a field is filled with them, to be read back the same."""
    return "; ".join(
        f"{wall_letter(one.wall)} {one.from_mm} {one.width_mm}"
        + (f" deep {one.deep_mm}" if one.deep_mm else "")
        + (f" {clean(one.to)}" if one.to else "")
        for one in doorways
    )


def read_fixed_things(text: str) -> tuple[FixedThing, ...] | Misread:
    """Read fixed things, parted by semicolons: “radiator pipe 22 at 1200,300; floor socket 80 at 2500,1900”."""
    found: list[FixedThing] = []
    for part in (one.strip() for one in tidy(text).split(";") if one.strip()):
        read = _FIXED.fullmatch(part)
        if read is None:
            return Misread(say=f"{shown(part)} is nothing fixed; write its name, how wide, and where: {FIXED_EXAMPLE}.")
        size = read_mm(read[2])
        if isinstance(size, Misread):
            return size
        found.append(FixedThing(name=clean(read[1]).strip(), x_mm=int(read[3]), y_mm=int(read[4]), size_mm=size))
    return tuple(found)


def typed_fixed_things(things: tuple[FixedThing, ...]) -> str:
    """Return fixed things as a field is filled with them, to be read back the same."""
    return "; ".join(f"{clean(one.name)} {one.size_mm} at {one.x_mm},{one.y_mm}" for one in things)
