"""Reads the days off of somebody as they are typed, and writes them the same way: “24/12/2026 to 4/1/2027 Holiday”."""

import re
from datetime import date

from store.trade.people import DaysOff
from tui.typed.figures import Misread
from tui.typed.when import read_day
from tui.words.wording import clean, typed_day

DAYS_OFF_EXAMPLE = "24/12/2026 to 4/1/2027 Holiday; 7/1/2027 Dentist"
_SPAN = re.compile(r"(\S+)(?:\s*(?:\bto\b|–|\s-\s)\s*(\S+))?(?:\s+(.*))?", re.IGNORECASE | re.DOTALL)


def read_days_off(text: str, today: date) -> tuple[DaysOff, ...] | Misread:
    """Read days off, parted by semicolons: a day, or two with “to” between them, and then why, if one likes."""
    found: list[DaysOff] = []
    for part in (one.strip() for one in text.split(";")):
        if not part:
            continue
        span = _SPAN.fullmatch(part)
        if span is None:
            return _unread(part)
        first = read_day(span[1], today)
        last = read_day(span[2], today) if span[2] else first
        if isinstance(first, Misread) or isinstance(last, Misread):
            return _unread(part)
        found.append(DaysOff(first=first, last=last, reason=" ".join((span[3] or "").split())))
    return tuple(found)


def typed_days_off(days_off: tuple[DaysOff, ...]) -> str:
    """Return days off as a field is filled with them."""
    return "; ".join(_typed(one) for one in days_off)


def _typed(one: DaysOff) -> str:
    until = "" if one.last == one.first else f" to {typed_day(one.last)}"
    reason = one.reason.replace(";", ",")
    return f"{typed_day(one.first)}{until} {reason}".rstrip()


def _unread(part: str) -> Misread:
    return Misread(say=f"“{clean(part)[:30]}” is not read as days off; write them like {DAYS_OFF_EXAMPLE}.")
