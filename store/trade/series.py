"""The readings of a room as figures over time, each kind against what it must keep to."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import in_order, ticks_in
from store.trade.hours_that_count import Stretch, stretches
from store.trade.jobs import Room
from store.trade.judging import Limit, is_levelled_away, is_made_void, limit_for
from store.trade.readings import KINDS, Air, Reading, Straightedge
from store.trade.verdict import StackClock


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One figure of one kind of reading in a room, oldest first: its moments and values, and the range that is good.

    ``figure`` is the field of the reading that is followed: ``temp_c``, ``rh_percent``, ``percent`` or ``gap_mm``.
    ``counted`` are the stretches in which air was good and packs lay in it.
    """

    room: str
    kind: str
    figure: str
    points: tuple[tuple[datetime, float], ...]
    lowest_good: float | None = None
    highest_good: float | None = None
    counted: tuple[Stretch, ...] = ()

    @property
    def amiss(self) -> int:
        """How many of the values are out of range."""
        low, high = self.lowest_good, self.highest_good
        return sum((low is not None and value < low) or (high is not None and value > high) for _, value in self.points)


def series_in(
    firm: FirmDraft, facts: JobFacts, room: Room, clocks: Sequence[StackClock], now: datetime
) -> tuple[Series, ...]:
    """Return every figure read in a room, the air first; of air the hours that the room's packs were given for it.

    Readings that no longer count, because the subfloor was levelled or got wet since, are left out.
    """
    readings = [
        one
        for one in in_order(facts.readings, room.name)
        if not is_levelled_away(one, facts) and not is_made_void(one, facts)
    ]
    return tuple(
        series
        for kind in KINDS
        for series in _of_kind(firm, facts, room, kind, [one for one in readings if one.kind == kind])
        for series in [_with_hours(series, firm, facts, room, clocks, now)]
    )


def _of_kind(firm: FirmDraft, facts: JobFacts, room: Room, kind: str, readings: Sequence[Reading]) -> Iterator[Series]:
    if not readings:
        return
    limit = limit_for(firm, facts, room, kind)
    for figure in _figures(kind):
        low, high = _range(limit, figure)
        points = tuple((one.at, float(getattr(one.measure, figure))) for one in readings)
        yield Series(room=room.name, kind=kind, figure=figure, points=points, lowest_good=low, highest_good=high)


def _figures(kind: str) -> tuple[str, ...]:
    measure = KINDS[kind]
    if measure is Straightedge:
        return ("gap_mm",)
    return tuple(name for name in ("temp_c", "rh_percent", "percent") if name in measure.__dataclass_fields__)


def _range(limit: Limit | None, figure: str) -> tuple[float | None, float | None]:
    if limit is None:
        return None, None
    if limit.climate is not None:
        air = limit.climate
        return (air.temp_min_c, air.temp_max_c) if figure == "temp_c" else (air.rh_min_percent, air.rh_max_percent)
    if limit.near is not None and limit.apart is not None:
        return limit.near - limit.apart, limit.near + limit.apart
    return None, limit.most


def _with_hours(
    series: Series, firm: FirmDraft, facts: JobFacts, room: Room, clocks: Sequence[StackClock], now: datetime
) -> Series:
    clock = next((one for one in clocks if one.room == room.name and one.hours_needed), None)
    if KINDS[series.kind] is not Air or clock is None:
        return series
    ticks = ticks_in(firm, facts, facts.board(clock.product), room.name)
    return replace(series, counted=stretches(firm, ticks, clock.since, clock.hours_needed, now))
