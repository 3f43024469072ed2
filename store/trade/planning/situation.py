"""How things stand for a plan, the open jobs, people and bookings at one moment, and what a plan is made from by it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from store.errors import Refused
from store.trade.bookings import Booking, Part, days_of
from store.trade.diary import day_of
from store.trade.facts import JobFacts
from store.trade.firm import Firm, FirmDraft
from store.trade.people import Person, PersonDraft
from store.trade.planning.floors import floors_to_lay
from store.trade.planning.job_network import JobTimes, job_times, lead_days_of
from store.trade.planning.nouns import Fitter, Floor, FloorKey, Half, Visit
from store.trade.planning.rates import Laid, Rates, rates_from

_HALVES = {Part.WHOLE: (0, 1), Part.MORNING: (0,), Part.AFTERNOON: (1,)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """Everything that a plan is judged by, at one moment.

    ``jobs`` are open, have rooms and are not handed over, with what is known at ``now``; ``bookings`` are those not
    cancelled that end today or later; ``laid`` are the records that the output is learned from.
    """

    firm: Firm
    now: datetime
    jobs: tuple[JobFacts, ...]
    people: tuple[Person, ...]
    bookings: tuple[Booking, ...]
    laid: tuple[Laid, ...] = ()

    @property
    def today(self) -> date:
        """The calendar day in the firm's zone."""
        return day_of(self.firm, self.now)

    def job(self, ref: str) -> JobFacts | None:
        """Return an open job by its reference, or None."""
        return next((one for one in self.jobs if one.job.ref == ref), None)

    def person(self, name: str) -> Person | None:
        """Return somebody on file by name, or None."""
        return next((one for one in self.people if one.name == name), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Planning:
    """What a plan is made from: floors to be laid, who lays them, and what is booked on each floor.

    ``with_crews`` are floors on which several people are booked: they stay as they are, and their people are busy.
    ``titles`` are those of the jobs; ``records`` counts the floors whose hours the output is learned from.
    """

    firm: Firm
    floors: tuple[Floor, ...]
    fitters: tuple[Fitter, ...]
    booked: dict[FloorKey, tuple[Booking, ...]]
    with_crews: tuple[FloorKey, ...]
    titles: dict[str, str]
    records: int


def times_in(situation: Situation, rates: Rates | None = None) -> dict[str, JobTimes]:
    """Return the earliest and latest times of every job by its reference; ``rates`` None are the trade's rules.

    Raises:
        Refused: the firm never works, or a date lies beyond the calendar.
    """
    return {
        facts.job.ref: job_times(
            situation.firm, facts, situation.now, rates=rates, lead_days=lead_days_of(situation.firm, facts)
        )
        for facts in situation.jobs
    }


def planning_of(situation: Situation) -> Planning:
    """Return what a plan is made from, its hours by what the firm's own records teach.

    Raises:
        Refused: nobody is on file, no floor is left to be laid, or the firm never works.
    """
    firm, jobs = situation.firm, situation.jobs
    if not situation.people:
        raise Refused("Nobody is on file yet; add somebody in the Firm view (5, then n).")
    known = times_in(situation, rates_from(situation.laid))
    booked = _by_floor(situation.bookings, jobs)
    alone = {key: of_floor for key, of_floor in booked.items() if len({one.person for one in of_floor}) == 1}
    visits = {key: visit_as_booked(firm, key, of_floor) for key, of_floor in alone.items()}
    floors = [
        floor
        for facts in jobs
        for floor in floors_to_lay(facts, known[facts.job.ref], visits)
        if floor.key in alone or floor.key not in booked
    ]
    if not floors:
        raise Refused("No floor is left to be laid, so there is nothing to plan.")
    moving = {one.id for of_floor in alone.values() for one in of_floor}
    fixed = [one for one in situation.bookings if one.id not in moving]
    return Planning(
        firm=firm,
        floors=tuple(floors),
        fitters=tuple(_fitter(firm, person, fixed, situation.today) for person in situation.people),
        booked=alone,
        with_crews=tuple(key for key in booked if key not in alone),
        titles={one.job.ref: one.job.title for one in jobs},
        records=len(situation.laid),
    )


def visit_as_booked(firm: FirmDraft, key: FloorKey, bookings: Sequence[Booking]) -> Visit:
    """Return one person's bookings on a floor as a visit."""
    halves = {Half(day, half) for one in bookings for day in days_of(firm, one) for half in _HALVES[one.part]}
    return Visit(floor=key, fitter=bookings[0].person, halves=tuple(sorted(halves)))


def _by_floor(bookings: Sequence[Booking], jobs: Sequence[JobFacts]) -> dict[FloorKey, tuple[Booking, ...]]:
    """Return the bookings of each floor to come; one for a whole job is its floor's where it has but one room."""
    only = {one.job.ref: one.rooms[0].name for one in jobs if len(one.rooms) == 1}
    found: dict[FloorKey, tuple[Booking, ...]] = {}
    for one in bookings:
        room = one.room or only.get(one.ref, "")
        if room:
            key = FloorKey(one.ref, room)
            found[key] = (*found.get(key, ()), one)
    return found


def _fitter(firm: FirmDraft, person: PersonDraft, fixed: Sequence[Booking], today: date) -> Fitter:
    off = {
        off.first + timedelta(days=ahead)
        for off in person.days_off
        if off.last >= today
        for ahead in range((off.last - off.first).days + 1)
    }
    busy = {
        Half(day, half)
        for one in fixed
        if one.person == person.name
        for day in days_of(firm, one)
        for half in _HALVES[one.part]
    }
    return Fitter(name=person.name, skills=person.skills, off=frozenset(off), busy=frozenset(busy))
