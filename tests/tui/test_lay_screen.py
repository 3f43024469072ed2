"""The lay of a room on the screen: drawn, searched for, compared, filed and written out."""

import threading
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from store.desk.desk import Desk
from store.desk.plan_counter import PlanCounter
from store.trade import plans
from store.trade.jobs import Room
from store.trade.wishes import usual_wishes
from tests.tui.lay_window import (
    desk_on,
    drawing,
    facts_said,
    made_up_firm,
    open_lay,
    row_said,
    state_said,
    until,
    until_laid,
    window,
)
from tests.tui.shop_window import answer_all, match_picture, one_by_one, picture, type_over
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.lay_form import LayForm
from tui.dialogs.what_if import WhatIf
from tui.doors import OpenJob
from tui.errands.lay_errands import file_name
from tui.lay_search import Found
from tui.screens.folder import FolderScreen
from tui.screens.lay import LayScreen

PARLOUR = "5400 right, 4300 up, 1900 left, 400 down, 1500 left, 400 up, 2000 left, 4300 down"


@pytest.fixture(scope="module")
def firm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made_up_firm(tmp_path_factory.mktemp("firm"))


@pytest.fixture
def desk(firm: Path, tmp_path: Path) -> Iterator[Desk]:
    with desk_on(firm, tmp_path) as one:
        yield one


def room_of(desk: Desk, ref: str, name: str) -> Room:
    return desk.jobs.card(ref).facts.room(name)


class Held:
    """A search that is held back: each lay is handed out only when the test lets it."""

    def __init__(self) -> None:
        self.may_go_on = threading.Semaphore(0)
        self.begun = 0

    def search(self, *asked: Any) -> Iterator[Any]:
        self.begun += 1
        for attempt in plans.search(*asked):
            assert self.may_go_on.acquire(timeout=20)
            yield replace(attempt, done=0.5)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Held]:
    one = Held()
    monkeypatch.setattr(PlanCounter, "search", staticmethod(one.search))
    yield one
    one.may_go_on.release(1000)


async def test_a_parlour_with_a_chimney_breast_is_measured_laid_and_cut_row_by_row(desk: Desk) -> None:
    async with window(desk, (120, 36)) as pilot:
        pilot.app.post_message(OpenJob("GQ-0151"))
        await pilot.pause()
        await pilot.press("a")
        await pilot.pause()
        await answer_all(pilot, "Back parlour", PARLOUR)
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert isinstance(pilot.app.screen, FolderScreen)
        room = room_of(desk, "GQ-0151", "Back parlour")
        desk.jobs.change_room("GQ-0151", room, replace(room, board="OAK-190"))
        pilot.app.screen.pane.rows.focus_list()
        await pilot.press("p")
        await until(pilot, lambda: isinstance(pilot.app.screen, LayScreen))
        await until_laid(pilot)
        screen = pilot.app.screen
        assert isinstance(screen, LayScreen)
        # Wall to wall less a gap of 10 on both sides: 5380 = 1900 + 1900 + 1580, and 1900 − 1580 − 3 = 317.
        assert row_said(screen).startswith(
            "Row 1 (full width 190): whole 1900 · whole 1900 · "
            "cut 1580 from board 3 (3a), near end kept, offcut 317 → row"
        )
        # From 10 on every 190: row 23 begins at 4190 and ends 10 before the wall at 4300, beside the breast twice.
        await pilot.press("home")
        assert row_said(screen).startswith("Row 23 (ripped to 100): ")
        assert row_said(screen).count("; then, past the break: ") == 1
        assert "▸23" in picture(pilot.app)
        await pilot.press("s")
        await pilot.pause()
        plan = desk.plans.current("GQ-0151", "Back parlour")
        assert plan is not None
        in_last = [one for one in plan.lay.pieces if one.row == 22]
        assert sum(one.to_mm - one.from_mm for one in in_last) == (2000 - 20) + (1900 - 20)
        told = [one.message for one in pilot.app._notifications]
        assert f"{plan.lay.boards} boards to open" in told[-1]
        assert "this one, since today" in facts_said(screen) or "this one, since Wed 25 Nov" in facts_said(screen)
        await one_by_one(pilot, "escape")
        assert isinstance(pilot.app.screen, FolderScreen)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_lay_on_file_is_shown_at_once(desk: Desk, size: tuple[int, int]) -> None:
    async with window(desk, size) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        assert not screen.is_searching
        await until(pilot, lambda: "size 1" in state_said(screen))
        await one_by_one(pilot, "up", "up")
        match_picture(pilot.app, f"lay-{size[0]}x{size[1]}")


async def test_a_larger_drawing_parts_the_rows_and_a_smaller_one_shows_the_whole_again(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        small = drawing(screen).virtual_size
        await one_by_one(pilot, "plus", "plus", "plus", "right", "up")
        match_picture(pilot.app, "lay-larger-80x24")
        assert drawing(screen).virtual_size.width > 2 * small.width
        await one_by_one(pilot, "minus", "minus", "minus", "minus")
        assert drawing(screen).virtual_size == small


async def test_up_and_down_choose_rows_as_they_lie_and_the_words_follow(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        assert row_said(screen).startswith("Row 1 ")
        await one_by_one(pilot, "up", "up", "down")
        assert row_said(screen).startswith("Row 2 ")
        assert "▸ 2" in picture(pilot.app)
        await one_by_one(pilot, "home", "up")
        assert row_said(screen).startswith("Row 23 ")
        assert "▸23" in picture(pilot.app)
        await one_by_one(pilot, "end", "pageup")
        assert row_said(screen).startswith("Row 9 ")


async def test_a_click_chooses_the_row_under_it(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        await pilot.press("home")
        await pilot.click(drawing(screen), offset=(10, 4))
        await pilot.pause()
        assert row_said(screen).startswith("Row 19 ")


async def test_the_figures_name_the_wall_of_the_narrowest_strip_and_keep_packs_apart(desk: Desk) -> None:
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        said = facts_said(screen)
        # 3900 − 3850 − 2 × 10 between chimney breast and hearth.
        assert "▲ 30 mm in row 21, at wall E (1500 mm): less than 60 mm, between two walls" in said
        # 63 boards; 67 with culls of 3 % at 90 % (negative binomial); 12 packs of 6, and the spare one of the plan.
        assert "13: 63 boards to lay, 4 in case some are not good, 1 pack to spare" in said
        assert "proved best" in said


async def test_keys_are_answered_while_a_search_goes_on(desk: Desk, held: Held) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0145", "Shop floor")
        assert screen.is_searching
        assert "Searching" in state_said(screen)
        await one_by_one(pilot, "question_mark")
        assert pilot.app.screen is not screen
        await one_by_one(pilot, "escape")
        held.may_go_on.release()
        await until(pilot, lambda: "best so far" in state_said(screen))
        assert screen.is_searching
        await one_by_one(pilot, "up")
        assert row_said(screen).startswith("Row 2 ")
        held.may_go_on.release(1000)


async def test_esc_ends_a_search_and_keeps_the_best_so_far_and_then_goes_back(desk: Desk, held: Held) -> None:
    async with window(desk) as pilot:
        pilot.app.post_message(OpenJob("GQ-0145"))
        await pilot.pause()
        screen = await open_lay(pilot, "GQ-0145", "Shop floor")
        held.may_go_on.release()
        await until(pilot, lambda: "best so far" in state_said(screen))
        await one_by_one(pilot, "escape")
        assert not screen.is_searching
        kept = state_said(screen)
        assert "boards" in kept
        held.may_go_on.release(1000)
        await until_laid(pilot)
        assert state_said(screen) == kept
        await one_by_one(pilot, "s")
        assert desk.plans.current("GQ-0145", "Shop floor") is not None
        await one_by_one(pilot, "escape")
        assert isinstance(pilot.app.screen, FolderScreen)


async def test_what_an_ended_search_still_finds_is_left_alone(desk: Desk, held: Held) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0145", "Shop floor")
        room, board = room_of(desk, "GQ-0145", "Shop floor"), desk.jobs.card("GQ-0145").facts.board("OAK-190")
        attempt = next(plans.search(room, board, usual_wishes(room, board).rules, 1))
        await one_by_one(pilot, "escape")
        ended = state_said(screen)
        for number in range(3):
            screen.post_message(Found(number, attempt))
        await pilot.pause()
        assert state_said(screen) == ended
        assert "▸" not in picture(pilot.app)
        held.may_go_on.release(1000)


async def test_a_newer_search_replaces_the_older_one(desk: Desk, held: Held) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0145", "Shop floor")
        await one_by_one(pilot, "e")
        await answer_all(pilot, None, None, None, "600")
        await one_by_one(pilot, "ctrl+s")
        assert screen.is_searching
        held.may_go_on.release(1000)
        await until_laid(pilot)
        assert held.begun == 2
        assert "joints 600 apart" in facts_said(screen)


async def test_what_is_brought_beyond_the_lay_changes_without_a_new_search(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "e")
        assert isinstance(pilot.app.screen, LayForm)
        await answer_all(pilot, *(None,) * 8, "0", None, "3", None)
        assert not screen.is_searching
        assert "14: 63 boards to lay, 3 packs to spare" in facts_said(screen)


@pytest.mark.parametrize(
    ("answers", "say"),
    [
        ((None, None, None, None, "2500"), "longer than a board"),
        ((*(None,) * 8, "80"), "The culls are from 0 to 50 %"),
        ((*(None,) * 9, "10"), "The confidence is from 50 to 99.9 %"),
        ((None, None, None, "wide"), "is no number"),
    ],
)
async def test_wishes_that_cannot_be_are_told_in_the_form(
    desk: Desk, answers: tuple[str | None, ...], say: str
) -> None:
    async with window(desk) as pilot:
        await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "e")
        await answer_all(pilot, *answers)
        await one_by_one(pilot, "ctrl+s")
        assert isinstance(pilot.app.screen, LayForm)
        assert say in " ".join(picture(pilot.app).split())


async def test_rules_that_no_lay_can_keep_are_told_in_a_sentence(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "e")
        await answer_all(pilot, None, None, None, "1899", "1800")
        await one_by_one(pilot, "ctrl+s")
        await until_laid(pilot)
        assert state_said(screen).startswith("✗ ")
        await one_by_one(pilot, "s", "x", "w")
        assert pilot.app.screen is screen


async def test_other_ways_stand_side_by_side_and_one_is_taken_over_and_filed_with_its_room(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "w")
        assert isinstance(pilot.app.screen, WhatIf)
        await until_laid(pilot)
        match_picture(pilot.app, "lay-what-if-80x24")
        await one_by_one(pilot, "down", "enter")
        assert pilot.app.screen is screen
        assert "at 90° to the plan" in facts_said(screen)
        await one_by_one(pilot, "s")
        await until(pilot, lambda: isinstance(pilot.app.screen, AskYesNo))
        await until(pilot, lambda: "OAK-190, rows turned 90°, first row" in picture(pilot.app))
        await one_by_one(pilot, "right", "enter")
        await until(pilot, lambda: room_of(desk, "GQ-0149", "Parlour").direction_deg is not None)
        assert room_of(desk, "GQ-0149", "Parlour").direction_deg == 90
        plan = desk.plans.current("GQ-0149", "Parlour")
        assert plan is not None
        assert plan.lay.direction_deg == 90


async def test_a_way_that_is_not_searched_yet_is_not_taken_over(desk: Desk, held: Held) -> None:
    async with window(desk) as pilot:
        await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "w", "down", "enter")
        assert isinstance(pilot.app.screen, WhatIf)
        await one_by_one(pilot, "escape")
        assert isinstance(pilot.app.screen, LayScreen)
        held.may_go_on.release(1000)


async def test_filing_asks_first_where_the_room_is_otherwise_and_no_leaves_both(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        before = desk.plans.current("GQ-0149", "Parlour")
        await one_by_one(pilot, "e")
        await answer_all(pilot, None, "90")
        await one_by_one(pilot, "ctrl+s")
        await until_laid(pilot)
        await one_by_one(pilot, "s", "escape")
        assert pilot.app.screen is screen
        assert desk.plans.current("GQ-0149", "Parlour") == before
        assert room_of(desk, "GQ-0149", "Parlour").direction_deg is None


async def test_the_cut_list_and_the_drawing_are_written_into_a_folder(desk: Desk, tmp_path: Path) -> None:
    async with window(desk) as pilot:
        await open_lay(pilot, "GQ-0149", "Parlour")
        await one_by_one(pilot, "x")
        await type_over(pilot, str(tmp_path / "nowhere"))
        await one_by_one(pilot, "enter")
        assert "is no folder" in " ".join(picture(pilot.app).split())
        await type_over(pilot, str(tmp_path))
        await one_by_one(pilot, "enter")
        text = (tmp_path / "GQ-0149 Parlour lay.txt").read_text(encoding="utf-8")
        svg = (tmp_path / "GQ-0149 Parlour lay.svg").read_text(encoding="utf-8")
    assert text.startswith("GQ-0149, Parlour, OAK-190\n")
    assert "\nRow 23 (ripped to 100): " in text
    assert svg.count('id="piece-') == len(desk.plans.current("GQ-0149", "Parlour").lay.pieces)  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["[/]", "[@click=app.quit]x[/]", "a\x1b[31mb", "../../etc", "", "x" * 300])
def test_a_name_for_files_is_one_that_every_platform_takes(name: str) -> None:
    kept = file_name(name)
    assert 0 < len(kept) <= 80
    assert not set(kept) & set('/\\:*?"<>|\x1b[]')


async def test_a_hostile_name_of_a_room_is_shown_and_obeyed_nowhere(desk: Desk) -> None:
    room = room_of(desk, "GQ-0149", "Study")
    desk.jobs.change_room("GQ-0149", room, replace(room, name="[@click=app.quit]x[/] [bold"))
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "[@click=app.quit]x[/] [bold")
        await until_laid(pilot)
        assert "[@click=app.quit]x[/] [bold" in picture(pilot.app)
        await one_by_one(pilot, "w")
        assert "[@click=app.quit]x[/] [bold: what if" in picture(pilot.app)
        await one_by_one(pilot, "escape", "e", "escape")
        assert pilot.app.screen is screen


@pytest.mark.parametrize("size", [(60, 18), (61, 40), (200, 20)])
async def test_any_window_shows_the_chosen_row(desk: Desk, size: tuple[int, int]) -> None:
    async with window(desk, size) as pilot:
        await open_lay(pilot, "GQ-0149", "Parlour")
        assert "▸ 1" in picture(pilot.app)
        for keys in (("plus",) * 8, ("right",) * 5, ("home",), ("minus",) * 9):
            await one_by_one(pilot, *keys)
            assert "▸" in picture(pilot.app)


async def test_a_window_made_smaller_and_larger_again_draws_the_floor_to_its_size(desk: Desk) -> None:
    async with window(desk) as pilot:
        screen = await open_lay(pilot, "GQ-0149", "Parlour")
        await until(pilot, lambda: "size 1" in state_said(screen))
        await pilot.pause()
        first = picture(pilot.app)
        await pilot.resize_terminal(30, 8)
        await until(pilot, lambda: "make the window larger" in " ".join(picture(pilot.app).split()))
        await pilot.resize_terminal(80, 24)
        await until(pilot, lambda: picture(pilot.app) == first)
        assert not screen.is_searching
