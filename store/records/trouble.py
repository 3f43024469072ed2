"""Turns what SQLite and the disk complain of into the sentences of ``store.errors``."""

import errno
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import peewee

from store.errors import DiskFull, Refused, StoreDamaged, StoreError, StoreLocked

_TAKEN = {
    "job.ref": "There is a job with this reference on file already.",
    "product.code": "There is a product with this code on file already.",
    "person.name": "There is somebody of this name on file already.",
    "room.job_id, room.name": "There is a room of this name in this job already.",
    "flight.job_id, flight.name": "There are stairs of this name in this job already.",
    "taken_back.kind, taken_back.row_id": "This has been taken back already.",
    "firm.id": "The firm is on file already.",
}
_FULL = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
_BARRED = frozenset({errno.EACCES, errno.EPERM, errno.EROFS})


class BoundTo(Refused):
    """A row cannot go because other rows name it."""


@contextmanager
def saying_no(path: Path) -> Iterator[None]:
    """Let nothing of the database or the disk out of this block but children of ``StoreError``.

    Mistakes in our own calls (wrong arguments, another thread's connection) stay as loud as they are.
    """
    try:
        yield
    except (peewee.PeeweeException, sqlite3.Error) as error:
        cause = _cause_of(error)
        if isinstance(cause, sqlite3.ProgrammingError | sqlite3.InterfaceError | peewee.InterfaceError):
            raise
        raise said_by_sqlite(cause, path) from error
    except OSError as error:
        raise said_by_disk(error, path) from error
    except OverflowError as error:
        raise Refused("One of the figures is too large to be written down.") from error
    except UnicodeEncodeError as error:
        raise Refused("The text holds a character that cannot be written down.") from error
    except UnicodeDecodeError as error:
        # SQLite quotes the names of broken tables as they are, and those letters may be none.
        raise damaged(path) from error


@contextmanager
def making_sense(path: Path) -> Iterator[None]:
    """Say that the records are damaged where what was read cannot be what was written."""
    try:
        yield
    except (ValueError, KeyError, TypeError) as error:
        raise StoreDamaged(
            f"The records in {path} hold something that makes no sense; nothing was changed. "
            "Run “layday check”, or put a backup back with “layday restore FILE”."
        ) from error


def _cause_of(error: BaseException) -> BaseException:
    told_by: BaseException = getattr(error, "orig", error)
    return told_by


_BARRED_BY = ("SQLITE_READONLY", "SQLITE_PERM", "SQLITE_CANTOPEN", "SQLITE_AUTH")


def said_by_sqlite(error: BaseException, path: Path) -> StoreError:
    """Return the sentence for an error of SQLite's, told by the name of its extended result code."""
    name: str = getattr(error, "sqlite_errorname", "")
    said: StoreError = damaged(path)
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        said = StoreLocked(f"Another window is writing in {path}; try again in a moment.")
    elif name in {"SQLITE_FULL", "SQLITE_IOERR_WRITE"}:
        said = disk_full(path)
    elif name == "SQLITE_READONLY_DBMOVED":
        said = StoreError(f"{path} was put back or moved by another window; close this one and open it again.")
    elif name.startswith(_BARRED_BY):
        said = StoreError(f"{path} may not be opened or written; look at the rights of the file and its folder.")
    elif name.startswith("SQLITE_IOERR"):
        said = StoreError(f"The disk gave an error at {path} ({name}); what was saved before is untouched.")
    elif name.startswith("SQLITE_CONSTRAINT"):
        said = _said_by_constraint(name, str(error))
    return said


def said_by_disk(error: OSError, path: Path) -> StoreError:
    """Return the sentence for an error of the file system's."""
    if error.errno in _FULL:
        return disk_full(path)
    if error.errno in _BARRED:
        return StoreError(f"{path} may not be opened or written; look at the rights of the file and its folder.")
    if error.errno in {errno.ENOENT, errno.ENOTDIR}:
        missing = path if path.parent.is_dir() else path.parent
        return StoreError(f"There is no {missing}.")
    return StoreError(f"{path} cannot be used: {(error.strerror or 'unknown trouble').lower()}.")


def disk_full(path: Path) -> DiskFull:
    """Return the sentence for a full disk."""
    return DiskFull(f"There is no room left on the disk of {path}; nothing was changed. Make room, then try again.")


def damaged(path: Path) -> StoreDamaged:
    """Return the sentence for a file that is no longer whole, with the way out."""
    return StoreDamaged(
        f"The records in {path} are damaged; the file was left as it is. "
        "Put the newest backup back with “layday restore FILE”."
    )


def _said_by_constraint(name: str, said: str) -> StoreError:
    if name == "SQLITE_CONSTRAINT_FOREIGNKEY":
        return BoundTo("Something else on file names this, or this names something no longer on file.")
    for columns, sentence in _TAKEN.items():
        if said.endswith(f"UNIQUE constraint failed: {columns}"):
            return Refused(sentence)
    return StoreError("One of the values is none that the records can hold; nothing was changed.")
