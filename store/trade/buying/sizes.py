"""What a unit usually holds and at what rate a thing usually goes; each may be set by hand for a job."""

from dataclasses import dataclass

from store.trade.film import ROLL_LENGTH, ROLL_WIDTH
from store.trade.primer import USUAL_CANISTER_KG, USUAL_G_PER_M2
from store.trade.skirting import STICK
from store.trade.things import Thing
from store.trade.units import Bounds

BOARD_KG_PER_M3 = 650
"""A maker's sheet gives 26.3 kg for a pack of 2.888 m², 14 mm thick: 650 kg/m³; other builds differ."""
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
    Thing.CLADDING: Usual(),
    Thing.TREADS: Usual(size=1000, width_mm=300),
    Thing.RISERS: Usual(size=1000, width_mm=200),
    Thing.NOSING: Usual(size=2400),
}
"""Common practice, no source: kg of a canister and a bag, m of a roll, mm of a stick, pieces in a box.

Nosing: an installer's guide has it in lengths of 6 to 8 ft, 1.8 to 2.4 m."""

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
    Thing.TREADS: Bounds(what="Tread", unit="mm", least=100, most=20_000),
    Thing.RISERS: Bounds(what="Riser", unit="mm", least=100, most=20_000),
    Thing.NOSING: Bounds(what="Nosing", unit="mm", least=100, most=20_000),
}
"""What the size of a unit may be; None where the sheets of boards and glues give it, and where a set is a set."""

IN_MM = frozenset({Thing.SKIRTING, Thing.PROFILES, Thing.TREADS, Thing.RISERS, Thing.NOSING})
"""What is sold by a length in mm."""
WHOLE_SIZES = IN_MM | {Thing.SCREWS, Thing.WEDGES}
_DEPTH = Bounds(what="Depth", unit="mm", least=20, most=2_000)
WIDTHS: dict[Thing, Bounds | None] = _NONE | {
    Thing.FILM: ROLL_WIDTH,
    Thing.UNDERLAY: ROLL_WIDTH,
    Thing.TREADS: _DEPTH,
    Thing.RISERS: _DEPTH,
}
RATES: dict[Thing, Bounds | None] = _NONE | {
    Thing.GLUE: Bounds(what="Rate", unit="g/m²", least=1, most=20_000),
    Thing.PRIMER: Bounds(what="Rate", unit="g/m²", least=1, most=20_000),
    Thing.COMPOUND: Bounds(what="Rate", unit="kg for each m² and mm", most=100, above_least=True),
}
