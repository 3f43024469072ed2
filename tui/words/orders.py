"""The words for orders: how far each is, what its supplier confirmed, what it costs, and credits still to come."""

from collections.abc import Iterator, Sequence

from store.desk.cards import CreditDue
from store.trade.confirmations import ConfirmationDraft
from store.trade.credits import CreditDraft, CreditFor
from store.trade.damage import DamageClaim
from store.trade.events import OrderDraft
from store.trade.facts import JobFacts
from store.trade.from_stock import FreeLot
from store.trade.material_cost import CostLine, MaterialCost
from store.trade.order_states import OrderStanding, OrderState
from store.trade.orders import packs_asked
from store.trade.stacks import Owed
from tui.typed.wall_clock import WallClock
from tui.words.facts import say_amount, say_confirmed, say_list, say_lot
from tui.words.wording import clean, counted, say_money

ORDER_STATES = {
    OrderState.PLACED: ("◐", "not confirmed"),
    OrderState.CONFIRMED: ("◐", "confirmed"),
    OrderState.PART_COME: ("◐", "part came"),
    OrderState.ALL_COME: ("✓", "all came"),
    OrderState.LATE: ("▲", "owed"),
    OrderState.NONE_COMES: ("▲", "none comes"),
}
"""A sign and the words for each state; never the sign alone."""


_OWED_FOR = {CreditFor.RETURN: "back", CreditFor.DAMAGE: "damaged"}


def say_order_state(standing: OrderStanding, clock: WallClock) -> str:
    """Return how far an order is, the day first, since a column may cut the rest: “◐ due Tue 1 Dec, confirmed”."""
    sign, words = ORDER_STATES[standing.state]
    short = sum(packs for _, packs in standing.short)
    if standing.state is OrderState.NONE_COMES:
        return f"{sign} {words}"
    if standing.state is OrderState.ALL_COME:
        return f"▲ came, {short:,} never sent" if short else f"{sign} {words}"
    if standing.due_on is None:
        return f"▲ no day given, {words}"
    was = "was " if standing.state is OrderState.LATE else ""
    return f"{sign} {was}due {clock.say_day(standing.due_on)}, {words}"


def say_order_whole(standing: OrderStanding, facts: JobFacts, clock: WallClock, currency: str) -> Iterator[str]:
    """Yield all that an order's line keeps back: what is owed by when, what never comes, prices."""
    order = standing.order
    for line in order.lines:
        price = f" at {say_money(line.price_minor, currency)}" if line.price_minor is not None else ""
        yield f"{say_amount(facts, line.product, line.packs)}{price}"
    supplier = f" from {clean(order.supplier)}" if order.supplier else ""
    due = f"due {clock.say_day(order.due_on)}" if order.due_on else "no day given"
    freight = f", its way here {say_money(order.freight_minor, currency)}" if order.freight_minor else ""
    yield f"Ordered {clock.say_day(order.on)}{supplier}, {due}{freight}."
    if not standing.confirmed:
        yield "The supplier has not confirmed all of it yet; e says what is confirmed."


def say_owed_parts(standing: OrderStanding, facts: JobFacts, clock: WallClock) -> Iterator[str]:
    """Yield what is still to come of an order, day by day, and what never comes."""
    for code, one in standing.owed:
        late = " (held back)" if (code, one) in standing.held_back else ""
        yield f"Still to come: {say_amount(facts, code, one.packs)}, {_day(one, clock)}{late}"
    for code, packs in standing.short:
        yield f"▲ Never sent: {say_amount(facts, code, packs)}; order them again if the floor needs them (o)"


def _day(one: Owed, clock: WallClock) -> str:
    return f"due {clock.say_day(one.due_on)}" if one.due_on else "no day given"


def say_filed_confirmation(draft: ConfirmationDraft, order: OrderDraft, facts: JobFacts, clock: WallClock) -> str:
    """Return what follows from a confirmation, once it is on file."""
    fewer = []
    for code in dict.fromkeys(line.product for line in draft.lines):
        less = packs_asked(order, code) - sum(line.packs for line in draft.lines if line.product == code)
        if less:
            fewer.append(say_amount(facts, code, less))
    words = f"Confirmed: {say_confirmed(draft, facts, clock)}."
    if any(line.packs for line in draft.lines):
        words += " The job goes by that day now."
    return f"{words} ▲ Never sent: {say_list(fewer)}; order them elsewhere if the floor needs them." if fewer else words


def say_lots(lots: Sequence[FreeLot], facts: JobFacts) -> str:
    """Return free stock batch by batch: “6 packs of OAK-190, batch K42”."""
    return say_list(say_lot(facts, one.product, one.batch, one.packs) for one in lots)


def say_credit_came(credit: CreditDraft, currency: str) -> str:
    """Return a credit on file: “EUR 384.00 for OAK-190, note N-5”, “2 packs sent for damaged OAK-190”."""
    note = f", note {clean(credit.number)}" if credit.number else ""
    more = "" if credit.settles else "; more is to come"
    money = say_money(credit.amount_minor, currency)
    sent = f"{counted(credit.replaced_packs, 'pack')} sent" if credit.replaced_packs else ""
    came = " and ".join(filter(None, (money if credit.amount_minor or not sent else "", sent)))
    damaged = "damaged " if credit.owed_for is CreditFor.DAMAGE else ""
    return f"{came} for {damaged}{clean(credit.product)}{note}{more}"


def say_claim(claim: DamageClaim, currency: str) -> str:
    """Return what is claimed for damaged packs and what came of it: “claim for 2 damaged packs: EUR 364.80; …”."""
    words = f"claim for {counted(claim.packs, 'damaged pack')}: {say_money(claim.claim_minor, currency)}"
    came = " and ".join(
        filter(
            None,
            (
                say_money(claim.come_minor, currency) if claim.come_minor else "",
                f"{counted(claim.replaced_packs, 'pack')} sent instead" if claim.replaced_packs else "",
            ),
        )
    )
    if claim.due_minor:
        return f"{words}; ▲ {say_money(claim.due_minor, currency) + ' of it to come' if came else 'not come yet'}"
    if claim.is_open:
        return f"{words}; ▲ not come yet, no price on file"
    return f"{words}; ✓ settled by {came or 'nothing: refused'}"


def say_credit_due(one: CreditDue, clock: WallClock, currency: str) -> str:
    """Return a credit that is still to come, as a line to choose: from whom, how much, for what, since when."""
    parts = (
        clean(one.supplier) or "no supplier",
        say_money(one.due_minor, currency) if one.due_minor else "no price on file",
        clean(one.job_ref),
        f"{one.packs} × {clean(one.product)} {_OWED_FOR[one.owed_for]}, {clock.say_day(one.since)}",
    )
    return " · ".join(parts)


def say_credits_due(due: Sequence[CreditDue], currency: str) -> str:
    """Return how much is to come in all: “Credits to come: EUR 456.00 from 2 jobs”; empty where nothing is."""
    if not due:
        return ""
    total = say_money(sum(one.due_minor for one in due), currency)
    return f"Credits to come: {total} from {counted(len({one.job_ref for one in due}), 'job')}"


def say_cost(cost: MaterialCost, currency: str) -> str:
    """Return what a job's material costs in one line: “planned EUR 2,006.40, ordered EUR 2,188.80, real …”."""
    parts = [f"planned {say_money(cost.planned_minor, currency)}"]
    if cost.ordered_minor:
        parts.append(f"ordered {say_money(cost.ordered_minor, currency)}")
    if cost.real_minor is not None:
        parts.append(f"come so far {say_money(cost.real_minor, currency)}")
    return ", ".join(parts)


def say_cost_line(line: CostLine, currency: str) -> str:
    """Return what one product of a job costs."""
    words = f"{clean(line.product)}: planned {say_money(line.planned_minor, currency)}"
    if line.ordered_minor:
        words += f", ordered {say_money(line.ordered_minor, currency)}"
    return f"{words}, come {say_money(line.real_minor, currency)}" if line.real_minor is not None else words
