"""What suppliers have credited: for packs that went back to them, and for packs that came damaged."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from fractions import Fraction

from store.errors import Problem


class CreditFor(StrEnum):
    """What a supplier owes a credit for: packs that went back, or packs that came damaged."""

    RETURN = "return"
    DAMAGE = "damage"


@dataclass(frozen=True, slots=True, kw_only=True)
class CreditDraft:
    """What a supplier has credited for packs of a product; ``number`` is the credit note's.

    ``settles``: no more is to come, whatever was expected. ``replaced_packs`` are sound packs that the supplier sent
    in the place of damaged ones.
    """

    at: datetime
    product: str
    amount_minor: int
    number: str = ""
    settles: bool = True
    owed_for: CreditFor = CreditFor.RETURN
    replaced_packs: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Credit(CreditDraft):
    """A credit on file."""

    id: int


MOST_CREDIT_MINOR = 1_000_000_000
MOST_REPLACED_PACKS = 100_000


def problems_beyond_price(draft: CreditDraft, price_minor: Fraction) -> Iterator[Problem]:
    """Yield that a credit is for more than the packs cost; where nobody knows their price it can be anything."""
    if 0 < price_minor < draft.amount_minor:
        say = "That is more than the packs cost; look at the amount, or put the product's price right first (Products)."
        yield Problem(field="amount_minor", say=say)


def problems_with_amount(draft: CreditDraft) -> Iterator[Problem]:
    """Yield what is wrong with the figures of a credit, whatever was expected; nothing at all is a credit refused."""
    if not 0 <= draft.amount_minor <= MOST_CREDIT_MINOR:
        yield Problem(field="amount_minor", say="A credit is from 0 to 10,000,000.00.")
    elif draft.amount_minor == 0 and not draft.replaced_packs and not draft.settles:
        yield Problem(field="amount_minor", say="A credit of nothing says only that no more is to come.")
    most = MOST_REPLACED_PACKS if draft.owed_for is CreditFor.DAMAGE else 0
    if not 0 <= draft.replaced_packs <= most:
        say = f"From 0 to {most:,} packs can have been sent in the place of damaged ones."
        yield Problem(field="replaced_packs", say=say if most else "Packs that went back are credited, not replaced.")
