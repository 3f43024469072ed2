"""The window endures: signals, no colours, any size, and keys at random."""

import os
import random
import signal
from pathlib import Path

import pytest

from tests.tui.shop_window import picture
from tests.tui.whole_window import demo_window, empty_desk, toasts, window_on
from tui.screens.today import TodayScreen
from tui.theme import DARK, WITHOUT_COLOUR
from tui.view import View
from tui.widgets.day_list import DayList


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT])
async def test_a_signal_ends_the_window_in_good_order(tmp_path: Path, number: signal.Signals):
    async with demo_window(tmp_path) as (app, pilot):
        os.kill(os.getpid(), number)
        await pilot.pause(0.1)
        assert app._exit
        assert app.return_code == 128 + number


async def test_without_colours_not_one_cell_has_a_colour_and_the_cursor_is_still_seen(tmp_path: Path, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")  # no-color.org
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("down")
        await pilot.pause()
        strips = app.screen._compositor.render_strips()
        styles = [cell.style for strip in strips for cell in strip if cell.style is not None]
        assert not [one for one in styles if one.color and not one.color.is_default]
        assert not [one for one in styles if one.bgcolor and not one.bgcolor.is_default]
        (cursor,) = [strip.text for strip in strips if any(cell.style and cell.style.reverse for cell in strip)]
        assert "GQ-0141" in cursor


async def test_without_colours_the_colours_cannot_be_turned(tmp_path: Path, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("ctrl+t")
        assert app.theme == WITHOUT_COLOUR
        assert "NO_COLOR" in toasts(app)[0]


async def test_an_empty_no_color_asks_for_nothing(tmp_path: Path, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "")
    async with demo_window(tmp_path) as (app, _):
        assert app.theme == DARK
        assert not app.no_color


async def test_the_light_colours_reach_the_rows_at_once(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("down", "down", "down")
        before = app.screen.query_one(DayList).table.get_cell_at((0, 0)).style
        await pilot.press("ctrl+t")
        await pilot.pause()
        assert app.screen.query_one(DayList).table.get_cell_at((0, 0)).style != before
        assert app.screen.query_one(DayList).table.cursor_row == 3


@pytest.mark.parametrize("size", [(1, 1), (2, 60), (200, 1), (10, 5), (59, 18), (60, 17)])
async def test_a_window_too_small_says_what_it_needs_and_recovers(tmp_path: Path, size: tuple[int, int]):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.resize_terminal(*size)
        await pilot.pause(0.1)
        if size[0] >= 30 and size[1] >= 5:
            assert "Layday needs 60 columns and 18 rows" in picture(app)
        await pilot.resize_terminal(80, 24)
        await pilot.pause(0.1)
        assert "GQ-0141" in picture(app)


async def test_no_size_of_window_breaks_any_view(tmp_path: Path):
    chance = random.Random(7)
    async with demo_window(tmp_path) as (app, pilot):
        for turn in range(60):
            await pilot.resize_terminal(chance.randint(1, 200), chance.randint(1, 60))
            await pilot.press(str(turn % 2 + 1))
        await pilot.resize_terminal(200, 60)
        await pilot.pause()
        assert isinstance(app.screen, View)


KEYS = [
    *"12345dn?/eqxoickrslgbma0 ",
    "enter",
    "escape",
    "tab",
    "shift+tab",
    "up",
    "down",
    "left",
    "right",
    "home",
    "end",
]
KEYS += ["pageup", "pagedown", "backspace", "f1", "ctrl+p", "ctrl+s", "ctrl+t", "space"]


@pytest.mark.parametrize("seed", [1, 2])
async def test_three_hundred_keys_at_random_break_nothing(tmp_path: Path, seed: int, monkeypatch):
    chance = random.Random(seed)
    async with demo_window(tmp_path) as (app, pilot):

        async def stay():
            return None

        monkeypatch.setattr(app, "action_quit", stay)
        jobs = len(app.desk.jobs.lines())
        for _ in range(300):
            key = chance.choice(KEYS)
            await pilot.press({"?": "question_mark", "/": "slash", " ": "space"}.get(key, key))
        assert app._exception is None
        assert len(app.desk.jobs.lines()) >= jobs


async def test_an_empty_firm_survives_the_same_keys(tmp_path: Path, monkeypatch):
    chance = random.Random(3)
    with empty_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path) as (app, pilot):

            async def stay():
                return None

            monkeypatch.setattr(app, "action_quit", stay)
            for _ in range(150):
                key = chance.choice(KEYS)
                await pilot.press({"?": "question_mark", "/": "slash", " ": "space"}.get(key, key))
            assert app._exception is None


async def test_the_help_names_the_keys_that_work_in_the_view(tmp_path: Path):
    async with demo_window(tmp_path, (120, 50)) as (app, pilot):
        await pilot.press("f1")
        await pilot.pause()
        shown = picture(app)
        for words in ("Do next", "New job", "Filter", "Enter", "Open"):
            assert words in shown
        await pilot.press("escape")
        assert isinstance(app.screen, TodayScreen)
