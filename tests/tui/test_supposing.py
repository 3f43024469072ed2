"""What if, from the diary: asked with keys, told in words, several at once, filed for real or forgotten."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from store.desk.desk import Desk
from store.trade.people import DaysOff
from store.trade.stacks import still_owed
from tests.tui.firm_window import MovingClock, demo_desk, new_desk, press, seen, told, window_on
from tests.tui.shop_window import match_picture, type_over
from tui.dialogs.proposed_plan import ProposedPlan
from tui.dialogs.supposing import Supposing
from tui.screens.diary import DiaryScreen
from tui.typed.figures import Misread
from tui.typed.later import read_later

KINDS = ("order", "away", "floor", "screed", "promise")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        yield opened


async def choose(pilot: Pilot[Any], kind: str) -> None:
    """In the list of what can be supposed, choose a kind; its form opens."""
    await pilot.press(*["down"] * KINDS.index(kind))
    await press(pilot, "enter")


async def ask_what_if(pilot: Pilot[Any], kind: str) -> None:
    await press(pilot, "7")
    await press(pilot, "i")
    await choose(pilot, kind)


async def save(pilot: Pilot[Any]) -> None:
    """Save the form, and wait until all that follows is reckoned and planned."""
    await press(pilot, "ctrl+s")
    for _ in range(20):
        reckoning = [one for one in pilot.app.workers if one.group == "suppose" and not one.is_finished]
        if not reckoning:
            break
        await pilot.app.workers.wait_for_complete(reckoning)
    await pilot.pause()
    await pilot.pause()


async def suppose_the_oak_is_late(pilot: Pilot[Any], words: str = "a week later") -> None:
    """What the gallery still waits for, due Mon 30 Nov, is the first in the list of orders."""
    await ask_what_if(pilot, "order")
    await pilot.press("tab")
    await type_over(pilot, words)
    await save(pilot)


async def suppose_tove_is_ill(pilot: Pilot[Any]) -> None:
    await choose(pilot, "away")
    await pilot.press("space", "end", "enter", "tab", "tab")
    await type_over(pilot, "tue")
    await pilot.press("tab")
    await type_over(pilot, "Ill")
    await save(pilot)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_two_what_ifs_and_what_follows_look_like_their_picture(desk: Desk, size: tuple[int, int]) -> None:
    async with window_on(desk, size=size) as pilot:
        await suppose_the_oak_is_late(pilot)
        await press(pilot, "n")
        await suppose_tove_is_ill(pilot)
        match_picture(pilot.app, f"diary-what-if-{size[0]}x{size[1]}")


async def test_a_late_delivery_says_whose_promise_is_missed_and_what_a_plan_could_do(desk: Desk) -> None:
    folders = desk.papers.export()
    async with window_on(desk, size=(120, 36)) as pilot:
        await suppose_the_oak_is_late(pilot)
        shown = seen(pilot)
        assert "5 packs of OAK-190 for GQ-0143: here Mon 7 Dec instead of Mon 30 Nov" in shown
        assert "handed over Fri 18 Dec at the earliest instead of Fri 11 Dec; promised for Tue 15 Dec" in shown
        assert "3 days late instead of in time." in shown
        assert "Tove Ruud, Fri 4 Dec to Tue 8 Dec, on GQ-0143 Gallery: 3 days too soon" in shown
        assert "A new plan could do this: 6 days late in all instead of none" in shown
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, DiaryScreen)
    assert desk.papers.export() == folders


async def test_an_order_is_put_off_for_real_by_the_form_it_is_chased_with(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await suppose_the_oak_is_late(pilot)
        await press(pilot, "f")
        assert "Chase an order" in seen(pilot)
        await save(pilot)
        assert "The order is now due Mon 7 Dec" in told(pilot)
        assert "Nothing is supposed yet" in seen(pilot)
    assert {one.due_on for one in still_owed(desk.jobs.card("GQ-0143").facts, "OAK-190")} == {date(2026, 12, 7)}


async def test_somebody_ill_is_only_supposed_until_it_is_filed(desk: Desk) -> None:
    was = desk.firm.people()[2].days_off
    async with window_on(desk) as pilot:
        await press(pilot, "7")
        await press(pilot, "i")
        await suppose_tove_is_ill(pilot)
        assert "Tove Ruud is not there Thu 26 Nov and Fri 27 Nov: GQ-0141 Reading room has somebody else" in seen(pilot)
        assert "Tove Ruud is not there Mon 30 Nov and Tue 1 Dec: GQ-0142 Vestry has nobody then." in seen(pilot)
        await press(pilot, "f")
        await press(pilot, "enter")  # the safe answer: only suppose it
        assert desk.firm.people()[2].days_off == was
        assert "Tove Ruud is away Wed 25 Nov to Tue 1 Dec (Ill)" in seen(pilot)
        await press(pilot, "f")
        await pilot.press("right")
        await press(pilot, "enter")
        assert "Filed: Tove Ruud is away" in told(pilot)
    ill = DaysOff(first=date(2026, 11, 25), last=date(2026, 12, 1), reason="Ill")
    assert desk.firm.people()[2].days_off == (*was, ill)


async def test_a_what_if_is_left_out_again_and_esc_in_the_first_list_teaches(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await press(pilot, "7")
        await press(pilot, "i")
        await press(pilot, "escape")
        assert "Nothing is supposed yet. n adds a what-if" in seen(pilot)
        await press(pilot, "n")
        await choose(pilot, "floor")
        await save(pilot)
        assert "Nothing can be laid in" in seen(pilot)
        await press(pilot, "x")
        assert "Nothing is supposed yet" in seen(pilot)
        await pilot.press("x", "f", "p")
        assert isinstance(pilot.app.screen, Supposing)


async def test_a_damp_screed_can_be_supposed_and_only_a_reading_says_it_for_real(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await ask_what_if(pilot, "screed")
        await save(pilot)
        assert "The screed in Shop floor of GQ-0145 is damp until" in seen(pilot)
        await press(pilot, "f")
        assert "A screed is held by its readings" in told(pilot)
        assert isinstance(pilot.app.screen, Supposing)


async def test_what_is_booked_from_the_plan_is_told_in_the_diary_and_turned_back_there(desk: Desk) -> None:
    before = {one for one in desk.diary.on_file() if not one.cancelled}
    async with window_on(desk) as pilot:
        await suppose_the_oak_is_late(pilot)
        await press(pilot, "p")
        assert isinstance(pilot.app.screen, ProposedPlan)
        assert "if it comes as supposed" in seen(pilot)
        searching = [one for one in pilot.app.workers if one.group == "plan"]
        if searching:
            await pilot.app.workers.wait_for_complete(searching)
        await pilot.pause()
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, DiaryScreen)
        assert "taken up from the plan" in seen(pilot)
        gallery = [one for one in desk.diary.on_file() if one.ref == "GQ-0143" and not one.cancelled]
        assert all(one.first >= date(2026, 12, 14) for one in gallery)
        await press(pilot, "u")
    assert {(one.ref, one.first) for one in desk.diary.on_file() if not one.cancelled} == {
        (one.ref, one.first) for one in before
    }


async def test_a_day_that_is_over_is_said_in_the_form_and_typed_anew(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        await suppose_the_oak_is_late(pilot, "3 weeks earlier")
        assert "That day is over already" in seen(pilot)
        await type_over(pilot, "tomorow")
        await save(pilot)
        assert "“tomorow” is no day" in seen(pilot)
        await type_over(pilot, "tomorrow")
        await save(pilot)
        assert "here Thu 26 Nov instead of Mon 30 Nov" in seen(pilot)


async def test_where_there_is_nothing_to_suppose_it_says_what_is_missing(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        desk.firm.remove_person(desk.firm.people()[0])
        async with window_on(desk) as pilot:
            await press(pilot, "7")
            await press(pilot, "i")
            for kind in KINDS:
                await choose(pilot, kind)
                assert isinstance(pilot.app.screen, Supposing)
                await press(pilot, "n")
            said = told(pilot)
    for words in (
        "No open job has an order",
        "Nobody is on file",
        "No floor is left",
        "No floor waits",
        "has a room yet",
    ):
        assert words in said


async def test_the_plan_needs_people_and_says_so_while_what_follows_is_told(desk: Desk) -> None:
    for booking in desk.diary.on_file():
        desk.diary.cancel(booking)
    for person in desk.firm.people():
        desk.firm.remove_person(person)
    async with window_on(desk, size=(120, 36)) as pilot:
        await press(pilot, "7")
        await press(pilot, "i")
        await choose(pilot, "promise")
        await save(pilot)
        assert "Nobody is on file yet; add somebody" in seen(pilot)
        assert "at the earliest" in seen(pilot)


async def test_names_on_file_never_steer_the_screen(desk: Desk) -> None:
    person = desk.firm.people()[0]
    desk.firm.change_person(person, replace(person, name="[/] \x1b[31mWren " + "x" * 200))
    async with window_on(desk) as pilot:
        await ask_what_if(pilot, "away")
        await save(pilot)
        assert "\x1b" not in seen(pilot)
        assert "[/]" in seen(pilot)


async def test_the_help_of_the_what_if_tells_what_is_filed(desk: Desk) -> None:
    async with window_on(desk, size=(120, 36)) as pilot:
        await press(pilot, "7")
        await press(pilot, "i")
        await press(pilot, "escape")
        await press(pilot, "question_mark")
        assert "f files the what-if under the cursor for real" in seen(pilot)


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("7 days later", date(2026, 12, 7)),
        ("a week", date(2026, 12, 7)),
        ("2 Weeks  Later", date(2026, 12, 14)),
        ("1 day sooner", date(2026, 11, 29)),
        ("3 days earlier", date(2026, 11, 27)),
        ("+3", date(2026, 11, 28)),
        ("7/12", date(2026, 12, 7)),
    ],
)
def test_a_day_may_be_told_from_another_day(text: str, day: date) -> None:
    assert read_later(text, date(2026, 11, 30), date(2026, 11, 25)) == day


@pytest.mark.parametrize("text", ["", "late", "weeks later", "-1 days later", "1.5 weeks later"])
def test_what_is_no_day_is_not_guessed(text: str) -> None:
    assert isinstance(read_later(text, date(2026, 11, 30), date(2026, 11, 25)), Misread)


def test_a_day_beyond_the_calendar_is_said() -> None:
    assert isinstance(read_later("9999 weeks later", date(9990, 1, 1), date(2026, 11, 25)), Misread)
