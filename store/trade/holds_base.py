"""Holds on what lies in or on the base: floor heating, and an old floor that may hold asbestos."""

from datetime import datetime, timedelta

from store.trade.diary import day_of, start_of
from store.trade.firm import FirmDraft
from store.trade.holds_room import nothing_on_file
from store.trade.jobs import OldFloor, Room, Sample
from store.trade.screed import FULL_DAYS, GENTLE_DAYS
from store.trade.traditions import Tradition
from store.trade.verdict import Hold, HoldKind, HoldState, Why

QUIET_DAYS = {Tradition.FRENCH: 2}
USUAL_QUIET_DAYS = 3
"""Days for which a heated floor is off, or held steady at 18–22 °C, before the first board.

German association of flooring glues (sheet on subfloors, §4.11, 2004): steady from 3 days before. France: off 48 hours
before. UK trade: off before laying, no days found, so the longer of the two stands in.
"""


def heating(firm: FirmDraft, room: Room, now: datetime) -> Hold:
    """To do until the first heating is proved and the heating off or held down, waiting while that is too fresh.

    With nothing on file about the heating, or without any, it is clear and said to be unknown.
    """
    told = (room.heating_begun_on, room.heating_proved_on, room.heating_off_from)
    if not room.heated or not any(told):
        return nothing_on_file(room, HoldKind.HEATING)
    today, off_from = day_of(firm, now), room.heating_off_from
    state, why, clears_at, not_before, due_on = HoldState.TO_DO, Why.HEATING_NOT_PROVED, None, None, off_from
    if room.heating_proved_on is None or room.heating_proved_on > today:
        if room.heating_begun_on is not None:
            # EN 1264-4: 3 days at 25 °C flow, then 4 at full flow; reported, the clause itself was not seen.
            due_on = room.heating_begun_on + timedelta(days=GENTLE_DAYS + FULL_DAYS)
            not_before = start_of(firm, due_on)
    elif off_from is None:
        why, due_on = Why.HEATING_ON, room.heating_proved_on
    else:
        quiet_on = off_from + timedelta(days=quiet_days(firm))
        why, due_on = Why.HEATING_QUIET, quiet_on
        state = HoldState.CLEAR
        if quiet_on > today:
            state, why, clears_at = HoldState.WAITING, Why.HEATING_JUST_OFF, start_of(firm, quiet_on)
    return Hold(
        room=room.name,
        kind=HoldKind.HEATING,
        state=state,
        why=why,
        clears_at=clears_at,
        not_before=not_before,
        limit=float(quiet_days(firm)),
        due_on=due_on,
    )


def quiet_days(firm: FirmDraft) -> int:
    """Return the days for which a heated floor is off or held steady before laying, by the firm's tradition."""
    return QUIET_DAYS.get(firm.tradition, USUAL_QUIET_DAYS)


_BY_SAMPLE = {
    Sample.NOT_TAKEN: (HoldState.FAILED, Why.MAY_HOLD_ASBESTOS),
    Sample.ASBESTOS: (HoldState.FAILED, Why.ASBESTOS_FOUND),
    Sample.CLEAR: (HoldState.CLEAR, Why.SAMPLE_CLEAR),
    Sample.REMOVED: (HoldState.CLEAR, Why.OLD_FLOOR_REMOVED),
}


def old_floor(room: Room) -> Hold:
    """Failed while an old covering or black glue has no clear sample on file.

    Old vinyl and thermoplastic tiles, paper backings and bitumen glue may hold asbestos (UK use until 1999; HSE sheet
    a23): stop, do not sand, scrape or drill, have a sample tested first. Licensed practice and local rules decide.
    """
    if room.old_floor is OldFloor.NOT_SAID:
        return nothing_on_file(room, HoldKind.OLD_FLOOR)
    state, why = HoldState.CLEAR, Why.NO_OLD_FLOOR
    if room.old_floor.is_suspect:
        state, why = _BY_SAMPLE[room.old_floor_sample]
    return Hold(room=room.name, kind=HoldKind.OLD_FLOOR, state=state, why=why)
