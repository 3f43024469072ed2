"""What a job still has to order, and what its orders still have to bring."""

from fractions import Fraction

from store.trade.events import OrderLine
from store.trade.facts import JobFacts
from store.trade.glue import glue
from store.trade.laying import is_wholly_laid
from store.trade.products import Glue
from store.trade.stacks import packs_ordered, still_owed
from store.trade.verdict import DeedKind, Standing


def still_to_order(facts: JobFacts, standing: Standing) -> tuple[OrderLine, ...]:
    """Return the packs of boards and the tubs of glue that the job needs and has not ordered, boards first.

    Boards as the packs hold says; glue for the floors not laid yet, at the rate on its tub, without waste.
    """
    boards = [
        OrderLine(product=deed.product, packs=deed.packs or 1) for deed in standing.to_do if deed.kind is DeedKind.ORDER
    ]
    return (*boards, *_glue_to_order(facts))


def still_to_come(facts: JobFacts) -> tuple[OrderLine, ...]:
    """Return what the job's orders still owe, product by product in the order they were asked for."""
    codes = dict.fromkeys(line.product for order in facts.orders for line in order.lines)
    owed = {code: sum(one.packs for one in still_owed(facts, code)) for code in codes}
    return tuple(OrderLine(product=code, packs=packs) for code, packs in owed.items() if packs)


def _glue_to_order(facts: JobFacts) -> list[OrderLine]:
    found = []
    rooms = [room for room in facts.rooms if not is_wholly_laid(facts, room)]
    for code in dict.fromkeys(room.glue for room in rooms if room.glue):
        product = facts.products.get(code)
        if isinstance(product, Glue):
            area = Fraction(sum(room.net_mm2 for room in rooms if room.glue == code), 1_000_000)
            needed = glue(area_m2=area, rate_g_per_m2=product.rate_g_per_m2, tub_kg=product.tub_kg).tubs
            short = needed - packs_ordered(facts, code)
            if short > 0:
                found.append(OrderLine(product=code, packs=short))
    return found
