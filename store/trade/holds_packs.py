"""Holds on the packs: enough of them on hand, and their wait in the room over."""

from datetime import datetime

from store.trade.diary import day_of, later, start_of
from store.trade.firm import FirmDraft
from store.trade.groups import BoardGroup
from store.trade.jobs import Room
from store.trade.stacks import orders_needed
from store.trade.verdict import Hold, HoldKind, HoldState, StackClock, Why


def packs(firm: FirmDraft, room: Room, group: BoardGroup, now: datetime) -> Hold:
    """To do while too few packs are on site or in the unit, unless enough are on order and not overdue."""
    short = group.needed - group.on_site - group.in_unit
    clears_at, due_on = None, None
    state, concerned = HoldState.TO_DO, short
    owing = orders_needed(group.owed, short)
    if short <= 0:
        state, why, concerned = HoldState.CLEAR, Why.PACKS_ENOUGH, group.on_site + group.in_unit
    elif owing is None:
        concerned = short - sum(one.packs for one in group.owed)
        why = Why.ORDERED_TOO_FEW if group.ordered else Why.NOT_ORDERED
    elif any(one.due_on is None for one in owing):
        why = Why.NO_DUE_DAY
    else:
        dues = [one.due_on for one in owing if one.due_on]
        late = [due for due in dues if due < day_of(firm, now)]
        due_on = min(late) if late else max(dues)
        why = Why.OVERDUE if late else Why.ON_ORDER
        if not late:
            state, clears_at = HoldState.WAITING, start_of(firm, due_on)
    return Hold(
        room=room.name,
        kind=HoldKind.PACKS,
        state=state,
        why=why,
        clears_at=clears_at,
        product=group.board.code,
        packs=concerned,
        limit=float(group.needed),
        due_on=due_on,
    )


def acclimatisation(firm: FirmDraft, room: Room, group: BoardGroup, now: datetime) -> Hold:
    """Waiting while the clock runs or packs are to come; to do when it stands or packs lie in the unit."""
    ready_at, clock = group.ready_at, group.deciding_clock
    state, clears_at, not_before, concerned = HoldState.WAITING, ready_at, None, group.on_site
    if ready_at is not None and ready_at <= now:
        state, why, clears_at = HoldState.CLEAR, Why.SETTLED if group.board.ready_when_stable else Why.READY, None
    elif ready_at is not None:
        why = Why.CLOCK_RUNNING
    elif clock is not None and clock.by_reading and clock.ready_at is None:
        state, concerned, why, not_before = HoldState.TO_DO, clock.packs, Why.SETTLING, clock.again_at
    elif clock is not None and clock.ready_at is None:
        state, concerned = HoldState.TO_DO, clock.packs
        why = Why.LOG_BROKEN if clock.unread else Why.CLOCK_STOPPED
    elif group.in_unit > 0:
        state, why = HoldState.TO_DO, Why.IN_THE_UNIT
        concerned = min(group.in_unit, group.needed - group.on_site)
    else:
        why, coming = Why.PACKS_TO_COME, packs(firm, room, group, now)
        if coming.state is HoldState.WAITING and coming.clears_at and not group.board.ready_when_stable:
            clears_at = later(coming.clears_at, group.board.acclimatise_hours)
    return Hold(
        room=room.name,
        kind=HoldKind.ACCLIMATISATION,
        state=state,
        why=why,
        clears_at=clears_at,
        not_before=not_before,
        product=group.board.code,
        packs=concerned,
        measured=_shown(clock),
        limit=float(group.board.acclimatise_hours),
        since=clock.stopped_at if clock and not clock.running else None,
        lies_in=clock.room if clock and why in {Why.CLOCK_STOPPED, Why.LOG_BROKEN, Why.SETTLING} else "",
    )


def _shown(clock: StackClock | None) -> float | None:
    """The hours a clock shows, or how far boards moved between their last rounds of readings."""
    if clock is None:
        return None
    return clock.change if clock.by_reading else clock.hours_counted
