"""What a job's list to buy costs, as far as prices are on file."""

from dataclasses import dataclass

from store.trade.buying.nouns import Buying, BuyingLine
from store.trade.facts import JobFacts


@dataclass(frozen=True, slots=True, kw_only=True)
class Cost:
    """The sum of the lines that have a price, in minor money units, and how many lines to buy have none."""

    minor: int
    unpriced: int


def price_of(line: BuyingLine, facts: JobFacts) -> int | None:
    """Return the price of one unit of a line; None where no product or no price is on file."""
    product = line.sheet or facts.products.get(line.product)
    return (product.price_minor or None) if product else None


def cost_of(buying: Buying, facts: JobFacts) -> Cost:
    """Return what is bought comes to; a line that is left out costs nothing."""
    prices = [(line.to_buy, price_of(line, facts)) for line in buying.lines if line.to_buy]
    return Cost(
        minor=sum(units * price for units, price in prices if price is not None),
        unpriced=sum(price is None for _, price in prices),
    )
