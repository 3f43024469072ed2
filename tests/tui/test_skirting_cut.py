"""The skirting of a room of a folder: asked with t, worked out as one types, filtered, and empty at first."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from store.trade.jobs import CustomerDraft, JobDraft
from tests.tui.firm_window import NARROW, WIDE, MovingClock, demo_desk, folder, new_desk, press, seen, told, window_on
from tests.tui.lay_window import until
from tests.tui.shop_window import picture
from tui.dialogs.skirting_cut import SkirtingCut
from tui.widgets.filter_list import FilterList
from tui.widgets.safe import Line


def said(pilot: Pilot[None]) -> str:
    return pilot.app.screen.query_one(".skirting--answer", Line).words


@pytest.mark.parametrize("size", [NARROW, WIDE], ids=["80x24", "120x36"])
async def test_t_cuts_the_skirting_of_the_chosen_room(tmp_path: Path, size: tuple[int, int]) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149", size) as pilot:
            room = folder(pilot).pane.room
            await press(pilot, "t")
            assert isinstance(pilot.app.screen, SkirtingCut)
            assert f"Skirting of {room}" in seen(pilot)
            assert "Doorways are left out" in seen(pilot)
            await pilot.press(*"2400")
            await until(pilot, lambda: "no list needs fewer" in said(pilot))
            await until(pilot, lambda: "Stick 1" in seen(pilot))
            assert "Esc Back" in picture(pilot.app).splitlines()[-1]
            await pilot.press("enter", "enter", "enter", "slash", *"stick")
            sticks = int(said(pilot).split()[0])
            await until(pilot, lambda: pilot.app.screen.query_one(FilterList).table.row_count == sticks)
            assert pilot.app.screen.query_one(".filter-list--count", Line).words.startswith(f"{sticks} of ")
            await pilot.press("escape", "escape")
            await pilot.pause()
            assert folder(pilot).pane.section.value == "survey"


async def test_what_cannot_be_a_stick_is_told_and_keeps_what_was_typed(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "t")
            await pilot.press(*"24")
            await until(pilot, lambda: said(pilot).startswith("✗ Stick 24 mm"))
            await pilot.press("x")
            await until(pilot, lambda: said(pilot) == "" and "“24x”" in seen(pilot))
            assert pilot.app.screen.query_one("#field-stick Input", Input).value == "24x"


async def test_without_a_room_t_says_what_to_do_first(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        customer = CustomerDraft(name="Tide Lane Library")
        desk.jobs.take_on(JobDraft(ref="GQ-0200", title="Reading room", customer=customer, address="2 Tide Lane"))
        async with window_on(desk, "GQ-0200") as pilot:
            await press(pilot, "t")
            assert "measure one first (a)" in told(pilot)
