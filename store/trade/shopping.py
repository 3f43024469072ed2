"""What a job still has to order, and what its orders still have to bring."""

import math
from collections.abc import Iterator, Sequence
from datetime import date

from store.trade.buying.nouns import BuyingLine
from store.trade.events import OrderLine
from store.trade.facts import JobFacts
from store.trade.laying import is_wholly_laid
from store.trade.products import Glue
from store.trade.stacks import packs_damaged, packs_delivered, packs_from_free_stock, packs_promised, still_owed
from store.trade.things import Thing
from store.trade.tubs import glue_on_hand
from store.trade.verdict import DeedKind, Stage, Standing

_LAID = frozenset({Stage.CURE, Stage.HANDOVER, Stage.CLOSED})


def still_to_order(
    facts: JobFacts, standing: Standing, today: date, take_off: Sequence[BuyingLine] = ()
) -> tuple[OrderLine, ...]:
    """Return the packs, tubs and other units that the job needs and has not ordered, boards first.

    Boards as the packs hold says; glue for the floors not laid yet, at the rate on its tub, without waste, less the
    tubs on hand and on order; of the take-off whatever is bought as a product on file, until the floors are laid.
    Tubs past their day ``today`` are not reckoned with.
    """
    boards = [
        OrderLine(product=deed.product, packs=deed.packs or 1) for deed in standing.to_do if deed.kind is DeedKind.ORDER
    ]
    found: dict[str, int] = {}
    for line in (*boards, *_glue_to_order(facts, today), *_rest_to_order(facts, standing, take_off)):
        found[line.product] = found.get(line.product, 0) + line.packs
    return tuple(OrderLine(product=code, packs=packs) for code, packs in found.items())


def still_to_come(facts: JobFacts) -> tuple[OrderLine, ...]:
    """Return what the job's orders still owe, product by product in the order they were asked for."""
    codes = dict.fromkeys(line.product for order in facts.orders for line in order.lines)
    owed = {code: sum(one.packs for one in still_owed(facts, code)) for code in codes}
    return tuple(OrderLine(product=code, packs=packs) for code, packs in owed.items() if packs)


def _rest_to_order(facts: JobFacts, standing: Standing, take_off: Sequence[BuyingLine]) -> Iterator[OrderLine]:
    """Yield materials, and boards for stairs, of which fewer were ordered or brought than the take-off says."""
    if standing.stage in _LAID:
        return
    for line in take_off:
        if line.thing in {Thing.BOARDS, Thing.GLUE} or not line.product:
            continue
        # A board that floors are laid with too: what the floors need is not there for the stairs.
        taken = sum(one.to_buy for one in take_off if one.thing is Thing.BOARDS and one.product == line.product)
        short = line.to_buy - max(0, got_for(facts, line.product) - taken)
        if short > 0:
            yield OrderLine(product=line.product, packs=short)


def got_for(facts: JobFacts, code: str) -> int:
    """Return the sound units of a product that a job's orders bring, or that were brought from free stock or found.

    What came beyond the orders counts too: packs sent in the place of damaged ones often come without an order.
    """
    damaged, brought = packs_damaged(facts, code), packs_from_free_stock(facts, code)
    found = sum(one.packs_more for one in facts.differences if one.product == code)
    return max(packs_promised(facts, code), packs_delivered(facts, code)) - damaged + brought + found


def _glue_to_order(facts: JobFacts, today: date) -> list[OrderLine]:
    found = []
    rooms = [room for room in facts.rooms if not is_wholly_laid(facts, room)]
    for code in dict.fromkeys(room.glue for room in rooms if room.glue):
        product = facts.products.get(code)
        if isinstance(product, Glue):
            on_hand = glue_on_hand(facts, product, today)
            short = math.ceil(on_hand.needed - on_hand.in_date) - sum(one.packs for one in still_owed(facts, code))
            if short > 0:
                found.append(OrderLine(product=code, packs=short))
    return found
