"""Skirting and trims cut from the fewest sticks."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from store.errors import Refused
from store.trade.trims_bounds import by_length, by_long_pieces
from store.trade.trims_search import fewest
from store.trade.trims_steps import Steps
from store.trade.units import Bounds, Number

STICK = Bounds(what="Stick", unit="mm", above_least=True)
KERF = Bounds(what="Saw cut", unit="mm")
PIECE = Bounds(what="Piece", unit="mm", above_least=True)
MOST_PIECES = 5000
STEPS = 900_000  # of work for one answer: about a second, see DEVELOPERS.md
FEW_STEPS = 40_000  # about 50 ms, for what is asked again and again while somebody waits
REMEMBERED = 256  # lists: the lines of all open jobs of a small firm


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


def trims(*, stick_mm: Number, kerf_mm: Number, pieces_mm: Sequence[Number], steps: int = STEPS) -> Trims:
    """The fewest sticks that give all the pieces.

    Cutting the longest piece first from the first stick it fits is quick, and often one stick too many:

    >>> trims(stick_mm=2400, kerf_mm=0, pieces_mm=[1000, 1000, 800, 800, 600, 600]).cuts
    ((1000, 800, 600), (1000, 800, 600))
    >>> trims(stick_mm=2400, kerf_mm=3, pieces_mm=[1200] * 4).sticks
    4

    Method: sticks that a best list may be taken to have are settled; floors under the answer for the rest
    (trims_bounds), quick lists over it, and sticks filled again until a list meets the floor, which it mostly does
    (trims_refill). While they differ, look for a list with as many sticks as the floor, and raise the floor when
    there is none (trims_search). All of it together is counted in steps, not timed, so the same pieces always give
    the same list; where the steps run out, ``proved`` is False and the best list found is given. The last lists are
    remembered: asking again for the same pieces costs nothing.

    Args:
        stick_mm: Length of a stick as sold, whole mm.
        kerf_mm: Lost at each saw cut between two pieces, whole mm.
        pieces_mm: Every piece wanted, whole mm, in any order; up to 5000.
        steps: How much work at most: ``STEPS`` for about a second, ``FEW_STEPS`` for what is asked often.

    Returns:
        Sticks in falling order of what is cut from them.

    Raises:
        Refused: No piece or too many, a number that is not whole or cannot be, or a piece longer than
            the stick.

    Source: Martello and Toth 1990 (settled sticks, bounds), Gilmore and Gomory 1961 (prices), Korf 2003 (search);
        filling sticks again is our own.
    """
    stick, kerf = STICK.take_whole(stick_mm), KERF.take_whole(kerf_mm)
    if not 0 < len(pieces_mm) <= MOST_PIECES:
        raise Refused(f"{len(pieces_mm)} pieces cannot be cut in one list: give 1 to {MOST_PIECES} pieces.")
    wanted = Counter({PIECE.take_whole(piece): count for piece, count in Counter(pieces_mm).items()})
    longest = max(wanted)
    if longest > stick:
        raise Refused(f"Piece {longest} mm is longer than the stick of {stick} mm: split it or use longer sticks.")
    return _listed(stick, kerf, tuple(sorted(wanted.elements(), reverse=True)), steps)


@lru_cache(maxsize=REMEMBERED)
def _listed(stick: int, kerf: int, pieces: tuple[int, ...], steps: int) -> Trims:
    """The list for pieces that were looked at, longest first; the folder and Today ask the same again and again."""
    found, at_least = fewest([piece + kerf for piece in pieces], stick + kerf, Steps(steps))
    cuts = tuple(sorted((tuple(sorted((one - kerf for one in cut), reverse=True)) for cut in found), reverse=True))
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
