"""Records that cannot be opened: a sentence and its exit status, and the file is left as it is."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest

from store.trade.firm import FirmDraft
from tests.tui.made_up import new_desk
from tests.tui.opened import Opened, asked
from tui.command.commands import answering
from tui.opening import run_screens

FIRM = FirmDraft(name="Gannet Quay Floors")


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> Opened:
    return Opened(monkeypatch)


def another_program(path: Path) -> None:
    with closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE songs (title TEXT)")
        other.commit()


def a_text(path: Path) -> None:
    path.write_text("Dear diary, " * 500, encoding="utf-8")


def of_a_newer_release(path: Path) -> None:
    with new_desk(path):
        pass
    with closing(sqlite3.connect(path)) as other:
        other.execute("PRAGMA user_version = 999")
        other.commit()


def cut_short(path: Path) -> None:
    with new_desk(path):
        pass
    path.write_bytes(path.read_bytes()[:5000])


@pytest.mark.parametrize(
    ("make", "status"), [(another_program, 13), (a_text, 13), (of_a_newer_release, 12), (cut_short, 13)]
)
def test_what_cannot_be_opened_is_told_and_left_as_it_is(
    tmp_path: Path,
    opened: Opened,
    capsys: pytest.CaptureFixture[str],
    make: Callable[[Path], None],
    status: int,
) -> None:
    path = tmp_path / "gannet.layday"
    make(path)
    before = path.read_bytes()
    opened.answer = FIRM
    assert answering(run_screens)(asked(path)) == status
    assert str(path) in capsys.readouterr().err
    assert path.read_bytes() == before
    # SQLite may leave a journal with nothing in it beside a file that is cut short.
    beside = [one for one in tmp_path.iterdir() if one != path]
    assert all(one.name == "gannet.layday-journal" and one.stat().st_size == 0 for one in beside)
    assert opened.said == []
    assert opened.notes == []


def test_records_that_another_window_holds_are_told_as_locked(
    tmp_path: Path, opened: Opened, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "gannet.layday"
    with new_desk(path):
        pass
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        assert answering(run_screens)(asked(path)) == 11
    assert "another window" in capsys.readouterr().err.lower()
    assert opened.notes == []
