"""A value and its place in the file: read as what it must be, or refused by naming that place."""

import math
import re
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from decimal import Decimal
from enum import StrEnum
from typing import NoReturn, TypeVar

from store.errors import Problem, Refused
from store.papers.json_text import MOST_FIGURES, Figure, KeyTwice

T = TypeVar("T")
D = TypeVar("D")
Word = TypeVar("Word", bound=StrEnum)

MOST_CHARACTERS = 10_000
MOST_PACKS = 1_000_000
_FIRST_YEAR, _LAST_YEAR = 1900, 2199
_UNKEEPABLE = re.compile("[\x00\ud800-\udfff]")
_INSTANT = re.compile(r"[0-9W-]+[T ][0-9:.,]+(Z|[+-][0-9:.]+)", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A value as it stands in the file, and where: ``jobs[0].rooms[1].outline``."""

    value: object
    place: str

    def refuse(self, say: str) -> NoReturn:
        """Raise Refused with one sentence: the place, and what is wrong there."""
        raise Refused(f"{shown(self.place, 300) or 'The file'}: {shown(say, 600)}")

    def must_be(self, wanted: str) -> NoReturn:
        """Raise Refused: there is something else here than is wanted."""
        self.refuse(f"must be {wanted}, not {_found(self.value)}.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Keys:
    """An object of the file: the values of its keys, to be read one by one."""

    values: Mapping[str, object]
    place: str

    def spot(self, key: str) -> Spot:
        """Return the value of a key and its place; None where the key is left out."""
        return Spot(value=self.values.get(key), place=f"{self.place}.{key}" if self.place else key)

    def need(self, key: str, read: Callable[[Spot], T]) -> T:
        """Return the value of a key that must be there."""
        spot = self.spot(key)
        if key not in self.values:
            spot.refuse("is missing.")
        return read(spot)

    def may(self, key: str, read: Callable[[Spot], T], otherwise: D) -> T | D:
        """Return the value of a key, or the other value where it is left out or null."""
        spot = self.spot(key)
        return otherwise if spot.value is None else read(spot)

    def each(self, key: str, read: Callable[[Spot], T]) -> tuple[T, ...]:
        """Return the values of a list; a list left out or null has none."""
        return self.may(key, lambda spot: listed(spot, read), ())

    def vet(self, problems: Collection[Problem]) -> None:
        """Refuse the first of the problems, at the key it belongs to."""
        for problem in problems:
            self.spot(problem.field).refuse(problem.say)


def bared(spot: Spot) -> Keys:
    """Return an object's keys, whatever they are."""
    if isinstance(spot.value, KeyTwice):
        spot.refuse(f"has the key “{shown(spot.value.key)}” twice.")
    if not isinstance(spot.value, dict):
        spot.must_be("an object")
    return Keys(values=spot.value, place=spot.place)


def opened(spot: Spot, known: str) -> Keys:
    """Return an object's keys; ``known`` names those it may have, parted by spaces."""
    keys = bared(spot)
    known_keys = known.split()
    for key in keys.values:
        if key not in known_keys:
            keys.spot(shown(key)).refuse("is a key that no job folder has here.")
    return keys


def listed(spot: Spot, read: Callable[[Spot], T]) -> tuple[T, ...]:
    """Return the values of a list that must be there."""
    if not isinstance(spot.value, list):
        spot.must_be("a list")
    return tuple(read(Spot(value=value, place=f"{spot.place}[{index}]")) for index, value in enumerate(spot.value))


def text(spot: Spot) -> str:
    """Return a text exactly as it is given, up to 10,000 characters."""
    if not isinstance(spot.value, str):
        spot.must_be("text")
    if len(spot.value) > MOST_CHARACTERS:
        spot.refuse(f"is {len(spot.value):,} characters long; no more than {MOST_CHARACTERS:,} can be kept.")
    if _UNKEEPABLE.search(spot.value):
        spot.refuse("holds a character that stands for none (NUL or half a surrogate pair).")
    return spot.value


def name(spot: Spot) -> str:
    """Return a text that says something: more than spaces."""
    given = text(spot)
    if not given.strip():
        spot.refuse("must not be empty.")
    return given


def truth(spot: Spot) -> bool:
    """Return true or false."""
    if not isinstance(spot.value, bool):
        spot.must_be("true or false")
    return spot.value


def whole(spot: Spot) -> int:
    """Return a whole number; 12.0 is not written as one."""
    _not_too_long(spot)
    if isinstance(spot.value, bool) or not isinstance(spot.value, int):
        spot.must_be("a whole number")
    return spot.value


def whole_from(least: int, most: int = MOST_PACKS) -> Callable[[Spot], int]:
    """Return a reader of whole numbers within limits, both inclusive."""

    def read(spot: Spot) -> int:
        given = whole(spot)
        if not least <= given <= most:
            spot.refuse(f"must be a whole number from {least:,} to {most:,}, not {given}.")
        return given

    return read


def number(spot: Spot) -> float:
    """Return a number, with a fraction or without; never one that is not finite."""
    return float(decimal(spot))


def decimal(spot: Spot) -> Decimal:
    """Return a number exactly as it is written."""
    _not_too_long(spot)
    if isinstance(spot.value, Figure):
        if not math.isfinite(float(spot.value.written)):
            spot.refuse(f"{spot.value.written} is no number that can be kept.")
        # An exponent that a float cannot tell from nought is nought here too.
        return Decimal(spot.value.written) if float(spot.value.written) else Decimal(0)
    if isinstance(spot.value, bool) or not isinstance(spot.value, int):
        spot.must_be("a number")
    return Decimal(spot.value)


def _not_too_long(spot: Spot) -> None:
    if isinstance(spot.value, Figure) and len(spot.value.written) > MOST_FIGURES:
        spot.refuse(f"is a number of more than {MOST_FIGURES} figures.")


def day(spot: Spot) -> date:
    """Return a date, ISO 8601, from 1900 to 2199."""
    try:
        given = date.fromisoformat(text(spot))
    except ValueError:
        spot.must_be("a date like 2026-11-17")
    if not _FIRST_YEAR <= given.year <= _LAST_YEAR:
        spot.refuse(f"must be a date from {_FIRST_YEAR} to {_LAST_YEAR}, not {given}.")
    return given


def instant(spot: Spot) -> datetime:
    """Return an instant, ISO 8601 with an offset, from 1900 to 2199 in UTC."""
    written = text(spot)
    try:
        given = datetime.fromisoformat(written)
    except ValueError:
        spot.must_be("an instant like 2026-11-17T09:30:00+01:00")
    if given.tzinfo is None:
        spot.must_be("an instant with its offset, like 2026-11-17T09:30:00+01:00")
    if not _INSTANT.fullmatch(written):
        spot.must_be("an instant like 2026-11-17T09:30:00+01:00")
    try:
        year = given.astimezone(UTC).year
    except OverflowError:
        year = given.year
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        spot.refuse(f"must be an instant from {_FIRST_YEAR} to {_LAST_YEAR}, not {written}.")
    return given


def time_of_day(spot: Spot) -> time:
    """Return a time of the firm's day."""
    try:
        given = time.fromisoformat(text(spot))
    except ValueError:
        spot.must_be("a time of day like 08:00")
    if given.tzinfo is not None:
        spot.refuse("must be a time of day without an offset, like 08:00.")
    return given


def word_of(words: type[Word]) -> Callable[[Spot], Word]:
    """Return a reader of the words of an enumeration."""

    def read(spot: Spot) -> Word:
        return words(one_of(spot, [word.value for word in words]))

    return read


def one_of(spot: Spot, words: Collection[str]) -> str:
    """Return one of these words."""
    if not isinstance(spot.value, str) or spot.value not in words:
        spot.must_be(f"one of {', '.join(words)}")
    return spot.value


def shown(given: str, most: int = 60) -> str:
    """Return a text that may stand in a sentence: one line, no control characters, and not too long.

    The middle of a long one is left out.
    """
    short = given if len(given) <= most else f"{given[: most * 2 // 3]}…{given[-most // 3 :]}"
    return "".join(sign if sign.isprintable() else "\N{REPLACEMENT CHARACTER}" for sign in short)


def _found(value: object) -> str:
    match value:
        case str():
            return f"“{shown(value)}”"
        case None | bool() | int():
            return str(value).lower().replace("none", "null")
        case Figure():
            return shown(value.written)
        case _:
            return "a list" if isinstance(value, list) else "an object"


def pair(spot: Spot) -> tuple[int, int]:
    """Return two whole numbers."""
    both = listed(spot, whole)
    if len(both) != 2:
        spot.refuse(f"must be 2 whole numbers, not {len(both)}.")
    return both[0], both[1]
