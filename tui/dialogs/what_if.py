"""Ways to lay a room side by side: each is searched in turn, and one can be taken over."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import DataTable, Footer
from textual.worker import get_current_worker

from store.errors import StoreError
from store.trade.layout.lay import Attempt, Lay
from store.trade.ways import Way
from store.trade.wishes import LayWishes
from tui.dialogs.helped import Helped
from tui.widgets.safe import Line, cell
from tui.words.wishes import say_way_tried
from tui.words.wording import figure

Taken = tuple[LayWishes, Lay]
_COLUMNS = (
    ("Way", 20),
    ("Rows", 5),
    ("First", 6),
    ("Last", 5),
    ("Narrow", 7),
    ("Boards", 7),
    ("Best?", 9),
    ("Packs", 6),
    ("Loss", 7),
)


class _Ways(DataTable[Text]):
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "select_cursor", "Take this one", key_display="Enter", id="what.take"),
    ]


class WhatIf(Helped[Taken | None]):
    """Shows what other ways come to; answers the one that is taken over, or None.

    Args:
        title: whose ways they are.
        ways: the ways, the present one first.
        search: searches the lays of one way; runs in a thread.
        packs: how many packs a lay takes by its wishes, with what is brought beyond it.
        narrowest: how narrow a lay's rows are at their narrowest wall, mm.
    """

    DEFAULT_CSS = """
    WhatIf { align: center middle; }
    WhatIf > Vertical { width: 78; max-width: 100%; height: 1fr; padding: 0 1; background: $surface;
                        border: round $border; margin: 0 0 1 0; }
    WhatIf .what--title { text-style: bold; color: $text-accent; }
    WhatIf .what--state { color: $text-muted; height: auto; }
    WhatIf DataTable { height: 1fr; margin: 1 0 0 0; }
    """
    CALLED: ClassVar[str] = "other ways to lay a room"
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Each line is another way to lay the room, searched one after the other.",
        "Enter takes one over; nothing is filed by it.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "leave", "Back", key_display="Esc", id="what.leave"),
    ]

    @dataclass
    class Laid(Message):
        """One way is searched: its best lay, or the sentence that says why there is none."""

        place: int
        lay: Lay | None
        say: str = ""

    def __init__(
        self,
        title: str,
        *,
        ways: Sequence[Way],
        search: Callable[[LayWishes], Iterator[Attempt]],
        packs: Callable[[LayWishes, Lay], int],
        narrowest: Callable[[LayWishes, Lay], float],
    ) -> None:
        super().__init__()
        self._title, self._ways = title, tuple(ways)
        self._search, self._packs, self._narrowest = search, packs, narrowest
        self._lays: dict[int, Lay] = {}
        self._known = 0

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._title, classes="what--title")
            yield _Ways(cursor_type="row", cell_padding=0)
            yield Line("", classes="what--state")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        table = self.query_one(DataTable)
        for words, width in _COLUMNS:
            table.add_column(cell(words, right=words != "Way"), width=width, key=words)
        for place, way in enumerate(self._ways):
            table.add_row(cell(say_way_tried(way)), *(cell("·", right=True) for _ in _COLUMNS[1:]), key=str(place))
        table.focus()
        self._say_state()
        self._go_through()

    @work(thread=True, exclusive=True, group="what-if")
    def _go_through(self) -> None:
        worker = get_current_worker()
        for place, way in enumerate(self._ways):
            best: Lay | None = None
            say = ""
            try:
                for attempt in self._search(way.wishes):
                    if worker.is_cancelled:
                        return
                    best = attempt.lay
            except StoreError as error:
                say = str(error)
            self.post_message(self.Laid(place, best, say))

    @on(Laid)
    def _laid(self, event: Laid) -> None:
        event.stop()
        self._known += 1
        table, row = self.query_one(DataTable), str(event.place)
        if event.lay is None:
            table.update_cell(row, "Best?", cell("none", right=True))
            table.update_cell(row, "Way", cell(f"{say_way_tried(self._ways[event.place])} ✗"))
        else:
            self._lays[event.place] = event.lay
            for (words, _), value in zip(_COLUMNS[1:], self._values(event.place, event.lay), strict=True):
                table.update_cell(row, words, cell(value, right=True))
        self._say_state(event.say)

    def _values(self, place: int, lay: Lay) -> tuple[str, ...]:
        first, last = (lay.row_edges_mm[row][1] - lay.row_edges_mm[row][0] for row in (0, -1))
        away = lay.boards - lay.least_boards
        return (
            str(lay.rows),
            str(first),
            str(last),
            figure(self._narrowest(self._ways[place].wishes, lay), 0),
            str(lay.boards),
            f"≤ {away} off" if away else "✓ best",
            self._say_packs(place, lay),
            f"{figure(lay.cut_loss_percent, 1)} %",
        )

    def _say_packs(self, place: int, lay: Lay) -> str:
        try:
            return str(self._packs(self._ways[place].wishes, lay))
        except StoreError:
            return "–"

    def _say_state(self, say: str = "") -> None:
        said = f"✗ {say}\n" if say else ""
        left = len(self._ways) - self._known
        going = (
            f"◐ Searching; {left} to come. Enter takes over a way that is done." if left else "Enter takes one over."
        )
        self.query_one(".what--state", Line).say(f"{said}{going} Narrow: at any wall. Packs: with culls and spare.")

    @on(DataTable.RowSelected)
    def _selected(self, event: DataTable.RowSelected) -> None:
        event.stop()
        self.action_take()

    def action_take(self) -> None:
        """Take over the way the cursor stands on, if it is done."""
        place = self.query_one(DataTable).cursor_row
        if place in self._lays:
            self.dismiss((self._ways[place].wishes, self._lays[place]))
        else:
            self._say_state("That way is not searched yet, or has no lay.")

    def action_leave(self) -> None:
        """Leave everything as it is."""
        self.dismiss(None)
