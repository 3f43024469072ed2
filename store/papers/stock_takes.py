"""What stock-takes found or missed, in a folder and out of it; each function reads or writes one entry."""

from store.papers.events_in import none_or_some
from store.papers.events_out import Entry, Stamp
from store.papers.named import Named
from store.papers.spot import Spot, instant, opened, text, word_of
from store.trade.stock_take import DifferenceDraft, Way
from store.trade.stock_take_checks import problems_with_difference


def difference(spot: Spot, named: Named, *, of_job: bool) -> DifferenceDraft:
    """Return what a stock-take found beyond the file, or missed; of packs kept for a job, or of free stock."""
    keys = opened(spot, "at product batch packs boards way why")
    draft = DifferenceDraft(
        at=keys.need("at", instant),
        product=keys.need("product", named.product),
        batch=keys.may("batch", text, ""),
        packs=keys.need("packs", none_or_some),
        boards=keys.need("boards", none_or_some),
        way=keys.need("way", word_of(Way)),
        why=keys.need("why", text),
    )
    keys.vet(problems_with_difference(draft, of_job=of_job))
    return draft


def difference_out(draft: DifferenceDraft, stamp: Stamp) -> Entry:
    """Write what a stock-take found or missed."""
    return {
        "at": stamp(draft.at),
        "product": draft.product,
        "batch": draft.batch,
        "packs": draft.packs,
        "boards": draft.boards,
        "way": draft.way.value,
        "why": draft.why,
    }
