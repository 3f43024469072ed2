"""The folder of a job: its sections at two sizes, its keys, and what it says when there is nothing to show."""

from pathlib import Path

import pytest
from textual.binding import Binding
from textual.pilot import Pilot
from textual.widgets._footer import FooterKey

from store.trade.events import NoteDraft, SnagDraft
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.outline import rectangle
from tests.tui.firm_window import (
    SECTIONS,
    WIDE,
    MovingClock,
    demo_desk,
    folder,
    new_desk,
    press,
    seen,
    told,
    turn_to,
    window_on,
)
from tests.tui.shop_window import HOSTILE, answer_all, match_picture, picture
from tui.dialogs.help_screen import HelpScreen
from tui.dialogs.reading_charts import ReadingCharts
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.word_forms import TakeBack
from tui.folder.keys import KEYS
from tui.palette import ShopCommands
from tui.screens.folder import FolderScreen
from tui.screens.today import TodayScreen


def footer(pilot: Pilot[None]) -> list[str]:
    return [key.description for key in pilot.app.screen.query(FooterKey)]


@pytest.mark.parametrize(
    ("ref", "section"),
    [
        ("GQ-0149", "survey"),
        ("GQ-0144", "orders"),
        ("GQ-0146", "readings"),
        ("GQ-0141", "laying"),
        ("GQ-0147", "laying"),
        ("GQ-0148", "close-out"),
        ("GQ-0138", "close-out"),
    ],
)
async def test_a_folder_opens_at_the_section_that_matters_at_its_stage(tmp_path: Path, ref: str, section: str) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, ref) as pilot:
            assert folder(pilot).pane.section.value == section


async def test_left_and_right_turn_the_sections_round(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "left")
            assert folder(pilot).pane.section.value == "history"
            await press(pilot, "right")
            assert folder(pilot).pane.section.value == "survey"


async def test_a_click_on_its_name_turns_to_a_section(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await pilot.click("SectionStrip", offset=(len(" Survey  Orders  Re"), 0))
            await pilot.pause()
            assert folder(pilot).pane.section.value == "readings"


async def test_left_and_right_move_within_the_line_one_filters_by(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "slash")
            await pilot.press("s", "t", "left", "left", "right")
            assert folder(pilot).pane.section.value == "survey"
            assert folder(pilot).pane.rows.filter_text == "st"


@pytest.mark.parametrize("ref", ["GQ-0141", "GQ-0148", "GQ-0149", "GQ-0151"])
async def test_the_footer_is_whole_at_80_columns_and_offers_at_most_eight_keys(tmp_path: Path, ref: str) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, ref) as pilot:
            for section in SECTIONS:
                await turn_to(pilot, section)
                await pilot.pause()
                keys = footer(pilot)
                assert len(keys) <= 8
                assert keys[-1] == "Back"
                assert picture(pilot.app).splitlines()[-1].rstrip().endswith("esc Back")


async def test_help_names_every_key_of_the_folder_with_what_it_does(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149", (72, 50)) as pilot:
            await press(pilot, "question_mark")
            assert isinstance(pilot.app.screen, HelpScreen)
            words = picture(pilot.app)
            for key in "daoicrtslkgbmexj":
                assert any(line.strip(" │").startswith(f"{key}  ") for line in words.splitlines()), key
            assert "Take in a delivery: batches, packs, damage" in words


async def test_every_key_of_the_folder_is_in_the_palette(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            names = {command.words for command in ShopCommands(pilot.app.screen).commands()}
            assert {key.description for key in KEYS if isinstance(key, Binding)} <= names


async def test_escape_goes_back_to_where_the_folder_was_opened(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "escape")
            assert isinstance(pilot.app.screen, TodayScreen)


async def test_enter_on_a_line_of_history_shows_what_was_before_and_after(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        job = desk.jobs.card("GQ-0149").facts.job
        changed = JobDraft(ref=job.ref, title="Oak floors", customer=job.customer, address=job.address)
        desk.jobs.change(job, changed)
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "history")
            await press(pilot, "enter")
            assert "Job changed" in seen(pilot)
            assert "title: Oak floors, parlour and study → Oak floors" in seen(pilot)
            await press(pilot, "escape")
            assert isinstance(pilot.app.screen, FolderScreen)


async def test_the_history_of_a_laying_names_the_packs_that_were_opened(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0150", WIDE) as pilot:
            await turn_to(pilot, "history")
            assert "ASH-180" in seen(pilot)
            assert "Opening(" not in seen(pilot)


async def test_a_job_without_rooms_says_what_to_do_first(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0151") as pilot:
            assert "No room is measured yet." in seen(pilot)
            assert "a adds one" in seen(pilot)
            for section, key in (
                ("orders", "o puts"),
                ("readings", "r puts"),
                ("laying", "l begins"),
                ("close-out", "k"),
            ):
                await turn_to(pilot, section)
                assert f" {key}" in seen(pilot)


async def test_what_cannot_be_changed_says_what_to_do_instead(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0143") as pilot:
            await press(pilot, "down")
            await press(pilot, "e")
            assert "take it back with x, and file it again" in told(pilot)
            await turn_to(pilot, "history")
            await press(pilot, "x")
            assert "The history stays" in told(pilot)
            await turn_to(pilot, "laying")
            await press(pilot, "x")
            assert "There is no line to take back here." in told(pilot)


async def test_a_reading_taken_back_is_gone_from_the_list_and_stays_in_the_history(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "readings")
            await press(pilot, "x")
            assert isinstance(pilot.app.screen, TakeBack)
            assert "gap" not in told(pilot)
            await answer_all(pilot, "Read in the wrong room")
            await pilot.pause()
            assert "Taken back: the reading of Tue 24 Nov 10:20" in told(pilot)
            pilot.app.clear_notifications()
            await pilot.pause()
            assert "levels 4.25 mm" in seen(pilot)
            assert "gap 7 mm in 2 m" not in seen(pilot)
            await turn_to(pilot, "history")
            assert "reading taken back" in seen(pilot)


async def test_a_reading_is_put_right_with_e_and_its_whole_line_says_so(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "readings")
            await press(pilot, "e")
            assert isinstance(pilot.app.screen, ReadingForm)
            await pilot.press(*["tab"] * 4, "1", "ctrl+s", *"misread", "ctrl+s")
            await pilot.pause()
            assert "Put right." in told(pilot)
            pilot.app.clear_notifications()
            await pilot.pause()
            assert "gap 1 mm in 2 m" in seen(pilot)
            await press(pilot, "enter")
            assert "Put right: the line that stood here before was taken back" in seen(pilot)


async def test_a_loggers_file_is_told_before_it_is_filed_and_taken_in_once(tmp_path: Path) -> None:
    file = tmp_path / "log.csv"
    file.write_text("Date;Temp;RH\n2026-11-24 09:00;20,5;52\n2026-11-24 10:00;20,5;53\nend\n")
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "readings")
            await press(pilot, "y")
            await answer_all(pilot, str(file), None)
            await pilot.pause()
            assert "2 readings of the air" in seen(pilot)
            assert "Line 4: no date and time" in seen(pilot)
            await pilot.press("right", "enter")
            await pilot.pause()
            assert "2 readings of the air" in told(pilot)
            pilot.app.clear_notifications()
            await pilot.pause()
            assert "air 20.5 °C 53 %" in seen(pilot)
            await press(pilot, "y")
            await answer_all(pilot, str(file), None)
            await pilot.pause()
            assert "Nothing is new in this file. 2 lines on file already." in told(pilot)


async def test_the_cursor_stays_on_its_line_when_the_clock_ticks(tmp_path: Path) -> None:
    clock = MovingClock()
    with demo_desk(tmp_path, clock) as desk:
        async with window_on(desk, "GQ-0146") as pilot:
            await pilot.press("down", "down")
            chosen = folder(pilot).pane.rows.chosen
            clock.show(25, 9)
            folder(pilot).ask_again()
            await pilot.pause()
            assert folder(pilot).pane.rows.chosen == chosen
            assert "Wed 25 Nov 09:00" in seen(pilot)


async def test_nothing_to_do_is_said_and_not_offered(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0147") as pilot:
            assert "Do next" not in footer(pilot)
            await press(pilot, "d")
            assert "Nothing is to be done on this job now" in told(pilot)


async def test_any_name_is_shown_and_obeyed_nowhere_in_the_folder(tmp_path: Path) -> None:
    words = " ".join(one[:60] for one in HOSTILE)
    with new_desk(tmp_path, MovingClock()) as desk:
        desk.jobs.take_on(JobDraft(ref="L-1", title=words, customer=CustomerDraft(name=words), address=words))
        desk.closing.add_note("L-1", NoteDraft(at=desk.now(), text=words))
        desk.closing.add_snag("L-1", SnagDraft(at=desk.now(), what=words))
        for name in HOSTILE:
            room = RoomDraft(
                name=f"{name[:60]} room",
                outline=rectangle(4000, 3000),
                subfloor=Subfloor.OSB,
                method=Method.GLUED,
                board="OAK-190",
            )
            desk.jobs.add_room("L-1", room)
        async with window_on(desk, "L-1", WIDE) as pilot:
            for section in SECTIONS:
                await turn_to(pilot, section)
                await press(pilot, "down")
                assert "[bold" in picture(pilot.app)
                assert "\x1b" not in picture(pilot.app)
                assert "\u202e" not in picture(pilot.app)
                await press(pilot, "enter")
                await press(pilot, "escape" if not isinstance(pilot.app.screen, FolderScreen) else "up")
            assert isinstance(pilot.app.screen, FolderScreen)


async def test_readings_are_shown_over_time_from_the_chosen_kind_on(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0146") as pilot:
            await press(pilot, "h")
            charts = pilot.app.screen
            assert isinstance(charts, ReadingCharts)
            assert "Room air, temperature, in the Hall (°C)  (1 of 4)" in picture(pilot.app)
            assert "✓ Must be 18–24 °C; none out of it." in picture(pilot.app)
            match_picture(pilot.app, "readings_over_time_80x24")
            await press(pilot, "left")
            assert "Straightedge on the subfloor, in the Hall (mm)  (4 of 4)" in picture(pilot.app)
            await press(pilot, "escape")
            await press(pilot, "down")
            await press(pilot, "h")
            assert "Straightedge on the subfloor, in the Hall (mm)  (4 of 4)" in picture(pilot.app)


async def test_a_room_without_a_reading_says_so_instead_of_an_empty_picture(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "down")
            await press(pilot, "h")
            assert "Nothing has been read in Study yet." in told(pilot)
            assert isinstance(pilot.app.screen, FolderScreen)
