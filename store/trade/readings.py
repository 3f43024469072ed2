"""What is measured on site: one reading is one instrument held to one room at one moment."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from store.errors import Problem
from store.trade.evidence import NOTHING_BEHIND, Evidence, problem_with_mean


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
class InSituProbe:
    """A probe in a hole drilled into a mineral subfloor: % relative humidity at its depth."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelGrid:
    """Heights of the subfloor on a square grid of points, mm above any level; None where no point could be read.

    Every row has as many points; rows and points are ``spacing_mm`` apart.
    """

    spacing_mm: int
    heights_mm: tuple[tuple[float | None, ...], ...]


Measure = Air | Carbide | Hygrometer | InSituProbe | TimberSubfloor | BoardMoisture | Surface | Straightedge | LevelGrid

KINDS: dict[str, type[Measure]] = {
    "air": Air,
    "carbide": Carbide,
    "hygrometer": Hygrometer,
    "in_situ_probe": InSituProbe,
    "timber_subfloor": TimberSubfloor,
    "board": BoardMoisture,
    "surface": Surface,
    "straightedge": Straightedge,
    "level_grid": LevelGrid,
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


@dataclass(frozen=True, slots=True, kw_only=True)
class WithdrawnReading:
    """A reading that was taken back: the line as it stood, and when, by whom and why it was taken back."""

    reading: Reading
    at: datetime
    who: str
    why: str


def dampness(reading: ReadingDraft) -> float | None:
    """Return the figure that says how damp a subfloor or a board was, %; None for other kinds of reading.

    Of a timber meter's many figures in a subfloor the highest is meant, for the wettest spot decides; of boards their
    mean, because it is what is compared (common practice, no source).
    """
    measure = reading.measure
    if isinstance(measure, Hygrometer | InSituProbe):
        return measure.rh_percent
    if isinstance(measure, TimberSubfloor):
        return max(reading.evidence.figures, default=measure.percent)
    return measure.percent if isinstance(measure, Carbide | BoardMoisture) else None


# What each instrument can show at all; beyond it a figure is a slip of the key, not a reading.
_SPANS: dict[str, tuple[str, float, float, str]] = {
    "temp_c": ("temperature", -40.0, 80.0, "°C"),
    "rh_percent": ("humidity", 0.0, 100.0, "%"),
    "percent": ("moisture", 0.0, 100.0, "%"),
    "span_mm": ("straightedge", 100.0, 10_000.0, "mm"),
    "gap_mm": ("gap", 0.0, 500.0, "mm"),
    "spacing_mm": ("spacing", 50.0, 5_000.0, "mm"),
}
HIGHEST_MM = 10_000.0
"""No point of one floor lies further from the level it is read from, mm; beyond it a key slipped."""

LONGEST_SIDE = 60
"""The most points that a row of a level grid, and a column of it, can have."""

LEAST_POINTS = 3
"""The fewest read points that say anything of flatness: two are always in line."""


def problems_with_measure(measure: Measure) -> tuple[Problem, ...]:
    """Return what is wrong with the figures of a reading, a sentence for each."""
    found: list[Problem] = []
    for field in type(measure).__dataclass_fields__:
        if field == "heights_mm":
            continue
        value: float = getattr(measure, field)
        word, least, most, unit = _SPANS[field]
        if not math.isfinite(value) or not least <= value <= most:
            say = f"A {word} is from {least:g} to {most:g} {unit}, not {value:g}."
            found.append(Problem(field=field, say=say))
    if isinstance(measure, LevelGrid):
        found += _problems_with_heights(measure.heights_mm)
    return tuple(found)


def _problems_with_heights(rows: tuple[tuple[float | None, ...], ...]) -> Iterator[Problem]:
    def wrong(say: str) -> Problem:
        return Problem(field="heights_mm", say=say)

    longest = max((len(row) for row in rows), default=0)
    ragged = next((number for number, row in enumerate(rows, 1) if len(row) != len(rows[0])), None)
    if len(rows) > LONGEST_SIDE or longest > LONGEST_SIDE:
        yield wrong(f"A grid has at most {LONGEST_SIDE} rows of {LONGEST_SIDE} points.")
    elif ragged is not None:
        yield wrong(
            f"Row {ragged} has {len(rows[ragged - 1])} points, row 1 has {len(rows[0])}; write - for a missing one."
        )
    elif len(rows) * longest < LEAST_POINTS or sum(one is not None for row in rows for one in row) < LEAST_POINTS:
        yield wrong(f"A grid has {LEAST_POINTS} read points or more.")
    for one in (one for row in rows for one in row if one is not None):
        if not math.isfinite(one) or abs(one) > HIGHEST_MM:
            yield wrong(f"A height is from −{HIGHEST_MM:,.0f} to {HIGHEST_MM:,.0f} mm, not {one:g}.")
            return


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


def problems_with_what_fits(draft: ReadingDraft) -> tuple[Problem, ...]:
    """Return where a reading contradicts what stands behind it: a mean that is none, a sensor checked afterwards."""
    found = problem_with_mean(getattr(draft.measure, "percent", 0.0), draft.evidence)
    checked_on = draft.evidence.checked_on
    if checked_on is not None and checked_on > draft.at.date():
        found += (Problem(field="checked_on", say="The sensor was checked after this reading; look at both days."),)
    return found
