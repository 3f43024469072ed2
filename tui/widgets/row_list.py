"""Rows of a form of which there can be more: the last line adds another."""

from collections.abc import Callable

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.widgets import Button

from tui.widgets.row_field import RowField, RowHeading
from tui.widgets.safe import plain


class RowList(Vertical):
    """A heading, the rows, and a button for one more row.

    Args:
        words: the headings of the answers.
        widths: their widths in cells; 0 takes a share of the rest.
        rows: the rows to begin with.
        more: makes the row of a number, counted from 0.
        add: the words of the button.
    """

    DEFAULT_CSS = """
    RowList { height: auto; margin: 1 0 0 0; }
    RowList > Button { margin: 0; }
    """

    def __init__(
        self,
        words: tuple[str, ...],
        widths: tuple[int, ...],
        rows: list[RowField],
        more: Callable[[int], RowField],
        add: str,
    ) -> None:
        super().__init__()
        self._words, self._widths = words, widths
        self._first_rows, self._more, self._add_words = rows, more, add

    def compose(self) -> ComposeResult:
        yield RowHeading(self._words, self._widths)
        yield from self._first_rows
        yield Button(plain(f"+ {self._add_words}"), id="add-row", compact=True)

    @property
    def rows(self) -> list[RowField]:
        """The rows as they stand."""
        return list(self.query(RowField))

    async def add(self, row: RowField | None = None) -> None:
        """Add a row at the end and put the cursor into it."""
        new = row or self._more(len(self.rows))
        await self.mount(new, before=self.query_one("#add-row"))
        new.focus_answer()
        new.scroll_visible(animate=False)

    @on(Button.Pressed, "#add-row")
    async def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        await self.add()
