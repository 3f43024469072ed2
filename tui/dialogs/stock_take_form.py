"""The form of a stock-take: what lies in the firm's unit, counted line by line against the file."""

from collections.abc import Iterable, Mapping, Sequence
from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widget import Widget

from store.desk.cards import StockLine
from store.trade.batches import look_alike
from store.trade.products import Board, Product
from store.trade.stock_take import CountedLine, StockTake, difference
from store.trade.things import ProductKind
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import beside_rows, product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.batch_row import BatchRow
from tui.widgets.choices import pick_of
from tui.widgets.count_row import WIDTH, CountRow
from tui.widgets.fields import Field, TextField
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField, RowHeading
from tui.widgets.safe import Line
from tui.words.stock import say_counted, say_counted_so_far, say_whose
from tui.words.wording import clean

_HEADINGS, _WIDTHS = ("", "Packs", "Boards", "By the file"), (28, WIDTH, WIDTH, 0)
_MORE_WIDTHS = (0, 16, WIDTH, WIDTH)


class StockTakeForm(Dialog[StockTake]):
    """Asks what lies in the unit, and why it differs from the file; answers a ``StockTake``.

    Args:
        lines: what should lie in the unit, free stock first.
        products: the products on file, at least one.
        batches: the batches on file, by product.
        clock: the firm's wall clock.
        check: what the shop finds wrong with what was counted.
    """

    DEFAULT_CSS = """
    StockTakeForm .take--so-far { margin: 1 0 0 0; }
    StockTakeForm .take--more { height: auto; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+n", "add_row", "Something the file does not know", id="dialog.add")
    ]

    def __init__(
        self,
        *,
        lines: Sequence[StockLine],
        products: Sequence[Product],
        batches: Mapping[str, Sequence[str]],
        clock: WallClock,
        check: Check[StockTake],
    ) -> None:
        super().__init__("Stock-take of the unit", lambda take: beside_rows(check(take), self._counted), save="Book")
        self._clock, self._products, self._batches = clock, tuple(products), batches
        self._per_pack = {one.code: one.boards_per_pack if isinstance(one, Board) else 1 for one in products}
        self._counted: list[str] = []
        self._rows = [(one, self._row(number, one)) for number, one in enumerate(lines)]
        self._more = Vertical(classes="take--more")
        self._so_far = Line("", classes="muted take--so-far")
        self._why = TextField(
            "why", "Why it differs", hint="Like Lent to another firm, or Behind the door; one reason for all."
        )

    def _row(self, number: int, one: StockLine) -> CountRow:
        loose = not one.job_ref and one.kind is ProductKind.BOARD
        hint = f"{clean(one.product_name)}: write what lies there, 0 for none."
        return CountRow(f"lines.{number}", f"{one.product} {one.batch}".strip(), loose=loose, hint=hint)

    def questions(self) -> Iterable[Widget]:
        if self._rows:
            yield RowHeading(_HEADINGS, _WIDTHS)
        whose = None
        for one, row in self._rows:
            if one.job_ref != whose:
                whose = one.job_ref
                yield Line(say_whose(one), classes="muted")
            yield row
        if not self._rows:
            yield Line("By the file nothing lies in the unit; Ctrl+N adds a line for what does.", classes="muted")
        yield self._more
        yield self._so_far
        yield self._why
        yield Line(
            "A line left empty is not counted. Ctrl+N adds what the file does not know, as free stock.",
            classes="muted note",
        )

    def on_mount(self) -> None:
        super().on_mount()
        self._look()

    @on(Field.Changed)
    def _look(self) -> None:
        """Say beside each line by how much it differs, and below how far the count has come."""
        counted, differ = 0, 0
        for one, row in self._rows:
            line = self._line_typed(one, row)
            found = difference(line, self._per_pack[one.product], self._clock.now, "") if line else None
            counted += line is not None
            differ += found is not None
            row.tell(say_counted(one, found, is_counted=line is not None), differs=found is not None)
        for new in self._more.query(BatchRow):
            new.look()
        added = len([row for row in self._more.query(BatchRow) if _is_filled(row)])
        self._so_far.say(say_counted_so_far(counted, len(self._rows), differ, added))

    def _line_typed(self, one: StockLine, row: CountRow) -> CountedLine | None:
        """What was counted as far as it can be read; None where it cannot, or nothing was typed."""
        packs, boards = (_typed(row, name) for name in ("packs", "boards"))
        return None if row.is_blank or packs is None or boards is None else self._line(one, packs, boards)

    def _line(self, one: StockLine, packs: int, boards: int) -> CountedLine:
        filed = one.packs * self._per_pack[one.product] + one.boards
        return CountedLine(
            product=one.product, batch=one.batch, job_ref=one.job_ref, packs=packs, boards=boards, filed=filed
        )

    async def action_add_row(self) -> None:
        """Add a line for something that the file does not know."""
        rows = self._more.query(BatchRow)
        if not rows:
            await self._more.mount(RowHeading(("Product", "Batch", "Packs", "Boards"), _MORE_WIDTHS))
        row = BatchRow(
            f"lines.{len(self._rows) + len(rows)}",
            "",
            {
                "product": pick_of(product_options(self._products)),
                "batch": OneLine(),
                "packs": OneLine(),
                "boards": OneLine(),
            },
            _MORE_WIDTHS,
            like=self._look_alike,
            hint="The batch stands on the pack. What the file does not know is free stock.",
        )
        await self._more.mount(row)
        row.focus_answer()
        row.scroll_visible(animate=False)

    def _look_alike(self, row: BatchRow) -> str:
        """The batch on file that a new line's batch looks like."""
        return look_alike(row.part("batch").strip(), self._batches.get(row.part("product"), ()))

    def fill_in(self, slip: Slip) -> StockTake:
        self._counted = []
        lines = []
        for one, row in self._rows:
            if not row.is_blank:
                self._counted.append(row.key)
                lines.append(self._line(one, _number(slip, row, "packs"), _number(slip, row, "boards")))
        for new in self._more.query(BatchRow):
            if _is_filled(new):
                self._counted.append(new.key)
                lines.append(self._new_line(slip, new))
        return StockTake(lines=tuple(lines), why=slip.read_if_given(self._why, read_text) or "")

    def _new_line(self, slip: Slip, row: BatchRow) -> CountedLine:
        if row.unanswered:
            slip.wrong(f"{row.key}.same", "Say whether it is the same batch: yes or no, just below.")
        return CountedLine(
            product=row.part("product"),
            batch=slip.read_part(row, "batch", read_text, ""),
            job_ref="",
            packs=_number(slip, row, "packs"),
            boards=_number(slip, row, "boards"),
            filed=0,
        )


def _is_filled(row: BatchRow) -> bool:
    return any(row.part(name).strip() for name in ("batch", "packs", "boards"))


def _typed(row: RowField, name: str) -> int | None:
    """A number as typed, 0 for none; None where it cannot be read or counted."""
    read = read_whole(row.part(name)) if name in row.parts and row.part(name).strip() else 0
    return None if isinstance(read, Misread) or read < 0 else read


def _number(slip: Slip, row: RowField, name: str) -> int:
    if name not in row.parts or not row.part(name).strip():
        return 0
    number = slip.read_part(row, name, read_whole, 0)
    if number < 0:
        slip.wrong(f"{row.key}.{name}", "A count is 0 or more; where nothing lies, write 0.")
    return max(0, number)
