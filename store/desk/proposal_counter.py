"""The counter for proposals: who could lay which floor when, and taking such a plan up into the diary."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from store.desk.counter import Bench
from store.desk.diary_cards import Booked
from store.desk.diary_counter import DiaryCounter
from store.errors import Refused
from store.trade.bookings import Booking, BookingDraft, Part, days_of
from store.trade.facts import JobFacts, known_at
from store.trade.firm import Firm
from store.trade.people import PersonDraft
from store.trade.planning.floors import floors_to_lay, stretches_of
from store.trade.planning.job_network import job_times, lead_days_of
from store.trade.planning.nouns import Fitter, Floor, FloorKey, Half, Proposal, Visit
from store.trade.planning.propose import propose
from store.trade.planning.rates import laid_in, rates_from

_LEARNED_FROM = timedelta(days=365)
_HALVES = {Part.WHOLE: (0, 1), Part.MORNING: (0,), Part.AFTERNOON: (1,)}
_PARTS = {None: Part.WHOLE, 0: Part.MORNING, 1: Part.AFTERNOON}


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


class ProposalCounter:
    """Asks for the facts of a plan, searches it, and books what is taken up of it."""

    def __init__(self, bench: Bench, diary: DiaryCounter) -> None:
        self._bench, self._diary = bench, diary

    def facts(self) -> Planning:
        """Return what a plan is made from, as things stand now.

        Raises:
            Refused: nobody is on file, or no floor is left to be laid.
        """
        firm, now, today = self._bench.firm(), self._bench.now(), self._bench.today()
        people = self._bench.cabinet.people.all()
        if not people:
            raise Refused("Nobody is on file yet; add somebody in the Firm view (5, then n).")
        year = [known_at(one, now, today) for one in self._bench.cabinet.facts.open_at(now - _LEARNED_FROM)]
        laid = [one for facts in year for one in laid_in(firm, facts)]
        open_refs = {one.ref for one in self._bench.cabinet.jobs.open_at(now)}
        jobs = [one for one in year if one.job.ref in open_refs and one.rooms and one.handover is None]
        ahead = [one for one in self._bench.cabinet.bookings.all() if not one.cancelled and one.last >= today]
        booked = _by_floor(ahead, jobs)
        alone = {key: of_floor for key, of_floor in booked.items() if len({one.person for one in of_floor}) == 1}
        visits = {key: _visit(firm, key, of_floor) for key, of_floor in alone.items()}
        rates = rates_from(laid)
        floors = [
            floor
            for facts in jobs
            for floor in floors_to_lay(
                facts, job_times(firm, facts, now, rates=rates, lead_days=lead_days_of(facts)), visits
            )
            if floor.key in alone or floor.key not in booked
        ]
        if not floors:
            raise Refused("No floor is left to be laid, so there is nothing to plan.")
        moving = {one.id for of_floor in alone.values() for one in of_floor}
        fixed = [one for one in ahead if one.id not in moving]
        return Planning(
            firm=firm,
            floors=tuple(floors),
            fitters=tuple(_fitter(firm, person, fixed, today) for person in people),
            booked=alone,
            with_crews=tuple(key for key in booked if key not in alone),
            titles={one.job.ref: one.job.title for one in jobs},
            records=len(laid),
        )

    def search(self, planning: Planning) -> Iterator[Proposal]:
        """Yield ever better plans; fit for a thread, since nothing on file is touched."""
        return propose(planning.firm, planning.floors, planning.fitters, self._bench.now())

    def take_up(self, planning: Planning, proposal: Proposal, chosen: Collection[FloorKey]) -> Booked:
        """Book the chosen floors as proposed, in one deed that can be turned back whole.

        Raises:
            Refused: none of the chosen floors would be booked otherwise than now.
            ChangedMeanwhile: a booking is not any more what the plan was made from.
        """
        cancelled: list[Booking] = []
        changed: list[tuple[Booking, Booking]] = []
        fresh: list[tuple[str, BookingDraft]] = []
        for visit in proposal.visits:
            old = planning.booked.get(visit.floor, ())
            if visit.floor not in chosen or (old and _visit(planning.firm, visit.floor, old) == visit):
                continue
            new = [
                BookingDraft(
                    person=visit.fitter,
                    room=visit.floor.room,
                    first=one.first,
                    last=one.last,
                    part=_PARTS[one.half],
                )
                for one in stretches_of(planning.firm, visit)
            ]
            # A booking that is moved stays the same one, so that it moves in everybody's calendar too.
            changed += [(was, _as(was, draft)) for was, draft in zip(old, new, strict=False)]
            cancelled += old[len(new) :]
            fresh += [(visit.floor.job, draft) for draft in new[len(old) :]]
        if not (cancelled or changed or fresh):
            raise Refused("All that was chosen is booked like that already.")
        return self._diary.rebook("plan taken up", changed, cancelled, fresh)


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


def _visit(firm: Firm, key: FloorKey, bookings: Sequence[Booking]) -> Visit:
    halves = {Half(day, half) for one in bookings for day in days_of(firm, one) for half in _HALVES[one.part]}
    return Visit(floor=key, fitter=bookings[0].person, halves=tuple(sorted(halves)))


def _fitter(firm: Firm, person: PersonDraft, fixed: Sequence[Booking], today: date) -> Fitter:
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


def _as(was: Booking, draft: BookingDraft) -> Booking:
    return replace(was, person=draft.person, room=draft.room, first=draft.first, last=draft.last, part=draft.part)
