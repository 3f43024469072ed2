"""The holds on a job's rooms together, and the verdict: ready, ready from, or what stands in the way.

Each hold is judged alone, from the facts known at one moment, and says why; the verdict follows from the holds'
states. What a hold is about, and when each state applies, stands at its function.
"""

from collections.abc import Sequence
from datetime import datetime

from store.trade import holds_base, holds_damp, holds_glue, holds_packs, holds_room
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import BoardGroup
from store.trade.laying import is_wholly_laid
from store.trade.verdict import Hold, HoldState, Verdict


def holds_of(firm: FirmDraft, facts: JobFacts, groups: Sequence[BoardGroup], now: datetime) -> tuple[Hold, ...]:
    """Return every hold on every room that is not wholly laid, in the order a fitter would look."""
    found: list[Hold] = []
    for room in facts.rooms:
        if is_wholly_laid(facts, room):
            continue
        group = next(one for one in groups if one.board.code == room.board)
        found += (
            holds_room.site(firm, room, now),
            holds_damp.subfloor_dry(firm, facts, room, now),
            holds_room.subfloor_flat(firm, facts, room),
            holds_room.climate(firm, facts, room, group),
            holds_base.heating(firm, room, now),
            holds_packs.packs(firm, room, group, now),
            holds_packs.acclimatisation(firm, room, group, now),
            holds_damp.moisture_gap(firm, facts, room, group.board),
            holds_glue.glue(firm, facts, room, now),
            holds_base.old_floor(room),
            holds_glue.people(firm, facts, room, now),
        )
    return tuple(found)


def verdict_of(holds: Sequence[Hold]) -> tuple[Verdict, datetime | None, datetime | None]:
    """Return the verdict with its ``ready_from`` and ``best_case`` (each None where it does not apply).

    Any hold to do or failed blocks; then the best case is the latest moment a hold clears or can be worked on,
    and None where there is no such moment or a hold waits for a moment nobody knows.
    """
    waiting = [hold for hold in holds if hold.state is HoldState.WAITING]
    unknown = any(hold.clears_at is None for hold in waiting)
    clears = [hold.clears_at for hold in waiting if hold.clears_at]
    if unknown or any(hold.state in {HoldState.TO_DO, HoldState.FAILED} for hold in holds):
        can_help = [hold.not_before for hold in holds if hold.not_before]
        return Verdict.BLOCKED, None, None if unknown else max(clears + can_help, default=None)
    if clears:
        return Verdict.READY_FROM, max(clears), None
    return Verdict.READY, None, None
