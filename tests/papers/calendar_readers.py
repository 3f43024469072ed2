"""Three readers of iCalendar files, written by others apart from each other, and what each finds in an event."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime

import icalendar
import ics
import vobject


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """An event as a reader finds it: whole days as dates, else instants in UTC; ``end`` is not part of it."""

    uid: str
    sequence: int
    summary: str
    location: str
    begin: date | datetime
    end: date | datetime
    also_on: tuple[date, ...]
    status: str


def by_icalendar(raw: bytes) -> list[Found]:
    return [
        Found(
            uid=str(one["UID"]),
            sequence=int(one["SEQUENCE"]),
            summary=str(one["SUMMARY"]),
            location=str(one.get("LOCATION", "")),
            begin=_in_utc(one["DTSTART"].dt),
            end=_in_utc(one["DTEND"].dt),
            also_on=tuple(day.dt for day in one["RDATE"].dts) if "RDATE" in one else (),
            status=str(one["STATUS"]),
        )
        for one in icalendar.Calendar.from_ical(raw).walk("VEVENT")
        if not one.errors
    ]


def by_ics(raw: bytes) -> list[Found]:
    """Read with ics, which keeps what it does not know as lines of text: SEQUENCE and RDATE."""
    return [_by_ics(one) for one in ics.Calendar(raw.decode()).events]


def _by_ics(one: ics.Event) -> Found:
    begin, end = one.begin.datetime, one.end.datetime
    rest = {line.name: line.value for line in one.extra}
    return Found(
        uid=one.uid,
        sequence=int(rest["SEQUENCE"]),
        summary=one.name,
        location=one.location or "",
        begin=begin.date() if one.all_day else _in_utc(begin),
        end=end.date() if one.all_day else _in_utc(end),
        also_on=tuple(date.fromisoformat(day) for day in rest["RDATE"].split(",")) if "RDATE" in rest else (),
        status=one.status,
    )


def by_vobject(raw: bytes) -> list[Found]:
    return [
        Found(
            uid=one.uid.value,
            sequence=int(one.sequence.value),
            summary=one.summary.value,
            location=one.location.value if hasattr(one, "location") else "",
            begin=_in_utc(one.dtstart.value),
            end=_in_utc(one.dtend.value),
            also_on=tuple(one.rdate.value) if hasattr(one, "rdate") else (),
            status=one.status.value,
        )
        for one in vobject.readOne(raw.decode()).vevent_list
    ]


def _in_utc(at: date | datetime) -> date | datetime:
    return at.astimezone(UTC) if isinstance(at, datetime) else at


READERS: dict[str, Callable[[bytes], list[Found]]] = {"icalendar": by_icalendar, "ics": by_ics, "vobject": by_vobject}


def found_by_all(raw: bytes) -> list[Found]:
    """Return the events of a file by their UID, once all three readers have found the same in it."""
    found = [sorted(read(raw), key=lambda one: one.uid) for read in READERS.values()]
    assert found[0] == found[1] == found[2]
    return found[0]
