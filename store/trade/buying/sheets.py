"""Which product on file a line of the take-off is bought as, and so with which size, width and rate it is reckoned."""

from dataclasses import dataclass, replace

from store.trade.buying.nouns import BuyingLine, Caution, OwnLine
from store.trade.buying.sizes import USUAL
from store.trade.facts import JobFacts
from store.trade.materials import Material
from store.trade.things import Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """What a line is reckoned with; ``sheet`` is the product it is bought as, None where none is on file."""

    size: float
    width_mm: int
    rate: float
    sheet: Material | None
    own: OwnLine | None

    @property
    def product(self) -> str:
        """The code of the product, empty where none is on file."""
        return self.sheet.code if self.sheet else ""

    @property
    def is_usual(self) -> bool:
        """Whether a size or a rate is only what is usual, with no sheet and no hand behind it."""
        return self.sheet is None

    def sold(self, line: BuyingLine) -> BuyingLine:
        """Return a line with its product, its size, what was set by hand, and the training its sheet asks for."""
        training = (Caution.TRAINING,) if self.sheet and self.sheet.needs_training else ()
        return replace(
            line,
            product=self.product,
            sheet=self.sheet,
            size=self.size,
            own=self.own,
            cautions=(*line.cautions, *training),
        )


def own_line_of(facts: JobFacts, thing: Thing, product: str = "") -> OwnLine | None:
    """Return what was last set by hand for a line; None if nothing was.

    Boards and glue have a line for each product; of any other thing a product named by hand is the one chosen for it.
    """
    found = [one for one in facts.own_lines if one.thing is thing and (not thing.is_product or one.product == product)]
    return max(found, key=lambda one: (one.at, one.id), default=None)


def sheet_for(facts: JobFacts, thing: Thing, own: OwnLine | None) -> Material | None:
    """Return the product that a thing is bought as: the one chosen by hand, else the first on file by its code."""
    if own is not None and own.product:
        chosen = facts.products.get(own.product)
        if isinstance(chosen, Material):
            return chosen
    return next((one for one in facts.materials if one.thing is thing), None)


def taken(facts: JobFacts, thing: Thing) -> Taken:
    """Return what to reckon a thing with: what was set by hand, else its product's sheet, else what is usual."""
    own, usual = own_line_of(facts, thing), USUAL[thing]
    sheet = sheet_for(facts, thing, own)
    size = own.size if own and own.size is not None else sheet.size if sheet else usual.size
    width = own.width_mm if own else None
    rate = own.rate if own else None
    if width is None:
        width = sheet.width_mm if sheet and sheet.width_mm is not None else usual.width_mm
    if rate is None:
        rate = sheet.rate if sheet and sheet.rate is not None else usual.rate
    return Taken(size=size or 1, width_mm=width or 0, rate=rate or 0, sheet=sheet, own=own)
