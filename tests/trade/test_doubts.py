"""Where a reading and what was written down beside it do not fit, the fitter is asked to look again."""

from datetime import date, datetime

import pytest

from store.trade.doubts import Doubt, DoubtKind, doubts, probe_depth_mm
from store.trade.evidence import Evidence, Zone, mean_of, problems_with_evidence
from store.trade.readings import (
    Air,
    BoardMoisture,
    Carbide,
    InSituProbe,
    ReadingDraft,
    TimberSubfloor,
    problems_with_what_fits,
)

TODAY = date(2026, 11, 25)
PROBE = InSituProbe(rh_percent=70)


def kinds(found: tuple[Doubt, ...]) -> list[str]:
    return [one.kind.value for one in found]


# ASTM F2170-18 as reported in a probe maker's manual and trade news: 24 hours in the hole, a check within 30 days.
@pytest.mark.parametrize(("hours", "doubted"), [(23, True), (24, False), (72, False)])
def test_a_probe_is_read_after_a_day_in_its_hole(hours: int, doubted: bool) -> None:
    assert kinds(doubts(PROBE, Evidence(hours=hours), on=TODAY)) == (["too_soon"] if doubted else [])


@pytest.mark.parametrize(("checked", "doubted"), [(date(2026, 10, 26), False), (date(2026, 10, 25), True)])
def test_a_sensor_is_good_for_thirty_days_after_its_check(checked: date, doubted: bool) -> None:
    assert kinds(doubts(PROBE, Evidence(checked_on=checked), on=TODAY)) == (["sensor"] if doubted else [])


# Depths of ASTM F2170: 40 % of the thickness drying one side, 20 % drying both (the trade handbook's check values).
@pytest.mark.parametrize(
    ("thickness", "one_side", "both"),
    [(65, 26, 13), (75, 30, 15), (100, 40, 20), (125, 50, 25), (150, 60, 30), (200, 80, 40)],
)
def test_a_hole_of_either_right_depth_is_not_doubted_and_one_between_is(
    thickness: int, one_side: int, both: int
) -> None:
    assert probe_depth_mm(thickness) == one_side
    for deep in (one_side, both, both + 5):
        assert doubts(PROBE, Evidence(depth_mm=deep), on=TODAY, thickness_mm=thickness) == ()
    (found,) = doubts(PROBE, Evidence(depth_mm=one_side + 6), on=TODAY, thickness_mm=thickness)
    assert (found.kind, found.found, found.asked) == (DoubtKind.DEPTH, one_side + 6, one_side)


def test_nothing_is_doubted_where_nothing_was_written_down() -> None:
    assert doubts(PROBE, Evidence(), on=TODAY, thickness_mm=65) == ()
    assert doubts(PROBE, Evidence(depth_mm=3), on=TODAY) == ()
    assert doubts(Air(temp_c=20, rh_percent=50), Evidence(), on=TODAY) == ()
    assert doubts(BoardMoisture(percent=9), Evidence(), on=TODAY) == ()


# A US trade magazine: figures of a subfloor lie within 3 points; two or more outside are to be looked into.
@pytest.mark.parametrize(
    ("figures", "doubted"),
    [((9.0, 10.0, 12.0), False), ((9.0, 9.0, 9.0, 13.0), False), ((7.0, 9.0, 10.0, 13.0), True), ((), False)],
)
def test_figures_that_lie_far_apart_are_doubted_but_one_knot_is_not(figures: tuple[float, ...], doubted: bool) -> None:
    found = doubts(TimberSubfloor(percent=10), Evidence(figures=figures), on=TODAY)
    assert kinds(found) == (["spread"] if doubted else [])


def test_a_carbide_test_is_still_held_against_its_gauge() -> None:
    (found,) = doubts(Carbide(percent=2.6), Evidence(sample_g=50, gauge_bar=0.9), on=TODAY)
    assert (found.kind, found.found, found.asked) == (DoubtKind.GAUGE, 2.6, pytest.approx(1.8))


def reading(measure: TimberSubfloor | InSituProbe, evidence: Evidence) -> ReadingDraft:
    at = datetime.fromisoformat("2026-11-25T07:30:00+01:00")
    return ReadingDraft(room="Hall", at=at, measure=measure, evidence=evidence)


def test_a_percent_that_is_not_the_mean_of_its_figures_is_refused() -> None:
    figures = Evidence(figures=(9.0, 10.0, 11.0))
    assert mean_of(figures.figures) == 10
    assert problems_with_what_fits(reading(TimberSubfloor(percent=10.1), figures)) == ()
    (problem,) = problems_with_what_fits(reading(TimberSubfloor(percent=10.2), figures))
    assert (problem.field, problem.say) == ("percent", "The mean of its figures is 10, not 10.2.")


def test_a_sensor_checked_after_the_reading_is_refused() -> None:
    assert problems_with_what_fits(reading(PROBE, Evidence(checked_on=TODAY))) == ()
    (problem,) = problems_with_what_fits(reading(PROBE, Evidence(checked_on=date(2026, 11, 26))))
    assert problem.field == "checked_on"


def test_what_belongs_to_another_kind_of_reading_is_refused() -> None:
    assert [one.field for one in problems_with_evidence("air", Evidence(zone=Zone.LOWER))] == ["zone"]
    assert [one.field for one in problems_with_evidence("hygrometer", Evidence(checked_on=TODAY))] == ["checked_on"]
    assert [one.field for one in problems_with_evidence("carbide", Evidence(figures=(1.0, 2.0)))] == ["figures"]
    assert problems_with_evidence("in_situ_probe", Evidence(checked_on=TODAY, hours=24, depth_mm=26)) == ()
    assert problems_with_evidence("carbide", Evidence(zone=Zone.WHOLE)) == ()
    assert [one.field for one in problems_with_evidence("board", Evidence(figures=(101.0,)))] == ["figures"]
    assert [one.field for one in problems_with_evidence("board", Evidence(figures=(9.0,) * 201))] == ["figures"]
