"""What people type is read as they mean it, or refused with a sentence that shows how to write it."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tui.typed import figures as typed
from tui.typed.figures import Misread
from tui.typed.outline import read_cut_outs, read_ring, read_sides, typed_cut_outs, typed_ring
from tui.words.wording import typed_area, typed_money, typed_number

RECTANGLE = ((0, 0), (5200, 0), (5200, 4100), (0, 4100))
L_SHAPE = ((0, 0), (5200, 0), (5200, 1400), (4300, 1400), (4300, 4100), (0, 4100))


@pytest.mark.parametrize("text", ["5200", "5.2 m", "5,2 m", "520 cm", "5200mm", " 5200 ", "5.200 m", "5 200", "5'200"])
def test_a_length_may_be_typed_in_many_ways(text: str) -> None:
    assert typed.read_mm(text) == 5200


@pytest.mark.parametrize(
    "text", ["", "  ", "5,200", "5.200", "5200.5", "wide", "5 yd", "9" * 400, "5.2.1", "٥٢٠٠", "-"]
)
def test_a_length_that_is_none_is_refused_with_an_example(text: str) -> None:
    read = typed.read_mm(text)
    assert isinstance(read, Misread)
    assert "5200" in read.say or text == "5200.5"


def test_a_number_that_can_be_read_two_ways_is_refused_and_both_are_named() -> None:
    read = typed.read_number("1,234")
    assert isinstance(read, Misread)
    assert "1234" in read.say
    assert isinstance(typed.read_number("1.234"), Misread)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("16,5", 16.5),
        ("16.5", 16.5),
        ("−2", -2.0),
        ("-2", -2.0),
        ("0,125", 0.125),
        ("1,234.5", 1234.5),
        ("1.234,5", 1234.5),
    ],
)
def test_numbers_take_a_comma_or_a_point(text: str, value: float) -> None:
    assert typed.read_number(text) == value


@pytest.mark.parametrize(("text", "hours"), [("168", 168), ("7 days", 168), ("7d", 168), ("1 day", 24), ("72 h", 72)])
def test_a_wait_may_be_typed_in_hours_or_days(text: str, hours: int) -> None:
    assert typed.read_hours(text) == hours


@pytest.mark.parametrize(
    ("text", "currency", "minor"),
    [
        ("182,40", "EUR", 18240),
        ("182.40", "EUR", 18240),
        ("€ 182.4", "EUR", 18240),
        ("182", "EUR", 18200),
        ("1,824.00", "EUR", 182_400),
        ("EUR 5", "EUR", 500),
        ("500", "JPY", 500),
        ("1.500", "KWD", 1500),
    ],
)
def test_money_is_read_in_the_minor_unit_of_its_currency(text: str, currency: str, minor: int) -> None:
    assert typed.read_money(text, currency) == minor


def test_money_finer_than_its_currency_is_refused() -> None:
    assert isinstance(typed.read_money("5.5", "JPY"), Misread)
    assert isinstance(typed.read_money("5.1234", "EUR"), Misread)


@pytest.mark.parametrize(("text", "area_mm2"), [("14.5", 14_500_000), ("14,5 m²", 14_500_000), ("14 m2", 14_000_000)])
def test_an_area_is_read_in_square_metres(text: str, area_mm2: int) -> None:
    assert typed.read_area(text) == area_mm2


def test_a_range_is_two_numbers() -> None:
    assert typed.read_range("18-24") == (18.0, 24.0)
    assert typed.read_range("17.5 to 24") == (17.5, 24.0)
    assert typed.read_range("40–65") == (40.0, 65.0)
    assert isinstance(typed.read_range("18"), Misread)


def test_a_currency_is_three_letters() -> None:
    assert typed.read_currency("eur") == "EUR"
    assert isinstance(typed.read_currency("€"), Misread)


@pytest.mark.parametrize("text", ["5200 x 4100", "5200x4100", "5.2 x 4.1 m", "5.2 m × 4,1 m", "520 cm * 4100"])
def test_two_sides_make_a_rectangle(text: str) -> None:
    assert read_ring(text) == RECTANGLE


@pytest.mark.parametrize(
    "text",
    [
        "5200 right, 1400 up, 900 left, 2700 up, 4300 left, 4100 down",
        "5200r, 1400u, 900l, 2700u, 4300l, 4100d",
        "0,0 5200,0 5200,1400 4300,1400 4300,4100 0,4100",
        "[[0,0],[5200,0],[5200,1400],[4300,1400],[4300,4100],[0,4100]]",
    ],
)
def test_an_l_shape_may_be_walked_or_given_by_its_corners(text: str) -> None:
    assert read_ring(text) == L_SHAPE


def test_a_walk_that_does_not_close_says_by_how_much() -> None:
    read = read_ring("5200 right, 4100 up, 5200 left")
    assert isinstance(read, Misread)
    assert "4100 mm" in read.say


@pytest.mark.parametrize("text", ["", "big", "0 x 4100", "-5 x 3", "5200 x", "0,0 1,1", "0,0 10,0 oops 10,10 0,10"])
def test_a_shape_that_is_none_is_refused_in_a_sentence(text: str) -> None:
    assert isinstance(read_ring(text), Misread)


def test_sides_are_read_as_a_pair() -> None:
    assert read_sides("900 x 600") == (900, 600)


def test_cut_outs_are_placed_by_their_corner() -> None:
    rings = read_cut_outs("1000 x 500 at 0,0; 400x400 @ 1200,300")
    assert rings == (
        ((0, 0), (1000, 0), (1000, 500), (0, 500)),
        ((1200, 300), (1600, 300), (1600, 700), (1200, 700)),
    )
    assert read_cut_outs(" ") == ()
    assert isinstance(read_cut_outs("1000 x 500"), Misread)


CORNER = st.tuples(st.integers(-99_999, 99_999), st.integers(-99_999, 99_999))
RING = st.lists(CORNER, min_size=3, max_size=8, unique=True).map(tuple)


@given(RING)
def test_a_shape_filled_into_a_field_is_read_back_the_same(ring: tuple[tuple[int, int], ...]) -> None:
    assert read_ring(typed_ring(ring)) == ring


@given(st.lists(RING, max_size=3).map(tuple))
def test_cut_outs_filled_into_a_field_are_read_back_the_same(
    rings: tuple[tuple[tuple[int, int], ...], ...],
) -> None:
    assert read_cut_outs(typed_cut_outs(rings)) == rings


@given(st.floats(-1000, 1000).map(lambda value: round(value, 4)))
def test_a_number_filled_into_a_field_is_read_back_the_same(value: float) -> None:
    assert typed.read_number(typed_number(value)) == pytest.approx(value, abs=1e-9)


@given(st.integers(0, 10**9), st.sampled_from(["EUR", "JPY", "KWD"]))
def test_money_filled_into_a_field_is_read_back_the_same(minor: int, currency: str) -> None:
    assert typed.read_money(typed_money(minor, currency), currency) == minor


@given(st.integers(0, 10**6).map(lambda hundredths: hundredths * 10_000))
def test_an_area_filled_into_a_field_is_read_back_the_same(area_mm2: int) -> None:
    assert typed.read_area(typed_area(area_mm2)) == area_mm2


READERS: list[Callable[[str], object]] = [
    typed.read_mm,
    typed.read_number,
    typed.read_whole,
    typed.read_hours,
    typed.read_area,
    typed.read_range,
    typed.read_currency,
    typed.read_text,
    lambda text: typed.read_money(text, "EUR"),
    read_ring,
    read_cut_outs,
    read_sides,
]


@pytest.mark.parametrize("reader", READERS)
@given(text=st.text() | st.text(alphabet="0123456789., -+x×mcatrlud;[]"))
def test_no_text_makes_a_reader_fail_and_no_sentence_steers_the_terminal(
    reader: Callable[[str], object], text: str
) -> None:
    read = reader(text)
    if isinstance(read, Misread):
        assert read.say.endswith((".", "…"))
        assert "\x1b" not in read.say
        assert len(read.say) < 400


def test_a_length_finer_than_a_millimetre_is_answered_with_the_two_nearest() -> None:
    assert typed.read_mm("14,5") == Misread(say="“14,5” is finer than a millimetre; write 14 or 15 mm.")
    assert typed.read_mm("1,4505 m") == Misread(say="“1,4505 m” is finer than a millimetre; write 1450 or 1451 mm.")


@pytest.mark.parametrize(
    "text",
    [
        "5.2 m right, 4.1 m up, 5.2 m left, 4.1 m down",
        "5,2m right, 4,1m up, 5,2m left, 4,1m down",
        "520 cm r, 410 cm u, 5200 l, 4100 d",
    ],
)
def test_a_walk_may_be_measured_in_metres(text: str) -> None:
    assert read_ring(text) == RECTANGLE


def test_a_room_of_a_few_millimetres_is_taken_for_metres_that_were_meant() -> None:
    assert read_ring("5x4") == Misread(say="“5x4” is 5 by 4 mm; for metres write “5x4 m”.")
    assert read_ring("5x4 m") == ((0, 0), (5000, 0), (5000, 4000), (0, 4000))
