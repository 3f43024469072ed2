"""What comes back for packs that went back to their supplier, by that supplier's terms."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from store.errors import Problem
from store.trade.credits import CreditDraft, CreditFor, problems_beyond_price, problems_with_amount
from store.trade.damage import problems_with_damage_credit
from store.trade.diary import day_of
from store.trade.events import Destination
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.paid import paid_each_minor
from store.trade.suppliers import Supplier, return_credit_minor, supplier_of


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnCredit:
    """The credit to expect for one product of a job.

    ``packs`` are the whole packs counted back to the supplier, ``loose_boards`` what nobody takes back. ``last_day`` is
    the last day on which the terms take them, None where they name none; ``sent_on`` the day of the latest count.
    ``terms`` is None where the product names no supplier with terms on file: then the whole price is expected.
    ``come_minor`` is what has been credited so far, ``settled`` whether the supplier said that this is all.
    """

    product: str
    packs: int
    loose_boards: int
    sent_on: date
    last_day: date | None
    terms: Supplier | None
    credit_minor: int
    come_minor: int = 0
    settled: bool = False

    @property
    def due_minor(self) -> int:
        """What is still to come; nothing once a credit settled it."""
        return 0 if self.settled else max(0, self.credit_minor - self.come_minor)

    @property
    def is_late(self) -> bool:
        """Whether they went back after the last day."""
        return self.last_day is not None and self.sent_on > self.last_day

    @property
    def too_few(self) -> bool:
        """Whether the terms take more packs at once."""
        return self.terms is not None and 0 < self.packs < self.terms.least_return_packs


def credits_for(firm: FirmDraft, facts: JobFacts) -> tuple[ReturnCredit, ...]:
    """Return the credit to expect for each product of a job of which something went back, and what has come of it."""
    back = dict.fromkeys(one.product for one in facts.counts if one.to is Destination.RETURN)
    return tuple(credit for code in back if (credit := credit_for(firm, facts, code)) is not None)


def credit_for(firm: FirmDraft, facts: JobFacts, code: str) -> ReturnCredit | None:
    """Return the credit to expect for a product of a job; None where none of it went back to the supplier.

    Only whole packs are taken back, and only in time: published return policies agree on that. A pack is worth what
    its order says, else what its product's sheet says.
    """
    product = facts.products.get(code)
    counts = [one for one in facts.counts if one.product == code and one.to is Destination.RETURN]
    if not counts or product is None:
        return None
    packs, loose = sum(one.packs for one in counts), sum(one.boards for one in counts)
    sent_on = max(day_of(firm, one.at) for one in counts)
    terms = supplier_of(firm.suppliers, product.supplier)
    came = [day_of(firm, one.at) for one in facts.deliveries if any(line.product == code for line in one.lines)]
    last_day = None
    if terms is not None and terms.return_days is not None and came:
        last_day = max(came) + timedelta(days=terms.return_days)
    late = last_day is not None and sent_on > last_day
    price = paid_each_minor(facts, product)
    asked = terms or Supplier(name="")
    notes = [one for one in facts.credits if one.product == code and one.owed_for is CreditFor.RETURN]
    return ReturnCredit(
        product=code,
        packs=packs,
        loose_boards=loose,
        sent_on=sent_on,
        last_day=last_day,
        terms=terms,
        credit_minor=0 if late else return_credit_minor(packs=packs, price_minor=price, terms=asked),
        come_minor=sum(one.amount_minor for one in notes),
        settled=any(one.settles for one in notes),
    )


def problems_with_credit(draft: CreditDraft, facts: JobFacts, now: datetime) -> tuple[Problem, ...]:
    """Return what is wrong with a credit that is said to have come."""
    return tuple(_credit_problems(draft, facts, now))


def _credit_problems(draft: CreditDraft, facts: JobFacts, now: datetime) -> Iterator[Problem]:
    if draft.at > now:
        yield Problem(field="at", say="That moment has not come yet; write down what has happened.")
    if draft.owed_for is CreditFor.DAMAGE:
        yield from problems_with_damage_credit(draft, facts)
    else:
        yield from _return_problems(draft, facts)
    yield from problems_with_amount(draft)


def _return_problems(draft: CreditDraft, facts: JobFacts) -> Iterator[Problem]:
    back = [one.at for one in facts.counts if one.product == draft.product and one.to is Destination.RETURN]
    if not back:
        yield Problem(field="product", say=f"None of {draft.product} went back to its supplier from this job.")
    elif draft.at < min(back):
        yield Problem(field="at", say="A credit cannot come before the packs went back.")
    elif draft.product in facts.products:
        packs = sum(one.packs for one in facts.counts if one.product == draft.product and one.to is Destination.RETURN)
        yield from problems_beyond_price(draft, packs * paid_each_minor(facts, facts.products[draft.product]))
