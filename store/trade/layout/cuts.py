"""How a lay is cut: piece by piece in laying order, which end of its board is kept, and where the offcut goes."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from string import ascii_lowercase

from store.trade.layout.lay import Lay, Piece


class Kept(StrEnum):
    """Which factory ends a piece has kept: both, the board's near or far end, or neither."""

    WHOLE = "whole"
    NEAR = "near"
    FAR = "far"
    NEITHER = "neither"


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What a cut leaves of a board, in mm, and the rows (counted from 0) that later take a piece of it."""

    length_mm: int
    rows: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece with its mark, the ends it keeps, the offcut it comes from if any, and what it leaves.

    ``mark`` is the board's number; pieces of a board that is cut are told apart by letters: 3a, 3b.
    ``out_of_mm`` is the length of the offcut the piece is cut from, or None for a new board.
    """

    piece: Piece
    mark: str
    kept: Kept
    out_of_mm: int | None
    leaves: tuple[Offcut, ...]

    @property
    def length_mm(self) -> int:
        return self.piece.to_mm - self.piece.from_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class RowOfCuts:
    """One row: its width in mm, whether it is ripped, and its runs from wall to wall, each piece after piece."""

    row: int
    width_mm: int
    ripped: bool
    runs: tuple[tuple[Cut, ...], ...]


def cuts_of(lay: Lay, kerf_mm: int) -> tuple[Cut, ...]:
    """Return every piece of a lay in laying order, as it is cut.

    A board is followed from its first cut on: a piece taken out of a free stretch leaves what is before and behind
    it, less a kerf for each saw cut.

    >>> from store.trade.layout.lay import BoardSize
    >>> def piece(row, start, end, board, near):
    ...     return Piece(row=row, from_mm=start, to_mm=end, board=board, board_from_mm=near,
    ...                  board_to_mm=near + end - start)
    >>> lay = Lay(boards=2, packs=1, net_area_mm2=0, floor_area_mm2=1.0, direction_deg=0, least_boards=2,
    ...     board=BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6), row_edges_mm=((0, 190), (190, 380)),
    ...     pieces=(piece(0, 0, 1900, 1, 0), piece(0, 1900, 3480, 2, 0), piece(1, 0, 300, 2, 1600)))
    >>> [(cut.mark, cut.kept.value, cut.out_of_mm, [off.length_mm for off in cut.leaves])
    ...     for cut in cuts_of(lay, 3)]
    [('1', 'whole', None, []), ('2a', 'near', None, [317]), ('2b', 'far', 317, [14])]

    Args:
        lay: the lay.
        kerf_mm: what the saw takes at each cut.
    """
    return tuple(_followed(lay, kerf_mm))


def rows_of_cuts(lay: Lay, kerf_mm: int) -> tuple[RowOfCuts, ...]:
    """Return the cuts of a lay row by row; a run ends where the next piece does not touch."""
    runs: list[list[list[Cut]]] = [[] for _ in lay.row_edges_mm]
    for cut in cuts_of(lay, kerf_mm):
        of_row = runs[cut.piece.row]
        if of_row and of_row[-1][-1].piece.to_mm == cut.piece.from_mm:
            of_row[-1].append(cut)
        else:
            of_row.append([cut])
    return tuple(
        RowOfCuts(
            row=row,
            width_mm=high - low,
            ripped=high - low < lay.board.width_mm,
            runs=tuple(tuple(run) for run in runs[row]),
        )
        for row, (low, high) in enumerate(lay.row_edges_mm)
    )


def left_over(lay: Lay, kerf_mm: int) -> tuple[int, ...]:
    """Return the lengths of all offcuts that no row takes, the longest first, in mm."""
    never = [offcut.length_mm for cut in cuts_of(lay, kerf_mm) for offcut in cut.leaves if not offcut.rows]
    return tuple(sorted(never, reverse=True))


def _followed(lay: Lay, kerf_mm: int) -> Iterator[Cut]:
    of_board: dict[int, list[Piece]] = {}
    for piece in lay.pieces:
        of_board.setdefault(piece.board, []).append(piece)
    free: dict[int, list[tuple[int, int]]] = {}
    for piece in lay.pieces:
        pieces = of_board[piece.board]
        here = pieces.index(piece)
        length = lay.length_of(piece.board)
        stretches = free.setdefault(piece.board, [(0, length)])
        stretch = next(one for one in stretches if one[0] <= piece.board_from_mm and piece.board_to_mm <= one[1])
        stretches.remove(stretch)
        rests = _rests(stretch, piece, kerf_mm)
        stretches += rests
        yield Cut(
            piece=piece,
            mark=f"{piece.board}{_letter(here) if _is_cut(pieces, length) else ''}",
            kept=_kept(piece, length),
            out_of_mm=stretch[1] - stretch[0] if here else None,
            leaves=tuple(_offcut(rest, pieces[here + 1 :]) for rest in rests),
        )


def _rests(stretch: tuple[int, int], piece: Piece, kerf_mm: int) -> list[tuple[int, int]]:
    both = ((stretch[0], piece.board_from_mm - kerf_mm), (piece.board_to_mm + kerf_mm, stretch[1]))
    return [(low, high) for low, high in both if high > low]


def _offcut(rest: tuple[int, int], later: list[Piece]) -> Offcut:
    rows = [one.row for one in later if rest[0] <= one.board_from_mm and one.board_to_mm <= rest[1]]
    return Offcut(length_mm=rest[1] - rest[0], rows=tuple(dict.fromkeys(rows)))


def _is_cut(pieces: list[Piece], length_mm: int) -> bool:
    return len(pieces) > 1 or _kept(pieces[0], length_mm) is not Kept.WHOLE


def _kept(piece: Piece, length_mm: int) -> Kept:
    near, far = piece.board_from_mm == 0, piece.board_to_mm == length_mm
    if near and far:
        return Kept.WHOLE
    return Kept.NEAR if near else Kept.FAR if far else Kept.NEITHER


def _letter(place: int) -> str:
    return ascii_lowercase[place] if place < len(ascii_lowercase) else f"-{place + 1}"
