"""The packs of a job: what is ordered and still owed, what came in, and what was carried where."""

from collections.abc import Iterator

from store.trade.buying.steps import packs_for_stairs
from store.trade.confirmations import Confirmation
from store.trade.events import Delivery, Move, Order, PlaceKind
from store.trade.facts import JobFacts
from store.trade.order_states import OrderStanding, OrderState, order_standing
from store.trade.stock_take import Difference
from store.trade.verdict import PackTally
from tui.folder.page import Entry, Page
from tui.widgets.rows import Column
from tui.widgets.signed_lines import Said, Tone
from tui.words.batches import mixed_by_room
from tui.words.facts import say_confirmed, say_difference, say_from, say_lot
from tui.words.orders import say_claim, say_cost, say_order_state, say_order_whole, say_owed_parts
from tui.words.taught import say_hint
from tui.words.vocabulary import WAYS, say_target
from tui.words.wording import clean, say_money, say_packs, upper

COLUMNS = (
    Column(label="When", width=16),
    Column(label="What", width=7),
    Column(label="Packs"),
    Column(label="Where"),
)
_TALLY = ("needed", "ordered", "unit", "on site", "ready", "used", "left")


def orders_summary(page: Page, *, wide: bool) -> tuple[Said, ...]:
    """Return the packs of each board as a small table, those of stairs, two batches in a room, hints and the cost."""
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
    taught = (Said(words=say_hint(hint), tone=Tone.WAIT) for hint in page.hints)
    return (
        Said(words=lines[0], tone=Tone.MUTED),
        *(Said(words=line) for line in lines[1:]),
        *stairs,
        *mixed,
        *taught,
        *_cost(page),
    )


def _cost(page: Page) -> Iterator[Said]:
    if page.cost is not None and (page.cost.planned_minor or page.cost.ordered_minor):
        yield Said(words=f"Material: {say_cost(page.cost, page.firm.currency)}", tone=Tone.MUTED)


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
        *(
            ((clock.day(one.at), one.at.timestamp()), _confirmation(page, order, one))
            for order in facts.orders
            for one in order.confirmed
            if isinstance(one, Confirmation)
        ),
        *(((clock.day(one.at), one.at.timestamp()), _delivery(page, one)) for one in facts.deliveries),
        *(((clock.day(one.at), one.at.timestamp()), _move(page, one)) for one in facts.moves),
        *(((clock.day(one.at), one.at.timestamp()), _difference(page, one)) for one in facts.differences),
    ]
    return tuple(entry for _, entry in sorted(timed, key=lambda pair: pair[0], reverse=True))


def _short(facts: JobFacts, product: str, batch: str, packs: int) -> str:
    return f"{packs} × {clean(product)} {clean(batch)}".rstrip()


def _order(page: Page, order: Order) -> Entry:
    standing = order_standing(page.facts, order, page.clock.today)
    what = ", ".join(_short(page.facts, line.product, "", line.packs) for line in order.lines)
    return Entry(
        key=f"order:{order.id}",
        cells=(page.clock.say_day(order.on), "ordered", what, say_order_state(standing, page.clock)),
        fact=order,
        title=f"The order of {page.clock.say_day(order.on)}",
        whole=tuple(_whole_order(page, standing)),
    )


def _whole_order(page: Page, standing: OrderStanding) -> Iterator[Said]:
    yield from (Said(words=words) for words in say_order_whole(standing, page.facts, page.clock, page.firm.currency))
    yield from (Said(words=words, tone=Tone.WARN) for words in say_owed_parts(standing, page.facts, page.clock))
    if standing.state is OrderState.ALL_COME and not standing.short:
        yield Said(words="✓ All of it has come.", tone=Tone.OK)
    if standing.state is OrderState.NONE_COMES:
        yield Said(words="▲ Nothing of it comes.", tone=Tone.WARN)


def _confirmation(page: Page, order: Order, one: Confirmation) -> Entry:
    number = (Said(words=f"Their number: {clean(one.number)}"),) if one.number else ()
    days = ", ".join(dict.fromkeys(page.clock.say_day(line.due_on) for line in one.lines if line.due_on))
    what = ", ".join(_short(page.facts, line.product, "", line.packs) for line in one.lines)
    prices = [
        f"{clean(line.product)}: {say_money(line.price_minor, page.firm.currency)} each"
        for line in one.lines
        if line.price_minor is not None
    ]
    said = f"Of the order of {page.clock.say_day(order.on)}: {say_confirmed(one, page.facts, page.clock)}."
    return Entry(
        key=f"confirmation:{one.id}",
        cells=(page.clock.say(one.at), "agreed", what, f"for {days}" if days else "no day given"),
        fact=one,
        title="What the supplier confirmed",
        whole=(Said(words=said), *(Said(words=words) for words in prices), *number),
    )


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
    damaged = {line.product for line in delivery.lines if line.damaged_packs}
    for claim in page.card.claims:
        if claim.product in damaged:
            due = ". Photograph them before they go; e says what came for them." if claim.is_open else "."
            tone = Tone.WARN if claim.is_open else Tone.OK
            yield Said(words=f"{clean(claim.product)}: {say_claim(claim, page.firm.currency)}{due}", tone=tone)


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
