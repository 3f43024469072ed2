"""The counter for packs: orders, deliveries, moves, openings, and what lies where."""

from dataclasses import replace
from datetime import date

from store.desk.cards import StockLine
from store.desk.counter import Bench, must_be_of_job, refuse
from store.desk.shelves import stock_lines
from store.errors import ChangedMeanwhile, Problem, Refused
from store.trade import checks
from store.trade.diary import day_of
from store.trade.events import (
    Delivery,
    DeliveryDraft,
    Move,
    MoveDraft,
    NoteDraft,
    Opening,
    OpeningDraft,
    Order,
    OrderDraft,
    PlaceKind,
)
from store.trade.ledger import balances
from store.trade.order_states import later_rest
from store.trade.products import Board

Problems = tuple[Problem, ...]


class PackCounter:
    """Orders, deliveries, moves and openings of packs, and what lies where."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def order_problems(self, draft: OrderDraft) -> Problems:
        codes = frozenset(product.code for product in self._bench.cabinet.products.all())
        return checks.problems_with_order(draft, codes, self._bench.today())

    def order(self, ref: str, draft: OrderDraft) -> Order:
        """File an order for a job."""
        with self._bench.deed():
            refuse(self.order_problems(draft))
            order = self._bench.cabinet.events.add_order(self._bench.job_id(ref), draft)
            self._bench.write_down("order placed", ref=ref, subject=_products(draft), after=order)
        return order

    def postponing_problems(self, due_on: date) -> Problems:
        if due_on < self._bench.today():
            return (Problem(field="due_on", say="That day is over already; write the day that is promised now."),)
        return ()

    def postpone(self, ref: str, order: Order, due_on: date, said: str = "") -> Order:
        """File that an order is due on another day, and what was said about it, if anything.

        An order on file is never changed: the old one is taken back, and the same packs stand under the new day. Of one
        that was confirmed the new day is a confirmation more, for what has not come.
        """
        with self._bench.deed():
            refuse(self.postponing_problems(due_on))
            must_be_of_job(ref, order, self._bench.facts(ref).orders)
            now, job_id = self._bench.now(), self._bench.job_id(ref)
            events = self._bench.cabinet.events
            if order.confirmed:
                return self._confirm_for(ref, order, due_on, said)
            events.take_back("order", order.id, at=now, who=self._bench.who, why="due on another day")
            postponed = events.add_order(job_id, replace(order, due_on=due_on))
            if said.strip():
                events.add_note(job_id, NoteDraft(at=now, text=said))
            self._bench.write_down(
                "order due on another day", ref=ref, subject=_products(order), before=order, after=postponed
            )
        return postponed

    def _confirm_for(self, ref: str, order: Order, due_on: date, said: str) -> Order:
        events, now, job_id = self._bench.cabinet.events, self._bench.now(), self._bench.job_id(ref)
        facts = self._bench.facts(ref)
        if next(one.confirmed for one in facts.orders if one.id == order.id) != order.confirmed:
            raise ChangedMeanwhile("What was confirmed of the order has changed since it was shown; look again.")
        later = later_rest(facts, order, due_on, now)
        if not later.lines:
            raise Refused("Nothing of that order is still to come.")
        rest = events.add_confirmation(job_id, order.id, later)
        if said.strip():
            events.add_note(job_id, NoteDraft(at=now, text=said))
        self._bench.write_down(
            "order due on another day", ref=ref, subject=_products(order), before=order.confirmed[-1], after=rest
        )
        return replace(order, confirmed=(*order.confirmed, rest))

    def delivery_problems(self, ref: str, draft: DeliveryDraft) -> Problems:
        day = day_of(self._bench.firm(), draft.at)
        return checks.problems_with_delivery(draft, self._bench.facts(ref), self._bench.now(), day)

    def take_in(self, ref: str, draft: DeliveryDraft) -> Delivery:
        """File a delivery for a job, with its batches and damage, where it was put."""
        with self._bench.deed():
            refuse(self.delivery_problems(ref, draft))
            delivery = self._bench.cabinet.events.add_delivery(self._bench.job_id(ref), draft)
            self._bench.write_down("delivery taken in", ref=ref, subject=_products(draft), after=delivery)
        return delivery

    def move_problems(self, ref: str, draft: MoveDraft) -> Problems:
        facts = self._bench.facts(ref)
        found = checks.problems_with_move(draft, facts, self.on_shelf(draft.product), self._bench.now())
        return (*found, *self._stale_problems(ref, draft))

    def _stale_problems(self, ref: str, draft: MoveDraft) -> Problems:
        """That tubs past their day are brought to be used; a batch that nobody wrote down is not known to be old."""
        if not draft.batch or draft.target.kind is PlaceKind.SHELF:
            return ()
        ages = self._bench.cabinet.stock.ages(self._bench.now(), {ref})
        age = ages.get((draft.product, draft.batch, ref)) or ages.get((draft.product, draft.batch, ""))
        if age is None or age.use_by is None or age.use_by >= day_of(self._bench.firm(), draft.at):
            return ()
        say = f"{draft.product}, batch {draft.batch}, is past its last day and is not brought to be used any more."
        return (Problem(field="packs", say=say),)

    def carry(self, ref: str, draft: MoveDraft) -> Move:
        """File whole packs carried from one place to another for a job."""
        with self._bench.deed():
            refuse(self.move_problems(ref, draft))
            move = self._bench.cabinet.events.add_move(self._bench.job_id(ref), draft)
            self._bench.write_down("packs carried", ref=ref, subject=draft.product, after=move)
        return move

    def opening_problems(self, ref: str, draft: OpeningDraft) -> Problems:
        return checks.problems_with_opening(draft, self._bench.facts(ref), self._bench.now())

    def open(self, ref: str, draft: OpeningDraft) -> Opening:
        """File whole packs opened for laying."""
        with self._bench.deed():
            refuse(self.opening_problems(ref, draft))
            opening = self._bench.cabinet.events.add_opening(self._bench.job_id(ref), draft)
            self._bench.write_down("packs opened", ref=ref, subject=draft.product, after=opening)
        return opening

    def batches(self) -> dict[str, tuple[str, ...]]:
        """Return the batches of each product on file, by its code, the latest delivered first."""
        return self._bench.cabinet.stock.batches()

    def on_shelf(self, code: str) -> dict[str, int]:
        """Return the whole packs of free stock of one product in the unit, by batch."""
        shelf: dict[str, int] = {}
        for line in self.stock(spares=False):
            if line.product == code and line.place is PlaceKind.SHELF:
                shelf[line.batch] = shelf.get(line.batch, 0) + line.packs
        return shelf

    def stock(self, *, spares: bool = True) -> tuple[StockLine, ...]:
        """Return what lies where, of every product and batch, by product, batch and place.

        Without ``spares`` what closed jobs left with their customers is not told.
        """
        cabinet, now = self._bench.cabinet, self._bench.now()
        products = {product.code: product for product in cabinet.products.all()}
        per_pack = {code: one.boards_per_pack for code, one in products.items() if isinstance(one, Board)}
        heaps = balances((one for one in cabinet.stock.movements(now, spares=spares) if one.at <= now), per_pack)
        refs = {heap.job_ref for heap in heaps if heap.job_ref}
        titles = {job.ref: job.title for job in cabinet.jobs.of_refs(refs)}
        return stock_lines(heaps, products, titles, cabinet.stock.ages(now, refs))


def _products(draft: OrderDraft | DeliveryDraft) -> str:
    return ", ".join(dict.fromkeys(line.product for line in draft.lines))
