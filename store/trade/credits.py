"""What suppliers have credited for packs that went back to them."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from store.errors import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class CreditDraft:
    """What a supplier has credited for packs of a product that went back; ``number`` is the credit note's.

    ``settles``: no more is to come, whatever was expected.
    """

    at: datetime
    product: str
    amount_minor: int
    number: str = ""
    settles: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Credit(CreditDraft):
    """A credit on file."""

    id: int


MOST_CREDIT_MINOR = 1_000_000_000


def problems_with_amount(draft: CreditDraft) -> Iterator[Problem]:
    """Yield what is wrong with the figures of a credit, whatever was expected; nothing at all is a credit refused."""
    if not 0 <= draft.amount_minor <= MOST_CREDIT_MINOR:
        yield Problem(field="amount_minor", say="A credit is from 0 to 10,000,000.00.")
    elif draft.amount_minor == 0 and not draft.settles:
        yield Problem(field="amount_minor", say="A credit of nothing says only that no more is to come.")
