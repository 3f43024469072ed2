"""The sentences about what stands behind a reading, and where its figures do not agree."""

from collections.abc import Iterable, Iterator
from datetime import date

from store.trade.doubts import Doubt, DoubtKind
from store.trade.evidence import Evidence
from tui.words.vocabulary import ZONES
from tui.words.wording import clean, counted, figure, say_day, say_mm


def say_evidence(evidence: Evidence, on: date) -> Iterator[str]:
    """Yield what was written down beside a reading of a day, a sentence for each part of it."""
    if evidence.point:
        yield f"Read at: {clean(evidence.point)}."
    if evidence.instrument:
        yield f"Instrument: {clean(evidence.instrument)}."
    figures = [
        f"sample {figure(evidence.sample_g)} g" if evidence.sample_g is not None else "",
        f"gauge {figure(evidence.gauge_bar)} bar" if evidence.gauge_bar is not None else "",
        f"from {say_mm(evidence.depth_mm)} deep" if evidence.depth_mm is not None else "",
        f"of the {ZONES[evidence.zone]}" if evidence.zone else "",
        f"{counted(evidence.hours, 'hour')} in place" if evidence.hours is not None else "",
    ]
    if said := ", ".join(filter(None, figures)):
        yield f"{said[0].upper()}{said[1:]}."
    if evidence.checked_on is not None:
        yield f"Sensor last checked {say_day(evidence.checked_on, on)}."
    if evidence.figures:
        low, high = figure(min(evidence.figures)), figure(max(evidence.figures))
        listed = ", ".join(figure(one) for one in evidence.figures)
        yield f"Mean of {len(evidence.figures)} figures, {low} to {high} %: {listed}."


def say_doubts(found: Iterable[Doubt], evidence: Evidence) -> Iterator[str]:
    """Yield a warning for each thing that does not fit about a reading."""
    for doubt in found:
        yield _DOUBTS[doubt.kind](doubt, evidence)


def _gauge(doubt: Doubt, evidence: Evidence) -> str:
    shown = f"{figure(evidence.gauge_bar or 0)} bar from {figure(evidence.sample_g or 0)} g"
    return f"{shown} is about {figure(doubt.asked)} %, not {figure(doubt.found)} %; look at both again."


def _too_soon(doubt: Doubt, evidence: Evidence) -> str:
    return f"The probe was in its hole for {counted(int(doubt.found), 'hour')}; ASTM F2170 asks for {doubt.asked:g}."


def _sensor(doubt: Doubt, evidence: Evidence) -> str:
    ago = counted(int(doubt.found), "day")
    return f"Its sensor was checked {ago} before; ASTM F2170 asks for a check within {doubt.asked:g} days."


def _depth(doubt: Doubt, evidence: Evidence) -> str:
    right = "40 % of the thickness where one side dries, 20 % where both do"
    return f"The hole is {figure(doubt.found)} mm deep; {figure(doubt.asked)} mm would be right ({right})."


def _spread(doubt: Doubt, evidence: Evidence) -> str:
    return f"The figures lie {figure(doubt.found)} points apart; over {doubt.asked:g} is unusual, look for the reason."


_DOUBTS = {
    DoubtKind.GAUGE: _gauge,
    DoubtKind.TOO_SOON: _too_soon,
    DoubtKind.SENSOR: _sensor,
    DoubtKind.DEPTH: _depth,
    DoubtKind.SPREAD: _spread,
}
