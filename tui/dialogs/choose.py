"""Asks for one of a list, which is filtered as one types."""

from collections.abc import Sequence
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical

from tui.dialogs.helped import Helped
from tui.widgets.choices import Option
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line

_MOST_ROWS = 12


class Choose(Helped[str | None]):
    """Asks, and answers the value of the row that Enter was pressed on; None when it is left.

    Args:
        question: one sentence that ends with a question mark.
        label: what the rows are: “Job”.
        options: the values and the words shown for them, at least one.
        start: the value that the cursor stands on at first.
    """

    DEFAULT_CSS = """
    Choose { align: center middle; }
    Choose > Vertical { width: 72; max-width: 100%; height: auto; max-height: 100%; padding: 0 1;
                        background: $surface; border: round $border; }
    Choose .choose--question { text-style: bold; color: $text-accent; margin: 0 0 1 0; }
    Choose FilterList { max-height: 100%; }
    Choose .choose--keys { color: $text-muted; text-align: right; }
    """
    CALLED: ClassVar[str] = "choosing from a list"
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Arrow keys move the cursor; / and a few letters leave the lines that hold them.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape", "leave", "Cancel", key_display="Esc")]
    AUTO_FOCUS = "DataTable"

    def __init__(self, question: str, *, label: str, options: Sequence[Option], start: str = "") -> None:
        super().__init__()
        self._question, self._label, self._start = question, label, start
        self._options = tuple(options)

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._question, classes="choose--question")
            rows = FilterList([Column(label=self._label)], noun="to choose from", empty="There is nothing to choose.")
            # The heading and the count take a row each, and the filter one once it is asked for.
            rows.styles.height = min(len(self._options), _MOST_ROWS) + 3
            yield rows
            yield Line("Enter chooses · / filters · ? helps · Esc cancels", classes="choose--keys")

    def on_mount(self) -> None:
        rows = self.query_one(FilterList)
        rows.fill([Row(key=value, cells=(words,)) for value, words in self._options])
        if self._start:
            rows.choose(self._start)

    @on(FilterList.Opened)
    def _chosen(self, event: FilterList.Opened) -> None:
        event.stop()
        self.dismiss(event.key)

    def action_leave(self) -> None:
        self.dismiss(None)
