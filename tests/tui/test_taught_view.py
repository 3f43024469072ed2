"""What closed jobs taught, in the window and on the command line: lines, floors behind them, and the empty shop."""

from dataclasses import replace
from pathlib import Path

from tests.tui.shop_window import HOSTILE, settled
from tests.tui.somebodys_folder import run
from tests.tui.whole_window import SMALL, WIDE, demo_desk, demo_window, empty_desk, golden, window_on
from tui.dialogs.facts_screen import FactsScreen
from tui.dialogs.room_form import RoomForm
from tui.screens.folder import FolderScreen
from tui.screens.jobs import JobsScreen
from tui.screens.taught import TaughtScreen
from tui.widgets.choices import SelectField
from tui.widgets.fitted_list import FittedList
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line
from tui.words.taught import NOTHING_YET, bar


def rows_of(app, name):
    table = app.screen.query_one(f"#taught-{name}", FittedList).table
    return [[str(one).strip() for one in table.get_row_at(at)] for at in range(table.row_count)]


async def opened(pilot):
    await pilot.press("2", "t")
    await pilot.pause()


async def test_the_lessons_at_eighty_columns_look_like_their_picture(tmp_path: Path):
    async with demo_window(tmp_path, SMALL) as (app, pilot):
        await opened(pilot)
        await golden(app, pilot, "taught_80x24")


async def test_the_lessons_at_a_hundred_and_twenty_columns_look_like_their_picture(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        await opened(pilot)
        await golden(app, pilot, "taught_120x36")


async def test_v_turns_from_cut_loss_to_glue_to_worth_and_round_again(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        await opened(pilot)
        assert rows_of(app, "loss")[0][:4] == ["All", "every floor", "4", "10.0 %"]
        await pilot.press("v")
        await pilot.pause()
        assert "The sheet says 1,000 g/m², they took 1,392 g/m²." in await settled(app, pilot)
        await pilot.press("v")
        await pilot.pause()
        assert [row[0] for row in rows_of(app, "worth")] == ["GQ-0138", "GQ-0081", "GQ-0077", "GQ-0074"]
        told = " ".join((await settled(app, pilot)).split())
        assert "used EUR 1,873.33 and kept or given back EUR 1,017.17. Cut off or lost in all EUR 123.98." in told
        await pilot.press("v")
        assert app.screen.side == 0


async def test_enter_on_a_line_shows_the_jobs_behind_it_and_on_a_single_one_its_folder(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await opened(pilot)
        await pilot.press("enter")
        assert isinstance(app.screen, FactsScreen)
        assert "GQ-0081       Oak floor in the chart room" in await settled(app, pilot)
        await pilot.press("escape", "down", "down", "down", "enter")
        await pilot.pause()
        assert isinstance(app.screen, FolderScreen)
        assert app.screen.ref == "GQ-0074"
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, TaughtScreen)
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, JobsScreen)


async def test_the_lines_are_filtered_by_what_they_share(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await opened(pilot)
        await pilot.press("slash", *"maren")
        await pilot.pause()
        assert [row[1] for row in rows_of(app, "loss")] == ["Maren Holt"]
        assert "1 of 12 cut loss lines" in await settled(app, pilot)


async def test_before_any_job_is_closed_the_view_teaches_what_to_write_down(tmp_path: Path):
    with empty_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path) as (app, pilot):
            await opened(pilot)
            told = await settled(app, pilot)
            assert "No job is closed yet, so nothing is taught." in told
            assert "Write down the packs opened" in told
            await pilot.press("v")
            assert "No closed job says how much glue it took." in await settled(app, pilot)


async def test_a_floor_not_wholly_ordered_is_told_beside_its_packs_what_closed_floors_took(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path, WIDE) as (app, pilot):
            app.push_screen(FolderScreen(desk, "GQ-0149"))
            await pilot.pause()
            await pilot.press("right")
            await pilot.pause()
            told = await settled(app, pilot)
            assert "Your last 3 floors in straight rows" in told
            assert "16" in told
        needed = desk.jobs.card("GQ-0149").standing.packs[0].needed
        # A hint changes no number: the packs are those of plan and allowance.
        assert needed == 16


async def test_a_floor_that_is_wholly_ordered_is_told_nothing(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path, WIDE) as (app, pilot):
            app.push_screen(FolderScreen(desk, "GQ-0143"))
            await pilot.pause()
            assert "Packs    OAK-190" in await settled(app, pilot)
            assert "Your last" not in await settled(app, pilot)


async def test_the_form_of_a_room_says_below_the_cut_loss_what_closed_floors_took(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        app.push_screen(FolderScreen(app.desk, "GQ-0151"))
        await pilot.pause()
        await pilot.press("a")
        await pilot.pause()
        form = app.screen
        assert isinstance(form, RoomForm)
        said = form.query_one(".room--taught", Line)
        assert not said.display
        await pilot.press(*"Den", "tab", *"4000 x 3000")
        await pilot.pause()
        # The first board of the list is 180 mm wide, and one floor of that width says too little by itself.
        assert said.display
        assert said.words.startswith("Your last 4 floors in straight rows took 9.1 %")
        form.query_one("#field-board", SelectField).choose("OAK-190")
        await pilot.pause()
        assert said.words.startswith(
            "Your last 3 floors in straight rows of 190 mm, rooms with four corners took 7.0 %"
        )
        assert form.query_one("#field-cut-loss-percent OneLine", OneLine).value == "10"
        form.query_one("#field-pattern", SelectField).choose("herringbone")
        await pilot.pause()
        assert not said.display


async def test_help_says_what_the_figures_mean(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        await opened(pilot)
        await pilot.press("question_mark")
        await pilot.pause()
        assert "your own figure counts half" in await settled(app, pilot)


async def test_a_fitter_of_any_name_is_shown_and_obeyed_in_nothing(tmp_path: Path):
    for number, name in enumerate(HOSTILE):
        place = tmp_path / str(number)
        place.mkdir()
        with demo_desk(place) as desk:
            maren = next(one for one in desk.firm.people() if one.name == "Maren Holt")
            desk.firm.change_person(maren, replace(maren, name=name[:200]))
            async with window_on(desk, place) as (app, pilot):
                await opened(pilot)
                assert len(rows_of(app, "loss")) == 12
                assert "\x1b" not in await settled(app, pilot)


def test_a_bar_is_as_long_as_its_figure_and_never_longer_than_its_room():
    assert bar(5, 10, 10) == "█████"
    assert bar(20, 10, 10) == "██████████"
    assert bar(0, 10, 10) == ""
    assert bar(-3, 10, 10) == ""
    assert bar(0, 0, 10, mark=0) == ""
    assert bar(10, 10, 10, mark=10) == "█████████│"
    assert bar(2, 10, 10, mark=8) == "██      │"


def test_the_command_line_tells_the_lessons_in_eighty_columns():
    told = run("taught", "--demo")
    assert told.status == 0
    assert max(map(len, told.said.splitlines())) <= 80
    assert "4 floors of closed jobs." in told.said
    assert "The bar is the real loss, its stroke what was allowed." in told.said


def test_the_command_line_answers_in_json_with_the_floors_behind_each_figure():
    told = run("taught", "--demo", "--json").answer
    first = told["cut_loss"][0]
    assert (told["floors"], told["left_out"], first["by"], first["of"], first["floors"]) == (4, 0, "all", None, 4)
    # 86.2 m² of floor took 27 packs of OAK-190 and 89 boards of ASH-180, less what was left: 9.15 %.
    oak, ash = (56 + 78 + 29) * 0.361, 89 * 0.396
    assert abs(first["real_percent"] - 100 * (oak + ash - 86.2) / 86.2) < 0.001
    assert first["jobs"] == ["GQ-0138", "GQ-0081", "GQ-0077", "GQ-0074"]
    assert {line["by"] for line in told["cut_loss"]} == {"all", "pattern", "width", "shape", "size", "fitter"}
    glue = told["glue"][0]
    assert (glue["product"], glue["notch"], glue["base"], glue["sheet_g_per_m2"]) == ("MS-15", None, "osb", 1000)
    assert abs(glue["real_g_per_m2"] - 8 * 15_000 / 86.2) < 0.001
    assert [line["ref"] for line in told["worth"]] == first["jobs"]


def test_records_without_a_closed_job_are_told_what_would_teach(tmp_path: Path):
    with empty_desk(tmp_path) as desk:
        path = desk.path
    told = run("taught", "--file", path)
    assert told.status == 0
    assert NOTHING_YET.split("\n\n")[0] in told.said
    assert run("taught", "--file", path, "--json").answer["cut_loss"] == []
