"""From jobs to floors that can be planned, and from planned visits to stretches of days that can be booked."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from store.trade.diary import is_worked
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.laying import is_wholly_laid
from store.trade.people import skills_for
from store.trade.planning.job_network import JobTimes
from store.trade.planning.job_steps import Step
from store.trade.planning.nouns import Floor, FloorKey, Visit


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Days in a row, first and last included; ``half`` is 0 for mornings, 1 for afternoons, None for whole days."""

    first: date
    last: date
    half: int | None = None


def floors_to_lay(
    facts: JobFacts, times: JobTimes, booked: Mapping[FloorKey, Visit] | None = None
) -> tuple[Floor, ...]:
    """Return a job's rooms not wholly laid as floors to be planned, from the times of one fitter.

    A floor on which laying is going on is pinned where it is booked: whoever began it ends it.
    """
    found: list[Floor] = []
    for room in facts.rooms:
        if is_wholly_laid(facts, room):
            continue
        key = FloorKey(facts.job.ref, room.name)
        visit = (booked or {}).get(key)
        begun = [one.begun_at for one in facts.layings if one.room == room.name and one.ended_at is None]
        ready = times.timetable.of(f"{Step.READY} {room.name}").earliest_finish
        found.append(
            Floor(
                job=key.job,
                room=key.room,
                hours=times.room(room.name).activity.hours,
                earliest=min(begun, default=ready),
                promised_on=facts.job.promised_on,
                cure_hours=times.timetable.of(f"{Step.CURE} {room.name}").activity.hours,
                skills=skills_for(room),
                booked=visit,
                pinned=bool(begun) and visit is not None,
            )
        )
    return tuple(found)


def stretches_of(firm: FirmDraft, visit: Visit) -> Iterator[Stretch]:
    """Yield a visit as stretches of whole days, mornings or afternoons; a working day left out ends a stretch."""
    here: Stretch | None = None
    for day in sorted({half.day for half in visit.halves}):
        halves = [half.half for half in visit.halves if half.day == day]
        part = halves[0] if len(halves) == 1 else None
        if here is not None and part == here.half and not _worked_between(firm, here.last, day):
            here = Stretch(first=here.first, last=day, half=part)
            continue
        if here is not None:
            yield here
        here = Stretch(first=day, last=day, half=part)
    if here is not None:
        yield here


def _worked_between(firm: FirmDraft, first: date, last: date) -> bool:
    """Whether the firm works on a day between two others."""
    return any(is_worked(firm, first + timedelta(days=ahead)) for ahead in range(1, (last - first).days))
