"""How far the floors are laid, and when the last board went into the glue."""

from datetime import datetime

from store.trade.diary import first_working_moment, later
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Method, Room
from store.trade.verdict import Windows

WHOLE_PERCENT = 99
"""A room counts as wholly laid when so much of its floor is: the walls' gaps are not laid (common practice)."""


def laid_mm2(facts: JobFacts, room: Room) -> int:
    """Return the floor laid in a room so far, mm²."""
    return sum(one.area_mm2 or 0 for one in facts.layings if one.room == room.name)


def is_begun(facts: JobFacts, room: Room) -> bool:
    """Whether laying has begun in a room."""
    return any(one.room == room.name for one in facts.layings)


def is_wholly_laid(facts: JobFacts, room: Room) -> bool:
    """Whether a room's laid areas reach 99 % of its net area and none is still going on."""
    going_on = any(one.room == room.name and one.ended_at is None for one in facts.layings)
    return not going_on and 100 * laid_mm2(facts, room) >= WHOLE_PERCENT * room.net_mm2


def last_board_at(facts: JobFacts, room: Room) -> datetime | None:
    """Return when the last board of a room was laid, or None before any was."""
    ends = [one.ended_at for one in facts.layings if one.room == room.name and one.ended_at]
    return max(ends, default=None)


def cure_hours(facts: JobFacts, room: Room) -> tuple[int, int] | None:
    """Return the hours until a room's floor may be walked on and fully loaded.

    A floor without glue has nothing to cure. A glued floor with no glue on file has hours nobody knows: None.
    """
    glue = facts.glue_of(room)
    if glue is not None:
        return glue.walk_on_hours, glue.full_load_hours
    return None if room.method is Method.GLUED else (0, 0)


def windows(firm: FirmDraft, facts: JobFacts) -> Windows:
    """Return when the job's floors may be walked on, loaded and handed over.

    All None until every room is wholly laid; the room that takes longest counts. The handover is the first
    working moment at or after full load.
    """
    walks: list[datetime] = []
    loads: list[datetime] = []
    for room in facts.rooms:
        end, hours = last_board_at(facts, room), cure_hours(facts, room)
        if end is None or hours is None or not is_wholly_laid(facts, room):
            return Windows()
        walks.append(later(end, hours[0]))
        loads.append(later(end, hours[1]))
    if not loads:
        return Windows()
    full_load = max(loads)
    return Windows(walk_on=max(walks), full_load=full_load, handover=first_working_moment(firm, full_load))
