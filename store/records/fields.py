"""How single values are written down: moments, days, figures and lists, each in one exact form."""

import json
import math
import re
from dataclasses import fields
from datetime import MAXYEAR, MINYEAR, UTC, date, datetime, time

from peewee import Field

from store.errors import Refused
from store.trade.evidence import Zone
from store.trade.firm import ClimateRange
from store.trade.jobs import Method, Subfloor
from store.trade.outline import Ring
from store.trade.own_limits import OwnLimit
from store.trade.suppliers import Supplier


def written(moment: datetime) -> str:
    """Return a moment as it is written down: UTC, always with microseconds, so that text order is time order.

    Raises:
        Refused: outside the years 1 to 9999 when told in UTC.
        TypeError: for a moment without a zone, which is a bug.

    >>> written(datetime.fromisoformat("2026-11-25T07:30:00+01:00"))
    '2026-11-25T06:30:00.000000Z'
    """
    if moment.tzinfo is None:
        raise TypeError("A moment without a zone cannot be filed.")
    try:
        utc = moment.astimezone(UTC)
    except OverflowError as error:
        raise Refused("That moment lies outside the calendar.") from error
    return utc.replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


_MOMENT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z", re.ASCII)


def read_moment(text: str) -> datetime:
    """Return the moment that ``written`` wrote; ValueError for anything else."""
    if not _MOMENT.fullmatch(text):
        raise ValueError(text)
    moment = datetime.fromisoformat(text)
    if not MINYEAR < moment.year < MAXYEAR:  # the firm's own clock must be able to show it
        raise ValueError(text)
    return moment


class Written(Field):
    """A column; text and numbers go in and come out as they are, unless a child says otherwise."""

    field_type = "TEXT"


class MomentField(Written):
    """An aware moment, as UTC text."""

    def db_value(self, value: datetime | None) -> str | None:
        return None if value is None else written(value)

    def python_value(self, value: str | None) -> datetime | None:
        return None if value is None else read_moment(value)


class DayField(Written):
    """A calendar day, as ISO text."""

    def db_value(self, value: date | None) -> str | None:
        return None if value is None else value.isoformat()

    def python_value(self, value: str | None) -> date | None:
        return None if value is None else date.fromisoformat(value)


class ClockField(Written):
    """A time on the firm's wall clock, as ISO text."""

    def db_value(self, value: time) -> str:
        return value.isoformat()

    def python_value(self, value: str) -> time:
        clock = time.fromisoformat(value)
        if clock.tzinfo is not None:
            raise ValueError(value)
        return clock


class WholeField(Written):
    """A whole number that is never rounded on the way in: the table's STRICT says no to anything else."""

    field_type = "INTEGER"


class FigureField(Written):
    """A measured figure; one that is not finite is refused, because SQLite would keep NaN as nothing."""

    field_type = "REAL"

    def db_value(self, value: float | None) -> float | None:
        if value is not None and not math.isfinite(value):
            raise Refused("A figure that is not a number cannot be filed.")
        return value


class FlagField(Written):
    """Yes or no, as 1 or 0; an empty column is no."""

    field_type = "INTEGER"

    def db_value(self, value: bool) -> int:
        return int(value)

    def python_value(self, value: int | None) -> bool:
        return bool(value)


class WordsField(Written):
    """Text as it was typed."""


class ListField(Written):
    """A list of numbers or text, as compact JSON."""

    def db_value(self, value: tuple[object, ...]) -> str:
        return json.dumps(value, ensure_ascii=False, separators=(",", ":"))

    def python_value(self, value: str) -> tuple[object, ...]:
        return tuple(json.loads(value))


class FiguresField(ListField):
    """Measured figures, as a JSON list; one that is not finite is refused."""

    def db_value(self, value: tuple[object, ...]) -> str:
        return super().db_value(tuple(_finite(one) for one in value))

    def python_value(self, value: str) -> tuple[object, ...]:
        return tuple(map(_number, super().python_value(value)))


class HeightsField(Written):
    """Rows of heights, as a JSON list of lists; null where a point could not be read."""

    def db_value(self, value: tuple[tuple[object, ...], ...] | None) -> str | None:
        if value is None:
            return None
        return json.dumps([[_finite(one) for one in row] for row in value], separators=(",", ":"))

    def python_value(self, value: str | None) -> tuple[object, ...] | None:
        if value is None:
            return None
        return tuple(tuple(None if one is None else _number(one) for one in row) for row in json.loads(value))


class ZoneField(Written):
    """The part of a screed that a sample came from, as its word."""

    def python_value(self, value: str | None) -> Zone | None:
        return None if value is None else Zone(value)


class DaysField(ListField):
    """Calendar days, as a JSON list of ISO text."""

    def db_value(self, value: tuple[object, ...]) -> str:
        return super().db_value(tuple(str(day) for day in value))

    def python_value(self, value: str) -> tuple[object, ...]:
        return tuple(date.fromisoformat(str(day)) for day in super().python_value(value))


class RingField(ListField):
    """Corners in mm, as a JSON list of pairs."""

    def python_value(self, value: str) -> tuple[object, ...]:
        return ring(json.loads(value))


class RingsField(ListField):
    """Several rings of corners in mm, as a JSON list of lists of pairs."""

    def python_value(self, value: str) -> tuple[object, ...]:
        return tuple(ring(corners) for corners in json.loads(value))


def ring(corners: list[list[int]]) -> Ring:
    """Return corners as read from JSON in the form the trade wants."""
    return tuple((x, y) for x, y in corners)


class PairsField(ListField):
    """Pairs of whole numbers, as a JSON list of lists; an empty column holds none."""

    def python_value(self, value: str | None) -> tuple[object, ...]:
        return () if value is None else tuple((low, high) for low, high in json.loads(value))


class ClimateField(Written):
    """A range of room air, as a JSON list: coldest, warmest, driest, dampest."""

    def db_value(self, value: ClimateRange | None) -> str | None:
        if value is None:
            return None
        limits = (value.temp_min_c, value.temp_max_c, value.rh_min_percent, value.rh_max_percent)
        if not all(map(math.isfinite, limits)):
            raise Refused("A figure that is not a number cannot be filed.")
        return json.dumps(limits, separators=(",", ":"))

    def python_value(self, value: str | None) -> ClimateRange | None:
        if value is None:
            return None
        temp_min_c, temp_max_c, rh_min_percent, rh_max_percent = map(_number, json.loads(value))
        return ClimateRange(
            temp_min_c=temp_min_c,
            temp_max_c=temp_max_c,
            rh_min_percent=rh_min_percent,
            rh_max_percent=rh_max_percent,
        )


class LimitsField(Written):
    """Limits that a sheet or the firm sets, each as a JSON list of its fields; an empty column holds none."""

    def db_value(self, value: tuple[OwnLimit, ...]) -> str:
        if not all(math.isfinite(one.most) for one in value):
            raise Refused("A figure that is not a number cannot be filed.")
        told = [[one.kind, one.most, one.subfloor, one.heated, one.method, one.because] for one in value]
        return json.dumps(told, ensure_ascii=False, separators=(",", ":"))

    def python_value(self, value: str | None) -> tuple[OwnLimit, ...]:
        return () if value is None else tuple(_limit(*one) for one in json.loads(value))


class SuppliersField(Written):
    """The firm's suppliers, each as a JSON list of its fields."""

    def db_value(self, value: tuple[Supplier, ...]) -> str:
        if not all(math.isfinite(one.return_fee_percent) for one in value):
            raise Refused("A figure that is not a number cannot be filed.")
        told = [[getattr(one, field.name) for field in fields(one)] for one in value]
        return json.dumps(told, ensure_ascii=False, separators=(",", ":"))

    def python_value(self, value: str) -> tuple[Supplier, ...]:
        return tuple(_supplier(*one) for one in json.loads(value))


def _supplier(
    name: str,
    contact: str,
    lead_days: int | None,
    least_return_packs: int,
    return_days: int | None,
    *money: float,
) -> Supplier:
    fee, freight = money
    return Supplier(
        name=name,
        contact=contact,
        lead_days=lead_days,
        least_return_packs=least_return_packs,
        return_days=return_days,
        return_fee_percent=_number(fee),
        return_freight_minor=int(freight),
    )


def _limit(
    kind: str, most: float, subfloor: str | None, heated: bool | None, method: str | None, because: str
) -> OwnLimit:
    return OwnLimit(
        kind=kind,
        most=_number(most),
        subfloor=None if subfloor is None else Subfloor(subfloor),
        heated=heated,
        method=None if method is None else Method(method),
        because=because,
    )


def _finite(value: object) -> object:
    if isinstance(value, float) and not math.isfinite(value):
        raise Refused("A figure that is not a number cannot be filed.")
    return value


def _number(value: object) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise ValueError(value)  # noqa: TRY004 - what was read is wrong, not how it was asked for
    return value
