"""The words for what lies where: place, amount, and a line of stock as a sentence."""

from collections.abc import Mapping, Sequence
from datetime import date, tzinfo

from store.desk.cards import StockLine, StockSum
from store.trade.events import PlaceKind
from store.trade.products import Product
from store.trade.stock_take import Booked, DifferenceDraft
from store.trade.things import ProductKind
from tui.words.facts import say_difference, say_list
from tui.words.units import say_much, say_units, thing_of
from tui.words.vocabulary import WAYS, the_room
from tui.words.wording import clean, counted, say_day, say_money, say_packs

MANY_BATCHES = "▲"
SOON_DAYS = 30
"""From here on a tub's last day is near enough to be marked (common practice, no source)."""
GONE = frozenset({PlaceKind.RETURN, PlaceKind.SCRAP, PlaceKind.SUPPLIER, PlaceKind.FOUND, PlaceKind.MISSING})
"""Places whose packs have left the firm's hands and the customer's house, or are nowhere: no part of the stock."""

_PLACES = {
    PlaceKind.UNIT: "in the unit, kept",
    PlaceKind.SHELF: "in the unit, free",
    PlaceKind.OPENED: "opened for laying",
    PlaceKind.ASIDE: "set aside, damaged",
    PlaceKind.CUSTOMER: "with the customer",
    PlaceKind.SITE: "on site",
    PlaceKind.SUPPLIER: "at the supplier's",
    PlaceKind.RETURN: "back at the supplier's",
    PlaceKind.SCRAP: "thrown away",
    PlaceKind.FOUND: "nobody knows where",
    PlaceKind.MISSING: "missing",
}


def say_where(line: StockLine) -> str:
    """Return where a line's packs are: “in the Reading room”, “in the unit, free”."""
    return f"in {the_room(line.room)}" if line.place is PlaceKind.ROOM else _PLACES[line.place]


def say_batch(line: StockLine) -> tuple[str, ...]:
    """Return the batch, marked where the job has more than one of this board: “07-A ▲” and “2 batches”."""
    batch = clean(line.batch) or "–"
    return (f"{batch} {MANY_BATCHES}", f"{line.batches} batches") if line.batches > 1 else (batch,)


def say_amount(line: StockLine) -> str:
    """Return how much it is: “3 packs and 2 boards”, “2 tubs”."""
    return say_much(line.thing, line.packs, line.boards).replace("-", "−")


def say_full(line: StockLine) -> str:
    """Return the full packs for a column: “11”, “2 tubs”."""
    words = f"{line.packs:,}" if line.kind is ProductKind.BOARD else say_units(line.thing, line.packs)
    return words.replace("-", "−")


def say_use_by(line: StockLine, today: date) -> str:
    """Return till when tubs may be used, short enough for a column: “✗ over 3 Nov”, “▲ 12 days”, “Wed 3 Feb 2027”."""
    if line.use_by is None:
        return ""
    days = (line.use_by - today).days
    if days < 0:
        return f"✗ over {say_day(line.use_by, today)}"
    return f"▲ {counted(days, 'day')} left" if days <= SOON_DAYS else say_day(line.use_by, today)


def say_age(line: StockLine, today: date, zone: tzinfo) -> str:
    """Return when the first of a batch came and till when it may be used, as a sentence; empty if nobody knows."""
    parts = []
    if line.since is not None:
        came = line.since.astimezone(zone).date()
        months = (today - came).days // 30
        parts.append(f"came {say_day(came, today)}" + (f", {counted(months, 'month')} ago" if months else ""))
    if line.use_by is not None:
        over = line.use_by < today
        parts.append(f"{'✗ not to be used since' if over else 'to be used by'} {say_day(line.use_by, today)}")
    return f" The batch {' and is '.join(parts)}." if parts else ""


def say_line(line: StockLine, currency: str) -> str:
    """Return a line of stock in two sentences: what it is and is worth, and what to mind."""
    batch = f", batch {clean(line.batch)}" if line.batch else ""
    whose = "for" if line.place is PlaceKind.UNIT else "of"
    job = f" {whose} {clean(line.job_ref)} {clean(line.job_title)}".rstrip() if line.job_ref else ""
    worth = f", worth {say_money(line.worth_minor, currency)}" if line.worth_minor else ""
    words = f"{clean(line.product_name)}{batch}: {say_amount(line)} {say_where(line)}{job}{worth}."
    if line.batches > 1:
        words += f" {MANY_BATCHES} This job has {line.batches} batches of it: lay them mixed, or one to a room."
    return words


def say_sum(sums: StockSum, currency: str) -> str:
    """Return what lies unopened and sound, and its worth: “EUR 14,396.00 lie unopened and sound: 66 packs and 17 tubs”.

    The worth first, since a narrow line cuts the rest.
    """
    others = sums.tubs or sums.materials
    parts = [say_packs(sums.packs, sums.boards)] if sums.packs or sums.boards or not others else []
    if sums.tubs:
        parts.append(counted(sums.tubs, "tub"))
    if sums.materials:
        parts.append(f"{sums.materials:,} of other materials")
    stale = f"; ✗ {counted(sums.stale, 'tub')} past their day" if sums.stale else ""
    return f"{say_money(sums.worth_minor, currency)} lie unopened and sound: {say_list(parts)}{stale}"


def say_whose(line: StockLine) -> str:
    """Return whose a part of the unit is, as a heading: “Free for any job”, “Kept for GQ-0145 Oak floor”."""
    return f"Kept for {clean(line.job_ref)} {clean(line.job_title)}".rstrip() if line.job_ref else "Free for any job"


def say_counted(line: StockLine, found: DifferenceDraft | None, *, is_counted: bool) -> str:
    """Return what stands beside a line of a stock-take: “2 packs”, “2 packs: ✓”, “2 packs: ▲ 1 pack missing”."""
    filed = say_amount(line)
    if not is_counted:
        return filed
    if found is None:
        return f"{filed}: ✓ the same"
    return f"{filed}: ▲ {say_much(line.thing, found.packs, found.boards)} {WAYS[found.way]}"


def say_counted_so_far(done: int, lines: int, differ: int, added: int) -> str:
    """Return how far a stock-take has come: “2 of 5 lines counted, 1 differs”."""
    words = f"{done:,} of {counted(lines, 'line')} counted"
    if added:
        words += f", {added:,} added"
    more = differ + added
    return f"{words}, {more:,} {'differs' if more == 1 else 'differ'}." if more else f"{words}."


def say_of_unit(one: Booked) -> str:
    """Return to which part of the unit a difference belongs: “free stock”, “kept for GQ-0145”."""
    return f"kept for {clean(one.job_ref)}" if one.job_ref else "free stock"


def say_booked_line(one: Booked, products: Mapping[str, Product]) -> str:
    """Return a difference as short as it can be told: “OAK-190 K42, kept for GQ-0145: 1 pack missing”."""
    told = one.difference
    much = say_much(thing_of(products.get(told.product)), told.packs, told.boards)
    return f"{f'{clean(told.product)} {clean(told.batch)}'.strip()}, {say_of_unit(one)}: {much} {WAYS[told.way]}"


def say_booked(booked: Sequence[Booked], products: Mapping[str, Product], lines: int, left_out: int) -> str:
    """Return what a stock-take has booked, and how much of the unit was not counted."""
    words = f"{counted(lines, 'line')} of the unit counted: "
    if booked:
        differ = [f"{say_difference(one.difference, products)} ({say_of_unit(one)})" for one in booked]
        words += f"{say_list(differ)}. That is booked; x takes a line back."
    else:
        words += "all is as the file says."
    return f"{words} {counted(left_out, 'line')} not counted." if left_out else words
