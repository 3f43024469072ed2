"""Nothing typed is lost, and nothing is filed twice, whatever goes wrong while an errand is being done."""

import sqlite3
from pathlib import Path

import pytest

from store.errors import DiskFull
from store.trade.events import NoteDraft
from store.trade.jobs import JobDraft
from tests.tui.firm_window import demo_desk, press, seen, window_on
from tests.tui.shop_window import type_over
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm
from tui.screens.folder import FolderScreen


async def test_a_form_stays_with_what_was_typed_while_another_window_writes(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "m")
            await type_over(pilot, "Ring before you come")
            other = sqlite3.connect(desk.path, isolation_level=None)
            other.execute("BEGIN IMMEDIATE")
            await pilot.press("ctrl+s")
            await pilot.pause()
            other.execute("ROLLBACK")
            other.close()
            assert isinstance(pilot.app.screen, NoteForm)
            assert "Another window is writing" in seen(pilot)
            assert "Ring before you come" in seen(pilot)
            await press(pilot, "ctrl+s")
            assert desk.jobs.card("GQ-0149").facts.notes[-1].text == "Ring before you come"


async def test_a_form_stays_with_what_was_typed_while_the_disk_is_full(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(ref: str, draft: NoteDraft) -> None:
        raise DiskFull("There is no room left on the disk; nothing was changed.")

    with demo_desk(tmp_path) as desk:
        monkeypatch.setattr(desk.closing, "add_note", full)
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "m")
            await type_over(pilot, "Ring before you come")
            await press(pilot, "ctrl+s")
            assert isinstance(pilot.app.screen, NoteForm)
            assert "There is no room left on the disk" in seen(pilot)
            assert "Ring before you come" in seen(pilot)


async def test_what_another_window_changed_meanwhile_is_said_and_saving_again_puts_mine_in_its_place(
    tmp_path: Path,
) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "j")
            await pilot.press("enter")
            await type_over(pilot, "Mine")
            job = desk.jobs.card("GQ-0149").facts.job
            desk.jobs.change(job, JobDraft(ref=job.ref, title="Theirs", customer=job.customer))
            await press(pilot, "ctrl+s")
            assert isinstance(pilot.app.screen, TakeOnJob)
            assert "Another window has changed this meanwhile." in seen(pilot)
            await press(pilot, "ctrl+s")
            assert desk.jobs.card("GQ-0149").facts.job.title == "Mine"


async def test_saving_twice_in_a_row_files_once(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            before = len(desk.jobs.card("GQ-0149").facts.notes)
            await press(pilot, "m")
            await type_over(pilot, "Once")
            form = pilot.app.screen
            assert isinstance(form, NoteForm)
            form.action_save()
            form.action_save()
            await pilot.pause()
            assert len(desk.jobs.card("GQ-0149").facts.notes) == before + 1


async def test_a_key_pressed_twice_opens_one_form(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            screen = pilot.app.screen
            assert isinstance(screen, FolderScreen)
            screen.action_note()
            screen.action_note()
            await pilot.pause()
            await pilot.pause()
            await press(pilot, "escape")
            assert pilot.app.screen is screen
