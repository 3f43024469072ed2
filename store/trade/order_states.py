"""How far an order is: placed, confirmed, come in part or whole, late, short, or nothing of it comes."""

from dataclasses import dataclass, replace
from datetime import date, datetime
from enum import StrEnum

from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.events import Order
from store.trade.facts import JobFacts
from store.trade.orders import is_confirmed, lines_to_come, packs_asked, packs_never_coming
from store.trade.stacks import Owed, still_owed


class OrderState(StrEnum):
    """How far an order is, worked out from what is on file, never typed.

    NONE_COMES: its supplier sends nothing of it, so that nothing is owed though nothing came.
    """

    PLACED = "placed"
    CONFIRMED = "confirmed"
    PART_COME = "part_come"
    ALL_COME = "all_come"
    LATE = "late"
    NONE_COMES = "none_comes"


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderStanding:
    """One order at one moment.

    ``owed`` is what is still to come of it, product by product, the earliest due first; where a product is due on two
    days the later part was held back. ``short`` are the packs of each product that were asked for and never come.
    ``confirmed`` tells whether the supplier has said of all of it what comes.
    """

    order: Order
    state: OrderState
    owed: tuple[tuple[str, Owed], ...]
    short: tuple[tuple[str, int], ...]
    confirmed: bool

    @property
    def due_on(self) -> date | None:
        """The next day on which something is due; None where nobody named one or nothing is owed."""
        return min((one.due_on for _, one in self.owed if one.due_on), default=None)

    @property
    def held_back(self) -> tuple[tuple[str, Owed], ...]:
        """What comes later than the first of its product."""
        first: dict[str, date | None] = {}
        return tuple((code, one) for code, one in self.owed if first.setdefault(code, one.due_on) != one.due_on)


def order_standing(facts: JobFacts, order: Order, today: date) -> OrderStanding:
    """Return how far an order is on a day."""
    codes = tuple(dict.fromkeys(line.product for line in order.lines))
    owed = tuple((code, one) for code in codes for one in still_owed(facts, code) if one.order.id == order.id)
    short = tuple((code, packs_never_coming(order, code)) for code in codes)
    bringing = sum(packs_asked(order, code) - fewer for code, fewer in short)
    confirmed, to_come = is_confirmed(order), sum(one.packs for _, one in owed)
    if not bringing:
        state = OrderState.NONE_COMES
    elif not owed:
        state = OrderState.ALL_COME
    elif any(one.due_on is not None and one.due_on < today for _, one in owed):
        state = OrderState.LATE
    elif to_come < bringing:
        state = OrderState.PART_COME
    else:
        state = OrderState.CONFIRMED if confirmed else OrderState.PLACED
    return OrderStanding(
        order=order,
        state=state,
        owed=owed,
        short=tuple((code, packs) for code, packs in short if packs > 0),
        confirmed=confirmed,
    )


def later_rest(facts: JobFacts, order: Order, due_on: date, at: datetime) -> ConfirmationDraft:
    """Return a confirmation by which what an order still owes comes on another day; what has come stays as it was."""
    standing = order_standing(facts, order, due_on)
    lines: list[ConfirmedLine] = []
    for code in dict.fromkeys(code for code, _ in standing.owed):
        asked = [one for one in lines_to_come(order) if one.product == code]
        come = sum(one.packs for one in asked) - sum(one.packs for product, one in standing.owed if product == code)
        # What comes in fills the earliest day first.
        for line in sorted(asked, key=lambda one: one.due_on or date.max):
            filled = min(line.packs, come)
            come -= filled
            if filled:
                lines.append(replace(line, packs=filled, due_on=min(line.due_on or due_on, due_on)))
            if line.packs > filled:
                lines.append(replace(line, packs=line.packs - filled, due_on=due_on))
    return ConfirmationDraft(at=at, lines=tuple(lines), number=order.confirmed[-1].number if order.confirmed else "")
