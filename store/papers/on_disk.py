"""Files that leave and enter the shop: written whole or not at all, read with a sentence where that fails."""

import contextlib
import errno
import os
import tempfile
from pathlib import Path
from typing import BinaryIO

from store.errors import DiskFull, Refused

MOST_BYTES = 256 * 1024 * 1024
"""No folder file of a small firm is larger; a larger one is something else."""
_DATABASE = b"SQLite format 3\0"
"""How every SQLite file begins (sqlite.org, Database File Format, 1.3)."""


def read_whole(path: Path) -> bytes:
    """Return a file's bytes.

    Raises:
        Refused: there is no such file, it may not be read, or it is far too large.
    """
    try:
        if path.is_dir():
            raise Refused(f"{path} is a folder, not a file.")
        with path.open("rb") as file:
            return read_stream(file, str(path))
    except (OSError, ValueError) as error:
        raise Refused(f"{path} cannot be read: {_reason(error)}.") from error


def read_stream(stream: BinaryIO, name: str) -> bytes:
    """Return all that a stream gives; Refused where it goes on for longer than any folder file."""
    raw = stream.read(MOST_BYTES + 1)
    if len(raw) > MOST_BYTES:
        raise Refused(f"{name} is larger than {MOST_BYTES // 1024 // 1024} MB; that is no job folder.")
    return raw


def write_whole(path: Path, raw: bytes) -> None:
    """Write a file that only its owner may read; a reader sees the old one or the new one, never half.

    A link goes on pointing where it did. What is no file, like a pipe, is written into as it is.

    Raises:
        DiskFull: no room is left; the old file is still whole.
        Refused: the file may not be written, or is a database, which no paper is ever meant to replace.
    """
    try:
        if path.is_file() and _is_database(path):
            raise Refused(f"{path} holds records, or another database; choose another name.")
        if path.exists() and not path.is_file():
            path.write_bytes(raw)
        else:
            _write(path.resolve(), raw)
    except (OSError, ValueError) as error:
        if isinstance(error, OSError) and error.errno in {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}:
            raise DiskFull(f"There is no room left on the disk for {path}; nothing was written.") from error
        raise Refused(f"{path} cannot be written: {_reason(error)}.") from error


def _is_database(path: Path) -> bool:
    with path.open("rb") as file:
        return file.read(len(_DATABASE)) == _DATABASE


def _write(path: Path, raw: bytes) -> None:
    handle, name = tempfile.mkstemp(prefix=f".{path.name[:40]}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
            file.flush()
            os.fsync(file.fileno())
        Path(name).replace(path)
    except BaseException:
        with contextlib.suppress(OSError):
            Path(name).unlink()
        raise
    _sync_folder(path.parent)


def _sync_folder(folder: Path) -> None:
    """Make the new name itself last through a power cut; platforms without folder handles do without."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def _reason(error: OSError | ValueError) -> str:
    return (error.strerror or str(error)).lower() if isinstance(error, OSError) else str(error)
