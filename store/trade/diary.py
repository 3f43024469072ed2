"""The firm's days: when one starts, which are worked, and the first working moment at or after an instant.

Waits are elapsed hours: they run through nights, weekends and clock changes alike, so sums are made in UTC. Working
hours are wall-clock hours in the firm's zone.
"""

from datetime import UTC, date, datetime, time, timedelta

from store.errors import Refused
from store.trade.firm import FirmDraft

# A firm that works one day a week and closes for a whole year is still found an opening day.
_FARTHEST_DAYS = 3_660


def later(at: datetime, hours: float) -> datetime:
    """Return the instant so many elapsed hours after ``at``, in UTC.

    >>> from zoneinfo import ZoneInfo
    >>> brussels = ZoneInfo("Europe/Brussels")
    >>> noon_before_the_clocks_go_forward = datetime(2026, 3, 28, 12, tzinfo=brussels)
    >>> later(noon_before_the_clocks_go_forward, 24).astimezone(brussels).isoformat()
    '2026-03-29T13:00:00+02:00'
    """
    return at.astimezone(UTC) + timedelta(hours=hours)


def day_of(firm: FirmDraft, at: datetime) -> date:
    """Return the calendar day that ``at`` falls on in the firm's zone."""
    return at.astimezone(firm.zone).date()


def wall_instant(firm: FirmDraft, day: date, clock: time) -> datetime:
    """Return the instant (UTC) at which the firm's wall clock shows ``clock`` on ``day``.

    A time that occurs twice is the first of the two; one that the clocks skip is read with the offset before the
    gap. Source: RFC 5545 §3.3.5, which is also PEP 495's fold 0.
    """
    return datetime.combine(day, clock, tzinfo=firm.zone).astimezone(UTC)


def start_of(firm: FirmDraft, day: date) -> datetime:
    """Return the instant (UTC) at which the firm's working day starts on ``day``, worked or not."""
    return wall_instant(firm, day, firm.day_starts)


def end_of(firm: FirmDraft, day: date) -> datetime:
    """Return the instant (UTC) at which the firm's working day ends on ``day``, worked or not."""
    return wall_instant(firm, day, firm.day_ends)


def middle_of(firm: FirmDraft, day: date) -> datetime:
    """Return the instant (UTC) at which the halves of a working day meet: half-way from its start to its end."""
    minutes = sum(60 * clock.hour + clock.minute for clock in (firm.day_starts, firm.day_ends)) // 2
    return wall_instant(firm, day, time(minutes // 60, minutes % 60))


def is_worked(firm: FirmDraft, day: date) -> bool:
    """Whether the firm works on ``day``: one of its working days, and no holiday."""
    return day.weekday() in firm.working_days and day not in firm.holidays


def first_working_moment(firm: FirmDraft, at: datetime) -> datetime:
    """Return the first instant (UTC) at or after ``at`` that lies in working hours, the end excluded.

    Raises:
        Refused: the firm has no working day within ten years.
    """
    here = at.astimezone(firm.zone)
    if is_worked(firm, here.date()) and here.time() < firm.day_ends:
        return max(at.astimezone(UTC), start_of(firm, here.date()))
    for ahead in range(1, _FARTHEST_DAYS):
        day = here.date() + timedelta(days=ahead)
        if is_worked(firm, day):
            return start_of(firm, day)
    raise Refused("The firm has no working day in the next ten years; look at its working days and holidays.")
