"""What is wrong with a line of the take-off that somebody sets by hand."""

from collections.abc import Iterator
from datetime import datetime

from store.errors import Problem, Refused
from store.trade.buying.nouns import OwnLineDraft
from store.trade.buying.sizes import RATES, SIZES, WHOLE_SIZES, WIDTHS
from store.trade.checks import Problems, problems_with_moment, problems_with_text
from store.trade.facts import JobFacts
from store.trade.notches import usual_rate
from store.trade.products import Board, Glue
from store.trade.things import Thing
from store.trade.units import Bounds

MOST_UNITS = 100_000
MOST_NOTCH = 20


def problems_with_own_line(draft: OwnLineDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a line set by hand, a sentence for each field."""
    return (
        *problems_with_moment("at", draft.at, now),
        *_product(draft, facts),
        *problems_with_figures(draft),
        *problems_with_text("why", draft.why, "Say why, so that whoever orders knows."),
    )


def problems_with_figures(draft: OwnLineDraft) -> Problems:
    """Return what is wrong with the figures alone: what no line of this thing could be set to."""
    found: list[Problem] = []
    if draft.units is not None and not 0 <= draft.units <= MOST_UNITS:
        found.append(Problem(field="units", say=f"How many to buy is a whole number from 0 to {MOST_UNITS:,}."))
    found += _bounded("size", draft.size, SIZES[draft.thing], whole=draft.thing in WHOLE_SIZES)
    found += _bounded("width_mm", draft.width_mm, WIDTHS[draft.thing], whole=True)
    found += _bounded("rate", draft.rate, RATES[draft.thing])
    found += _notch(draft)
    chosen = None if draft.thing.is_product else draft.product or None
    set_at_all = (draft.units, draft.size, draft.width_mm, draft.rate, draft.notch or None, chosen) != (None,) * 6
    if draft.wanted and not set_at_all and draft.thing is not Thing.PRIMER:
        found.append(
            Problem(field="units", say="Nothing is set yet: say how many, or how it is sold, or leave it out.")
        )
    return tuple(found)


def _product(draft: OwnLineDraft, facts: JobFacts) -> Iterator[Problem]:
    wanted = {Thing.BOARDS: Board, Thing.CLADDING: Board, Thing.GLUE: Glue}.get(draft.thing)
    if wanted is None:
        of_thing = {one.code for one in facts.materials if one.thing is draft.thing}
        if draft.product and draft.product not in of_thing:
            yield Problem(field="product", say=f"“{draft.product}” is not on file as what this line is about.")
    elif not isinstance(facts.products.get(draft.product), wanted):
        yield Problem(field="product", say=f"“{draft.product}” is not among what this job takes.")


def _bounded(field: str, value: float | None, bounds: Bounds | None, *, whole: bool = False) -> Iterator[Problem]:
    if value is None:
        return
    if bounds is None:
        yield Problem(field=field, say="This stands on the product's own sheet, or has no such figure; leave it out.")
        return
    try:
        bounds.take_whole(value) if whole else bounds.take(value)
    except Refused as no:
        yield Problem(field=field, say=str(no))


def _notch(draft: OwnLineDraft) -> Iterator[Problem]:
    if not draft.notch:
        return
    if draft.thing is not Thing.GLUE:
        yield Problem(field="notch", say="Only glue is spread with a notch.")
        return
    if draft.rate is not None:
        yield Problem(field="notch", say="Give the rate or the notch, not both: the glue maker's sheet goes before.")
        return
    if len(draft.notch) > MOST_NOTCH:
        yield Problem(field="notch", say="A notch is named shortly, such as B11.")
        return
    try:
        usual_rate(notch=draft.notch)
    except Refused as no:
        yield Problem(field="notch", say=str(no))
