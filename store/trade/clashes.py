"""What speaks against a booking: two at a time, days off, a day not worked, a floor not ready, a promise broken."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from store.trade.bookings import Booking, Part, days_of, meet
from store.trade.diary import day_of, end_of, first_working_moment, is_worked, later, middle_of, start_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Room
from store.trade.laying import cure_hours, is_begun, is_wholly_laid
from store.trade.people import PersonDraft, skills_for
from store.trade.readiness import verdict_of
from store.trade.verdict import Standing, Verdict


class ClashKind(StrEnum):
    """What speaks against a booking; the window has the words for each."""

    TWICE = "twice"
    AWAY = "away"
    NOT_WORKED = "not_worked"
    TOO_SOON = "too_soon"
    NOT_READY = "not_ready"
    LATE = "late"
    NOT_TRAINED = "not_trained"
    NOT_ON_FILE = "not_on_file"


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """One thing that speaks against a booking, and the figures behind it.

    ``on``: the first day it is about, for LATE the last of the booking. ``days``: how many days of the booking it
    spoils, or for LATE by how many calendar days the promise is missed if the floor is laid when the booking ends.
    ``ref``: the other job of two at a time. ``reason``: why somebody is off. ``ready_from``: when the floor is ready,
    for TOO_SOON.
    """

    kind: ClashKind
    on: date | None = None
    days: int = 0
    ref: str = ""
    reason: str = ""
    ready_from: datetime | None = None


Key = tuple[int, ClashKind, str]
"""A clash of a booking is known again by the booking's number, its kind, and the other job."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A clash with the booking it speaks against."""

    booking: Booking
    clash: Clash


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What bookings are judged against: the firm, the moment, its people by name, and open jobs by reference."""

    firm: FirmDraft
    now: datetime
    people: Mapping[str, PersonDraft]
    jobs: Mapping[str, tuple[JobFacts, Standing]]


def clashes_of(ground: Ground, booking: Booking, others: Sequence[Booking]) -> tuple[Clash, ...]:
    """Return everything that speaks against a booking.

    ``others`` may hold the booking itself and other people's; what is over (days before today) is not held against
    anybody. A floor on which laying has begun is not asked whether it is ready.
    """
    today = day_of(ground.firm, ground.now)
    days = tuple(day for day in days_of(ground.firm, booking) if day >= today)
    if not days or booking.cancelled:
        return ()
    found = [*_of_the_person(ground, booking, days, others)]
    idle = [day for day in days if not is_worked(ground.firm, day)]
    if idle:
        found.append(Clash(kind=ClashKind.NOT_WORKED, on=idle[0], days=len(idle)))
    if booking.ref in ground.jobs:
        found += _of_the_job(ground, booking, days)
    return tuple(found)


def told_of(ground: Ground, bookings: Sequence[Booking], names: Iterable[str]) -> dict[Key, Told]:
    """Return what speaks against the bookings of some people, by booking, kind and other job."""
    found: dict[Key, Told] = {}
    for name in names:
        theirs = [one for one in bookings if one.person == name]
        for one in theirs:
            for clash in clashes_of(ground, one, theirs):
                found[one.id, clash.kind, clash.ref] = Told(booking=one, clash=clash)
    return found


def too_soon(firm: FirmDraft, facts: JobFacts, standing: Standing, booking: Booking, today: date) -> Clash | None:
    """Return whether somebody comes from today on before the floor is ready, by this job's own facts; None if not."""
    days = tuple(day for day in days_of(firm, booking) if day >= today)
    return next(_of_the_floor(firm, facts, standing, booking, days), None) if days else None


def booked_late(firm: FirmDraft, facts: JobFacts, booking: Booking, today: date) -> Clash | None:
    """Return whether a floor that is laid when a booking ends is handed over after the promised day; None if not.

    The glue cures first: what is booked to end before the promised day may still break the promise. Of a floor whose
    glue is not on file nobody knows the hours, so only the booking's own days are held against the promise, and so
    they are where every floor is laid already. A booking that is over breaks nothing any more.
    """
    promised, days = facts.job.promised_on, days_of(firm, booking)
    if promised is None or booking.cancelled or not days or days[-1] < today:
        return None
    ends = hours_of(firm, booking.part, days[-1])[1]
    rooms = [room for room in _rooms_of(facts, booking) if not is_wholly_laid(facts, room)]
    cured = later(ends, max((hours[1] for room in rooms if (hours := cure_hours(facts, room))), default=0))
    # The last moment of a working day is one of it: a floor cured as the day ends is handed over that day.
    free_on = day_of(firm, first_working_moment(firm, cured - datetime.resolution)) if cured > ends else days[-1]
    if free_on <= promised:
        return None
    return Clash(kind=ClashKind.LATE, on=days[-1], days=(free_on - promised).days)


def _rooms_of(facts: JobFacts, booking: Booking) -> list[Room]:
    return [room for room in facts.rooms if booking.room in {"", room.name}]


def _of_the_person(
    ground: Ground, booking: Booking, days: Sequence[date], others: Sequence[Booking]
) -> Iterator[Clash]:
    for other in others:
        if other.id == booking.id or other.person != booking.person or other.cancelled or not meet(booking, other):
            continue
        if other.last < days[0] or other.first > days[-1]:
            continue
        shared = sorted(set(days) & set(days_of(ground.firm, other)))
        if shared:
            yield Clash(kind=ClashKind.TWICE, on=shared[0], days=len(shared), ref=other.ref)
    person = ground.people.get(booking.person)
    if person is None:
        yield Clash(kind=ClashKind.NOT_ON_FILE)
        return
    off = [(day, away) for day in days if (away := person.away_on(day)) is not None]
    if off:
        yield Clash(kind=ClashKind.AWAY, on=off[0][0], days=len(off), reason=off[0][1].reason)


def _of_the_job(ground: Ground, booking: Booking, days: Sequence[date]) -> Iterator[Clash]:
    facts, standing = ground.jobs[booking.ref]
    yield from _of_the_floor(ground.firm, facts, standing, booking, days)
    late = booked_late(ground.firm, facts, booking, days[0])
    if late is not None:
        yield late
    person = ground.people.get(booking.person)
    if person is not None and not all(skills_for(room) <= person.skills for room in _rooms_of(facts, booking)):
        yield Clash(kind=ClashKind.NOT_TRAINED)


def _of_the_floor(
    firm: FirmDraft, facts: JobFacts, standing: Standing, booking: Booking, days: Sequence[date]
) -> Iterator[Clash]:
    rooms = _rooms_of(facts, booking)
    waiting = {room.name for room in rooms if not is_begun(facts, room) and not is_wholly_laid(facts, room)}
    if not waiting:
        return
    verdict, ready_from, _ = verdict_of([hold for hold in standing.holds if hold.room in waiting])
    if verdict is Verdict.BLOCKED:
        yield Clash(kind=ClashKind.NOT_READY, on=days[0])
    elif ready_from is not None:
        soon = [day for day in days if hours_of(firm, booking.part, day)[0] < ready_from]
        if soon:
            yield Clash(kind=ClashKind.TOO_SOON, on=soon[0], days=len(soon), ready_from=ready_from)


def hours_of(firm: FirmDraft, part: Part, day: date) -> tuple[datetime, datetime]:
    """Return when a part of a working day begins and ends (UTC)."""
    begins = middle_of(firm, day) if part is Part.AFTERNOON else start_of(firm, day)
    ends = middle_of(firm, day) if part is Part.MORNING else end_of(firm, day)
    return begins, ends
