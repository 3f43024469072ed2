"""Opens the screens: on the firm's records, on new ones, or on a throw-away copy of the made-up firm."""

import argparse
import sys

from tui.app import LaydayApp
from tui.commands import desk_for


def run_screens(asked: argparse.Namespace) -> int:
    """Open the screens; returns the exit status."""
    with desk_for(asked) as desk:
        app = LaydayApp(desk, crash_folder=desk.path.parent)
        app.run()
    if app.crash_note is not None:
        sys.stderr.write(f"Layday broke off; all that was saved is safe. What happened is noted in {app.crash_note}.\n")
    return app.return_code or 0
