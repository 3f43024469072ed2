"""Screeds: forecasts, first heating, and numbers of moisture tests."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.screed import drying, first_heating, moisture_tests, ramp_days

LAID = date(2027, 1, 4)


# A day a mm to 50 (cement, quoted from the British Standard) or 40 (calcium sulphate, screed layers), then
# two; 75 mm of calcium sulphate in 110 days is a printed example.
@pytest.mark.parametrize(
    ("screed", "thickness", "days"),
    [
        *(("cement", mm, days) for mm, days in [(30, 30), (50, 50), (60, 70), (65, 80), (75, 100), (100, 150)]),
        *(("calcium-sulphate", mm, days) for mm, days in [(35, 35), (40, 40), (50, 60), (55, 70), (65, 90), (75, 110)]),
        ("cement", 50.2, 51),
    ],
)
def test_a_thick_screed_dries_more_slowly(screed, thickness, days):
    answer = drying(screed=screed, thickness_mm=thickness, laid_on=LAID)
    assert (answer.days, answer.dry_on) == (days, LAID + timedelta(days=days))


@given(st.sampled_from(["cement", "calcium-sulphate"]), st.integers(1, 999))
def test_a_thicker_screed_never_dries_sooner(screed, thickness):
    thin, thick = (drying(screed=screed, thickness_mm=mm, laid_on=LAID).days for mm in (thickness, thickness + 1))
    assert thick - thin in {1, 2}


# 21 or 7 days, then 3 at 25 °C and 4 at full flow: EN 1264-4, as trade pages report it.
@pytest.mark.parametrize(
    ("screed", "start", "full", "end"),
    [
        ("cement", date(2027, 1, 25), date(2027, 1, 28), date(2027, 2, 1)),
        ("calcium-sulphate", date(2027, 1, 11), date(2027, 1, 14), date(2027, 1, 18)),
    ],
)
def test_first_heating_waits_and_then_runs_seven_days(screed, start, full, end):
    answer = first_heating(screed=screed, laid_on=LAID)
    assert (answer.start_on, answer.full_on, answer.end_on) == (start, full, end)


# Steps of 5, 10 or 3 K a day, worked by hand.
@pytest.mark.parametrize(
    ("cold", "warm", "step", "days"),
    [
        (25, 45, 5, 4),
        (20, 45, 5, 5),
        (20, 50, 10, 3),
        (20, 43, 5, 5),
        (15, 27, 5, 3),
        (20, 20, 5, 0),
        (30, 20, 5, 0),
    ],
)
def test_the_flow_is_raised_a_step_a_day(cold, warm, step, days):
    assert ramp_days(from_c=cold, to_c=warm, step_k=step) == days


# Carbide: a testing firm's schedule of one for each 200 m², here never fewer than two.
@pytest.mark.parametrize(("area", "tests"), [(1, 2), (20, 2), (200, 2), (201, 2), (400, 2), (400.5, 3), (1000, 5)])
def test_carbide_tests_are_at_least_two(area, tests):
    answer = moisture_tests(method="carbide", area_m2=area, thickness_mm=65)
    assert (answer.tests, answer.depth_mm) == (tests, None)


# ASTM F2170: three for the first 100 m², one for each further 100 m².
@pytest.mark.parametrize(("area", "tests"), [(20, 3), (100, 3), (101, 4), (200, 4), (250, 5), (450, 7), (100.01, 4)])
def test_in_situ_probes_are_three_and_one_more_each_hundred_square_metres(area, tests):
    assert moisture_tests(method="in-situ-rh", area_m2=area).tests == tests


# ASTM F2170: 40 % of the thickness where a slab dries to one side, 20 % where it dries to both.
@pytest.mark.parametrize(
    ("thickness", "one", "both"),
    [(65, 26, 13), (75, 30, 15), (100, 40, 20), (125, 50, 25), (150, 60, 30), (200, 80, 40)],
)
def test_a_probe_sits_at_the_depth_that_tells_the_covered_slab(thickness, one, both):
    for sides, depth in (("one", one), ("both", both)):
        answer = moisture_tests(method="in-situ-rh", area_m2=20, thickness_mm=thickness, drying_sides=sides)
        assert answer.depth_mm == depth


def test_without_a_thickness_no_depth_is_given():
    assert moisture_tests(method="in-situ-rh", area_m2=20).depth_mm is None


@pytest.mark.parametrize(
    ("wrong", "say"),
    [
        (lambda: drying(screed="lava", thickness_mm=50, laid_on=LAID), "'lava' is not known: give cement"),
        (lambda: drying(screed="cement", thickness_mm=0, laid_on=LAID), "Thickness 0 mm"),
        (lambda: drying(screed="cement", thickness_mm=float("nan"), laid_on=LAID), "finite"),
        (
            lambda: drying(screed="cement", thickness_mm=50, laid_on=date(9999, 12, 1)),
            "earlier day of laying",
        ),
        (lambda: first_heating(screed="cement", laid_on=date(9999, 12, 30)), "earlier day of laying"),
        (lambda: moisture_tests(method="nose", area_m2=20), "Method 'nose' is not known"),
        (lambda: moisture_tests(method="carbide", area_m2=0), "Area 0 m²"),
        (
            lambda: moisture_tests(method="in-situ-rh", area_m2=20, drying_sides="up"),
            "Drying 'up' is not known",
        ),
        (lambda: ramp_days(from_c=20, to_c=40, step_k=0), "Step 0 K a day"),
    ],
)
def test_a_screed_that_cannot_be_is_refused_by_name(wrong, say):
    with pytest.raises(Refused, match=say):
        wrong()
