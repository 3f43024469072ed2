"""Public holidays by country, held against reckoned Easters and laws told from memory, and how far those filed go."""

from datetime import date, timedelta

import pytest
from dateutil.easter import EASTER_WESTERN, easter
from hypothesis import given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.papers.public_holidays import countries, parts_of, public_holidays
from store.trade.holiday_reach import Reach, reach_of

TODAY = date(2026, 11, 25)


def days(country: str, part: str = "", *years: int) -> set[date]:
    return {one.day for one in public_holidays(country, part, years or (2027,))}


def test_belgium_keeps_the_ten_days_of_its_law() -> None:
    # Royal decree of 18 April 1974, told from memory: New Year, Easter Monday, 1 May, Ascension, Whit Monday, 21 July,
    # 15 August, 1 and 11 November, Christmas.
    fixed = {date(2027, *day) for day in ((1, 1), (5, 1), (7, 21), (8, 15), (11, 1), (11, 11), (12, 25))}
    sunday = easter(2027)
    movable = {sunday + timedelta(days=after) for after in (1, 39, 50)}
    assert fixed | movable <= days("BE")
    # The rest are the two Sundays themselves.
    assert days("BE") - fixed - movable == {sunday, sunday + timedelta(days=49)}


@settings(max_examples=30, deadline=None)
@given(st.integers(1995, 2099))
def test_easter_monday_is_where_another_library_reckons_it(year: int) -> None:
    monday = easter(year, EASTER_WESTERN) + timedelta(days=1)
    assert all(monday in days(country, "", year) for country in ("BE", "DE", "FR"))


def test_a_part_of_a_country_keeps_days_that_others_do_not() -> None:
    # Corpus Christi, the 60th day after Easter, is kept in Bavaria and not in Berlin.
    corpus_christi = easter(2027) + timedelta(days=60)
    assert corpus_christi in days("DE", "BY")
    assert corpus_christi not in days("DE", "BE")
    assert {one.name for one in parts_of("GB")} == {"England", "Northern Ireland", "Scotland", "Wales"}
    assert parts_of("SE") == ()


def test_a_holiday_on_a_weekend_gives_the_day_off_that_the_law_puts_in_its_place() -> None:
    # In England Christmas Day 2027 is a Saturday; Monday 27 and Tuesday 28 December are the bank holidays for it.
    assert {date(2027, 12, 27), date(2027, 12, 28)} <= days("GB", "ENG")


def test_countries_have_a_name_and_a_code_and_their_days_have_names() -> None:
    known = {one.code: one.name for one in countries()}
    assert (known["BE"], known["BA"], known["GB"]) == ("Belgium", "Bosnia and Herzegovina", "United Kingdom")
    assert len(known) > 200
    assert next(one.name for one in public_holidays("BE", "", (2027,))) == "New Year's Day"


@pytest.mark.parametrize(
    ("country", "part", "year", "say"),
    [
        ("XX", "", 2027, "No holidays are known for “XX”"),
        ("", "", 2027, "No holidays are known"),
        ("BE", "Atlantis", 2027, "“Atlantis” is no part"),
        ("BE", "", 20_270, "from 1900 to 2199"),
    ],
)
def test_what_is_not_known_is_refused_with_a_sentence(country: str, part: str, year: int, say: str) -> None:
    with pytest.raises(Refused, match=say):
        public_holidays(country, part, (year,))


@pytest.mark.parametrize(
    ("on_file", "reach"),
    [
        ((), Reach.NONE),
        ((date(2025, 12, 25), date(2026, 11, 11)), Reach.OVER),
        ((TODAY,), Reach.NONE_NEXT_YEAR),
        ((date(2026, 12, 25),), Reach.NONE_NEXT_YEAR),
        ((date(2027, 1, 1),), Reach.ENOUGH),
    ],
)
def test_holidays_of_another_year_are_found_out(on_file: tuple[date, ...], reach: Reach) -> None:
    assert reach_of(on_file, TODAY) is reach
