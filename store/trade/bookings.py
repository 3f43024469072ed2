"""Bookings: who works on which job's floor on which days, moved and stretched in the firm's working days."""

import hashlib
from collections.abc import Collection, Iterator
from dataclasses import dataclass, replace
from datetime import date, timedelta
from enum import StrEnum

from store.errors import Problem, Refused
from store.trade.diary import is_worked
from store.trade.firm import FirmDraft

LONGEST_DAYS = 370
_FARTHEST_DAYS = 3_660
_FIRST_YEAR, _LAST_YEAR = 1900, 2199


class Part(StrEnum):
    """How much of a day: all of it, or the half before or after the middle of the working day."""

    WHOLE = "day"
    MORNING = "morning"
    AFTERNOON = "afternoon"


@dataclass(frozen=True, slots=True, kw_only=True)
class BookingDraft:
    """Somebody booked on a job, or on one room of it, from the first day to the last.

    ``person`` is a name, so that who has left stays in the diary. Of the days between the first and the last the
    worked ones count (see ``days_of``). ``mark`` tells this booking from every other, for good and everywhere it is
    taken to; ``changes`` counts how often it was changed since.
    """

    person: str
    first: date
    last: date
    room: str = ""
    part: Part = Part.WHOLE
    mark: str = ""
    changes: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Booking(BookingDraft):
    """A booking on file; ``ref`` is its job's. A cancelled one is kept, so that calendars can be told."""

    id: int
    ref: str
    cancelled: bool = False


def days_of(firm: FirmDraft, booking: BookingDraft) -> tuple[date, ...]:
    """Return the days that somebody works by a booking: its first, its last, and the firm's working days between.

    >>> from store.trade.firm import FirmDraft
    >>> firm = FirmDraft(name="Gannet Quay Floors")
    >>> over_a_weekend = BookingDraft(person="Nils", first=date(2026, 11, 27), last=date(2026, 11, 30))
    >>> [day.isoformat() for day in days_of(firm, over_a_weekend)]
    ['2026-11-27', '2026-11-30']
    """
    length = (booking.last - booking.first).days
    days = (booking.first + timedelta(days=ahead) for ahead in range(length + 1))
    return tuple(day for day in days if day in {booking.first, booking.last} or is_worked(firm, day))


def worked_day(firm: FirmDraft, day: date, steps: int) -> date:
    """Return the working day so many after ``day``, or before it for a negative number; ``day`` itself for 0.

    Raises:
        Refused: there are not so many working days within ten years.
    """
    by = timedelta(days=1 if steps > 0 else -1)
    left = abs(steps)
    for _ in range(_FARTHEST_DAYS):
        if not left:
            return day
        day += by
        left -= is_worked(firm, day)
    raise Refused("The firm has no working day in the next ten years; look at its working days and holidays.")


def moved(firm: FirmDraft, booking: Booking, steps: int) -> Booking:
    """Return a booking so many working days later (or earlier), for as many days as before."""
    return starting_on(firm, booking, worked_day(firm, booking.first, steps))


def starting_on(firm: FirmDraft, booking: Booking, first: date) -> Booking:
    """Return a booking that starts on another day and takes as many days as before."""
    days = len(days_of(firm, booking))
    return replace(booking, first=first, last=worked_day(firm, first, days - 1))


def stretched(firm: FirmDraft, booking: Booking, steps: int) -> Booking:
    """Return a booking that ends so many working days later, or earlier; it never becomes shorter than a day."""
    last = worked_day(firm, booking.last, steps)
    return replace(booking, last=max(last, booking.first))


def mark_of(ref: str, draft: BookingDraft, number: int) -> str:
    """Return a mark that no other booking has: a digest of what is booked and its number on file."""
    parts = (ref, draft.person, draft.room, draft.first.isoformat(), draft.last.isoformat(), str(number))
    return hashlib.sha256("\n".join(parts).encode("utf-8", "replace")).hexdigest()[:20]


def meet(one: BookingDraft, other: BookingDraft) -> bool:
    """Whether two parts of a day are at the same time; whole days meet both halves."""
    return Part.WHOLE in {one.part, other.part} or one.part is other.part


def problems_with_booking(draft: BookingDraft, rooms: Collection[str]) -> tuple[Problem, ...]:
    """Return what is wrong with a booking; ``rooms`` are the names of the job's rooms.

    Two bookings at a time, days off and floors that are not ready are no faults: people decide, and the diary shows.
    """
    return tuple(_problems(draft, rooms))


def _problems(draft: BookingDraft, rooms: Collection[str]) -> Iterator[Problem]:
    if not draft.person.strip():
        yield Problem(field="person", say="Say who is to come.")
    if draft.room and draft.room not in rooms:
        yield Problem(field="room", say=f"There is no room “{draft.room}” in this job.")
    if draft.last < draft.first:
        yield Problem(field="last", say="The last day is before the first.")
    elif not _FIRST_YEAR <= draft.first.year <= draft.last.year <= _LAST_YEAR:
        yield Problem(field="first", say=f"Book a day from {_FIRST_YEAR} to {_LAST_YEAR}.")
    elif (draft.last - draft.first).days > LONGEST_DAYS:
        yield Problem(field="last", say="One booking is no longer than a year; make two of it.")
    elif draft.part is not Part.WHOLE and draft.first != draft.last:
        yield Problem(field="part", say="Half a day is one day; make it whole days, or one day.")
