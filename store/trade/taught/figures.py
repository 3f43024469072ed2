"""How a few floors of the firm's own and the trade's figure make one: quantiles, shrinkage, and the trade's figures.

The problem: with two floors behind it a firm's own figure says little, with fifty it says more than any book. So the
firm's own figure is pulled toward the trade's, the less the more floors stand behind it: it counts n ÷ (n + 5) of the
whole (own convention). Half of all floors take more than the average; so what is suggested for the next order is what
would have been enough for nine floors of ten (own convention).

Worked example: five herringbones took 9, 10, 10, 11 and 14 %. For nine of ten of them 12.8 % would have been enough;
the trade's 12.5 %, with its spread of 3 points, says 16.3 %. Five floors count half:

>>> round(suggested_percent([9, 10, 10, 11, 14], 12.5), 1)
14.6
"""

from collections.abc import Sequence
from math import floor
from statistics import NormalDist

from store.errors import Refused
from store.trade.surveyed import Pattern
from store.trade.taught.nouns import Shape, SizeBand

TRADE_FLOORS = 5
"""So many floors the trade's figure counts for; with as many of its own a firm's weighs half (own convention)."""

TRADE_FLOOR_MM2 = 30_000_000
"""How large each of them is taken to be, 30 m² (own convention)."""

ENOUGH_FOR = 0.9
"""What is suggested would have been enough for this part of the floors."""

TRADE_SPREAD_POINTS = 3.0
"""How far floors of one kind lie apart before any is known: the standard deviation, in points (own convention)."""

_TRADE_PERCENT = {Pattern.STRAIGHT: 7.5, Pattern.HERRINGBONE: 12.5, Pattern.CHEVRON: 17.5}
_SMALL_OR_CUT_UP_POINTS = 4.0


def trade_percent(pattern: Pattern | None, shape: Shape | None, size: SizeBand | None) -> float:
    """Return the cut loss people quote for such a floor, % of the floor laid.

    Rows 5 to 10 %, herringbone 10 to 15 %, chevron 15 to 20 %, and 3 to 5 points more in small or cut-up rooms, each
    taken in its middle (common practice, no source). What is not known counts as the plainer.

    >>> trade_percent(Pattern.HERRINGBONE, Shape.RECTANGLE, SizeBand.MIDDLE)
    12.5
    >>> trade_percent(Pattern.STRAIGHT, Shape.CUT_UP, SizeBand.SMALL)
    11.5
    """
    harder = shape is Shape.CUT_UP or size is SizeBand.SMALL
    return _TRADE_PERCENT[pattern or Pattern.STRAIGHT] + (_SMALL_OR_CUT_UP_POINTS if harder else 0.0)


def quantile(values: Sequence[float], part: float) -> float:
    """Return the value that so large a part of the values do not exceed, read between two where it falls there.

    Of n values in order the first stands at 0 and the last at 1, the others evenly between (the usual definition, the
    seventh of Hyndman and Fan, 1996, from memory).

    >>> quantile([4.0, 10.0, 6.0], 0.75)
    8.0

    Raises:
        Refused: no values, or a part that is not from 0 to 1.
    """
    if not values or not 0 <= part <= 1:
        raise Refused("A quantile needs values, and a part from 0 to 1.")
    ordered = sorted(values)
    place = part * (len(ordered) - 1)
    below = floor(place)
    above = min(below + 1, len(ordered) - 1)
    return ordered[below] + (ordered[above] - ordered[below]) * (place - below)


def own_weight(floors: int) -> float:
    """Return how much of a figure is the firm's own, from 0 to 1: n ÷ (n + 5).

    >>> own_weight(0), own_weight(5), own_weight(45)
    (0.0, 0.5, 0.9)
    """
    return floors / (floors + TRADE_FLOORS)


def trade_enough(percent: float, part: float = ENOUGH_FOR) -> float:
    """Return what the trade's figure makes enough for a part of floors: they are taken to lie normally around it.

    >>> round(trade_enough(8.0), 2)
    11.84
    """
    return percent + TRADE_SPREAD_POINTS * NormalDist().inv_cdf(part)


def suggested_percent(losses: Sequence[float], trade: float, part: float = ENOUGH_FOR) -> float:
    """Return the cut loss to reckon the next floor with, %: the firm's own quantile, pulled toward the trade's.

    Args:
        losses: the real cut losses of the firm's own floors of this kind, %.
        trade: the trade's figure for them, %; see ``trade_percent``.
        part: for what part of the floors it is to be enough.

    >>> round(suggested_percent([], 8.0), 2), round(suggested_percent([5.0] * 5, 8.0), 2)
    (11.84, 8.42)
    """
    weight = own_weight(len(losses))
    own = quantile(losses, part) if losses else 0.0
    return max(0.0, weight * own + (1 - weight) * trade_enough(trade, part))


def expected_percent(floors: Sequence[tuple[float, float]], trade: float) -> float:
    """Return the cut loss the next floor takes on average, %.

    All loss over all floor, the trade's figure standing in it as five floors of 30 m² would (own convention).

    Args:
        floors: of each floor the area laid and the area lost, mm².
        trade: the trade's figure, %.

    >>> round(expected_percent([(44_300_000, 2_260_000)], 8.0), 3)
    7.339
    """
    base = TRADE_FLOORS * TRADE_FLOOR_MM2
    laid, lost = sum(area for area, _ in floors), sum(area for _, area in floors)
    return (base * trade + 100 * lost) / (base + laid)
