"""What a job's floors still wait for, as activities: packs on their way and in the room, the subfloor, heating, air."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from enum import StrEnum
from types import MappingProxyType

from store.trade.diary import day_of, later, start_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import BoardGroup
from store.trade.holds_base import quiet_days
from store.trade.jobs import Room, Subfloor
from store.trade.limits import screed_dry_on
from store.trade.planning.activities import Activity, Fixed, Pace
from store.trade.planning.rates import smoothing_hours
from store.trade.screed import first_heating
from store.trade.stacks import Owed, orders_needed
from store.trade.verdict import Hold, HoldKind, HoldState, Why


class Step(StrEnum):
    """What an activity of a job is; an answer to any other hold has the hold's kind for its step."""

    ORDER = "order"
    LEAD = "lead"
    DELIVER = "deliver"
    CARRY_IN = "carry_in"
    ACCLIMATISE = "acclimatise"
    PUT_AIR_RIGHT = "put_air_right"
    SCREED_DRY = "screed_dry"
    TEST_DAMP = "test_damp"
    FIRST_HEATING = "first_heating"
    HEATING_OFF = "heating_off"
    SMOOTH = "smooth"
    SMOOTH_DRY = "smooth_dry"
    CHECK_FLAT = "check_flat"
    READY = "ready"
    LAY = "lay"
    WALK_ON = "walk_on"
    CURE = "cure"
    SKIRTING = "skirting"
    HANDOVER = "handover"


_NO_DAYS: Mapping[str, int] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowances:
    """What is reckoned with where no fact says otherwise; a maker's sheet goes before every one of them.

    ``lead_days``: calendar days from order to delivery, by product; ``usual_lead_days`` for the others (common
    practice, no source).
    ``smoothing_dry_hours``: compound may be covered after about a day (makers' sheets; longer when thick or cold).
    ``unknown_cure_hours``: a glued floor whose glue is not on file, the longest of common practice's 2 to 7 days.
    ``with_skirting``: whether the firm puts up the skirting.
    """

    lead_days: Mapping[str, int] = field(default_factory=lambda: _NO_DAYS)
    usual_lead_days: int = 14
    smoothing_dry_hours: float = 24
    unknown_cure_hours: float = 168
    with_skirting: bool = True

    def lead_of(self, product: str) -> int:
        """Return the days from order to delivery of one product."""
        return self.lead_days.get(product, self.usual_lead_days)


def step(
    what: str,
    about: str,
    hours: float = 0.0,
    *,
    pace: Pace = Pace.ELAPSED,
    after: tuple[str, ...] = (),
    not_before: datetime | None = None,
    fixed: Fixed | None = None,
) -> Activity:
    """Return an activity named after its step and what it is about; ``what`` may name a part of a step after a dot."""
    return Activity(
        name=f"{what} {about}",
        step=what.partition(".")[0],
        about=about,
        hours=hours,
        pace=pace,
        after=after,
        not_before=not_before,
        fixed=fixed,
    )


def pack_steps(
    firm: FirmDraft, group: BoardGroup, now: datetime, allow: Allowances, damp: tuple[str, ...]
) -> Iterator[Activity]:
    """Yield how the packs of one board become ready, each part of them that is needed by its own way.

    Packs are carried in when the moisture tests named in ``damp`` are passed; those on order go straight into the room.
    Clocks that stand still are reckoned to go on from the next working moment.
    """
    code, hours = group.board.code, group.board.acclimatise_hours
    if group.ready_at is not None:
        begun = min(group.arrived_at or group.ready_at, group.ready_at)
        yield step(Step.ACCLIMATISE, code, fixed=Fixed(begun_at=begun, ended_at=group.ready_at))
        return
    running = [one for one in group.clocks if one.ready_at is not None]
    standing = [one for one in group.clocks if one.ready_at is None]
    if running:
        ended = max(one.ready_at for one in running if one.ready_at)
        fixed = Fixed(begun_at=min(ended, *(one.since for one in running)), ended_at=ended)
        yield step(f"{Step.ACCLIMATISE}.begun", code, fixed=fixed)
    if standing:
        left = max(one.hours_needed - one.hours_counted for one in standing)
        right = step(Step.PUT_AIR_RIGHT, code, pace=Pace.WORKING)
        yield right
        yield step(f"{Step.ACCLIMATISE}.stopped", code, left, after=(right.name,))
    if group.on_site < group.needed and group.in_unit > 0:
        carry = step(Step.CARRY_IN, code, pace=Pace.WORKING, after=damp)
        yield carry
        yield step(f"{Step.ACCLIMATISE}.unit", code, hours, after=(carry.name,))
    if group.on_site + group.in_unit < group.needed:
        yield from _steps_to_come(firm, group, now, allow, damp)


def _steps_to_come(
    firm: FirmDraft, group: BoardGroup, now: datetime, allow: Allowances, damp: tuple[str, ...]
) -> Iterator[Activity]:
    """Order, lead time, delivery and wait of the packs that are neither on site nor in the unit."""
    code, hours = group.board.code, group.board.acclimatise_hours
    owing = orders_needed(group.owed, group.needed - group.on_site - group.in_unit)
    ordered = [_due(firm, one, allow.lead_of(code)) for one in (group.owed if owing is None else owing)]
    due = max(ordered, default=None)
    if owing is None:
        order = step(Step.ORDER, code, pace=Pace.WORKING)
        lead = step(Step.LEAD, code, 24 * allow.lead_of(code), pace=Pace.DAYS, after=(order.name,))
        deliver = step(Step.DELIVER, code, pace=Pace.WORKING, after=(lead.name,), not_before=due)
        yield from (order, lead, deliver)
    elif due is not None and min(day_of(firm, at) for at in ordered) >= day_of(firm, now):
        deliver = step(Step.DELIVER, code, not_before=due)
        yield deliver
        if due <= now and not damp:
            # What is due today counts from this morning, as its hold does, until the day is over.
            fixed = Fixed(begun_at=due, ended_at=later(due, hours))
            yield step(Step.ACCLIMATISE, code, fixed=fixed, after=(deliver.name,))
            return
    else:
        deliver = step(Step.DELIVER, code, pace=Pace.WORKING, not_before=due)
        yield deliver
    yield step(Step.ACCLIMATISE, code, hours, after=(deliver.name, *damp))


def _due(firm: FirmDraft, owed: Owed, lead_days: int) -> datetime:
    """Return when an order is due, by its lead time where nobody named a day."""
    return start_of(firm, owed.due_on or owed.order.on + timedelta(days=lead_days))


def room_steps(
    firm: FirmDraft, facts: JobFacts, room: Room, holds: Sequence[Hold], now: datetime, allow: Allowances
) -> Iterator[Activity]:
    """Yield what stands in the way of a room's floor beside its packs: its holds, and heating."""
    before: tuple[str, ...] = ()
    # Where days of the heating are on file, its hold says what is still to come.
    about_heating = [one for one in holds if one.room == room.name and one.kind is HoldKind.HEATING]
    unknown = any(one.why is Why.NOTHING_ON_FILE for one in about_heating)
    heating = _first_heating(firm, room, now) if unknown else None
    if heating is not None:
        before = (heating.name,)
        yield heating
    if room.heated and unknown and not any(one.room == room.name for one in facts.layings):
        yield step(Step.HEATING_OFF, room.name, 24 * quiet_days(firm), after=before)
    states = {one.kind: one for one in holds if one.room == room.name and one.state is not HoldState.CLEAR}
    dry = states.pop(HoldKind.SUBFLOOR_DRY, None)
    if dry is not None:
        found = tuple(_until_dry(firm, room, dry, before))
        before = (found[-1].name,)
        yield from found
    flat = states.pop(HoldKind.SUBFLOOR_FLAT, None)
    yield from _until_flat(facts, room, flat, now, allow, before)
    for kind, hold in states.items():
        if kind in {HoldKind.PACKS, HoldKind.ACCLIMATISATION}:
            continue
        if hold.state is HoldState.WAITING:
            yield step(kind, room.name, not_before=hold.clears_at)
        else:
            yield step(kind, room.name, not_before=hold.not_before, pace=Pace.WORKING)


def _until_dry(firm: FirmDraft, room: Room, hold: Hold, before: tuple[str, ...]) -> Iterator[Activity]:
    """Yield a screed's drying, by forecast, and the test that alone releases it."""
    dry_on, laid_on = screed_dry_on(room), room.screed_laid_on
    if dry_on is not None and laid_on is not None:
        dries = Fixed(begun_at=start_of(firm, laid_on), ended_at=start_of(firm, dry_on))
        drying = step(Step.SCREED_DRY, room.name, fixed=dries)
        before = (*before, drying.name)
        yield drying
    yield step(Step.TEST_DAMP, room.name, pace=Pace.WORKING, after=before, not_before=hold.not_before)


def _until_flat(
    facts: JobFacts, room: Room, hold: Hold | None, now: datetime, allow: Allowances, before: tuple[str, ...]
) -> Iterator[Activity]:
    """Yield smoothing where the subfloor was measured and not good, its drying, and the straightedge after it."""
    smoothed = max((one.at for one in facts.smoothings if one.room == room.name), default=None)
    if hold is not None and hold.state is HoldState.FAILED:
        smooth = step(Step.SMOOTH, room.name, smoothing_hours(room), pace=Pace.WORKING, after=before)
        dry = step(Step.SMOOTH_DRY, room.name, allow.smoothing_dry_hours, after=(smooth.name,))
        before = (dry.name,)
        yield from (smooth, dry)
    elif smoothed is not None and later(smoothed, allow.smoothing_dry_hours) > now:
        dries = Fixed(begun_at=smoothed, ended_at=later(smoothed, allow.smoothing_dry_hours))
        dry = step(Step.SMOOTH_DRY, room.name, fixed=dries)
        before = (dry.name,)
        yield dry
    if hold is not None:
        yield step(Step.CHECK_FLAT, room.name, pace=Pace.WORKING, after=before)


def _first_heating(firm: FirmDraft, room: Room, now: datetime) -> Activity | None:
    """Return the first heating of a heated screed, by its earliest days, while it is not over."""
    if not (room.heated and room.subfloor.is_screed and room.screed_laid_on):
        return None
    kind = "cement" if room.subfloor is Subfloor.CEMENT_SCREED else "calcium-sulphate"
    days = first_heating(screed=kind, laid_on=room.screed_laid_on)
    heats = Fixed(begun_at=start_of(firm, days.start_on), ended_at=start_of(firm, days.end_on))
    return step(Step.FIRST_HEATING, room.name, fixed=heats) if heats.ended_at > now else None
