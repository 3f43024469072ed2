"""A job as a small network of waits and work: earliest and latest times, float, and the chain that decides.

**The problem.** A floor waits for many things at once: packs that are on order, boards that lie in their room, a
screed that dries, a site that opens. Which of them decides the day, and how long may each of the others take longer?

**Worked example.** Boards lie 168 hours in their room from Monday 8:00, and the fitter levels for 6 working hours;
then the floor is laid in 8 working hours. The boards decide: laying begins on Monday next week, and the levelling may
begin anywhere in that time.

**Method** (the critical path method; Kelley and Walker 1959, from memory).

1. Forward: an activity starts when the last of those before it is finished, not before its own window opens, and never
   before the network begins. Waits run night and day, work goes on in working hours.
2. Backward from the promise: an activity must be finished before the first of those after it must start, and before its
   own window closes.
3. Float is the elapsed time from the earliest start to the latest. Below nought the promise cannot be kept.
4. The chain that decides goes back from the last finish, always to what an activity waited for.

What really happened is fixed: neither window nor promise moves it.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime, time, timedelta

from store.errors import Refused
from store.trade.diary import day_of, later, start_of, wall_instant
from store.trade.firm import FirmDraft
from store.trade.planning.activities import Activity, Bound, Pace, Times, Timetable
from store.trade.planning.hours import work_begun_by, work_done_at, work_over_by


def timetable(
    firm: FirmDraft, activities: Iterable[Activity], begins: datetime, promised: datetime | None = None
) -> Timetable:
    """Work out the earliest and latest times of a network that begins at ``begins``.

    ``promised`` is when everything is to be finished; None leaves only the activities' own windows to be kept.

    Raises:
        Refused: activities follow one another in a circle, one follows an activity that is not there, two have one
            name, a time is negative, or the firm never works.
    """
    ordered = in_order(activities)
    early = _forward(firm, ordered, begins.astimezone(UTC))
    late = _backward(firm, ordered, promised)
    return Timetable(times=tuple(_times(one, early, late) for one in ordered))


def in_order(activities: Iterable[Activity]) -> tuple[Activity, ...]:
    """Return activities so that each comes after all it follows, otherwise in the order given.

    Raises:
        Refused: as ``timetable``.
    """
    asked = tuple(activities)
    by_name = {one.name: one for one in asked}
    if len(by_name) < len(asked):
        raise Refused("Two activities have one name; give each its own.")
    for one in asked:
        for before in one.after:
            if before not in by_name:
                raise Refused(f"“{one.name}” follows “{before}”, which is not in the plan.")
        if one.hours < 0:
            raise Refused(f"“{one.name}” takes {one.hours:g} hours; time does not run backwards.")
    waits_for = {one.name: len(set(one.after)) for one in asked}
    followers = defaultdict[str, list[Activity]](list)
    for one in asked:
        for before in dict.fromkeys(one.after):
            followers[before].append(one)
    free = [one for one in asked if not one.after]
    for here in free:
        for one in followers[here.name]:
            waits_for[one.name] -= 1
            if not waits_for[one.name]:
                free.append(one)
    if len(free) < len(asked):
        raise Refused(_circle(by_name, [name for name, waits in waits_for.items() if waits]))
    return tuple(free)


def _circle(by_name: Mapping[str, Activity], stuck: list[str]) -> str:
    """Name one circle among activities that can never start: each of them follows another of them."""
    there, walked, here = set(stuck), list[str](), stuck[0]
    while here not in walked:
        walked.append(here)
        here = next(before for before in by_name[here].after if before in there)
    circle = [here, *reversed(walked[walked.index(here) :])]
    return f"This plan goes round in a circle: {' → '.join(f'“{name}”' for name in circle)}."


_Early = tuple[datetime, datetime, datetime, Bound, str]


def _forward(firm: FirmDraft, ordered: tuple[Activity, ...], begins: datetime) -> dict[str, _Early]:
    """Return for each activity when it is ready, starts and finishes at the earliest, and why."""
    found: dict[str, _Early] = {}
    for one in ordered:
        if one.fixed is not None:
            begun, ended = (at.astimezone(UTC) for at in (one.fixed.begun_at, one.fixed.ended_at))
            found[one.name] = (begun, begun, ended, Bound.FIXED, "")
            continue
        ready, bound, behind = begins, Bound.BEGINNING, ""
        for before in one.after:
            finish = found[before][2]
            if finish > ready or (finish == ready and bound is Bound.BEGINNING):
                ready, bound, behind = finish, Bound.AFTER, before
        if one.not_before is not None and one.not_before > ready:
            ready, bound, behind = one.not_before.astimezone(UTC), Bound.WINDOW, ""
        start, finish = _run(one.calendar or firm, one, ready)
        found[one.name] = (ready, start, finish, bound, behind)
    return found


def _run(calendar: FirmDraft, one: Activity, ready: datetime) -> tuple[datetime, datetime]:
    """Return when an activity that is ready then starts and finishes."""
    match one.pace:
        case Pace.ELAPSED:
            return ready, later(ready, one.hours)
        case Pace.DAYS:
            day = day_of(calendar, ready) + timedelta(days=round(one.hours / 24))
            return ready, max(ready, start_of(calendar, day))
        case Pace.WORKING:
            return work_done_at(calendar, ready, 0), work_done_at(calendar, ready, one.hours)


def _backward(
    firm: FirmDraft, ordered: tuple[Activity, ...], promised: datetime | None
) -> dict[str, tuple[datetime, datetime] | None]:
    """Return for each activity its latest start and finish, None where nothing depends on it."""
    asked: dict[str, list[datetime]] = {one.name: [promised.astimezone(UTC)] if promised else [] for one in ordered}
    found: dict[str, tuple[datetime, datetime] | None] = {}
    for one in reversed(ordered):
        if one.not_after is not None:
            asked[one.name].append(one.not_after.astimezone(UTC))
        finish = min(asked[one.name], default=None)
        found[one.name] = None
        if finish is None or one.fixed is not None:
            continue
        calendar = one.calendar or firm
        start = _latest_start(calendar, one, finish)
        # Nobody works on a Saturday till what may be done by then: the work is over when the last working day ends.
        found[one.name] = (start, work_over_by(calendar, finish) if one.pace is Pace.WORKING else finish)
        for before in one.after:
            asked[before].append(start)
    return found


def _latest_start(calendar: FirmDraft, one: Activity, finish: datetime) -> datetime:
    match one.pace:
        case Pace.ELAPSED:
            return later(finish, -one.hours)
        case Pace.WORKING:
            return work_begun_by(calendar, finish, one.hours)
        case Pace.DAYS:
            days = round(one.hours / 24)
            if not days:
                return finish
            over = day_of(calendar, finish)
            if start_of(calendar, over) > finish:
                over -= timedelta(days=1)
            # Any moment of the day that many days before will do: the last one is just before the next day begins.
            next_day = over - timedelta(days=days - 1)
            return wall_instant(calendar, next_day, time(0)) - datetime.resolution


def _times(one: Activity, early: Mapping[str, _Early], late: Mapping[str, tuple[datetime, datetime] | None]) -> Times:
    ready, start, finish, bound, behind = early[one.name]
    latest = late[one.name]
    return Times(
        activity=one,
        ready_at=ready,
        earliest_start=start,
        earliest_finish=finish,
        latest_start=latest[0] if latest else None,
        latest_finish=latest[1] if latest else None,
        bound=bound,
        behind=behind,
    )
