"""The answers about the diary: a week as a sheet that can be printed, and the same for scripts."""

import textwrap
from collections.abc import Iterator
from datetime import datetime, timedelta

from store.desk.diary_cards import DiaryCard, Placed
from tui.command.answers import Json, instant
from tui.words.diary import SHORT_PARTS, say_clash, say_where
from tui.words.people import say_days_off
from tui.words.wording import clean, say_day

COLUMNS = 80


def week_text(card: DiaryCard, now: datetime) -> str:
    """Return a week day by day: who is where, who is off, and what speaks against a booking on its first day."""
    week = card.first.isocalendar()
    span = f"{say_day(card.first, card.today)} to {say_day(card.last, card.today)}"
    lines = [f"{clean(card.firm.name)}, week {week.week} of {week.year}: {span}"]
    wide = min(max((len(clean(person.name)) for person in card.people), default=0), 24)
    for ahead in range((card.last - card.first).days + 1):
        mine = list(_day_lines(card, ahead, wide, now))
        if mine:
            lines += ["", say_day(card.first + timedelta(days=ahead), card.today), *mine]
    if not card.people:
        lines += ["", "Nobody is on file yet. Open Layday, press 5 and then n to add somebody."]
    elif len(lines) == 1:
        lines += ["", "Nobody is booked in this week. Open Layday, press 7 and then b to book somebody."]
    return "\n".join(lines) + "\n"


def _day_lines(card: DiaryCard, ahead: int, wide: int, now: datetime) -> Iterator[str]:
    day = card.first + timedelta(days=ahead)
    for person in card.people:
        told = [one for one in card.of_person(person.name) if day in one.days]
        name = clean(person.name).ljust(wide)
        for one in told:
            yield from _wrapped(name, f"{say_where(one.booking, one.title)}{SHORT_PARTS[one.booking.part]}", wide)
            if day == max(one.days[0], card.first):
                for clash in one.clashes:
                    yield from _wrapped("", f"▲ {say_clash(clash, card.today, now, card.firm.zone)}", wide)
        off = person.away_on(day)
        if off is not None:
            yield from _wrapped(name, f"off: {say_days_off(off, card.today)}", wide)


def _wrapped(name: str, words: str, wide: int) -> list[str]:
    indent = " " * (wide + 4)
    first = f"  {name.ljust(wide)}  "
    return textwrap.wrap(words, COLUMNS, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False)


def week_answer(card: DiaryCard, now: datetime) -> Json:
    """Return the answer of ``layday diary``."""
    week = card.first.isocalendar()
    return {
        "at": instant(now, card.firm),
        "week": f"{week.year:04}-W{week.week:02}",
        "from": card.first.isoformat(),
        "to": card.last.isoformat(),
        "people": [
            {
                "name": person.name,
                "off": [
                    {"from": one.first.isoformat(), "to": one.last.isoformat(), "reason": one.reason}
                    for one in person.days_off
                    if one.last >= card.first and one.first <= card.last
                ],
            }
            for person in card.people
        ],
        "bookings": [_booking(one, card, now) for one in card.placed],
    }


def _booking(one: Placed, card: DiaryCard, now: datetime) -> Json:
    booking = one.booking
    return {
        "person": booking.person,
        "ref": booking.ref,
        "title": one.title,
        "room": booking.room or None,
        "from": booking.first.isoformat(),
        "to": booking.last.isoformat(),
        "part": booking.part.value,
        "days": [day.isoformat() for day in one.days],
        "mark": booking.mark,
        "changes": booking.changes,
        "clashes": [
            {
                "kind": clash.kind.value,
                "on": clash.on.isoformat() if clash.on else None,
                "days": clash.days,
                "ref": clash.ref or None,
                "ready_from": instant(clash.ready_from, card.firm),
                "say": say_clash(clash, card.today, now, card.firm.zone),
            }
            for clash in one.clashes
        ],
    }
