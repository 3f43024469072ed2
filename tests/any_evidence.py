"""Whatever can stand behind a reading, and whatever a reading can say, for tests that try any content."""

from datetime import date

from hypothesis import strategies as st

from store.trade.evidence import FIGURES_OF, Evidence, Zone
from store.trade.readings import (
    Air,
    BoardMoisture,
    Carbide,
    Hygrometer,
    InSituProbe,
    LevelGrid,
    Measure,
    Straightedge,
    Surface,
    TimberSubfloor,
)

_FIGURES = {
    "sample_g": st.none() | st.floats(1, 1_000),
    "gauge_bar": st.none() | st.floats(0, 10),
    "depth_mm": st.none() | st.integers(0, 1_000),
    "hours": st.none() | st.integers(0, 10_000),
    "zone": st.none() | st.sampled_from(Zone),
    "checked_on": st.none() | st.just(date(1900, 1, 1)),
    "figures": st.lists(st.floats(0, 100), max_size=4).map(tuple),
}
_HEIGHTS = st.none() | st.floats(-10_000, 10_000)


def any_evidence(texts: st.SearchStrategy[str]) -> st.SearchStrategy[Evidence]:
    """Any evidence at all, whatever the kind of reading."""
    return st.builds(Evidence, point=texts, instrument=texts, **_FIGURES)


def behind(texts: st.SearchStrategy[str], kind: str, percent: float | None = None) -> st.SearchStrategy[Evidence]:
    """Evidence that a reading of this kind can have; the figures behind a percent are all the same one."""
    figures = {name: _FIGURES[name] for name in FIGURES_OF.get(kind, ())}
    if percent is not None and "figures" in figures:
        figures["figures"] = st.integers(0, 4).map(lambda count: (percent,) * count)
    return st.builds(Evidence, point=texts, instrument=texts, **figures)


def any_grid() -> st.SearchStrategy[LevelGrid]:
    """Any grid of levels of which three points or more are read."""
    rows = st.integers(1, 5).flatmap(
        lambda wide: st.lists(st.lists(_HEIGHTS, min_size=wide, max_size=wide).map(tuple), min_size=1, max_size=5)
    )
    read = rows.map(tuple).filter(lambda grid: sum(one is not None for row in grid for one in row) > 2)
    return st.builds(LevelGrid, spacing_mm=st.integers(50, 5_000), heights_mm=read)


def any_measure(degrees: st.SearchStrategy[float], percents: st.SearchStrategy[float]) -> st.SearchStrategy[Measure]:
    """Whatever an instrument can say, of every kind."""
    return st.one_of(
        st.builds(Air, temp_c=degrees, rh_percent=percents),
        st.builds(Carbide, percent=percents),
        st.builds(Hygrometer, rh_percent=percents),
        st.builds(InSituProbe, rh_percent=percents),
        st.builds(TimberSubfloor, percent=percents),
        st.builds(BoardMoisture, percent=percents),
        st.builds(Surface, temp_c=degrees),
        st.builds(Straightedge, span_mm=st.integers(100, 10_000), gap_mm=st.floats(0, 500)),
        any_grid(),
    )
