"""Is the base flat enough, and how much smoothing compound would make it so."""

import math
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from store.errors import Refused
from store.trade.units import Bounds, Number, one_of, round_half_away, shown

SPAN = Bounds(what="Span", unit="mm", above_least=True)
GAP = Bounds(what="Gap under the straightedge", unit="mm")
AREA = Bounds(what="Area", unit="m²", above_least=True)
DEPTH = Bounds(what="Mean depth", unit="mm", above_least=True)
RATE = Bounds(what="Rate", unit="kg per m² and mm", above_least=True)
WASTE = Bounds(what="Waste", unit="%", most=1000)
BAG = Bounds(what="Bag", unit="kg", above_least=True)

STRAIGHTEDGE_MM = 2000
BS_LIMITS_MM = {"sr1": 3, "sr2": 5, "sr3": 10}  # verified; which class suits wood is not stated there
DIN_SPANS_MM = (100, 1000, 4000, 10000, 15000)
DIN_LIMITS_MM = {  # verified on pages that quote older editions; the rows are believed unchanged
    "din2": (5, 8, 12, 15, 20),
    "din3": (2, 4, 10, 12, 15),
    "din4": (1, 3, 9, 12, 15),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Flatness:
    """The largest gap the rule allows under that span, and whether the measured one keeps it."""

    limit_mm: int
    ok: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Smoothing:
    """Smoothing compound for a floor: dry kilograms and whole bags."""

    kg: float
    bags: int


def flatness(*, rule: str, span_mm: Number, gap_mm: Number) -> Flatness:
    """A gap under a straightedge against a flatness rule, limit included.

    >>> flatness(rule="din3", span_mm=2500, gap_mm=7)
    Flatness(limit_mm=7, ok=True)

    Method: the classes of BS 8204 hold under a 2 m straightedge laid on the floor. DIN 18202 gives limits
    at five spans between high points; between them a straight line, rounded to whole mm; before the
    first and beyond the last the end value.

    Args:
        rule: sr1, sr2 or sr3 (BS 8204); din2, din3 or din4 (DIN 18202, Table 3, rows 2 to 4).
        span_mm: Between the two high points, mm; 2000 for the sr rules.
        gap_mm: The largest gap found between them, mm.

    Raises:
        Refused: The rule is not known, a number cannot be, or an sr rule is asked for another span.

    Source: BS 8204 SR classes; DIN 18202 Table 3, interpolated "straight-line, whole mm". Beyond 15 m
    the 15 m value is from memory.
    """
    name = one_of(rule, (*BS_LIMITS_MM, *DIN_LIMITS_MM), what="Rule")
    span, gap = SPAN.take(span_mm), GAP.take(gap_mm)
    if name in DIN_LIMITS_MM:
        limit = _din_limit_mm(span, DIN_LIMITS_MM[name])
    elif span == STRAIGHTEDGE_MM:
        limit = BS_LIMITS_MM[name]
    else:
        raise Refused(
            f"Rule {name} is for a straightedge of {STRAIGHTEDGE_MM} mm, not {shown(span_mm)}: "
            f"give span {STRAIGHTEDGE_MM} or a din rule."
        )
    return Flatness(limit_mm=limit, ok=gap <= limit)


def _din_limit_mm(span_mm: Fraction, limits_mm: tuple[int, ...]) -> int:
    if span_mm <= DIN_SPANS_MM[0]:
        return limits_mm[0]
    for (low, low_mm), (high, high_mm) in pairwise(zip(DIN_SPANS_MM, limits_mm, strict=True)):
        if span_mm <= high:
            return round_half_away(low_mm + (high_mm - low_mm) * (span_mm - low) / (high - low))
    return limits_mm[-1]


def smoothing(
    *,
    area_m2: Number,
    depth_mm: Number,
    rate_kg_per_m2_mm: Number = 1.7,
    waste_percent: Number = 0,
    bag_kg: Number = 25,
) -> Smoothing:
    """Smoothing compound to bring a floor up by its mean depth.

    >>> smoothing(area_m2=6, depth_mm=30)
    Smoothing(kg=306.0, bags=13)

    Args:
        area_m2: The area to be smoothed, m².
        depth_mm: The mean depth, mm; not the deepest hole.
        rate_kg_per_m2_mm: Dry kilograms per m² and mm of depth.
        waste_percent: Added for what stays in buckets, %.
        bag_kg: What a bag holds, kg.

    Raises:
        Refused: A number is not finite or cannot be.

    Source: common practice; the bag's own sheet gives the rate (1.5 to 1.7).
    """
    kg = (
        AREA.take(area_m2) * DEPTH.take(depth_mm) * RATE.take(rate_kg_per_m2_mm) * (1 + WASTE.take(waste_percent) / 100)
    )
    return Smoothing(kg=float(kg), bags=math.ceil(kg / BAG.take(bag_kg)))
