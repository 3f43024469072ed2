"""What is bought beside boards and glue: primer, film, skirting, treads…, as a sheet or a label describes them."""

from collections.abc import Iterator
from dataclasses import dataclass

from store.errors import Problem, Refused
from store.trade.buying.sizes import RATES, SIZES, WHOLE_SIZES, WIDTHS
from store.trade.things import MATERIALS, ProductKind, Thing
from store.trade.units import Bounds

MOST_SAFETY = 500
_ROLLS = frozenset({Thing.FILM, Thing.UNDERLAY})


@dataclass(frozen=True, slots=True, kw_only=True)
class MaterialDraft:
    """One way to buy a thing of the take-off.

    ``size`` is what a unit holds: kg of a canister or bag, m of a roll, mm of a stick or tread, pieces in a box, 1 of a
    set. ``width_mm`` is the width of a roll, or how deep a tread or how high a riser is. ``rate`` is the sheet's: g/m²
    of primer, kg for each m² and mm of compound; None leaves the usual one. ``needs_training``: it holds diisocyanates,
    and whoever uses it must be trained for them. ``safety`` is what the sheet says of dust, skin and air, in a line.
    """

    code: str
    name: str
    thing: Thing
    size: float = 1
    width_mm: int | None = None
    rate: float | None = None
    price_minor: int = 0
    needs_training: bool = False
    safety: str = ""
    lead_days: int | None = None
    supplier: str = ""

    @property
    def kind(self) -> ProductKind:
        return ProductKind.MATERIAL


@dataclass(frozen=True, slots=True, kw_only=True)
class Material(MaterialDraft):
    """A material on file."""

    id: int
    rev: int


def problems_with_sheet(draft: MaterialDraft) -> Iterator[Problem]:
    """Yield what is wrong with the figures of a material's own."""
    thing = draft.thing
    if thing not in MATERIALS:
        yield Problem(field="thing", say="Boards and glue have sheets of their own; choose another thing.")
        return
    yield from _bounded("size", draft.size, SIZES[thing], whole=thing in WHOLE_SIZES, only=1)
    if draft.width_mm is None and thing in _ROLLS:
        yield Problem(field="width_mm", say="Say how wide a roll is, in mm.")
    yield from _bounded("width_mm", draft.width_mm, WIDTHS[thing], whole=True)
    yield from _bounded("rate", draft.rate, RATES[thing])
    if len(draft.safety) > MOST_SAFETY:
        yield Problem(field="safety", say=f"What to mind is told in {MOST_SAFETY} characters; the sheet says the rest.")


def _bounded(
    field: str, value: float | None, bounds: Bounds | None, *, whole: bool = False, only: float | None = None
) -> Iterator[Problem]:
    """Yield that a figure is out of its bounds, or is not ``only`` where the thing has none to give."""
    if bounds is None:
        if value != only:
            yield Problem(field=field, say="This thing has no such figure; leave it out.")
    elif value is not None:
        try:
            bounds.take_whole(value) if whole else bounds.take(value)
        except Refused as no:
            yield Problem(field=field, say=str(no))
