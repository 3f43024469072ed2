"""The words for a product's sheet, line by line."""

from store.trade.buying.sizes import IN_MM
from store.trade.firm import Firm
from store.trade.materials import MaterialDraft
from store.trade.products import BoardDraft, GlueDraft, ProductDraft
from store.trade.suppliers import supplier_of
from store.trade.things import Thing
from tui.words.buying import HOLDS, THINGS
from tui.words.suppliers import say_lead
from tui.words.units import UNITS
from tui.words.wording import (
    clean,
    counted,
    figure,
    say_area,
    say_hours,
    say_money,
    say_range,
)

Fact = tuple[str, str]
"""What is said, and what is said about it: “Room air”, “18–24 °C and 40–65 %”."""


def say_figures(product: ProductDraft) -> str:
    """Return a product's main figures for a column: “1900×190×14 mm, 6 a pack”."""
    if isinstance(product, BoardDraft):
        length = f"{product.shortest_mm}–{product.length_mm}" if product.shortest_mm else f"{product.length_mm}"
        several = " mixed" if product.lengths else ""
        return f"{length}×{product.width_mm}×{product.thickness_mm} mm, {product.boards_per_pack}{several} a pack"
    if isinstance(product, GlueDraft):
        return f"{product.rate_g_per_m2:,} g/m², {figure(product.tub_kg)} kg a tub"
    holds = say_holds(product)
    return f"{holds} a {say_unit(product)}" if holds else THINGS[product.thing].lower()


def say_unit(product: ProductDraft) -> str:
    """Return what it is sold by: “pack” or “tub”."""
    return UNITS[product.thing]


def say_holds(material: MaterialDraft) -> str:
    """Return what a unit of a material holds: “25 kg”, “2 × 25 m”, “2400 × 300 mm”; empty for a set."""
    unit = HOLDS[material.thing]
    if unit is None:
        return ""
    if material.width_mm is None:
        return f"{figure(material.size)}{unit or ' pieces'}"
    if material.thing in IN_MM:
        return f"{figure(material.size)} × {material.width_mm} mm"
    return f"{figure(material.width_mm / 1000)} × {figure(material.size)}{unit}"


def sheet_of(product: ProductDraft, firm: Firm) -> list[Fact]:
    """Return a product's sheet, a fact for each line."""
    match product:
        case BoardDraft():
            own = _board(product, firm)
        case GlueDraft():
            own = _glue(product)
        case MaterialDraft():
            own = _material(product)
    price = say_money(product.price_minor, firm.currency) if product.price_minor else "not written down"
    days = product.lead_days
    comes = [("It comes", f"{counted(days, 'day')} after an order")] if days is not None else []
    if product.supplier:
        supplier = supplier_of(firm.suppliers, product.supplier)
        lead = f", {say_lead(supplier)} to come" if supplier and supplier.lead_days is not None and days is None else ""
        comes = [("Bought from", f"{clean(product.supplier)}{lead}"), *comes]
    return [("Name", clean(product.name)), *own, *comes, (f"A {say_unit(product)} costs", price)]


def _board(board: BoardDraft, firm: Firm) -> list[Fact]:
    wood = ", ".join(clean(word) for word in (board.species, board.build) if word)
    air = (
        f"{say_range(board.climate)}, the maker's, which goes before the firm's"
        if board.climate
        else f"{say_range(firm.climate)}, the firm's own range"
    )
    return [
        ("Board", f"{_lengths(board)} × {board.width_mm} × {board.thickness_mm} mm"),
        ("Wood", wood or "not written down"),
        ("A pack", f"{_in_pack(board)}, {say_area(board.pack_mm2)}"),
        ("Wait", f"{say_hours(board.acclimatise_hours)} in its room before laying"),
        ("Room air", air),
    ]


def _lengths(board: BoardDraft) -> str:
    if board.shortest_mm:
        return f"any length from {board.shortest_mm} to {board.length_mm}"
    return " or ".join(str(length) for length, _ in board.lengths) or str(board.length_mm)


def _in_pack(board: BoardDraft) -> str:
    hands = ", left ones and right ones in packs of their own" if board.handed else ""
    if board.lengths:
        return " + ".join(f"{count} × {length}" for length, count in board.lengths) + hands
    return f"{counted(board.boards_per_pack, 'board')}{hands}"


def _material(material: MaterialDraft) -> list[Fact]:
    rate_in = "kg for a square metre and mm" if material.thing is Thing.COMPOUND else "g for a square metre"
    training = "only for people trained for diisocyanates" if material.needs_training else ""
    facts = [
        ("It is", THINGS[material.thing].lower()),
        (f"A {say_unit(material)}", say_holds(material)),
        ("Rate", f"{figure(material.rate)} {rate_in}" if material.rate is not None else ""),
        ("Training", training),
        ("Mind", clean(material.safety)),
    ]
    return [(label, said) for label, said in facts if said]


def _glue(glue: GlueDraft) -> list[Fact]:
    return [
        ("Rate", f"{glue.rate_g_per_m2:,} g for a square metre"),
        ("A tub", f"{figure(glue.tub_kg)} kg"),
        ("Open time", f"{glue.open_time_min} min to lay a board into it"),
        ("Walk on", f"after {say_hours(glue.walk_on_hours)}"),
        ("Full load", f"after {say_hours(glue.full_load_hours)}"),
    ]
