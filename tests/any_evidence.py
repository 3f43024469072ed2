"""Whatever can stand behind a reading, for tests that try any content."""

from hypothesis import strategies as st

from store.trade.evidence import FIGURES_OF, Evidence

_FIGURES = {
    "sample_g": st.floats(1, 1_000),
    "gauge_bar": st.floats(0, 10),
    "depth_mm": st.integers(0, 1_000),
    "hours": st.integers(0, 10_000),
}


def any_evidence(texts: st.SearchStrategy[str]) -> st.SearchStrategy[Evidence]:
    """Any evidence at all, whatever the kind of reading."""
    figures = {name: st.none() | figure for name, figure in _FIGURES.items()}
    return st.builds(Evidence, point=texts, instrument=texts, **figures)


def behind(texts: st.SearchStrategy[str], kind: str) -> st.SearchStrategy[Evidence]:
    """Evidence that a reading of this kind can have."""
    figures = {name: st.none() | _FIGURES[name] for name in FIGURES_OF.get(kind, ())}
    return st.builds(Evidence, point=texts, instrument=texts, **figures)
