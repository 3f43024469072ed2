"""What a supplier says an order will bring, and when: confirmed, short, or with a part that comes later."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from store.errors import Problem

MOST_LINES = 200
MOST_PACKS = 1_000_000
"""A paper may hold more than anybody orders here; the desk asks for less than the order has (`orders.py`)."""
MOST_PRICE_MINOR = 100_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmedLine:
    """What a supplier will send of one product, and when; a product may have a second line for what comes later.

    No packs at all: they will send none. ``due_on`` and ``price_minor`` are None where the supplier named none.
    """

    product: str
    packs: int
    due_on: date | None = None
    price_minor: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ConfirmationDraft:
    """What a supplier said an order will bring; ``number`` is the supplier's own, as it stands on the paper."""

    at: datetime
    lines: tuple[ConfirmedLine, ...]
    number: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirmation(ConfirmationDraft):
    """A confirmation on file."""

    id: int


def problems_with_confirmed(draft: ConfirmationDraft) -> tuple[Problem, ...]:
    """Return what is wrong with the figures of a confirmation, whatever the order asked for."""
    return tuple(_problems(draft))


def _problems(draft: ConfirmationDraft) -> Iterator[Problem]:
    if not draft.lines:
        yield Problem(field="lines", say="Say of at least one product how many packs come.")
    if len(draft.lines) > MOST_LINES:
        yield Problem(field="lines", say=f"A confirmation has at most {MOST_LINES} lines.")
    for index, line in enumerate(draft.lines):
        if not 0 <= line.packs <= MOST_PACKS:
            say = f"Packs are a whole number from 0 to {MOST_PACKS:,}, not {line.packs:,}."
            yield Problem(field=f"lines.{index}.packs", say=say)
        yield from problems_with_price(f"lines.{index}.price_minor", line.price_minor)


def problems_with_price(field: str, price_minor: int | None) -> Iterator[Problem]:
    """Yield what is wrong with the price of a pack or tub, or of an order's way here."""
    if price_minor is not None and not 0 <= price_minor <= MOST_PRICE_MINOR:
        yield Problem(field=field, say="A price is from 0 to 1,000,000.00.")
