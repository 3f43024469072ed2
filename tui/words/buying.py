"""Says what a job needs bought: each line, how it was worked out, what was set by hand, and the cautions beside it."""

from collections.abc import Iterator

from store.trade.buying.cost import Cost, cost_of, price_of
from store.trade.buying.nouns import Buying, BuyingLine, ByStrips, Caution, Gap, Missing, OwnLineDraft
from store.trade.facts import JobFacts
from store.trade.things import Thing
from tui.words.buying_how import say_how
from tui.words.units import say_units
from tui.words.wording import clean, counted, figure, say_area, say_money

THINGS = {
    Thing.BOARDS: "Boards",
    Thing.GLUE: "Glue",
    Thing.PRIMER: "Primer",
    Thing.COMPOUND: "Smoothing compound",
    Thing.FILM: "Vapour film",
    Thing.UNDERLAY: "Underlay",
    Thing.SKIRTING: "Skirting",
    Thing.SCREWS: "Screws for skirting",
    Thing.PROFILES: "Doorway profiles",
    Thing.WEDGES: "Wedges",
    Thing.FELT_PADS: "Felt pads",
    Thing.CARE_SET: "Care set",
    Thing.CLADDING: "Stairs in",
    Thing.TREADS: "Treads",
    Thing.RISERS: "Risers",
    Thing.NOSING: "Nosing",
}
CAUTIONS = {
    Caution.HEAVY: "heavy, about {kg} kg each: two carry, or a trolley (HSE's lifting filter, INDG143: 25 kg for men, "
    "16 for women, held close at knuckle height; less anywhere else)",
    Caution.DUST: "its dust harms lungs: extract it and wear a mask (its own sheet; for hardwood and silica EU "
    "Dir. 2004/37/EC)",
    Caution.HIDDEN: "look for pipes and cables in wall and floor before the first hole (common practice)",
    Caution.PRIMER_SHEET: "the sheets of primer and glue say whether and what: gloves, glasses, fresh air",
    Caution.STAIRS: "keep the stairs closed off, or every step firm, covered and lit: people fall on half-made ones "
    "(common practice)",
    Caution.TRAINING: "with diisocyanates: only for people trained for them (EU REACH, entry 74)",
}
HOLDS: dict[Thing, str | None] = {
    Thing.BOARDS: " m²",
    Thing.GLUE: " kg",
    Thing.PRIMER: " kg",
    Thing.COMPOUND: " kg",
    Thing.FILM: " m",
    Thing.UNDERLAY: " m",
    Thing.SKIRTING: " mm",
    Thing.SCREWS: "",
    Thing.PROFILES: " mm",
    Thing.WEDGES: "",
    Thing.FELT_PADS: None,
    Thing.CARE_SET: None,
    Thing.CLADDING: " m²",
    Thing.TREADS: " mm",
    Thing.RISERS: " mm",
    Thing.NOSING: " mm",
}
_GAPS = {
    Missing.NO_GLUE: "{room} is to be glued and names no glue yet",
    Missing.NO_GRID: "{room} is not flat, and no level grid says how much compound it takes; read one (r)",
    Missing.UNREAD_POINTS: "{room} has points in its level grid that nobody could read; it may take more compound",
    Missing.WINDERS: "the winders of {room} are made to measure, from a template of each",
    Missing.NO_SUM: "{what} could not be worked out: {say}",
}
_USUAL = "common practice"


def say_name(line: BuyingLine, facts: JobFacts) -> str:
    """Return what a line is about: “Glue MS-15 Elastic glue”."""
    product = line.sheet or facts.products.get(line.product)
    return f"{THINGS[line.thing]} {clean(line.product)} {clean(product.name)}" if product else THINGS[line.thing]


def say_short_name(line: BuyingLine) -> str:
    """Return what a line is about in a list: the thing, and the product's code if it is one."""
    return f"{THINGS[line.thing]} {clean(line.product)}".rstrip()


def say_size(line: BuyingLine) -> str:
    """Return what one unit holds: “15 kg”, “25 m”; empty for a set, and where it is not known."""
    if line.how is None:
        return ""
    if line.thing in {Thing.BOARDS, Thing.CLADDING}:
        return say_area(round(line.size))
    width = f"{figure(line.how.width_mm / 1000)} × " if isinstance(line.how, ByStrips) else ""
    return "" if HOLDS[line.thing] is None else f"{width}{figure(line.size)}{HOLDS[line.thing]}"


def say_to_buy(line: BuyingLine) -> str:
    """Return how much is bought: “4 tubs of 15 kg”, or that it is left out or only offered."""
    if line.is_left_out:
        return "left out" if line.own is not None else "not taken up"
    size = say_size(line)
    return f"{say_units(line.thing, line.to_buy)}{f' of {size}' if size else ''}"


def say_own(line: BuyingLine) -> str:
    """Return what was set by hand for a line, and why; empty where nothing was."""
    own = line.own
    if own is None:
        return ""
    worked_out = ""
    if line.how is not None and (own.units is not None or not own.wanted):
        worked_out = f" (worked out: {say_units(line.thing, line.units)})"
    return f"{say_set(own)}{worked_out}: {clean(own.why)}"


def say_set(own: OwnLineDraft) -> str:
    """Return what somebody set: “set to 3 tubs”, “left out”, “reckoned with 3000 mm”."""
    if not own.wanted:
        return "left out"
    told = [
        f"a width of {figure(own.width_mm / 1000)} m" if own.width_mm is not None else "",
        f"{say_units(own.thing, 2)[2:]} of {figure(own.size)}{HOLDS[own.thing] or ''}" if own.size is not None else "",
        f"a rate of {figure(own.rate)}" if own.rate is not None else "",
        f"notch {clean(own.notch).strip().upper()}" if own.notch else "",
    ]
    chosen = f"bought as {clean(own.product)}" if own.product and not own.thing.is_product else ""
    with_ = ", ".join(one for one in told if one)
    parts = [
        f"set to {say_units(own.thing, own.units)}" if own.units is not None else "",
        chosen,
        f"reckoned with {with_}" if with_ else "",
    ]
    return ", ".join(one for one in parts if one) or "taken up"


def say_own_line(own: OwnLineDraft) -> str:
    """Return a line set by hand in a phrase, with what it is about."""
    return f"{THINGS[own.thing]}{f' {clean(own.product)}' if own.thing.is_product else ''}: {say_set(own)}"


def cautions_of(line: BuyingLine) -> Iterator[str]:
    """Yield the cautions that belong to a line, each with its source."""
    for caution in line.cautions:
        yield f"Caution: {CAUTIONS[caution].format(kg=figure(line.unit_kg or 0, 0))}."
    if line.sheet is not None and line.sheet.safety:
        yield f"Caution, by its sheet: {clean(line.sheet.safety).rstrip('.')}."


def say_bought_as(line: BuyingLine, facts: JobFacts, currency: str) -> str:
    """Return from whom a line is bought and what it costs: “From Skerry Timber Yard, 2 × EUR 45.00 = EUR 90.00.”."""
    product = line.sheet or facts.products.get(line.product)
    if product is None:
        return "No product on file for it; n in Products (4) adds one."
    whom = f"From {clean(product.supplier)}" if product.supplier else "No supplier named"
    price = price_of(line, facts)
    if price is None:
        return f"{whom}, no price on file."
    each = say_money(price, currency)
    return f"{whom}, {line.to_buy:,} × {each} = {say_money(line.to_buy * price, currency)}."


def say_cost(cost: Cost, currency: str) -> str:
    """Return what a list comes to, to stand after its title; empty where nothing has a price."""
    if not cost.minor:
        return ""
    without = f", {counted(cost.unpriced, 'line')} without a price" if cost.unpriced else ""
    return f" · {say_money(cost.minor, currency)}{without}"


def say_gap(gap: Gap) -> str:
    """Return what could not be worked out, in a sentence."""
    said = _GAPS[gap.missing].format(room=clean(gap.room), what=THINGS[gap.thing], say=clean(gap.say).rstrip("."))
    return f"{said}."


def buying_lines(buying: Buying, facts: JobFacts, currency: str) -> Iterator[str]:
    """Yield the take-off of a job, a line for each thing with how it was worked out; what is set by hand says so.

    What it costs stands at the end, as far as prices are on file.
    """
    for line in buying.lines:
        own = f"; {say_own(line)}" if line.own else ""
        yield f"{say_name(line, facts)}: {say_to_buy(line)}; {say_how(line)}{own}"
        if not line.is_left_out:
            yield from (f"  ▲ {caution}" for caution in cautions_of(line))
    for gap in buying.gaps:
        yield f"▲ {say_gap(gap)}"
    cost = say_cost(cost_of(buying, facts), currency).removeprefix(" · ")
    if cost:
        yield f"Cost by the prices on file: {cost}"
