"""The list of every job: the open ones by stage, the past ones after them, found as one types."""

import sqlite3
from pathlib import Path

from store.desk.clock import stopped_clock
from store.desk.desk import open_desk
from tests.tui.shop_window import NOW, picture
from tests.tui.whole_window import SMALL, WIDE, demo_desk, demo_window, empty_desk, golden, window_on
from tui.screens.folder import FolderScreen
from tui.screens.jobs import JobsScreen
from tui.widgets.fitted_list import FittedList


def rows_of(app):
    table = app.screen.query_one(FittedList).table
    return [[str(one) for one in table.get_row_at(at)] for at in range(table.row_count)]


async def test_the_jobs_at_eighty_columns_look_like_their_picture(tmp_path: Path):
    async with demo_window(tmp_path, SMALL) as (app, pilot):
        await pilot.press("2")
        await pilot.pause()
        await golden(app, pilot, "jobs_80x24")


async def test_the_jobs_at_a_hundred_and_twenty_columns_look_like_their_picture(tmp_path: Path):
    async with demo_window(tmp_path, WIDE) as (app, pilot):
        await pilot.press("2")
        await pilot.pause()
        await golden(app, pilot, "jobs_120x36")


async def test_open_jobs_come_first_by_their_stage_and_past_ones_last(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("2")
        stages = [row[0].split()[-1] for row in rows_of(app)]
        assert stages == [
            *("survey", "survey", "delivery", "delivery", "delivery", "acclimatising", "acclimatising"),
            *("install", "install", "cure", "handover", "closed", "closed", "closed", "closed"),
        ]


async def test_the_promised_day_has_its_weekday_and_says_late_in_words(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("2")
        days = {row[1].strip(): row[-1].strip() for row in rows_of(app)}
        assert days["GQ-0148"] == "Tue 24 Nov, late"
        assert days["GQ-0149"] == "Tue 5 Jan 2027"
        assert days["GQ-0138"] == "closed Wed 4 Nov"


async def test_typing_narrows_the_list_by_words_that_no_column_shows(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("2", "slash", *"chapel")
        assert [row[1].strip() for row in rows_of(app)] == ["GQ-0142"], "St Brannoc's address is Chapel Steps"
        assert "1 of 15 jobs" in picture(app)


async def test_enter_after_filtering_goes_to_the_list_and_then_opens_the_folder(tmp_path: Path):
    async with demo_window(tmp_path) as (app, pilot):
        await pilot.press("2", "slash", *"tea room", "enter", "enter")
        await pilot.pause()
        assert isinstance(app.screen, FolderScreen)
        assert app.screen.ref == "GQ-0138"


async def test_no_job_at_all_teaches_what_to_press(tmp_path: Path):
    with empty_desk(tmp_path) as desk:
        async with window_on(desk, tmp_path) as (app, pilot):
            await pilot.press("2")
            await pilot.pause()
            assert isinstance(app.screen, JobsScreen)
            assert "Press n to take on the first one" in picture(app)


async def test_of_two_thousand_past_jobs_the_first_four_hundred_are_shown_and_any_can_be_found(tmp_path: Path):
    with demo_desk(tmp_path):
        pass
    _file_past_jobs(tmp_path / "demo.layday", 2_000)
    with open_desk(tmp_path / "demo.layday", clock=stopped_clock(NOW)) as desk:
        async with window_on(desk, tmp_path) as (app, pilot):
            await pilot.press("2")
            await pilot.pause()
            assert "2,015 jobs, the first 400 shown" in picture(app)
            await pilot.press("slash", *"past 1977")
            assert "1 of 2,015 jobs" in picture(app)


def _file_past_jobs(path: Path, number: int) -> None:
    records = sqlite3.connect(path)
    columns = [row[1] for row in records.execute("PRAGMA table_info(job)") if row[1] not in {"id", "ref", "title"}]
    others = ", ".join(columns)
    records.executemany(
        f"INSERT INTO job (ref, title, {others}) SELECT ?, ?, {others} FROM job WHERE ref = 'GQ-0138'",
        [(f"OLD-{at}", f"Past {at}") for at in range(number)],
    )
    records.commit()
    records.close()
