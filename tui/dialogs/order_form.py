"""The form for an order to a supplier."""

from collections.abc import Iterable, Sequence
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from store.trade.events import OrderDraft, OrderLine
from store.trade.products import Product
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import beside_rows, day_field, past_day_field, product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_money, read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import pick_of
from tui.widgets.fields import TextField
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField
from tui.widgets.row_list import RowList

_WIDTHS = (0, 14, 12)


class OrderForm(Dialog[OrderDraft]):
    """Asks what is ordered, when and for when; answers an ``OrderDraft``.

    Args:
        products: the products on file.
        suggested: what the job still needs, to begin with.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the order.
        supplier: the supplier to suggest.
        currency: in which prices are typed.
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+n", "add_row", "Add a line", id="dialog.add")]

    def __init__(
        self,
        *,
        products: Sequence[Product],
        suggested: Sequence[OrderLine],
        clock: WallClock,
        check: Check[OrderDraft],
        supplier: str = "",
        currency: str = "EUR",
    ) -> None:
        super().__init__("Put an order on file", lambda draft: beside_rows(check(draft), self._filled_rows()))
        self._clock, self._products, self._currency = clock, tuple(products), currency
        self._supplier = TextField("supplier", "Supplier", supplier, hint="May stay empty.")
        self._on = past_day_field("on", "Ordered on", clock, clock.today)
        self._due = day_field(
            "due_on", "Due on", clock, None, hint="Empty if the supplier gave no day; like +7 or fri."
        )
        self._freight = TextField("freight_minor", "Way here", "", hint=f"In {currency}, like 45.00; empty if none.")
        rows = [self._row(number, line) for number, line in enumerate(suggested)] or [self._row(0)]
        self._lines = RowList(("Product", "How many", "Price each"), _WIDTHS, rows, self._row, "Add a line (Ctrl+N)")

    def _row(self, number: int, line: OrderLine | None = None) -> RowField:
        return RowField(
            f"lines.{number}",
            "",
            {
                "product": pick_of(product_options(self._products), line.product if line else ""),
                "packs": OneLine(str(line.packs) if line else ""),
                "price_minor": OneLine(""),
            },
            _WIDTHS,
            hint="Whole packs, tubs, rolls, sticks. No number: left out. No price: as on the product's sheet.",
        )

    def questions(self) -> Iterable[Widget]:
        yield self._supplier
        yield self._on
        yield self._due
        yield self._lines
        yield self._freight

    async def action_add_row(self) -> None:
        """Add a line to the order."""
        await self._lines.add()

    def _read_freight(self, text: str) -> int | Misread:
        return read_money(text, self._currency)

    def _filled_rows(self) -> list[str]:
        return [row.key for row in self._lines.rows if row.part("packs").strip()]

    def _read_price(self, text: str) -> int | Misread | None:
        return read_money(text, self._currency) if text.strip() else None

    def fill_in(self, slip: Slip) -> OrderDraft:
        lines = [
            OrderLine(
                product=row.part("product"),
                packs=slip.read_part(row, "packs", read_whole, 1),
                price_minor=slip.read_part(row, "price_minor", self._read_price, None),
            )
            for row in self._lines.rows
            if row.part("packs").strip()
        ]
        if not lines:
            slip.wrong("lines", "Say how many packs of at least one product are ordered.")
        return OrderDraft(
            on=slip.read(self._on, self._clock.read_past_day, self._clock.today),
            due_on=slip.read_if_given(self._due, self._clock.read_day),
            lines=tuple(lines),
            supplier=slip.read(self._supplier, read_text, ""),
            freight_minor=slip.read_if_given(self._freight, self._read_freight) or 0,
        )
