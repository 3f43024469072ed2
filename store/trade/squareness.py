"""A room of four walls from its sides and its two diagonals: how far it is out of square, and its corners."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from store.errors import Refused
from store.trade.outline import Ring

LEAST_TOLERANCE_MM = 10
TOLERANCE_PER_METRE_MM = 2
"""How far the second diagonal may be from what the sides and the first one give: 10 mm, or 2 mm for every metre."""
_STEPS = 200

Sides = tuple[int, int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class FourSided:
    """A room of four walls: its corners in whole mm, how far it is out of square, and how well the tape agrees.

    ``out_of_square_mm`` is how far the far end of the second wall leans away from a right angle on the first;
    ``residual_mm`` is by how much each diagonal differs from what fits both best.
    """

    ring: Ring
    out_of_square_mm: int
    residual_mm: float


def four_sided(sides_mm: Sequence[int], diagonals_mm: Sequence[int]) -> FourSided:
    """Return the room that four sides and two diagonals draw; two sides mean two pairs.

    Sides are A, B, C, D in the order they are walked, anticlockwise; A runs along x from (0, 0). The first diagonal
    goes from there to the end of B, the second from the end of A to the end of C.

    Method: four sides and one diagonal already fix the room (law of cosines), so the second diagonal is a check. One
    length, the first diagonal, is sought at which both differ from the tape by the same amount the opposite way or as
    little as can be (bisection; the second falls as the first grows).

    Raises:
        Refused: sizes that are not more than 0, sides and diagonals that meet in no triangle, or diagonals that do not
            go together within the tolerance.

    >>> four_sided([4000, 3000], [5000, 5000])
    FourSided(ring=((0, 0), (4000, 0), (4000, 3000), (0, 3000)), out_of_square_mm=0, residual_mm=0.0)

    Source: plane geometry (law of cosines, textbook); the tolerance is common practice, no source.
    """
    if len(sides_mm) not in (2, 4) or len(diagonals_mm) != 2:
        raise Refused("Give two or four sides, and both diagonals.")
    sides: Sides = (sides_mm[0], sides_mm[1], sides_mm[-2], sides_mm[-1])
    (a, b, c, d), (first, second) = sides, diagonals_mm
    if min(*sides, first, second) <= 0:
        raise Refused("Sides and diagonals must be more than 0.")
    low, high = max(abs(a - b), abs(c - d)) + 1e-6, min(a + b, c + d) - 1e-6
    if not low < first < high:
        raise Refused(
            f"Two sides and the first diagonal, {first} mm, make no triangle; take that diagonal again, or the sides."
        )
    best = _best_first(sides, (first, second), (low, high))
    residual = max(abs(best - first), abs(_second(sides, best) - second))
    if residual > max(LEAST_TOLERANCE_MM, TOLERANCE_PER_METRE_MM * (first + second) / 2000):
        alone = _second(sides, first)
        raise Refused(
            f"These diagonals do not go together: with these sides and a first diagonal of {first} mm the second would "
            f"be {alone:.0f} mm, not {second}. Measure the diagonals again, then the sides."
        )
    corners = _corners(sides, best)
    return FourSided(
        ring=tuple((round(x), round(y)) for x, y in corners),
        out_of_square_mm=abs(round(corners[2][0] - a)),
        residual_mm=round(residual, 1),
    )


def _best_first(sides: Sides, diagonals_mm: tuple[int, int], between: tuple[float, float]) -> float:
    (first, second), (low, high) = diagonals_mm, between

    def excess(at: float) -> float:
        return (at - first) - (_second(sides, at) - second)

    if excess(first) == 0:
        return float(first)
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (low, middle) if excess(middle) > 0 else (middle, high)
    return (low + high) / 2


def _corners(sides: Sides, first: float) -> list[tuple[float, float]]:
    """Return the corners: B's end by triangle A-B-diagonal, D's by triangle C-D-diagonal on its other side."""
    a, b, c, d = sides
    at_start = math.acos(_cosine(a, first, b))
    beyond = at_start + math.acos(_cosine(d, first, c))
    return [
        (0.0, 0.0),
        (float(a), 0.0),
        (first * math.cos(at_start), first * math.sin(at_start)),
        (d * math.cos(beyond), d * math.sin(beyond)),
    ]


def _second(sides: Sides, first: float) -> float:
    _, one, _, other = _corners(sides, first)
    return math.dist(one, other)


def _cosine(beside: float, other_beside: float, opposite: float) -> float:
    return max(-1.0, min(1.0, (beside**2 + other_beside**2 - opposite**2) / (2 * beside * other_beside)))
