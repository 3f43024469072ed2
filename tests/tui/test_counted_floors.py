"""Floors that are counted and not drawn, packs of several lengths on screen, and rows that run on from next door."""

import json
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.trade.jobs import Room
from store.trade.layout.cuts import rows_of_cuts
from store.trade.products import BoardDraft
from store.trade.surveyed import Doorway, FixedThing, Pattern
from tests.tui.firm_window import told
from tests.tui.lay_window import desk_on, facts_said, made_up_firm, open_lay, until, until_laid, window
from tests.tui.shop_window import one_by_one, picture
from tui.cli import main
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.facts_screen import FactsScreen
from tui.doors import OpenJob
from tui.screens.folder import FolderScreen
from tui.screens.lay import LayScreen

REF = "GQ-0149"
ANY = BoardDraft(
    code="ANY-120", name="Oak in any length", length_mm=1900, width_mm=120, thickness_mm=14, boards_per_pack=9,
    acclimatise_hours=168, species="oak", shortest_mm=500, pack_run_mm=11_400,
)  # fmt: skip
MIXED = BoardDraft(
    code="MIX-180", name="Oak in three lengths", length_mm=1900, width_mm=180, thickness_mm=14, boards_per_pack=7,
    acclimatise_hours=168, lengths=((1900, 5), (1000, 1), (900, 1)),
)  # fmt: skip


@pytest.fixture(scope="module")
def firm(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made_up_firm(tmp_path_factory.mktemp("firm"))


@pytest.fixture
def desk(firm: Path, tmp_path: Path) -> Iterator[Desk]:
    with desk_on(firm, tmp_path) as one:
        yield one


def study(desk: Desk) -> Room:
    return desk.jobs.card(REF).facts.room("Study")


def change(desk: Desk, room: Room, **changes: object) -> Room:
    return desk.jobs.change_room(REF, room, replace(room, **changes))


async def plan_study(pilot, desk: Desk) -> None:
    pilot.app.post_message(OpenJob(REF))
    await pilot.pause()
    assert isinstance(pilot.app.screen, FolderScreen)
    pilot.app.screen.pane.rows.focus_list()
    await one_by_one(pilot, "down", "p")


async def test_a_herringbone_is_counted_block_by_block_instead_of_drawn(desk: Desk) -> None:
    change(desk, study(desk), pattern=Pattern.HERRINGBONE, border_mm=190)
    async with window(desk, (120, 36)) as pilot:
        await plan_study(pilot, desk)
        await until(pilot, lambda: isinstance(pilot.app.screen, FactsScreen))
        said = picture(pilot.app)
        assert "Study: herringbone of" in said
        assert "left-hand and" in said
        assert "190 mm wide" in said
        await one_by_one(pilot, "escape")
        assert isinstance(pilot.app.screen, FolderScreen)
        await one_by_one(pilot, "enter")
        await until(pilot, lambda: "Laid in herringbone, with a border of 190 mm" in picture(pilot.app))


async def test_the_loss_of_boards_in_any_length_is_kept_for_the_room(desk: Desk) -> None:
    desk.products.add(ANY)
    change(desk, study(desk), board="ANY-120")
    async with window(desk) as pilot:
        await plan_study(pilot, desk)
        await until(pilot, lambda: isinstance(pilot.app.screen, AskYesNo))
        await until(pilot, lambda: "comes in any length" in picture(pilot.app))
        await one_by_one(pilot, "tab", "enter")
        await until(pilot, lambda: study(desk).cut_loss_percent != 10)
    assert 0 < study(desk).cut_loss_percent < 15


async def test_leaving_the_question_changes_nothing(desk: Desk) -> None:
    desk.products.add(ANY)
    before = change(desk, study(desk), board="ANY-120")
    async with window(desk) as pilot:
        await plan_study(pilot, desk)
        await until(pilot, lambda: isinstance(pilot.app.screen, AskYesNo))
        await one_by_one(pilot, "escape")
    assert study(desk) == before


async def test_packs_of_several_lengths_are_laid_and_told_by_length(desk: Desk) -> None:
    desk.products.add(MIXED)
    change(desk, study(desk), board="MIX-180")
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, REF, "Study")
        await until_laid(pilot)
        said = facts_said(screen)
        assert "boards of 1900" in said
        assert "of 900" in said or "of 1000" in said
        await one_by_one(pilot, "s")
        await until(pilot, lambda: desk.plans.current(REF, "Study") is not None)
    plan = desk.plans.current(REF, "Study")
    assert plan is not None
    assert len(plan.lay.board_lengths_mm) == plan.lay.boards
    assert rows_of_cuts(plan.lay, plan.rules.kerf_mm)
    assert desk.jobs.card(REF).standing.needs[-1].by_plan


async def test_rows_run_on_through_a_doorway_from_the_room_whose_lay_is_on_file(desk: Desk) -> None:
    parlour = desk.jobs.card(REF).facts.room("Parlour")
    change(desk, parlour, doorways=(Doorway(wall=1, from_mm=900, width_mm=900, to="Study", deep_mm=120),))
    change(desk, study(desk), board="OAK-190", doorways=(Doorway(wall=3, from_mm=600, width_mm=900, to="Parlour"),))
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, REF, "Study")
        await until_laid(pilot)
        await one_by_one(pilot, "l")
        await until_laid(pilot)
        await until(pilot, lambda: "with an edge between two rows at" in facts_said(screen))
        assert "The rows run on from Parlour" in told(pilot)
        assert "wall D to Parlour" in facts_said(screen)
        await one_by_one(pilot, "s")
        await until(pilot, lambda: isinstance(pilot.app.screen, AskYesNo))
        await one_by_one(pilot, "tab", "enter")
        await until(pilot, lambda: study(desk).line_mm is not None)
    line = study(desk).line_mm
    plan = desk.plans.current(REF, "Study")
    assert plan is not None
    assert line is not None
    assert all((low - line) % 190 == 0 for low, _ in sorted(plan.lay.row_edges_mm)[1:])


async def test_without_a_doorway_to_a_planned_room_the_key_says_what_is_missing(desk: Desk) -> None:
    change(desk, study(desk), doorways=())
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, REF, "Study")
        await until_laid(pilot)
        before = facts_said(screen)
        await one_by_one(pilot, "l")
        await until(pilot, lambda: "No doorway here leads to a room whose lay is on file" in told(pilot))
        assert isinstance(pilot.app.screen, LayScreen)
        assert facts_said(screen) == before


async def test_pipes_and_doorways_stand_in_the_survey_and_in_what_is_written_out(desk: Desk, tmp_path: Path) -> None:
    change(
        desk, study(desk), board="OAK-190", doorways=(Doorway(wall=0, from_mm=600, width_mm=900, to="[b]Hall[/]"),),
        fixed_things=(FixedThing(name="radiator pipe", x_mm=400, y_mm=300, size_mm=22),),
    )  # fmt: skip
    async with window(desk, (120, 36)) as pilot:
        screen = await open_lay(pilot, REF, "Study")
        await until_laid(pilot)
        assert "[b]Hall[/]" in facts_said(screen)
        await one_by_one(pilot, "x")
        await pilot.pause()
        for _ in range(200):
            await pilot.press("backspace")
        await one_by_one(pilot, *str(tmp_path))
        await one_by_one(pilot, "enter", "ctrl+s")
        await until(pilot, lambda: bool(list(tmp_path.glob("* lay.svg"))))
    (text,) = (path.read_text() for path in tmp_path.glob("* lay.txt"))
    (svg,) = (path.read_text() for path in tmp_path.glob("* lay.svg"))
    assert "cut round radiator pipe (22) in piece" in " ".join(text.split())
    assert "Doorway in wall A to [b]Hall[/]" in " ".join(text.split())
    assert "radiator pipe" in svg
    assert "to [b]Hall[/]" in svg


@pytest.fixture
def room_file(tmp_path: Path) -> Path:
    path = tmp_path / "room.json"
    path.write_text(json.dumps({"outline": [[0, 0], [4880, 0], [4880, 2290], [0, 2290]], "gap_mm": 12}))
    return path


def test_a_room_is_laid_from_mixed_packs_on_the_command_line(
    room_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["sum", "lay", "--room", str(room_file), "--width", "190", "--lengths", "5x1900,1x1000,1x900"]
    assert main([*asked, "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert answer["packs"] == 6
    assert len(answer["board_lengths_mm"]) == answer["boards"]
    assert main(asked) == 0
    assert "boards of 1900" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("more", "status", "said"),
    [
        (["--length", "1900"], 2, "give --length and --per-pack, or --lengths"),
        ([], 2, "give --length and --per-pack, or --lengths"),
        (["--lengths", "a lot"], 2, "is no length with a count"),
        (["--lengths", "500-1900"], 1, "the sum random-lengths counts them"),
        (["--lengths", "5x1900", "--per-pack", "6"], 1, "leave --length and --per-pack out, or say the same"),
    ],
)
def test_lengths_that_do_not_go_together_are_refused_on_the_command_line(
    room_file: Path, more: list[str], status: int, said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    try:
        ended = main(["sum", "lay", "--room", str(room_file), "--width", "190", *more])
    except SystemExit as left:
        ended = left.code
    assert ended == status
    assert said in capsys.readouterr().err


def test_boards_of_any_length_are_counted_on_the_command_line(
    room_file: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["sum", "random-lengths", "--room", str(room_file), "--from", "500", "--to", "1900", "--width", "190"]
    assert main([*asked, "--run", "11400", "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) >= {"packs", "mean_loss_percent", "high_loss_percent", "near_joints_percent"}
    assert answer["packs"] in {5, 6}


def test_the_gap_along_the_walls_is_a_sum_of_its_own(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sum", "gap", "--across", "6670", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["asked_mm"] == 11
    assert main(["sum", "gap", "--across", "5000", "--method", "glued", "--species", "oak"]) == 0
    assert "54" in capsys.readouterr().out
