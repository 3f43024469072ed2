"""Reads the lengths of the boards in a pack: so many of each, or any length between two; writes them the same way."""

import re
from dataclasses import dataclass

from tui.typed.figures import Misread, read_mm, shown, tidy

Lengths = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackLengths:
    """The lengths in a pack, in mm: each with how many of it, or the shortest and the longest; or nothing."""

    each: Lengths = ()
    shortest_mm: int | None = None
    longest_mm: int | None = None

    @property
    def boards(self) -> int | None:
        """How many boards lie in the pack, where that is said."""
        return sum(count for _, count in self.each) or None


EXAMPLE = "5 x 1900, 1 x 1000, 1 x 900, or any length between two: 500 - 1900"
_SOME_OF_EACH = re.compile(r"([0-9]{1,5})\s*[x×*]\s*([0-9]{1,6})(?:\s*mm)?", re.IGNORECASE)
_BETWEEN = re.compile(r"([0-9]{1,6})\s*(?:mm)?\s*(?:-|–|to)\s*([0-9]{1,6})(?:\s*mm)?", re.IGNORECASE)


def read_lengths(text: str) -> PackLengths | Misread:
    """Read the lengths in a pack: “5 x 1900, 1 x 1000, 1 x 900” · “500 - 1900”. Nothing typed means one length."""
    typed = tidy(text)
    if not typed:
        return PackLengths()
    between = _BETWEEN.fullmatch(typed)
    if between is not None:
        shortest, longest = sorted((int(between[1]), int(between[2])))
        return PackLengths(shortest_mm=shortest, longest_mm=longest)
    found: dict[int, int] = {}
    for part in re.split(r"[,;+]", typed):
        some = _SOME_OF_EACH.fullmatch(part.strip())
        if some is None:
            return Misread(say=f"{shown(part)} is no length with a count; write {EXAMPLE}.")
        length = int(some[2])
        found[length] = found.get(length, 0) + int(some[1])
    each = tuple(sorted(found.items(), reverse=True))
    return PackLengths(each=each, longest_mm=each[0][0])


def say_lengths(lengths: Lengths) -> str:
    """Return lengths as a field is filled with them: “5 x 1900, 1 x 1000”."""
    return ", ".join(f"{count} x {length}" for length, count in lengths)


def read_run_mm(text: str) -> int | Misread:
    """Read what the boards of a pack measure end to end: metres like 11.4, or with a unit."""
    typed = tidy(text)
    return read_mm(typed if re.search(r"[a-z]$", typed, re.IGNORECASE) else f"{typed} m")
