"""Dew points, against a psychrometrics library and a printed table."""

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.climate import dew_point

psychrolib.SetUnitSystem(psychrolib.SI)

# T, RH, value of a German public dew-point table (None: not printed there). Its 30 °C / 65 % is a misprint.
PRINTED = [
    (10, 50, 0.0), (10, 70, 4.8), (10, 90, 8.5), (12, 65, 5.6), (14, 60, 6.4), (15, 65, 8.5),
    (16, 70, 10.6), (18, 50, 7.4), (18, 60, 10.1), (18, 65, 11.3), (18, 75, 13.5), (20, 50, 9.3),
    (20, 60, 12.0), (20, 65, 13.2), (20, 70, 14.4), (20, 80, 16.5), (22, 55, 12.5), (22, 65, 15.2),
    (24, 60, 15.7), (25, 50, 13.8), (25, 70, 19.1), (30, 55, 20.0), (30, 75, 25.1),
]  # fmt: skip

# Magnus with the coefficients of WMO No. 8, worked out independently to two decimals.
WORKED = [
    (10, 50, 0.04), (10, 90, 8.43), (12, 65, 5.62), (14, 60, 6.35), (15, 65, 8.47), (16, 70, 10.53),
    (18, 45, 5.88), (18, 50, 7.41), (18, 60, 10.11), (18, 65, 11.32), (20, 50, 9.26), (20, 60, 12.00),
    (20, 65, 13.22), (20, 70, 14.36), (20, 80, 16.44), (22, 55, 12.54), (22, 65, 15.12), (24, 60, 15.75),
    (25, 50, 13.85), (25, 70, 19.15), (30, 55, 19.97), (30, 65, 22.70), (30, 75, 25.08),
]  # fmt: skip


@pytest.mark.parametrize(("temp", "rh", "printed"), PRINTED)
def test_dew_points_agree_with_the_printed_table(temp, rh, printed):
    assert dew_point(temp_c=temp, rh_percent=rh).dew_point_c == pytest.approx(printed, abs=0.15)


@pytest.mark.parametrize(("temp", "rh", "worked"), WORKED)
def test_dew_points_are_those_of_the_wmo_formula(temp, rh, worked):
    assert dew_point(temp_c=temp, rh_percent=rh).dew_point_c == pytest.approx(worked, abs=0.0051)


@given(st.floats(0, 40), st.floats(20, 99))
def test_dew_points_above_freezing_agree_with_psychrolib(temp, rh):
    ours = dew_point(temp_c=temp, rh_percent=rh).dew_point_c
    if ours > 0.1:
        assert ours == pytest.approx(psychrolib.GetTDewPointFromRelHum(temp, rh / 100), abs=0.04)


# The 3 °C of ISO 8502-4; 10/90 is a published example that rounds to 8.4 + 3 = 11.4.
@pytest.mark.parametrize(
    ("temp", "rh", "surface", "ok"),
    [
        (20, 70, 17.4, True),
        (20, 70, 17.3, False),
        (10, 90, 11.5, True),
        (10, 90, 11.4, False),
        (18, 65, 15.0, True),
        (18, 65, 14.0, False),
        (22, 65, 18.0, False),
        (20, 50, 15.0, True),
    ],
)
def test_a_surface_is_safe_three_degrees_above_the_dew_point(temp, rh, surface, ok):
    answer = dew_point(temp_c=temp, rh_percent=rh, surface_c=surface)
    assert answer.ok is ok
    assert answer.margin_c == pytest.approx(surface - answer.dew_point_c)


def test_without_a_surface_nothing_is_said_about_it():
    answer = dew_point(temp_c=20, rh_percent=50)
    assert (answer.margin_c, answer.ok) == (None, None)


def test_saturated_air_is_at_its_dew_point():
    assert dew_point(temp_c=20, rh_percent=100).dew_point_c == pytest.approx(20)


@given(st.integers(-400, 570))
def test_a_surface_just_three_degrees_above_saturated_air_is_not_lost_to_floats(tenths):
    assert dew_point(temp_c=tenths / 10, rh_percent=100, surface_c=(tenths + 30) / 10).ok
    assert not dew_point(temp_c=tenths / 10, rh_percent=100, surface_c=(10 * tenths + 299) / 100).ok


@pytest.mark.parametrize(
    ("temp", "rh", "surface", "say"),
    [
        (20, 0, None, "Relative humidity 0 %"),
        (20, 100.1, None, r"Relative humidity 100\.1 %"),
        (20, -5, None, "Relative humidity -5 %"),
        (61, 50, None, "Air temperature 61 °C"),
        (float("nan"), 50, None, "finite"),
        (20, float("inf"), None, "finite"),
        (20, 50, float("nan"), "Surface temperature must be a finite number"),
    ],
)
def test_air_that_cannot_be_is_refused_by_name(temp, rh, surface, say):
    with pytest.raises(Refused, match=say):
        dew_point(temp_c=temp, rh_percent=rh, surface_c=surface)


@given(st.floats(-40, 59), st.floats(1, 99), st.floats(0.1, 1))
def test_damper_or_warmer_air_has_a_higher_dew_point(temp, rh, more):
    dew = dew_point(temp_c=temp, rh_percent=rh).dew_point_c
    assert dew < dew_point(temp_c=temp + more, rh_percent=rh).dew_point_c
    assert dew < dew_point(temp_c=temp, rh_percent=rh + more).dew_point_c
    assert dew < temp
