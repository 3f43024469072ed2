"""When boards have settled: their moisture stands still, where a maker asks for that instead of hours.

What ends acclimatisation is the reading, not the date: one goes on until the boards agree with the climate they will
live in and no further change occurs (US wood-floor association's steps). The figures of the rule are a house rule, no
source: the means of two rounds at least 24 hours apart differ by 0.5 points at most, and the later one lies within
1.5 points of what wood settles at in the middle of the range of air it may be laid in (USDA Wood Handbook
FPL-GTR-190, eq. 4-5).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo

from store.errors import Refused
from store.trade.firm import ClimateRange
from store.trade.moisture import emc

APART = timedelta(hours=24)
STILL_POINTS = 0.5
NEAR_POINTS = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """The readings of one day: when the last was taken, their mean in %, and how many there are."""

    at: datetime
    mean: float
    readings: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Settling:
    """How far boards have settled.

    ``settled_at`` is when the latest round proved it, None while it has not. ``again_at`` is when another round can
    first prove it. ``change`` is how far the last round lies from the one it is held against, ``off`` how far from
    where the boards should settle; each None where there is nothing to compare.
    """

    settled_at: datetime | None
    again_at: datetime | None
    change: float | None
    off: float | None


def rounds_of(readings: Sequence[tuple[datetime, float]], zone: tzinfo) -> tuple[Round, ...]:
    """Return readings gathered by the calendar day of a zone, oldest first, in whatever order they come."""
    days: dict[object, list[tuple[datetime, float]]] = {}
    for at, figure in readings:
        days.setdefault(at.astimezone(zone).date(), []).append((at, figure))
    gathered = (
        Round(
            at=max(at for at, _ in taken),
            mean=sum(sorted(figure for _, figure in taken)) / len(taken),
            readings=len(taken),
        )
        for taken in days.values()
    )
    return tuple(sorted(gathered, key=lambda one: one.at))


def settling(rounds: Sequence[Round], climate: ClimateRange) -> Settling:
    """Return how far boards have settled by their rounds of readings, oldest first.

    >>> from datetime import UTC
    >>> zero = datetime(2026, 11, 2, 8, tzinfo=UTC)
    >>> days = [
    ...     Round(at=zero + timedelta(days=day), mean=mean, readings=3) for day, mean in ((0, 8.6), (2, 9.3), (4, 9.5))
    ... ]
    >>> settling(days[:2], ClimateRange()).settled_at is None
    True
    >>> settling(days, ClimateRange()).settled_at == days[2].at
    True
    """
    if not rounds:
        return Settling(settled_at=None, again_at=None, change=None, off=None)
    last = rounds[-1]
    earlier = [one for one in rounds[:-1] if last.at - one.at >= APART]
    change = abs(last.mean - earlier[-1].mean) if earlier else None
    aim = aim_of(climate)
    off = None if aim is None else abs(last.mean - aim)
    still = change is not None and change <= STILL_POINTS
    good = still and (off is None or off <= NEAR_POINTS)
    again = rounds[0].at + APART if not earlier else last.at + APART
    return Settling(settled_at=last.at if good else None, again_at=None if good else again, change=change, off=off)


def aim_of(climate: ClimateRange) -> float | None:
    """Return where wood settles in the middle of a range of air, in %; None outside what the equation covers."""
    temp = (climate.temp_min_c + climate.temp_max_c) / 2
    rh = (climate.rh_min_percent + climate.rh_max_percent) / 2
    try:
        return emc(temp_c=temp, rh_percent=rh).emc_percent
    except Refused:
        return None
