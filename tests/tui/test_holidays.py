"""Public holidays in the firm view: of a country, looked through, filed as the firm's own, and told when they end."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from store.desk.desk import Desk
from store.errors import Refused
from store.trade.bookings import BookingDraft
from tests.tui.firm_window import demo_desk, press, seen, told, window_on
from tests.tui.shop_window import match_picture
from tui.dialogs.holidays_offered import HolidaysOffered
from tui.screens.firm import FirmScreen

CHRISTMAS, NEW_YEAR = date(2026, 12, 25), date(2027, 1, 1)


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        yield opened


async def offer(pilot: Pilot[Any]) -> None:
    """The country of the firm's time zone, Belgium, and the days that all of it keeps."""
    for key in ("5", "h", "enter", "enter"):
        await press(pilot, key)


def put_on_file(desk: Desk, *days: date) -> None:
    firm = desk.firm.card()
    desk.firm.change(replace(firm, holidays=days), firm.rev)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_days_offered_look_like_their_picture(desk: Desk, size: tuple[int, int]) -> None:
    put_on_file(desk, CHRISTMAS)
    async with window_on(desk, size=size) as pilot:
        await offer(pilot)
        match_picture(pilot.app, f"holidays-{size[0]}x{size[1]}")


async def test_every_day_is_shown_with_weekday_and_name_and_filed_as_the_firms_own(desk: Desk) -> None:
    put_on_file(desk, date(2026, 12, 24), CHRISTMAS)
    async with window_on(desk) as pilot:
        await offer(pilot)
        assert "Public holidays: Belgium" in seen(pilot)
        assert "= Fri 25 Dec Christmas Day" in seen(pilot)
        assert "✓ Fri 1 Jan 2027 New Year's Day" in seen(pilot)
        await press(pilot, "f")
        assert "holidays filed, from Fri 1 Jan 2027" in told(pilot)
    filed = desk.firm.card().holidays
    assert {date(2026, 12, 24), CHRISTMAS, NEW_YEAR, date(2027, 7, 21)} <= set(filed)
    assert date(2027, 5, 1) not in filed  # a Saturday, on which nobody works anyway
    assert list(filed) == sorted(filed)


async def test_a_day_that_is_left_out_is_not_filed_and_one_on_file_stays(desk: Desk) -> None:
    put_on_file(desk, CHRISTMAS)
    async with window_on(desk) as pilot:
        await offer(pilot)
        await pilot.press("space", "down", "space", "down", "down", "space")
        assert "· Fri 1 Jan 2027" in seen(pilot)
        await press(pilot, "f")
    filed = desk.firm.card().holidays
    assert CHRISTMAS in filed
    assert not {NEW_YEAR, date(2027, 3, 29)} & set(filed)
    assert date(2027, 5, 6) in filed


async def test_filing_nothing_or_leaving_changes_nothing(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await offer(pilot)
        await pilot.press("a")
        await press(pilot, "f")
        assert isinstance(pilot.app.screen, FirmScreen)
        await press(pilot, "h")
        await press(pilot, "escape")
        await press(pilot, "h")
        await press(pilot, "enter")
        await press(pilot, "escape")
        await offer(pilot)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, FirmScreen)
    assert desk.firm.card().holidays == ()


async def test_another_country_is_found_by_its_name_and_its_part_chosen(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await press(pilot, "5")
        await press(pilot, "h")
        await press(pilot, "slash")
        await pilot.press(*"germany", "enter")
        await press(pilot, "enter")
        await press(pilot, "slash")
        await pilot.press(*"bayern", "enter")
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, HolidaysOffered)
        assert "Public holidays: Germany, Bayern" in seen(pilot)
        assert "Corpus Christi" in seen(pilot)


@pytest.mark.parametrize(
    ("on_file", "say"),
    [
        ((), "none is on file; h fills in the public ones"),
        ((date(2025, 12, 25),), "the last on file, Thu 25 Dec 2025, is over"),
        ((CHRISTMAS,), "None is on file for 2027 yet"),
        ((CHRISTMAS, *(date(2027, month, 1) for month in range(1, 7))), "and 3 more until Tue 1 Jun 2027"),
    ],
)
async def test_the_firm_view_says_when_the_holidays_end(desk: Desk, on_file: tuple[date, ...], say: str) -> None:
    put_on_file(desk, *on_file)
    async with window_on(desk) as pilot:
        await press(pilot, "5")
        assert say in seen(pilot)


def test_a_filed_holiday_is_a_day_nobody_works(desk: Desk) -> None:
    booking = desk.diary.book("GQ-0149", BookingDraft(person="Tove Ruud", first=CHRISTMAS, last=CHRISTMAS)).bookings[0]
    desk.holidays.file([CHRISTMAS])
    (clash,) = next(
        one.clashes for one in desk.diary.card(CHRISTMAS, CHRISTMAS).placed if one.booking.id == booking.id
    )[:1]
    assert clash.kind == "not_worked"
    with pytest.raises(Refused, match="already"):
        desk.holidays.file([CHRISTMAS])


def test_a_zone_of_no_country_offers_all_countries_with_none_chosen(desk: Desk) -> None:
    assert desk.holidays.likely_country() == "BE"
    firm = desk.firm.card()
    desk.firm.change(replace(firm, time_zone="UTC"), firm.rev)
    assert desk.holidays.likely_country() == ""
