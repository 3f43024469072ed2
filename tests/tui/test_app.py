"""The window as a whole: moving about, the palette, leaving, and records that others change."""

import os
import random
import signal
from pathlib import Path

import pytest
from textual.command import CommandPalette

from store.desk.desk import open_desk
from store.errors import StoreDamaged, StoreLocked
from store.trade.jobs import CustomerDraft, JobDraft
from tests.tui.shop_window import picture, type_over
from tests.tui.whole_window import demo_window, empty_desk, toasts, window_on
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.dialog import Dialog
from tui.doors import ViewName
from tui.palette import Command, ShopCommands
from tui.screens.folder import FolderScreen
from tui.screens.today import TodayScreen
from tui.theme import DARK, WITHOUT_COLOUR
from tui.view import View
from tui.widgets.day_list import DayList
from tui.widgets.one_line import OneLine
from tui.widgets.strip import ViewStrip


@pytest.mark.parametrize(("key", "name"), [(str(at), one) for at, one in enumerate(ViewName, start=1)])
async def test_a_number_key_goes_to_its_view_from_any_other(tmp_path: Path, key: str, name: ViewName):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("5", key)
        await pilot.pause()
        assert app.screen.NAME is name


async def test_a_view_asks_once_when_it_comes_up_and_once_when_what_covered_it_is_gone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[ViewName | None] = []
    ask_again = View.ask_again
    monkeypatch.setattr(View, "ask_again", lambda view: (asked.append(view.NAME), ask_again(view)))
    async with demo_window(tmp_path) as (_, pilot):
        for keys, wanted in (
            (["3"], [ViewName.STOCK]),
            (["2"], [ViewName.JOBS]),
            (["3"], [ViewName.STOCK]),
            (["question_mark"], []),
            (["escape"], [ViewName.STOCK]),
        ):
            asked.clear()
            await pilot.press(*keys)
            await pilot.pause()
            assert asked == wanted, keys


async def test_a_number_key_puts_a_folder_away(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, FolderScreen)
        await pilot.press("1")
        await pilot.pause()
        assert isinstance(app.screen, TodayScreen)


async def test_numbers_typed_into_a_field_stay_in_it(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("slash", "2", "q", "question_mark")
        assert isinstance(app.screen, TodayScreen)
        assert app.screen.query_one(OneLine).value == "2q?"


async def test_a_click_on_the_strip_goes_to_a_view(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.click(ViewStrip, offset=(12, 0))
        await pilot.pause()
        assert app.screen.NAME is ViewName.JOBS


async def test_escape_leads_home_from_everywhere_in_a_few_steps(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        for keys in (("slash", "x"), ("tab",), ("question_mark",), ("ctrl+p",), ("n",), ("d",), ("ctrl+p", "a")):
            await pilot.press(*keys)
            await pilot.pause()
            await pilot.press(*["escape"] * 3)
            await pilot.pause()
            assert isinstance(app.screen, TodayScreen), keys
            assert app.screen.query_one(DayList).has_focus_within, keys


async def test_q_leaves_at_once_where_nothing_is_typed(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("q")
        await pilot.pause()
        assert app._exit
        assert app.return_code == 0


async def test_ctrl_q_in_a_changed_form_asks_and_the_safe_answer_keeps_what_was_typed(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("n")
        await pilot.pause()
        await type_over(pilot, "X-1")
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert isinstance(app.screen, AskYesNo)
        assert not app._exit
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, Dialog)
        assert app.screen.query_one(OneLine).value == "X-1"


async def test_ctrl_q_in_a_form_that_nobody_has_touched_leaves(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("n")
        await pilot.pause()
        await pilot.press("ctrl+q")
        await pilot.pause()
        assert app._exit


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("new job", "New job"),
        ("add a customer", "New job"),
        ("what now", "Do next"),
        ("next step", "Do next"),
        ("search", "Filter"),
        ("find", "Filter"),
        ("shortcuts", "Help"),
        ("exit", "Quit"),
        ("dark mode", "Dark or light"),
        ("warehouse", "Go to Stock"),
        ("settings", "Go to Firm"),
        ("holidays", "Go to Firm"),
        ("leftovers", "Go to Stock"),
        ("past jobs", "Go to Jobs"),
        ("catalogue", "Go to Products"),
        ("home", "Go to Today"),
    ],
)
async def test_the_palette_finds_a_command_by_ordinary_words(tmp_path: Path, typed: str, first: str):
    async with demo_window(tmp_path) as (app, _):
        provider = ShopCommands(app.screen)
        hits = [hit async for hit in provider.search(typed)]
        best = sorted(hits, key=lambda hit: -hit.score)[:3]
        assert first in [hit.text for hit in best]


async def test_the_palette_finds_what_only_one_view_offers(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("4")
        await pilot.pause()
        best = [hit.text async for hit in ShopCommands(app.screen).search("add a product")]
        assert "New product" in best
        await pilot.press("5")
        await pilot.pause()
        best = [hit.text async for hit in ShopCommands(app.screen).search("back up")]
        assert "Make a copy" in best


async def test_the_palette_names_every_key_of_the_footer(tmp_path: Path):
    async with demo_window(tmp_path) as (app, _):
        commands = {command.words for command in ShopCommands(app.screen).commands()}
        in_footer = {
            one.binding.description for one in app.screen.active_bindings.values() if one.binding.show and one.enabled
        }
        assert in_footer <= commands
        assert len(in_footer) <= 8


async def test_a_command_of_the_palette_does_what_its_key_does(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("ctrl+p", *"settings")
        await pilot.pause(0.2)
        assert isinstance(app.screen, CommandPalette)
        await pilot.press("enter")
        await pilot.pause(0.2)
        assert app.screen.NAME is ViewName.FIRM


def test_a_command_whose_own_name_fits_goes_before_one_found_by_other_words():
    by_name = Command(words="Count leftovers", help="Key k", found_by="", run=lambda: None)
    by_others = Command(words="Go to Stock", help="Key 3", found_by="leftovers, packs", run=lambda: None)
    assert by_name.weight(["leftovers"]) > by_others.weight(["leftovers"]) > 0
    assert by_name.weight(["leftovers", "zebra"]) == 0


async def test_what_another_window_files_appears_and_the_cursor_stays(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press(*["down"] * 4)
        assert app.screen.query_one(DayList).chosen == "GQ-0149"
        with open_desk(tmp_path / "demo.layday") as other:
            other.jobs.take_on(JobDraft(ref="A-1", title="Filed elsewhere", customer=CustomerDraft(name="Elsewhere")))
        app._look_for_changes()
        await pilot.pause()
        assert "A-1" in picture(app)
        assert app.screen.query_one(DayList).chosen == "GQ-0149"
        assert app.screen.query_one(DayList).table.cursor_row == [*app.screen._cards].index("GQ-0149")


async def test_the_window_looks_for_changes_every_two_seconds(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        with open_desk(tmp_path / "demo.layday") as other:
            other.jobs.take_on(JobDraft(ref="A-2", title="Filed elsewhere", customer=CustomerDraft(name="Elsewhere")))
        await pilot.pause(2.4)
        assert "A-2" in picture(app)


async def test_records_that_cannot_be_read_are_told_once_and_the_view_is_called_old(tmp_path: Path, monkeypatch):
    async with demo_window(tmp_path) as (app, pilot):

        def no():
            raise StoreLocked("Another window is writing; try again in a moment.")

        monkeypatch.setattr(app.desk.jobs, "today", no)
        for _ in range(3):
            app._look_for_changes()
            app._ask_again()
        await pilot.pause()
        assert toasts(app) == ["Another window is writing; try again in a moment."]
        assert "▲ not up to date" in picture(app)
        assert "GQ-0141" in picture(app), "what was known stays in sight"
        monkeypatch.undo()
        app._look_for_changes()
        await pilot.pause()
        assert "not up to date" not in picture(app)


async def test_records_that_cannot_be_asked_for_changes_do_not_break_the_window(tmp_path: Path, monkeypatch):
    async with demo_window(tmp_path) as (app, pilot):

        def no(*_):
            raise StoreDamaged("The records are damaged.")

        monkeypatch.setattr(app.desk, "changes", no)
        monkeypatch.setattr(app.desk.firm, "card", no)
        app._look_for_changes()
        app._look_for_changes()
        await pilot.pause()
        assert toasts(app) == ["The records are damaged."]


async def test_a_file_cut_short_under_the_window_is_told_in_a_sentence(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        os.truncate(tmp_path / "demo.layday", 1000)
        app._ask_again()
        await pilot.press("2", "3", "1", "enter")
        await pilot.pause()
        assert not app._exit
        assert any("damaged" in say or "disk" in say for say in toasts(app))


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
