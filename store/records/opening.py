"""Opens the records, makes them where asked to, and refuses untouched what is not theirs or newer."""

import sqlite3
import stat
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

from store.errors import MadeByNewer, NoStore, StoreDamaged, StoreError
from store.records.backup import copy_into_place
from store.records.cabinet import Cabinet
from store.records.database import OpenFile, address_of
from store.records.files import (
    discard,
    free_name,
    journal_of,
    make_private_file,
    make_private_folder,
    passing_name,
    put_in_place,
)
from store.records.schema import is_ours
from store.records.steps import STEPS, Step, step_up, version_of
from store.records.trouble import saying_no


def open_cabinet(path: Path, *, create: bool, steps: tuple[Step, ...] = STEPS) -> Cabinet:
    """Open the records at a path.

    Args:
        path: the file.
        create: make it where there is none, or an empty file. Nothing else is ever made over.
        steps: all steps this release knows; another tuple only to rehearse an upgrade.

    Raises:
        NoStore: nothing is there, or a file of 0 bytes, and ``create`` is False.
        MadeByNewer: a newer release has written it; not one byte was touched.
        StoreDamaged: it is another program's file, or no longer whole.
        StoreLocked: another window is writing.
        StoreError: it is a folder, or may not be opened.
    """
    with saying_no(path):
        if _size_of(path) == 0:
            if not create:
                raise NoStore(_nothing_at(path))
            _make(path, steps)
        _refuse_what_is_not_ours(path, steps)
        file = OpenFile(path)
        try:
            _bring_up_to_date(file, steps)
        except BaseException:
            file.close()
            raise
    return Cabinet(file)


def _size_of(path: Path) -> int:
    try:
        found = path.stat()
    except (FileNotFoundError, NotADirectoryError):
        return 0
    if not stat.S_ISREG(found.st_mode):
        raise StoreError(f"{path} is not a file; the records are one file, and need its name.")
    return found.st_size


def _nothing_at(path: Path) -> str:
    if path.exists():
        return f"{path} is empty: there are no records in it. Put a backup back with “layday restore FILE”."
    return f"There are no records at {path}."


def _make(path: Path, steps: tuple[Step, ...]) -> None:
    place = path.resolve()
    make_private_folder(place.parent)
    passing = passing_name(place)
    try:
        make_private_file(passing)
        file = OpenFile(passing)
        try:
            step_up(file.connection, steps)
        finally:
            file.close()
        if not place.exists():
            put_in_place(passing, place)
        elif place.stat().st_size == 0:
            passing.replace(place)
    finally:
        discard(passing)


def _refuse_what_is_not_ours(path: Path, steps: tuple[Step, ...]) -> None:
    # ``immutable`` takes no lock and makes no journal: not even the folder's listing changes.
    try:
        address = address_of(path, "ro") + "&immutable=1"
        with closing(sqlite3.connect(address, uri=True, isolation_level=None)) as peek:
            _check_mark(peek, path, steps)
    except sqlite3.DatabaseError:
        # A journal with something in it means half a save: SQLite puts it right on opening, then looks again.
        journal = journal_of(path.resolve())
        if not (journal.exists() and journal.stat().st_size):
            raise


def _check_mark(connection: sqlite3.Connection, path: Path, steps: tuple[Step, ...]) -> None:
    if not is_ours(connection):
        raise StoreDamaged(f"{path} is another program's file, not Layday's records; it was left as it is.")
    version = version_of(connection)
    if version > len(steps):
        raise MadeByNewer(
            f"{path} was written by a newer Layday (form {version}; this one knows {len(steps)}). "
            "Nothing was touched; open it with the newer release."
        )


def _bring_up_to_date(file: OpenFile, steps: tuple[Step, ...]) -> None:
    _check_mark(file.connection, file.path, steps)
    version = version_of(file.connection)
    if version == len(steps):
        return
    saved_on = datetime.fromtimestamp(file.path.stat().st_mtime, UTC).date()
    name = f"{file.path.stem}-{saved_on}-form-{version}-before-{len(steps)}{file.path.suffix}"
    copy_into_place(file, free_name(file.path.with_name(name)))
    step_up(file.connection, steps)
