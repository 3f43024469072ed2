"""The firm: its working hours, its zone, and the limits it works to where a maker's sheet says nothing."""

from dataclasses import dataclass
from datetime import date, time
from enum import StrEnum
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from store.errors import Problem
from store.trade.own_limits import OwnLimit, problems_with_limits
from store.trade.suppliers import Supplier, problems_with_suppliers
from store.trade.traditions import Tradition


class ClockForm(StrEnum):
    """How acclimatising hours are counted: see ``acclimatisation.py``."""

    RUNNING = "running"
    STRICT_LOG = "strict_log"


@dataclass(frozen=True, slots=True, kw_only=True)
class ClimateRange:
    """Room air that boards may lie and be laid in, limits inclusive: °C and % relative humidity.

    The default 18–24 °C and 40–65 % is common practice among makers, with no standard behind it;
    a board's own sheet goes before it.
    """

    temp_min_c: float = 18.0
    temp_max_c: float = 24.0
    rh_min_percent: float = 40.0
    rh_max_percent: float = 65.0

    def holds(self, temp_c: float, rh_percent: float) -> bool:
        """Whether this air is inside the range, the limits themselves included."""
        return self.temp_min_c <= temp_c <= self.temp_max_c and self.rh_min_percent <= rh_percent <= self.rh_max_percent


@dataclass(frozen=True, slots=True, kw_only=True)
class FirmDraft:
    """What the firm tells about itself. ``working_days`` counts Monday as 0.

    ``tradition`` says whose moisture limits it works to, ``own_limits`` where it has set another figure itself.
    ``tests_by_area``: whether as many tests as the area asks for must be on file, or are only told. ``suppliers`` are
    those it buys from.
    """

    name: str
    time_zone: str = "Europe/Brussels"
    working_days: tuple[int, ...] = (0, 1, 2, 3, 4)
    day_starts: time = time(8)
    day_ends: time = time(16, 30)
    holidays: tuple[date, ...] = ()
    currency: str = "EUR"
    climate: ClimateRange = ClimateRange()
    clock_form: ClockForm = ClockForm.RUNNING
    log_gap_hours: int = 24
    flat_limit_mm: int = 3
    reading_good_days: int = 7
    tradition: Tradition = Tradition.USUAL
    own_limits: tuple[OwnLimit, ...] = ()
    tests_by_area: bool = False
    suppliers: tuple[Supplier, ...] = ()

    @property
    def zone(self) -> ZoneInfo:
        """The IANA zone that the firm's wall clock keeps."""
        return ZoneInfo(self.time_zone)


@dataclass(frozen=True, slots=True, kw_only=True)
class Firm(FirmDraft):
    """The firm as it is on file; ``rev`` counts its changes."""

    rev: int


def problems_with_firm(draft: FirmDraft) -> tuple[Problem, ...]:
    """Return what is wrong with a firm's settings, a sentence for each field."""
    found: list[Problem] = []

    def wrong(field: str, say: str) -> None:
        found.append(Problem(field=field, say=say))

    if not draft.name.strip():
        wrong("name", "The firm needs a name.")
    if not zone_is_known(draft.time_zone):
        wrong("time_zone", f"“{draft.time_zone}” is no time zone; write one like Europe/Brussels.")
    if not draft.working_days or not set(draft.working_days) <= set(range(7)):
        wrong("working_days", "Name at least one working day, from mon to sun.")
    if draft.day_ends <= draft.day_starts:
        wrong("day_ends", "The working day ends before it starts.")
    limits = draft.climate
    if not -20 <= limits.temp_min_c < limits.temp_max_c <= 60:
        wrong("climate", "The coldest air allowed must be below the warmest, both from −20 to 60 °C.")
    if not 0 <= limits.rh_min_percent < limits.rh_max_percent <= 100:
        wrong("climate", "The driest air allowed must be below the dampest, both from 0 to 100 %.")
    if not 0 <= draft.flat_limit_mm <= 50:
        wrong("flat_limit_mm", "The gap allowed under the straightedge is a whole number from 0 to 50 mm.")
    if not 1 <= draft.reading_good_days <= 90:
        wrong("reading_good_days", "A moisture reading stays good from 1 to 90 days.")
    if not 1 <= draft.log_gap_hours <= 168:
        wrong("log_gap_hours", "The longest gap in the log is from 1 to 168 hours.")
    found += problems_with_limits("own_limits", draft.own_limits, reasons=True)
    found += problems_with_suppliers(draft.suppliers)
    return tuple(found)


def zone_is_known(name: str) -> bool:
    """Whether the IANA data has a zone of this name."""
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True
