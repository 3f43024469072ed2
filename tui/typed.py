"""Reads what somebody types: numbers, lengths, areas, money, outlines; or says what to write instead."""

import re
from dataclasses import dataclass
from decimal import Decimal

from store.errors import Refused
from store.trade.outline import Ring, from_walk
from tui.wording import clean, minor_digits


@dataclass(frozen=True, slots=True, kw_only=True)
class Misread:
    """What was typed cannot be read; ``say`` tells what to write instead, with an example."""

    say: str


MOST_TYPED = 10_000
"""The longest text a field takes, in characters."""

_NUMBER = re.compile(r"([+-]?)([0-9]{1,15})(?:[.,]([0-9]{1,9}))?")
_GROUPED = re.compile(r"([+-]?)([0-9]{1,3}(?:([ '.,\u00a0\u202f])[0-9]{3})(?:\3[0-9]{3})*)(?:([.,])([0-9]{1,9}))?")
_LENGTH = re.compile(r"(.*?)\s*(mm|cm|m|)", re.IGNORECASE | re.DOTALL)
_TO_MM = {"": Decimal(1), "mm": Decimal(1), "cm": Decimal(10), "m": Decimal(1000)}
_HOURS = re.compile(r"(.*?)\s*(hours?|h|days?|d|)", re.IGNORECASE | re.DOTALL)
_SIDES = re.compile(r"(.*?[0-9]\s*(?:mm|cm|m|))\s*[x×*]\s*(.+)", re.IGNORECASE | re.DOTALL)
_CORNER = re.compile(r"[\[(]?\s*(-?[0-9]{1,7})\s*,\s*(-?[0-9]{1,7})\s*[\])]?")
_AT = re.compile(r"(.+?)\s*(?:at|@)\s*(-?[0-9]{1,7})\s*,\s*(-?[0-9]{1,7})", re.IGNORECASE | re.DOTALL)


def _shown(text: str) -> str:
    words = clean(text.strip())
    return f"“{words[:30]}…”" if len(words) > 30 else f"“{words}”"


def _tidy(text: str) -> str:
    return " ".join(text.replace("−", "-").split())


def read_text(text: str) -> str | Misread:
    """Read a line of plain words: made safe to show, without blanks around it."""
    if len(text) > MOST_TYPED:
        return Misread(say=f"That is longer than {MOST_TYPED:,} characters; write less.")
    return clean(text).strip()


def _exact(text: str, example: str, *, sure_decimal: bool = False) -> Decimal | Misread:
    """Read a number exactly; refuse one whose comma or point may part thousands or decimals."""
    typed = _tidy(text)
    plain = _NUMBER.fullmatch(typed)
    if plain is not None:
        sign, whole, decimals = plain[1], plain[2], plain[3] or ""
        unsure = len(decimals) == 3 and 1 <= len(whole) <= 3 and whole.strip("0") != "" and not sure_decimal
        if unsure:
            readings = f"{whole}{decimals} or as {whole} and a bit"
            return Misread(say=f"{_shown(text)} can be read as {readings}; write {example}.")
        return Decimal(f"{sign}{whole}.{decimals or 0}")
    grouped = _GROUPED.fullmatch(typed)
    if grouped is not None and grouped[3] != grouped[4] and (grouped[4] or grouped[3] not in ".,"):
        return Decimal(f"{grouped[1]}{re.sub('[^0-9]', '', grouped[2])}.{grouped[5] or 0}")
    if re.fullmatch(r"[+-]?[0-9]{16,}.*", typed, re.DOTALL):
        return Misread(say=f"That number is too long; write one like {example}.")
    return Misread(say=f"{_shown(text)} is no number; write one like {example}." if typed else _missing(example))


def _missing(example: str) -> str:
    return f"Fill this in, like {example}."


def read_number(text: str) -> float | Misread:
    """Read a number with a comma or a point: “16,5”, “16.5”, “−2”."""
    number = _exact(text, "16.5")
    return number if isinstance(number, Misread) else float(number)


def read_whole(text: str) -> int | Misread:
    """Read a whole number: “12”."""
    number = _exact(text, "12")
    if isinstance(number, Misread):
        return number
    if number != number.to_integral_value():
        return Misread(say=f"{_shown(text)} is not a whole number; write one like 12.")
    return int(number)


def read_mm(text: str) -> int | Misread:
    """Read a length as whole mm: “5200”, “5.2 m”, “5,2 m”, “520 cm”."""
    example = "5200, 5.2 m or 520 cm"
    parts = _LENGTH.fullmatch(_tidy(text))
    unit = parts[2].lower() if parts else ""
    number = _exact(parts[1] if parts else text, example, sure_decimal=unit == "m")
    if isinstance(number, Misread):
        return number
    length = number * _TO_MM[unit]
    if length != length.to_integral_value():
        return Misread(say=f"{_shown(text)} is not a whole number of millimetres; write {example}.")
    return int(length)


def read_hours(text: str) -> int | Misread:
    """Read a duration as whole hours: “168”, “168 h”, “7 days”."""
    example = "168 or 7 days"
    parts = _HOURS.fullmatch(_tidy(text))
    number = _exact(parts[1] if parts else text, example)
    if isinstance(number, Misread):
        return number
    hours = number * (24 if parts and parts[2].lower().startswith("d") else 1)
    if hours != hours.to_integral_value():
        return Misread(say=f"{_shown(text)} is not a whole number of hours; write {example}.")
    return int(hours)


def read_area(text: str) -> int | Misread:
    """Read an area in m² as whole mm²: “14.5”, “14,5 m²”."""
    number = _exact(re.sub(r"\s*m[²2]$", "", _tidy(text)), "14.5")
    return number if isinstance(number, Misread) else int((number * 1_000_000).to_integral_value())


def read_money(text: str, currency: str) -> int | Misread:
    """Read an amount in a currency's minor units: “182,40” is 18240 in EUR."""
    digits = minor_digits(currency)
    example = "182.40" if digits == 2 else f"{Decimal(182).scaleb(0):.{digits}f}"
    typed = _tidy(text)
    for mark in (currency.upper(), currency.lower(), "€", "£", "$"):
        typed = typed.removeprefix(mark).removesuffix(mark).strip()
    number = _exact(typed, example, sure_decimal=digits == 3)
    if isinstance(number, Misread):
        return number
    minor = number.scaleb(digits)
    if minor != minor.to_integral_value():
        return Misread(say=f"{_shown(text)} is finer than the currency; write {example}.")
    return int(minor)


def read_sides(text: str) -> tuple[int, int] | Misread:
    """Read two sides in mm: “5200 x 4100”, “5.2 x 4.1 m”."""
    example = "5200 x 4100, or 5.2 x 4.1 m"
    sides = _SIDES.fullmatch(_tidy(text))
    if sides is None:
        return Misread(say=f"{_shown(text)} is no pair of sides; write {example}.")
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


def read_ring(text: str) -> Ring | Misread:
    """Read an outline: two sides, a walk along the walls, or its corners in mm.

    “5200 x 4100” · “5200 right, 4100 up, 5200 left, 4100 down” · “0,0 5200,0 5200,4100 0,4100”.
    """
    typed = _tidy(text)
    if not typed:
        return Misread(say="Write two sides like 5200 x 4100, or walk along the walls: 5200 right, 4100 up …")
    if re.search(r"[0-9]\s*(?:mm)?\s*(?:r|l|u|d|right|left|up|down)\b", typed, re.IGNORECASE):
        try:
            return from_walk(typed)
        except Refused as refused:
            return Misread(say=str(refused))
    if re.search(r"[x×*]", typed, re.IGNORECASE):
        sides = read_sides(typed)
        return sides if isinstance(sides, Misread) else _rectangle(*sides, 0, 0)
    return _read_corners(typed)


def _read_corners(typed: str) -> Ring | Misread:
    example = "corners in mm are written 0,0 5200,0 5200,4100 0,4100"
    inner = typed[1:-1] if typed.startswith("[[") and typed.endswith("]]") else typed
    left = re.sub(r"[\s,;]+", "", _CORNER.sub("", inner))
    corners = tuple((int(x), int(y)) for x, y in _CORNER.findall(inner))
    if left or len(corners) < 3:
        return Misread(say=f"{_shown(typed)} is no outline; write two sides like 5200 x 4100; {example}.")
    return corners


def _rectangle(length: int, width: int, x: int, y: int) -> Ring:
    return ((x, y), (x + length, y), (x + length, y + width), (x, y + width))


def read_cut_outs(text: str) -> tuple[Ring, ...] | Misread:
    """Read cut-outs, parted by semicolons: “1000 x 500 at 0,0; 400 x 400 at 1200,300”, or corners."""
    rings: list[Ring] = []
    for part in (one for one in _tidy(text).split(";") if one.strip()):
        placed = _AT.fullmatch(part.strip())
        if placed is None:
            ring = _read_corners(part.strip())
            if isinstance(ring, Misread):
                return Misread(
                    say=f"{_shown(part)} is no cut-out; write 1000 x 500 at 0,0; the next after a semicolon."
                )
        else:
            sides = read_sides(placed[1])
            if isinstance(sides, Misread):
                return sides
            ring = _rectangle(*sides, int(placed[2]), int(placed[3]))
        rings.append(ring)
    return tuple(rings)


def typed_ring(ring: Ring) -> str:
    """Return an outline as a field is filled with it, to be read back the same."""
    if len(ring) == 4 and ring == _rectangle(ring[2][0], ring[2][1], 0, 0):
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
