"""The half days that a firm works from a day on, and each fitter's own among them."""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from store.errors import Refused
from store.trade.diary import end_of, is_worked, later, middle_of, start_of
from store.trade.firm import FirmDraft
from store.trade.planning.nouns import Fitter, Half

FARTHEST_DAYS = 366
_TAIL_DAYS = 60
_HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Half days in order of time, with the instants (UTC) at which each starts and ends.

    Floors are laid in the first ``usable`` of them; those beyond are only there for handing over.
    """

    halves: tuple[Half, ...]
    starts: tuple[datetime, ...]
    ends: tuple[datetime, ...]
    usable: int

    def first_from(self, at: datetime) -> int:
        """Return the first half day that starts at or after an instant; the number of all if there is none."""
        return bisect_left(self.starts, at)

    def going_on(self, at: datetime) -> int:
        """Return the half day that is going on at an instant, or the next one."""
        return bisect_right(self.ends, at)

    def handover_on(self, last: int, cure_hours: float) -> date:
        """Return the day of the first working moment after a floor laid until half day ``last`` has cured."""
        cured = later(self.ends[last], cure_hours)
        return self.halves[min(bisect_right(self.ends, cured), len(self.halves) - 1)].day

    def own(self, fitter: Fitter) -> tuple[int, ...]:
        """Return the half days in which a fitter works."""
        days = fitter.working_days
        return tuple(
            place
            for place, half in enumerate(self.halves[: self.usable])
            if half.day not in fitter.off and half not in fitter.busy and (days is None or half.day.weekday() in days)
        )


def start_of_half(firm: FirmDraft, half: Half) -> datetime:
    """Return the instant (UTC) at which a half day starts."""
    return start_of(firm, half.day) if half.half == 0 else middle_of(firm, half.day)


def end_of_half(firm: FirmDraft, half: Half) -> datetime:
    """Return the instant (UTC) at which a half day ends."""
    return middle_of(firm, half.day) if half.half == 0 else end_of(firm, half.day)


def hours_a_half(firm: FirmDraft, fitter: Fitter) -> float:
    """Return the hours that a fitter works in half a day: half of their own day's, or of the firm's.

    Raises:
        Refused: the fitter works no hours a day.
    """
    from_to = timedelta(
        hours=firm.day_ends.hour - firm.day_starts.hour, minutes=firm.day_ends.minute - firm.day_starts.minute
    )
    a_day = from_to / timedelta(hours=1) if fitter.hours_a_day is None else fitter.hours_a_day
    if a_day <= 0:
        raise Refused(f"{fitter.name} works no hours a day; give some.")
    return a_day / 2


def halves_needed(firm: FirmDraft, hours: float, fitter: Fitter) -> int:
    """Return the half days a fitter needs for so many hours of work, at least one; Refused as ``hours_a_half``."""
    return max(1, math.ceil(hours / hours_a_half(firm, fitter) - _HAIR))


def grid_from(firm: FirmDraft, first_day: date, cure_hours: Sequence[float] = (), days: int = FARTHEST_DAYS) -> Grid:
    """Return the half days of a firm from ``first_day`` on, for so many days, and beyond for the longest cure.

    Raises:
        Refused: the firm works on none of these days.
    """
    beyond = _TAIL_DAYS + math.ceil(max(cure_hours, default=0) / 24)
    halves: list[Half] = []
    starts: list[datetime] = []
    ends: list[datetime] = []
    usable = 0
    for ahead in range(days + beyond):
        day = first_day + timedelta(days=ahead)
        if not is_worked(firm, day):
            continue
        two = (Half(day, 0), Half(day, 1))
        halves += two
        starts += (start_of_half(firm, half) for half in two)
        ends += (end_of_half(firm, half) for half in two)
        if ahead < days:
            usable = len(halves)
    if not usable:
        raise Refused("The firm works on none of these days; look at its working days and holidays.")
    return Grid(halves=tuple(halves), starts=tuple(starts), ends=tuple(ends), usable=usable)
