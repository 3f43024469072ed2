"""Fits words into cells of the terminal without cutting one in two: whole words, whole parts, hanging lines."""

import re
from collections.abc import Sequence

from rich.cells import cell_len, chop_cells

from tui.widgets.safe import cut
from tui.words.wording import clean

_HELD = "\x00"
_HELD_TOGETHER = re.compile(
    r"\b(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun) \d+ [A-Z][a-z]{2}(?: \d{4}\b)?(?: \d\d:\d\d)?"
    r"|\d+ h of \d+ h\b|\d (?:°C|%|h\b|mm\b|m²|kg\b|packs?\b|boards?\b)"
)
"""What is read as one: “Mon 30 Nov 14:00”, “65 %”, “168 h”."""


def fit_words(text: str, width: int) -> str:
    """Return as many whole words as there is room for, and an ellipsis for the rest.

    >>> fit_words("Oak floor in the reading room", 20)
    'Oak floor in the…'
    """
    shown = clean(text)
    if cell_len(shown) <= width:
        return shown
    short = cut(shown, width).removesuffix("…")
    whole = short if shown[len(short) : len(short) + 1] == " " else short.rpartition(" ")[0]
    return f"{whole.rstrip(' ,;:·') or short}…" if width > 0 else ""


def fit_parts(parts: Sequence[str], width: int) -> str:
    """Return as many parts as there is room for, in order, with dots between them; the first always shows.

    >>> fit_parts(("Ready Mon 30 Nov 14:00", "41 h of 168 h"), 30)
    'Ready Mon 30 Nov 14:00'
    """
    said = ""
    for part in parts:
        longer = f"{said} · {clean(part)}" if said else clean(part)
        if said and cell_len(longer) > width:
            break
        said = longer
    return fit_words(said, width)


def wrapped(text: str, width: int) -> list[str]:
    """Return the lines that a text takes; a word longer than a line is broken, a day or a figure's unit is not apart.

    >>> wrapped("Put the air in Vestry right, then read it again", 20)
    ['Put the air in', 'Vestry right, then', 'read it again']
    """
    lines: list[str] = []
    line = ""
    for held in _HELD_TOGETHER.sub(lambda held: held.group().replace(" ", _HELD), clean(text)).split(" "):
        word = held.replace(_HELD, " ")
        longer = f"{line} {word}" if line else word
        if cell_len(longer) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = chop_cells(word, width) if width > 0 and cell_len(word) > width else [word]
        lines += whole
    return [*lines, line] if line or not lines else lines


def share_out(room: int, wanted: Sequence[int]) -> list[int]:
    """Return what each of several columns gets of the room: what it wants, or a fair share of too little.

    >>> share_out(60, (44, 30)), share_out(100, (44, 30))
    ([30, 30], [44, 30])
    """
    got = [0] * len(wanted)
    left = max(room, 0)
    order = sorted(range(len(wanted)), key=lambda place: wanted[place])
    for done, place in enumerate(order):
        got[place] = min(wanted[place], left // (len(order) - done))
        left -= got[place]
    return got
