"""Leaves a note of a break-down that says where in the program it was, and nothing of what is on file."""

import os
import tempfile
import traceback
from pathlib import Path

from tui.version import VERSION


def leave_note(error: BaseException, folder: Path | None) -> Path | None:
    """Write where the error came from, in a file that only its owner may read; None if that fails.

    The error's own words and its variables stay out: they may hold customers' names and numbers.
    """
    note = (folder or Path(tempfile.gettempdir())) / "layday-crash.log"
    where = "".join(traceback.format_tb(error.__traceback__))
    try:
        handle = os.open(note, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write(f"layday {VERSION}\n{type(error).__name__}\n{where}")
    except OSError:
        return None
    return note
