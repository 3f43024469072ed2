"""How one room is laid: the floor drawn row by row, what it comes to, and a search for ever better lays."""

from typing import ClassVar

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll

from store.desk.desk import Desk
from store.errors import Refused
from store.trade.gaps import known_wood, wall_gap
from store.trade.jobs import Room
from store.trade.layout.cuts import RowOfCuts, rows_of_cuts
from store.trade.layout.lay import Lay
from store.trade.plans import Plan, shape_of
from store.trade.products import Board
from store.trade.wishes import LayWishes, room_with, shape_with, usual_wishes, wishes_of
from tui.errands.lay_errands import LayErrands
from tui.lay_search import Ended, Found, LaySearch
from tui.telling import or_tell, tell
from tui.view import View
from tui.widgets.facts import Facts
from tui.widgets.lay_drawing import LayDrawing
from tui.widgets.safe import Line
from tui.words.lays import say_row
from tui.words.wishes import facts_of_lay, say_on_file
from tui.words.wording import clean, counted

_WIDE_FROM = 110
NO_LAY = "No lay yet."


class _Figures(Facts):
    LABEL_WIDTH = 12


class LayScreen(View):
    """The lay of one room of a job.

    The plan on file is shown where there is one that fits; else a search begins. It runs in a thread, and every better
    lay is drawn as it is found. Esc ends a search and keeps the best lay so far.

    Args:
        desk: where everything is asked and done.
        ref: the job's reference.
        room_name: the room.
    """

    TEACHES: ClassVar[tuple[str, ...]] = (
        "Up and down choose a row; what is cut for it stands below. Rows run from left to right, and a board's near "
        "end is its left one. Pieces with dots are cut; letters tell pieces of one board apart.",
        "“Proved best” means that no lay takes fewer boards. Esc ends a search and keeps the best lay so far.",
    )
    DEFAULT_CSS = """
    LayScreen .lay--head { height: 1; padding: 0 1; text-wrap: nowrap; text-overflow: ellipsis; }
    LayScreen .lay--state { height: auto; padding: 0 1; color: $text-secondary; }
    LayScreen .lay--state.-no { color: $text-error; }
    LayScreen .lay--floor { height: 1fr; }
    LayScreen .lay--figures { width: 36; padding: 0 0 0 1; scrollbar-size-vertical: 1; }
    LayScreen.-wide .lay--figures { width: 48; }
    LayScreen .lay--row { height: auto; max-height: 5; padding: 0 1; border-top: solid $border-blurred; }
    LayScreen Facts { height: auto; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "change", "Change", id="lay.change"),
        Binding("s", "save", "Save", id="lay.save"),
        Binding("w", "what_if", "What if", id="lay.what_if"),
        Binding("l", "line", "Line through", id="lay.line"),
        Binding("x", "write_out", "Write out", id="lay.write_out"),
        Binding("escape", "back", "Back", key_display="Esc", id="lay.back"),
    ]

    def __init__(self, desk: Desk, ref: str, room_name: str) -> None:
        super().__init__(desk)
        self.ref, self.room_name = ref, room_name
        self._errands = LayErrands(self)
        self._room: Room | None = None
        self._shape = ""
        self._wishes: LayWishes | None = None
        self._lay: Lay | None = None
        self._rows: tuple[RowOfCuts, ...] = ()
        self._search = LaySearch(self)

    @property
    def words(self) -> str:
        return f"the lay of {clean(self.room_name)}"

    @property
    def is_searching(self) -> bool:
        """Whether a search is going on."""
        return self._search.is_going_on

    def parts(self) -> ComposeResult:
        yield Line("", classes="lay--head")
        yield Line("", classes="lay--state")
        with Horizontal(classes="lay--floor"):
            yield LayDrawing()
            with VerticalScroll(classes="lay--figures", can_focus=False):
                yield _Figures()
        with Vertical(classes="lay--row"):
            yield Line("", id="row")

    def on_mount(self) -> None:
        self.query_one(LayDrawing).focus()

    def on_resize(self, event: events.Resize) -> None:
        super().on_resize(event)
        self.set_class(event.size.width >= _WIDE_FROM, "-wide")
        self.call_after_refresh(self._say_scale)

    def _say_scale(self) -> None:
        # A window too small for anything takes the cursor away; it comes back with the room.
        if self.focused is None and self.app.screen is self:
            self.query_one(LayDrawing).focus()
        if self._lay is not None and not self.is_searching:
            self._say_state()

    def again(self) -> None:
        card = self.desk.jobs.card(self.ref)
        room = next((one for one in card.facts.rooms if one.name == self.room_name), None)
        if room is None:
            raise Refused(f"The job has no room “{clean(self.room_name)}” any more.")
        board = self._errands.boards().get(room.board)
        plan = self.desk.plans.current(self.ref, self.room_name)
        self.query_one(".lay--head", Line).say(f"{clean(self.ref)} · {clean(room.name)} · {card.facts.job.title}")
        is_other = board is not None and (self._room is None or not self._is_same(room))
        self._room = room
        if is_other and board is not None:
            self._begin(room, board, plan)
        self._show_figures(plan)

    def _is_same(self, room: Room) -> bool:
        """Whether a room has the same floor as the one that is shown; board, direction and start are wishes."""
        before = self._room
        shapes = [(one.outline, one.cut_outs, one.gap_mm) for one in (before, room) if one is not None]
        return len(shapes) == 2 and shapes[0] == shapes[1]

    def _begin(self, room: Room, board: Board, plan: Plan | None) -> None:
        if plan is not None:
            self._wishes, self._lay = wishes_of(plan, room), plan.lay
            self._show_lay()
        else:
            self._wishes = usual_wishes(room, board)
            self._search_again()

    def _search_again(self) -> None:
        room, wishes = self._room, self._wishes
        board = self._errands.boards().get(wishes.board) if wishes else None
        if room is None or wishes is None or board is None:
            return
        self._lay = None
        laid = room_with(room, wishes)
        self._search.begin(lambda: self.desk.plans.search(laid, board, wishes.rules, wishes.seed))
        self._show_lay()

    @on(Found)
    def _found(self, event: Found) -> None:
        event.stop()
        if not self._search.takes(event):
            return
        if self._lay is not event.attempt.lay:
            self._lay = event.attempt.lay
            self._show_lay()
            self._show_figures(self.desk.plans.current(self.ref, self.room_name))
        self._say_state()

    @on(Ended)
    def _ended(self, event: Ended) -> None:
        event.stop()
        if self._search.ends(event):
            self._say_state(event.say)

    def _say_state(self, no: str = "") -> None:
        line = self.query_one(".lay--state", Line)
        line.set_class(bool(no), "-no")
        if no:
            line.say(f"✗ {no}")
        elif self.is_searching:
            best = f"; best so far {counted(self._lay.boards, 'board')}" if self._lay else ""
            line.say(f"◐ Searching, {self._search.percent:.0f} %{best}. Esc keeps the best.")
        else:
            scale = self.query_one(LayDrawing).scale_words
            line.say(f"✓ {counted(self._lay.boards, 'board')} · {scale}" if self._lay else NO_LAY)
        self.refresh_bindings()

    def _show_lay(self) -> None:
        lay, wishes = self._lay, self._wishes
        self._rows = rows_of_cuts(lay, wishes.rules.kerf_mm) if lay and wishes else ()
        edges, width = (lay.row_edges_mm, lay.board.width_mm) if lay else ((), 1)
        self.query_one(LayDrawing).show(self._rows, edges, width)
        self._show_row(self.query_one(LayDrawing).chosen)
        self._say_state()

    def _show_figures(self, plan: Plan | None) -> None:
        if self._room is None or self._wishes is None:
            return
        lay, wishes = self._lay, self._wishes
        board = self._errands.boards().get(wishes.board)
        shape = shape_of(room_with(self._room, wishes), board) if board else ""
        facts = self._facts(self._room, wishes, board, lay) if lay and board else []
        on_file = say_on_file(plan, lay, shape, self.clock)
        self.query_one(Facts).show([*facts, ("On file", on_file)], heading="What it comes to")

    @staticmethod
    def _facts(room: Room, wishes: LayWishes, board: Board, lay: Lay) -> list[tuple[str, str]]:
        edges = [edge for row in lay.row_edges_mm for edge in row]
        gap = wall_gap(
            across_mm=max(edges) - min(edges) + 2 * room.gap_mm,
            method=room.method.value,
            gap_mm=room.gap_mm,
            species=known_wood(board.species),
        )
        return facts_of_lay(shape_with(room, wishes), lay, wishes, gap, room.doorways)

    @on(LayDrawing.Chosen)
    def _row_chosen(self, event: LayDrawing.Chosen) -> None:
        event.stop()
        self._show_row(event.row)
        if not self.is_searching:
            self._say_state()

    def _show_row(self, row: int) -> None:
        said = say_row(self._rows[row], self._wishes.rules) if self._wishes and row < len(self._rows) else ""
        self.query_one("#row", Line).say(said or "Better lays are drawn as they are found.")

    def action_back(self) -> None:
        """End a search and keep its best lay; else go back to the folder."""
        if not self.is_searching:
            self.app.pop_screen()
            return
        self._search.end()
        self._say_state("" if self._lay else "Nothing was found yet. e changes the rules, and searches again.")

    def on_unmount(self) -> None:
        self._search.end()

    @work(group="errand")
    async def action_change(self) -> None:
        """Change how the room is laid, and search again."""
        if self._room is None or self._wishes is None:
            return
        wishes = await self._errands.change(self._room, self._wishes, self._lay)
        if wishes is None:
            return
        before, self._wishes = self._wishes, wishes
        if before.searched_by != wishes.searched_by or self._lay is None:
            self._search_again()
        self.ask_again()

    @work(group="errand")
    async def action_save(self) -> None:
        """File this lay as the room's plan."""
        if self._ready() and self._room and self._wishes and self._lay:
            save = self._errands.save(self.ref, self._room, self._wishes, self._lay)
            await or_tell(self.app, save, False)
            self.ask_again()

    @work(group="errand")
    async def action_what_if(self) -> None:
        """Compare other ways, and take one over."""
        if self._ready() and self._room and self._wishes:
            taken = await self._errands.compare(self._room, self._wishes)
            if taken is not None:
                self._wishes, self._lay = taken
                self._show_lay()
                self.ask_again()

    @work(group="errand")
    async def action_line(self) -> None:
        """Let the rows run on from the next room, through the doorway between them."""
        if self._ready() and self._room and self._wishes:
            taken = await or_tell(self.app, self._errands.line_from_next_room(self.ref, self._room, self._wishes), None)
            if taken is not None:
                self._wishes = taken
                self._search_again()
                self.ask_again()

    @work(group="errand")
    async def action_write_out(self) -> None:
        """Write the cut list and the drawing into a folder."""
        if self._ready() and self._room and self._wishes and self._lay:
            await self._errands.write_out(self.ref, self._room, self._wishes, self._lay)

    def _ready(self) -> bool:
        if self.is_searching or self._lay is None:
            tell(self.app, "Wait for the search, or end it with Esc; then this works.", "warning")
            return False
        return True
