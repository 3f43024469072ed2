"""Whatever lies where the records should be is refused with a sentence, and left as it was."""

import hashlib
import os
import random
import sqlite3
import stat
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from store.errors import MadeByNewer, NoStore, StoreDamaged, StoreError
from store.records.checking import findings
from store.records.opening import open_cabinet
from store.records.steps import APPLICATION_ID, STEPS
from store.trade.people import PersonDraft

PAGE = 4096
WREN = PersonDraft(name="Wren")


def seen(folder: Path) -> dict[str, tuple[str, int, int]]:
    """Return what anybody can see of a folder: names, contents, times of change and rights."""
    return {
        str(path.relative_to(folder)): (
            hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else "",
            path.stat().st_mtime_ns,
            path.stat().st_mode,
        )
        for path in folder.rglob("*")
    }


@pytest.fixture
def closed(full_shop) -> Path:
    """Return the path of a good file that nobody has open, alone in its folder."""
    full_shop.cabinet.close()
    path = full_shop.path
    path.with_name(path.name + "-journal").unlink(missing_ok=True)
    return path


def test_no_file_is_no_store_and_none_is_made(tmp_path: Path) -> None:
    with pytest.raises(NoStore, match="no records"):
        open_cabinet(tmp_path / "none.layday", create=False)
    with pytest.raises(NoStore):
        open_cabinet(tmp_path / "no folder" / "none.layday", create=False)
    assert seen(tmp_path) == {}


def test_an_empty_file_is_no_store_until_one_is_asked_for(tmp_path: Path) -> None:
    path = tmp_path / "empty.layday"
    path.touch()
    before = seen(tmp_path)
    with pytest.raises(NoStore, match="empty"):
        open_cabinet(path, create=False)
    assert seen(tmp_path) == before
    made = open_cabinet(path, create=True)
    assert made.firm.get() is None
    made.close()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600


@pytest.mark.parametrize("create", [False, True])
def test_a_folder_is_refused(tmp_path: Path, create: bool) -> None:
    folder = tmp_path / "folder"
    folder.mkdir()
    with pytest.raises(StoreError, match="not a file"):
        open_cabinet(folder, create=create)
    assert list(folder.iterdir()) == []


@pytest.mark.parametrize("create", [False, True])
def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path, create: bool) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(StoreError, match="not a file"):
        open_cabinet(tmp_path / "pipe", create=create)


def _other_database(path: Path, application_id: int, pragma: str = "journal_mode = DELETE") -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA {pragma}")
        connection.execute(f"PRAGMA application_id = {application_id}")
        connection.execute("CREATE TABLE bird (name)")
        connection.execute("INSERT INTO bird VALUES ('gannet')")


WRONG_FILES = {
    "text": lambda path: path.write_text("Reading room, 21 m², oak\n" * 100),
    "one letter": lambda path: path.write_text("x"),
    "half a heading": lambda path: path.write_bytes(b"SQLite format 3\x00"),
    "noughts": lambda path: path.write_bytes(bytes(3 * PAGE)),
    "noise": lambda path: path.write_bytes(random.Random(1).randbytes(5 * PAGE)),
    "another program's database": lambda path: _other_database(path, 42),
    "a database without a mark": lambda path: _other_database(path, 0),
    "another program's database with a side file": lambda path: _other_database(path, 42, "journal_mode = WAL"),
    "our mark and no step": lambda path: _other_database(path, APPLICATION_ID),
}


@pytest.mark.parametrize("create", [False, True])
@pytest.mark.parametrize("what", WRONG_FILES)
def test_what_is_not_ours_is_refused_and_left_as_it_was(tmp_path: Path, what: str, create: bool) -> None:
    path = tmp_path / "wrong.layday"
    WRONG_FILES[what](path)
    before = seen(tmp_path)
    with pytest.raises(StoreDamaged):
        open_cabinet(path, create=create)
    assert seen(tmp_path) == before


@pytest.mark.parametrize("create", [False, True])
def test_a_file_of_a_newer_release_is_refused_and_not_one_byte_is_touched(closed: Path, create: bool) -> None:
    with closing(sqlite3.connect(closed, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA user_version = {len(STEPS) + 1}")
        connection.execute("CREATE TABLE of_tomorrow (id)")
    before = seen(closed.parent)
    with pytest.raises(MadeByNewer, match="newer"):
        open_cabinet(closed, create=create)
    assert seen(closed.parent) == before


def test_a_file_cut_short_at_any_page_is_found_damaged_and_left_as_it_was(closed: Path, tmp_path: Path) -> None:
    whole = closed.read_bytes()
    assert len(whole) > 20 * PAGE
    folder = tmp_path / "cut"
    folder.mkdir()
    path = folder / "cut.layday"
    for pages in range(1, len(whole) // PAGE):
        path.write_bytes(whole[: pages * PAGE])
        before = seen(folder)
        with pytest.raises(StoreDamaged, match="layday restore"):
            open_cabinet(path, create=False)
        assert seen(folder) == before


@pytest.mark.parametrize("length", [50, 99, 600, PAGE - 1, PAGE + 1, 10 * PAGE + 7])
def test_a_file_cut_short_within_a_page_is_found_damaged(closed: Path, length: int) -> None:
    with closed.open("rb+") as file:
        file.truncate(length)
    with pytest.raises(StoreDamaged):
        open_cabinet(closed, create=False)


def test_a_smashed_file_never_ends_in_anything_but_a_sentence(closed: Path, tmp_path: Path) -> None:
    whole = closed.read_bytes()
    chance = random.Random(20261125)
    path = tmp_path / "smashed.layday"
    told = 0
    for _ in range(300):
        smashed = bytearray(whole)
        for _ in range(chance.choice([1, 1, 8, 200])):
            smashed[chance.randrange(len(smashed))] = chance.randrange(256)
        path.write_bytes(smashed)
        try:
            cabinet = open_cabinet(path, create=False)
            try:
                cabinet.facts.many(None)
                cabinet.stock.movements(datetime.max.replace(tzinfo=UTC))
                cabinet.jobs.lines()
                cabinet.firm.get()
                cabinet.history.latest()
                told += not all(good for _, good, _ in findings(cabinet))
            finally:
                cabinet.close()
        except StoreError:
            told += 1
    assert told > 100, "too few of the files were found damaged for this to show anything"


def test_a_path_with_signs_and_other_scripts_in_it_is_a_path(tmp_path: Path) -> None:
    path = tmp_path / "Büro ?mode=memory" / "naïve #1 %41 & co; 記録.layday"
    made = open_cabinet(path, create=True)
    made.close()
    assert path.is_file()
    open_cabinet(path, create=False).close()
    assert {one.name for one in path.parent.iterdir()} <= {path.name, path.name + "-journal"}


def test_a_link_to_the_file_opens_the_file(closed: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.layday"
    link.symlink_to(closed)
    opened = open_cabinet(link, create=False)
    assert opened.jobs.refs() == ("L-0001",)
    opened.close()
    assert link.is_symlink()


def test_making_what_is_there_opens_it(closed: Path) -> None:
    opened = open_cabinet(closed, create=True)
    assert opened.jobs.refs() == ("L-0001",)
    opened.close()


def test_the_first_window_to_make_the_file_is_not_overwritten_by_the_second(tmp_path: Path) -> None:
    path = tmp_path / "gannet.layday"
    quicker = []

    def step_while_another_is_quicker(connection: sqlite3.Connection) -> None:
        if not quicker:
            quicker.append(True)
            first = open_cabinet(path, create=True)
            with first.deed():
                first.people.add(WREN)
            first.close()
        STEPS[0](connection)

    second = open_cabinet(path, create=True, steps=(step_while_another_is_quicker, *STEPS[1:]))
    assert [person.name for person in second.people.all()] == ["Wren"]
    second.close()
    assert {one.name for one in tmp_path.iterdir()} <= {"gannet.layday", "gannet.layday-journal"}


def test_a_file_that_cannot_be_made_leaves_nothing_behind(tmp_path: Path) -> None:
    def fails(_connection: sqlite3.Connection) -> None:
        raise sqlite3.OperationalError("no room")

    with pytest.raises(StoreError):
        open_cabinet(tmp_path / "gannet.layday", create=True, steps=(fails,))
    assert seen(tmp_path) == {}


@pytest.mark.parametrize("mask", [0o000, 0o022, 0o277])
def test_nobody_else_can_read_the_file_its_journal_or_a_folder_that_was_made(tmp_path: Path, mask: int) -> None:
    path = tmp_path / "made" / "deeper" / "gannet.layday"
    before = os.umask(mask)
    try:
        cabinet = open_cabinet(path, create=True)
        with cabinet.deed():
            cabinet.people.add(WREN)
            during = {one.name: stat.S_IMODE(one.stat().st_mode) for one in path.parent.iterdir()}
        cabinet.close()
    finally:
        os.umask(before)
    assert during == {"gannet.layday": 0o600, "gannet.layday-journal": 0o600}
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700
    assert stat.S_IMODE(path.parent.parent.stat().st_mode) == 0o700
