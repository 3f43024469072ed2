"""Film and underlay from the roll: how many strips a floor takes, how long they are, and how many rolls that is."""

import math
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.units import Bounds, Number

ALONG = Bounds(what="Length along the strips", unit="mm", most=500_000, above_least=True)
ACROSS = Bounds(what="Length across the strips", unit="mm", most=500_000, above_least=True)
ROLL_WIDTH = Bounds(what="Width of the roll", unit="mm", least=100, most=20_000)
ROLL_LENGTH = Bounds(what="Length of the roll", unit="m", least=1, most=1_000)
OVERLAP = Bounds(what="Overlap", unit="mm", most=2_000)
TURN_UP = Bounds(what="Turn-up", unit="mm", most=2_000)
MOST_PIECES = 200_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """How many strips lie side by side, how long each is in mm, and the whole rolls they are cut from.

    ``joined``: a strip is longer than a roll, so that strips are joined end to end, lapped there too.
    """

    strips: int
    strip_mm: float
    rolls: int
    joined: bool


def film(
    *,
    along_mm: Number,
    across_mm: Number,
    roll_width_mm: Number,
    roll_length_m: Number,
    overlap_mm: Number = 200,
    turn_up_mm: Number = 0,
) -> Film:
    """Film or underlay on a rectangle, laid in strips that run along it.

    >>> film(along_mm=5000, across_mm=4000, roll_width_mm=2000, roll_length_m=25, overlap_mm=200, turn_up_mm=100)
    Film(strips=3, strip_mm=5200.0, rolls=1, joined=False)

    Method: every strip beyond the first covers the roll's width less the overlap; at the walls the turn-up is added on
    both sides and at both ends. Strips no longer than a roll are cut whole, so many from each roll. Longer ones are
    laid one after the other from the rolls, with an overlap wherever a roll ends.

    Args:
        along_mm: Length of the floor along the strips, mm.
        across_mm: Length of the floor across the strips, mm.
        roll_width_mm: Width of the roll, mm.
        roll_length_m: What a roll holds, m.
        overlap_mm: By which strips lie over one another, mm; 0 where edges are butted, as underlay's are.
        turn_up_mm: By which the film is turned up at each wall, mm.

    Raises:
        Refused: A number cannot be, or the overlap takes the whole roll.

    Source: 200 mm taped is common practice, no source; one maker's text asks for 300 mm, turned up at the walls.
        The sheet of the film goes before both.
    """
    width, roll = ROLL_WIDTH.take(roll_width_mm), ROLL_LENGTH.take(roll_length_m) * 1000
    overlap, turn_up = OVERLAP.take(overlap_mm), TURN_UP.take(turn_up_mm)
    if overlap >= min(width, roll):
        raise Refused("The overlap takes the whole roll: give one that is less than the roll is wide and long.")
    across = ACROSS.take(across_mm) + 2 * turn_up
    strip = ALONG.take(along_mm) + 2 * turn_up
    strips = max(1, math.ceil((across - overlap) / (width - overlap)))
    if strips * math.ceil(strip / (roll - overlap)) > MOST_PIECES:
        raise Refused(f"This floor takes more than {MOST_PIECES:,} pieces of film: give a larger roll.")
    whole = math.floor(roll / strip)
    rolls = math.ceil(Fraction(strips, whole)) if whole else _rolls_end_to_end(strips, strip, roll, overlap)
    return Film(strips=strips, strip_mm=float(strip), rolls=rolls, joined=not whole)


def _rolls_end_to_end(strips: int, strip: Fraction, roll: Fraction, overlap: Fraction) -> int:
    """Return the rolls that strips longer than a roll take, each begun with what the one before left."""
    rolls, left = 0, Fraction(0)
    for _ in range(strips):
        # What is no longer than an overlap covers nothing and is thrown away.
        to_lay, begun = strip, False
        while to_lay > 0:
            if left <= overlap:
                rolls, left = rolls + 1, roll
            covers = left - overlap if begun else left
            used = min(covers, to_lay)
            left -= used + (overlap if begun else 0)
            to_lay, begun = to_lay - used, True
    return rolls
