"""What follows from a supposition: promised days, bookings that cannot be kept, floors with nobody, and another plan.

Two pictures of how things stand are held against each other. When a floor is ready is taken from its job's network:
where the verdict is known it says the same, and where a floor is blocked it says what is possible at best. A job's end
is the one its own times tell, by the trade's rule of output; a plan goes by what the firm has laid.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from store.trade.bookings import Booking, days_of, meet
from store.trade.clashes import Clash, ClashKind, Ground, Key, Told, hours_of, told_of
from store.trade.diary import day_of
from store.trade.facts import JobFacts
from store.trade.laying import is_begun
from store.trade.planning.job_network import JobTimes
from store.trade.planning.job_steps import Step
from store.trade.planning.nouns import JobEnd, Proposal
from store.trade.planning.situation import Situation, times_in
from store.trade.planning.suppose import open_rooms
from store.trade.standing import standing_at

_BY_THE_HOLDS = frozenset({ClashKind.TOO_SOON, ClashKind.NOT_READY})


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlook:
    """How things stand, reckoned: every job's times by reference, and what speaks against every booking."""

    situation: Situation
    times: Mapping[str, JobTimes]
    told: Mapping[Key, Told]


@dataclass(frozen=True, slots=True, kw_only=True)
class End:
    """When a job can be handed over, the day it is promised for, and by how many calendar days that is missed."""

    handover_on: date
    promised_on: date | None
    days_late: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EndMoves:
    """A job that ends otherwise; ``was`` or ``will_be`` is None where a plan has no day for all its floors."""

    ref: str
    title: str
    was: End | None
    will_be: End | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysLost:
    """Days of a booking on which its person is away; ``nobody_else`` if then nobody is on that floor on one of them."""

    booking: Booking
    days: tuple[date, ...]
    nobody_else: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Consequences:
    """What follows: jobs whose earliest handover or promise moves, days lost, and clashes that come and go."""

    ends: tuple[EndMoves, ...]
    lost: tuple[DaysLost, ...]
    brings: tuple[Told, ...]
    takes_away: tuple[Told, ...]


def outlook(situation: Situation) -> Outlook:
    """Reckon how things stand.

    Raises:
        Refused: the firm never works, or a date lies beyond the calendar.
    """
    times = times_in(situation)
    ground = Ground(
        firm=situation.firm,
        now=situation.now,
        people={one.name: one for one in situation.people},
        jobs={one.job.ref: (one, standing_at(situation.firm, one, situation.now)) for one in situation.jobs},
    )
    everybody = dict.fromkeys(one.person for one in situation.bookings)
    told = told_of(ground, situation.bookings, everybody)
    kept = {key: one for key, one in told.items() if one.clash.kind not in _BY_THE_HOLDS}
    early = {(one.booking.id, one.clash.kind, ""): one for one in _too_soon(situation, times)}
    return Outlook(situation=situation, times=times, told=kept | early)


def consequences(before: Outlook, after: Outlook) -> Consequences:
    """Return what is otherwise in the second picture than in the first."""
    brings = [one for key, one in after.told.items() if _is_worse(one.clash, before.told.get(key))]
    return Consequences(
        ends=tuple(_ends_that_move(before, after)),
        lost=tuple(_lost(after, one) for one in brings if one.clash.kind is ClashKind.AWAY),
        brings=tuple(one for one in brings if one.clash.kind is not ClashKind.AWAY),
        takes_away=tuple(one for key, one in before.told.items() if key not in after.told),
    )


def plan_moves(before: Proposal, after: Proposal, titles: Mapping[str, str]) -> tuple[EndMoves, ...]:
    """Return the jobs that end on another day, or are late by more or fewer days, by the second plan."""
    was, is_now = ({one.job: _by_plan(one) for one in plan.ends} for plan in (before, after))
    return tuple(
        EndMoves(ref=ref, title=titles.get(ref, ""), was=was.get(ref), will_be=is_now.get(ref))
        for ref in dict.fromkeys([*was, *is_now])
        if was.get(ref) != is_now.get(ref)
    )


def _by_plan(end: JobEnd) -> End:
    return End(handover_on=end.handover_on, promised_on=end.promised_on, days_late=end.days_late)


def _ends_that_move(before: Outlook, after: Outlook) -> Iterator[EndMoves]:
    for facts in after.situation.jobs:
        earlier = before.situation.job(facts.job.ref)
        was = _end(before, earlier) if earlier is not None else None
        will_be = _end(after, facts)
        if was != will_be:
            yield EndMoves(ref=facts.job.ref, title=facts.job.title, was=was, will_be=will_be)


def _end(seen: Outlook, facts: JobFacts) -> End | None:
    times = seen.times[facts.job.ref]
    if times.handover_from is None:
        return None
    day = day_of(seen.situation.firm, times.handover_from)
    return End(handover_on=day, promised_on=facts.job.promised_on, days_late=times.days_late)


def _is_worse(clash: Clash, before: Told | None) -> bool:
    """Whether a clash is new, takes more days than before, or waits for a later moment."""
    if before is None or clash.days > before.clash.days:
        return True
    was = before.clash.ready_from
    return clash.ready_from is not None and was is not None and clash.ready_from > was


def _lost(seen: Outlook, told: Told) -> DaysLost:
    situation, booking = seen.situation, told.booking
    person = situation.person(booking.person)
    days = [
        day
        for day in days_of(situation.firm, booking)
        if day >= situation.today and person is not None and person.away_on(day) is not None
    ]
    alone = any(not _somebody_else(situation, booking, day) for day in days)
    return DaysLost(booking=booking, days=tuple(days), nobody_else=alone)


def _somebody_else(situation: Situation, booking: Booking, day: date) -> bool:
    """Whether somebody who is there is on the same floor on a day."""
    for one in situation.bookings:
        same_floor = one.ref == booking.ref and (not one.room or not booking.room or one.room == booking.room)
        if not same_floor or one.person == booking.person or not meet(one, booking):
            continue
        person = situation.person(one.person)
        if person is not None and person.away_on(day) is None and day in days_of(situation.firm, one):
            return True
    return False


def _too_soon(situation: Situation, times: Mapping[str, JobTimes]) -> Iterator[Told]:
    """Bookings that begin before their floor can be ready, at best."""
    firm = situation.firm
    for booking in situation.bookings:
        facts = situation.job(booking.ref)
        if facts is None:
            continue
        rooms = [one for one in open_rooms(facts) if booking.room in {"", one.name} and not is_begun(facts, one)]
        table = times[booking.ref].timetable
        ready = max((table.of(f"{Step.READY} {one.name}").earliest_finish for one in rooms), default=None)
        days = [day for day in days_of(firm, booking) if day >= situation.today]
        soon = [day for day in days if ready is not None and hours_of(firm, booking.part, day)[0] < ready]
        if soon:
            clash = Clash(kind=ClashKind.TOO_SOON, on=soon[0], days=len(soon), ready_from=ready)
            yield Told(booking=booking, clash=clash)
