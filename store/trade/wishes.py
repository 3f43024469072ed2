"""What is wished of a room's lay: the board, where the rows begin and run, the rules, and what is brought beyond."""

from dataclasses import dataclass, replace
from datetime import datetime

from store.trade.jobs import RoomDraft
from store.trade.layout.lay import Lay, LayRules
from store.trade.layout.lay import Room as Shape
from store.trade.plans import PlanDraft, floor_in, shape_of, size_of
from store.trade.products import Board


@dataclass(frozen=True, slots=True, kw_only=True)
class LayWishes:
    """How a room is to be laid; ``direction_deg``, ``start`` and ``line_mm`` are None where the program chooses."""

    board: str
    rules: LayRules
    direction_deg: float | None = None
    start: int | None = None
    line_mm: int | None = None
    seed: int = 1
    culls_percent: float = 3.0
    confidence_percent: float = 90.0
    spare_packs: int = 0

    @property
    def searched_by(self) -> tuple[object, ...]:
        """What a search depends on; the rest changes only what is brought."""
        return (self.board, self.rules, self.direction_deg, self.start, self.line_mm, self.seed)


def usual_wishes(room: RoomDraft, board: Board) -> LayWishes:
    """Return the trade's usual rules for a room and its board."""
    return LayWishes(
        board=board.code,
        rules=LayRules.usual_for(size_of(board)),
        direction_deg=room.direction_deg,
        start=room.start,
        line_mm=room.line_mm,
    )


def wishes_of(plan: PlanDraft, room: RoomDraft) -> LayWishes:
    """Return the wishes that a plan on file was made with."""
    return LayWishes(
        board=plan.board,
        rules=plan.rules,
        direction_deg=room.direction_deg,
        start=room.start,
        line_mm=room.line_mm,
        seed=plan.seed,
        culls_percent=plan.culls_percent,
        confidence_percent=plan.confidence_percent,
        spare_packs=plan.spare_packs,
    )


def room_with(room: RoomDraft, wishes: LayWishes) -> RoomDraft:
    """Return the room as it would be laid by these wishes."""
    return replace(
        room, board=wishes.board, direction_deg=wishes.direction_deg, start=wishes.start, line_mm=wishes.line_mm
    )


def is_same_floor(room: RoomDraft, wishes: LayWishes) -> bool:
    """Whether the room on file has the board, the direction, the start and the line that are wished."""
    wished = (wishes.board, wishes.direction_deg, wishes.start, wishes.line_mm)
    return (room.board, room.direction_deg, room.start, room.line_mm) == wished


def shape_with(room: RoomDraft, wishes: LayWishes) -> Shape:
    """Return the shape that is laid."""
    return floor_in(room_with(room, wishes))


def plan_of(room: RoomDraft, board: Board, wishes: LayWishes, lay: Lay, at: datetime) -> PlanDraft:
    """Return the plan to be filed for a lay that was made by these wishes."""
    return PlanDraft(
        room=room.name,
        at=at,
        board=wishes.board,
        rules=wishes.rules,
        seed=wishes.seed,
        culls_percent=wishes.culls_percent,
        confidence_percent=wishes.confidence_percent,
        spare_packs=wishes.spare_packs,
        shape=shape_of(room_with(room, wishes), board),
        lay=lay,
    )
