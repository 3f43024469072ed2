"""The gap along the walls: what a floor's width asks of it, and how far its wood would move if nothing held it."""

from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade import species as woods
from store.trade.jobs import Method
from store.trade.units import Bounds, Number, one_of

ACROSS = Bounds(what="Width across the boards", unit="mm", above_least=True)
HAS = Bounds(what="Gap at the wall", unit="mm")
POINTS = Bounds(what="Change of moisture", unit="% points", most=8)

LEAST_FLOATING_MM = 10
FIELD_MM = 8_000
USUAL_POINTS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class WallGap:
    """What the gap at each wall should be, in mm, and the fields a floor is parted into.

    ``asked_mm`` and ``enough`` are None where no rule of the trade names a figure. ``free_movement_mm`` is how far
    solid wood would move over the whole width if nothing held it; None where the wood is not known.
    """

    asked_mm: int | None
    enough: bool | None
    fields: int
    free_movement_mm: float | None


def wall_gap(
    *, across_mm: Number, method: str, gap_mm: Number, species: str = "", points: Number = USUAL_POINTS
) -> WallGap:
    """Return what the gap along the walls should be for a floor so wide across its boards.

    A floating floor moves as one: makers' texts ask for 1.5 mm for every metre of its width, on each side, and 10 mm at
    least, and for a joint where it is wider than 8 m. For a glued or nailed floor no rule names a figure; what the wood
    would do if it lay loose is shown instead, between its driest and dampest season.

    >>> wall_gap(across_mm=6670, method="floating", gap_mm=10)
    WallGap(asked_mm=11, enough=False, fields=1, free_movement_mm=None)
    >>> wall_gap(across_mm=5000, method="glued", gap_mm=10, species="oak").free_movement_mm
    54.0

    Args:
        across_mm: wall to wall across the boards, mm.
        method: glued, floating or nailed.
        gap_mm: the gap there is, mm.
        species: the wood, as for ``movement``; empty where it is not known.
        points: how many points of moisture lie between the driest and the dampest season, 3 unless measured.

    Raises:
        Refused: a number outside its range, or a method or wood that is not known.

    Source: 1.5 mm for each metre and 8 m fields are makers' texts, which differ (8 to 13 m): the maker's sheet decides.
    About ±3 points in a lived-in room: German initiative for glued parquet, from memory. Boards laid across each other
    in layers move about 70 % less (parquet information page, from memory).
    """
    across, has = ACROSS.take(across_mm), HAS.take(gap_mm)
    floating = one_of(method, [one.value for one in Method], what="Method") == Method.FLOATING
    asked = max(LEAST_FLOATING_MM, -(-Fraction(3, 2) * across // 1000)) if floating else None
    free = float(across * woods.coefficient(species=species, cut="flat") * POINTS.take(points)) if species else None
    return WallGap(
        asked_mm=asked,
        enough=None if asked is None else has >= asked,
        fields=int(-(-across // FIELD_MM)) if floating else 1,
        free_movement_mm=free,
    )


def known_wood(name: str) -> str:
    """Return a wood's name if its movement is known, else nothing."""
    try:
        woods.coefficient(species=name, cut="flat")
    except Refused:
        return ""
    return name
