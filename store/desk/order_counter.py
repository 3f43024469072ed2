"""The counter for what becomes of orders: free stock kept before them, what suppliers confirm, credits that come."""

from collections.abc import Iterable, Iterator
from datetime import date, timedelta

from store.desk.cards import CreditDue
from store.desk.counter import Bench, must_be_of_job, refuse
from store.desk.pack_counter import PackCounter
from store.errors import Problem
from store.trade.batches import batches_with_job
from store.trade.buying.job_take_off import job_take_off
from store.trade.confirmations import Confirmation, ConfirmationDraft
from store.trade.credits import Credit, CreditDraft, CreditFor
from store.trade.damage import DAYS_FOLLOWED, DamageClaim, claims_for
from store.trade.diary import day_of
from store.trade.events import SHELF, UNIT, MoveDraft, Order, OrderLine, PlaceKind
from store.trade.facts import JobFacts, known_at
from store.trade.firm import FirmDraft
from store.trade.from_stock import FreeLot, boards_from_stock, tubs_from_stock
from store.trade.material_cost import MaterialCost, material_cost
from store.trade.order_states import OrderStanding, order_standing
from store.trade.orders import problems_with_confirmation
from store.trade.products import Board
from store.trade.returns import ReturnCredit, credits_for, problems_with_credit

Problems = tuple[Problem, ...]


class OrderCounter:
    """What stands free before an order is placed, what its supplier says of it, and what comes back for it."""

    def __init__(self, bench: Bench, packs: PackCounter) -> None:
        self._bench, self._packs = bench, packs

    def free_for(self, ref: str, needed: Iterable[OrderLine]) -> tuple[FreeLot, ...]:
        """Return what of the packs and tubs a job needs stands free in the unit, batch by batch.

        Of a board only what lies with the job already, else a single batch; of a glue what goes off first.
        """
        facts, today, stock = self._bench.facts(ref), self._bench.today(), self._packs.stock(spares=False)
        found: list[FreeLot] = []
        for line in needed:
            shelf = [
                FreeLot(product=one.product, batch=one.batch, packs=one.packs, use_by=one.use_by)
                for one in stock
                if one.product == line.product and one.place is PlaceKind.SHELF
            ]
            if isinstance(self._bench.cabinet.products.by_code(line.product), Board):
                free = {one.batch: one.packs for one in shelf}
                taken = boards_from_stock(line.packs, free, batches_with_job(facts, line.product))
            else:
                taken = tubs_from_stock(line.packs, shelf, today)
            days = {one.batch: one.use_by for one in shelf}
            found += [
                FreeLot(product=line.product, batch=batch, packs=packs, use_by=days[batch])
                for batch, packs in taken.items()
            ]
        return tuple(found)

    def keep_problems(self, ref: str, lots: Iterable[FreeLot]) -> Problems:
        """Return why free stock cannot be kept for a job: it is not there any longer."""
        return tuple(one for draft in self._moves(lots) for one in self._packs.move_problems(ref, draft))

    def keep(self, ref: str, lots: Iterable[FreeLot]) -> tuple[FreeLot, ...]:
        """File that free stock in the unit is kept for a job from now on, all of it or nothing."""
        kept = tuple(lots)
        with self._bench.deed():
            refuse(self.keep_problems(ref, kept))
            events, job_id = self._bench.cabinet.events, self._bench.job_id(ref)
            moves = tuple(events.add_move(job_id, draft) for draft in self._moves(kept))
            subject = ", ".join(dict.fromkeys(one.product for one in kept))
            self._bench.write_down("free stock kept", ref=ref, subject=subject, after=moves)
        return kept

    def _moves(self, lots: Iterable[FreeLot]) -> tuple[MoveDraft, ...]:
        now = self._bench.now()
        return tuple(
            MoveDraft(at=now, product=one.product, batch=one.batch, packs=one.packs, source=SHELF, target=UNIT)
            for one in lots
        )

    def standings(self, facts: JobFacts) -> tuple[OrderStanding, ...]:
        """Return how far each order of a job is, as they stand in its facts."""
        return tuple(order_standing(facts, order, self._bench.today()) for order in facts.orders)

    def confirmation_problems(self, order: Order, draft: ConfirmationDraft) -> Problems:
        """Return what is wrong with what a supplier is said to have confirmed."""
        return problems_with_confirmation(draft, order, self._bench.now())

    def confirm(self, ref: str, order: Order, draft: ConfirmationDraft) -> Confirmation:
        """File what a supplier says an order will bring; the packs' days go by it from then on."""
        with self._bench.deed():
            refuse(self.confirmation_problems(order, draft))
            must_be_of_job(ref, order, self._bench.facts(ref).orders)
            said = self._bench.cabinet.events.add_confirmation(self._bench.job_id(ref), order.id, draft)
            subject = ", ".join(dict.fromkeys(line.product for line in draft.lines))
            self._bench.write_down("order confirmed", ref=ref, subject=subject, after=said)
        return said

    def credit_problems(self, ref: str, draft: CreditDraft) -> Problems:
        """Return what is wrong with a credit that is said to have come."""
        return problems_with_credit(draft, self._bench.facts(ref), self._bench.now())

    def credit(self, ref: str, draft: CreditDraft) -> Credit:
        """File what a supplier has credited for packs of a job that went back or came damaged."""
        with self._bench.deed():
            refuse(self.credit_problems(ref, draft))
            came = self._bench.cabinet.events.add_credit(self._bench.job_id(ref), draft)
            self._bench.write_down("credit came", ref=ref, subject=draft.product, after=came)
        return came

    def credits_due(self) -> tuple[CreditDue, ...]:
        """Return the credits that are still to come, of closed jobs too, the longest awaited first."""
        firm, now = self._bench.firm(), self._bench.now()
        today, since = day_of(firm, now), now - timedelta(days=DAYS_FOLLOWED)
        refs = self._bench.cabinet.stock.refs_awaiting_credit(since)
        known = (known_at(facts, now, today) for facts in self._bench.cabinet.facts.many(refs, pieces=False))
        found = [due for facts in known for due in _credits_due(firm, facts, day_of(firm, since))]
        return tuple(sorted(found, key=lambda one: (one.since, one.job_ref, one.product, one.owed_for)))

    def cost(self, facts: JobFacts) -> MaterialCost:
        """Return what a job's material costs: planned, ordered and real, as its facts are known by now."""
        firm, now = self._bench.firm(), self._bench.now()
        known = known_at(facts, now, day_of(firm, now))
        return material_cost(known, job_take_off(known, firm), credits_for(firm, known), claims_for(firm, known))


def _credits_due(firm: FirmDraft, facts: JobFacts, damaged_since: date) -> Iterator[CreditDue]:
    """What suppliers still owe for a job."""

    def due(owed_for: CreditFor, since: date, of: ReturnCredit | DamageClaim) -> CreditDue:
        return CreditDue(
            job_ref=facts.job.ref,
            job_title=facts.job.title,
            supplier=_supplier(facts, of.product),
            owed_for=owed_for,
            product=of.product,
            packs=of.packs,
            since=since,
            due_minor=of.due_minor,
        )

    yield from (due(CreditFor.RETURN, one.sent_on, one) for one in credits_for(firm, facts) if one.due_minor)
    claims = (one for one in claims_for(firm, facts) if one.is_open and one.came_on >= damaged_since)
    yield from (due(CreditFor.DAMAGE, one.came_on, one) for one in claims)


def _supplier(facts: JobFacts, code: str) -> str:
    """Whom the packs came from: what the latest order of them says, else the product's sheet."""
    asked: list[tuple[date, str]] = [
        (order.on, order.supplier) for order in facts.orders if any(line.product == code for line in order.lines)
    ]
    return next((name for _, name in sorted(asked, reverse=True) if name), facts.products[code].supplier)
