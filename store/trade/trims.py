"""Skirting and trims cut from the fewest sticks."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from store.errors import Refused
from store.trade.trims_bounds import by_length, by_long_pieces
from store.trade.trims_search import fewest
from store.trade.units import Bounds, Number

STICK = Bounds(what="Stick", unit="mm", above_least=True)
KERF = Bounds(what="Saw cut", unit="mm")
PIECE = Bounds(what="Piece", unit="mm", above_least=True)
MOST_PIECES = 5000


@dataclass(frozen=True, slots=True, kw_only=True)
class Trims:
    """A cutting list: the pieces of each stick, longest first, and what is left of each, in mm.

    ``at_least`` is a number of sticks no list can beat; ``proved`` says that it was reached.
    """

    sticks: int
    cuts: tuple[tuple[int, ...], ...]
    left_mm: tuple[int, ...]
    at_least: int
    proved: bool


def trims(*, stick_mm: Number, kerf_mm: Number, pieces_mm: Sequence[Number]) -> Trims:
    """The fewest sticks that give all the pieces.

    Cutting the longest piece first from the first stick it fits is quick, and often one stick too many:

    >>> trims(stick_mm=2400, kerf_mm=0, pieces_mm=[1000, 1000, 800, 800, 600, 600]).cuts
    ((1000, 800, 600), (1000, 800, 600))
    >>> trims(stick_mm=2400, kerf_mm=3, pieces_mm=[1200] * 4).sticks
    4

    Method: floors under the answer (trims_bounds), quick lists over it; while they differ, look for a
    list with as many sticks as the floor, and raise the floor when there is none (trims_search). The
    work is counted, not timed, so the same pieces always give the same list; where it runs out,
    ``proved`` is False and the best list found is given.

    Args:
        stick_mm: Length of a stick as sold, whole mm.
        kerf_mm: Lost at each saw cut between two pieces, whole mm.
        pieces_mm: Every piece wanted, whole mm, in any order; up to 5000.

    Returns:
        Sticks in falling order of what is cut from them.

    Raises:
        Refused: No piece or too many, a number that is not whole or cannot be, or a piece longer than
            the stick.

    Source: Martello and Toth 1990 (bounds), Gilmore and Gomory 1961 (prices), Korf 2003 (search).
    """
    stick, kerf = STICK.take_whole(stick_mm), KERF.take_whole(kerf_mm)
    if not 0 < len(pieces_mm) <= MOST_PIECES:
        raise Refused(f"{len(pieces_mm)} pieces cannot be cut in one list: give 1 to {MOST_PIECES} pieces.")
    wanted = Counter(PIECE.take_whole(piece) for piece in pieces_mm)
    longest = max(wanted)
    if longest > stick:
        raise Refused(f"Piece {longest} mm is longer than the stick of {stick} mm: split it or use longer sticks.")
    pieces = sorted(wanted, reverse=True)
    lengths, counts = [piece + kerf for piece in pieces], [wanted[piece] for piece in pieces]
    found, at_least = fewest(lengths, counts, stick + kerf)
    cuts = tuple(
        sorted(
            (tuple(p for p, n in zip(pieces, fill, strict=True) for _ in range(n)) for fill in found),
            reverse=True,
        )
    )
    return Trims(
        sticks=len(cuts),
        cuts=cuts,
        left_mm=tuple(stick - sum(cut) - kerf * (len(cut) - 1) for cut in cuts),
        at_least=at_least,
        proved=len(cuts) == at_least,
    )


def quick_floor(*, stick_mm: int, kerf_mm: int, pieces_mm: Sequence[int]) -> tuple[int, int]:
    """The two floors that need no search: by summed length (L1), and by long pieces (L2).

    >>> quick_floor(stick_mm=2400, kerf_mm=3, pieces_mm=[1200] * 4)
    (3, 4)
    """
    wanted = Counter(pieces_mm)
    pieces = sorted(wanted, reverse=True)
    lengths, counts = [piece + kerf_mm for piece in pieces], [wanted[piece] for piece in pieces]
    room = stick_mm + kerf_mm
    return by_length(lengths, counts, room), by_long_pieces(lengths, counts, room)
