"""Holds on the room itself: the site, its flatness and its air."""

from datetime import datetime

from store.trade.diary import day_of, start_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import BoardGroup, air_in, climate_for, in_order
from store.trade.jobs import Room
from store.trade.level_grid import worst_gap
from store.trade.readings import LevelGrid, Straightedge
from store.trade.verdict import Hold, HoldKind, HoldState, Why


def nothing_on_file(room: Room, kind: HoldKind) -> Hold:
    """A hold whose facts are not on file: clear, and said to be so because nothing is known."""
    return Hold(room=room.name, kind=kind, state=HoldState.CLEAR, why=Why.NOTHING_ON_FILE)


def site(firm: FirmDraft, room: Room, now: datetime) -> Hold:
    """Waiting until the day the site is ready, where one is on file."""
    ready_on = room.site_ready_on
    if ready_on is None:
        return nothing_on_file(room, HoldKind.SITE)
    if ready_on <= day_of(firm, now):
        return Hold(room=room.name, kind=HoldKind.SITE, state=HoldState.CLEAR, why=Why.SITE_READY, due_on=ready_on)
    return Hold(
        room=room.name,
        kind=HoldKind.SITE,
        state=HoldState.WAITING,
        why=Why.SITE_NOT_READY,
        clears_at=start_of(firm, ready_on),
        due_on=ready_on,
    )


def subfloor_flat(firm: FirmDraft, facts: JobFacts, room: Room) -> Hold:
    """To do without a straightedge reading since the last smoothing; failed if the worst is over the limit.

    A grid of levels can fail a floor as well, but never clears one: what lies between its points nobody has read.
    """
    smoothed = max((one.at for one in facts.smoothings if one.room == room.name), default=None)
    read = [one for one in in_order(facts.readings, room.name) if smoothed is None or one.at > smoothed]
    edges = [(one.measure.gap_mm, one.at, one.kind) for one in read if isinstance(one.measure, Straightedge)]
    grids = [
        (found.mm, one.at, one.kind)
        for one in read
        if isinstance(one.measure, LevelGrid)
        if (found := worst_gap(one.measure)) is not None and found.mm > firm.flat_limit_mm
    ]
    if not edges and not grids:
        why, state, gap, at, kind = Why.NO_FLAT_READING, HoldState.TO_DO, None, smoothed, ""
    else:
        gap, at, kind = max(edges + grids)
        good = gap <= firm.flat_limit_mm
        why, state = (Why.FLAT, HoldState.CLEAR) if good else (Why.NOT_FLAT, HoldState.FAILED)
    return Hold(
        room=room.name,
        kind=HoldKind.SUBFLOOR_FLAT,
        state=state,
        why=why,
        reading=kind,
        measured=gap,
        limit=float(firm.flat_limit_mm),
        since=at,
    )


def climate(firm: FirmDraft, facts: JobFacts, room: Room, group: BoardGroup) -> Hold:
    """To do without an air reading since the packs came; failed if the latest is out of range.

    Before any pack has come the latest air reading is judged.
    """
    air = air_in(facts.readings, room.name)
    arrived = group.arrived_at
    if not air:
        return Hold(room=room.name, kind=HoldKind.CLIMATE, state=HoldState.TO_DO, why=Why.NO_AIR_READING)
    at, latest = air[-1]
    if arrived is not None and at < arrived:
        state, why = HoldState.TO_DO, Why.OLD_AIR_READING
    elif climate_for(firm, group.board).holds(latest.temp_c, latest.rh_percent):
        state, why = HoldState.CLEAR, Why.AIR_GOOD
    else:
        state, why = HoldState.FAILED, Why.AIR_OUTSIDE
    return Hold(
        room=room.name,
        kind=HoldKind.CLIMATE,
        state=state,
        why=why,
        measured=latest.temp_c,
        measured_rh=latest.rh_percent,
        since=at,
        product=group.board.code,
    )
