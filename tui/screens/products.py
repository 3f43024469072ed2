"""The products: boards, glues and materials, each with its maker's sheet."""

from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Container

from store.desk.desk import Desk
from store.trade.products import Board, Product
from tui.doors import ViewName
from tui.errands.desk_errands import DeskErrands
from tui.view import View
from tui.widgets.facts import Facts
from tui.widgets.fitted_list import FitCell, FitColumn, FitRow, FittedList
from tui.words.buying import THINGS
from tui.words.products import say_figures, sheet_of
from tui.words.vocabulary import PRODUCT_KINDS
from tui.words.wording import clean, say_money

_PRICE_WIDTH = 12
_COLUMNS = (
    FitColumn(label="Code", most=16),
    FitColumn(label="Name", gives=True),
    FitColumn(label="Figures", most=30),
    FitColumn(label="Price".rjust(_PRICE_WIDTH)),
)
_EMPTY = (
    "No board and no glue is on file yet.\n\n"
    "Press n to add the first: a board with its sizes, its pack and its wait in the room, a glue with its open "
    "time, or a material such as primer, film or skirting. Take the figures from the maker's sheet.\n\n"
    "Rooms of a job name them by their code; the packs needed, the wait and the dates follow from what stands here."
)


class ProductsScreen(View):
    """Shows what the firm buys, and the sheet of the one the cursor is on."""

    NAME: ClassVar[ViewName | None] = ViewName.PRODUCTS
    TEACHES: ClassVar[tuple[str, ...]] = (
        "A maker's own range of room air goes before the firm's; where the sheet has none, the firm's holds.",
        "o lists what the open jobs still have to order, by supplier, the most urgent first; Enter orders it. s holds "
        "the suppliers: how long they take, and on what terms they take packs back.",
        "A material is what is bought beside boards and glue. Once one is on file, a job's list to buy (n in its "
        "folder) reckons with its size, its rate and its price, and o offers to order it.",
        "Polyurethane glue holds isocyanates: gloves, fresh air, and the training your local rules ask for. "
        "What the safety sheet on the tub says goes before this.",
    )
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (100, "-wide")]  # noqa: RUF012 - Textual reads it from the class
    DEFAULT_CSS = """
    ProductsScreen #products { height: 1fr; }
    ProductsScreen Facts { padding: 0 1; background: $panel; }
    ProductsScreen.-wide #products { layout: horizontal; }
    ProductsScreen.-wide FittedList { width: 1fr; }
    ProductsScreen.-wide Facts { width: 44; height: 1fr; padding: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "add", "New product", id="products.new"),
        Binding("e", "change", "Change", id="products.change"),
        Binding("o", "to_order", "To order", id="products.to_order", tooltip="What the open jobs still have to order"),
        Binding(
            "s",
            "suppliers",
            "Suppliers",
            show=False,
            id="products.suppliers",
            tooltip="Whom you buy from, on what terms",
        ),
    ]

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.errands = DeskErrands(self)
        self._products: dict[str, Product] = {}

    def on_mount(self) -> None:
        self.query_one(FittedList).focus_list()

    def parts(self) -> ComposeResult:
        with Container(id="products"):
            yield FittedList(_COLUMNS, noun="products", empty=_EMPTY)
            yield Facts()

    def again(self) -> None:
        self._firm = self.desk.firm.card()
        self._products = {one.code: one for one in self.desk.products.all()}
        ordered = sorted(self._products.values(), key=lambda one: (one.kind, one.code))
        self.query_one(FittedList).show_rows([self._row(one) for one in ordered])
        self._show_chosen()
        self.refresh_bindings()

    def _row(self, one: Product) -> FitRow:
        price = say_money(one.price_minor, self._firm.currency) if one.price_minor else "–"
        words = (one.code, one.name, say_figures(one), price.rjust(_PRICE_WIDTH))
        what = f"{one.species} {one.build}" if isinstance(one, Board) else THINGS[one.thing]
        return FitRow(
            key=one.code,
            cells=tuple(FitCell(parts=(word,)) for word in words),
            found_by=f"{PRODUCT_KINDS[one.kind]} {what}",
        )

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return bool(self._products) if action == "change" else super().check_action(action, parameters)

    @property
    def _chosen(self) -> Product | None:
        return self._products.get(self.query_one(FittedList).chosen or "")

    def _show_chosen(self) -> None:
        one, facts = self._chosen, self.query_one(Facts)
        facts.display = one is not None
        if one is not None:
            facts.show(sheet_of(one, self._firm), heading=clean(one.code))

    @on(FittedList.Chosen)
    def _line_chosen(self, event: FittedList.Chosen) -> None:
        event.stop()
        self._show_chosen()

    @on(FittedList.Opened)
    def _line_opened(self, event: FittedList.Opened) -> None:
        event.stop()
        self.action_change()

    @work
    async def action_add(self) -> None:
        """Put a board, a glue or a material on file."""
        code = await self.errands.add_product()
        if code is not None:
            self.query_one(FittedList).choose(code)
            self.query_one(FittedList).focus_list()
            self._show_chosen()

    @work
    async def action_change(self) -> None:
        """Change the sheet of the chosen product."""
        product = self._chosen
        if product is not None:
            await self.errands.change_product(product)

    @work
    async def action_to_order(self) -> None:
        """Show what is still to be ordered, by supplier, and order it."""
        line = await self.errands.choose_to_order()
        if line is not None:
            await self.errands.order(line)

    @work
    async def action_suppliers(self) -> None:
        """Look after the cards of those the firm buys from."""
        await self.errands.look_after_suppliers()
