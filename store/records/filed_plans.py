"""The lay plans of jobs: filed once and whole, the pieces of the lay in one column, and read back."""

from peewee import JOIN, Expression, ModelInsert

from store.records.database import OpenFile
from store.records.event_tables import LayPlanRow
from store.records.filed_events import Filed
from store.records.nouns import build
from store.records.tables import ProductRow, RoomRow
from store.trade.layout.lay import BoardSize, Lay, LayRules, Piece, packs_of
from store.trade.plans import Plan, PlanDraft

_TERMS = ("at", "seed", "culls_percent", "confidence_percent", "spare_packs", "shape")
_RULES = ("stagger_mm", "shortest_mm", "kerf_mm", "least_mm")
_SIZES = ("length_mm", "width_mm", "boards_per_pack", "lengths")
_FIGURES = ("least_boards", "net_area_mm2", "floor_area_mm2", "direction_deg", "row_edges_mm")
_OF_A_PIECE = ("row", "from_mm", "to_mm", "board", "board_from_mm", "board_to_mm")

Columns = dict[str, object]


def insert_of(job_id: int, room_id: int, board_id: int, draft: PlanDraft) -> ModelInsert:
    """Return what files a plan."""
    columns: Columns = {name: getattr(draft, name) for name in _TERMS}
    columns |= {name: getattr(draft.rules, name) for name in _RULES}
    columns |= {name: getattr(draft.lay.board, name) for name in _SIZES}
    columns |= {name: getattr(draft.lay, name) for name in ("boards", "board_lengths_mm", *_FIGURES)}
    pieces = [[getattr(piece, name) for name in _OF_A_PIECE] for piece in draft.lay.pieces]
    return LayPlanRow.insert(job_id=job_id, room_id=room_id, board_id=board_id, pieces=pieces, **columns)


def plans(file: OpenFile, which: Expression, *, pieces: bool = True) -> Filed[Plan]:
    """Return lay plans, with every piece or with none, by one question."""
    names = (*_TERMS, *_RULES, *_SIZES, "boards", "board_lengths_mm", *_FIGURES)
    own = [getattr(LayPlanRow, name) for name in names] + ([LayPlanRow.pieces] if pieces else [])
    query = LayPlanRow.select(
        LayPlanRow.job_id, LayPlanRow.id, RoomRow.name.alias("room"), ProductRow.code.alias("board"), *own
    )
    query = query.join(RoomRow, JOIN.INNER, on=(LayPlanRow.room_id == RoomRow.id))
    query = query.join(ProductRow, JOIN.INNER, on=(LayPlanRow.board_id == ProductRow.id))
    return file.rows(query.where(which).order_by(LayPlanRow.id), _plan)


def _plan(
    *,
    job_id: int,
    boards: int,
    board_lengths_mm: tuple[int, ...],
    pieces: tuple[tuple[int, ...], ...] = (),
    **columns: object,
) -> tuple[int, Plan]:
    board = build(BoardSize, _these(columns, _SIZES))
    lay = build(
        Lay,
        _these(columns, _FIGURES),
        boards=boards,
        board_lengths_mm=board_lengths_mm,
        packs=packs_of(board, boards, board_lengths_mm),
        board=board,
        pieces=tuple(_piece(*figures) for figures in pieces),
    )
    own = _these(columns, ("id", "room", "board", *_TERMS))
    return job_id, build(Plan, own, rules=build(LayRules, _these(columns, _RULES)), lay=lay)


def _piece(row: int, left: int, right: int, board: int, board_left: int, board_right: int) -> Piece:
    return Piece(row=row, from_mm=left, to_mm=right, board=board, board_from_mm=board_left, board_to_mm=board_right)


def _these(columns: Columns, names: tuple[str, ...]) -> Columns:
    return {name: columns[name] for name in names}
