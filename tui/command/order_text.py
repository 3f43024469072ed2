"""The orders of a job, and what its material costs, in plain text."""

from collections.abc import Iterator

from store.desk.cards import JobCard
from store.trade.firm import Firm
from store.trade.material_cost import MaterialCost
from store.trade.order_states import OrderStanding
from tui.command.plain import section
from tui.typed.wall_clock import WallClock
from tui.words.facts import say_order
from tui.words.orders import say_claim, say_cost, say_cost_line, say_credit_came, say_order_state, say_owed_parts
from tui.words.wording import clean, counted


def order_text(
    card: JobCard, standings: tuple[OrderStanding, ...], cost: MaterialCost, firm: Firm, clock: WallClock
) -> str:
    """Return how far each order is, credits that came, claims for damage, and the cost; empty where nothing is."""
    lines = section("Orders", (line for one in standings for line in _order(one, card, clock)))
    came = (f"{clock.say(one.at)}: {say_credit_came(one, firm.currency)}" for one in card.facts.credits)
    lines += section("Credits", came)
    claims = (f"{clean(one.product)}: {say_claim(one, firm.currency)}" for one in card.claims)
    lines += section("Damaged packs", claims)
    if cost.planned_minor or cost.ordered_minor:
        lines += section("Material", _cost(cost, firm.currency))
    return "".join(f"{line}\n" for line in lines)


def _order(standing: OrderStanding, card: JobCard, clock: WallClock) -> Iterator[str]:
    order = standing.order
    supplier = f" from {clean(order.supplier)}" if order.supplier else ""
    yield f"{clock.say_day(order.on)}{supplier}: {say_order(order, card.facts)}, {say_order_state(standing, clock)}"
    if standing.short or standing.held_back:
        yield from (f"  {words}" for words in say_owed_parts(standing, card.facts, clock))


def _cost(cost: MaterialCost, currency: str) -> Iterator[str]:
    yield say_cost(cost, currency)
    yield from (f"  {say_cost_line(line, currency)}" for line in cost.lines)
    if cost.without_product:
        yield f"  no product on file for {counted(cost.without_product, 'line')} of the list to buy"
    if cost.unpriced:
        yield f"  no price on file for {', '.join(clean(code) for code in cost.unpriced)}"
