"""What stands behind a reading is believed, looked at for slips of the key, and held against the gauge."""

from datetime import UTC, datetime

import pytest

from store.trade.checks import problems_with_reading
from store.trade.evidence import Evidence, carbide_doubt, carbide_percent, problems_with_evidence
from store.trade.readings import Air, Measure, ReadingDraft, Surface
from tests.trade.conftest import a_job

NOW = datetime(2026, 11, 25, 7, 30, tzinfo=UTC)


def said(measure: Measure) -> list[str]:
    draft = ReadingDraft(room="Reading room", at=NOW, measure=measure)
    return [one.say for one in problems_with_reading(draft, a_job(), NOW)]


# Bar, grams and CM-%: the trade handbook's check values for “CM-% = 100 · p / m”.
@pytest.mark.parametrize(
    ("bar", "grams", "percent"),
    [(1.0, 50, 2.0), (0.9, 50, 1.8), (1.1, 50, 2.2), (0.5, 100, 0.5), (0.3, 100, 0.3), (0.8, 20, 4.0), (0.2, 10, 2.0)],
)
def test_the_gauge_and_the_sample_say_about_how_damp_a_screed_is(bar: float, grams: float, percent: float) -> None:
    assert carbide_percent(bar, grams) == pytest.approx(percent)


@pytest.mark.parametrize(
    ("percent", "doubted"), [(1.8, False), (2.0, False), (2.2, False), (2.21, True), (1.79, True), (0.2, True)]
)
def test_a_percent_is_doubted_when_it_is_more_than_two_tenths_off_its_gauge(percent: float, doubted: bool) -> None:
    evidence = Evidence(sample_g=50, gauge_bar=1.0)
    assert carbide_doubt(percent, evidence) == (2.0 if doubted else None)


@pytest.mark.parametrize("evidence", [Evidence(), Evidence(gauge_bar=1.0), Evidence(sample_g=50)])
def test_nothing_is_doubted_without_both_gauge_and_sample(evidence: Evidence) -> None:
    assert carbide_doubt(9.0, evidence) is None


def test_a_figure_that_no_such_reading_has_is_refused() -> None:
    assert [one.field for one in problems_with_evidence("air", Evidence(hours=72))] == ["hours"]
    assert problems_with_evidence("hygrometer", Evidence(hours=72, point="by the door")) == ()
    assert [one.field for one in problems_with_evidence("carbide", Evidence(sample_g=0.0))] == ["sample_g"]
    assert [one.field for one in problems_with_evidence("carbide", Evidence(gauge_bar=float("nan")))] == ["gauge_bar"]


def test_air_read_in_fahrenheit_is_asked_about_with_its_celsius() -> None:
    # 68 °F is 20 °C exactly: (68 - 32) · 5 / 9.
    assert said(Air(temp_c=68, rh_percent=50)) == [
        "Air of 68 °C? If the meter shows Fahrenheit, 68 °F is 20 °C: write 20."
    ]
    assert said(Air(temp_c=45, rh_percent=50)) == []
    assert said(Surface(temp_c=50)) == []
