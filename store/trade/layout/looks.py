"""How a lay looks to somebody who stands on it: joints in line, stairs of joints, and how much is cut to measure."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from store.trade.layout.lay import Lay, Piece

NEAR_MM = 50
"""Joints nearer to one another than this look as if they were in line (common practice, no source)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """What shows on a floor: fewer is better.

    ``in_line``: joints that lie in line with one two rows before (a ladder or H). ``stairs``: joints that go on by the
    same step from row to row over three rows. ``cut_lengths``: different lengths to which pieces are cut.
    """

    in_line: int
    stairs: int
    cut_lengths: int


def looks_of(lay: Lay) -> Looks:
    """Return how a lay looks.

    Source: both faults are named by trade pages on laying boards; how near is near is common practice, no source.

    >>> from store.trade.layout.lay import BoardSize, Piece
    >>> def row(number, *ends):
    ...     return [Piece(row=number, from_mm=a, to_mm=b, board=1, board_from_mm=0, board_to_mm=b - a)
    ...             for a, b in zip((0, *ends), ends)]
    >>> pieces = (*row(0, 900, 1900), *row(1, 400, 1900), *row(2, 900, 1900))
    >>> looks_of(Lay(boards=1, packs=1, net_area_mm2=1, floor_area_mm2=1.0, direction_deg=0, least_boards=1,
    ...     board=BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6), pieces=pieces,
    ...     row_edges_mm=((0, 190), (190, 380), (380, 570))))
    Looks(in_line=1, stairs=0, cut_lengths=4)
    """
    joints = joints_of(lay)
    ways = list(zip(joints, joints[1:], joints[2:], strict=False))
    cut = {piece.to_mm - piece.from_mm for piece in lay.pieces if not _is_whole(lay, piece)}
    return Looks(
        in_line=sum(_in_line(first, third) for first, _, third in ways),
        stairs=sum(_stairs(first, second, third, lay.board.length_mm) for first, second, third in ways),
        cut_lengths=len(cut),
    )


def joints_of(lay: Lay) -> list[list[int]]:
    """Return where the joints of each row lie, in mm along the row, in order."""
    ends: dict[int, set[int]] = defaultdict(set)
    begins: dict[int, set[int]] = defaultdict(set)
    for piece in lay.pieces:
        ends[piece.row].add(piece.to_mm)
        begins[piece.row].add(piece.from_mm)
    return [sorted(ends[row] & begins[row]) for row in range(lay.rows)]


def _is_whole(lay: Lay, piece: Piece) -> bool:
    return piece.board_from_mm == 0 and piece.board_to_mm == lay.length_of(piece.board)


def _in_line(first: Sequence[int], third: Sequence[int]) -> int:
    return sum(any(abs(here - there) < NEAR_MM for there in first) for here in third)


def _stairs(first: Sequence[int], second: Sequence[int], third: Sequence[int], longest_mm: int) -> int:
    found = 0
    for here in first:
        steps = [there - here for there in second if abs(there - here) <= longest_mm / 2]
        found += any(abs(here + 2 * step - beyond) < NEAR_MM for step in steps for beyond in third)
    return found
