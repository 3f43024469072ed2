"""What if in words: what is supposed, what would follow from it, and what another plan could do."""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, tzinfo

from store.trade.bookings import Booking
from store.trade.clashes import Told
from store.trade.facts import JobFacts
from store.trade.people import DaysOff
from store.trade.planning.consequences import Consequences, DaysLost, End, EndMoves
from store.trade.planning.nouns import Proposal
from store.trade.planning.situation import Situation
from store.trade.planning.suppose import (
    FloorLater,
    OrderComes,
    PromiseMoves,
    SomebodyAway,
    Supposition,
    owed_orders,
)
from tui.words.diary import say_clash, say_days
from tui.words.units import say_units
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_day, upper


def say_supposition(one: Supposition, situation: Situation) -> str:
    """Return what is supposed: “12 packs of OAK-190 for GQ-0143 come Mon 7 Dec instead of Mon 30 Nov”."""
    today = situation.today
    if isinstance(one, SomebodyAway):
        return f"{clean(one.person)} is away {_say_off(one.days, today)}"
    ref, facts = clean(one.ref), situation.job(one.ref)
    if isinstance(one, OrderComes):
        what = say_owed(facts, one.order) if facts else ""
        return f"{what or 'What is ordered'} for {ref}: here {say_day(one.due_on, today)}{_instead(one.was, today)}"
    if isinstance(one, PromiseMoves):
        return f"{ref} is promised for {say_day(one.on, today)}{_instead(one.was, today)}"
    if isinstance(one, FloorLater):
        return f"Nothing can be laid in {the_room(one.room)} of {ref} before {say_day(one.on, today)}"
    return f"The screed in {the_room(one.room)} of {ref} is damp until {say_day(one.on, today)}"


def say_owed(facts: JobFacts, order: int) -> str:
    """Return what an order still owes: “12 packs of OAK-190 and 2 tubs of MS-15”; nothing where it owes nothing."""
    owed = [(one.packs, code) for one, code in owed_orders(facts) if one.order.id == order]
    parts = [f"{say_units(facts.products[code].thing, packs)} of {clean(code)}" for packs, code in owed]
    return " and ".join(parts)


def say_what_follows(found: Consequences, situation: Situation, zone: tzinfo) -> Iterator[str]:
    """Yield what would follow, a sentence for each promise, for days lost, and for each clash that comes or goes."""
    today, now = situation.today, situation.now
    if not (found.ends or found.lost or found.brings or found.takes_away):
        yield "✓ No promise and no booking is touched by this."
    for end in sorted(found.ends, key=lambda one: -_days_late(one.will_be)):
        yield _say_end(end, today)
    for lost in found.lost:
        yield _say_lost(lost, today)
    for told in found.brings:
        yield f"▲ {_say_told(told, today, now, zone)}."
    for told in found.takes_away:
        yield f"✓ No longer so: {_say_told(told, today, now, zone)}."


def say_another_plan(was: Proposal, plan: Proposal, moves: Sequence[EndMoves], today: date) -> Iterator[str]:
    """Yield what a new plan could do about it, as against the best plan for how things stand now."""
    words = f"{counted(plan.days_late, 'day') if plan.days_late else 'no day'} late in all"
    if plan.days_late != was.days_late:
        words += f" instead of {was.days_late or 'none'}"
    looking = "" if plan.done >= 1 else f" Still looking, {100 * plan.done:.0f} %."
    would = f"{counted(plan.changes, 'booking')} would move"
    yield f"{'▲' if plan.days_late else '✓'} A new plan could do this: {words}; {would}.{looking}"
    for one in sorted(moves, key=lambda move: -_days_late(move.will_be)):
        if _days_late(one.was) != _days_late(one.will_be) or one.will_be is None:
            yield f"  {_sign(one)} {clean(one.ref)} {clean(one.title)}: {_by_plan(one, today)}."
    for reason in plan.unplaced:
        yield f"  ▲ {clean(reason.floor.job)} {clean(reason.floor.room)}: nobody can lay it."


def _say_off(days: DaysOff, today: date) -> str:
    until = "" if days.first == days.last else f" to {say_day(days.last, today)}"
    reason = f" ({clean(days.reason)})" if days.reason else ""
    return f"{say_day(days.first, today)}{until}{reason}"


def _instead(was: date | None, today: date) -> str:
    return f" instead of {say_day(was, today)}" if was else ""


def _days_late(end: End | None) -> int:
    return end.days_late if end else 0


def _sign(end: EndMoves) -> str:
    return "▲" if _days_late(end.will_be) > _days_late(end.was) else "✓"


def _say_end(one: EndMoves, today: date) -> str:
    """“▲ GQ-0143 Gallery: handed over Fri 18 Dec at the earliest instead of …; promised for …: 3 days late …”."""
    name = f"{clean(one.ref)} {clean(one.title)}".strip()
    was, will_be = one.was, one.will_be
    if will_be is None:
        return f"▲ {name}: no day can be told for its handover."
    words = f"handed over {say_day(will_be.handover_on, today)} at the earliest"
    if was is not None and was.handover_on != will_be.handover_on:
        words += f" instead of {say_day(was.handover_on, today)}"
    if will_be.promised_on is None:
        return f"{_sign(one)} {name}: {words}; no day is promised."
    return f"{_sign(one)} {name}: {words}; promised for {say_day(will_be.promised_on, today)}: {_as_against(one)}."


def _as_against(one: EndMoves) -> str:
    """“3 days late instead of in time”, “still in time”, “still 2 days late”."""
    was, will_be = _days_late(one.was), _days_late(one.will_be)
    if was == will_be:
        return f"still {_say_late(was)}"
    return f"{_say_late(will_be)} instead of {was if was and will_be else _say_late(was)}"


def _by_plan(one: EndMoves, today: date) -> str:
    if one.will_be is None:
        return "no day for all its floors"
    return f"{_as_against(one)}, handed over {say_day(one.will_be.handover_on, today)}"


def _say_late(days: int) -> str:
    return f"{counted(days, 'day')} late" if days else "in time"


def _say_lost(lost: DaysLost, today: date) -> str:
    one = lost.booking
    days = (
        " and ".join(say_day(day, today) for day in lost.days)
        if len(lost.days) <= 2
        else f"{say_day(lost.days[0], today)} to {say_day(lost.days[-1], today)}"
    )
    then = "has nobody then" if lost.nobody_else else "has somebody else there"
    return f"{'▲' if lost.nobody_else else '✓'} {clean(one.person)} is not there {days}: {_say_floor(one)} {then}."


def _say_floor(one: Booking) -> str:
    return f"{clean(one.ref)} {clean(one.room)}".strip()


def _say_told(told: Told, today: date, now: datetime, zone: tzinfo) -> str:
    one = told.booking
    who = f"{clean(one.person)}, {say_days(one, today)}, on {_say_floor(one)}"
    return upper(f"{who}: {say_clash(told.clash, today, now, zone)}")
