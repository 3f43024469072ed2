"""Materials among the products of a folder, read and written."""

from store.papers.events_out import Entry, figure, kept
from store.papers.spot import Spot, number, opened, text, truth, whole, word_of
from store.trade.materials import MaterialDraft
from store.trade.things import Thing


def material(spot: Spot) -> MaterialDraft:
    """Return a material; what it does not say is as usual."""
    keys = opened(spot, "code kind name thing size width_mm rate price_minor needs_training safety lead_days supplier")
    return MaterialDraft(
        code=keys.need("code", text),
        name=keys.need("name", text),
        thing=keys.need("thing", word_of(Thing)),
        size=keys.may("size", number, 1),
        width_mm=keys.may("width_mm", whole, None),
        rate=keys.may("rate", number, None),
        price_minor=keys.may("price_minor", whole, 0),
        needs_training=keys.may("needs_training", truth, False),
        safety=keys.may("safety", text, ""),
        lead_days=keys.may("lead_days", whole, None),
        supplier=keys.may("supplier", text, ""),
    )


def material_out(draft: MaterialDraft) -> Entry:
    """Write a material."""
    return kept(
        {
            "code": draft.code,
            "kind": draft.kind.value,
            "name": draft.name,
            "thing": draft.thing.value,
            "size": figure(draft.size),
            "width_mm": draft.width_mm,
            "rate": None if draft.rate is None else figure(draft.rate),
            "price_minor": draft.price_minor,
            "needs_training": draft.needs_training or None,
            "safety": draft.safety or None,
            "lead_days": draft.lead_days,
            "supplier": draft.supplier or None,
        }
    )
