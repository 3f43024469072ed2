"""Opens the screens without a terminal: stands in for both windows, and notes how each was opened."""

import argparse
from collections.abc import Callable
from pathlib import Path

import pytest

from tui.app import LaydayApp
from tui.first_window import FirstAnswer, FirstWindow


def asked(path: Path | None = None, *, demo: bool = False, at: str | None = None) -> argparse.Namespace:
    return argparse.Namespace(file=str(path) if path else None, demo=demo, at=at, json=False, who=None, command=None)


class Opened:
    """Stands in for the two windows: notes how each was opened, and answers for the first."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.said: list[str] = []
        self.notes: list[str] = []
        self.greetings: list[str] = []
        self.firms: list[str] = []
        self.crash_folders: list[Path | None] = []
        self.answer: FirstAnswer | None = None
        monkeypatch.setattr(FirstWindow, "run", self._first)
        monkeypatch.setattr(LaydayApp, "run", self._screens)

    @property
    def _first(self) -> Callable[[FirstWindow], FirstAnswer | None]:
        def run(window: FirstWindow) -> FirstAnswer | None:
            self.said.append(window._said)
            return self.answer

        return run

    @property
    def _screens(self) -> Callable[[LaydayApp], None]:
        def run(app: LaydayApp) -> None:
            self.notes.append(app.sub_title)
            self.greetings.append(app._greeting)
            self.firms.append(app.desk.firm.card().name)
            self.crash_folders.append(app._crash_folder)

        return run
