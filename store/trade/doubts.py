"""Where a reading and what was written down beside it do not fit: said beside it, never a refusal.

The percent, or the humidity, that was typed counts; a doubt asks the fitter to look again.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from store.trade.evidence import Evidence, carbide_doubt, mean_of
from store.trade.readings import BoardMoisture, Carbide, InSituProbe, Measure, TimberSubfloor

PROBE_HOURS = 24
"""A probe stays in its hole so long before it is read: ASTM F2170-18 (72 hours before that edition)."""

SENSOR_GOOD_DAYS = 30
"""A probe that is used again has its sensor checked within so many days: ASTM F2170-18."""

DEPTH_PERCENT = (20, 40)
"""How deep a probe's hole is, % of the thickness: 20 where both sides dry, 40 where one does (ASTM F2170-18)."""

DEPTH_WITHIN_MM = 5
"""How far from it a drilled hole is still taken for right (common practice, no source)."""

SPREAD_POINTS = 3.0
"""How far apart the figures of one subfloor usually lie, points of moisture content (a US trade magazine)."""


def probe_depth_mm(thickness_mm: int) -> float:
    """Return how deep a probe's hole is drilled where one side dries, mm: 40 % of the thickness.

    >>> probe_depth_mm(65)
    26.0
    """
    return DEPTH_PERCENT[1] * thickness_mm / 100


class DoubtKind(StrEnum):
    """What does not fit."""

    GAUGE = "gauge"
    TOO_SOON = "too_soon"
    SENSOR = "sensor"
    DEPTH = "depth"
    SPREAD = "spread"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubt:
    """What does not fit, what was found, and what it is held against.

    GAUGE: the percent typed, and what the gauge says. TOO_SOON: hours. SENSOR: days since its check. DEPTH: mm, and
    the nearer of the two right depths. SPREAD: points from the lowest to the highest figure.
    """

    kind: DoubtKind
    found: float
    asked: float


def doubts(measure: Measure, evidence: Evidence, *, on: date, thickness_mm: int | None = None) -> tuple[Doubt, ...]:
    """Return what does not fit about a reading.

    Args:
        measure: what the instrument said.
        evidence: what stands behind it.
        on: the day it was read, on the firm's calendar.
        thickness_mm: of the screed it was read in; None where that is not known.
    """
    if isinstance(measure, Carbide):
        by_gauge = carbide_doubt(measure.percent, evidence)
        return () if by_gauge is None else (Doubt(kind=DoubtKind.GAUGE, found=measure.percent, asked=by_gauge),)
    if isinstance(measure, InSituProbe):
        return tuple(_about_probe(evidence, on, thickness_mm))
    if isinstance(measure, TimberSubfloor | BoardMoisture):
        return tuple(_about_spread(evidence.figures))
    return ()


def _about_probe(evidence: Evidence, on: date, thickness_mm: int | None) -> Iterator[Doubt]:
    if evidence.hours is not None and evidence.hours < PROBE_HOURS:
        yield Doubt(kind=DoubtKind.TOO_SOON, found=evidence.hours, asked=PROBE_HOURS)
    if evidence.checked_on is not None and (age := (on - evidence.checked_on).days) > SENSOR_GOOD_DAYS:
        yield Doubt(kind=DoubtKind.SENSOR, found=age, asked=SENSOR_GOOD_DAYS)
    if evidence.depth_mm is not None and thickness_mm is not None:
        deep = evidence.depth_mm
        right = min((percent * thickness_mm / 100 for percent in DEPTH_PERCENT), key=lambda mm: abs(mm - deep))
        if abs(right - deep) > DEPTH_WITHIN_MM:
            yield Doubt(kind=DoubtKind.DEPTH, found=deep, asked=right)


def _about_spread(values: tuple[float, ...]) -> Iterator[Doubt]:
    """Two figures or more outside the usual spread about the mean are to be looked into; one may be a knot."""
    if not values:
        return
    mean = mean_of(values)
    outside = sum(abs(one - mean) > SPREAD_POINTS / 2 for one in values)
    if max(values) - min(values) > SPREAD_POINTS and outside >= 2:
        yield Doubt(kind=DoubtKind.SPREAD, found=max(values) - min(values), asked=SPREAD_POINTS)
