"""Other ways to lay a room, each one wish away from the present one: for comparing them side by side."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import Enum, auto

from store.trade.jobs import RoomDraft
from store.trade.products import Board
from store.trade.walls import walls_of
from store.trade.wishes import LayWishes, usual_wishes

_MOST_WALLS = 6


class Wish(Enum):
    """What is wished otherwise than now."""

    NOTHING = auto()
    DIRECTION = auto()
    FIRST_WALL = auto()
    JOINTS = auto()
    BOARD = auto()


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to lay a room, and which wish makes it differ from the present one."""

    differs_in: Wish
    wishes: LayWishes


def other_ways(room: RoomDraft, wishes: LayWishes, boards: Sequence[Board]) -> tuple[Way, ...]:
    """Return the present way and others: other directions, first walls, distances of joints, and boards on file.

    Of the walls the six longest are tried, each with the rows along it.
    """
    return (Way(differs_in=Wish.NOTHING, wishes=wishes), *_others(room, wishes, boards))


def _others(room: RoomDraft, wishes: LayWishes, boards: Sequence[Board]) -> Iterator[Way]:
    here = wishes.direction_deg if wishes.direction_deg is not None else _along(room, wishes.start)
    for turn in sorted({0.0, 90.0, *(_along(room, wall) for wall in range(len(room.outline)))})[:_MOST_WALLS]:
        if not math.isclose(turn, here % 180, abs_tol=0.05):
            turned = replace(wishes, direction_deg=turn, start=None, line_mm=None)
            yield Way(differs_in=Wish.DIRECTION, wishes=turned)
    longest = sorted(range(len(room.outline)), key=lambda wall: -math.dist(*walls_of(room.outline)[wall]))
    for wall in sorted(longest[:_MOST_WALLS]):
        if wall != wishes.start:
            along = replace(wishes, direction_deg=None, start=wall, line_mm=None)
            yield Way(differs_in=Wish.FIRST_WALL, wishes=along)
    board = next((one for one in boards if one.code == wishes.board), None)
    if board is not None:
        for apart in sorted({3 * board.width_mm, board.length_mm // 3, 2 * board.width_mm}):
            if apart != wishes.rules.stagger_mm:
                rules = replace(wishes.rules, stagger_mm=apart)
                yield Way(differs_in=Wish.JOINTS, wishes=replace(wishes, rules=rules))
    for other in boards:
        if other.code != wishes.board and other.shortest_mm is None:
            rules = usual_wishes(room, other).rules
            yield Way(differs_in=Wish.BOARD, wishes=replace(wishes, board=other.code, rules=rules))


def _along(room: RoomDraft, wall: int | None) -> float:
    if wall is None or not 0 <= wall < len(room.outline):
        return 0.0
    (ax, ay), (bx, by) = walls_of(room.outline)[wall]
    return round(math.degrees(math.atan2(by - ay, bx - ax)) % 180, 1) % 180
