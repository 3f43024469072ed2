"""Reads many figures typed in one line: a timber meter's percents, and a grid of heights row by row."""

import re

from tui.typed.figures import Misread, read_number, shown
from tui.words.wording import typed_number

_UNREAD = {"-", "–", "x"}
Heights = tuple[tuple[float | None, ...], ...]


def read_percents(text: str) -> tuple[float, ...] | Misread:
    """Read one figure or many, parted by blanks or semicolons: “9.5”, “9,5 10 9,8”."""
    found: list[float] = []
    for one in re.split(r"[\s;]+", text.strip()):
        number = read_number(one.rstrip(",%"))
        if isinstance(number, Misread):
            return number if one == text.strip() else Misread(say=f"{shown(one)} is no figure; write like 9.5 10 9.8.")
        found.append(number)
    return tuple(found)


def typed_percents(figures: tuple[float, ...]) -> str:
    """Return figures as a field is filled with them."""
    return " ".join(typed_number(one) for one in figures)


def read_heights(text: str, *, downward: bool = False) -> Heights | Misread:
    """Read a grid of heights in mm, its rows parted by semicolons or slashes: “0 1 2; 0 - 3”.

    A dash is a point that could not be read. ``downward``: the figures are measured down from a line above the floor,
    as with a laser, so that a larger one is a lower point.
    """
    rows: list[tuple[float | None, ...]] = []
    for number, row in enumerate((one.strip() for one in re.split(r"[;/\n]", text.strip().rstrip(";/"))), 1):
        points: list[float | None] = []
        for one in row.split():
            if one.lower() in _UNREAD:
                points.append(None)
                continue
            height = read_number(one)
            if isinstance(height, Misread):
                return Misread(say=f"{shown(one)} in row {number} is no height; write rows like 0 1.5 2; 0 - 3.")
            points.append(-height if downward else height)
        if not points:
            return Misread(say=f"Row {number} has no points; write rows like 0 1.5 2; 0 - 3.")
        rows.append(tuple(points))
    return tuple(rows)


def typed_heights(heights: Heights) -> str:
    """Return a grid as a field is filled with it."""
    return "; ".join(" ".join("-" if one is None else typed_number(one) for one in row) for row in heights)
