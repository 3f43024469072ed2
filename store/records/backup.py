"""Verified copies of the records, and putting one back."""

import hashlib
import os
import sqlite3
from contextlib import closing
from pathlib import Path

from store.errors import MadeByNewer, Refused, StoreDamaged, StoreError
from store.records.cabinet import Cabinet
from store.records.database import LOCK_WAIT_S, OpenFile, address_of
from store.records.files import (
    discard,
    free_name,
    give_second_name,
    journal_of,
    make_private_file,
    make_private_folder,
    passing_name,
    put_in_place,
    sync_file,
    sync_folder,
)
from store.records.schema import is_ours, schema_after, schema_of
from store.records.steps import STEPS, version_of
from store.records.trouble import said_by_sqlite, saying_no


def save_copy(cabinet: Cabinet, target: Path) -> int:
    """Write a copy of the records, as they are at this moment, to a new file; return its size in bytes.

    The copy is on the disk, read back and found sound before it gets its name.

    Raises:
        Refused: there is something at ``target`` already.
        DiskFull: there was no room; nothing is left behind.
        StoreLocked: another window is writing.
        StoreDamaged: the records themselves are not sound.
    """
    return copy_into_place(cabinet.file, target)


def copy_into_place(file: OpenFile, target: Path) -> int:
    """Do what ``save_copy`` promises for an open file."""
    if file.in_deed:
        raise RuntimeError("A copy within a deed would hold what is not saved yet.")
    with saying_no(target):
        if os.path.lexists(target):
            raise Refused(f"There is a file {target} already; it was left as it is.")
        passing = passing_name(target)
        try:
            make_private_file(passing)
            with file.standing_still():
                # Reading once takes the lock, with its short wait; the copying alone would wait for ever.
                with saying_no(file.path):
                    version_of(file.connection)
                _pour(file.connection, passing)
            sync_file(passing)
            prove_sound(passing)
            size = passing.stat().st_size
            put_in_place(passing, target)
        finally:
            discard(passing)
    return size


def put_back(copy: Path, store: Path, aside: Path) -> Path | None:
    """Put a copy in the place of the records.

    Args:
        copy: the backup; it is proved sound first, and stays where it is.
        store: where the records are or were. The folder is made if it is missing.
        aside: the name that the file at ``store`` gets; a number is put behind it if the name is taken.

    Returns:
        Where the file that was at ``store`` lies now, or None if there was none.

    Raises:
        Refused: there is no such copy, or it is the store itself.
        StoreDamaged: the copy is not Layday's, or not sound.
        MadeByNewer: the copy was written by a newer release.
        StoreLocked: another window is writing at ``store``.
    """
    with saying_no(copy):
        if not copy.is_file():
            raise Refused(f"There is no file {copy}.")
        if store.exists() and copy.samefile(store):
            raise Refused(f"{copy} is the file of the records itself.")
        prove_sound(copy)
    with saying_no(store):
        place = store.resolve()
        if place.exists() and not place.is_file():
            raise StoreError(f"{store} is not a file; the records are one file, and need its name.")
        make_private_folder(place.parent)
        passing = passing_name(place)
        try:
            make_private_file(passing)
            with closing(_reader(copy)) as source:
                version_of(source)
                _pour(source, passing)
            sync_file(passing)
            prove_sound(passing)
            return _exchange(passing, place, aside)
        finally:
            discard(passing)


def prove_sound(path: Path) -> None:
    """Read a copy through; StoreDamaged or MadeByNewer unless all of it is sound and known here."""
    with saying_no(path), closing(_reader(path)) as copy:
        if not is_ours(copy):
            raise StoreDamaged(f"{path} is another program's file, not Layday's records.")
        version = version_of(copy)
        if version > len(STEPS):
            raise MadeByNewer(f"{path} was written by a newer Layday; put it back with that one.")
        whole = copy.execute("PRAGMA integrity_check(1)").fetchone()[0] == "ok"
        bound = copy.execute("PRAGMA foreign_key_check").fetchone() is None
        if not (whole and bound and schema_of(copy) == schema_after(STEPS[:version])):
            raise StoreDamaged(f"{path} is damaged; it was not used.")


def sha256_of(path: Path) -> str:
    """Return the SHA-256 of a copy in hex; never for a live file, whose lock this would drop."""
    with saying_no(path), path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def last_seal(copy: Path) -> str | None:
    """Return the seal of the last line of a copy's history; None where it has none or cannot be read."""
    try:
        with saying_no(copy), closing(_reader(copy)) as source:
            row = source.execute("SELECT seal FROM history ORDER BY id DESC LIMIT 1").fetchone()
    except StoreError:
        return None
    return str(row[0]) if row else None


def _reader(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(address_of(path, "ro"), uri=True, isolation_level=None, timeout=LOCK_WAIT_S)
    for setting in ("trusted_schema=OFF", "cell_size_check=ON", "mmap_size=0"):
        connection.execute(f"PRAGMA {setting}")
    return connection


def _pour(source: sqlite3.Connection, target: Path) -> None:
    with closing(sqlite3.connect(address_of(target, "rw"), uri=True, isolation_level=None)) as copy:
        # A copy that fails is thrown away, so it needs no journal; it is synced whole when it is done.
        copy.execute("PRAGMA journal_mode=OFF")
        copy.execute("PRAGMA synchronous=OFF")
        source.backup(copy)


def _exchange(passing: Path, store: Path, aside: Path) -> Path | None:
    if not store.exists():
        put_in_place(passing, store)
        return None
    holder = _hold(store)
    try:
        old = free_name(aside)
        give_second_name(store, old)
        journal = journal_of(store)
        if journal.exists() and journal.stat().st_size:
            journal.rename(journal_of(old))
        passing.replace(store)
        sync_folder(store.parent)
    finally:
        if holder is not None:
            holder.close()
    return old


def _hold(store: Path) -> sqlite3.Connection | None:
    """Keep other windows from writing, once SQLite has put half a save right; None for an unreadable file."""
    holder = sqlite3.connect(address_of(store, "rw"), uri=True, isolation_level=None, timeout=LOCK_WAIT_S)
    try:
        holder.execute("BEGIN EXCLUSIVE")
    except sqlite3.DatabaseError as error:
        holder.close()
        said = said_by_sqlite(error, store)
        if not isinstance(said, StoreDamaged):
            raise said from error
        return None
    return holder
