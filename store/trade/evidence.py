"""What stands behind a reading: where in the room, with what instrument, and the figures it was worked out from."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from store.errors import Problem

CARBIDE_AGREES_WITHIN = 0.2
"""How far, in points of CM-%, a percent may lie from what its gauge says before a word is said of it."""


class Zone(StrEnum):
    """Which part of a screed's thickness a carbide sample came from; sources ask for the one or the other."""

    WHOLE = "whole"
    LOWER = "lower"


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """What somebody wrote down beside a reading; all of it may be left out.

    ``sample_g``, ``gauge_bar``, ``depth_mm`` and ``zone`` belong to a carbide test: the mass of the sample, what the
    bottle's gauge showed, from how deep the sample came, and whether from the whole thickness or its lower part.
    ``hours`` is how long a hygrometer or a probe was in place, ``depth_mm`` of a probe the depth of its hole, and
    ``checked_on`` the day its sensor was last checked. ``figures`` are the single figures, %, whose mean a timber
    meter's reading is.
    """

    point: str = ""
    instrument: str = ""
    sample_g: float | None = None
    gauge_bar: float | None = None
    depth_mm: int | None = None
    hours: int | None = None
    zone: Zone | None = None
    checked_on: date | None = None
    figures: tuple[float, ...] = ()


MOST_VALUES = 200
"""The most single figures that one reading can be the mean of."""

NOTHING_BEHIND = Evidence()
"""What stands behind a reading of which no more was written down."""

FIGURES_OF: dict[str, tuple[str, ...]] = {
    "carbide": ("sample_g", "gauge_bar", "depth_mm", "zone"),
    "hygrometer": ("hours",),
    "in_situ_probe": ("depth_mm", "hours", "checked_on"),
    "timber_subfloor": ("figures",),
    "board": ("figures",),
}
"""The figures that a kind of reading can have behind it; the other kinds have none."""

# Common practice, no source: samples are of 3 to 100 g and gauges end at 1.5 to 2.5 bar; beyond this a key slipped.
_SPANS: dict[str, tuple[str, float, float, str]] = {
    "sample_g": ("sample", 1.0, 1_000.0, "g"),
    "gauge_bar": ("gauge", 0.0, 10.0, "bar"),
    "depth_mm": ("depth", 0.0, 1_000.0, "mm"),
    "hours": ("time in place", 0.0, 10_000.0, "hours"),
}


def problems_with_evidence(kind: str, evidence: Evidence) -> tuple[Problem, ...]:
    """Return what is wrong with what stands behind a reading of a kind, a sentence for each."""
    found: list[Problem] = []
    for field, (word, least, most, unit) in _SPANS.items():
        value: float | None = getattr(evidence, field)
        if value is None:
            continue
        if field not in FIGURES_OF.get(kind, ()):
            found.append(Problem(field=field, say=f"No {word} belongs to such a reading; leave it out."))
        elif not math.isfinite(value) or not least <= value <= most:
            say = f"The {word} is from {least:,g} to {most:,g} {unit}, not {value:g}."
            found.append(Problem(field=field, say=say))
    return (*found, *_problems_with_more(kind, evidence))


def _problems_with_more(kind: str, evidence: Evidence) -> Iterator[Problem]:
    asked = FIGURES_OF.get(kind, ())
    for field, word in (
        ("zone", "part of the screed"),
        ("checked_on", "sensor check"),
        ("figures", "list of single figures"),
    ):
        if getattr(evidence, field) and field not in asked:
            yield Problem(field=field, say=f"No {word} belongs to such a reading; leave it out.")
    if len(evidence.figures) > MOST_VALUES:
        yield Problem(field="figures", say=f"At most {MOST_VALUES} figures make one reading.")
    elif not all(math.isfinite(one) and 0 <= one <= 100 for one in evidence.figures):
        yield Problem(field="figures", say="Each figure is from 0 to 100 %.")


def problem_with_mean(percent: float, evidence: Evidence) -> tuple[Problem, ...]:
    """Return a sentence where a reading is not the mean of the figures it was worked out from.

    A tenth of a point to either side is taken for rounding.
    """
    values = evidence.figures
    if not values or abs(percent - mean_of(values)) <= 0.1 + 1e-9:
        return ()
    return (Problem(field="percent", say=f"The mean of its figures is {mean_of(values):.4g}, not {percent:g}."),)


def mean_of(values: tuple[float, ...]) -> float:
    """Return the mean of figures, of which there is one or more.

    >>> mean_of((8.0, 9.0, 10.0))
    9.0
    """
    return math.fsum(values) / len(values)


def carbide_percent(gauge_bar: float, sample_g: float) -> float:
    """Return about how many % by mass a carbide bottle's gauge stands for.

    A check of what is likely, and no more: the percent that counts is read from the gauge's own table. The gas law
    gives 1.00 bar for 1 g of water in a free volume of 0.676 l at 20 °C; the trade's rule for it is CM-% = 100·p/m
    (“reading × 10” for a 10 g sample).

    Args:
        gauge_bar: the pressure shown.
        sample_g: the mass of the sample, more than 0.

    >>> carbide_percent(0.9, 50)
    1.8
    """
    return 100 * gauge_bar / sample_g


def carbide_doubt(percent: float, evidence: Evidence) -> float | None:
    """Return what the gauge says where a carbide test's percent is off it by more than 0.2; None where they agree.

    None too where the gauge or the sample was not written down.

    >>> carbide_doubt(2.6, Evidence(sample_g=50, gauge_bar=0.9))
    1.8
    """
    if evidence.gauge_bar is None or not evidence.sample_g:
        return None
    by_gauge = carbide_percent(evidence.gauge_bar, evidence.sample_g)
    # 2.2 is not more than 0.2 away from 2.0, whatever binary fractions make of it.
    return by_gauge if round(abs(percent - by_gauge), 9) > CARBIDE_AGREES_WITHIN else None
