"""The waits that a job's floors stand in or head for, as days: delivery, drying, acclimatising, curing."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from store.trade.diary import day_of, later
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.laying import cure_hours, is_wholly_laid, last_board_at
from store.trade.verdict import HoldKind, Standing


class WaitKind(StrEnum):
    """What is waited for."""

    DELIVERY = "delivery"
    DRY = "dry"
    ACCLIMATISE = "acclimatise"
    CURE = "cure"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """A wait of one room from its first day to its last, both included."""

    room: str
    kind: WaitKind
    first: date
    last: date


def waits_of(firm: FirmDraft, facts: JobFacts, standing: Standing, today: date) -> tuple[Wait, ...]:
    """Return a job's waits as far as its holds and windows know them, each room's in the order they come.

    A wait whose end nobody knows (a stopped clock, an order without a day) is none that can be drawn.
    """
    return tuple(sorted(_waits(firm, facts, standing, today), key=lambda wait: (wait.first, wait.last, wait.room)))


def _waits(firm: FirmDraft, facts: JobFacts, standing: Standing, today: date) -> Iterator[Wait]:
    clocked = {clock.room for clock in standing.clocks if clock.ready_at is not None}
    for clock in standing.clocks:
        if clock.ready_at is not None:
            first, last = day_of(firm, clock.since), day_of(firm, clock.ready_at)
            yield Wait(room=clock.room, kind=WaitKind.ACCLIMATISE, first=first, last=last)
    for hold in standing.holds:
        if hold.kind is HoldKind.PACKS and hold.clears_at is not None:
            yield from _from_today(hold.room, WaitKind.DELIVERY, today, day_of(firm, hold.clears_at))
        if hold.kind is HoldKind.SUBFLOOR_DRY and hold.not_before is not None:
            yield from _from_today(hold.room, WaitKind.DRY, today, day_of(firm, hold.not_before))
        if hold.kind is HoldKind.ACCLIMATISATION and hold.clears_at is not None and hold.room not in clocked:
            yield from _after_delivery(firm, facts, standing, hold.room, day_of(firm, hold.clears_at))
    for room in facts.rooms:
        end, hours = last_board_at(facts, room), cure_hours(facts, room)
        if end is not None and hours is not None and hours[1] and is_wholly_laid(facts, room):
            first, last = day_of(firm, end), day_of(firm, later(end, hours[1]))
            yield Wait(room=room.name, kind=WaitKind.CURE, first=first, last=last)


def _from_today(room: str, kind: WaitKind, today: date, last: date) -> Iterator[Wait]:
    if last >= today:
        yield Wait(room=room, kind=kind, first=today, last=last)


def _after_delivery(firm: FirmDraft, facts: JobFacts, standing: Standing, room: str, last: date) -> Iterator[Wait]:
    """The wait of packs that are still to come: so many hours before it ends."""
    board = facts.board(facts.room(room).board)
    comes = [hold.clears_at for hold in standing.holds if hold.room == room and hold.kind is HoldKind.PACKS]
    for moment in comes:
        if moment is not None and day_of(firm, later(moment, board.acclimatise_hours)) <= last:
            yield Wait(room=room, kind=WaitKind.ACCLIMATISE, first=day_of(firm, moment), last=last)
