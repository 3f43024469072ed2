"""Where a job stands at one moment: its stage, verdict, holds, packs, windows, and what to do next."""

from collections.abc import Iterator, Sequence
from datetime import datetime

from store.trade.counts import packs_used
from store.trade.diary import day_of, later
from store.trade.facts import JobFacts, known_at
from store.trade.firm import FirmDraft
from store.trade.groups import BoardGroup, board_groups
from store.trade.jobs import Room
from store.trade.laying import cure_hours, is_begun, is_wholly_laid, last_board_at, windows
from store.trade.readiness import holds_of, verdict_of
from store.trade.verdict import (
    DeedKind,
    Hold,
    HoldKind,
    HoldState,
    NextDeed,
    PackTally,
    Stage,
    Standing,
    Verdict,
    Why,
)


def standing_at(firm: FirmDraft, everything: JobFacts, now: datetime) -> Standing:
    """Return where a job stands at ``now``, from what was known by then."""
    facts = known_at(everything, now, day_of(firm, now))
    groups = board_groups(firm, facts, now)
    all_laid = bool(facts.rooms) and all(is_wholly_laid(facts, room) for room in facts.rooms)
    holds = holds_of(firm, facts, groups, now)
    verdict, ready_from, best_case = verdict_of(holds) if facts.rooms else (Verdict.BLOCKED, None, None)
    stage = _stage(facts, groups, now)
    return Standing(
        stage=stage,
        verdict=None if all_laid else verdict,
        ready_from=None if all_laid else ready_from,
        best_case=None if all_laid else best_case,
        holds=holds,
        packs=tuple(_tally(facts, group, now) for group in groups),
        needs=tuple(group.need for group in groups),
        clocks=tuple(clock for group in groups for clock in group.clocks),
        windows=windows(firm, facts),
        to_do=tuple(dict.fromkeys(_to_do(facts, holds, stage, verdict, now))),
    )


def closed_at(facts: JobFacts) -> datetime | None:
    """Return the moment from which the job is closed: cured, signed and counted; None while that is open."""
    if not facts.rooms or facts.handover is None:
        return None
    if not all(is_wholly_laid(facts, room) for room in facts.rooms):
        return None
    moments = [facts.handover.signed_at]
    for code in facts.board_codes:
        counted = min((count.at for count in facts.counts if count.product == code), default=None)
        if counted is None:
            return None
        moments.append(counted)
    for room in facts.rooms:
        end, hours = last_board_at(facts, room), cure_hours(facts, room)
        if end is not None:
            moments.append(later(end, hours[1] if hours else 0))
    return max(moments)


def is_counted(facts: JobFacts) -> bool:
    """Whether every board of the job has at least one count; glue needs none."""
    counted = {count.product for count in facts.counts}
    return all(code in counted for code in facts.board_codes)


def _stage(facts: JobFacts, groups: Sequence[BoardGroup], now: datetime) -> Stage:
    """The earliest stage that one of the job's rooms is in."""
    by_code = {group.board.code: group for group in groups}
    stages = [_room_stage(facts, room, by_code[room.board], now) for room in facts.rooms]
    return min(stages, key=lambda stage: stage.step, default=Stage.SURVEY)


def _room_stage(facts: JobFacts, room: Room, group: BoardGroup, now: datetime) -> Stage:
    if is_wholly_laid(facts, room):
        return _laid_stage(facts, room, now)
    if is_begun(facts, room):
        return Stage.INSTALL
    if group.on_site < group.needed:
        return Stage.DELIVERY if group.ordered else Stage.SURVEY
    return Stage.INSTALL if group.ready_packs(now) >= group.needed else Stage.ACCLIMATISATION


def _laid_stage(facts: JobFacts, room: Room, now: datetime) -> Stage:
    end, hours = last_board_at(facts, room), cure_hours(facts, room)
    # A glued floor without a glue on file cures for nobody knows how long, until the customer has signed for it.
    unknown = hours is None and facts.handover is None
    if unknown or (end is not None and hours is not None and now < later(end, hours[1])):
        return Stage.CURE
    return Stage.CLOSED if facts.handover is not None and is_counted(facts) else Stage.HANDOVER


def _tally(facts: JobFacts, group: BoardGroup, now: datetime) -> PackTally:
    counted_out = sum(count.packs for count in facts.counts if count.product == group.board.code)
    on_site = group.on_site + counted_out
    laid = min(on_site, packs_used(facts, group.board))
    return PackTally(
        product=group.board.code,
        needed=group.needed,
        ordered=group.ordered,
        on_site=on_site,
        in_unit=group.in_unit,
        ready=group.ready_packs(now),
        laid=laid,
        left=on_site - laid,
    )


_ANSWERS: dict[Why, DeedKind] = {
    Why.NO_DAMP_READING: DeedKind.TEST_DAMP,
    Why.OLD_DAMP_READING: DeedKind.TEST_DAMP,
    Why.DAMP: DeedKind.TEST_DAMP,
    Why.NO_FLAT_READING: DeedKind.CHECK_FLAT,
    Why.NOT_FLAT: DeedKind.LEVEL,
    Why.NO_AIR_READING: DeedKind.READ_AIR,
    Why.OLD_AIR_READING: DeedKind.READ_AIR,
    Why.AIR_OUTSIDE: DeedKind.PUT_AIR_RIGHT,
    Why.CLOCK_STOPPED: DeedKind.PUT_AIR_RIGHT,
    Why.LOG_BROKEN: DeedKind.READ_AIR,
    Why.NOT_ORDERED: DeedKind.ORDER,
    Why.ORDERED_TOO_FEW: DeedKind.ORDER,
    Why.NO_DUE_DAY: DeedKind.CHASE,
    Why.OVERDUE: DeedKind.CHASE,
    Why.IN_THE_UNIT: DeedKind.CARRY_IN,
    Why.MOISTURE_APART: DeedKind.READ_BOARDS,
    Why.VOID_DAMP_READING: DeedKind.TEST_DAMP,
    Why.TOO_FEW_TESTS: DeedKind.TEST_DAMP,
    Why.TOO_FEW_BOARDS_READ: DeedKind.READ_BOARDS,
    Why.SETTLING: DeedKind.READ_BOARDS,
    Why.HEATING_NOT_PROVED: DeedKind.PROVE_HEATING,
    Why.HEATING_ON: DeedKind.TURN_HEATING_DOWN,
    Why.MAY_HOLD_ASBESTOS: DeedKind.SAMPLE_OLD_FLOOR,
    Why.ASBESTOS_FOUND: DeedKind.CALL_LICENSED,
    Why.GLUE_SHORT: DeedKind.ORDER_GLUE,
    Why.GLUE_TOO_OLD: DeedKind.ORDER_GLUE,
    Why.GLUE_OVERDUE: DeedKind.CHASE_GLUE,
    Why.NOBODY_TRAINED: DeedKind.TRAIN,
}
_LONGEST_FIRST = (
    # What can hurt somebody comes before everything else.
    DeedKind.CALL_LICENSED,
    DeedKind.SAMPLE_OLD_FLOOR,
    DeedKind.CHASE,
    DeedKind.CHASE_GLUE,
    DeedKind.ORDER,
    DeedKind.ORDER_GLUE,
    DeedKind.TRAIN,
    DeedKind.PROVE_HEATING,
    DeedKind.TURN_HEATING_DOWN,
    DeedKind.PUT_AIR_RIGHT,
    DeedKind.CARRY_IN,
    DeedKind.LEVEL,
    DeedKind.READ_AIR,
    DeedKind.CHECK_FLAT,
    DeedKind.TEST_DAMP,
    DeedKind.READ_BOARDS,
)
_ABOUT_PACKS = {
    DeedKind.ORDER,
    DeedKind.ORDER_GLUE,
    DeedKind.CHASE,
    DeedKind.CHASE_GLUE,
    DeedKind.CARRY_IN,
    DeedKind.TRAIN,
}
_CUTS_THE_BASE = {DeedKind.LEVEL, DeedKind.TEST_DAMP}


def _to_do(facts: JobFacts, holds: Sequence[Hold], stage: Stage, verdict: Verdict, now: datetime) -> Iterator[NextDeed]:
    """What somebody can do next, the most pressing first."""
    if not facts.rooms:
        yield NextDeed(kind=DeedKind.MEASURE)
        return
    going_on = [one.room for one in facts.layings if one.ended_at is None]
    yield from (NextDeed(kind=DeedKind.FINISH_LAYING, room=name) for name in going_on)
    yield from sorted(_deeds_against(holds), key=lambda deed: _press(deed, now))
    if holds and verdict is Verdict.READY:
        for name in dict.fromkeys(hold.room for hold in holds):
            if name not in going_on:
                yield NextDeed(kind=DeedKind.LAY, room=name)
    for room in facts.rooms:
        if is_wholly_laid(facts, room) and cure_hours(facts, room) is None:
            yield NextDeed(kind=DeedKind.NAME_GLUE, room=room.name)
    if stage in {Stage.HANDOVER, Stage.CLOSED}:
        counted = {count.product for count in facts.counts}
        yield from (NextDeed(kind=DeedKind.COUNT, product=code) for code in facts.board_codes if code not in counted)
        if facts.handover is None:
            yield NextDeed(kind=DeedKind.SIGN)
        yield from (NextDeed(kind=DeedKind.MEND, room=one.room) for one in facts.snags if one.mended_at is None)


def _deeds_against(holds: Sequence[Hold]) -> Iterator[NextDeed]:
    """The deeds that answer the holds.

    Boards stay in the unit while the room's subfloor is damp, and a base with a suspect old floor is left alone.
    """
    damp = {hold.room for hold in holds if hold.kind is HoldKind.SUBFLOOR_DRY and hold.state is HoldState.FAILED}
    old = {hold.room for hold in holds if hold.kind is HoldKind.OLD_FLOOR and hold.state is HoldState.FAILED}
    carried: set[str] = set()
    for hold in holds:
        if hold.why is Why.IN_THE_UNIT:
            # Rooms that share a board share its packs: they are carried in once.
            if hold.room in damp or hold.product in carried:
                continue
            carried.add(hold.product)
        if hold.state in {HoldState.TO_DO, HoldState.FAILED}:
            deed = deed_for(hold)
            # Nobody is sent to chisel, drill or sand a base that may hold asbestos.
            if not (hold.room in old and deed.kind in _CUTS_THE_BASE):
                yield deed


def _press(deed: NextDeed, now: datetime) -> tuple[bool, int]:
    """How pressing a deed is: what can help now comes first, and what takes longest before what is quick."""
    cannot_help_yet = deed.not_before is not None and deed.not_before > now
    return cannot_help_yet, _LONGEST_FIRST.index(deed.kind)


def deed_for(hold: Hold) -> NextDeed:
    """Return the deed that answers a hold which is to do or failed."""
    kind = _ANSWERS[hold.why]
    if kind in _ABOUT_PACKS:
        # Rooms that share a board share its packs: one order, one call to the supplier.
        room = hold.room if kind is DeedKind.CARRY_IN else ""
        return NextDeed(kind=kind, room=room, product=hold.product, packs=hold.packs)
    return NextDeed(kind=kind, room=hold.lies_in or hold.room, not_before=hold.not_before)
