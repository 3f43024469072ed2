"""Files and folders that only their owner can read, and that appear whole or not at all."""

import errno
import os
import secrets
from pathlib import Path

from store.errors import Refused

PRIVATE_FILE = 0o600
PRIVATE_FOLDER = 0o700

_NO_LINKS_HERE = frozenset({errno.EPERM, errno.EOPNOTSUPP, errno.ENOTSUP, errno.ENOSYS, errno.EMLINK})


def make_private_file(path: Path) -> None:
    """Make an empty file that nobody else can read from its first moment; FileExistsError if there is one."""
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE_FILE))
    _give_owner(path, PRIVATE_FILE)


def make_private_folder(folder: Path) -> None:
    """Make a folder, and those missing above it, for their owner only; leave what is there as it is."""
    if folder.is_dir():
        return
    make_private_folder(folder.parent)
    folder.mkdir(mode=PRIVATE_FOLDER, exist_ok=True)
    _give_owner(folder, PRIVATE_FOLDER)


def _give_owner(path: Path, rights: int) -> None:
    # A strict umask can have taken the owner's own; a memory stick has none to give, and is not asked.
    if path.stat().st_mode & rights != rights:
        path.chmod(rights)


def passing_name(target: Path) -> Path:
    """Return a name beside a file for it to be made under, that no other window will think of."""
    return target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")


def free_name(wanted: Path) -> Path:
    """Return the wanted name, or the first with a number behind it that is not taken."""
    name, number = wanted, 1
    while os.path.lexists(name):
        number += 1
        name = wanted.with_name(f"{wanted.stem}-{number}{wanted.suffix}")
    return name


def journal_of(path: Path) -> Path:
    """Return where SQLite keeps the journal of a file."""
    return path.with_name(path.name + "-journal")


def discard(passing: Path) -> None:
    """Remove a file made under a passing name, and its journal, if they are there."""
    passing.unlink(missing_ok=True)
    journal_of(passing).unlink(missing_ok=True)


def put_in_place(passing: Path, target: Path) -> None:
    """Give a finished file its name, in one step, and only if that name is free.

    Raises:
        Refused: there is something of that name, which was left as it is.
    """
    give_second_name(passing, target)
    passing.unlink(missing_ok=True)
    sync_folder(target.parent)


def give_second_name(path: Path, other: Path) -> None:
    """Make a file known under a free name; where the disk knows no links, the first name goes."""
    try:
        os.link(path, other)
    except FileExistsError as error:
        raise Refused(f"There is a file {other} already; it was left as it is.") from error
    except OSError as error:
        if error.errno not in _NO_LINKS_HERE:
            raise
        if os.path.lexists(other):
            raise Refused(f"There is a file {other} already; it was left as it is.") from error
        path.rename(other)


def sync_file(path: Path) -> None:
    """Have a file's bytes on the disk itself; never for a file this process has open as a database."""
    _sync(path, os.O_RDWR)


def sync_folder(folder: Path) -> None:
    """Have a folder's names on the disk itself."""
    if os.name != "nt":  # Windows opens no folders, and writes names down by itself
        _sync(folder, os.O_RDONLY)


def _sync(path: Path, flags: int) -> None:
    handle = os.open(path, flags)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
