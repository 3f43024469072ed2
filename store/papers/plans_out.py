"""A lay plan written for its job's folder: its terms, the lay's counts, and every piece as six whole numbers."""

from store.papers.events_out import Entry, Stamp, figure
from store.trade.layout.lay import Lay, Piece
from store.trade.plans import PlanDraft


def plan(draft: PlanDraft, stamp: Stamp) -> Entry:
    """Write a lay plan."""
    rules = draft.rules
    return {
        "room": draft.room,
        "at": stamp(draft.at),
        "board": draft.board,
        "stagger_mm": rules.stagger_mm,
        "shortest_mm": rules.shortest_mm,
        "kerf_mm": rules.kerf_mm,
        "least_mm": rules.least_mm,
        "seed": draft.seed,
        "culls_percent": figure(draft.culls_percent),
        "confidence_percent": figure(draft.confidence_percent),
        "spare_packs": draft.spare_packs,
        "shape": draft.shape,
        "lay": _lay(draft.lay),
    }


def _lay(lay: Lay) -> Entry:
    return {
        "length_mm": lay.board.length_mm,
        "width_mm": lay.board.width_mm,
        "boards_per_pack": lay.board.boards_per_pack,
        **({"lengths": [list(one) for one in lay.board.lengths]} if lay.board.lengths else {}),
        "boards": lay.boards,
        **({"board_lengths_mm": list(lay.board_lengths_mm)} if lay.board_lengths_mm else {}),
        "least_boards": lay.least_boards,
        "direction_deg": figure(lay.direction_deg),
        "net_area_mm2": lay.net_area_mm2,
        "floor_area_mm2": figure(lay.floor_area_mm2),
        "row_edges_mm": [list(edges) for edges in lay.row_edges_mm],
        "pieces": [_piece(piece) for piece in lay.pieces],
    }


def _piece(piece: Piece) -> list[int]:
    """Its row; from and to along the row; its board; from and to on the board."""
    on_board = [piece.board, piece.board_from_mm, piece.board_to_mm]
    return [piece.row, piece.from_mm, piece.to_mm, *on_board]
