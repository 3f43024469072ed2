"""The sentences about what stands behind a reading, and where its figures do not agree."""

from collections.abc import Iterator

from store.trade.evidence import Evidence, carbide_doubt
from tui.words.wording import clean, counted, figure, say_mm


def say_evidence(evidence: Evidence) -> Iterator[str]:
    """Yield what was written down beside a reading, a sentence for each part of it."""
    if evidence.point:
        yield f"Read at: {clean(evidence.point)}."
    if evidence.instrument:
        yield f"Instrument: {clean(evidence.instrument)}."
    figures = [
        f"sample {figure(evidence.sample_g)} g" if evidence.sample_g is not None else "",
        f"gauge {figure(evidence.gauge_bar)} bar" if evidence.gauge_bar is not None else "",
        f"from {say_mm(evidence.depth_mm)} deep" if evidence.depth_mm is not None else "",
        f"{counted(evidence.hours, 'hour')} in place" if evidence.hours is not None else "",
    ]
    if said := ", ".join(filter(None, figures)):
        yield f"{said[0].upper()}{said[1:]}."


def say_doubt(percent: float, evidence: Evidence) -> str:
    """Return a warning where a carbide test's percent and its gauge disagree; empty where they agree."""
    by_gauge = carbide_doubt(percent, evidence)
    if by_gauge is None or evidence.gauge_bar is None or evidence.sample_g is None:
        return ""
    shown = f"{figure(evidence.gauge_bar)} bar from {figure(evidence.sample_g)} g"
    return f"{shown} is about {figure(by_gauge)} %, not {figure(percent)} %; look at both again."
