"""Whether the holidays on file reach far enough: those of another year plan nobody round this year's."""

from collections.abc import Iterable
from datetime import date
from enum import StrEnum


class Reach(StrEnum):
    """How far the holidays on file reach: none at all, all of them over, none next year yet, or far enough."""

    NONE = "none"
    OVER = "over"
    NONE_NEXT_YEAR = "none_next_year"
    ENOUGH = "enough"


def reach_of(holidays: Iterable[date], today: date) -> Reach:
    """Return how far holidays reach, seen from a day.

    >>> reach_of([date(2026, 12, 25)], date(2026, 11, 25)), reach_of([date(2026, 12, 25)], date(2027, 1, 4))
    (<Reach.NONE_NEXT_YEAR: 'none_next_year'>, <Reach.OVER: 'over'>)
    """
    last = max(holidays, default=None)
    if last is None:
        return Reach.NONE
    if last < today:
        return Reach.OVER
    return Reach.ENOUGH if last.year > today.year else Reach.NONE_NEXT_YEAR
