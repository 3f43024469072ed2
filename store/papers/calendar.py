"""Bookings as an iCalendar file (RFC 5545), to be sent to a telephone or kept beside other calendars.

Whole days are written as dates, which no clock change moves; halves of a day as instants in UTC, so that no time zone
need be described. A booking keeps its UID for good, and its SEQUENCE rises with every change, so that a calendar that
has it already moves it instead of showing it twice (RFC 5545 §3.8.4.7, §3.8.7.4).
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from store.errors import Refused

LONGEST_LINE = 75
"""Octets in a line, the line end not counted (RFC 5545 §3.1)."""
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One event. ``days`` are whole days, in order; ``hours`` stands in their place for a part of one day."""

    uid: str
    sequence: int
    summary: str
    location: str
    description: str
    days: tuple[date, ...]
    hours: tuple[datetime, datetime] | None = None
    cancelled: bool = False


def write_calendar(name: str, entries: Sequence[Entry], stamp: datetime) -> bytes:
    """Return a calendar as UTF-8 with CR LF line ends.

    Args:
        name: what the calendar is called.
        entries: its events, at least one.
        stamp: when the events were said to be so (DTSTAMP).

    Raises:
        Refused: there is no event; RFC 5545 §3.4 knows no empty calendar.
    """
    if not entries:
        raise Refused("Nobody is booked there, so there is nothing to write.")
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Layday//Diary//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{text(name)}",
    ]
    for entry in entries:
        lines += _event(entry, stamp)
    lines.append("END:VCALENDAR")
    return "".join(f"{folded(line)}\r\n" for line in lines).encode()


def _event(entry: Entry, stamp: datetime) -> Iterator[str]:
    yield "BEGIN:VEVENT"
    yield f"UID:{text(entry.uid)}"
    yield f"DTSTAMP:{_instant(stamp)}"
    yield f"SEQUENCE:{entry.sequence}"
    yield from _when(entry)
    yield f"SUMMARY:{text(entry.summary)}"
    if entry.location:
        yield f"LOCATION:{text(entry.location)}"
    if entry.description:
        yield f"DESCRIPTION:{text(entry.description)}"
    yield f"STATUS:{'CANCELLED' if entry.cancelled else 'CONFIRMED'}"
    yield "END:VEVENT"


def _when(entry: Entry) -> Iterator[str]:
    """The days: one stretch, or its first day and the others one by one where weekends lie between."""
    if entry.hours is not None:
        yield f"DTSTART:{_instant(entry.hours[0])}"
        yield f"DTEND:{_instant(entry.hours[1])}"
        return
    first, last = entry.days[0], entry.days[-1]
    unbroken = len(entry.days) == (last - first).days + 1
    # The end of a whole day is the day after it (RFC 5545 §3.6.1).
    end = (last if unbroken else first) + timedelta(days=1)
    yield f"DTSTART;VALUE=DATE:{_day(first)}"
    yield f"DTEND;VALUE=DATE:{_day(end)}"
    if not unbroken:
        yield f"RDATE;VALUE=DATE:{','.join(_day(day) for day in entry.days[1:])}"


def _day(day: date) -> str:
    return f"{day.year:04}{day.month:02}{day.day:02}"


def _instant(at: datetime) -> str:
    utc = at.astimezone(UTC)
    return f"{_day(utc.date())}T{utc.hour:02}{utc.minute:02}{utc.second:02}Z"


def text(words: str) -> str:
    r"""Return words as a TEXT value (RFC 5545 §3.3.11): no control characters, and what parts values escaped.

    >>> print(text("Oak; ash, and a \\ stroke:\nsecond line"))
    Oak\; ash\, and a \\ stroke:\nsecond line
    """
    plain = _CONTROL.sub("\N{REPLACEMENT CHARACTER}", words.replace("\r\n", "\n").replace("\r", "\n"))
    for sign, escaped in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\n", "\\n")):
        plain = plain.replace(sign, escaped)
    return plain


def folded(line: str) -> str:
    """Return a line of content in lines of at most 75 octets, the later ones led by a blank (RFC 5545 §3.1).

    A character is never cut in two, though the standard would allow it.
    """
    lines: list[str] = []
    part, octets = "", 0
    for sign in line:
        size = len(sign.encode())
        if octets + size > LONGEST_LINE:
            lines.append(part)
            part, octets = " ", 1
        part, octets = part + sign, octets + size
    return "\r\n".join([*lines, part])
