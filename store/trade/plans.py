"""A room's lay plan: the lay somebody chose for it, with the rules it keeps and what is brought beyond it."""

import hashlib
import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import datetime

from store.errors import Refused
from store.trade.jobs import RoomDraft
from store.trade.layout.lay import Attempt, BoardSize, Lay, LayRules
from store.trade.layout.lay import Room as Shape
from store.trade.layout.search import search_lays
from store.trade.products import BoardDraft
from store.trade.surveyed import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanDraft:
    """A lay chosen for a room.

    ``board`` is the product's code. ``culls_percent`` of the boards are expected to be put aside; so many more are
    brought that ``confidence_percent`` of such floors are not short. ``spare_packs`` stay with the customer.
    ``shape`` is the fingerprint of everything the lay depends on, see ``shape_of``.
    """

    room: str
    at: datetime
    board: str
    rules: LayRules
    seed: int
    culls_percent: float = 3.0
    confidence_percent: float = 90.0
    spare_packs: int = 0
    shape: str
    lay: Lay


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan(PlanDraft):
    """A lay plan on file."""

    id: int


def size_of(board: BoardDraft) -> BoardSize:
    """Return the sizes of a product that a lay asks for."""
    return BoardSize(
        length_mm=board.length_mm,
        width_mm=board.width_mm,
        boards_per_pack=board.boards_per_pack,
        lengths=board.lengths,
    )


def search(room: RoomDraft, board: BoardDraft, rules: LayRules, seed: int) -> Iterator[Attempt]:
    """Yield ever better lays of a job's room, the best last; see ``search_lays``.

    Raises:
        Refused: as ``search_lays``, and for boards that come in any length.
    """
    if board.shortest_mm is not None:
        raise Refused(f"{board.code} comes in any length; there is no lay before its packs are open.")
    return search_lays(floor_in(room), board=size_of(board), rules=rules, seed=seed)


def shape_of(room: RoomDraft, board: BoardDraft) -> str:
    """Return a fingerprint of all that a lay in a room depends on: another one means that the lay no longer fits.

    It is over the outline, the cut-outs, the gap, the rows' direction and line, the start wall, the pattern and its
    border, and the board's sizes.
    """
    return fingerprint(room, size_of(board))


def fingerprint(room: RoomDraft, board: BoardSize) -> str:
    """Return ``shape_of`` for a board of which only the sizes are known: 16 hexadecimal figures of a SHA-256."""
    # Adding nought makes −0.0 the plain nought that the records and the papers keep.
    direction = None if room.direction_deg is None else float(room.direction_deg) + 0.0
    parts = [room.outline, room.cut_outs, room.gap_mm, direction, room.start]
    sizes = [board.length_mm, board.width_mm, board.boards_per_pack]
    # What is not as usual comes last, so that plans filed before it could be told keep their fingerprint.
    unusual: list[object] = [board.lengths] if board.lengths else []
    if room.line_mm is not None:
        unusual.append({"line": room.line_mm})
    if room.border_mm or room.pattern is not Pattern.STRAIGHT:
        unusual.append({"pattern": room.pattern.value, "border": room.border_mm})
    written = json.dumps([*parts, *sizes, *unusual], separators=(",", ":"))
    return hashlib.sha256(written.encode()).hexdigest()[:16]


def fits(plan: PlanDraft, room: RoomDraft, board: BoardDraft) -> bool:
    """Whether a plan still is one for this room as it is measured now, laid with this board."""
    same_names = plan.room == room.name and plan.board == board.code
    return same_names and plan.lay.board == size_of(board) and plan.shape == shape_of(room, board)


def in_short(plan: PlanDraft) -> PlanDraft:
    """Return a plan without its pieces: the counts, the rules and the rows, for a line of history."""
    return replace(plan, lay=replace(plan.lay, pieces=()))


def floor_in(room: RoomDraft) -> Shape:
    """Return what of a job's room a lay depends on."""
    return Shape(
        outline=room.outline,
        cut_outs=room.cut_outs,
        gap_mm=room.gap_mm,
        direction_deg=room.direction_deg,
        start=room.start,
        border_mm=room.border_mm,
        line_mm=room.line_mm,
    )
