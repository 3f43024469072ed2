"""The nouns of a network: activities with their windows, and a timetable of when each can and must be done."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import StrEnum

from store.trade.firm import FirmDraft


class Pace(StrEnum):
    """How an activity's time runs.

    ELAPSED: hours, night and day. WORKING: hours of work, by the calendar of whoever is on it. DAYS: whole days of the
    calendar, 24 hours each, over when the working day starts, as an order's are.
    """

    ELAPSED = "elapsed"
    WORKING = "working"
    DAYS = "days"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fixed:
    """When an activity began and ended, or is known to end: a fact, not a plan."""

    begun_at: datetime
    ended_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """Something that takes time.

    ``name`` is its own in the network; ``step`` and ``about`` say in the trade's words what it is and which room or
    product it is about. ``after`` are the names of those before it. It does not start before ``not_before`` and should
    be finished by ``not_after``. ``calendar`` is the firm as its people see it, with their days off and those of the
    site; None is the firm itself.
    """

    name: str
    hours: float = 0.0
    pace: Pace = Pace.ELAPSED
    after: tuple[str, ...] = ()
    not_before: datetime | None = None
    not_after: datetime | None = None
    calendar: FirmDraft | None = None
    fixed: Fixed | None = None
    step: str = ""
    about: str = ""


class Bound(StrEnum):
    """What decides when an activity starts at the earliest."""

    BEGINNING = "beginning"
    WINDOW = "window"
    AFTER = "after"
    FIXED = "fixed"


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """One activity's times, UTC. ``latest_…`` are None where nothing is promised, ``behind`` is what it waits for.

    ``ready_at`` is when the last of those before it is finished and its window open; work starts at the first working
    moment from then on.
    """

    activity: Activity
    ready_at: datetime
    earliest_start: datetime
    earliest_finish: datetime
    latest_start: datetime | None
    latest_finish: datetime | None
    bound: Bound
    behind: str = ""

    @property
    def float_hours(self) -> float | None:
        """Elapsed hours by which the start may slip; below 0 the promise cannot be kept, None if there is none."""
        if self.latest_start is None or self.activity.fixed is not None:
            return None
        return (self.latest_start - self.earliest_start) / timedelta(hours=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """The times of all activities, those before others first."""

    times: tuple[Times, ...]

    def of(self, name: str) -> Times:
        """Return the times of one activity; KeyError if it is not in the network."""
        for one in self.times:
            if one.activity.name == name:
                return one
        raise KeyError(name)

    @property
    def finish(self) -> datetime | None:
        """When the last activity is finished at the earliest; None for an empty network."""
        return max((one.earliest_finish for one in self.times), default=None)

    def chain(self, name: str | None = None) -> tuple[Times, ...]:
        """Return the activities that decide when ``name`` starts, it the last; without a name, the last to finish."""
        by_name = {one.activity.name: one for one in self.times}
        if not by_name:
            return ()
        here = by_name[name] if name else max(self.times, key=lambda one: one.earliest_finish)
        found = [here]
        while here.behind:
            here = by_name[here.behind]
            found.append(here)
        return tuple(reversed(found))
