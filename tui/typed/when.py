"""Reads the days and moments somebody types: “28/11”, “fri”, “today 9:30”, “now”; day before month."""

import re
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from dateutil.relativedelta import FR, MO, SA, SU, TH, TU, WE, relativedelta

from tui.typed.figures import Misread
from tui.words.wording import MONTHS, WEEKDAYS, clean, say_day, say_time

_DAY_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_STEPS = (MO, TU, WE, TH, FR, SA, SU)
_NUMBERED = re.compile(r"([0-9]{1,2})[/.-]([0-9]{1,2})(?:[/.-]([0-9]{4}|[0-9]{2}))?\.?")
_ISO = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NAMED = re.compile(r"(?:([a-z]{3,9})\.?,?\s+)?([0-9]{1,2})\s*([a-z]{3,9})\.?(?:\s+([0-9]{4}))?")
_LATER = re.compile(r"([+-])\s*([0-9]{1,4})")
_TIME = re.compile(r"([0-9]{1,2})[:.h]([0-9]{2})")
_DAY_EXAMPLE = "28/11, 28/11/2026, fri, tomorrow or +3"
_INSTANT_EXAMPLE = "now, 09:30, today 9:30 or 28/11 9:30"


def read_day(text: str, today: date, *, back: bool = False) -> date | Misread:
    """Read a day: “28/11”, “28/11/2026”, “2026-11-28”, “28 nov”, “fri”, “today”, “tomorrow”, “+3”.

    A day without a year is the one nearest to today. A weekday is the next of its name, today included, or
    the last one where ``back`` is set, for what has happened already.
    """
    typed = " ".join(text.strip().lower().replace("−", "-").split())
    if not typed:
        return Misread(say=f"Fill in a day, like {_DAY_EXAMPLE}.")
    try:
        day = _in_words(typed, today, back) or _in_figures(typed, today)
    except (ValueError, OverflowError):
        return Misread(say=f"There is no day “{clean(text.strip())[:30]}”; write one like {_DAY_EXAMPLE}.")
    if day is None:
        return Misread(say=f"“{clean(text.strip())[:30]}” is no day; write one like {_DAY_EXAMPLE}.")
    return day


def _in_words(typed: str, today: date, back: bool) -> date | None:
    near = {"today": 0, "tomorrow": 1, "yesterday": -1}
    if typed in near:
        return today + timedelta(days=near[typed])
    later = _LATER.fullmatch(typed)
    if later:
        return today + timedelta(days=int(later[1] + later[2]))
    weekday = _weekday(typed)
    if weekday is not None:
        return today + relativedelta(weekday=_STEPS[weekday](-1 if back else 1))
    return None


def _weekday(typed: str) -> int | None:
    found = [number for number, name in enumerate(_DAY_NAMES) if len(typed) >= 3 and name.startswith(typed)]
    return found[0] if len(found) == 1 else None


def _in_figures(typed: str, today: date) -> date | Misread | None:
    if _ISO.fullmatch(typed):
        return date.fromisoformat(typed)
    numbered = _NUMBERED.fullmatch(typed)
    if numbered:
        return _with_year(int(numbered[1]), int(numbered[2]), numbered[3], today)
    named = _NAMED.fullmatch(typed)
    if named is None:
        return None
    months = [number for number, name in enumerate(MONTHS, start=1) if named[3].startswith(name.lower())]
    if not months:
        return None
    day = _with_year(int(named[2]), months[0], named[4], today)
    if named[1] and _weekday(named[1]) != day.weekday():
        return Misread(say=f"{day.day} {MONTHS[day.month - 1]} {day.year} is a {_DAY_NAMES[day.weekday()].title()}.")
    return day


def _with_year(day: int, month: int, year: str | None, today: date) -> date:
    if year:
        return date(int(year) if len(year) == 4 else 2000 + int(year), month, day)
    candidates = []
    for near in (today.year - 1, today.year, today.year + 1):
        try:
            candidates.append(date(near, month, day))
        except ValueError:
            continue
    if not candidates:
        raise ValueError(day, month)
    return min(candidates, key=lambda one: abs(one - today))


def read_time(text: str) -> time | Misread:
    """Read a time of day: “9:30”, “09.30”, “9h30”."""
    typed = _TIME.fullmatch(text.strip().lower())
    if typed is None or int(typed[1]) > 23 or int(typed[2]) > 59:
        return Misread(say=f"“{clean(text.strip())[:30]}” is no time of day; write one like 09:30.")
    return time(int(typed[1]), int(typed[2]))


def read_instant(text: str, now: datetime, zone: tzinfo) -> datetime | Misread:
    """Read a moment on the firm's wall clock: “now”, “09:30”, “today 9:30”, “28/11 9.30”.

    A time that the clocks skip in spring is refused; one that comes twice in autumn is the first of the two.
    """
    here = now.astimezone(zone)
    typed = " ".join(text.strip().lower().replace(",", " ").split())
    if typed == "now":
        return here.replace(second=0, microsecond=0)
    if not typed:
        return Misread(say=f"Fill in a moment, like {_INSTANT_EXAMPLE}.")
    words, _, last = typed.rpartition(" ")
    at = read_time(last)
    if isinstance(at, Misread):
        if not isinstance(read_day(typed, here.date(), back=True), Misread):
            return Misread(say=f"Add the time to the day, like {clean(text.strip())[:30]} 9:30.")
        return Misread(say=f"“{clean(text.strip())[:30]}” is no moment; write one like {_INSTANT_EXAMPLE}.")
    day = read_day(words, here.date(), back=True) if words else here.date()
    if isinstance(day, Misread):
        return day
    return _on_the_clock(day, at, zone)


def _on_the_clock(day: date, at: time, zone: tzinfo) -> datetime | Misread:
    moment = datetime.combine(day, at, tzinfo=zone)
    try:
        there_and_back = moment.astimezone(UTC).astimezone(zone)
    except OverflowError:
        return Misread(say=f"That day is too far off; write a moment like {_INSTANT_EXAMPLE}.")
    if there_and_back.replace(tzinfo=None) != moment.replace(tzinfo=None):
        return Misread(say=f"The clocks skip {say_time(at)} on {say_day(day, day)}; write an hour later.")
    return moment


def read_days_of_week(text: str) -> tuple[int, ...] | Misread:
    """Read working days, Monday as 0: “mon-fri”, “mon tue thu”."""
    say = f"“{clean(text.strip())[:30]}” is no list of days; write them like mon-fri, or mon tue thu."
    days: set[int] = set()
    for part in re.split(r"[\s,;]+", re.sub(r"\s*[-–]\s*", "-", text.strip().lower())):
        first, _, last = part.partition("-")
        begin, end = _weekday(first), _weekday(last or first)
        if begin is None or end is None:
            return Misread(say=say)
        days.update((begin + step) % 7 for step in range((end - begin) % 7 + 1))
    return tuple(sorted(days))


def typed_days_of_week(days: tuple[int, ...]) -> str:
    """Return working days as a field is filled with them: “mon tue wed thu fri”."""
    return " ".join(WEEKDAYS[day].lower() for day in days)


def read_days(text: str, today: date) -> tuple[date, ...] | Misread:
    """Read several days, parted by commas or blanks: “25/12/2026, 1/1/2027”."""
    found: set[date] = set()
    for part in (one for one in re.split(r"[\s,;]+", text.strip()) if one):
        day = read_day(part, today)
        if isinstance(day, Misread):
            return day
        found.add(day)
    return tuple(sorted(found))
