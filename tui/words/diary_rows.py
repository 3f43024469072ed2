"""The diary as rows of bars for a board: by person, or by job with the waits of its floors."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from store.desk.diary_cards import DiaryCard, DiaryJob, Placed
from store.trade.bookings import Part
from store.trade.people import PersonDraft
from store.trade.waits import Wait, WaitKind
from tui.words.diary import WAITS, short_ref
from tui.words.wording import clean

_FILLS = {WaitKind.DELIVERY: "·", WaitKind.DRY: "≈", WaitKind.ACCLIMATISE: "░", WaitKind.CURE: "▒"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """Days of a row that belong together; ``fill`` goes on where the words end. A wait has no booking."""

    days: tuple[date, ...]
    words: str
    fill: str = " "
    placed: Placed | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardRow:
    """A person or a job: what it is called, its bars in lanes that do not overlap, and words for single days."""

    key: str
    label: str
    lanes: tuple[tuple[Bar, ...], ...]
    marks: dict[date, str]
    found_by: str


def rows_by_person(card: DiaryCard) -> tuple[BoardRow, ...]:
    """Return a row for each person, with their days off."""
    return tuple(_person_row(card, person) for person in card.people)


def rows_by_job(card: DiaryCard) -> tuple[BoardRow, ...]:
    """Return a row for each open job, and for each job that is closed but booked; its waits come first."""
    open_refs = {job.ref for job in card.jobs}
    others = {one.booking.ref: one.title for one in card.placed if one.booking.ref not in open_refs}
    closed = tuple(
        DiaryJob(ref=ref, title=title, customer="", rooms=(), promised_on=None, waits=())
        for ref, title in others.items()
    )
    return tuple(_job_row(card, job) for job in (*card.jobs, *closed))


def _person_row(card: DiaryCard, person: PersonDraft) -> BoardRow:
    bars = [_booking_bar(one, f"{short_ref(one.booking.ref)} {_place_of(one)}") for one in card.of_person(person.name)]
    marks = {
        day: "off" for off in person.days_off for day in _between(max(off.first, card.first), min(off.last, card.last))
    }
    found_by = " ".join([person.name, *(f"{one.booking.ref} {one.title}" for one in card.of_person(person.name))])
    return BoardRow(key=person.name, label=clean(person.name), lanes=_in_lanes(bars), marks=marks, found_by=found_by)


def _job_row(card: DiaryCard, job: DiaryJob) -> BoardRow:
    waits = [_wait_bar(wait, job, card) for wait in job.waits if wait.last >= card.first and wait.first <= card.last]
    bars = [_booking_bar(one, one.booking.person) for one in card.of_job(job.ref)]
    lanes = _in_lanes([*waits, *bars])
    marks = {job.promised_on: "◆ due"} if job.promised_on else {}
    people = (one.booking.person for one in card.of_job(job.ref))
    found_by = " ".join([job.ref, job.title, job.customer, *people])
    label = f"{short_ref(job.ref)} {clean(job.title)}"
    return BoardRow(key=job.ref, label=label, lanes=lanes, marks=marks, found_by=found_by)


def _place_of(one: Placed) -> str:
    return clean(one.booking.room or one.title)


def _booking_bar(one: Placed, words: str) -> Bar:
    half = {Part.WHOLE: "", Part.MORNING: "½", Part.AFTERNOON: "·½"}[one.booking.part]
    sign = "▲" if one.clashes else ""
    return Bar(days=one.days, words=f"{sign}{half}{clean(words)}", placed=one)


def _wait_bar(wait: Wait, job: DiaryJob, card: DiaryCard) -> Bar:
    room = f" {clean(wait.room)}" if len(job.rooms) > 1 else ""
    days = _between(max(wait.first, card.first), min(wait.last, card.last))
    return Bar(days=tuple(days), words=f"{WAITS[wait.kind]}{room}", fill=_FILLS[wait.kind])


def _between(first: date, last: date) -> list[date]:
    return [first + timedelta(days=ahead) for ahead in range((last - first).days + 1)]


def _in_lanes(bars: Sequence[Bar]) -> tuple[tuple[Bar, ...], ...]:
    """Put bars into as few lanes as hold them without overlapping, the earlier ones first."""
    lanes: list[list[Bar]] = []
    for bar in sorted(bars, key=lambda one: one.days[0]):
        lane = next((lane for lane in lanes if lane[-1].days[-1] < bar.days[0]), None)
        if lane is None:
            lanes.append([bar])
        else:
            lane.append(bar)
    return tuple(tuple(lane) for lane in lanes) or ((),)


def filtered(rows: Iterable[BoardRow], wanted: str) -> tuple[BoardRow, ...]:
    """Return the rows that hold every word that is looked for."""
    words = wanted.casefold().split()
    return tuple(row for row in rows if all(word in row.found_by.casefold() for word in words))
