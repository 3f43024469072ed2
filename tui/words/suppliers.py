"""The sentences about suppliers, their terms, and what is still to be ordered from them."""

from collections.abc import Iterator
from datetime import date

from store.trade.returns import ReturnCredit
from store.trade.suppliers import Supplier
from tui.words.wording import clean, counted, figure, say_day, say_money, say_packs


def say_terms(one: Supplier, currency: str) -> str:
    """Return on what terms packs are taken back: “3 packs or more within 30 days, 25 % and 60.00 EUR kept”."""
    least = f"{one.least_return_packs} packs or more" if one.least_return_packs > 1 else "whole packs"
    within = f" within {counted(one.return_days, 'day')}" if one.return_days is not None else ""
    kept = [
        f"{figure(one.return_fee_percent)} %" if one.return_fee_percent else "",
        say_money(one.return_freight_minor, currency) if one.return_freight_minor else "",
    ]
    keeps = f", {' and '.join(filter(None, kept))} kept" if any(kept) else ""
    return f"{least}{within}{keeps}"


def say_lead(one: Supplier) -> str:
    """Return how long a supplier takes: “14 days”, or “not said”."""
    return counted(one.lead_days, "day") if one.lead_days is not None else "not said"


def say_credit(credit: ReturnCredit, currency: str, today: date) -> Iterator[str]:
    """Yield what is to be expected for packs that went back, and why it is less than their price."""
    name = f" from {clean(credit.terms.name)}" if credit.terms is not None else ""
    words = f"credit to expect{name}: {say_money(credit.credit_minor, currency)} for {say_packs(credit.packs)}"
    yield f"{words}{_come(credit, currency)}"
    if credit.is_late and credit.last_day is not None:
        yield f"they went back after {say_day(credit.last_day, today)}, the last day they are taken"
    elif credit.too_few and credit.terms is not None:
        yield f"fewer than {credit.terms.least_return_packs} packs are not taken back; leave them as a spare instead"
    elif credit.packs and not credit.credit_minor and credit.terms is not None:
        yield "the way back costs more than they bring; leave them as a spare instead"
    if credit.loose_boards:
        yield f"nobody takes back {counted(credit.loose_boards, 'loose board')}"


def _come(credit: ReturnCredit, currency: str) -> str:
    """What has come of a credit, as the end of a sentence."""
    if credit.settled:
        return f"; ✓ settled by {say_money(credit.come_minor, currency)}"
    if credit.come_minor:
        return f"; ▲ {say_money(credit.due_minor, currency)} of it to come"
    return "; ▲ not come yet" if credit.due_minor else ""
