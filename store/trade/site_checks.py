"""What is wrong with a morning list or a voiding, given what is on file and the moment it is filed."""

from datetime import datetime

from store.errors import Problem
from store.trade.checks import Problems, problems_with_moment
from store.trade.facts import JobFacts
from store.trade.morning import MorningCheckDraft
from store.trade.readings import Air, Surface, problems_with_measure
from store.trade.voiding import VoidingDraft


def problems_with_morning(draft: MorningCheckDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a morning list itself; what it found amiss is no fault of the list."""
    base = problems_with_measure(Surface(temp_c=draft.surface_c))
    return (
        *problems_with_moment("at", draft.at, now),
        *_room(facts, draft.room),
        *problems_with_measure(Air(temp_c=draft.temp_c, rh_percent=draft.rh_percent)),
        *(Problem(field="surface_c", say=one.say) for one in base),
    )


def problems_with_voiding(draft: VoidingDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a voiding."""
    return (*problems_with_moment("at", draft.at, now), *_room(facts, draft.room))


def _room(facts: JobFacts, name: str) -> Problems:
    if any(room.name == name for room in facts.rooms):
        return ()
    return (Problem(field="room", say=f"The job has no room “{name}”."),)
