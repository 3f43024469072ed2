"""What an order will bring, by what was asked for and what its supplier has said since."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime
from fractions import Fraction

from store.errors import Problem
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine, problems_with_confirmed
from store.trade.events import Order, OrderDraft
from store.trade.products import ProductDraft


def lines_to_come(order: OrderDraft) -> tuple[ConfirmedLine, ...]:
    """Return what an order brings in all, with its days and prices, delivered or not.

    Of a product the latest confirmation that names it holds; one that no confirmation names comes as it was ordered.
    A price the supplier did not name is the one the order has.
    """
    asked = dict.fromkeys(line.product for line in order.lines)
    found: list[ConfirmedLine] = []
    for code in asked:
        prices = [line.price_minor for line in order.lines if line.product == code and line.price_minor is not None]
        said = _last_said(order, code)
        if said is None:
            found += [
                ConfirmedLine(product=code, packs=line.packs, due_on=order.due_on, price_minor=line.price_minor)
                for line in order.lines
                if line.product == code
            ]
        else:
            usual = prices[0] if prices else None
            found += [line if line.price_minor is not None else replace(line, price_minor=usual) for line in said]
    return tuple(found)


def _last_said(order: OrderDraft, code: str) -> tuple[ConfirmedLine, ...] | None:
    """What the latest confirmation that names a product says of it; None where none does."""
    # Of one moment the one filed last: moments are typed to the minute.
    filed = sorted(enumerate(order.confirmed), key=lambda pair: (pair[1].at, pair[0]), reverse=True)
    for _, confirmed in filed:
        lines = tuple(line for line in confirmed.lines if line.product == code)
        if lines:
            return lines
    return None


def packs_asked(order: OrderDraft, code: str) -> int:
    """Return the packs of a product that an order asked for."""
    return sum(line.packs for line in order.lines if line.product == code)


def packs_never_coming(order: OrderDraft, code: str) -> int:
    """Return the packs of a product that an order asked for and its supplier does not send."""
    return packs_asked(order, code) - sum(line.packs for line in lines_to_come(order) if line.product == code)


def is_confirmed(order: OrderDraft) -> bool:
    """Whether the supplier has said of every product of an order what comes."""
    return all(_last_said(order, line.product) is not None for line in order.lines)


def as_due(order: Order, due_on: date) -> Order:
    """Return an order as if all of it were due on one day, whatever its supplier said of days."""
    if not order.confirmed:
        return replace(order, due_on=due_on)
    lines = tuple(replace(line, due_on=due_on) for line in lines_to_come(order))
    said = ConfirmationDraft(at=max(one.at for one in order.confirmed), lines=lines)
    return replace(order, due_on=due_on, confirmed=(said,))


def costs_minor(order: OrderDraft, product: ProductDraft) -> tuple[int, int]:
    """Return the packs of a product that an order brings, and what they cost together, without their way here.

    Where neither order nor supplier named a price it is the one on the product's sheet.
    """
    lines = [line for line in lines_to_come(order) if line.product == product.code]
    prices = (product.price_minor if line.price_minor is None else line.price_minor for line in lines)
    return sum(line.packs for line in lines), sum(line.packs * price for line, price in zip(lines, prices, strict=True))


def each_minor(orders: Iterable[OrderDraft], product: ProductDraft, *, sent_free: int = 0) -> Fraction:
    """Return what a pack of a product costs on average over some orders, exact; its own price where none brings it.

    Of packs ordered at no price as many as were ``sent_free`` in the place of damaged ones are left out: the damaged
    ones were paid for.
    """
    asked = list(orders)
    packs = sum(costs_minor(order, product)[0] for order in asked)
    minor = sum(costs_minor(order, product)[1] for order in asked)
    lines = (line for order in asked for line in lines_to_come(order) if line.product == product.code)
    packs -= min(sent_free, sum(line.packs for line in lines if line.price_minor == 0))
    return Fraction(minor, packs) if packs else Fraction(product.price_minor)


def paid_for(orders: Iterable[OrderDraft], code: str) -> tuple[int, int]:
    """Return the packs of a product for which orders or suppliers named a price, and what those cost together."""
    every = (line for order in orders for line in lines_to_come(order) if line.product == code)
    priced = [(line.packs, line.price_minor) for line in every if line.price_minor is not None]
    return sum(packs for packs, _ in priced), sum(packs * minor for packs, minor in priced)


def problems_with_confirmation(draft: ConfirmationDraft, order: Order, now: datetime) -> tuple[Problem, ...]:
    """Return what is wrong with a confirmation of an order: not of it, more than was asked for, or before it."""
    return tuple(_confirmation_problems(draft, order, now))


def _confirmation_problems(draft: ConfirmationDraft, order: Order, now: datetime) -> Iterator[Problem]:
    if draft.at > now:
        yield Problem(field="at", say="That moment has not come yet; write down what has happened.")
    yield from problems_with_confirmed(draft)
    for index, line in enumerate(draft.lines):
        asked = packs_asked(order, line.product)
        if not asked:
            yield Problem(field=f"lines.{index}.product", say=f"The order asked for no {line.product}.")
        elif sum(one.packs for one in draft.lines if one.product == line.product) > asked:
            say = f"The order asked for {asked} of {line.product}; order what comes beyond it on its own."
            yield Problem(field=f"lines.{index}.packs", say=say)
        if line.due_on is not None and line.due_on < order.on:
            yield Problem(field=f"lines.{index}.due_on", say="That day is before the order was placed.")
