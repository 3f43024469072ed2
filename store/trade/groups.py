"""Rooms that share a board: their packs counted together, each stack with the clock of the room it lies in."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from store.trade.acclimatisation import Tick, hour_count
from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, FirmDraft
from store.trade.jobs import Room
from store.trade.needs import wanted
from store.trade.products import Board
from store.trade.readings import Air, BoardMoisture, Reading
from store.trade.settling import rounds_of, settling
from store.trade.stacks import (
    Owed,
    Stack,
    packs_in_unit,
    packs_ordered,
    stacks_on_site,
    still_owed,
)
from store.trade.verdict import Need, StackClock


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardGroup:
    """The rooms of a job that share a board: their packs are counted together and are ready at one moment."""

    board: Board
    rooms: tuple[Room, ...]
    need: Need
    ordered: int
    in_unit: int
    stacks: tuple[Stack, ...]
    clocks: tuple[StackClock, ...]
    owed: tuple[Owed, ...]

    @property
    def needed(self) -> int:
        """The packs needed, whatever they are made of."""
        return self.need.packs

    @property
    def on_site(self) -> int:
        return sum(stack.packs for stack in self.stacks)

    @property
    def arrived_at(self) -> datetime | None:
        """When the first of the packs came into a room."""
        return min((stack.since for stack in self.stacks), default=None)

    @property
    def ready_at(self) -> datetime | None:
        """When enough packs are ready, the earliest-ready first; None if that cannot be foretold."""
        counted = 0
        for at, packs in sorted((one.ready_at, one.packs) for one in self.clocks if one.ready_at):
            counted += packs
            if counted >= self.needed:
                return at
        return None

    def ready_packs(self, now: datetime) -> int:
        """Return the packs whose wait is over."""
        return sum(one.packs for one in self.clocks if one.ready_at and one.ready_at <= now)

    @property
    def deciding_clock(self) -> StackClock | None:
        """The clock the floor waits for: one that stands still while its packs are needed, else the last needed."""
        if self.ready_at is None:
            standing = (one for one in self.clocks if one.ready_at is None)
            return next(standing, self.clocks[-1] if self.clocks else None)
        return next(one for one in self.clocks if one.ready_at == self.ready_at)


def board_groups(firm: FirmDraft, facts: JobFacts, now: datetime) -> tuple[BoardGroup, ...]:
    """Return the job's rooms grouped by board, with their packs, clocks and open orders."""
    return tuple(_group(firm, facts, code, now) for code in facts.board_codes)


def _group(firm: FirmDraft, facts: JobFacts, code: str, now: datetime) -> BoardGroup:
    board, rooms = facts.board(code), facts.rooms_with(code)
    stacks = stacks_on_site(facts, code)
    return BoardGroup(
        board=board,
        rooms=rooms,
        need=wanted(facts, code),
        ordered=packs_ordered(facts, code),
        in_unit=packs_in_unit(facts, code),
        stacks=stacks,
        clocks=tuple(_clock(firm, facts, board, stack, now) for stack in stacks),
        owed=still_owed(facts, code),
    )


def climate_for(firm: FirmDraft, board: Board) -> ClimateRange:
    """Return the range of room air for a board: its maker's where the sheet has one, else the firm's."""
    return board.climate or firm.climate


def _clock(firm: FirmDraft, facts: JobFacts, board: Board, stack: Stack, now: datetime) -> StackClock:
    if board.ready_when_stable:
        return _settling_clock(firm, facts, board, stack)
    ticks = ticks_in(firm, facts, board, stack.room)
    count = hour_count(firm, ticks, stack.since, board.acclimatise_hours, now)
    return StackClock(
        room=stack.room,
        product=stack.product,
        packs=stack.packs,
        since=stack.since,
        hours_needed=board.acclimatise_hours,
        hours_counted=count.hours,
        running=count.running,
        ready_at=count.ready_at,
        stopped_at=count.stopped_at,
        unread=count.unread,
    )


def ticks_in(firm: FirmDraft, facts: JobFacts, board: Board, room: str) -> list[Tick]:
    """Return a room's air readings as the clock of a board sees them, oldest first."""
    allowed = climate_for(firm, board)
    return [Tick(at=at, inside=allowed.holds(air.temp_c, air.rh_percent)) for at, air in air_in(facts.readings, room)]


def _settling_clock(firm: FirmDraft, facts: JobFacts, board: Board, stack: Stack) -> StackClock:
    """The clock of boards whose wait ends when their moisture stands still; hours are not counted."""
    read = [
        (one.at, one.measure.percent)
        for one in facts.readings
        if one.room == stack.room and one.at >= stack.since and isinstance(one.measure, BoardMoisture)
    ]
    found = settling(rounds_of(read, firm.zone), climate_for(firm, board))
    return StackClock(
        room=stack.room,
        product=stack.product,
        packs=stack.packs,
        since=stack.since,
        hours_needed=board.acclimatise_hours,
        hours_counted=0.0,
        running=True,
        ready_at=found.settled_at,
        by_reading=True,
        again_at=found.again_at,
        change=found.change,
    )


def in_order(readings: Iterable[Reading], room: str) -> list[Reading]:
    """Return a room's readings by their moment; those of one moment in the order of filing."""
    return sorted((one for one in readings if one.room == room), key=lambda one: one.at)


def air_in(readings: Sequence[Reading], room: str) -> list[tuple[datetime, Air]]:
    """Return a room's air readings with their moments, oldest first."""
    return [(one.at, one.measure) for one in in_order(readings, room) if isinstance(one.measure, Air)]
