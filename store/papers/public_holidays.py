"""The public holidays of a country, by name, and the country that a time zone is used in.

The days come from the ``holidays`` library, a collection of each country's laws and customs kept by volunteers. It can
be wrong or late, and when a firm is shut is the firm's own affair: days are only offered, never taken over unseen.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import resources
from typing import TYPE_CHECKING

from store.errors import Refused

if TYPE_CHECKING:
    from holidays import HolidayBase

_SMALL_WORDS = {"and": "and", "of": "of", "the": "the"}
_FIRST_YEAR, _LAST_YEAR = 1900, 2199


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A country or a part of one: its code (ISO 3166 where there is one) and its name."""

    code: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PublicHoliday:
    """A day with the names it is kept under."""

    day: date
    name: str


@cache
def countries() -> tuple[Area, ...]:
    """Return the countries whose holidays are known, by name."""
    from holidays.registry import COUNTRIES  # noqa: PLC0415 - a tenth of a second that only this question pays

    found = (Area(code=names[1], name=_as_a_name(key)) for key, names in COUNTRIES.items())
    return tuple(sorted(found, key=lambda one: one.name))


def parts_of(country: str) -> tuple[Area, ...]:
    """Return the parts of a country that keep days of their own, by name; none where there are none.

    Raises:
        Refused: no country of this code is known.
    """
    calendar = _calendar(country, "", ())
    names: dict[str, str] = {}
    for name, code in calendar.subdivisions_aliases.items():
        names.setdefault(code, name)
    parts = (Area(code=code, name=names.get(code, code)) for code in calendar.subdivisions)
    return tuple(sorted(parts, key=lambda one: one.name))


def public_holidays(country: str, part: str, years: Iterable[int]) -> tuple[PublicHoliday, ...]:
    """Return the public holidays of a country, or of a part of it, in some years, in order; names in English.

    A day off because the holiday itself falls on a weekend is one of them.

    Raises:
        Refused: no such country, part or year is known.
    """
    calendar = _calendar(country, part, tuple(years))
    return tuple(PublicHoliday(day=day, name=name) for day, name in sorted(calendar.items()))


@cache
def country_of_zone(time_zone: str) -> str:
    """Return the code of the country that a time zone is used in, by the IANA table; empty where it names none.

    >>> country_of_zone("Europe/Brussels"), country_of_zone("UTC")
    ('BE', '')
    """
    table = resources.files("tzdata").joinpath("zoneinfo", "zone.tab").read_text(encoding="utf-8")
    rows = (line.split("\t") for line in table.splitlines() if not line.startswith("#"))
    return next((row[0] for row in rows if len(row) > 2 and row[2] == time_zone), "")


def _calendar(country: str, part: str, years: tuple[int, ...]) -> "HolidayBase":
    from holidays import country_holidays  # noqa: PLC0415 - a tenth of a second that only this question pays

    if any(not _FIRST_YEAR <= year <= _LAST_YEAR for year in years):
        raise Refused(f"Holidays are known from {_FIRST_YEAR} to {_LAST_YEAR}.")
    try:
        known = country_holidays(country)
        if part and part not in known.subdivisions:
            raise Refused(f"“{part}” is no part of that country with holidays of its own.")
        return country_holidays(country, subdiv=part or None, years=years, language=_english(known))
    except NotImplementedError:
        raise Refused(f"No holidays are known for “{country}”.") from None


def _english(known: "HolidayBase") -> str | None:
    """The English the names are on hand in, British first; None where there is only the country's own language."""
    spoken = [one for one in known.supported_languages if one.startswith("en")]
    return min(spoken, key=lambda one: (one != "en_GB", one), default=None)


def _as_a_name(key: str) -> str:
    return " ".join(_SMALL_WORDS.get(word, word.capitalize()) for word in key.split("_"))
