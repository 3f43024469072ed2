"""What a pack of a job cost: one answer for returns, claims and the material's cost."""

from fractions import Fraction

from store.trade.facts import JobFacts
from store.trade.orders import each_minor
from store.trade.products import ProductDraft


def paid_each_minor(facts: JobFacts, product: ProductDraft) -> Fraction:
    """Return what a pack of a product cost a job on average, exact, in minor units.

    Packs that were sent for nothing in the place of damaged ones make the others no cheaper.
    """
    sent_free = sum(one.replaced_packs for one in facts.credits if one.product == product.code)
    return each_minor(facts.orders, product, sent_free=sent_free)
