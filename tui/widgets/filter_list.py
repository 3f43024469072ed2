"""A list that is searched as one types, without regard to accents; the cursor stays on its row."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import DataTable, Input

from tui.widgets.one_line import OneLine
from tui.widgets.rows import Column, Row, folded
from tui.widgets.safe import Line, cell
from tui.words.wording import clean

WIDE_FROM = 100


class FilterList(Vertical):
    """Rows to go through, filter with “/” and open with Enter.

    Args:
        columns: the columns, in order.
        noun: what the rows are, for the count: “12 of 340 jobs”.
        empty: what to say while there is no row: what the list is for, and the key that adds the first.
    """

    MOST_SHOWN: ClassVar[int] = 1_000
    DEFAULT_CSS = """
    FilterList { height: 1fr; }
    FilterList > OneLine { display: none; background: $panel; }
    FilterList.-filtering > OneLine { display: block; }
    FilterList > DataTable { height: 1fr; background: $surface; }
    FilterList > .filter-list--empty { display: none; height: 1fr; padding: 1 2; color: $foreground; }
    FilterList.-empty > DataTable { display: none; }
    FilterList.-empty > .filter-list--empty { display: block; }
    FilterList > .filter-list--count { height: 1; color: $text-muted; text-align: right; padding: 0 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("slash", "filter", "Filter", id="list.filter"),
        Binding("escape", "clear_filter", "All rows", show=False, id="list.all"),
    ]

    @dataclass
    class Chosen(Message):
        """The cursor stands on this row now; None where there is no row."""

        rows: "FilterList"
        key: str | None

        @property
        def control(self) -> "FilterList":
            return self.rows

    @dataclass
    class Opened(Message):
        """Enter was pressed on this row, or it was clicked twice."""

        rows: "FilterList"
        key: str

        @property
        def control(self) -> "FilterList":
            return self.rows

    def __init__(
        self,
        columns: Sequence[Column],
        *,
        noun: str,
        empty: str,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__(id=id)
        self._columns = tuple(columns)
        self._noun = noun
        self._empty = empty
        self._rows: tuple[Row, ...] = ()
        self._chosen: str | None = None
        self._laid_out_for = -1

    def compose(self) -> ComposeResult:
        # Hidden, it could still be given the cursor when a form closes over an empty list, and swallow what is typed.
        line = OneLine(placeholder="Type to filter; Enter goes to the list, Esc shows all")
        line.disabled = True
        yield line
        yield DataTable[Text](cursor_type="row", zebra_stripes=False)
        yield Line(self._empty, classes="filter-list--empty")
        yield Line("", classes="filter-list--count")

    @property
    def table(self) -> DataTable[Text]:
        """The table itself, to be focused."""
        return self.query_one(DataTable)

    @property
    def chosen(self) -> str | None:
        """The key of the row the cursor stands on."""
        return self._chosen

    @property
    def filter_text(self) -> str:
        """What the rows are filtered by."""
        return self.query_one(OneLine).value

    def fill(self, rows: Sequence[Row]) -> None:
        """Show these rows; the cursor stays on the row of the same key if there still is one."""
        self._rows = tuple(rows)
        if self._laid_out_for > 0:
            self._refill()

    def choose(self, key: str) -> None:
        """Put the cursor on the row of this key, if it is shown."""
        self._chosen = key
        if self._laid_out_for > 0:
            self._refill()

    def focus_list(self) -> None:
        """Put the cursor into the list."""
        self.table.focus()

    def on_resize(self, event: events.Resize) -> None:
        if event.size.width != self._laid_out_for and event.size.width > 0:
            self._laid_out_for = event.size.width
            self._refill()

    def _shown_columns(self) -> list[tuple[int, Column]]:
        wide = self._laid_out_for >= WIDE_FROM
        return [(place, one) for place, one in enumerate(self._columns) if wide or not one.only_wide]

    def _refill(self) -> None:
        wanted = folded(clean(self.filter_text)).split()
        found = [row for row in self._rows if all(word in row.words for word in wanted)] if wanted else self._rows
        columns = self._shown_columns()
        left = self._laid_out_for - 2 - sum(one.width for _, one in columns) - 2 * len(columns)
        sharing = sum(1 for _, one in columns if one.width == 0)
        table = self.table
        table.clear(columns=True)
        for _, one in columns:
            width = one.width or max(left // max(sharing, 1), 8)
            table.add_column(cell(one.label), width=width)
        shown = found[: self.MOST_SHOWN]
        for row in shown:
            cells = (row.cells[place] for place, _ in columns)
            table.add_row(*(cell(one) if isinstance(one, str) else one for one in cells), key=row.key)
        self._say_count(len(found))
        self._put_cursor(shown)

    def _put_cursor(self, shown: Sequence[Row]) -> None:
        keys = [row.key for row in shown]
        at = keys.index(self._chosen) if self._chosen in keys else 0
        if keys:
            self.table.move_cursor(row=at, animate=False)
        self._tell(keys[at] if keys else None)
        # A list that was empty could not hold the cursor; the first row brings it back.
        if keys and self.screen.is_current and self.screen.focused is None:
            self.table.focus()

    def _tell(self, key: str | None) -> None:
        if key != self._chosen:
            self._chosen = key
            self.post_message(self.Chosen(self, key))

    def _say_count(self, found: int) -> None:
        total = len(self._rows)
        self.set_class(total == 0, "-empty")
        self.table.disabled = total == 0
        say = f"{total:,} {self._noun.removesuffix('s') if total == 1 else self._noun}"
        if self.filter_text:
            say = f"{found:,} of {say}" if found else f"Nothing like “{self.filter_text}” in {say}; Esc shows all"
        if found > self.MOST_SHOWN:
            say += f", the first {self.MOST_SHOWN:,} shown; narrow them with /"
        self.query_one(".filter-list--count", Line).say(say if total else "")

    def action_filter(self) -> None:
        """Open the line to filter by."""
        self.add_class("-filtering")
        line = self.query_one(OneLine)
        line.disabled = False
        line.focus()

    def action_clear_filter(self) -> None:
        """Show all rows again."""
        line = self.query_one(OneLine)
        line.value = ""
        self.remove_class("-filtering")
        self.table.focus()
        line.disabled = True

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "clear_filter":
            return self.has_class("-filtering")
        if action == "filter":
            return bool(self._rows)
        return True

    @on(Input.Changed)
    def _filtered(self, event: Input.Changed) -> None:
        event.stop()
        if self._laid_out_for > 0:
            self._refill()

    @on(Input.Submitted)
    def _to_the_list(self, event: Input.Submitted) -> None:
        event.stop()
        self.table.focus()

    @on(OneLine.PasteRefused)
    def _refused(self, event: OneLine.PasteRefused) -> None:
        event.stop()
        self.query_one(".filter-list--count", Line).say(event.say)

    @on(DataTable.RowHighlighted)
    def _moved(self, event: DataTable.RowHighlighted) -> None:
        event.stop()
        if self.table.is_valid_row_index(event.cursor_row) and event.cursor_row == self.table.cursor_row:
            self._tell(event.row_key.value)

    @on(DataTable.RowSelected)
    def _opened(self, event: DataTable.RowSelected) -> None:
        event.stop()
        if event.row_key.value is not None:
            self.post_message(self.Opened(self, event.row_key.value))
