"""The stock: what lies where, of every product and batch."""

from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.reactive import reactive

from store.desk.cards import StockLine
from store.desk.desk import Desk
from store.desk.shelves import by_place, stock_sum
from tui.doors import OpenJob, ViewName
from tui.errands.desk_errands import DeskErrands
from tui.telling import tell
from tui.view import View
from tui.widgets.fitted_list import FitCell, FitColumn, FitRow, FittedList
from tui.widgets.safe import Line
from tui.words.orders import say_credits_due
from tui.words.stock import GONE, say_age, say_batch, say_full, say_line, say_sum, say_use_by, say_where
from tui.words.wording import say_money

_BY_PRODUCT, _BY_PLACE = "stock-by-product", "stock-by-place"
_PACKS_WIDTH, _LOOSE_WIDTH, _WORTH_WIDTH = 7, 5, 13
_JOB = (FitColumn(label="Job", most=16, once=True), FitColumn(label="What for", gives=True, only_wide=True))
_AS_OFTEN = tuple(replace(one, once=False) for one in _JOB)
_WHERE = FitColumn(label="Where", gives=True)
_PRODUCT = FitColumn(label="Product", most=16)
_BATCH = FitColumn(label="Batch", most=26, keeps=True)
_AMOUNT = (
    FitColumn(label="Packs".rjust(_PACKS_WIDTH)),
    FitColumn(label="Loose".rjust(_LOOSE_WIDTH)),
    FitColumn(label="Use by", only_wide=True),
    FitColumn(label="Worth".rjust(_WORTH_WIDTH), only_wide=True),
)
_EMPTY = (
    "Nothing lies anywhere yet.\n\n"
    "This list fills by itself. Open a job (2, then Enter) and press i to take in a delivery: its packs lie here by "
    "product and batch, in the room or in the unit where they were put.\n\n"
    "What is counted back to the unit after a job lies here as free stock, and c carries it to the next one."
)


class StockScreen(View):
    """Shows packs by product and batch or by place, what they are worth, and carries them."""

    NAME: ClassVar[ViewName | None] = ViewName.STOCK
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Every pack lies somewhere: in the unit (free, or kept for a job), in a room, opened, set aside.",
        "t counts what lies in the unit against the file, and books what was found or is missing; x takes a line back.",
        "o shows the credits that suppliers still owe for what went back or came damaged, of closed jobs too.",
        "s shows the spare boards that closed jobs left with their customers, and hides them again.",
        "Boards of two batches can differ in colour. A job that has more than one of a board is marked ▲.",
    )
    DEFAULT_CSS = f"""
    StockScreen #{_BY_PLACE} {{ display: none; }}
    StockScreen.-by-place #{_BY_PLACE} {{ display: block; }}
    StockScreen.-by-place #{_BY_PRODUCT} {{ display: none; }}
    StockScreen .stock--line {{ height: 3; padding: 0 1; background: $panel; }}
    StockScreen .stock--due {{ height: 1; padding: 0 1; color: $text-warning; }}
    StockScreen .stock--sum {{ height: 1; padding: 0 1; color: $text-accent; }}
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("c", "carry", "Carry", id="stock.carry"),
        Binding("t", "count_unit", "Stock-take", id="stock.count"),
        Binding("o", "follow_credits", "Credits", id="stock.credits", show=False),
        Binding("s", "turn_spares", "Spares", id="stock.spares", show=False),
        Binding("x", "take_back", "Take back", id="stock.take_back", show=False),
        Binding("v", "turn", "By place", id="stock.by_place"),
        Binding("v", "turn_back", "By product", id="stock.by_product"),
    ]
    by_place: reactive[bool] = reactive(False, init=False)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.errands = DeskErrands(self)
        self._lines: dict[str, StockLine] = {}
        self._spares = False

    def parts(self) -> ComposeResult:
        by_product = (replace(_PRODUCT, once=True), _BATCH, _WHERE, *_AS_OFTEN, *_AMOUNT)
        yield FittedList(by_product, noun="lines by product", empty=_EMPTY, id=_BY_PRODUCT)
        by_place = (*_JOB, _WHERE, _PRODUCT, _BATCH, *_AMOUNT)
        yield FittedList(by_place, noun="lines by place", empty=_EMPTY, id=_BY_PLACE)
        yield Line("", classes="stock--line")
        yield Line("", classes="stock--sum")
        yield Line("", classes="stock--due")

    def on_mount(self) -> None:
        self._shown.focus_list()

    def again(self) -> None:
        self._lines = {_key(one): one for one in self.desk.packs.stock(spares=self._spares) if one.place not in GONE}
        # Asked once and not for every row: each asking reads the firm's card.
        self._currency, self._today = self.desk.firm.card().currency, self.clock.today
        self._fill_shown()
        sums = stock_sum(self._lines.values(), self._today)
        self.query_one(".stock--sum", Line).say(say_sum(sums, self._currency) if self._lines else "")
        due = say_credits_due(self.desk.orders.credits_due(), self._currency)
        line = self.query_one(".stock--due", Line)
        line.display = bool(due)
        line.say(f"{due}; o follows them" if due else "")
        self._show_chosen()

    def _fill_shown(self) -> None:
        """Fill the list that is shown; the other one is filled once it is turned to."""
        lines = by_place(self._lines.values()) if self.by_place else self._lines.values()
        self._shown.show_rows([self._row(one, by_place=self.by_place) for one in lines])

    def _row(self, one: StockLine, *, by_place: bool) -> FitRow:
        product = FitCell(parts=(one.product,))
        batch = FitCell(parts=say_batch(one), tone="warn" if one.batches > 1 else "")
        where = FitCell(parts=(say_where(one),))
        job = (FitCell(parts=(one.job_ref or "–",)), FitCell(parts=(one.job_title or "–",), tone="muted"))
        loose = f"{one.boards:,}".replace("-", "−") if one.boards else ""
        use_by = say_use_by(one, self._today)
        amount = (
            FitCell(parts=(say_full(one).rjust(_PACKS_WIDTH),)),
            FitCell(parts=(loose.rjust(_LOOSE_WIDTH),)),
            FitCell(parts=(use_by,), tone="warn" if use_by.startswith(("▲", "✗")) else ""),
            FitCell(parts=(say_money(one.worth_minor, self._currency).rjust(_WORTH_WIDTH),)),
        )
        cells = (*job, where, product, batch, *amount) if by_place else (product, batch, where, *job, *amount)
        return FitRow(key=_key(one), cells=cells, found_by=f"{one.product_name} {one.job_title}")

    def _list(self, name: str) -> FittedList:
        return self.query_one(f"#{name}", FittedList)

    @property
    def _shown(self) -> FittedList:
        return self._list(_BY_PLACE if self.by_place else _BY_PRODUCT)

    @property
    def _chosen(self) -> StockLine | None:
        return self._lines.get(self._shown.chosen or "")

    def _show_chosen(self) -> None:
        line, shown = self._chosen, self.query_one(".stock--line", Line)
        shown.display = bool(self._lines)
        age = say_age(line, self._today, self.desk.zone()) if line else ""
        shown.say(say_line(line, self._currency) + age if line else "")

    def watch_by_place(self) -> None:
        self.set_class(self.by_place, "-by-place")
        other = self._list(_BY_PRODUCT if self.by_place else _BY_PLACE)
        self._fill_shown()
        if other.chosen:
            self._shown.choose(other.chosen)
        self._shown.focus_list()
        self._show_chosen()
        self.refresh_bindings()

    def action_turn(self) -> None:
        """Show the lines place by place."""
        self.by_place = True

    def action_turn_back(self) -> None:
        """Show the lines product by product."""
        self.by_place = False

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in {"turn", "turn_back"}:
            return self.by_place is (action == "turn_back")
        return True

    @on(FittedList.Chosen)
    def _line_chosen(self, event: FittedList.Chosen) -> None:
        event.stop()
        self._show_chosen()

    @on(FittedList.Opened)
    def _line_opened(self, event: FittedList.Opened) -> None:
        event.stop()
        line = self._lines.get(event.key)
        if line and line.job_ref:
            self.post_message(OpenJob(line.job_ref))
        elif line:
            tell(self.app, "Free stock belongs to no job; c carries it to one.")

    @work
    async def action_carry(self) -> None:
        """Carry packs of the chosen line to another place."""
        await self.errands.carry(self._chosen)

    @work
    async def action_count_unit(self) -> None:
        """Count what lies in the unit against the file."""
        await self.errands.count_unit()

    def action_turn_spares(self) -> None:
        """Show what closed jobs left with their customers, or hide it again."""
        self._spares = not self._spares
        self.ask_again()
        shown = "shown" if self._spares else "hidden"
        tell(self.app, f"Spares with the customers of closed jobs are {shown}; s turns that round.")

    @work
    async def action_follow_credits(self) -> None:
        """Show the credits that are still to come."""
        await self.errands.follow_credits()

    @work
    async def action_take_back(self) -> None:
        """Take back a line of a stock-take."""
        await self.errands.take_back_stock()


def _key(one: StockLine) -> str:
    return "\n".join((one.product, one.batch, one.place, one.room, one.job_ref))
