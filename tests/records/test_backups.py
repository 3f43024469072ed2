"""A backup is proved before it has a name, and putting one back destroys nothing."""

import hashlib
import os
import resource
import sqlite3
import stat
import time
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from store.errors import DiskFull, MadeByNewer, Refused, StoreDamaged, StoreError, StoreLocked
from store.records.backup import put_back, save_copy, sha256_of
from store.records.opening import open_cabinet
from store.records.steps import STEPS
from store.trade.events import NoteDraft

NOW_OF_NOTES = datetime(2026, 11, 25, 7, tzinfo=UTC)


def dump(path: Path) -> list[str]:
    """Return everything in a file that nobody has open, as SQL."""
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def names(folder: Path) -> set[str]:
    return {path.name for path in folder.iterdir() if not path.name.endswith("-journal")}


def file_a_note(cabinet, text: str) -> None:
    with cabinet.deed():
        job = cabinet.jobs.by_ref("L-0001")
        cabinet.events.add_note(job.id, NoteDraft(at=NOW_OF_NOTES, text=text))


def notes_of(cabinet) -> list[str]:
    return [note.text for note in cabinet.facts.of_ref("L-0001").notes]


@pytest.fixture
def copy(full_shop, tmp_path: Path) -> Path:
    """Return a copy of a full shop, whose own file says something more by now."""
    folder = tmp_path / "backups"
    folder.mkdir()
    save_copy(full_shop.cabinet, folder / "copy.layday")
    file_a_note(full_shop.cabinet, "after the copy")
    return folder / "copy.layday"


def test_a_copy_holds_all_that_was_saved_and_only_its_owner_can_read_it(full_shop, tmp_path: Path) -> None:
    target = tmp_path / "copy.layday"
    before = os.umask(0)
    try:
        size = save_copy(full_shop.cabinet, target)
    finally:
        os.umask(before)
    assert size == target.stat().st_size
    assert stat.S_IMODE(target.stat().st_mode) == 0o600
    assert names(tmp_path) == {"gannet.layday", "copy.layday"}
    assert sha256_of(target) == hashlib.sha256(target.read_bytes()).hexdigest()
    full_shop.cabinet.close()
    assert dump(target) == dump(full_shop.path)


def test_a_copy_is_on_the_disk_before_it_has_its_name_and_its_name_before_it_is_told(
    full_shop, tmp_path: Path, monkeypatch
) -> None:
    done = []

    def watched(name: str, real):
        def call(*arguments):
            done.append(name if name == "link" else _kind_of(arguments[0]))
            return real(*arguments)

        return call

    monkeypatch.setattr(os, "fsync", watched("fsync", os.fsync))
    monkeypatch.setattr(os, "link", watched("link", os.link))
    save_copy(full_shop.cabinet, tmp_path / "copy.layday")
    assert done == ["file synced", "link", "folder synced"]


def _kind_of(handle: int) -> str:
    return "folder synced" if stat.S_ISDIR(os.fstat(handle).st_mode) else "file synced"


def test_the_records_stay_locked_for_others_while_a_copy_was_made(full_shop, tmp_path: Path) -> None:
    with closing(sqlite3.connect(full_shop.path, isolation_level=None, timeout=0)) as other:
        save_copy(full_shop.cabinet, tmp_path / "copy.layday")
        with full_shop.cabinet.deed(), pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")


def test_a_copy_never_overwrites_anything(full_shop, tmp_path: Path) -> None:
    target = tmp_path / "copy.layday"
    target.write_text("holiday pictures")
    with pytest.raises(Refused, match="already"):
        save_copy(full_shop.cabinet, target)
    assert target.read_text() == "holiday pictures"
    with pytest.raises(Refused):
        save_copy(full_shop.cabinet, full_shop.path)
    dangling = tmp_path / "dangling"
    dangling.symlink_to(tmp_path / "nowhere")
    with pytest.raises(Refused):
        save_copy(full_shop.cabinet, dangling)
    assert names(tmp_path) == {"gannet.layday", "copy.layday", "dangling"}


def test_a_copy_into_a_folder_that_is_not_there_is_refused(full_shop, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="no folder"):
        save_copy(full_shop.cabinet, tmp_path / "no folder" / "copy.layday")
    assert names(tmp_path) == {"gannet.layday"}


def test_a_copy_within_a_deed_is_a_bug(full_shop, tmp_path: Path) -> None:
    with full_shop.cabinet.deed(), pytest.raises(RuntimeError):
        save_copy(full_shop.cabinet, tmp_path / "copy.layday")


def test_a_copy_of_a_file_another_window_holds_does_not_wait_for_ever(full_shop, tmp_path: Path) -> None:
    with closing(sqlite3.connect(full_shop.path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        begun = time.monotonic()
        with pytest.raises(StoreLocked):
            save_copy(full_shop.cabinet, tmp_path / "copy.layday")
        assert time.monotonic() - begun < 2
    assert names(tmp_path) == {"gannet.layday"}


@pytest.mark.parametrize("room_for", [0, 1, 4096, 60_000])
def test_a_copy_with_no_room_for_it_says_so_and_leaves_nothing_behind(full_shop, tmp_path: Path, room_for: int) -> None:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (room_for, hard))
    try:
        with pytest.raises(DiskFull):
            save_copy(full_shop.cabinet, tmp_path / "copy.layday")
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert names(tmp_path) == {"gannet.layday"}
    file_a_note(full_shop.cabinet, "and on it goes")


def test_a_damaged_file_is_not_copied_as_if_it_were_whole(full_shop, tmp_path: Path) -> None:
    full_shop.cabinet.close()
    _smash_a_page_of(full_shop.path, "reading")
    cabinet = open_cabinet(full_shop.path, create=False)
    with pytest.raises(StoreDamaged):
        save_copy(cabinet, tmp_path / "copy.layday")
    cabinet.close()
    assert names(tmp_path) == {"gannet.layday"}


def test_putting_a_copy_back_restores_it_and_sets_the_old_file_aside(full_shop, copy: Path) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    old, wanted = dump(store), dump(copy)
    assert old != wanted
    aside = put_back(copy, store, store.with_name("gannet-2026-11-25.layday"))
    assert aside == store.with_name("gannet-2026-11-25.layday")
    assert (dump(store), dump(aside), dump(copy)) == (wanted, old, wanted)
    assert stat.S_IMODE(store.stat().st_mode) == 0o600
    again = open_cabinet(store, create=False)
    assert notes_of(again) == ["The key is under the blue pot"]
    again.close()


def test_an_older_file_set_aside_is_never_overwritten(full_shop, copy: Path) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    taken = store.with_name("aside.layday")
    taken.write_text("from last week")
    first = put_back(copy, store, taken)
    second = put_back(copy, store, taken)
    assert [first.name, second.name] == ["aside-2.layday", "aside-3.layday"]
    assert taken.read_text() == "from last week"
    assert names(store.parent) == {"gannet.layday", "aside.layday", first.name, second.name, "backups"}


def test_a_copy_is_put_back_where_there_was_nothing(copy: Path, tmp_path: Path) -> None:
    store = tmp_path / "new machine" / "gannet.layday"
    assert put_back(copy, store, store.with_name("aside")) is None
    assert dump(store) == dump(copy)
    assert stat.S_IMODE(store.parent.stat().st_mode) == 0o700


@pytest.mark.parametrize("content", [b"", b"text\n" * 2000, bytes(9000)])
def test_a_copy_is_put_back_over_a_ruined_file_which_is_kept(full_shop, copy: Path, content: bytes) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    store.write_bytes(content)
    aside = put_back(copy, store, store.with_name("ruined"))
    assert aside.read_bytes() == content
    assert dump(store) == dump(copy)


def test_half_a_save_is_not_left_for_the_file_that_is_put_back(full_shop, copy: Path) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    ruined = b"SQLite format 3\x00" + bytes(5000)
    store.write_bytes(ruined)
    journal = store.with_name(store.name + "-journal")
    journal.write_bytes(b"half a save")
    aside = put_back(copy, store, store.with_name("ruined"))
    assert not journal.exists() or journal.stat().st_size == 0
    assert aside.read_bytes() == ruined
    assert dump(store) == dump(copy)


def test_half_a_save_that_cannot_be_put_right_goes_aside_with_its_file(full_shop, copy: Path, monkeypatch) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    journal = store.with_name(store.name + "-journal")
    journal.write_bytes(b"half a save")
    monkeypatch.setattr("store.records.backup._hold", lambda _store: None)
    aside = put_back(copy, store, store.with_name("ruined"))
    assert not journal.exists()
    assert aside.with_name("ruined-journal").read_bytes() == b"half a save"
    assert dump(store) == dump(copy)


def _smash_a_page_of(path: Path, table: str) -> None:
    with closing(sqlite3.connect(path)) as connection:
        root, size = connection.execute(
            "SELECT rootpage, (SELECT page_size FROM pragma_page_size) FROM sqlite_master WHERE name = ?",
            (table,),
        ).fetchone()
    with path.open("rb+") as file:
        file.seek((root - 1) * size)
        file.write(b"\xff" * 64)


def _loosen(copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
        connection.execute("UPDATE site SET customer_id = 99")


def _add_a_trap(copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
        connection.execute("CREATE TRIGGER trap AFTER INSERT ON job BEGIN DELETE FROM person; END")


def _unlock_the_past(copy: Path) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
        connection.execute("DROP TRIGGER reading_not_updated")


def _mark(copy: Path, pragma: str) -> None:
    with closing(sqlite3.connect(copy, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA {pragma}")


BAD_COPIES = {
    "smashed": (lambda copy: _smash_a_page_of(copy, "reading"), StoreDamaged),
    "cut short": (lambda copy: os.truncate(copy, 8192), StoreDamaged),
    "text": (lambda copy: copy.write_text("x" * 9000), StoreDamaged),
    "empty": (lambda copy: copy.write_bytes(b""), StoreDamaged),
    "loose references": (_loosen, StoreDamaged),
    "tables that are not ours": (_add_a_trap, StoreDamaged),
    "tables without their guards": (_unlock_the_past, StoreDamaged),
    "another program's": (lambda copy: _mark(copy, "application_id = 42"), StoreDamaged),
    "newer": (lambda copy: _mark(copy, f"user_version = {len(STEPS) + 1}"), MadeByNewer),
    "gone": (lambda copy: copy.unlink(), Refused),
}


@pytest.mark.parametrize("fault", BAD_COPIES)
def test_a_copy_that_is_not_sound_is_not_put_back(full_shop, copy: Path, fault: str) -> None:
    spoil, error = BAD_COPIES[fault]
    store = full_shop.path
    full_shop.cabinet.close()
    before = store.read_bytes()
    spoil(copy)
    with pytest.raises(error):
        put_back(copy, store, store.with_name("aside"))
    assert store.read_bytes() == before
    assert names(store.parent) == {"gannet.layday", "backups"}


def test_the_file_itself_is_not_put_back_over_itself(full_shop) -> None:
    full_shop.cabinet.close()
    with pytest.raises(Refused, match="itself"):
        put_back(full_shop.path, full_shop.path, full_shop.path.with_name("aside"))
    assert names(full_shop.path.parent) == {"gannet.layday"}


def test_nothing_is_put_back_over_a_file_another_window_is_writing(full_shop, copy: Path) -> None:
    store = full_shop.path
    with closing(sqlite3.connect(store, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StoreLocked):
            put_back(copy, store, store.with_name("aside"))
    assert names(store.parent) == {"gannet.layday", "backups"}
    assert notes_of(full_shop.cabinet)[-1] == "after the copy"


def test_a_window_left_open_cannot_write_into_the_file_that_was_put_back(full_shop, copy: Path) -> None:
    aside = put_back(copy, full_shop.path, full_shop.path.with_name("aside"))
    with pytest.raises(StoreError, match="put back or moved"):
        file_a_note(full_shop.cabinet, "into the wrong file")
    full_shop.cabinet.close()
    assert dump(full_shop.path) == dump(copy)
    assert "into the wrong file" not in str(dump(aside))


def test_a_copy_with_no_room_to_put_it_back_leaves_the_store_as_it_was(full_shop, copy: Path) -> None:
    store = full_shop.path
    full_shop.cabinet.close()
    before = store.read_bytes()
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, hard))
    try:
        with pytest.raises(DiskFull):
            put_back(copy, store, store.with_name("aside"))
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
    assert store.read_bytes() == before
    assert names(store.parent) == {"gannet.layday", "backups"}


def test_a_disk_without_links_is_served_by_renaming(full_shop, copy: Path, monkeypatch) -> None:
    def no_links(*_names: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    store = full_shop.path
    save_copy(full_shop.cabinet, store.with_name("second.layday"))
    with pytest.raises(Refused):
        save_copy(full_shop.cabinet, store.with_name("second.layday"))
    full_shop.cabinet.close()
    old = dump(store)
    aside = put_back(copy, store, store.with_name("aside"))
    assert (dump(store), dump(aside)) == (dump(copy), old)
    made = open_cabinet(store.with_name("made.layday"), create=True)
    made.close()
    assert names(store.parent) == {"gannet.layday", "second.layday", "aside", "made.layday", "backups"}
