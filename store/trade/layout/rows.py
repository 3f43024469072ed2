"""How many rows of boards a floor takes, and how wide the first and the last one are."""

from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.units import Bounds, Number, plain_mm

ACROSS = Bounds(what="Width across the rows", unit="mm", above_least=True)
BOARD = Bounds(what="Board width", unit="mm", above_least=True)
GAP = Bounds(what="Gap at the wall", unit="mm")
LEAST = Bounds(what="Narrowest row", unit="mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Rows across a floor: their number and the widths of the outer ones.

    ``last_if_full_mm`` is the last row had one started with a full board.
    """

    rows: int
    first_mm: float
    last_mm: float
    last_if_full_mm: float


def rows(*, across_mm: Number, board_mm: Number, gap_mm: Number = 10, least_mm: Number = 60) -> Rows:
    """Rows of one board width between two walls.

    A floor is rarely a whole number of boards wide. Started with a full board, its last row may be a
    sliver that is hard to cut and looks poor; then the first and the last row share what is left.

    >>> rows(across_mm=4000, board_mm=190, gap_mm=12, least_mm=95)
    Rows(rows=21, first_mm=190, last_mm=176, last_if_full_mm=176)
    >>> rows(across_mm=3835, board_mm=190, gap_mm=12, least_mm=95)
    Rows(rows=21, first_mm=100.5, last_mm=100.5, last_if_full_mm=11)

    Method: take the gap off both sides; divide by the board; keep the remainder as the last row if it is
    ``least_mm`` or wider; else rip the first and the last row to half of (board + remainder).

    Args:
        across_mm: Wall to wall, across the rows, whole mm.
        board_mm: Cover width of a board, whole mm.
        gap_mm: Gap left at each of the two walls, whole mm.
        least_mm: Narrowest last row that is kept, whole mm.

    Raises:
        Refused: A number is not whole or cannot be, or nothing is left between the gaps.

    Source: common practice, no source. A floor narrower than a board is one row of that width.
    """
    across, gap = ACROSS.take_whole(across_mm), GAP.take_whole(gap_mm)
    board, least = BOARD.take_whole(board_mm), LEAST.take_whole(least_mm)
    clear = across - 2 * gap
    if clear <= 0:
        raise Refused(
            f"A floor {across} mm wide has nothing left between two gaps of {gap} mm: give a wider floor "
            "or a smaller gap."
        )
    full, rest = divmod(clear, board)
    if full == 0:
        return Rows(rows=1, first_mm=clear, last_mm=clear, last_if_full_mm=clear)
    if rest == 0:
        return Rows(rows=full, first_mm=board, last_mm=board, last_if_full_mm=board)
    if rest >= least:
        return Rows(rows=full + 1, first_mm=board, last_mm=rest, last_if_full_mm=rest)
    ripped = plain_mm(Fraction(board + rest, 2))
    return Rows(rows=full + 1, first_mm=ripped, last_mm=ripped, last_if_full_mm=rest)
