"""Which stretches of time an acclimatisation clock counted: the same rules as the clock's, drawn out for a picture."""

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from store.trade.acclimatisation import Tick
from store.trade.firm import ClockForm, FirmDraft

Stretch = tuple[datetime, datetime]


def stretches(
    firm: FirmDraft, ticks: Sequence[Tick], since: datetime, hours_needed: int, now: datetime
) -> tuple[Stretch, ...]:
    """Return the stretches (UTC) that counted towards ``hours_needed``, oldest first; together they are its hours.

    Args:
        firm: its form of the clock, and how far apart readings of the strict log may lie.
        ticks: the air readings in order of time, none after ``now``.
        since: when the packs came.
        hours_needed: what the boards' maker asks for.
        now: when it is asked.

    >>> from store.trade.firm import FirmDraft
    >>> zero = datetime(2026, 11, 2, 8, tzinfo=UTC)
    >>> log = [Tick(at=zero + timedelta(hours=at), inside=good) for at, good in ((0, True), (48, False), (72, True))]
    >>> firm = FirmDraft(name="Gannet Quay Floors", time_zone="Europe/Brussels")
    >>> counted = stretches(firm, log, zero, 168, zero + timedelta(hours=96))
    >>> [((a - zero) / timedelta(hours=1), (b - zero) / timedelta(hours=1)) for a, b in counted]
    [(0.0, 48.0), (72.0, 96.0)]
    """
    ticks = [replace(tick, at=tick.at.astimezone(UTC)) for tick in ticks]
    since, now = since.astimezone(UTC), now.astimezone(UTC)
    if firm.clock_form is ClockForm.STRICT_LOG:
        found = _proved(ticks, since, timedelta(hours=firm.log_gap_hours))
    else:
        found = _running(ticks, since, now)
    return tuple(_up_to(found, timedelta(hours=hours_needed)))


def _running(ticks: Sequence[Tick], since: datetime, now: datetime) -> Iterator[Stretch]:
    running, mark = True, since
    for tick in ticks:
        if running and tick.at > since:
            yield mark, tick.at
        running, mark = tick.inside, max(tick.at, since)
    if running:
        yield mark, now


def _proved(ticks: Sequence[Tick], since: datetime, longest: timedelta) -> Iterator[Stretch]:
    for earlier, after in itertools.pairwise(ticks):
        if earlier.inside and after.inside and after.at - earlier.at <= longest:
            yield max(earlier.at, since), after.at


def _up_to(found: Iterator[Stretch], needed: timedelta) -> Iterator[Stretch]:
    """Yield the stretches until together they are what is needed; what touches is one stretch."""
    left, held = needed, None
    for begun, ended in found:
        long = min(ended - begun, left)
        if long <= timedelta():
            continue
        left -= long
        if held and held[1] == begun:
            held = (held[0], begun + long)
        else:
            if held:
                yield held
            held = (begun, begun + long)
    if held:
        yield held
