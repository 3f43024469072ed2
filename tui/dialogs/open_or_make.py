"""What is asked when there are no records yet: make them, look at the made-up firm, or leave."""

from enum import StrEnum
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Button

from tui.widgets.safe import Line, plain


class FirstStep(StrEnum):
    """What to do where there are no records."""

    MAKE = "make"
    DEMO = "demo"
    LEAVE = "leave"


_WORDS = {
    FirstStep.MAKE: ("Make new records", "You are asked for the firm's name; the rest can wait."),
    FirstStep.DEMO: ("Look at a made-up firm", "A throw-away copy: nothing you do in it is kept."),
    FirstStep.LEAVE: ("Leave", "Nothing is made."),
}


class OpenOrMake(ModalScreen[FirstStep]):
    """Asks for the first step; Esc leaves.

    Args:
        path: where the records would be made.
        said: why they could not be opened, in a sentence; empty if there simply are none.
    """

    DEFAULT_CSS = """
    OpenOrMake { align: center middle; }
    OpenOrMake > Vertical { width: 72; max-width: 100%; height: auto; max-height: 100%; padding: 1 2;
                            background: $surface; border: round $border; overflow-y: auto; }
    OpenOrMake .open--title { text-style: bold; color: $text-accent; }
    OpenOrMake Line { margin: 0 0 1 0; }
    OpenOrMake Button { min-width: 0; }
    OpenOrMake .open--follows { color: $text-muted; padding: 0 0 0 2; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q", "leave", "Leave"),
        Binding("down", "app.focus_next", "Next", show=False),
        Binding("up", "app.focus_previous", "Previous", show=False),
    ]

    def __init__(self, *, path: Path, said: str = "") -> None:
        super().__init__()
        self._path, self._said = path, said

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line("Layday", classes="open--title")
            yield Line(self._said or "There are no records here yet.")
            yield Line(f"They would lie in {self._path}", classes="open--follows")
            for step, (words, follows) in _WORDS.items():
                yield Button(plain(words), id=step.value, compact=True)
                yield Line(follows, classes="open--follows")

    def on_mount(self) -> None:
        self.query_one(f"#{FirstStep.MAKE.value}", Button).focus()

    def action_leave(self) -> None:
        self.dismiss(FirstStep.LEAVE)

    @on(Button.Pressed)
    def _chosen(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(FirstStep(event.button.id or FirstStep.LEAVE))
