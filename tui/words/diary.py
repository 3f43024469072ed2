"""The diary in words: who is where, what speaks against it, and what a deed has broken or saved."""

import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, tzinfo

from store.desk.cards import JobCard
from store.desk.diary_cards import Booked, DiaryCard, Placed
from store.trade.bookings import Booking, BookingDraft, Part, days_of, worked_day
from store.trade.clashes import Clash, ClashKind, Told, booked_late, too_soon
from store.trade.diary import day_of, is_worked
from store.trade.firm import FirmDraft
from store.trade.people import PersonDraft
from store.trade.planning.hours import shown_deadline
from store.trade.planning.job_network import JobTimes
from store.trade.waits import WaitKind
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_day, say_instant

PARTS = {Part.WHOLE: "whole days", Part.MORNING: "the morning", Part.AFTERNOON: "the afternoon"}
WAITS = {
    WaitKind.DELIVERY: "delivery",
    WaitKind.DRY: "drying",
    WaitKind.ACCLIMATISE: "acclimatise",
    WaitKind.CURE: "curing",
}
_TAIL = re.compile(r"[A-Za-z]{1,6}[-/ ]+(\S*\d)")
SHORT_PARTS = {Part.WHOLE: "", Part.MORNING: " (morning)", Part.AFTERNOON: " (afternoon)"}


def say_days(booking: BookingDraft, today: date) -> str:
    """Return when a booking is: “Thu 3 to Fri 4 Dec”, in full words."""
    until = "" if booking.first == booking.last else f" to {say_day(booking.last, today)}"
    return f"{say_day(booking.first, today)}{until}{SHORT_PARTS[booking.part]}"


def say_where(booking: Booking, title: str) -> str:
    """Return the job and its room."""
    room = f", {clean(booking.room)}" if booking.room else ""
    return f"{clean(booking.ref)} {clean(title)}{room}"


def say_placed(one: Placed, card: DiaryCard, now: datetime) -> str:
    """Return a booking with everything that speaks against it, in one line."""
    booking = one.booking
    words = f"{clean(booking.person)}, {say_days(booking, card.today)}: {say_where(booking, one.title)}."
    against = " ".join(f"▲ {say_clash(clash, card.today, now, card.firm.zone)}." for clash in one.clashes)
    return f"{words} {against}".strip()


def say_clash(clash: Clash, today: date, now: datetime, zone: tzinfo) -> str:
    """Return what speaks against a booking, without a full stop."""
    on = say_day(clash.on, today) if clash.on else ""
    ready = say_instant(clash.ready_from, now, zone) if clash.ready_from else ""
    return {
        ClashKind.TWICE: f"twice on {on}, also {clean(clash.ref)}",
        ClashKind.AWAY: f"off on {on}" + (f", {clean(clash.reason)}" if clash.reason else ""),
        ClashKind.NOT_WORKED: f"{on} is no working day",
        ClashKind.TOO_SOON: f"{counted(clash.days, 'day')} too soon, ready from {ready}",
        ClashKind.NOT_READY: "the floor is not ready and nobody knows when",
        ClashKind.LATE: f"laid by {on}, it is handed over {counted(clash.days, 'day')} after the day promised",
        ClashKind.NOT_TRAINED: "herringbone is not on their card",
        ClashKind.NOT_ON_FILE: "works for the firm no longer",
    }[clash.kind]


def say_booked(what: str, booked: Booked, today: date, now: datetime, zone: tzinfo) -> str:
    """Return what a deed has done, and at once what it breaks and saves, in one line."""
    booking = booked.bookings[-1]
    words = f"{what}: {clean(booking.person)}, {say_days(booking, today)}, {clean(booking.ref)}."
    breaks = _each(booked.breaks, booking, today, now, zone)
    saves = _each(booked.saves, booking, today, now, zone)
    if breaks:
        words += f" ▲ Breaks: {'; '.join(breaks)}."
    if saves:
        words += f" ✓ Saves: {'; '.join(saves)}."
    return words if breaks or saves else f"{words} Nothing speaks against it."


def say_taken_up(booked: Booked, today: date, now: datetime, zone: tzinfo) -> str:
    """Return what a plan that was taken up has booked, and what it breaks and saves, in one line."""
    words = f"{counted(len(booked.bookings), 'booking')} taken up from the plan; u turns them back."
    breaks = [f"{clean(one.booking.ref)} {say_clash(one.clash, today, now, zone)}" for one in booked.breaks]
    saves = [f"{clean(one.booking.ref)} {say_clash(one.clash, today, now, zone)}" for one in booked.saves]
    if breaks:
        words += f" ▲ Breaks: {'; '.join(breaks)}."
    return f"{words} ✓ Saves: {'; '.join(saves)}." if saves else words


def _each(told: Sequence[Told], booking: Booking, today: date, now: datetime, zone: tzinfo) -> list[str]:
    own = [one for one in told if one.booking.id == booking.id]
    # What two bookings do to each other is said once, from the one that was touched.
    others = [
        one for one in told if one.booking.id != booking.id and (not own or one.clash.kind is not ClashKind.TWICE)
    ]
    said = [say_clash(one.clash, today, now, zone) for one in own]
    said += [f"{clean(one.booking.ref)} {say_clash(one.clash, today, now, zone)}" for one in others]
    return list(dict.fromkeys(said))


def say_who_comes(card: JobCard, firm: FirmDraft, now: datetime) -> str:
    """Return who is on a job today, or comes next and when, and whether that is before its floor is ready.

    Nothing where nobody is booked from today on. “Maren Holt and Tove Ruud come Mon 30 Nov”.
    """
    today, facts = day_of(firm, now), card.facts
    ahead = [(day, one) for one in facts.bookings for day in days_of(firm, one) if day >= today]
    if not ahead:
        return ""
    day = min(first for first, _ in ahead)
    coming = [one for first, one in ahead if first == day]
    names = dict.fromkeys(clean(one.person) + SHORT_PARTS[one.part] for one in coming)
    words = f"{' and '.join(names)} {'comes' if len(names) == 1 else 'come'} {_on(day, today)}"
    clashes = [too_soon(firm, facts, card.standing, one, today) for one in coming]
    against = dict.fromkeys(say_clash(one, today, now, firm.zone) for one in clashes if one is not None)
    return f"{words}, ▲ {'; '.join(against)}" if against else words


def say_booked_late(card: JobCard, times: JobTimes | None, firm: FirmDraft, now: datetime) -> Iterator[str]:
    """Yield which bookings end too late for the promised day, and by when the floor must be laid to keep it."""
    today, facts = day_of(firm, now), card.facts
    for one in facts.bookings:
        clash = booked_late(firm, facts, one, today)
        if clash is None:
            continue
        by = times.laid_by(one.room) if times is not None else None
        what = the_room(one.room) if one.room else "the floor"
        lay = f"Lay {what} by {say_instant(shown_deadline(by), now, firm.zone)} to keep the promise; " if by else ""
        late = f"then it is handed over {counted(clash.days, 'day')} late"
        yield f"{lay}{clean(one.person)} is booked to {say_day(one.last, today)}: {late}."


def say_team(cards: Iterable[JobCard], people: Sequence[PersonDraft], firm: FirmDraft, now: datetime) -> str:
    """Return where everybody is today, else on the next day that is worked; nothing where nobody is booked then.

    “Today: Maren Holt 0141, Nils Aaker 0150, Tove Ruud free”. Whoever comes before the floor is ready is marked.
    """
    today = day_of(firm, now)
    booked = [(card, one) for card in cards for one in card.facts.bookings if not one.cancelled]
    # A Saturday that somebody is booked for is a day of work, to whoever it is booked for.
    works = is_worked(firm, today) or any(today in days_of(firm, one) for _, one in booked)
    day = today if works else worked_day(firm, today, 1)
    there: dict[str, list[str]] = {}
    for card, one in booked:
        if day in days_of(firm, one):
            early = " ▲ not ready" if too_soon(firm, card.facts, card.standing, one, day) else ""
            there.setdefault(one.person, []).append(f"{short_ref(one.ref)}{SHORT_PARTS[one.part]}{early}")
    if not there:
        return ""
    off = {one.name for one in people if one.away_on(day) is not None}
    names = dict.fromkeys([*(one.name for one in people), *there])
    told = [
        f"{clean(name)} {' and '.join(there.get(name, [])) or ('off' if name in off else 'free')}" for name in names
    ]
    return f"{'Today' if day == today else f'No work today. {say_day(day, today)}'}: {', '.join(told)}"


def short_ref(ref: str) -> str:
    """Return a reference without the letters before its number, which the firm's own people know.

    >>> short_ref("GQ-0141"), short_ref("Annex")
    ('0141', 'Annex')
    """
    match = _TAIL.fullmatch(ref)
    return match[1] if match else clean(ref)


def _on(day: date, today: date) -> str:
    return "today" if day == today else say_day(day, today)
