"""The words of the day's list: its parts, the one fact of each job that matters now, and what to do next."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from store.desk.cards import JobCard, Slot
from store.trade.clashes import booked_late
from store.trade.diary import day_of
from store.trade.firm import FirmDraft
from store.trade.jobs import JobDraft
from store.trade.planning.job_network import JobTimes
from store.trade.verdict import DeedKind, HoldKind, HoldState, NextDeed
from tui.words.standing import say_verdict
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_day, say_hours, say_instant, say_packs, say_time


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A part of the day's list: its short word and sign, how jobs in it are counted, and the tone of its colour."""

    word: str
    sign: str
    counted: str
    tone: str


PARTS = {
    Slot.LAY: Part(word="Lay", sign="●", counted="can be laid", tone="ok"),
    Slot.TO_DO: Part(word="To do", sign="▲", counted="to do", tone="warn"),
    Slot.WAITING: Part(word="Wait", sign="◐", counted="waiting", tone="wait"),
    Slot.CURING: Part(word="Cure", sign="○", counted="curing", tone="wait"),
    Slot.CLOSE_OUT: Part(word="Close", sign="■", counted="to close out", tone="accent"),
    Slot.CLOSED: Part(word="Past", sign="✓", counted="closed", tone="muted"),
}


def say_signs() -> str:
    """Return what each sign of the list means: “● can be laid, ▲ to do …”."""
    return ", ".join(f"{part.sign} {part.counted}" for part in PARTS.values())


def count_parts(cards: Sequence[JobCard]) -> tuple[tuple[Part, int], ...]:
    """Return each part of the day's list with its number of jobs; whether one can be laid is always said."""
    slots = [card.slot for card in cards]
    return tuple((part, slots.count(slot)) for slot, part in PARTS.items() if slot in slots or slot is Slot.LAY)


def say_briefly(deed: NextDeed, now: datetime, zone: tzinfo) -> tuple[str, ...]:
    """Return one thing to do in a few words, as parts: “Carry 12 packs in: Hall”, “Damp test from Thu 17 Dec”."""
    if deed.not_before is None or deed.not_before <= now:
        return (_BRIEF[deed.kind](deed),)
    words = "Damp test" if deed.kind is DeedKind.TEST_DAMP else _BRIEF[deed.kind](deed)
    day, today = deed.not_before.astimezone(zone).date(), now.astimezone(zone).date()
    return (f"{words} from {say_day(day, today)}", *([clean(deed.room)] if deed.room else []))


def fact_of(card: JobCard, firm: FirmDraft, now: datetime, times: JobTimes | None = None) -> tuple[str, ...]:
    """Return the fact that matters about a job now, as parts of falling weight: a narrow list shows the first.

    ``times`` tell whether the promised day will be missed, and by when a board is to be ordered or a floor laid. A
    promise that is over is “late”; one that will be missed as things stand, also because a booking ends too late for
    it, “slips”.
    """
    first, *others = _WEIGHTY[card.slot](card, firm, now)
    today = now.astimezone(firm.zone).date()
    promise = "late" if days_late(card.facts.job, today) else "slips" if _slips(card, firm, today, times) else ""
    return (f"{first} · {promise}" if promise else first, *_by_when(card, firm, today, times), *others)


def _slips(card: JobCard, firm: FirmDraft, today: date, times: JobTimes | None) -> bool:
    """Whether the promised day will be missed, as things stand."""
    if times is not None and times.days_late:
        return True
    return any(booked_late(firm, card.facts, one, today) for one in card.facts.bookings)


def _by_when(card: JobCard, firm: FirmDraft, today: date, times: JobTimes | None) -> Iterator[str]:
    """By when the first thing to do must be done for the promised day, where that is an order or a floor to lay."""
    deed = next(iter(card.standing.to_do), None)
    if times is None or deed is None:
        return
    if deed.kind is DeedKind.ORDER:
        yield from (f"by {say_day(one.order_by, today)}" for one in times.boards if one.order_by)
    elif deed.kind in {DeedKind.LAY, DeedKind.FINISH_LAYING} and (by := times.laid_by(deed.room)) is not None:
        yield f"by {say_day(day_of(firm, by), today)}"


def days_late(job: JobDraft, today: date) -> int:
    """Return by how many days the promised day is over; 0 if it is not, or none was promised."""
    return max((today - job.promised_on).days, 0) if job.promised_on else 0


def say_promised(job: JobDraft, today: date) -> str:
    """Return the promised day, and in words if it is over; empty if none was promised."""
    if job.promised_on is None:
        return ""
    return f"{say_day(job.promised_on, today)}{', late' if days_late(job, today) else ''}"


def _deeds(card: JobCard, firm: FirmDraft, now: datetime) -> tuple[str, ...]:
    deeds = card.standing.to_do
    if not deeds:
        return (say_verdict(card.standing, firm, now).rstrip(".") or "Nothing to do now",)
    more = (f"{len(deeds) - 1} more",) if len(deeds) > 1 else ()
    return (*say_briefly(deeds[0], now, firm.zone), *more)


def _wait(card: JobCard, firm: FirmDraft, now: datetime) -> tuple[str, ...]:
    standing = card.standing
    if standing.to_do:
        return _deeds(card, firm, now)
    ready = f"Ready {say_instant(standing.ready_from, now, firm.zone)}" if standing.ready_from else "Waiting"
    due = [one.due_on for one in standing.holds if one.kind is HoldKind.PACKS and one.state is HoldState.WAITING]
    known = [day for day in due if day is not None]
    if known:
        return (ready, f"due {say_day(max(known), now.astimezone(firm.zone).date())}")
    open_clocks = [clock for clock in standing.clocks if clock.ready_at is None or clock.ready_at > now]
    if not open_clocks:
        return (ready,)
    last = min(open_clocks, key=lambda clock: clock.hours_counted - clock.hours_needed)
    return (ready, f"{say_hours(last.hours_counted)} of {say_hours(last.hours_needed)}")


def _cure(card: JobCard, firm: FirmDraft, now: datetime) -> tuple[str, ...]:
    windows = card.standing.windows
    parts = [
        f"{word} {_say_soon(at, now, firm.zone)}"
        for word, at in (("walk on", windows.walk_on), ("load", windows.full_load))
        if at is not None and at > now
    ]
    if not parts:
        return _deeds(card, firm, now)
    return (parts[0][:1].upper() + parts[0][1:], *parts[1:])


def _say_soon(at: datetime, now: datetime, zone: tzinfo) -> str:
    here = at.astimezone(zone)
    if here.date() == now.astimezone(zone).date():
        return f"today {say_time(here.time())}"
    return say_instant(at, now, zone)


_WEIGHTY: dict[Slot, Callable[[JobCard, FirmDraft, datetime], tuple[str, ...]]] = {
    Slot.LAY: _deeds,
    Slot.TO_DO: _deeds,
    Slot.WAITING: _wait,
    Slot.CURING: _cure,
    Slot.CLOSE_OUT: _deeds,
    Slot.CLOSED: lambda card, firm, now: ("Closed",),
}


def _about(verb: str) -> Callable[[NextDeed], str]:
    def say(deed: NextDeed) -> str:
        about = deed.room or deed.product
        return f"{verb}: {clean(about)}" if about else verb

    return say


def _tubs(verb: str) -> Callable[[NextDeed], str]:
    def say(deed: NextDeed) -> str:
        many = counted(deed.packs, "tub") if deed.packs is not None else "tubs"
        return f"{verb} {many} {clean(deed.product)}".rstrip()

    return say


def _packs(verb: str) -> Callable[[NextDeed], str]:
    def say(deed: NextDeed) -> str:
        many = say_packs(deed.packs) if deed.packs is not None else "packs"
        return f"{verb} {many} {clean(deed.room or deed.product)}".rstrip()

    return say


_BRIEF: dict[DeedKind, Callable[[NextDeed], str]] = {
    DeedKind.MEASURE: lambda d: f"Measure {the_room(d.room)}" if d.room else "Measure the rooms",
    DeedKind.ORDER: _packs("Order"),
    DeedKind.CHASE: _packs("Chase"),
    DeedKind.CHASE_GLUE: _tubs("Chase"),
    DeedKind.TAKE_IN: _packs("Take in"),
    DeedKind.CARRY_IN: lambda d: f"{_packs('Carry')(NextDeed(kind=d.kind, packs=d.packs))} in: {clean(d.room)}",
    DeedKind.READ_AIR: _about("Read the air"),
    DeedKind.PUT_AIR_RIGHT: _about("Put the air right"),
    DeedKind.TEST_DAMP: _about("Test for moisture"),
    DeedKind.CHECK_FLAT: _about("Check with straightedge"),
    DeedKind.LEVEL: _about("Level the subfloor"),
    DeedKind.READ_BOARDS: _about("Read the boards"),
    DeedKind.SAMPLE_OLD_FLOOR: _about("Leave alone, sample"),
    DeedKind.CALL_LICENSED: _about("Asbestos, call licensed"),
    DeedKind.PROVE_HEATING: _about("Prove the heating"),
    DeedKind.TURN_HEATING_DOWN: _about("Turn the heating off"),
    DeedKind.ORDER_GLUE: _tubs("Order"),
    DeedKind.TRAIN: _about("Training for"),
    DeedKind.LAY: _about("Lay"),
    DeedKind.FINISH_LAYING: lambda d: f"Finish {clean(d.room)}",
    DeedKind.NAME_GLUE: _about("Name the glue"),
    DeedKind.COUNT: lambda d: f"Count {clean(d.product)}".rstrip(),
    DeedKind.SIGN: lambda d: "Have it signed",
    DeedKind.MEND: _about("Put the snag right"),
}
