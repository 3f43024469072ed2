"""A list whose columns take the room that their words need, and in which no word is cut in two."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.cells import cell_len
from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.widgets import DataTable

from tui.widgets.filter_list import WIDE_FROM, FilterList
from tui.widgets.fitting import fit_parts, share_out
from tui.widgets.rows import Row, folded
from tui.widgets.safe import cell
from tui.words.wording import clean

_GAP = 2
_AT_EDGES = 3
"""A space before the first column, and two cells for the bar that scrolls."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitColumn:
    """A column of a fitted list, at most ``most`` cells wide.

    ``gives``: it is cut short where there is too little room. ``keeps``: the first part of its cells is not, and
    the others show where there is room to spare. ``only_wide``: it is for wide windows alone. ``once``: words that
    are those of the row above are not said again.
    """

    label: str = ""
    most: int = 60
    gives: bool = False
    keeps: bool = False
    only_wide: bool = False
    once: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FitCell:
    """The words of a cell, as parts of falling weight, and the tone of their colour: ok, wait, warn or muted."""

    parts: tuple[str, ...]
    tone: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitRow:
    """A row: the key it is known by, a cell for each column, and further words that the filter finds it by."""

    key: str
    cells: tuple[FitCell, ...]
    found_by: str = ""

    @property
    def words(self) -> str:
        """What the filter looks through."""
        return folded(" ".join((self.found_by, *(part for one in self.cells for part in one.parts))))


class _Rows(DataTable[Text]):
    """A table of whole rows: Home and End go to the first and last, and the footer says what Enter does."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "select_cursor", "Open", key_display="Enter", id="list.open"),
        Binding("home", "scroll_top", "First row", show=False),
        Binding("end", "scroll_bottom", "Last row", show=False),
    ]


class FittedList(FilterList):
    """A filter list that lays its columns out anew for every width.

    Args:
        columns: the columns, in order.
        noun: what the rows are, for the count.
        empty: what to say while there is no row.
        headed: whether the columns' names stand above them.
    """

    MOST_SHOWN: ClassVar[int] = 400
    DEFAULT_CSS = """
    FittedList > OneLine { padding: 0 1 !important; }
    FittedList > DataTable { overflow-x: hidden; }
    FittedList .fitted--ok { color: $text-success; }
    FittedList .fitted--wait { color: $text-secondary; }
    FittedList .fitted--warn { color: $text-warning; }
    FittedList .fitted--bad { color: $text-error; }
    FittedList .fitted--accent { color: $text-accent; }
    FittedList .fitted--muted { color: $text-muted; }
    """
    COMPONENT_CLASSES = {  # noqa: RUF012 - Textual reads it from the class
        "fitted--ok",
        "fitted--wait",
        "fitted--warn",
        "fitted--bad",
        "fitted--accent",
        "fitted--muted",
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "clear_filter", "All rows", key_display="Esc", id="list.all"),
    ]

    def __init__(
        self,
        columns: Sequence[FitColumn],
        *,
        noun: str,
        empty: str,
        headed: bool = True,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__((), noun=noun, empty=empty, id=id)
        self._fit_columns = tuple(columns)
        self._headed = headed
        self._shown_rows: tuple[FitRow, ...] | None = None
        self._found: tuple[tuple[str, FitRow], ...] = ()
        self._wants: list[int] = []
        self._needs: list[int] = []

    def compose(self) -> ComposeResult:
        for part in super().compose():
            yield _Rows(cursor_type="row") if isinstance(part, DataTable) else part

    def on_mount(self) -> None:
        self.table.cell_padding = 0
        self.table.show_header = self._headed
        self.app.theme_changed_signal.subscribe(self, lambda _theme: self.call_later(self._colour_again))

    def show_rows(self, rows: Sequence[FitRow]) -> None:
        """Show these rows; the cursor stays on the row of the same key if there still is one."""
        if tuple(rows) == self._shown_rows:
            return
        self._shown_rows = tuple(rows)
        self._found = tuple((row.words, row) for row in rows)
        places = range(len(self._fit_columns))
        self._wants = [self._wanted(place, rows) for place in places]
        self._needs = [self._wanted(place, rows, first=self._fit_columns[place].keeps) for place in places]
        self.fill([Row(key=row.key, cells=()) for row in rows])

    def _wanted(self, place: int, rows: Sequence[FitRow], *, first: bool = False) -> int:
        column = self._fit_columns[place]
        said = (row.cells[place].parts[:1] if first else row.cells[place].parts for row in rows)
        widest = max((cell_len(clean(" · ".join(parts))) for parts in said), default=0)
        return max(min(widest, column.most), cell_len(column.label) if self._headed else 0)

    def _widths(self) -> dict[int, int]:
        """The columns that are shown, each with its width, the gap after it included but for the last."""
        wide = self._laid_out_for >= WIDE_FROM
        shown = [place for place, one in enumerate(self._fit_columns) if wide or not one.only_wide]
        left = self._laid_out_for - _AT_EDGES - _GAP * (len(shown) - 1)
        giving = [place for place in shown if self._fit_columns[place].gives]
        widths = {place: 0 if place in giving else self._needs[place] for place in shown}
        shares = share_out(left - sum(widths.values()), [self._wants[place] for place in giving])
        widths |= dict(zip(giving, shares, strict=True))
        for place in sorted(shown, key=lambda place: not self._fit_columns[place].keeps):
            spare = left - sum(widths.values())
            widths[place] += max(min(spare, self._wants[place] - widths[place]), 0)
        widths[shown[-1]] += max(left - sum(widths.values()), 0)
        return {place: width + (_GAP if place != shown[-1] else 0) for place, width in widths.items()}

    def _refill(self) -> None:
        wanted = folded(clean(self.filter_text)).split()
        found = [row for words, row in self._found if all(one in words for one in wanted)]
        shown = found[: self.MOST_SHOWN]
        widths = self._widths() if self._wants else {}
        scrolled_to = self.table.scroll_y
        self.table.clear(columns=True)
        for place, width in widths.items():
            lead = " " if place == 0 else ""
            self.table.add_column(cell(lead + self._fit_columns[place].label), width=width + len(lead))
        above: FitRow | None = None
        for row in shown:
            said = self._said(row, above, widths)
            self.table.add_row(*(cell(words, style) for words, style in said), key=row.key)
            above = row
        self._say_count(len(found))
        self._put_cursor([Row(key=row.key, cells=()) for row in shown])
        self.table.scroll_to(y=scrolled_to, animate=False)

    def _said(self, row: FitRow, above: FitRow | None, widths: dict[int, int]) -> list[tuple[str, str]]:
        """The words of each cell that is shown, and their style."""
        said: list[tuple[str, str]] = []
        last = max(widths, default=-1)
        for place, width in widths.items():
            one = row.cells[place]
            again = self._fit_columns[place].once and above is not None and above.cells[place].parts == one.parts
            words = "" if again else fit_parts(one.parts, width - (0 if place == last else _GAP))
            said.append((f" {words}" if place == 0 else words, self._style_of(one.tone)))
        return said

    def _style_of(self, tone: str) -> str:
        return str(self.get_component_rich_style(f"fitted--{tone}", partial=True)) if tone else ""

    def _colour_again(self) -> None:
        if self._laid_out_for > 0:
            self._refill()
