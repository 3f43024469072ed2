"""The note of a break-down: it tells where it came from, nothing of what is on file, and is laid no trap for."""

import tempfile
from pathlib import Path

import pytest
from textual.worker import WorkerFailed

from store.trade.jobs import CustomerDraft, JobDraft
from tests.tui.whole_window import demo_desk
from tui.app import LaydayApp
from tui.crash import leave_note
from tui.errands.errands import Errands
from tui.screens.today import TodayScreen

MARKERS = ("Penelope Zebedee", "070 99 88 77", "9 Marker Lane", "zebedee@marker.example")


def test_a_note_of_a_break_down_is_never_written_through_a_link(tmp_path: Path) -> None:
    theirs = tmp_path / "theirs"
    theirs.write_text("as it was", encoding="utf-8")
    (tmp_path / "layday-crash.log").symlink_to(theirs)
    assert leave_note(RuntimeError(), tmp_path) is None
    assert theirs.read_text(encoding="utf-8") == "as it was"


def test_a_note_without_a_folder_of_its_own_is_private_and_never_the_same_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    notes = [leave_note(RuntimeError(), None) for _ in range(2)]
    assert notes[0] != notes[1]
    assert {note.parent for note in notes} == {tmp_path}
    assert {note.stat().st_mode & 0o777 for note in notes} == {0o600}


async def test_a_break_down_leaves_a_note_without_a_word_of_what_is_on_file(tmp_path: Path, capsys, monkeypatch):
    with demo_desk(tmp_path) as desk:
        customer = CustomerDraft(name=MARKERS[0], phone=MARKERS[1], email=MARKERS[3])
        desk.jobs.take_on(JobDraft(ref="M-1", title=MARKERS[0], customer=customer, address=MARKERS[2]))
        app = LaydayApp(desk, crash_folder=tmp_path)

        def broken(self):
            customers = [line.customer for line in self.desk.jobs.lines()]
            raise RuntimeError(f"it broke at {customers} {MARKERS}")

        monkeypatch.setattr(TodayScreen, "again", broken)
        with pytest.raises(RuntimeError):
            async with app.run_test() as pilot:
                await pilot.pause()
        assert app.return_code == 1
        note = app.crash_note.read_text(encoding="utf-8")
        printed = "".join(capsys.readouterr())
        assert "RuntimeError" in note
        assert "test_crash.py" in note
        assert not any(marker in note + printed for marker in MARKERS)
        assert app.crash_note.stat().st_mode & 0o777 == 0o600


async def test_a_break_down_in_an_errand_is_noted_with_the_place_it_came_from(tmp_path: Path, monkeypatch):
    with demo_desk(tmp_path) as desk:
        app = LaydayApp(desk, crash_folder=tmp_path)

        async def broken(*_):
            raise RuntimeError(MARKERS[0])

        monkeypatch.setattr(Errands, "do", broken)
        with pytest.raises(WorkerFailed):
            async with app.run_test() as pilot:
                await pilot.press("d")
        note = app.crash_note.read_text(encoding="utf-8")
        assert note.splitlines()[1] == "RuntimeError"
        assert "in broken" in note
        assert MARKERS[0] not in note
