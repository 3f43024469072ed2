"""What is measured on site: one reading is one instrument held to one room at one moment."""

import math
from dataclasses import dataclass
from datetime import datetime

from store.errors import Problem
from store.trade.evidence import NOTHING_BEHIND, Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """Room air: °C and % relative humidity."""

    temp_c: float
    rh_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Carbide:
    """A carbide (CM) test of a screed: % by mass."""

    percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hygrometer:
    """A hygrometer on or in a mineral subfloor: % relative humidity in balance with it."""

    rh_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TimberSubfloor:
    """A timber meter in the subfloor: % moisture content."""

    percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardMoisture:
    """A timber meter in the boards to be laid: % moisture content."""

    percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """The temperature of the subfloor's surface, °C."""

    temp_c: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Straightedge:
    """The widest gap found under a straightedge laid on the subfloor, mm under a span of mm."""

    span_mm: int
    gap_mm: float


Measure = Air | Carbide | Hygrometer | TimberSubfloor | BoardMoisture | Surface | Straightedge

KINDS: dict[str, type[Measure]] = {
    "air": Air,
    "carbide": Carbide,
    "hygrometer": Hygrometer,
    "timber_subfloor": TimberSubfloor,
    "board": BoardMoisture,
    "surface": Surface,
    "straightedge": Straightedge,
}
"""The word each kind of reading has in a job folder."""

KIND_OF: dict[type[Measure], str] = {measure: word for word, measure in KINDS.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingDraft:
    """A reading to be filed: where, when, and what the instrument said."""

    room: str
    at: datetime
    measure: Measure
    taken_by: str = ""
    note: str = ""
    evidence: Evidence = NOTHING_BEHIND

    @property
    def kind(self) -> str:
        """The word for this kind of reading in a job folder."""
        return KIND_OF[type(self.measure)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading(ReadingDraft):
    """A reading on file; readings are never changed, only taken back.

    ``corrects`` is the number of the one that was taken back for this one, where it was put right in one deed.
    """

    id: int
    corrects: int | None = None


# What each instrument can show at all; beyond it a figure is a slip of the key, not a reading.
_SPANS: dict[str, tuple[str, float, float, str]] = {
    "temp_c": ("temperature", -40.0, 80.0, "°C"),
    "rh_percent": ("humidity", 0.0, 100.0, "%"),
    "percent": ("moisture", 0.0, 100.0, "%"),
    "span_mm": ("straightedge", 100.0, 10_000.0, "mm"),
    "gap_mm": ("gap", 0.0, 500.0, "mm"),
}


def problems_with_measure(measure: Measure) -> tuple[Problem, ...]:
    """Return what is wrong with the figures of a reading, a sentence for each."""
    found: list[Problem] = []
    for field in type(measure).__dataclass_fields__:
        value: float = getattr(measure, field)
        word, least, most, unit = _SPANS[field]
        if not math.isfinite(value) or not least <= value <= most:
            say = f"A {word} is from {least:g} to {most:g} {unit}, not {value:g}."
            found.append(Problem(field=field, say=say))
    return tuple(found)


WARMEST_AIR_C = 45.0
"""No room that is floored is warmer (common practice, no source); above it a figure was likely read in °F."""


def problems_with_air(measure: Measure) -> tuple[Problem, ...]:
    """Return what is wrong with air too warm for any room: it asks whether it was read in °F.

    >>> problems_with_air(Air(temp_c=68, rh_percent=50))[0].say
    'Air of 68 °C? If the meter shows Fahrenheit, 68 °F is 20 °C: write 20.'
    """
    if not isinstance(measure, Air) or not WARMEST_AIR_C < measure.temp_c <= _SPANS["temp_c"][2]:
        return ()
    given, celsius = f"{measure.temp_c:g}", f"{round((measure.temp_c - 32) * 5 / 9, 1):g}"
    say = f"Air of {given} °C? If the meter shows Fahrenheit, {given} °F is {celsius} °C: write {celsius}."
    return (Problem(field="temp_c", say=say),)
