"""What a job's material costs: planned by the take-off, ordered, and real once all is counted."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from store.trade.buying.nouns import Buying
from store.trade.damage import DamageClaim
from store.trade.events import Destination, Order, PlaceKind
from store.trade.facts import JobFacts
from store.trade.orders import costs_minor, lines_to_come
from store.trade.paid import paid_each_minor
from store.trade.products import Board, Product
from store.trade.returns import ReturnCredit
from store.trade.rounding import round_half_up
from store.trade.stacks import packs_damaged, packs_delivered, packs_from_free_stock, still_owed


@dataclass(frozen=True, slots=True, kw_only=True)
class CostLine:
    """One product of a job, in packs or tubs and minor units.

    ``planned`` is what the take-off asks for at the price on the sheet; ``ordered`` what the orders bring at their own
    prices; ``real`` what has come and stayed with the job, less credits; None while nothing has come.
    """

    product: str
    planned_packs: int
    planned_minor: int
    ordered_packs: int
    ordered_minor: int
    real_minor: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialCost:
    """The material of a job: a line for each product, and the ways here.

    ``unpriced`` are products that the job needs and of which nobody has named a price, and ``without_product`` counts
    the lines of the take-off that no product on file stands for: both count as nothing. ``freight_come_minor`` is what
    the ways here cost of the orders of which something has come.
    """

    lines: tuple[CostLine, ...]
    freight_minor: int
    freight_come_minor: int
    unpriced: tuple[str, ...]
    without_product: int = 0

    @property
    def planned_minor(self) -> int:
        return sum(one.planned_minor for one in self.lines)

    @property
    def ordered_minor(self) -> int:
        return sum(one.ordered_minor for one in self.lines) + self.freight_minor

    @property
    def real_minor(self) -> int | None:
        """What has come and stayed, with its way here; None while nothing has come."""
        told = [one.real_minor for one in self.lines if one.real_minor is not None]
        return sum(told) + self.freight_come_minor if told else None


def material_cost(
    facts: JobFacts, buying: Buying, went_back: Iterable[ReturnCredit], claims: Iterable[DamageClaim] = ()
) -> MaterialCost:
    """Return what a job's material costs.

    Real is what came sound from the suppliers and from free stock, less what went back to free stock, at what the
    orders paid for a pack on average; less the credit for what went back to a supplier: what has come of it, and what
    is still due. Damaged packs cost nothing until their claim is settled, and from then on what was not made good.
    Spare boards that stay with the customer are part of the job's cost, and so is what was thrown away or is missing.
    """
    credit = {one.product: one.come_minor + one.due_minor for one in went_back}
    claimed = {one.product: one for one in claims}
    needs, products = _needs(facts, buying)
    known = dict(facts.products) | products
    ordered = dict.fromkeys(line.product for order in facts.orders for line in order.lines)
    codes = [code for code in dict.fromkeys((*needs, *ordered, *_touched(facts))) if code in known]
    every = (_line(facts, known[code], needs.get(code, 0), credit.get(code, 0), claimed.get(code)) for code in codes)
    lines = tuple(one for one in every if one.planned_packs or one.ordered_packs or one.real_minor is not None)
    return MaterialCost(
        lines=lines,
        freight_minor=sum(order.freight_minor for order in facts.orders),
        freight_come_minor=sum(order.freight_minor for order in facts.orders if _has_come(facts, order)),
        unpriced=tuple(one.product for one in lines if not paid_each_minor(facts, known[one.product])),
        without_product=sum(1 for one in buying.lines if one.to_buy and not one.product),
    )


def _needs(facts: JobFacts, buying: Buying) -> tuple[dict[str, int], dict[str, Product]]:
    """What is to be bought of each product, and the materials among them, by code."""
    packs: dict[str, int] = {}
    for one in buying.lines:
        if one.product:
            packs[one.product] = packs.get(one.product, 0) + one.to_buy
    return packs, {one.sheet.code: one.sheet for one in buying.lines if one.sheet is not None}


def _line(facts: JobFacts, product: Product, needed: int, credit_minor: int, claim: DamageClaim | None) -> CostLine:
    each = paid_each_minor(facts, product)
    lost_minor = claim.claim_minor - claim.made_good_minor if claim else 0
    found = [costs_minor(order, product) for order in facts.orders]
    stayed = _stayed(facts, product)
    return CostLine(
        product=product.code,
        planned_packs=needed,
        planned_minor=needed * product.price_minor,
        ordered_packs=sum(packs for packs, _ in found),
        ordered_minor=sum(minor for _, minor in found),
        real_minor=None if stayed is None else round_half_up(stayed * each) + lost_minor - credit_minor,
    )


def _has_come(facts: JobFacts, order: Order) -> bool:
    """Whether anything of an order has come: what comes in fills the earliest day first."""
    lines = lines_to_come(order)
    codes = {line.product for line in lines}
    owed = sum(one.packs for code in codes for one in still_owed(facts, code) if one.order.id == order.id)
    return owed < sum(line.packs for line in lines)


def _touched(facts: JobFacts) -> Iterable[str]:
    yield from (line.product for one in facts.deliveries for line in one.lines)
    yield from (one.product for one in facts.moves)


def _stayed(facts: JobFacts, product: Product) -> Fraction | None:
    """The packs of a product that came and were not freed again, whole packs and parts; None where none came.

    What went back to the supplier is in it: its credit is taken off as money.
    """
    code, shelf = product.code, PlaceKind.SHELF
    per_pack = product.boards_per_pack if isinstance(product, Board) else 1
    moves = [one for one in facts.moves if one.product == code]
    shifted = packs_from_free_stock(facts, code)
    if not packs_delivered(facts, code) and not any(one.source.kind is shelf for one in moves):
        return None
    freed = sum(
        (one.packs + Fraction(one.boards, per_pack))
        for one in facts.counts
        if one.product == code and one.to is Destination.UNIT
    )
    return packs_delivered(facts, code) - packs_damaged(facts, code) + shifted - Fraction(freed)
