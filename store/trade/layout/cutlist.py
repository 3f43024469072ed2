"""The cut list: what to cut for each row in laying order, and where the offcuts go."""

from collections import defaultdict
from dataclasses import dataclass
from enum import Enum

from store.trade.layout.lay import Lay, Piece


class Kind(Enum):
    """What a piece is in its row."""

    WHOLE = "whole"
    STARTER = "starter"
    CLOSER = "closer"
    INSERT = "insert"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece to lay: what it is, its length, its board, and what becomes of the rest of the board.

    ``from_offcut`` tells that the board was opened for an earlier piece; ``rest_to_row`` is the row the
    rest of the board is kept for, None if nothing more comes out of it.
    """

    kind: Kind
    length_mm: int
    board: int
    from_offcut: bool
    rest_to_row: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RowCuts:
    """One row of the cut list: the width its boards are ripped to (None for whole width), and its pieces."""

    row: int
    ripped_to_mm: int | None
    cuts: tuple[Cut, ...]


def cut_list(lay: Lay) -> tuple[RowCuts, ...]:
    """Return the cut list of a lay, row by row in laying order, each from left to right.

    Every piece of a board but its last says which row the rest is kept for: that number is written on the
    offcut.
    """
    order = sorted(lay.pieces, key=lambda piece: (piece.row, piece.from_mm))
    of_board: dict[int, list[Piece]] = defaultdict(list)
    of_row: dict[int, list[Piece]] = defaultdict(list)
    for piece in order:
        of_board[piece.board].append(piece)
        of_row[piece.row].append(piece)
    rows = []
    for row, (low, high) in enumerate(lay.row_edges_mm):
        width = high - low
        rows.append(
            RowCuts(
                row=row,
                ripped_to_mm=width if width < lay.board.width_mm else None,
                cuts=tuple(_cut(piece, of_row[row], of_board[piece.board], lay) for piece in of_row[row]),
            )
        )
    return tuple(rows)


def _cut(piece: Piece, of_row: list[Piece], of_board: list[Piece], lay: Lay) -> Cut:
    place = of_board.index(piece)
    later = of_board[place + 1 :]
    return Cut(
        kind=_kind(piece, of_row, lay.board.length_mm),
        length_mm=piece.to_mm - piece.from_mm,
        board=piece.board,
        from_offcut=place > 0,
        rest_to_row=later[0].row if later else None,
    )


def _kind(piece: Piece, of_row: list[Piece], length_mm: int) -> Kind:
    if piece.to_mm - piece.from_mm == length_mm:
        return Kind.WHOLE
    after = any(other.from_mm == piece.to_mm for other in of_row)
    before = any(other.to_mm == piece.from_mm for other in of_row)
    if after:
        return Kind.STARTER
    return Kind.CLOSER if before else Kind.INSERT
