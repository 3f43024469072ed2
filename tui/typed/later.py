"""Reads a day that is told from another one, “7 days later”, “2 weeks earlier”, or as any day is told."""

import re
from datetime import date, timedelta

from tui.typed.figures import Misread
from tui.typed.when import read_day

LATER_HINT = "Like 7 days later, 2 weeks later, or a day: 7/12, fri, +3."
_SPAN = re.compile(r"(a|an|one|[0-9]{1,4})\s*(day|week)s?\s*(later|earlier|sooner)?", re.IGNORECASE)


def read_later(text: str, base: date, today: date) -> date | Misread:
    """Read a day: so many days or weeks later or earlier than ``base``, or a day by itself.

    >>> read_later("a week later", date(2026, 11, 30), date(2026, 11, 25)).isoformat()
    '2026-12-07'
    """
    span = _SPAN.fullmatch(" ".join(text.split()))
    if span is None:
        return read_day(text, today)
    many = int(span[1]) if span[1].isdecimal() else 1
    days = many * (7 if span[2].lower() == "week" else 1)
    back = (span[3] or "later").lower() != "later"
    try:
        return base + timedelta(days=-days if back else days)
    except OverflowError:
        return Misread(say="That day is too far off.")
