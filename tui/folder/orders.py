"""The packs of a job: what is ordered and still owed, what came in, and what was carried where."""

from collections.abc import Iterator

from store.trade.buying.steps import packs_for_stairs
from store.trade.events import Delivery, Move, Order, PlaceKind
from store.trade.facts import JobFacts
from store.trade.stacks import still_owed
from store.trade.stock_take import Difference
from store.trade.verdict import PackTally
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.batches import mixed_by_room
from tui.words.facts import say_amount, say_difference, say_from, say_list, say_lot
from tui.words.vocabulary import WAYS, say_target
from tui.words.wording import clean, say_packs, upper

COLUMNS = (
    Column(label="When", width=16),
    Column(label="What", width=7),
    Column(label="Packs"),
    Column(label="Where"),
)
_TALLY = ("needed", "ordered", "unit", "on site", "ready", "used", "left")


def orders_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return the packs of each board as a small table, those of stairs, and rooms in which two batches lie."""
    tallies = page.card.standing.packs
    stairs = tuple(_for_stairs(page.facts))
    if not tallies:
        return stairs
    rows = [("Packs", *_TALLY), *(_numbers(one) for one in tallies)]
    if wide:
        rows = list(zip(*rows, strict=True))
    first = max(len(row[0]) for row in rows)
    # Each column as wide as it needs, so that the table keeps to its lines in the smallest window.
    widths = [max(len(row[place]) for row in rows) + 2 for place in range(1, len(rows[0]))]
    lines = [
        f"{row[0]:<{first}}" + "".join(f"{word:>{width}}" for word, width in zip(row[1:], widths, strict=True))
        for row in rows
    ]
    mixed = (Said(words=f"▲ {words}", tone=Tone.WARN) for words in mixed_by_room(page.facts).values())
    return (Said(words=lines[0], tone=Tone.MUTED), *(Said(words=line) for line in lines[1:]), *stairs, *mixed)


def _for_stairs(facts: JobFacts) -> Iterator[Said]:
    """Yield the packs that stairs take beside those of the floors, board by board."""
    for code in dict.fromkeys(flight.board for flight in facts.flights if flight.board):
        packs = packs_for_stairs(facts, code)
        if packs:
            yield Said(words=f"And {say_packs(packs)} of {clean(code)} for the stairs.", tone=Tone.MUTED)


def _numbers(one: PackTally) -> tuple[str, ...]:
    numbers = (one.needed, one.ordered, one.in_unit, one.on_site, one.ready, one.laid, one.left)
    return (clean(one.product), *(f"{number:,}" for number in numbers))


def orders_entries(page: Page) -> tuple[Entry, ...]:
    """Return orders, deliveries, carryings and what a stock-take found or missed, the latest first."""
    facts = page.facts
    clock = page.clock
    timed = [
        *(((one.on, 0.0), _order(page, one)) for one in facts.orders),
        *(((clock.day(one.at), one.at.timestamp()), _delivery(page, one)) for one in facts.deliveries),
        *(((clock.day(one.at), one.at.timestamp()), _move(page, one)) for one in facts.moves),
        *(((clock.day(one.at), one.at.timestamp()), _difference(page, one)) for one in facts.differences),
    ]
    return tuple(entry for _, entry in sorted(timed, key=lambda pair: pair[0], reverse=True))


def _short(facts: JobFacts, product: str, batch: str, packs: int) -> str:
    return f"{packs} × {clean(product)} {clean(batch)}".rstrip()


def _owed(facts: JobFacts, order: Order) -> dict[str, int]:
    """What one order still owes, by product."""
    codes = dict.fromkeys(line.product for line in order.lines)
    owed = {code: sum(one.packs for one in still_owed(facts, code) if one.order.id == order.id) for code in codes}
    return {code: packs for code, packs in owed.items() if packs}


def _order(page: Page, order: Order) -> Entry:
    facts, owed = page.facts, _owed(page.facts, order)
    due = page.clock.say_day(order.due_on) if order.due_on else "no day given"
    late = order.due_on is not None and order.due_on < page.clock.today
    what = ", ".join(_short(facts, line.product, "", line.packs) for line in order.lines)
    if owed:
        state = f"▲ owed, was due {due}" if late else f"◐ owed, due {due}" if order.due_on else "▲ owed, no day given"
    else:
        state = "✓ all came"
    return Entry(
        key=f"order:{order.id}",
        cells=(page.clock.say_day(order.on), "ordered", what, state),
        fact=order,
        title=f"The order of {page.clock.say_day(order.on)}",
        whole=tuple(_whole_order(page, order, owed, due)),
    )


def _whole_order(page: Page, order: Order, owed: dict[str, int], due: str) -> Iterator[Said]:
    for line in order.lines:
        yield Said(words=f"{say_amount(page.facts, line.product, line.packs)}")
    supplier = f" from {clean(order.supplier)}" if order.supplier else ""
    yield Said(words=f"Ordered {page.clock.say_day(order.on)}{supplier}, due {due}.")
    if owed:
        still = say_list(say_amount(page.facts, code, packs) for code, packs in owed.items())
        yield Said(words=f"Still owed: {still}.", tone=Tone.WARN)
    else:
        yield Said(words="✓ All of it has come.", tone=Tone.OK)


def _delivery(page: Page, delivery: Delivery) -> Entry:
    facts = page.facts
    what = ", ".join(_short(facts, line.product, line.batch, line.packs) for line in delivery.lines)
    damaged = sum(line.damaged_packs for line in delivery.lines)
    where = clean(delivery.into.room) if delivery.into.kind is PlaceKind.ROOM else "the unit"
    return Entry(
        key=f"delivery:{delivery.id}",
        cells=(page.clock.say(delivery.at), "came in", what, f"▲ {damaged} damaged, {where}" if damaged else where),
        fact=delivery,
        title=f"The delivery of {page.clock.say(delivery.at)}",
        whole=tuple(_whole_delivery(page, delivery)),
    )


def _whole_delivery(page: Page, delivery: Delivery) -> Iterator[Said]:
    for line in delivery.lines:
        yield Said(words=say_lot(page.facts, line.product, line.batch, line.packs))
        if line.damaged_packs:
            yield Said(words=f"▲ {line.damaged_packs} of them damaged, set aside", tone=Tone.WARN)
    yield Said(words=f"Put {say_target(delivery.into)}.")


def _move(page: Page, move: Move) -> Entry:
    lot = say_lot(page.facts, move.product, move.batch, move.packs)
    route = f"{_word(move.source.kind, move.source.room)} → {_word(move.target.kind, move.target.room)}"
    return Entry(
        key=f"move:{move.id}",
        cells=(page.clock.say(move.at), "carried", _short(page.facts, move.product, move.batch, move.packs), route),
        fact=move,
        title=f"Carried {page.clock.say(move.at)}",
        whole=(Said(words=lot), Said(words=upper(f"{say_from(move.source)} {say_target(move.target)}."))),
    )


def _difference(page: Page, one: Difference) -> Entry:
    at, words = page.clock.say(one.at), say_difference(one, page.facts.products)
    return Entry(
        key=f"stock-take:{one.id}",
        cells=(at, "counted", _short(page.facts, one.product, one.batch, one.packs), f"▲ {WAYS[one.way]} in the unit"),
        fact=one,
        title=f"Stock-take of {at}",
        whole=(Said(words=f"▲ {upper(words)} in the unit.", tone=Tone.WARN), Said(words=f"Why: {clean(one.why)}")),
    )


def _word(kind: PlaceKind, room: str) -> str:
    return clean(room) if kind is PlaceKind.ROOM else "free stock" if kind is PlaceKind.SHELF else "unit"
