"""The window that opens where there are no records yet: it asks what to do, and who the firm is."""

import os
from collections.abc import Callable
from datetime import date
from pathlib import Path

from textual import work
from textual.app import App

from store.errors import Problem
from store.trade.firm import FirmDraft
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.open_or_make import FirstStep, OpenOrMake
from tui.ending import end_on_signals
from tui.theme import THEMES, theme_for

FirstAnswer = FirstStep | FirmDraft
"""What came of it: leave, look at the made-up firm, or make records for this firm."""


class FirstWindow(App[FirstAnswer]):
    """Asks for the first step and, to make records, for the firm; answers when it closes.

    Args:
        path: where the records would be made.
        said: why there are none, in a sentence.
        today: the day it is.
        check: what the shop finds wrong with the firm's settings.
        only_firm: the records are there but have no firm yet: ask for the firm at once.
    """

    CSS_PATH = "app.tcss"
    TITLE = "Layday"
    ENABLE_COMMAND_PALETTE = False

    def __init__(
        self,
        *,
        path: Path,
        said: str,
        today: date,
        check: Callable[[FirmDraft], tuple[Problem, ...]],
        only_firm: bool = False,
    ) -> None:
        super().__init__()
        self._path, self._said, self._today, self._check, self._only_firm = path, said, today, check, only_firm
        for theme in THEMES:
            self.register_theme(theme)
        self.theme = theme_for(os.environ.get("NO_COLOR"))

    def on_mount(self) -> None:
        end_on_signals(lambda status: self.exit(FirstStep.LEAVE, status))
        self._ask()

    @work
    async def _ask(self) -> None:
        """Ask until it is clear what to do; a form that is left leads back to the question before it."""
        while True:
            if not self._only_firm:
                step = await self.push_screen_wait(OpenOrMake(path=self._path, said=self._said))
                if step is not FirstStep.MAKE:
                    self.exit(step)
                    return
            draft = await self.push_screen_wait(FirmForm(today=self._today, check=self._check))
            if draft is not None:
                self.exit(draft)
                return
            if self._only_firm:
                self.exit(FirstStep.LEAVE)
                return
