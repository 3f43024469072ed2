"""Shows one line on file whole, with everything there is to say about it."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen

from tui.widgets.safe import Line
from tui.widgets.signed_lines import Said, SignedLines


class WholeLine(ModalScreen[None]):
    """Words to be read; Esc and Enter close it."""

    DEFAULT_CSS = """
    WholeLine { align: center middle; }
    WholeLine > Vertical { width: 72; max-width: 100%; height: auto; max-height: 100%; padding: 0 1;
                           background: $surface; border: round $border; }
    WholeLine .whole--title { text-style: bold; color: $text-accent; margin: 0 0 1 0; }
    WholeLine VerticalScroll { height: auto; scrollbar-size-vertical: 1; }
    WholeLine .whole--end { color: $text-muted; margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q", "close", "Close")]

    def __init__(self, title: str, lines: Sequence[Said]) -> None:
        super().__init__()
        self._title, self._lines = title, tuple(lines)

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._title, classes="whole--title")
            with VerticalScroll():
                yield SignedLines(self._lines)
            yield Line("Esc closes this.", classes="whole--end")

    def on_mount(self) -> None:
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        self.query_one(VerticalScroll).styles.max_height = max(self.size.height - 6, 2)

    def action_close(self) -> None:
        self.dismiss(None)
