"""What suppliers owe for packs that came damaged: claimed at their price, made good by credit or by sound packs."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from store.errors import Problem
from store.trade.credits import CreditDraft, CreditFor, problems_beyond_price
from store.trade.diary import day_of
from store.trade.events import DeliveryLine
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.paid import paid_each_minor
from store.trade.rounding import round_half_up
from store.trade.stacks import packs_damaged

DAYS_FOLLOWED = 365
"""So long a claim stands among the credits to come; suppliers want to hear of visible damage within days (common
practice, no source), and one that is older was settled outside the records."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DamageClaim:
    """What is owed for the packs of one product of a job that came damaged.

    ``came_on`` is the day on which the latest of them came. ``claim_minor`` is what they cost, ``come_minor`` what has
    been credited so far, ``replaced_packs`` how many sound packs were sent in their place and ``replaced_minor`` what
    those are worth; ``settled`` whether the supplier said that this is all.
    """

    product: str
    packs: int
    came_on: date
    claim_minor: int
    come_minor: int = 0
    replaced_packs: int = 0
    replaced_minor: int = 0
    settled: bool = False

    @property
    def due_minor(self) -> int:
        """What is still to come; nothing once it was settled."""
        return 0 if self.settled else max(0, self.claim_minor - self.come_minor - self.replaced_minor)

    @property
    def is_open(self) -> bool:
        """Whether something is still to come, or would be if anybody knew what the packs cost."""
        unpriced = not self.claim_minor and not self.come_minor and self.replaced_packs < self.packs
        return not self.settled and (self.due_minor > 0 or unpriced)

    @property
    def made_good_minor(self) -> int:
        """What the damage does not cost the firm: what came and what is still due."""
        return self.come_minor + self.replaced_minor + self.due_minor


def claims_for(firm: FirmDraft, facts: JobFacts) -> tuple[DamageClaim, ...]:
    """Return what is owed for each product of a job of which packs came damaged, and what has come of it."""
    codes = dict.fromkeys(line.product for one in facts.deliveries for line in one.lines if line.damaged_packs)
    return tuple(claim for code in codes if (claim := claim_for(firm, facts, code)) is not None)


def claim_for(firm: FirmDraft, facts: JobFacts, code: str) -> DamageClaim | None:
    """Return what is owed for the damaged packs of a product; None where none came damaged.

    A damaged pack is claimed at what its order says, else at what its product's sheet says, with nothing kept back
    (common practice, no source; the supplier's terms of sale decide).
    """
    product, packs = facts.products.get(code), packs_damaged(facts, code)
    if product is None or not packs:
        return None
    notes = credits_for_damage(facts, code)
    replaced = min(packs, sum(one.replaced_packs for one in notes))
    each = paid_each_minor(facts, product)
    came = [one.at for one in facts.deliveries if any(_is_damaged(line, code) for line in one.lines)]
    return DamageClaim(
        product=code,
        packs=packs,
        came_on=day_of(firm, max(came)),
        claim_minor=round_half_up(packs * each),
        come_minor=sum(one.amount_minor for one in notes),
        replaced_packs=replaced,
        replaced_minor=round_half_up(replaced * each),
        settled=any(one.settles for one in notes),
    )


def _is_damaged(line: DeliveryLine, code: str) -> bool:
    return line.product == code and line.damaged_packs > 0


def credits_for_damage(facts: JobFacts, code: str) -> tuple[CreditDraft, ...]:
    """Return the credits on file for damaged packs of a product."""
    return tuple(one for one in facts.credits if one.product == code and one.owed_for is CreditFor.DAMAGE)


def problems_with_damage_credit(draft: CreditDraft, facts: JobFacts) -> Iterator[Problem]:
    """Yield why nothing, or not so much, can have come for damaged packs of a job."""
    packs = packs_damaged(facts, draft.product)
    came = [one.at for one in facts.deliveries if any(_is_damaged(line, draft.product) for line in one.lines)]
    if not packs:
        yield Problem(field="product", say=f"No pack of {draft.product} came damaged to this job.")
        return
    if draft.at < min(came):
        yield Problem(field="at", say="A credit cannot come before the damaged packs did.")
    left = packs - sum(one.replaced_packs for one in credits_for_damage(facts, draft.product))
    if draft.replaced_packs > left:
        say = f"{packs} came damaged; at most {left} can still be sent in their place."
        yield Problem(field="replaced_packs", say=say)
    elif draft.product in facts.products:
        each = paid_each_minor(facts, facts.products[draft.product])
        if not draft.replaced_packs:
            yield from problems_beyond_price(draft, left * each)
        elif each and draft.amount_minor > (left - draft.replaced_packs) * each:
            say = "That is more than the packs not sent instead are worth; 0 where nothing was credited."
            yield Problem(field="amount_minor", say=say)
