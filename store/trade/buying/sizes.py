"""What a unit usually holds and at what rate a thing usually goes; each may be set by hand for a job."""

from dataclasses import dataclass

from store.trade.buying.nouns import OwnLine, Thing
from store.trade.film import ROLL_LENGTH, ROLL_WIDTH
from store.trade.primer import USUAL_CANISTER_KG, USUAL_G_PER_M2
from store.trade.skirting import STICK
from store.trade.units import Bounds

OVERLAP_MM = 200  # of film, taped; common practice, no source: one maker's text asks for 300
TURN_UP_MM = 100  # of film at the walls, cut off later; common practice, no source
KERF_MM = 3
SCREW_SPACING_MM = 400  # common practice, no source
WEDGE_EVERY_MM = 500  # common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """What a unit holds, the width of a roll, and the rate; None where the thing has none, or its sheet gives it."""

    size: float | None = None
    width_mm: int | None = None
    rate: float | None = None


USUAL: dict[Thing, Usual] = {
    Thing.BOARDS: Usual(),
    Thing.GLUE: Usual(),
    Thing.PRIMER: Usual(size=USUAL_CANISTER_KG, rate=USUAL_G_PER_M2),
    Thing.COMPOUND: Usual(size=25, rate=1.7),
    Thing.FILM: Usual(size=25, width_mm=2000),
    Thing.UNDERLAY: Usual(size=15, width_mm=1000),
    Thing.SKIRTING: Usual(size=2400),
    Thing.SCREWS: Usual(size=200),
    Thing.PROFILES: Usual(size=1000),
    Thing.WEDGES: Usual(size=50),
    Thing.FELT_PADS: Usual(size=1),
    Thing.CARE_SET: Usual(size=1),
}
"""Common practice, no source: kg of a canister and a bag, m of a roll, mm of a stick, pieces in a box."""

_NONE: dict[Thing, Bounds | None] = dict.fromkeys(Thing)
SIZES: dict[Thing, Bounds | None] = _NONE | {
    Thing.PRIMER: Bounds(what="Canister", unit="kg", most=1_000, above_least=True),
    Thing.COMPOUND: Bounds(what="Bag", unit="kg", most=1_000, above_least=True),
    Thing.FILM: ROLL_LENGTH,
    Thing.UNDERLAY: ROLL_LENGTH,
    Thing.SKIRTING: STICK,
    Thing.SCREWS: Bounds(what="Box", unit="screws", least=1, most=100_000),
    Thing.PROFILES: Bounds(what="Profile", unit="mm", least=100, most=20_000),
    Thing.WEDGES: Bounds(what="Bag", unit="wedges", least=1, most=100_000),
}
"""What the size of a unit may be; None where the sheets of boards and glues give it, and where a set is a set."""

WHOLE_SIZES = frozenset({Thing.SKIRTING, Thing.SCREWS, Thing.PROFILES, Thing.WEDGES})
WIDTHS: dict[Thing, Bounds | None] = _NONE | dict.fromkeys((Thing.FILM, Thing.UNDERLAY), ROLL_WIDTH)
RATES: dict[Thing, Bounds | None] = _NONE | {
    Thing.GLUE: Bounds(what="Rate", unit="g/m²", least=1, most=20_000),
    Thing.PRIMER: Bounds(what="Rate", unit="g/m²", least=1, most=20_000),
    Thing.COMPOUND: Bounds(what="Rate", unit="kg for each m² and mm", most=100, above_least=True),
}


def taken(thing: Thing, own: OwnLine | None) -> Usual:
    """Return size, width and rate to reckon with: what was set by hand, else the usual."""
    usual = USUAL[thing]
    if own is None:
        return usual
    return Usual(
        size=usual.size if own.size is None else own.size,
        width_mm=usual.width_mm if own.width_mm is None else own.width_mm,
        rate=usual.rate if own.rate is None else own.rate,
    )
