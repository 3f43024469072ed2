"""Working hours onward and back: when so many hours of work are done, and when they must be begun.

Work goes on in working hours only, by the firm's wall clock. Somebody with days off of their own, or a site that is
shut on some days, is the same firm with more holidays (``with_days_off``).
"""

from collections.abc import Iterable
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

from store.errors import Refused
from store.trade.diary import day_of, end_of, first_working_moment, is_worked, start_of
from store.trade.firm import FirmDraft

_FARTHEST_DAYS = 3_660
_NO_TIME = timedelta()


def with_days_off(firm: FirmDraft, days: Iterable[date]) -> FirmDraft:
    """Return the firm as somebody sees it who does not work on these days, or whose site is shut on them."""
    return replace(firm, holidays=tuple(sorted({*firm.holidays, *days})))


def work_done_at(firm: FirmDraft, at: datetime, hours: float) -> datetime:
    """Return when work of so many hours is done that is begun at the first working moment at or after ``at``.

    Work that ends with the day ends that evening, not the next morning.

    >>> from datetime import time
    >>> firm = FirmDraft(name="Gannet Quay Floors", time_zone="UTC", day_ends=time(16))
    >>> work_done_at(firm, datetime(2026, 11, 27, 14, tzinfo=UTC), 4).isoformat()  # a Friday
    '2026-11-30T10:00:00+00:00'

    Raises:
        Refused: the firm has no working day within ten years.
    """
    begun, left = first_working_moment(firm, at), timedelta(hours=hours)
    if left <= _NO_TIME:
        return begun
    while True:
        ends = end_of(firm, day_of(firm, begun))
        if begun + left <= ends:
            return begun + left
        left -= max(_NO_TIME, ends - begun)
        begun = first_working_moment(firm, max(begun, ends))


def work_begun_by(firm: FirmDraft, by: datetime, hours: float) -> datetime:
    """Return the latest moment at which work of so many hours can be begun and be done by ``by``.

    Work that takes no time still asks for a working moment: the last one, which is just before the day ends.

    Raises:
        Refused: the firm has no working day within ten years.
    """
    left = timedelta(hours=hours)
    by = by.astimezone(UTC)
    for back in range(_FARTHEST_DAYS):
        day = day_of(firm, by) - timedelta(days=back)
        if not is_worked(firm, day):
            continue
        starts, ends = start_of(firm, day), min(by, end_of(firm, day))
        if left <= _NO_TIME:
            if starts <= ends:
                return min(by, end_of(firm, day) - datetime.resolution)
            continue
        there = max(_NO_TIME, ends - starts)
        if there >= left:
            return ends - left
        left -= there
    raise Refused("The firm has no working day in the ten years before; look at its working days and holidays.")


def work_over_by(firm: FirmDraft, by: datetime) -> datetime:
    """Return the last moment up to ``by`` at which work can be over: ``by`` itself, or the end of a working day before.

    >>> from datetime import time
    >>> firm = FirmDraft(name="Gannet Quay Floors", time_zone="UTC", day_ends=time(16))
    >>> work_over_by(firm, datetime(2026, 12, 5, 12, tzinfo=UTC)).isoformat()  # a Saturday
    '2026-12-04T16:00:00+00:00'

    Raises:
        Refused: the firm has no working day within ten years.
    """
    by = by.astimezone(UTC)
    for back in range(_FARTHEST_DAYS):
        day = day_of(firm, by) - timedelta(days=back)
        ends = min(by, end_of(firm, day))
        if is_worked(firm, day) and start_of(firm, day) < ends:
            return ends
    raise Refused("The firm has no working day in the ten years before; look at its working days and holidays.")


def hours_worked(firm: FirmDraft, begun: datetime, ended: datetime) -> float:
    """Return the working hours between two instants; 0 if the second is the earlier."""
    if ended <= begun:
        return 0.0
    worked, day, last = _NO_TIME, day_of(firm, begun), day_of(firm, ended)
    while day <= last:
        if is_worked(firm, day):
            worked += max(_NO_TIME, min(ended, end_of(firm, day)) - max(begun, start_of(firm, day)))
        day += timedelta(days=1)
    return worked / timedelta(hours=1)


def worked_day_at_or_before(firm: FirmDraft, day: date) -> date:
    """Return the last day up to ``day`` that the firm works.

    Raises:
        Refused: there is none in the ten years before.
    """
    for back in range(_FARTHEST_DAYS):
        if is_worked(firm, day - timedelta(days=back)):
            return day - timedelta(days=back)
    raise Refused("The firm has no working day in the ten years before; look at its working days and holidays.")


def shown_deadline(at: datetime) -> datetime:
    """Return a latest moment as it is read: the last one of a working day, just before its end, as that end."""
    return (at + timedelta(milliseconds=1)).replace(microsecond=0)
