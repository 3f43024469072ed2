"""What suppliers confirmed and credited, in a folder and out of it."""

from store.papers.events_out import Entry, Stamp, kept
from store.papers.named import Named
from store.papers.spot import Spot, day, instant, listed, opened, text, truth, whole, word_of
from store.trade.confirmations import ConfirmationDraft, ConfirmedLine, problems_with_confirmed
from store.trade.credits import CreditDraft, CreditFor, problems_with_amount


def confirmation(spot: Spot, named: Named) -> ConfirmationDraft:
    """Return what a supplier said of an order: how much of which product comes on which day."""
    keys = opened(spot, "at number lines")
    draft = ConfirmationDraft(
        at=keys.need("at", instant),
        lines=keys.need("lines", lambda spot: listed(spot, lambda one: _line(one, named))),
        number=keys.may("number", text, ""),
    )
    keys.vet(problems_with_confirmed(draft))
    return draft


def _line(spot: Spot, named: Named) -> ConfirmedLine:
    keys = opened(spot, "product packs due_on price_minor")
    return ConfirmedLine(
        product=keys.need("product", named.product),
        packs=keys.need("packs", whole),
        due_on=keys.may("due_on", day, None),
        price_minor=keys.may("price_minor", whole, None),
    )


def credit(spot: Spot, named: Named) -> CreditDraft:
    """Return what a supplier has credited; unless it says otherwise no more is to come."""
    keys = opened(spot, "at product amount_minor number settles for replaced_packs")
    draft = CreditDraft(
        at=keys.need("at", instant),
        product=keys.need("product", named.product),
        amount_minor=keys.need("amount_minor", whole),
        number=keys.may("number", text, ""),
        settles=keys.may("settles", truth, True),
        owed_for=keys.may("for", word_of(CreditFor), CreditFor.RETURN),
        replaced_packs=keys.may("replaced_packs", whole, 0),
    )
    keys.vet(tuple(problems_with_amount(draft)))
    return draft


def credit_out(draft: CreditDraft, stamp: Stamp) -> Entry:
    """Write what a supplier has credited."""
    return kept(
        {
            "at": stamp(draft.at),
            "product": draft.product,
            "amount_minor": draft.amount_minor,
            "number": draft.number or None,
            "settles": None if draft.settles else False,
            "for": None if draft.owed_for is CreditFor.RETURN else str(draft.owed_for),
            "replaced_packs": draft.replaced_packs or None,
        }
    )
