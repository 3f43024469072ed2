"""Which of the copies made by themselves may go: many of late, few of long ago.

The problem: a copy is made whenever the screens open on changed records. All of them would fill the disk; the
newest alone would not help against a mistake that is found late. And the machine's clock may jump, years ahead or
back, which must not make a good copy look old.

The method: copies are numbered as they are made, and only the numbers say which is newer; how far back a copy
lies is told by how many other days, or months, have copies that are newer. Going from the newest to the oldest, a
copy stays if

1. it is the newest or the oldest of all;
2. its day is one of the first two days met;
3. it is the first one met of its day, and the day is one of the first fourteen;
4. it is the first one met of its month, and the month is one of the first twelve.

So beside those of the last two days at most 14 + 12 + 1 stay. The numbers 2, 14 and 12 are common practice.

>>> from datetime import UTC, datetime
>>> copies = [CopyMade(number=day, at=datetime(2026, 3, day, 7, tzinfo=UTC)) for day in range(1, 21)]
>>> [copy.number for copy in to_go(copies)]  # 1 is the oldest, 7 to 20 are fourteen days
[2, 3, 4, 5, 6]
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

ALL_OF_DAYS = 2
ONE_OF_DAYS = 14
ONE_OF_MONTHS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class CopyMade:
    """A copy by its number, which grows with each one made, and what the clock said then."""

    number: int
    at: datetime


Copy = TypeVar("Copy", bound=CopyMade)


def to_go(copies: Iterable[Copy]) -> tuple[Copy, ...]:
    """Return the copies that may go, the oldest first."""
    newest_first = sorted(copies, key=lambda copy: copy.number, reverse=True)
    days: dict[tuple[int, int, int], int] = {}
    months: dict[tuple[int, int], int] = {}
    going = []
    for copy in newest_first:
        day, month = (copy.at.year, copy.at.month, copy.at.day), (copy.at.year, copy.at.month)
        first_of_day, first_of_month = day not in days, month not in months
        of_day, of_month = days.setdefault(day, len(days)), months.setdefault(month, len(months))
        stays = (
            of_day < ALL_OF_DAYS
            or (first_of_day and of_day < ONE_OF_DAYS)
            or (first_of_month and of_month < ONE_OF_MONTHS)
        )
        if not stays:
            going.append(copy)
    oldest = newest_first[-1] if newest_first else None
    return tuple(copy for copy in reversed(going) if copy is not oldest)
