"""The words for the firm's settings, for its copies, and for what a look at the records found."""

from datetime import date, datetime

from store.desk.cards import Finding, RecordsCard
from store.trade.firm import ClockForm, Firm
from store.trade.holiday_reach import Reach, reach_of
from tui.words.limits import say_own_limit
from tui.words.products import Fact
from tui.words.vocabulary import CLOCK_FORMS, TRADITIONS
from tui.words.wording import WEEKDAYS, clean, counted, figure, say_day, say_hours, say_instant, say_range, say_time

COPY_IS_OLD_DAYS = 7
_HOLIDAYS_SHOWN = 4
_FINDINGS = {
    "file": "The file",
    "references": "References",
    "tables": "Tables",
    "history": "The history",
    "rights": "Rights",
    "ledger": "The packs",
    "closings": "Closed jobs",
    "lessons": "Lessons",
}


def say_days_of_week(days: tuple[int, ...]) -> str:
    """Return working days in words, runs of three or more drawn together.

    >>> say_days_of_week((0, 1, 2, 3, 4)), say_days_of_week((1, 3, 5))
    ('Mon to Fri', 'Tue, Thu, Sat')
    """
    ordered = sorted(set(days))
    if len(ordered) > 2 and ordered == list(range(ordered[0], ordered[-1] + 1)):
        return f"{WEEKDAYS[ordered[0]]} to {WEEKDAYS[ordered[-1]]}"
    return ", ".join(WEEKDAYS[day] for day in ordered)


def settings_of(firm: Firm, now: datetime) -> list[Fact]:
    """Return the firm's settings, a fact for each line."""
    today = now.astimezone(firm.zone).date()
    wait = CLOCK_FORMS[firm.clock_form]
    if firm.clock_form is ClockForm.STRICT_LOG:
        wait += f", at most {say_hours(firm.log_gap_hours)} apart"
    return [
        ("Working days", say_days_of_week(firm.working_days)),
        ("Working hours", f"{say_time(firm.day_starts)} to {say_time(firm.day_ends)}"),
        ("Holidays", say_holidays(firm.holidays, today)),
        ("Time zone", clean(firm.time_zone)),
        ("Money", clean(firm.currency)),
        ("Room air", f"{say_range(firm.climate)}, if the maker says nothing else"),
        ("The wait", wait),
        ("Flatness", f"at most {figure(firm.flat_limit_mm)} mm under 2 m"),
        ("A reading", f"stays good for {counted(firm.reading_good_days, 'day')}"),
        ("Moisture", f"{TRADITIONS[firm.tradition]} limits, if no sheet says else"),
        *(("Own limit", say_own_limit(own)) for own in firm.own_limits),
        *([("Tests", "as many as the area asks for must be on file")] if firm.tests_by_area else []),
    ]


def say_holidays(holidays: tuple[date, ...], today: date) -> str:
    """Return the next holidays of the firm, and what is wanting where they do not reach to the end of next year.

    >>> say_holidays((date(2026, 12, 25),), date(2026, 11, 25))
    'Fri 25 Dec. ▲ None is on file for 2027 yet; h fills in the public ones'
    """
    ahead = [say_day(day, today) for day in sorted(holidays) if day >= today]
    words = ", ".join(ahead[:_HOLIDAYS_SHOWN])
    if len(ahead) > _HOLIDAYS_SHOWN:
        words += f" and {len(ahead) - _HOLIDAYS_SHOWN:,} more until {ahead[-1]}"
    reach = reach_of(holidays, today)
    if reach is Reach.NONE:
        return "▲ none is on file; h fills in the public ones"
    if reach is Reach.OVER:
        return f"▲ the last on file, {say_day(max(holidays), today)}, is over; h fills in the next ones"
    if reach is Reach.NONE_NEXT_YEAR:
        return f"{words}. ▲ None is on file for {today.year + 1} yet; h fills in the public ones"
    return words


def say_size(size_bytes: int) -> str:
    """Return the size of a file: “236 kB”, “1.4 MB”.

    >>> say_size(900), say_size(241_664), say_size(1_400_000)
    ('900 bytes', '242 kB', '1.4 MB')
    """
    if size_bytes < 1_000:
        return f"{size_bytes} bytes"
    if size_bytes < 1_000_000:
        return f"{size_bytes / 1_000:.0f} kB"
    return f"{size_bytes / 1_000_000:,.1f} MB"


def records_of(card: RecordsCard, firm: Firm, now: datetime) -> list[Fact]:
    """Return where the records lie, their size and their newest copy, a fact for each line."""
    hand_on = ("To hand on", "j writes out every job's folder")
    facts = [("File", clean(str(card.path))), ("Size", say_size(card.size_bytes))]
    if card.last_copy is None or card.copy_days is None:
        return [*facts, ("Last copy", "▲ none yet; b makes one"), hand_on]
    when = say_instant(card.last_copy.at, now, firm.zone)
    if card.copy_days > COPY_IS_OLD_DAYS:
        when = f"▲ {when}, {counted(card.copy_days, 'day')} old; b makes one"
    where = ("It lies in", clean(str(card.last_copy.path)))
    return [*facts, ("Last copy", when), where, ("Copies", f"{card.copies:,} kept"), hand_on]


def say_findings(findings: tuple[Finding, ...]) -> list[Fact]:
    """Return what a look at the records found, a fact for each thing looked at; what is not in order comes first."""
    wrong_first = sorted(findings, key=lambda one: one.good)
    return [
        (_FINDINGS.get(one.what, clean(one.what)), f"{'✓' if one.good else '✗'} {clean(one.say)}")
        for one in wrong_first
    ]


def sum_up(findings: tuple[Finding, ...]) -> str:
    """Return in one sentence whether everything was in order."""
    wrong = sum(not one.good for one in findings)
    return f"{counted(wrong, 'thing')} not in order." if wrong else "Everything is in order."
