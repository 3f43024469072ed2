"""Opens the screens: on the firm's records, on new ones, or on a throw-away copy of the made-up firm."""

import argparse
import sys
from pathlib import Path

from store.desk.clock import wall_clock
from store.desk.desk import Desk, open_desk
from store.desk.keeping import copies_of
from store.errors import NoStore, StoreError
from store.trade.firm import FirmDraft, problems_with_firm
from tui.app import LaydayApp
from tui.command.commands import desk_for, records_path
from tui.dialogs.open_or_make import FirstStep
from tui.first_window import FirstAnswer, FirstWindow
from tui.words.wording import clean, say_now

DEMO_NOTE = "Made-up firm: try anything, nothing is kept."
FIRST_STEPS = (
    "The records are made. First put a board and a glue on file (4, then n), "
    "then take on a job (2, then n); its folder says what comes next."
)


def run_screens(asked: argparse.Namespace) -> int:
    """Open the screens; returns the exit status.

    Where there are no records yet, asks first whether to make them. Records that cannot be opened for any other
    reason are left as they are.

    Raises:
        StoreError: the records cannot be opened; the sentence says why.
    """
    if asked.demo or asked.at is not None:
        return _show(asked)
    try:
        with desk_for(asked) as desk:
            if desk.firm.is_set_up():
                return _show_desk(desk, desk.path.parent, greeting=_keep_a_copy(desk))
            answer, status = _ask_first(desk.path, "These records have no firm yet.", only_firm=True)
            if not isinstance(answer, FirmDraft):
                return status
            desk.firm.set_up(answer)
            return _show_desk(desk, desk.path.parent, greeting=FIRST_STEPS)
    except NoStore as error:
        return _begin(asked, error)


def _begin(asked: argparse.Namespace, error: NoStore) -> int:
    """Ask what to do where there are no records, and do it."""
    path = records_path(asked)
    answer, status = _ask_first(path, _say_none(path, error))
    if answer is FirstStep.DEMO:
        return _show(argparse.Namespace(**{**vars(asked), "demo": True, "file": None}))
    if not isinstance(answer, FirmDraft):
        return status
    with open_desk(path, who=asked.who or "", create=True) as desk:
        # Another window may have been quicker; its firm stands.
        if not desk.firm.is_set_up():
            desk.firm.set_up(answer)
        return _show_desk(desk, desk.path.parent, greeting=FIRST_STEPS)


def _say_none(path: Path, error: NoStore) -> str:
    """Say why there are no records, and where copies of lost ones lie; empty if nothing ever was there."""
    try:
        kept = copies_of(path)
    except StoreError:
        kept = ()
    if not kept:
        return str(error) if path.exists() else ""
    return (
        f"{error} But there is a copy of records that lay here: {kept[0].path}. "
        f"To have them again, leave and type: layday restore {kept[0].path}"
    )


def _ask_first(path: Path, said: str, *, only_firm: bool = False) -> tuple[FirstAnswer | None, int]:
    window = FirstWindow(
        path=path, said=clean(said), today=wall_clock().astimezone().date(), check=problems_with_firm,
        only_firm=only_firm,
    )  # fmt: skip
    answer = window.run()
    return answer, window.return_code or 0


def _show(asked: argparse.Namespace) -> int:
    with desk_for(asked) as desk:
        note = DEMO_NOTE if asked.demo else ""
        # What is written beside the made-up firm's records is thrown away with them.
        crash_folder = None if asked.demo else desk.path.parent
        if asked.at is not None:
            note = f"{note} Looking at {say_now(desk.now(), desk.zone())}: nothing can be changed.".strip()
        return _show_desk(desk, crash_folder, note=note)


def _show_desk(desk: Desk, crash_folder: Path | None, *, note: str = "", greeting: str = "") -> int:
    desk.firm.sit_down_again()
    app = LaydayApp(desk, crash_folder=crash_folder, note=note, greeting=greeting)
    app.run()
    if app.crash_note is not None:
        noted = clean(str(app.crash_note))
        sys.stderr.write(f"Layday broke off; all that was saved is safe. What happened is noted in {noted}.\n")
    return app.return_code or 0


def _keep_a_copy(desk: Desk) -> str:
    """Keep a copy if something changed; return what went wrong, in a sentence, if anything did."""
    try:
        desk.keeping.copy_if_changed()
    except StoreError as error:
        return f"No copy of the records could be kept this time. {error}"
    return ""
