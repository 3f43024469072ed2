"""A job's earliest and latest days: when its floors can be laid and handed over, when they must, and what decides.

**From facts to a network.** Every hold that is not clear becomes an activity: what waits is a wait, what somebody must
do is work that can be done from the next working moment on. Packs come by order, lead time, delivery and acclimatising;
a floor is laid when all its room waits for is over, one room after the other, the first ready first; then it cures,
gets its skirting and is handed over at a working moment. What really happened stands fixed in its place.

Where standing says "ready from", this says the same; where standing says "blocked", this says what is possible at best.
Forecasts are for planning: a screed is released by its reading, never by a date.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from store.trade.diary import day_of, end_of, later
from store.trade.facts import JobFacts, known_at
from store.trade.firm import FirmDraft
from store.trade.groups import board_groups
from store.trade.jobs import Room
from store.trade.laying import cure_hours, is_wholly_laid, laid_mm2, last_board_at
from store.trade.planning.activities import Activity, Fixed, Pace, Times, Timetable
from store.trade.planning.hours import hours_worked, worked_day_at_or_before
from store.trade.planning.job_steps import Allowances, Step, pack_steps, room_steps, step
from store.trade.planning.network import timetable
from store.trade.planning.rates import Rates, laying_hours, rates_from, skirting_hours
from store.trade.stacks import orders_needed
from store.trade.standing import standing_at

HANDOVER: str = Step.HANDOVER.value


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardDays:
    """The last safe days for the packs of one board that are still to come.

    ``deliver_by``: packs that come at any hour of that working day still acclimatise in time. ``order_by``: ordered
    that working day, they come by then. Either may lie in the past: then it is too late to be safe.
    """

    product: str
    lead_days: int
    order_by: date | None
    deliver_by: date


@dataclass(frozen=True, slots=True, kw_only=True)
class JobTimes:
    """When a job can and must be laid and handed over.

    ``ready_at``: when nothing stands in the way of any floor not laid; ``lay_from``: the first working moment at which
    the first of them can be laid on; ``lay_by``: when that one must be begun. None where all is laid.
    ``handover_from`` is None for a job without rooms, ``float_hours`` without a promised day; a float below 0 means
    that the promise cannot be kept, and ``days_late`` by how many calendar days. ``chain`` is what decides the
    handover, the first first. ``assumed_cure`` are rooms whose glue is not on file.
    """

    timetable: Timetable
    ready_at: datetime | None
    lay_from: datetime | None
    lay_by: datetime | None
    handover_from: datetime | None
    float_hours: float | None
    days_late: int
    chain: tuple[Times, ...]
    boards: tuple[BoardDays, ...]
    assumed_cure: tuple[str, ...]

    def room(self, name: str) -> Times:
        """Return the times of laying one room; KeyError if the job has none of this name."""
        return self.timetable.of(f"{Step.LAY} {name}")

    def laid_by(self, name: str = "") -> datetime | None:
        """Return when the last board of a room, or of the first of all, must lie for the promised day to be kept.

        None where nothing is promised, and where it lies already.
        """
        latest = [
            one.latest_finish
            for one in self.timetable.times
            if one.activity.step == Step.LAY and one.activity.fixed is None and name in {"", one.activity.about}
        ]
        return min((at for at in latest if at is not None), default=None)


def job_times(
    firm: FirmDraft,
    everything: JobFacts,
    now: datetime,
    *,
    lead_days: Mapping[str, int] | None = None,
    rates: Rates | None = None,
    allow: Allowances | None = None,
    fitters: int = 1,
) -> JobTimes:
    """Return a job's earliest and latest times from what is known at ``now``.

    Args:
        firm: whose working hours are kept.
        everything: the job's facts; what is dated later is not known yet.
        now: the moment from which on things can be done.
        lead_days: calendar days from order to delivery, by product code; goes before those of ``allow``.
        rates: output per fitter and day; the trade's rules if not given.
        allow: what is reckoned with where no fact says otherwise.
        fitters: how many lay together.

    Raises:
        Refused: the firm never works, or a date lies beyond the calendar.
    """
    asked = allow or Allowances()
    if lead_days is not None:
        asked = replace(asked, lead_days={**asked.lead_days, **lead_days})
    facts = known_at(everything, now, day_of(firm, now))
    waits = tuple(_waits(firm, facts, now, asked))
    first = timetable(firm, waits, now)
    in_turn = sorted(
        (room for room in facts.rooms if not is_wholly_laid(facts, room)),
        key=lambda room: first.of(_ready(room)).earliest_finish,
    )
    work = _Work(firm=firm, facts=facts, now=now, rates=rates or rates_from(), allow=asked, fitters=fitters)
    table = timetable(firm, (*waits, *_floors(work, in_turn), *_ends(work)), now)
    return _answer(work, table, in_turn)


def lead_days_of(firm: FirmDraft, facts: JobFacts) -> dict[str, int]:
    """Return the days from order to delivery of a job's products, by code: their own, else their supplier's."""
    suppliers = {one.name: one.lead_days for one in firm.suppliers}
    found = {code: _first(one.lead_days, suppliers.get(one.supplier)) for code, one in facts.products.items()}
    return {code: days for code, days in found.items() if days is not None}


def _first(own: int | None, otherwise: int | None) -> int | None:
    return otherwise if own is None else own


@dataclass(frozen=True, slots=True, kw_only=True)
class _Work:
    """What the laying of a job is reckoned with."""

    firm: FirmDraft
    facts: JobFacts
    now: datetime
    rates: Rates
    allow: Allowances
    fitters: int


def _ready(room: Room) -> str:
    return f"{Step.READY} {room.name}"


def _waits(firm: FirmDraft, facts: JobFacts, now: datetime, allow: Allowances) -> Iterator[Activity]:
    """Yield all that the rooms not wholly laid wait for, and for each of them a moment at which it is over."""
    holds = standing_at(firm, facts, now).holds
    open_rooms = [room for room in facts.rooms if not is_wholly_laid(facts, room)]
    of_room = {room.name: tuple(room_steps(firm, facts, room, holds, now, allow)) for room in open_rooms}
    for group in board_groups(firm, facts, now):
        rooms = [room for room in group.rooms if room in open_rooms]
        if not rooms:
            continue
        damp = tuple(one.name for room in rooms for one in of_room[room.name] if one.step == Step.TEST_DAMP)
        packs = tuple(pack_steps(firm, group, now, allow, damp))
        yield from packs
        for room in rooms:
            yield from of_room[room.name]
            yield step(Step.READY, room.name, after=tuple(one.name for one in (*packs, *of_room[room.name])))


def _floors(work: _Work, in_turn: Sequence[Room]) -> Iterator[Activity]:
    """Yield the laying of every room and what follows it: the rooms not wholly laid one after the other, in turn."""
    before: tuple[str, ...] = ()
    for room in in_turn:
        # Nobody waits any more in a room where laying is going on.
        going_on = any(one.room == room.name and one.ended_at is None for one in work.facts.layings)
        after = before if going_on else (*before, _ready(room))
        lay = step(Step.LAY, room.name, _hours_left(work, room), pace=Pace.WORKING, after=after)
        before = (lay.name,)
        yield lay
        yield from _after_laying(work, room, lay)
    for room in work.facts.rooms:
        ended = last_board_at(work.facts, room)
        if room not in in_turn and ended is not None:
            begun = min(one.begun_at for one in work.facts.layings if one.room == room.name)
            lay = step(Step.LAY, room.name, fixed=Fixed(begun_at=begun, ended_at=ended))
            yield lay
            yield from _after_laying(work, room, lay)


def _hours_left(work: _Work, room: Room) -> float:
    """The working hours still to be laid in a room: by the floor that is left, and the hours of a laying going on."""
    left = max(0.0, 1 - laid_mm2(work.facts, room) / room.net_mm2) if room.net_mm2 else 0.0
    hours = left * laying_hours(room, work.rates) / work.fitters
    for one in work.facts.layings:
        if one.room == room.name and one.ended_at is None:
            hours -= hours_worked(work.firm, one.begun_at, work.now)
    return max(0.0, hours)


def _after_laying(work: _Work, room: Room, lay: Activity) -> Iterator[Activity]:
    """Yield the waits for the glue, and the skirting of a room that is still to be laid."""
    walk_on, full_load = cure_hours(work.facts, room) or (work.allow.unknown_cure_hours,) * 2
    for what, hours in ((Step.WALK_ON, walk_on), (Step.CURE, full_load)):
        ended = lay.fixed.ended_at if lay.fixed else None
        fixed = Fixed(begun_at=ended, ended_at=later(ended, hours)) if ended else None
        yield step(what, room.name, hours, after=(lay.name,), fixed=fixed)
    if work.allow.with_skirting and lay.fixed is None:
        hours = skirting_hours(room) / work.fitters
        after = (f"{Step.WALK_ON} {room.name}",)
        yield step(Step.SKIRTING, room.name, hours, pace=Pace.WORKING, after=after)


def _ends(work: _Work) -> Iterator[Activity]:
    """Yield the handover: at a working moment when every floor is cured and has its skirting, by the promised day."""
    names = [f"{Step.CURE} {room.name}" for room in work.facts.rooms]
    if work.allow.with_skirting:
        still_open = (room for room in work.facts.rooms if not is_wholly_laid(work.facts, room))
        names += [f"{Step.SKIRTING} {room.name}" for room in still_open]
    promised, signed = work.facts.job.promised_on, work.facts.handover
    yield Activity(
        name=HANDOVER,
        step=Step.HANDOVER,
        pace=Pace.WORKING,
        after=tuple(names),
        not_after=end_of(work.firm, promised) if promised else None,
        fixed=Fixed(begun_at=signed.signed_at, ended_at=signed.signed_at) if signed else None,
    )


def _answer(work: _Work, table: Timetable, in_turn: Sequence[Room]) -> JobTimes:
    end, promised = table.of(HANDOVER), work.facts.job.promised_on
    lays = [table.of(f"{Step.LAY} {room.name}") for room in in_turn]
    floats = [one.float_hours for one in table.times if one.float_hours is not None]
    return JobTimes(
        timetable=table,
        ready_at=max((table.of(_ready(room)).earliest_finish for room in in_turn), default=None),
        lay_from=min((one.earliest_start for one in lays), default=None),
        lay_by=min((one.latest_start for one in lays if one.latest_start), default=None),
        handover_from=end.earliest_start if work.facts.rooms else None,
        float_hours=min(floats, default=None),
        days_late=max(0, (day_of(work.firm, end.earliest_start) - promised).days) if promised else 0,
        chain=tuple(one for one in table.chain(HANDOVER) if one.activity.step != Step.READY),
        boards=tuple(_board_days(work, table, in_turn)),
        assumed_cure=tuple(room.name for room in work.facts.rooms if cure_hours(work.facts, room) is None),
    )


def _board_days(work: _Work, table: Timetable, in_turn: Sequence[Room]) -> Iterator[BoardDays]:
    """Yield the last safe days of every board of which packs are still to come and a floor is promised."""
    for group in board_groups(work.firm, work.facts, work.now):
        lays = [table.of(f"{Step.LAY} {room.name}").latest_start for room in in_turn if room in group.rooms]
        begins = [at for at in lays if at is not None]
        if not begins or group.on_site + group.in_unit >= group.needed:
            continue
        by = later(min(begins), -group.board.acclimatise_hours)
        day = day_of(work.firm, by)
        deliver_by = worked_day_at_or_before(work.firm, day if end_of(work.firm, day) <= by else day - timedelta(1))
        days = work.allow.lead_of(group.board.code)
        covered = orders_needed(group.owed, group.needed - group.on_site - group.in_unit) is not None
        order_by = None if covered else worked_day_at_or_before(work.firm, deliver_by - timedelta(days=days))
        yield BoardDays(product=group.board.code, lead_days=days, order_by=order_by, deliver_by=deliver_by)
