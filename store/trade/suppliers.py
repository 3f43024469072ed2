"""Who packs and tubs are bought from: their days to come, and on what terms they take packs back."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Problem
from store.trade.rounding import round_half_up

MOST_SUPPLIERS = 100
MOST_LEAD_DAYS = 730


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplier:
    """Somebody the firm buys from, by name.

    ``lead_days`` are the calendar days from an order to its delivery, for products whose sheet says none. Packs are
    taken back whole: at least ``least_return_packs`` of a product, within ``return_days`` of their delivery (None: no
    end is known), less ``return_fee_percent`` of their price and less ``return_freight_minor`` for the way back.
    """

    name: str
    contact: str = ""
    lead_days: int | None = None
    least_return_packs: int = 1
    return_days: int | None = None
    return_fee_percent: float = 0.0
    return_freight_minor: int = 0


def return_credit_minor(*, packs: int, price_minor: Fraction | int, terms: Supplier) -> int:
    """Return what a supplier gives back for whole packs of a product, in minor money units, rounded half up.

    The price of a pack may be an average: the sum is rounded, not the price. Nothing below the least number of packs,
    and never less than nothing: the way back may cost more than they bring.
    Published return policies ask for at least 3 to 5 packs, keep 15 to 45 % and leave the freight to the buyer.

    >>> terms = Supplier(name="Timber yard", least_return_packs=4, return_fee_percent=25, return_freight_minor=6000)
    >>> return_credit_minor(packs=4, price_minor=18000, terms=terms)
    48000
    """
    if packs < terms.least_return_packs:
        return 0
    # In hundredths of a percent, so that no fee is a binary fraction.
    kept = packs * price_minor * Fraction(10_000 - round(terms.return_fee_percent * 100), 10_000)
    return max(0, round_half_up(kept) - terms.return_freight_minor)


def supplier_of(suppliers: Sequence[Supplier], name: str) -> Supplier | None:
    """Return the supplier of a name, or None."""
    return next((one for one in suppliers if one.name == name), None)


def problems_with_suppliers(suppliers: Sequence[Supplier]) -> Iterator[Problem]:
    """Yield what is wrong with the firm's suppliers together."""
    if len(suppliers) > MOST_SUPPLIERS:
        yield Problem(field="suppliers", say=f"At most {MOST_SUPPLIERS} suppliers can be kept.")
    names = [one.name for one in suppliers]
    for name in {one for one in names if names.count(one) > 1}:
        yield Problem(field="suppliers", say=f"There is a supplier “{name}” already.")
    for one in suppliers:
        for problem in problems_with_supplier(one):
            yield Problem(field="suppliers", say=problem.say)


def problems_with_supplier(one: Supplier) -> Iterator[Problem]:
    """Yield what is wrong with one supplier's card, beside its fields."""
    if not one.name.strip():
        yield Problem(field="name", say="A supplier needs a name.")
    if one.lead_days is not None and not 0 <= one.lead_days <= MOST_LEAD_DAYS:
        yield Problem(field="lead_days", say=f"Days to come are from 0 to {MOST_LEAD_DAYS}.")
    if not 1 <= one.least_return_packs <= 1000:
        yield Problem(field="least_return_packs", say="The fewest packs taken back are from 1 to 1000.")
    if one.return_days is not None and not 0 <= one.return_days <= 3650:
        yield Problem(field="return_days", say="Days to return are from 0 to 3650.")
    if not 0 <= one.return_fee_percent <= 100:
        yield Problem(field="return_fee_percent", say="What the supplier keeps is from 0 to 100 %.")
    if not 0 <= one.return_freight_minor <= 100_000_000:
        yield Problem(field="return_freight_minor", say="The way back costs nothing or more.")
