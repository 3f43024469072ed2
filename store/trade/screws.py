"""Screws for skirting: how many a piece is held with, by its length."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.trims import MOST_PIECES
from store.trade.units import Bounds, Number

PIECE = Bounds(what="Piece", unit="mm", most=100_000, above_least=True)
SPACING = Bounds(what="Spacing", unit="mm", least=10, most=10_000)
END = Bounds(what="Distance from the end", unit="mm", most=1_000)
ONE_SCREW_MM = 150  # a piece no longer is held by one; common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Screws:
    """How many screws each piece takes, in the order given, and all together."""

    screws: int
    each: tuple[int, ...]


def screws(*, pieces_mm: Sequence[Number], spacing_mm: Number = 400, end_mm: Number = 50) -> Screws:
    """The screws that hold pieces of skirting or profile.

    >>> screws(pieces_mm=(100, 300, 900, 2000))
    Screws(screws=12, each=(1, 2, 3, 6))

    Method: one for a piece of up to 150 mm; else one near each end, and so many between that none is further from the
    next than the spacing.

    Args:
        pieces_mm: Lengths of the pieces, mm.
        spacing_mm: The most from screw to screw, mm.
        end_mm: From a piece's end to its first screw, mm.

    Raises:
        Refused: There is no piece, or a length cannot be.

    Source: 400 to 600 mm apart and 50 to 100 mm from the ends are common practice, no source. Look for pipes and
        cables behind the wall before the first hole.
    """
    if not 0 < len(pieces_mm) <= MOST_PIECES:
        raise Refused(f"Screws are counted for 1 to {MOST_PIECES} pieces: give their lengths.")
    spacing, end = SPACING.take(spacing_mm), END.take(end_mm)
    each = tuple(_screws(PIECE.take(piece), spacing, end) for piece in pieces_mm)
    return Screws(screws=sum(each), each=each)


def _screws(length: Fraction, spacing: Fraction, end: Fraction) -> int:
    if length <= ONE_SCREW_MM:
        return 1
    return 2 if length <= 2 * end else math.ceil((length - 2 * end) / spacing) + 1
