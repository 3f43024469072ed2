"""The answers as plain text that reads well at 80 columns, in a pipe, and aloud."""

import re
import textwrap
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime

from store.desk.cards import Finding, JobCard, Slot
from store.trade.buying.nouns import Buying
from store.trade.counts import Reckoning
from store.trade.firm import Firm
from store.trade.lasting import Lasting
from store.trade.planning.job_network import JobTimes
from store.trade.taught.hints import Hint
from store.trade.verdict import HoldState, PackTally, Stage
from tui.typed.wall_clock import WallClock
from tui.words.buying import buying_lines
from tui.words.deeds import say_deed
from tui.words.diary import say_booked_late, say_days, say_who_comes
from tui.words.holds import say_hold
from tui.words.lasting import say_lasting, say_pace
from tui.words.plans import say_need, say_plan
from tui.words.stairs import stairs_lines_of
from tui.words.standing import say_clock, say_stack, say_verdict, say_windows
from tui.words.suppliers import say_credit
from tui.words.taught import say_hint
from tui.words.times import say_times
from tui.words.vocabulary import HOLD_KINDS, HOLD_STATES, METHODS, STAGES, SUBFLOORS
from tui.words.wording import clean, figure, say_area, say_day, say_instant, say_money, say_now, say_packs

COLUMNS = 80
_UNIT_AFTER_FIGURE = re.compile(r"(\d) (?=%|h\b|mm\b|m²|°C|packs?\b|boards?\b)")
SLOT_TITLES = {
    Slot.LAY: "Can be laid today",
    Slot.TO_DO: "To do",
    Slot.WAITING: "Waiting",
    Slot.CURING: "Curing",
    Slot.CLOSE_OUT: "To close out",
    Slot.CLOSED: "Closed",
}


def day_text(cards: tuple[JobCard, ...], firm: Firm, now: datetime) -> str:
    """Return the day's list: every open job under the part of the day it belongs to."""
    lines = [f"{clean(firm.name)}, {say_now(now, firm.zone)}"]
    if not cards:
        lines += ["", "No open job is on file. Open Layday and press n to take one on."]
    for slot in Slot:
        mine = [card for card in cards if card.slot is slot]
        if mine:
            lines += ["", SLOT_TITLES[slot]]
            for card in mine:
                lines += _in_list(card, firm, now)
    return "\n".join(lines) + "\n"


def _in_list(card: JobCard, firm: Firm, now: datetime) -> Iterator[str]:
    job = card.facts.job
    yield from wrapped(f"{clean(job.ref)}  {clean(job.title)}, {clean(job.customer.name)}", "  ", "    ")
    promised = f" Promised for {_say_day(card, firm, now)}." if job.promised_on else ""
    verdict = say_verdict(card.standing, firm, now) or say_windows(card.standing.windows, firm, now)
    yield from wrapped(f"Stage: {STAGES[card.standing.stage]}. {verdict}{promised}", "    ", "    ")
    who = say_who_comes(card, firm, now)
    if who:
        yield from wrapped(f"{who}.", "    ", "    ")
    for say in say_booked_late(card, None, firm, now):
        yield from wrapped(f"▲ {say}", "    ", "    ")
    for deed in card.standing.to_do:
        yield from wrapped(f"- {say_deed(deed, now, firm.zone)}", "    ", "      ")
    waits = [hold for hold in card.standing.holds if hold.state is HoldState.WAITING and hold.clears_at]
    for say in dict.fromkeys(say_hold(hold, card.facts, firm, now) for hold in waits):
        yield from wrapped(f"- {say}", "    ", "      ")


def _say_day(card: JobCard, firm: Firm, now: datetime) -> str:
    promised = card.facts.job.promised_on
    return say_day(promised, now.astimezone(firm.zone).date()) if promised else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What is told of a job beside its card: its days, what to buy, what is left on site, what closed jobs say."""

    times: JobTimes | None
    buying: Buying
    lasting: Lasting
    hints: tuple[Hint, ...]


def job_text(card: JobCard, beside: Beside, firm: Firm, now: datetime) -> str:
    """Return one job whole."""
    job = card.facts.job
    lines = [
        *wrapped(f"{clean(job.ref)}  {clean(job.title)}", "", "  "),
        *wrapped(_contact(card), "", "  "),
        *wrapped(f"Stage: {STAGES[card.standing.stage]}. {say_verdict(card.standing, firm, now)}", "", "  "),
    ]
    if job.promised_on:
        lines.append(f"Promised for {_say_day(card, firm, now)}.")
    lines += section("To do", (say_deed(deed, now, firm.zone) for deed in card.standing.to_do))
    today = now.astimezone(firm.zone).date()
    booked = (
        f"{clean(one.person)}: {say_days(one, today)}{f', {clean(one.room)}' if one.room else ''}"
        for one in sorted(card.facts.bookings, key=lambda one: (one.first, one.id))
    )
    lines += section("Booked", booked)
    lines += section("Rooms", _rooms(card))
    lines += section("Stairs", stairs_lines_of(card.facts.flights))
    plans = [say_plan(plan) for plan in card.plans]
    lines += section(
        "Lay plans", plans + [say_need(need) for need in card.standing.needs if need.by_plan or need.pattern_boards]
    )
    lines += section("What stands in the way, and what does not", _holds(card, firm, now))
    stacks = (f"{say_stack(clock)}: {say_clock(clock, firm, now)}" for clock in card.standing.clocks)
    if card.standing.verdict is not None:
        lines += section("Acclimatising", stacks)
    if beside.times is not None:
        lines += section("Times, for planning", say_times(beside.times, card.facts, WallClock(now=now, zone=firm.zone)))
    lines += section("Packs", (_tally(tally) for tally in card.standing.packs))
    lines += section("Will it last? Left on site against what is to go", _lasting(beside.lasting))
    lines += section("What closed jobs say to the order", (say_hint(hint) for hint in beside.hints))
    if card.standing.stage is not Stage.CLOSED:
        lines += section("To buy for the whole job", buying_lines(beside.buying, card.facts, firm.currency))
    if card.standing.verdict is None and card.facts.rooms:
        lines += section("After laying", [say_windows(card.standing.windows, firm, now)])
    counted = [sums for sums in card.reckoning if sums.counted]
    lines += section("Close-out", (line for sums in counted for line in reckoning_lines(card, sums, firm, now)))
    lines += section("Snags", (_snag(card, index, firm, now) for index in range(len(card.facts.snags))))
    notes = (f"{say_instant(note.at, now, firm.zone)}: {clean(note.text)}" for note in card.facts.notes)
    lines += section("Notes", notes)
    return "\n".join(lines) + "\n"


def _lasting(lasting: Lasting) -> Iterator[str]:
    for lasts, say in say_lasting(lasting):
        yield say if lasts else f"▲ {say}"
    for one in lasting.boards:
        if one.opened_days:
            yield f"{clean(one.product)}: {say_pace(one)} so far"


def _contact(card: JobCard) -> str:
    job = card.facts.job
    parts = (job.customer.name, job.address, job.customer.phone, job.customer.email)
    return ", ".join(clean(part) for part in parts if part)


def _rooms(card: JobCard) -> Iterator[str]:
    for room in card.facts.rooms:
        glue = f" with {clean(room.glue)}" if room.glue else ""
        heated = ", heated" if room.heated else ""
        yield (
            f"{clean(room.name)}: {say_area(room.net_mm2)}, {clean(room.board)}, {METHODS[room.method]}{glue} "
            f"on {SUBFLOORS[room.subfloor]}{heated}"
        )


def _holds(card: JobCard, firm: Firm, now: datetime) -> Iterator[str]:
    for hold in card.standing.holds:
        words = f"{HOLD_KINDS[hold.kind]}, {HOLD_STATES[hold.state]}"
        yield f"{clean(hold.room)}: {words}. {say_hold(hold, card.facts, firm, now)}"


def _tally(tally: PackTally) -> str:
    unit = f", {tally.in_unit} in the unit" if tally.in_unit else ""
    return (
        f"{clean(tally.product)}: {tally.needed} needed, {tally.ordered} ordered, {tally.on_site} came to site{unit}, "
        f"{tally.ready} ready, {tally.laid} used, {tally.left} left"
    )


def reckoning_lines(card: JobCard, sums: Reckoning, firm: Firm, now: datetime) -> Iterator[str]:
    """Return the close-out sum of one board, a line for each part that is not nought."""

    def packs(boards: int) -> str:
        full, loose = divmod(abs(boards), sums.boards_per_pack)
        return ("−" if boards < 0 else "") + say_packs(full, loose)

    yield f"{clean(sums.product)}: ordered {packs(sums.ordered)}"
    parts = (
        ("never came", sums.never_came),
        ("came beyond the order", sums.more_came),
        ("from free stock", sums.from_stock),
        ("taken to free stock", sums.to_stock),
        ("came damaged", sums.damaged),
        ("used", sums.used),
        ("left with the customer", sums.customer),
        ("back to the unit", sums.unit),
        ("back to the supplier", sums.returned),
        ("thrown away", sums.scrapped),
        ("unaccounted for", sums.unaccounted),
    )
    for word, boards in parts:
        if boards:
            yield f"  {word} {packs(boards)}"
    if sums.real_loss_percent is not None:
        yield (
            f"  real cut loss {figure(sums.real_loss_percent, 1)} %, allowed {figure(sums.allowed_loss_percent, 1)} %: "
            f"{say_money(sums.lost_minor, firm.currency)} of boards"
        )
    for credit in card.credits:
        if credit.product == sums.product:
            yield from (f"  {say}" for say in say_credit(credit, firm.currency, now.astimezone(firm.zone).date()))
    if not sums.adds_up:
        missing = say_money(abs(sums.unaccounted_minor), firm.currency)
        fault = (
            f"{missing} of boards is unaccounted for" if sums.unaccounted else "more floor was laid than boards used"
        )
        yield f"  This does not add up: {fault}; look at the count and the packs opened."


def _snag(card: JobCard, index: int, firm: Firm, now: datetime) -> str:
    snag = card.facts.snags[index]
    where = f"{clean(snag.room)}: " if snag.room else ""
    state = f"put right {say_instant(snag.mended_at, now, firm.zone)}" if snag.mended_at else "still to put right"
    return f"{where}{clean(snag.what)} ({state})"


def check_text(findings: Iterable[Finding]) -> str:
    """Return what was looked at, a line each, and whether it is in order."""
    lines = [f"{'in order' if one.good else 'NOT IN ORDER'}: {one.what}. {clean(one.say)}" for one in findings]
    return "\n".join(line for text in lines for line in wrapped(text, "", "  ")) + "\n"


def section(title: str, lines: Iterable[str]) -> list[str]:
    """Return a blank line, a title and its lines, wrapped at 80 columns; nothing where there are no lines."""
    held = [part for line in lines for part in wrapped(line, "  " + _indent(line), "    " + _indent(line))]
    return ["", title, *held] if held else []


def _indent(line: str) -> str:
    return line[: len(line) - len(line.lstrip(" "))]


def wrapped(text: str, first: str, rest: str) -> list[str]:
    """Return a text wrapped at 80 columns, never between a figure and its unit."""
    held = _UNIT_AFTER_FIGURE.sub("\\1\N{NO-BREAK SPACE}", text.strip())
    lines = textwrap.wrap(held, COLUMNS, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False)
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines] or [""]
