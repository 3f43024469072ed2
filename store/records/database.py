"""One open SQLite file: how it is opened, asked and written, and how its complaints become sentences."""

import os
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TypeVar
from urllib.parse import quote

import peewee

from store.errors import ChangedMeanwhile
from store.records.rows import AnyRow, table_of
from store.records.seals import SEALED, seal_row
from store.records.trouble import making_sense, saying_no

Noun = TypeVar("Noun")

LOCK_WAIT_S = 0.9
"""How long a window waits for another to finish writing before it says so."""

# The order matters: switching the journal writes, and is to be as safe as everything after it.
SETTINGS = (
    ("synchronous", "EXTRA"),
    ("journal_mode", "TRUNCATE"),
    ("foreign_keys", "ON"),
    ("recursive_triggers", "ON"),
    ("trusted_schema", "OFF"),
    ("cell_size_check", "ON"),
    ("secure_delete", "ON"),
    ("mmap_size", "0"),
    ("fullfsync", "ON"),
)


def address_of(path: Path, mode: str) -> str:
    """Return the URI that opens a file whatever is in its name; ``mode`` is SQLite's: ``ro`` or ``rw``."""
    return f"file:{quote(os.fsencode(path.absolute()))}?mode={mode}"


class OpenFile:
    """One file and the one connection to it; asked from one thread only."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.database = peewee.SqliteDatabase(
            address_of(path, "rw"),
            pragmas=SETTINGS,
            uri=True,
            timeout=LOCK_WAIT_S,
            autoconnect=False,
            thread_safe=False,
        )
        self._in_deed = False
        with saying_no(path):
            self.database.connect()

    @property
    def connection(self) -> sqlite3.Connection:
        raw: sqlite3.Connection = self.database.connection()  # type: ignore[no-untyped-call]  # a gap in the stubs
        return raw

    @property
    def in_deed(self) -> bool:
        return self._in_deed

    def hurry(self) -> None:
        """Wait for the disk no longer: a power cut may spoil such a file, so it is for records that are thrown away."""
        with saying_no(self.path):
            self.connection.execute("PRAGMA synchronous=OFF")

    def close(self) -> None:
        if self.database.is_closed():
            return
        with saying_no(self.path):
            self._undo()
            # Leaves one file at rest: SQLite takes its own empty journal away, unless another window needs it.
            with suppress(sqlite3.Error):
                self.connection.execute("PRAGMA journal_mode=DELETE")
            self.database.close()

    @contextmanager
    def deed(self) -> Iterator[None]:
        """Everything written in this block is on disk when it ends, or nothing of it.

        Raises:
            StoreLocked: another window is writing, or reading for too long.
            DiskFull: there was no room for it.
            RuntimeError: a deed within a deed, which is a bug.
        """
        if self._in_deed:
            raise RuntimeError("A deed is under way already.")
        self._in_deed = True
        try:
            with saying_no(self.path):
                self.database.begin("IMMEDIATE")
            yield
            with saying_no(self.path):
                self.database.commit()
        except BaseException:
            self._undo()
            raise
        finally:
            self._in_deed = False

    @contextmanager
    def standing_still(self) -> Iterator[None]:
        """Let several questions see the records as they are at one moment."""
        if self.connection.in_transaction:
            yield
            return
        with saying_no(self.path):
            self.database.begin()
        try:
            yield
        finally:
            self._undo()

    def _undo(self) -> None:
        # After a full disk SQLite has undone the transaction itself; the first complaint is the one to tell.
        with suppress(peewee.PeeweeException, sqlite3.Error):
            if self.connection.in_transaction:
                self.database.rollback()

    def rows(self, query: "peewee.ModelSelect[AnyRow]", build: Callable[..., Noun]) -> tuple[Noun, ...]:
        """Return what ``build`` makes of each row; it is given the columns by name."""
        with saying_no(self.path):
            found = query.objects(build).execute(self.database)
            with making_sense(self.path):
                # One by one: asked for its length first, peewee would hide what is wrong with a row.
                return tuple(row for row in found)

    def first(self, query: "peewee.ModelSelect[AnyRow]", build: Callable[..., Noun]) -> Noun | None:
        """Return what ``build`` makes of the first row, or None where there is none."""
        rows = self.rows(query.limit(1), build)
        return rows[0] if rows else None

    def number(self, query: "peewee.ModelSelect[AnyRow]") -> int | None:
        """Return the one whole number a query asks for, or None where it finds no row."""
        with saying_no(self.path):
            found: int | None = query.scalar(self.database)
            return found

    def file_away(self, query: peewee.ModelInsert) -> int:
        """Run an insert inside a deed and return the number of the new row."""
        self._must_be_in_deed()
        with saying_no(self.path):
            row_id: int = query.execute(self.database)
            table = table_of(query.model)
            if table in SEALED:
                seal_row(self.connection, table, row_id)
            return row_id

    def alter(self, query: peewee.ModelUpdate | peewee.ModelDelete) -> int:
        """Run an update or a delete inside a deed and return how many rows it touched."""
        self._must_be_in_deed()
        with saying_no(self.path):
            touched: int = query.execute(self.database)
            return touched

    def alter_as_shown(self, query: peewee.ModelUpdate | peewee.ModelDelete, what: str) -> None:
        """Run an update or delete that names a row and its revision; ChangedMeanwhile if none is such."""
        if self.alter(query) != 1:
            raise ChangedMeanwhile(f"{what} was changed meanwhile by another window; look at it again, then repeat.")

    def _must_be_in_deed(self) -> None:
        if not self._in_deed:
            raise RuntimeError("Writing outside a deed.")
