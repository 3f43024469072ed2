"""The form for what a supplier confirms: how many packs of each product come, on which day, and at what price."""

from collections.abc import Iterable, Sequence
from datetime import date
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.products import Product
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import beside_rows, moment_field, product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_money, read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import pick_of
from tui.widgets.fields import TextField
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField
from tui.widgets.row_list import RowList
from tui.widgets.safe import Line
from tui.words.wording import typed_day, typed_money

_WIDTHS = (0, 7, 13, 11)


class ConfirmForm(Dialog[ConfirmationDraft]):
    """Asks what a supplier confirms of an order; answers a ``ConfirmationDraft``.

    Args:
        what: the order in words.
        lines: what is known to come so far, to begin with.
        products: the products of the order.
        clock: the firm's wall clock.
        currency: in which the prices are.
        check: what the shop finds wrong with it.
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+n", "add_row", "Add a line", id="dialog.add")]

    def __init__(
        self,
        *,
        what: str,
        lines: Sequence[ConfirmedLine],
        products: Sequence[Product],
        clock: WallClock,
        currency: str,
        check: Check[ConfirmationDraft],
    ) -> None:
        super().__init__("What the supplier confirms", lambda draft: beside_rows(check(draft), self._filled_rows()))
        self._what, self._clock, self._currency, self._products = what, clock, currency, tuple(products)
        self._number = TextField("number", "Their number", "", hint="As it stands on the confirmation; may stay empty.")
        self._at = moment_field("at", "Confirmed at", clock)
        rows = [self._row(number, line) for number, line in enumerate(lines)]
        words = ("Product", "Packs", "Come on", "Price each")
        self._lines = RowList(words, _WIDTHS, rows, self._row, "A part that comes later (Ctrl+N)")

    def _row(self, number: int, line: ConfirmedLine | None = None) -> RowField:
        price = "" if line is None or line.price_minor is None else typed_money(line.price_minor, self._currency)
        return RowField(
            f"lines.{number}",
            "",
            {
                "product": pick_of(product_options(self._products), line.product if line else ""),
                "packs": OneLine(str(line.packs) if line else ""),
                "due_on": OneLine(typed_day(line.due_on) if line and line.due_on else ""),
                "price_minor": OneLine(price),
            },
            _WIDTHS,
            hint="0 packs: they send none. A day like 12/12, fri or +7. A part held back is a second line.",
        )

    def questions(self) -> Iterable[Widget]:
        yield Line(self._what, classes="note")
        yield self._number
        yield self._at
        yield self._lines
        yield Line("Fewer packs than ordered: the rest never comes, and the job asks for it again.", classes="note")

    async def action_add_row(self) -> None:
        """Add a line for a part that comes later."""
        await self._lines.add()

    def _filled_rows(self) -> list[str]:
        return [row.key for row in self._lines.rows if row.part("packs").strip()]

    def _read_price(self, text: str) -> int | Misread | None:
        return read_money(text, self._currency) if text.strip() else None

    def _read_day(self, text: str) -> date | Misread | None:
        return self._clock.read_day(text) if text.strip() else None

    def fill_in(self, slip: Slip) -> ConfirmationDraft:
        lines = [
            ConfirmedLine(
                product=row.part("product"),
                packs=slip.read_part(row, "packs", read_whole, 0),
                due_on=slip.read_part(row, "due_on", self._read_day, None),
                price_minor=slip.read_part(row, "price_minor", self._read_price, None),
            )
            for row in self._lines.rows
            if row.part("packs").strip()
        ]
        return ConfirmationDraft(
            at=slip.read(self._at, self._clock.read, self._clock.now),
            lines=tuple(lines),
            number=slip.read(self._number, read_text, ""),
        )
