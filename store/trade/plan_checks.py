"""What is wrong with a lay plan: its terms, the lay in it, and whether it is one for the room it names."""

import math
from collections import defaultdict
from collections.abc import Iterator
from datetime import datetime
from itertools import pairwise

from store.errors import Problem, Refused
from store.trade.facts import JobFacts
from store.trade.jobs import RoomDraft
from store.trade.layout.enough import MOST_BOARDS
from store.trade.layout.floor import floor_of_room
from store.trade.layout.lay import Lay, LayRules, Piece, check_sizes, packs_of
from store.trade.plans import PlanDraft, fingerprint, fits, floor_in

MOST_SPARE_PACKS = 1_000
MOST_SEED = 1_000_000_000
MOST_CULLS_PERCENT = 50
LEAST_CONFIDENCE_PERCENT, MOST_CONFIDENCE_PERCENT = 50, 99.9

Problems = tuple[Problem, ...]


def problems_with_plan(draft: PlanDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a plan that is to be filed now for a job's room as it is measured."""
    if draft.at > now:
        yet = Problem(field="at", say="That moment has not come yet; write down what has happened.")
        return (yet, *problems_with_terms(draft))
    room = next((one for one in facts.rooms if one.name == draft.room), None)
    if room is None:
        return (Problem(field="room", say=f"The job has no room “{draft.room}”."),)
    if draft.board != room.board:
        say = f"{room.name} is to be laid with {room.board}, and this is a plan for {draft.board}."
        return (Problem(field="board", say=say),)
    if not fits(draft, room, facts.board(room.board)):
        say = f"{room.name} or its board was changed since this lay was made; lay it again."
        return (Problem(field="shape", say=say),)
    return (*problems_with_terms(draft), *problems_with_floor(draft, room))


def problems_with_terms(draft: PlanDraft) -> Problems:
    """Return what is wrong with a plan whatever room it is for: its limits, and the lay in itself."""
    found = list(_limit_problems(draft))
    if not found:
        fault = next(_faults_in_lay(draft.lay, draft.rules), None)
        found += [] if fault is None else [Problem(field="lay", say=f"This is no lay: {fault}.")]
    return tuple(found)


def problems_with_floor(draft: PlanDraft, room: RoomDraft) -> Problems:
    """Return what is wrong with a lay that says it is for this room as it is: another floor than the room's.

    A plan for another shape is left alone; it does not count until the room is of that shape again.
    """
    if draft.shape != fingerprint(room, draft.lay.board):
        return ()
    try:
        floor = floor_of_room(floor_in(room))
    except Refused as no_floor:
        return (Problem(field="lay", say=str(no_floor)),)
    same_floor = math.isclose(floor.area_mm2, draft.lay.floor_area_mm2, rel_tol=1e-9, abs_tol=1)
    if same_floor and draft.lay.net_area_mm2 == room.net_mm2:
        return ()
    return (Problem(field="lay", say=f"This lay covers another floor than that of {room.name}."),)


def _limit_problems(draft: PlanDraft) -> Iterator[Problem]:
    if not draft.room.strip():
        yield Problem(field="room", say="Say which room the plan is for.")
    if not 0 <= draft.culls_percent <= MOST_CULLS_PERCENT:
        yield Problem(field="culls_percent", say=f"The culls are from 0 to {MOST_CULLS_PERCENT} % of the boards.")
    if not LEAST_CONFIDENCE_PERCENT <= draft.confidence_percent <= MOST_CONFIDENCE_PERCENT:
        say = f"The confidence is from {LEAST_CONFIDENCE_PERCENT} to {MOST_CONFIDENCE_PERCENT} %."
        yield Problem(field="confidence_percent", say=say)
    if not 0 <= draft.spare_packs <= MOST_SPARE_PACKS:
        yield Problem(field="spare_packs", say=f"The spare packs are from 0 to {MOST_SPARE_PACKS:,}.")
    if not 0 <= draft.seed <= MOST_SEED:
        yield Problem(field="seed", say=f"The seed of a search is a whole number from 0 to {MOST_SEED:,}.")
    try:
        check_sizes(draft.lay.board, draft.rules, 0)
    except Refused as no:
        yield Problem(field="lay", say=str(no))


def _faults_in_lay(lay: Lay, rules: LayRules) -> Iterator[str]:
    """Yield what shows that these counts and pieces never were a lay; the joints are not judged."""
    if not 1 <= lay.least_boards <= lay.boards <= MOST_BOARDS:
        yield "the counts of its boards cannot be"
    if not _come_in_packs(lay):
        yield "its boards are not of the lengths that a pack holds"
        return
    if lay.packs != packs_of(lay.board, lay.boards, lay.board_lengths_mm):
        yield "its packs are not those of its boards"
    if not (0 < lay.floor_area_mm2 <= lay.net_area_mm2 and math.isfinite(lay.direction_deg)):
        yield "its floor or its direction cannot be"
    if any(high <= low for low, high in lay.row_edges_mm):
        yield "a row in it has no width"
    if {piece.board for piece in lay.pieces} != set(range(1, lay.boards + 1)):
        yield "its pieces come from other boards than it counts"
    for number, piece in enumerate(lay.pieces):
        if not _is_a_piece(piece, lay):
            yield f"piece {number} cannot be cut or lies in no row"
    if any(_overlaps(lay, rules.kerf_mm)):
        yield "two of its pieces are cut from the same part of a board"
    covered = sum(piece.to_mm - piece.from_mm for piece in lay.pieces) * lay.board.width_mm
    if covered < lay.floor_area_mm2 * (1 - 1e-9):
        yield "its pieces do not cover its floor"


def _come_in_packs(lay: Lay) -> bool:
    if not lay.board.lengths:
        return not lay.board_lengths_mm
    known = {length for length, _ in lay.board.lengths}
    return len(lay.board_lengths_mm) == lay.boards and known.issuperset(lay.board_lengths_mm)


def _is_a_piece(piece: Piece, lay: Lay) -> bool:
    length = piece.to_mm - piece.from_mm
    if not 1 <= piece.board <= lay.boards:
        return False
    on_board = 0 <= piece.board_from_mm < piece.board_to_mm <= lay.length_of(piece.board)
    return on_board and 0 <= piece.row < lay.rows and piece.board_to_mm - piece.board_from_mm == length


def _overlaps(lay: Lay, kerf_mm: int) -> Iterator[bool]:
    """Yield for neighbouring pieces of each board whether they lack the kerf between them."""
    cut: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for piece in lay.pieces:
        cut[piece.board].append((piece.board_from_mm, piece.board_to_mm))
    for spans in cut.values():
        yield from (after[0] < before[1] + kerf_mm for before, after in pairwise(sorted(spans)))
