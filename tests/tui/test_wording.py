"""Values become the words people read."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.events import SHELF, SITE, UNIT, Destination, in_room
from store.trade.firm import ClockForm
from store.trade.jobs import Method, Subfloor
from store.trade.readings import KINDS, Air, Carbide, Hygrometer, Straightedge, Surface
from store.trade.verdict import HoldKind, HoldState, Stage
from tui.words import vocabulary, wording
from tui.words.wording import clean

ZONE = ZoneInfo("Europe/Brussels")
NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)


def test_a_control_code_is_shown_as_its_picture_and_steers_nothing() -> None:
    assert clean("a\x1b[31mb\x00\x07\x7f") == "a␛[31mb␀␇␡"


@pytest.mark.parametrize("steering", ["\x9b", "\u202e", "\u2066", "\u200e", "\u200f", "\u061c", "\u200b", "\ufeff"])
def test_c1_codes_direction_marks_and_hidden_characters_become_the_replacement_character(
    steering: str,
) -> None:
    assert clean(f"a{steering}b") == "a\ufffdb"


def test_line_ends_stay_only_where_many_lines_are_allowed() -> None:
    assert clean("a\r\nb\tc", many_lines=True) == "a\nb\tc"
    assert clean("a\r\nb\tc") == "a␍␊b␉c"


def test_letters_and_accents_are_composed() -> None:
    assert clean("Cafe\u0301") == "Café"


@given(st.text())
def test_no_text_keeps_anything_that_steers(text: str) -> None:
    shown = clean(text)
    assert not any(ord(one) < 0x20 or 0x7F <= ord(one) < 0xA0 for one in shown)
    assert clean(shown) == shown


def test_a_day_has_its_weekday_and_its_year_only_in_another_year() -> None:
    today = date(2026, 11, 25)
    assert wording.say_day(date(2026, 11, 28), today) == "Sat 28 Nov"
    assert wording.say_day(date(2027, 1, 4), today) == "Mon 4 Jan 2027"


def test_an_instant_is_said_on_the_firms_wall_clock() -> None:
    assert wording.say_instant(datetime(2026, 11, 28, 8, 30, tzinfo=UTC), NOW, ZONE) == "Sat 28 Nov 09:30"
    assert wording.say_now(NOW, ZONE) == "Wed 25 Nov 2026 07:30"


def test_an_instant_near_midnight_belongs_to_the_firms_day_and_not_to_that_of_utc() -> None:
    assert wording.say_instant(datetime(2026, 12, 31, 23, 30, tzinfo=UTC), NOW, ZONE) == "Fri 1 Jan 2027 00:30"


def test_counted_hours_are_rounded_down() -> None:
    assert wording.say_hours(167.99) == "167 h"
    assert wording.say_hours(168) == "168 h"


def test_figures_lose_needless_noughts_and_keep_a_true_minus_sign() -> None:
    assert [wording.figure(one) for one in (52.0, 16.5, -2.0, 0.125, -0.001)] == [
        "52",
        "16.5",
        "−2",
        "0.13",
        "0",
    ]
    assert wording.figure(float("nan")) == "?"


def test_areas_are_said_in_square_metres_to_the_hundredth() -> None:
    assert wording.say_area(21_320_000) == "21.32 m²"
    assert wording.say_area(14_505_000) == "14.51 m²"


@pytest.mark.parametrize(
    ("minor", "currency", "words"),
    [
        (18240, "EUR", "EUR 182.40"),
        (182_400, "EUR", "EUR 1,824.00"),
        (500, "JPY", "JPY 500"),
        (1500, "KWD", "KWD 1.500"),
    ],
)
def test_money_has_its_currency_and_as_many_decimals_as_that_has(minor: int, currency: str, words: str) -> None:
    # Decimals by ISO 4217: EUR 2, JPY 0, KWD 3.
    assert wording.say_money(minor, currency) == words


def test_packs_and_boards_are_counted_in_words() -> None:
    assert wording.say_packs(3, 2) == "3 packs and 2 boards"
    assert wording.say_packs(1, 1) == "1 pack and 1 board"
    assert wording.say_packs(0) == "0 packs"
    assert wording.say_packs(0, 1) == "1 board"


def test_each_kind_of_reading_is_said_with_its_unit() -> None:
    assert wording.say_measure(Air(temp_c=20.5, rh_percent=52)) == "20.5 °C and 52 %"
    assert wording.say_measure(Surface(temp_c=17)) == "17 °C"
    assert wording.say_measure(Carbide(percent=1.8)) == "1.8 %"
    assert wording.say_measure(Hygrometer(rh_percent=70)) == "70 %"
    assert wording.say_measure(Straightedge(span_mm=2000, gap_mm=2.5)) == "2.5 mm under 2 m"


def test_there_is_a_word_for_every_kind_the_shop_knows() -> None:
    for words, kinds in (
        (vocabulary.SUBFLOORS, Subfloor),
        (vocabulary.METHODS, Method),
        (vocabulary.DESTINATIONS, Destination),
        (vocabulary.CLOCK_FORMS, ClockForm),
        (vocabulary.STAGES, Stage),
        (vocabulary.HOLD_STATES, HoldState),
        (vocabulary.HOLD_SIGNS, HoldState),
        (vocabulary.HOLD_KINDS, HoldKind),
    ):
        assert set(words) == set(kinds)
        assert len(set(words.values())) == len(words)
    assert set(vocabulary.READING_KINDS) == set(KINDS)


def test_places_are_said_as_where_packs_are_and_as_where_they_go() -> None:
    assert vocabulary.say_place(in_room("Reading room")) == "in the Reading room"
    assert vocabulary.say_place(in_room("Bedroom 2")) == "in Bedroom 2"
    assert vocabulary.say_place(SHELF) == "in the unit, free"
    assert vocabulary.say_target(UNIT) == "to the unit, kept for this job"
    assert vocabulary.say_target(SITE) == "to the site"
