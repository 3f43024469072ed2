"""What if: a late delivery, somebody away, a floor not ready, another promise, put into a copy of how things stand.

Nothing here is filed. Each supposition changes the facts in memory and nothing else, so that the same sums that tell
how things stand tell what would follow. Several are put one after the other; of two about the same thing the later one
counts.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date, timedelta

from store.errors import Problem
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Room
from store.trade.laying import is_wholly_laid
from store.trade.limits import damp_limits, screed_dry_on
from store.trade.orders import as_due
from store.trade.people import DaysOff
from store.trade.planning.situation import Situation
from store.trade.stacks import Owed, still_owed

FARTHEST_DAYS = 3_660


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderComes:
    """What an order still owes comes on another day; ``was`` is the day on file, None where there is none."""

    ref: str
    order: int
    due_on: date
    was: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SomebodyAway:
    """Somebody does not work on some days."""

    person: str
    days: DaysOff


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorLater:
    """Nothing can be laid in a room before a day: other trades are in it, or the site is shut."""

    ref: str
    room: str
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class ScreedDriesLater:
    """A moisture test fails, and the screed of a room is dry on a later day only, when it is tested again."""

    ref: str
    room: str
    on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class PromiseMoves:
    """A job is promised for another day; ``was`` is the day on file."""

    ref: str
    on: date
    was: date | None = None


Supposition = OrderComes | SomebodyAway | FloorLater | ScreedDriesLater | PromiseMoves


def suppose(situation: Situation, suppositions: Iterable[Supposition]) -> Situation:
    """Return how things would stand; what is not there any longer (an order that came) changes nothing."""
    for one in suppositions:
        if isinstance(one, SomebodyAway):
            situation = _with_days_off(situation, one)
        else:
            jobs = (
                _as_supposed(situation, facts, one) if facts.job.ref == one.ref else facts for facts in situation.jobs
            )
            situation = replace(situation, jobs=tuple(jobs))
    return situation


def owed_orders(facts: JobFacts) -> tuple[tuple[Owed, str], ...]:
    """Return what the orders of a job still owe with its product, the earliest due first: what may come late."""
    codes = dict.fromkeys(line.product for order in facts.orders for line in order.lines)
    owed = [(one, code) for code in codes for one in still_owed(facts, code)]
    return tuple(sorted(owed, key=lambda pair: (pair[0].due_on or date.max, pair[0].order.id)))


def open_rooms(facts: JobFacts) -> tuple[Room, ...]:
    """Return the rooms of a job that are not wholly laid."""
    return tuple(room for room in facts.rooms if not is_wholly_laid(facts, room))


def drying_rooms(facts: JobFacts) -> tuple[Room, ...]:
    """Return the rooms not wholly laid of whose screed a day is forecast on which it is dry."""
    return tuple(room for room in open_rooms(facts) if screed_dry_on(room) is not None)


def problems_with(situation: Situation, one: Supposition) -> tuple[Problem, ...]:
    """Return what is wrong with a supposition: a day that is over or too far off, or an end before its start."""
    field, day = _day_of(one)
    if isinstance(one, SomebodyAway) and one.days.last < one.days.first:
        return (Problem(field=field, say="The last day is before the first."),)
    if day < situation.today:
        return (Problem(field=field, say="That day is over already; write one to come."),)
    if day > situation.today + timedelta(days=FARTHEST_DAYS):
        return (Problem(field=field, say="That day is more than ten years off."),)
    return ()


def _day_of(one: Supposition) -> tuple[str, date]:
    if isinstance(one, SomebodyAway):
        return "last", one.days.last
    return ("day", one.due_on) if isinstance(one, OrderComes) else ("day", one.on)


def _with_days_off(situation: Situation, one: SomebodyAway) -> Situation:
    people = tuple(
        replace(person, days_off=(*person.days_off, one.days)) if person.name == one.person else person
        for person in situation.people
    )
    return replace(situation, people=people, jobs=tuple(replace(facts, people=people) for facts in situation.jobs))


def _as_supposed(
    situation: Situation, facts: JobFacts, one: OrderComes | FloorLater | ScreedDriesLater | PromiseMoves
) -> JobFacts:
    if isinstance(one, OrderComes):
        orders = (as_due(order, one.due_on) if order.id == one.order else order for order in facts.orders)
        return replace(facts, orders=tuple(orders))
    if isinstance(one, PromiseMoves):
        return replace(facts, job=replace(facts.job, promised_on=one.on))
    if isinstance(one, FloorLater):
        return _with_room(facts, one.room, lambda room: replace(room, site_ready_on=one.on))
    return _damp_until(situation.firm, facts, one)


def _damp_until(firm: FirmDraft, facts: JobFacts, one: ScreedDriesLater) -> JobFacts:
    """The tests of the room's screed count no longer, and its forecast ends on the supposed day.

    The forecast is moved by moving the day the screed was laid; a first heating not on file yet moves with it.
    """
    tests = {kind for room in facts.rooms if room.name == one.room for kind in damp_limits(firm, facts, room)}

    def later(room: Room) -> Room:
        dry_on, laid_on = screed_dry_on(room), room.screed_laid_on
        return room if dry_on is None or laid_on is None else replace(room, screed_laid_on=laid_on + (one.on - dry_on))

    kept = (reading for reading in facts.readings if reading.room != one.room or type(reading.measure) not in tests)
    return _with_room(replace(facts, readings=tuple(kept)), one.room, later)


def _with_room(facts: JobFacts, name: str, change: Callable[[Room], Room]) -> JobFacts:
    return replace(facts, rooms=tuple(change(room) if room.name == name else room for room in facts.rooms))
