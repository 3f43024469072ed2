"""What an order would be with the cut loss that closed floors took, beside the one that is allowed now."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from store.trade.facts import JobFacts
from store.trade.jobs import Room
from store.trade.laying import laid_mm2
from store.trade.needs import current_plan, wanted
from store.trade.stacks import packs_ordered
from store.trade.surveyed import Pattern
from store.trade.taught.hints import FEWEST, Hint

LEAST_STEP = 10
"""Percent are suggested in tenths, upward, so that rounding never leaves a floor short."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Suggestion:
    """For one board of a job: its rooms with the cut loss that closed floors suggest, and the packs before and then."""

    product: str
    rooms: tuple[Room, ...]
    packs_now: int
    packs_then: int
    hint: Hint

    @property
    def percent(self) -> float:
        """The highest cut loss it puts into a room."""
        return max(room.cut_loss_percent for room in self.rooms)


def suggestions(facts: JobFacts, hint_of: Callable[[Room], Hint | None]) -> tuple[Suggestion, ...]:
    """Return what to reckon the boards with that nothing was ordered of yet, where that changes the packs.

    Rooms with a lay plan are counted board by board, patterns block by block: only straight rooms without a plan go by
    their allowance. Fewer floors than three behind a figure suggest nothing.
    """
    found = (_suggestion(facts, code, hint_of) for code in facts.board_codes if not packs_ordered(facts, code))
    return tuple(one for one in found if one is not None)


def _suggestion(facts: JobFacts, code: str, hint_of: Callable[[Room], Hint | None]) -> Suggestion | None:
    changed: list[Room] = []
    told: Hint | None = None
    for room in facts.rooms_with(code):
        goes_by_allowance = room.pattern is Pattern.STRAIGHT and current_plan(facts, room) is None
        hint = hint_of(room) if goes_by_allowance and not laid_mm2(facts, room) else None
        if hint is None or hint.line.floors < FEWEST:
            continue
        percent = math.ceil(hint.line.suggested_percent * LEAST_STEP - 1e-9) / LEAST_STEP
        if percent != room.cut_loss_percent:
            changed.append(replace(room, cut_loss_percent=percent))
            told = told or hint
    by_name = {room.name: room for room in changed}
    then = replace(facts, rooms=tuple(by_name.get(room.name, room) for room in facts.rooms))
    now, then_packs = wanted(facts, code).packs, wanted(then, code).packs
    if told is None or now == then_packs:
        return None
    return Suggestion(product=code, rooms=tuple(changed), packs_now=now, packs_then=then_packs, hint=told)
