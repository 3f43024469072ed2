"""The diary view: its pictures, booking by form, moving by keys and mouse, and what every move says."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from store.desk.desk import Desk
from store.trade.bookings import Booking, BookingDraft
from tests.papers.calendar_checker import faults
from tests.tui.firm_window import NARROW, MovingClock, demo_desk, new_desk, press, seen, window_on
from tests.tui.shop_window import assert_as_painted, settled
from tui.widgets.diary_board import CELL_WIDTH, NAME_WIDTH, DiaryBoard

THU, FRI, MON = date(2026, 11, 26), date(2026, 11, 27), date(2026, 11, 30)


@pytest.fixture
def firm(tmp_path: Path) -> Iterator[Desk]:
    """A firm of three with one open job and an empty diary, on Wed 25 Nov 2026."""
    with demo_desk(tmp_path) as desk:
        for booking in desk.diary.on_file():
            desk.diary.cancel(booking)
        yield desk


def standing(desk: Desk) -> list[Booking]:
    return [one for one in desk.diary.on_file() if not one.cancelled]


def book(desk: Desk, person: str, first: date, last: date | None = None, ref: str = "GQ-0141") -> Booking:
    return desk.diary.book(ref, BookingDraft(person=person, first=first, last=last or first)).bookings[0]


def board(pilot: Pilot[Any]) -> DiaryBoard:
    return pilot.app.screen.query_one(DiaryBoard)


async def keys(pilot: Pilot[Any], *pressed: str) -> None:
    for key in pressed:
        await press(pilot, key)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("way", ["person", "job"])
async def test_the_diary_looks_like_its_picture(tmp_path: Path, size: tuple[int, int], way: str) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, size=size) as pilot:
            await keys(pilot, "7", *(["v"] if way == "job" else []))
            shown = await settled(pilot.app, pilot)
    assert_as_painted(shown, f"diary-{way}-{size[0]}x{size[1]}")


async def test_where_nobody_is_on_file_the_diary_teaches(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        desk.firm.remove_person(desk.firm.people()[0])
        async with window_on(desk) as pilot:
            await keys(pilot, "7")
            assert "press 5 for Firm, then n" in seen(pilot)
            await keys(pilot, "b", "x", "u", "w", "m")
            assert desk.diary.on_file() == ()


async def test_somebody_is_booked_by_a_form_that_knows_the_day_and_the_person(firm: Desk) -> None:
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "down", "right", "b", "ctrl+s")
        assert "Booked: Nils Aaker, Thu 26 Nov" in seen(pilot)
    (booking,) = standing(firm)
    assert (booking.person, booking.first, booking.last) == ("Nils Aaker", THU, THU)


async def test_a_form_that_ends_before_it_starts_stays_open_and_says_so(firm: Desk) -> None:
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "b", "tab", "tab", "tab")
        await pilot.press(*"20/11")
        await keys(pilot, "ctrl+s")
        assert "The last day is before the first." in seen(pilot)
    assert standing(firm) == []


async def test_a_booking_is_moved_given_away_stretched_cancelled_and_all_is_turned_back(firm: Desk) -> None:
    was = book(firm, "Maren Holt", THU)
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "right", "shift+right", "shift+right")
        assert [(one.person, one.first) for one in standing(firm)] == [("Maren Holt", MON)]
        assert "Moved: Maren Holt, Mon 30 Nov" in seen(pilot)
        await keys(pilot, "shift+down", "plus")
        assert [(one.person, one.first, one.last) for one in standing(firm)] == [("Nils Aaker", MON, date(2026, 12, 1))]
        await keys(pilot, "minus", "x")
        assert standing(firm) == []
        assert "u brings it back" in seen(pilot)
        await keys(pilot, "u", "u", "u", "u", "u", "u")
    (back,) = standing(firm)
    assert (back.person, back.first, back.last) == (was.person, was.first, was.last)


async def test_plain_arrows_move_a_booking_once_m_has_taken_it_up(firm: Desk) -> None:
    book(firm, "Maren Holt", THU)
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "right", "m", "right", "down", "enter", "right")
        assert [(one.person, one.first) for one in standing(firm)] == [("Nils Aaker", FRI)]


async def test_two_people_change_places(firm: Desk) -> None:
    book(firm, "Maren Holt", THU)
    book(firm, "Nils Aaker", THU, ref="GQ-0143")
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "right", "w", "down", "w")
        assert "Swapped" in seen(pilot)
    assert {(one.person, one.ref) for one in standing(firm)} == {("Nils Aaker", "GQ-0141"), ("Maren Holt", "GQ-0143")}


async def test_a_move_says_at_once_what_it_breaks_and_what_it_saves(firm: Desk) -> None:
    book(firm, "Maren Holt", THU)
    book(firm, "Maren Holt", FRI, ref="GQ-0150")
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "right", "shift+right")
        assert "▲ Breaks: twice on Fri 27 Nov, also GQ-0150" in seen(pilot)
        await keys(pilot, "shift+left")
        assert "✓ Saves: twice on Fri 27 Nov, also GQ-0150" in seen(pilot)


async def test_the_mouse_chooses_a_cell_and_the_line_below_says_what_is_there(firm: Desk) -> None:
    book(firm, "Tove Ruud", THU)
    async with window_on(firm) as pilot:
        await keys(pilot, "7")
        await pilot.click(DiaryBoard, offset=(NAME_WIDTH + 3 * CELL_WIDTH + 1, 4))
        await pilot.pause()
        assert "Tove Ruud, Thu 26 Nov: GQ-0141" in seen(pilot)


async def test_a_year_is_gone_through_by_weeks_and_only_the_window_is_drawn(firm: Desk) -> None:
    async with window_on(firm) as pilot:
        await keys(pilot, "7")
        await pilot.press(*["pagedown"] * 54)
        await pilot.pause()
        assert board(pilot).day == date(2027, 12, 8)
        assert board(pilot).days_shown == (NARROW[0] - NAME_WIDTH) // CELL_WIDTH
        await keys(pilot, "t")
        assert board(pilot).day == date(2026, 11, 25)


async def test_the_filter_finds_people_and_jobs_and_esc_shows_all(firm: Desk) -> None:
    book(firm, "Tove Ruud", THU)
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "slash")
        await pilot.press(*"0141")
        await keys(pilot, "enter")
        assert "Tove Ruud" in seen(pilot)
        assert "Nils Aaker" not in seen(pilot)
        await keys(pilot, "slash")
        await pilot.press(*"zzz")
        await keys(pilot, "enter")
        assert "Esc shows all" in seen(pilot)
        await keys(pilot, "escape")
        assert "Nils Aaker" in seen(pilot)


async def test_words_on_file_never_steer_the_board(firm: Desk) -> None:
    firm.firm.add_person("[/] \x1b[31mWren")
    async with window_on(firm, size=(120, 36)) as pilot:
        await keys(pilot, "7")
        assert "\x1b" not in seen(pilot)
        assert "[/]" in seen(pilot)


async def test_a_calendar_is_written_for_one_person_and_nothing_is_written_over(
    firm: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    book(firm, "Tove Ruud", THU)
    async with window_on(firm) as pilot:
        await keys(pilot, "7", "c", "down", "down", "down", "enter")
        await pilot.press(*"tove.ics")
        await keys(pilot, "enter")
        assert faults((tmp_path / "tove.ics").read_bytes()) == []
        await keys(pilot, "c", "down", "enter")
        await pilot.press(*"tove.ics")
        await keys(pilot, "enter")
        assert "There is a file tove.ics already" in seen(pilot)


async def test_the_help_of_the_diary_tells_its_keys_and_signs(firm: Desk) -> None:
    async with window_on(firm, size=(120, 36)) as pilot:
        await keys(pilot, "7", "question_mark")
        assert "◆ is the day promised" in seen(pilot)
