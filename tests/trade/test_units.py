"""Typed numbers are taken exactly, or refused in one short sentence."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.units import Bounds, exact, one_of, plain_mm, round_half_away, shown

WIDTH = Bounds(what="Width", unit="mm", above_least=True)
TEMP = Bounds(what="Temperature", unit="°C", least=-1, most=49)


def test_a_float_is_taken_as_it_is_written():
    assert exact(0.1, what="Rate") == Fraction(1, 10)
    assert exact(1.7, what="Rate") * 20 * 3 == 102


@pytest.mark.parametrize(
    "value",
    [float("nan"), float("inf"), -float("inf"), Decimal("NaN"), Decimal("sNaN"), Decimal("Infinity")],
)
def test_a_number_that_is_not_finite_is_refused(value):
    with pytest.raises(Refused, match="finite"):
        WIDTH.take(value)


@pytest.mark.parametrize("value", [10**5000, -(10**400), Decimal("1e999999"), Decimal("1e-999999"), 1e300], ids="abcde")
def test_a_number_of_hundreds_of_figures_is_refused_in_a_short_sentence(value):
    with pytest.raises(Refused) as refusal:
        TEMP.take(value)
    assert len(str(refusal.value)) < 160


def test_both_ends_of_a_range_are_included():
    assert (TEMP.take(-1), TEMP.take(Decimal(49))) == (-1, 49)
    with pytest.raises(Refused, match=r"49\.01 °C is outside .* give -1 to 49 °C"):
        TEMP.take(Decimal("49.01"))


def test_a_measure_that_must_be_above_nought_says_so():
    with pytest.raises(Refused, match=r"Width 0 mm .* more than 0"):
        WIDTH.take(0)


def test_half_a_millimetre_is_not_a_whole_one():
    assert WIDTH.take_whole(190.0) == 190
    with pytest.raises(Refused, match=r"190\.5 mm is not whole"):
        WIDTH.take_whole(190.5)


def test_names_are_taken_in_any_spelling_of_their_gaps():
    assert one_of(" Calcium_Sulphate ", ("cement", "calcium-sulphate"), what="Screed") == "calcium-sulphate"
    with pytest.raises(Refused, match="'lava' is not known: give cement or sand"):
        one_of("lava", ("cement", "sand"), what="Screed")


def test_a_very_long_name_is_cut_in_the_sentence():
    with pytest.raises(Refused) as refusal:
        one_of("x" * 5_000_000, ("cement",), what="Screed")
    assert len(str(refusal.value)) < 120


def test_halves_round_away_from_nought():
    assert [round_half_away(Fraction(n, 2)) for n in (-3, -1, 0, 1, 3, 4)] == [-2, -1, 0, 1, 2, 2]


def test_whole_millimetres_stay_whole_numbers():
    assert repr(plain_mm(Fraction(103))) == "103"
    assert plain_mm(Fraction(201, 2)) == 100.5


@given(st.floats(allow_nan=False, allow_infinity=False))
def test_every_finite_float_comes_back_from_its_fraction(value):
    assert float(exact(value, what="Number")) == value


@given(st.one_of(st.integers(), st.floats(), st.decimals(), st.fractions()))
def test_a_value_is_always_named_shortly(value):
    assert len(shown(value)) <= 40
