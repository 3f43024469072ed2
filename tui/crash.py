"""Leaves a note of a break-down that says where in the program it was, and nothing of what is on file."""

import os
import tempfile
import traceback
from pathlib import Path

from tui.version import VERSION


def leave_note(error: BaseException, folder: Path | None) -> Path | None:
    """Write where the error came from, in a file that only its owner may read; None if that fails.

    The error's own words and its variables stay out: they may hold customers' names and numbers. Without a folder the
    note goes among the passing files, under a name that nobody else can have laid a link under.
    """
    where = "".join(traceback.format_tb(error.__traceback__))
    try:
        handle, note = _new_note() if folder is None else _note_in(folder)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(f"layday {VERSION}\n{type(error).__name__}\n{where}")
    except OSError:
        return None
    return note


def _new_note() -> tuple[int, Path]:
    handle, name = tempfile.mkstemp(prefix="layday-crash-", suffix=".log")
    return handle, Path(name)


def _note_in(folder: Path) -> tuple[int, Path]:
    note = folder / "layday-crash.log"
    follow_no_link = getattr(os, "O_NOFOLLOW", 0)  # a platform without it has no such links to fear
    return os.open(note, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | follow_no_link, 0o600), note
