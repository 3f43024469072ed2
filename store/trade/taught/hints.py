"""What the latest closed floors say to a floor that is still to be ordered; a hint, which never changes a number."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from store.trade.jobs import RoomDraft
from store.trade.products import BoardDraft
from store.trade.surveyed import Pattern
from store.trade.taught.lessons import shape_class
from store.trade.taught.nouns import PastFloor, Shape
from store.trade.taught.report import By, LossLine, loss_line

FEWEST = 3
"""A narrower kind of floor is taken only where so many stand behind it (own convention)."""

LATEST = 20
"""Older floors than the last so many of a kind are left alone: people and boards change (own convention)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hint:
    """The latest floors like one that is wanted: what they share with it, and the figures of them together.

    All are of its ``pattern``; ``width_mm`` and ``shape`` are None where they were left out to find enough floors.
    """

    pattern: Pattern
    width_mm: int | None
    shape: Shape | None
    line: LossLine


def hint_for(room: RoomDraft, board: BoardDraft, past: Sequence[PastFloor]) -> Hint | None:
    """Return what floors like this room's say: of its pattern, board width and shape, else of fewer of them.

    Floors whose packs do not add up say nothing. None where no floor of the pattern was closed yet.
    """
    shape = shape_class(room)
    same = [one for one in past if one.lesson.adds_up and one.lesson.pattern is room.pattern]
    narrow: tuple[tuple[int | None, Shape | None], ...] = (
        (board.width_mm, shape),
        (board.width_mm, None),
        (None, None),
    )
    for width_mm, wanted in narrow:
        found = _latest(one for one in same if _is_like(one, width_mm, wanted))
        if len(found) >= FEWEST or (found and width_mm is None):
            line = loss_line(By.PATTERN, room.pattern, found)
            return Hint(pattern=room.pattern, width_mm=width_mm, shape=wanted, line=line)
    return None


def _is_like(one: PastFloor, width_mm: int | None, shape: Shape | None) -> bool:
    return width_mm in {None, one.board.width_mm} and shape in {None, one.lesson.shape}


def _latest(floors: Iterable[PastFloor]) -> list[PastFloor]:
    return sorted(floors, key=lambda one: (one.closed_at.timestamp(), one.ref), reverse=True)[:LATEST]
