"""The counter for what is still to be ordered, over all open jobs."""

from datetime import date

from store.desk.buying_counter import BuyingCounter
from store.desk.cards import JobCard, ToOrder
from store.desk.counter import Bench
from store.desk.job_counter import JobCounter
from store.desk.time_counter import TimeCounter
from store.trade.events import OrderLine
from store.trade.planning.job_network import JobTimes
from store.trade.products import Product
from store.trade.shopping import still_to_order
from store.trade.worth import worth_minor


class ShoppingCounter:
    """Says what the open jobs need and have not ordered, whom it is bought from, and by when it must be ordered."""

    def __init__(self, bench: Bench, jobs: JobCounter, times: TimeCounter, buying: BuyingCounter) -> None:
        self._bench = bench
        self._jobs, self._times, self._buying = jobs, times, buying

    def of_job(self, card: JobCard) -> tuple[OrderLine, ...]:
        """Return what one job needs and has not ordered."""
        return still_to_order(card.facts, card.standing, self._bench.today(), self._buying.of(card.facts).lines)

    def to_order(self) -> tuple[ToOrder, ...]:
        """Return what is still to be ordered, by supplier, of each the most urgent first."""
        cards = [card for card in self._jobs.today() if card.facts.rooms or card.facts.flights]
        times = self._times.of_all(card.facts for card in cards)
        found = [line for card in cards for line in self._lines(card, times.get(card.ref))]
        return tuple(sorted(found, key=lambda one: (not one.supplier, one.supplier, one.by or date.max, one.job_ref)))

    def _lines(self, card: JobCard, times: JobTimes | None) -> list[ToOrder]:
        materials: dict[str, Product] = {one.code: one for one in card.facts.materials}
        known = materials | dict(card.facts.products)
        lines, found = self.of_job(card), []
        days = self._times.order_days(times, (known[line.product] for line in lines))
        for line in lines:
            product = known[line.product]
            found.append(
                ToOrder(
                    product=line.product,
                    thing=product.thing,
                    packs=line.packs,
                    supplier=product.supplier,
                    by=days.get(line.product),
                    job_ref=card.ref,
                    job_title=card.facts.job.title,
                    worth_minor=worth_minor(product, line.packs),
                )
            )
        return found
