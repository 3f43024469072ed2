"""The acclimatisation clock: how many hours a stack of packs has lain in air it may be laid in.

**The problem.** Boards must lie closed in their room until they have taken on its climate. Makers give hours; a
cold night or a wet week does not count. Readings come now and then, by hand.

**Two ways to count**, chosen by the firm (no standard says how; both are house rules, common practice, no source):

* *Running*: the clock runs from the moment the packs are put in the room. A reading out of range stops it from
  that reading on, the next one in range starts it again; what was counted stays counted. If the last reading
  before the packs came was out of range, it starts at the first one in range.
* *Strict log*: an interval counts only between two readings that are both in range and no farther apart than the
  log allows (24 h by hand). What nobody logged does not count: the last hours, too, need a reading that proves them.

A worked example, running: packs at 0 h, good readings at 0, 24 and 72 h, a cold one at 48 h. The clock runs 0–48,
stands 48–72, runs on from 72: after 96 h it shows 72.

    >>> from datetime import UTC, datetime, timedelta
    >>> zero = datetime(2026, 11, 2, 8, tzinfo=UTC)
    >>> def tick(hour, good):
    ...     return Tick(at=zero + timedelta(hours=hour), inside=good)
    >>> log = (tick(0, True), tick(24, True), tick(48, False), tick(72, True))
    >>> count = running_count(log, zero, 168, zero + timedelta(hours=96))
    >>> count.hours, (count.ready_at - zero) / timedelta(hours=1)
    (72.0, 192.0)
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from store.trade.firm import ClockForm, FirmDraft


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One air reading as the clock sees it: when, and whether it was in range."""

    at: datetime
    inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class HourCount:
    """What the clock shows: hours counted, whether it runs, when the wait is or would be over.

    ``ready_at`` is None while the clock stands; ``stopped_at`` is when it came to stand, and ``unread`` says that it
    stands for want of a reading, not for bad air.
    """

    hours: float
    running: bool
    ready_at: datetime | None
    stopped_at: datetime | None = None
    unread: bool = False


def hour_count(firm: FirmDraft, ticks: Sequence[Tick], since: datetime, hours_needed: int, now: datetime) -> HourCount:
    """Count by the firm's chosen form; ``ticks`` in order of time, none after ``now``, in any zones.

    Boards whose maker asks for no wait are ready the moment they come in, whatever the air.
    """
    # Two instants of one zone are subtracted by its wall clock, which gains or loses an hour twice a year.
    ticks = [replace(tick, at=tick.at.astimezone(UTC)) for tick in ticks]
    since, now = since.astimezone(UTC), now.astimezone(UTC)
    if hours_needed == 0:
        return HourCount(hours=0.0, running=True, ready_at=since)
    if firm.clock_form is ClockForm.STRICT_LOG:
        return strict_count(ticks, since, hours_needed, now, firm.log_gap_hours)
    return running_count(ticks, since, hours_needed, now)


def running_count(ticks: Sequence[Tick], since: datetime, hours_needed: int, now: datetime) -> HourCount:
    """Count with the running clock; ``ticks`` in order of time, none after ``now``, all in UTC."""
    needed = timedelta(hours=hours_needed)
    counted = timedelta()
    running, mark, stopped_at = True, since, None
    for tick in ticks:
        if tick.at > since and running:
            if counted + (tick.at - mark) >= needed:
                break
            counted += tick.at - mark
        if running and not tick.inside:
            stopped_at = max(tick.at, since)
        running, mark = tick.inside, max(tick.at, since)
    if running:
        shown = min(needed, counted + max(now - mark, timedelta()))
        return HourCount(hours=_hours(shown), running=True, ready_at=mark + (needed - counted))
    return HourCount(hours=_hours(counted), running=False, ready_at=None, stopped_at=stopped_at)


def strict_count(ticks: Sequence[Tick], since: datetime, hours_needed: int, now: datetime, gap_hours: int) -> HourCount:
    """Count with the strict log; ``ticks`` in order of time, none after ``now``, all in UTC."""
    needed, longest = timedelta(hours=hours_needed), timedelta(hours=gap_hours)
    counted = timedelta()
    for earlier, after in itertools.pairwise(ticks):
        begun = max(earlier.at, since)
        if not (earlier.inside and after.inside and after.at - earlier.at <= longest and after.at > begun):
            continue
        if counted + (after.at - begun) >= needed:
            return HourCount(hours=_hours(needed), running=True, ready_at=begun + (needed - counted))
        counted += after.at - begun
    last = ticks[-1] if ticks else None
    if last is None:
        return HourCount(hours=0.0, running=False, ready_at=None, stopped_at=since, unread=True)
    if not last.inside:
        return HourCount(hours=_hours(counted), running=False, ready_at=None, stopped_at=max(last.at, since))
    ready_at = max(last.at, since) + (needed - counted)
    read_by = min(last.at + longest, ready_at)
    if now <= read_by and now < ready_at:
        return HourCount(hours=_hours(counted), running=True, ready_at=ready_at)
    return HourCount(hours=_hours(counted), running=False, ready_at=None, stopped_at=max(read_by, since), unread=True)


def _hours(span: timedelta) -> float:
    return span / timedelta(hours=1)
