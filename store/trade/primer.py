"""Primer for a base: kilograms by the square metre and the coat, in whole canisters."""

import math
from dataclasses import dataclass

from store.trade.units import Bounds, Number

AREA = Bounds(what="Area", unit="m²", above_least=True)
RATE = Bounds(what="Rate", unit="g/m² a coat", above_least=True)
COATS = Bounds(what="Number of coats", unit="coats", least=1, most=20)
CANISTER = Bounds(what="Canister", unit="kg", above_least=True)
USUAL_G_PER_M2 = 150  # a dispersion takes 100 to 200 a coat; common practice, no source
USUAL_CANISTER_KG = 10  # common practice, no source


@dataclass(frozen=True, slots=True, kw_only=True)
class Primer:
    """Kilograms for all coats together, and whole canisters."""

    kg: float
    canisters: int


def primer(
    *,
    area_m2: Number,
    rate_g_per_m2: Number = USUAL_G_PER_M2,
    coats: Number = 1,
    canister_kg: Number = USUAL_CANISTER_KG,
) -> Primer:
    """Primer for an area in whole canisters.

    >>> primer(area_m2=40, rate_g_per_m2=300, coats=2, canister_kg=10)
    Primer(kg=24.0, canisters=3)

    Args:
        area_m2: The base to be primed, m².
        rate_g_per_m2: Of one coat, g/m².
        coats: How many coats, a whole number.
        canister_kg: What a canister holds, kg.

    Raises:
        Refused: A number is not finite or cannot be.

    Source: common practice, no source: a dispersion 100 to 200 g/m², an epoxy barrier 250 to 350 g/m² a coat in two
        coats. The primer's own sheet goes before it: rate, coats, what it may lie on, gloves, glasses, fresh air.
    """
    kg = AREA.take(area_m2) * RATE.take(rate_g_per_m2) * COATS.take_whole(coats) / 1000
    return Primer(kg=float(kg), canisters=math.ceil(kg / CANISTER.take(canister_kg)))
