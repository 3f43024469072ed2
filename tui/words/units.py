"""The words for the unit that a thing is sold by, and for so many of it."""

from store.trade.products import ProductDraft
from store.trade.things import Thing
from tui.words.wording import counted, say_packs

UNITS = {
    Thing.BOARDS: "pack",
    Thing.GLUE: "tub",
    Thing.PRIMER: "canister",
    Thing.COMPOUND: "bag",
    Thing.FILM: "roll",
    Thing.UNDERLAY: "roll",
    Thing.SKIRTING: "stick",
    Thing.SCREWS: "box",
    Thing.PROFILES: "profile",
    Thing.WEDGES: "bag",
    Thing.FELT_PADS: "set",
    Thing.CARE_SET: "set",
    Thing.CLADDING: "pack",
    Thing.TREADS: "tread",
    Thing.RISERS: "riser",
    Thing.NOSING: "stick",
}


def say_units(thing: Thing, number: int) -> str:
    """Return a number of units: “4 tubs”, “2 boxes”."""
    return counted(number, UNITS[thing], "boxes" if thing is Thing.SCREWS else "")


def say_much(thing: Thing, units: int, boards: int = 0) -> str:
    """Return full units, and loose boards of a board: “3 packs and 2 boards”, “2 rolls”."""
    return say_packs(units, boards) if thing is Thing.BOARDS else say_units(thing, units)


def thing_of(product: ProductDraft | None) -> Thing:
    """Return what a product is; a board where it is not known."""
    return product.thing if product is not None else Thing.BOARDS
