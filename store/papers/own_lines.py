"""The lines of a take-off that were set by hand, in a folder and out of it."""

from store.papers.events_out import Entry, Stamp, figure, kept
from store.papers.named import Named
from store.papers.spot import Keys, Spot, instant, number, opened, text, truth, whole, word_of
from store.trade.buying.nouns import OwnLineDraft
from store.trade.buying.own_line_checks import problems_with_figures
from store.trade.things import Thing


def own_line(spot: Spot, named: Named) -> OwnLineDraft:
    """Return a line set by hand; what it does not say stays as worked out, and it is wanted."""
    keys = opened(spot, "thing product at wanted units size width_mm rate notch why")
    thing = keys.need("thing", word_of(Thing))
    draft = OwnLineDraft(
        thing=thing,
        at=keys.need("at", instant),
        why=keys.need("why", text),
        product=_product(keys, thing, named),
        wanted=keys.may("wanted", truth, True),
        units=keys.may("units", whole, None),
        size=keys.may("size", number, None),
        width_mm=keys.may("width_mm", whole, None),
        rate=keys.may("rate", number, None),
        notch=keys.may("notch", text, ""),
    )
    keys.vet(problems_with_figures(draft))
    return draft


def _product(keys: Keys, thing: Thing, named: Named) -> str:
    if thing in {Thing.BOARDS, Thing.CLADDING}:
        return keys.need("product", named.board)
    if thing is Thing.GLUE:
        return keys.need("product", named.glue)
    return keys.may("product", lambda spot: named.material(spot, thing), "")


def own_line_out(draft: OwnLineDraft, stamp: Stamp) -> Entry:
    """Write a line set by hand."""
    return kept(
        {
            "thing": draft.thing.value,
            "product": draft.product or None,
            "at": stamp(draft.at),
            "wanted": None if draft.wanted else False,
            "units": draft.units,
            "size": None if draft.size is None else figure(draft.size),
            "width_mm": draft.width_mm,
            "rate": None if draft.rate is None else figure(draft.rate),
            "notch": draft.notch or None,
            "why": draft.why,
        }
    )
