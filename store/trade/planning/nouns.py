"""Who lays which floor in which half days: the nouns of a plan, and what can be said about it."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from typing import NamedTuple


class FloorKey(NamedTuple):
    """A floor's name in a plan: the job's reference and the room."""

    job: str
    room: str


class Half(NamedTuple):
    """Half a working day: 0 before its middle, 1 after it."""

    day: date
    half: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitter:
    """Somebody who lays floors.

    ``off`` are days on which they do not work though the firm does. ``working_days`` (Monday is 0) and ``hours_a_day``
    are their own; None is the firm's. ``busy`` are half days in which they are somewhere else, whatever happens.
    """

    name: str
    skills: frozenset[str] = frozenset()
    off: frozenset[date] = frozenset()
    working_days: tuple[int, ...] | None = None
    hours_a_day: float | None = None
    busy: frozenset[Half] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """A fitter lays a floor in these half days, the first first."""

    floor: FloorKey
    fitter: str
    halves: tuple[Half, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """A floor to be laid by one fitter, without another floor in between.

    ``hours`` is the work of one fitter; ``earliest`` when its holds are over; ``cure_hours`` how long after the last
    board it is handed over at the earliest. ``skills`` its fitter must all have. ``booked`` is what is agreed so far; a
    ``pinned`` booking is not to be moved, come what may.
    """

    job: str
    room: str
    hours: float
    earliest: datetime
    promised_on: date | None = None
    cure_hours: float = 0.0
    skills: frozenset[str] = frozenset()
    booked: Visit | None = None
    pinned: bool = False

    @property
    def key(self) -> FloorKey:
        return FloorKey(self.job, self.room)


class Decider(StrEnum):
    """What decided a floor's day.

    READY: it begins as soon as it can be laid. DAYS_OFF: then its fitter is off. FITTER_BUSY: then its fitter lays
    another floor first. BOOKED, PINNED: it stays where it was booked. NOBODY: no fitter has the skills for it. NO_DAY:
    there is no room for it in the days looked at.
    """

    READY = "ready"
    DAYS_OFF = "days_off"
    FITTER_BUSY = "fitter_busy"
    BOOKED = "booked"
    PINNED = "pinned"
    NOBODY = "nobody"
    NO_DAY = "no_day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a floor is laid when it is; ``behind`` is the floor its fitter lays just before, where that decided."""

    floor: FloorKey
    decider: Decider
    fitter: str = ""
    behind: FloorKey | None = None
    ready_from: Half | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class JobEnd:
    """When a job's last floor can be handed over by a plan, and how many days that is late."""

    job: str
    handover_on: date
    promised_on: date | None
    days_late: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Proposal:
    """A plan: visits in order of time, a reason for every floor, when each job ends, and the share of the search done.

    ``changes`` counts booked floors that are not where they were booked.
    """

    visits: tuple[Visit, ...]
    reasons: tuple[Reason, ...]
    ends: tuple[JobEnd, ...]
    changes: int
    done: float

    @property
    def days_late(self) -> int:
        """The days late of all jobs together."""
        return sum(one.days_late for one in self.ends)

    @property
    def unplaced(self) -> tuple[Reason, ...]:
        """The floors that nobody can lay in the days looked at."""
        return tuple(one for one in self.reasons if one.decider in {Decider.NOBODY, Decider.NO_DAY})
