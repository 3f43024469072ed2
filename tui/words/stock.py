"""The words for what lies where: place, amount, and a line of stock as a sentence."""

from store.desk.cards import StockLine, StockSum
from store.trade.events import PlaceKind
from store.trade.products import ProductKind
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, say_money, say_packs

MANY_BATCHES = "▲"
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
    if line.kind is ProductKind.GLUE:
        return counted(line.packs, "tub")
    return say_packs(line.packs, line.boards).replace("-", "−")


def say_full(line: StockLine) -> str:
    """Return the full packs for a column: “11”, “2 tubs”."""
    words = counted(line.packs, "tub") if line.kind is ProductKind.GLUE else f"{line.packs:,}"
    return words.replace("-", "−")


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
    """Return what lies unopened and sound, and its worth: “Unopened and sound: 66 packs and 17 tubs, EUR 14,396.00”."""
    parts = [say_packs(sums.packs, sums.boards)] if sums.packs or sums.boards or not sums.tubs else []
    if sums.tubs:
        parts.append(counted(sums.tubs, "tub"))
    return f"Unopened and sound: {' and '.join(parts)}, {say_money(sums.worth_minor, currency)}"
