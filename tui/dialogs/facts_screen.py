"""Shows facts and is closed again: what a look at the records found."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen

from tui.widgets.facts import Facts
from tui.widgets.safe import Line


class FactsScreen(ModalScreen[None]):
    """Shows a title and facts below it."""

    DEFAULT_CSS = """
    FactsScreen { align: center middle; }
    FactsScreen > Vertical { width: 78; max-width: 100%; height: auto; max-height: 100%; padding: 0 1;
                             background: $surface; border: round $border; }
    FactsScreen .facts--title { text-style: bold; color: $text-accent; margin: 0 0 1 0; }
    FactsScreen VerticalScroll { height: auto; }
    FactsScreen .facts--end { color: $text-muted; margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,enter,q", "close", "Close")]

    def __init__(self, title: str, facts: Sequence[tuple[str, str]]) -> None:
        super().__init__()
        self._title, self._facts = title, tuple(facts)

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._title, classes="facts--title")
            with VerticalScroll():
                yield Facts()
            yield Line("Esc closes this.", classes="facts--end")

    def on_mount(self) -> None:
        self.query_one(Facts).show(self._facts)
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        self.query_one(VerticalScroll).styles.max_height = max(self.size.height - 6, 2)

    def action_close(self) -> None:
        self.dismiss(None)
