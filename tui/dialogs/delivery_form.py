"""The form for a delivery: what came in, of which batch, and where it was put."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.widget import Widget

from store.trade.batches import look_alike, meeting
from store.trade.events import UNIT, DeliveryDraft, DeliveryLine, OrderLine, in_room
from store.trade.products import Product
from store.trade.things import GO_OFF, Thing
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import beside_rows, day_field, moment_field, product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.batch_row import BatchRow
from tui.widgets.choices import SelectField, pick_of
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField
from tui.widgets.row_list import RowList
from tui.widgets.safe import Line
from tui.words.batches import say_meeting
from tui.words.vocabulary import say_target

_WIDTHS = (0, 16, 8, 9)
NO_BATCHES: "Batches" = ({}, {})
Batches = tuple[Mapping[str, Sequence[str]], Mapping[tuple[str, str], Sequence[str]]]
"""The batches on file, by product; and those that lie in a room, by room and board."""


class DeliveryForm(Dialog[DeliveryDraft]):
    """Asks what came in; answers a ``DeliveryDraft``.

    Args:
        products: the products on file.
        expected: what open orders still wait for, to begin with.
        rooms: the names of the job's rooms.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the delivery.
        batches: the batches that are known, and where they lie.
    """

    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+n", "add_row", "Add a line", id="dialog.add")]

    def __init__(
        self,
        *,
        products: Sequence[Product],
        expected: Sequence[OrderLine],
        rooms: Sequence[str],
        clock: WallClock,
        check: Check[DeliveryDraft],
        batches: Batches = NO_BATCHES,
    ) -> None:
        super().__init__("Take in a delivery", lambda draft: beside_rows(check(draft), self._filled_rows()))
        self._clock, self._products = clock, tuple(products)
        self._on_file, self._lying = batches
        self._places = [*(in_room(room) for room in rooms), UNIT]
        self._at = moment_field("at", "Came in", clock)
        self._into = SelectField(
            "into",
            "Goes",
            [(str(number), say_target(place)) for number, place in enumerate(self._places)],
            hint="The boards' wait begins in their room; in the unit it does not run.",
        )
        rows: list[RowField] = [self._row(number, line) for number, line in enumerate(expected)] or [self._row(0)]
        headings = ("Product", "Batch", "How many", "Damaged")
        self._keeping = {one.code for one in products if one.thing in GO_OFF}
        self._boards = {one.code for one in products if one.thing is Thing.BOARDS}
        others = any(one.thing in GO_OFF and one.thing is not Thing.GLUE for one in products)
        hint = "The last day that stands on the tubs of glue; may stay empty."
        if others:
            hint = "The last day on tubs, cans and bags; if days differ, take each in on its own."
        self._use_by = day_field("use_by", "Use by" if others else "Glue use by", clock, None, hint=hint)
        self._lines = RowList(headings, _WIDTHS, rows, self._row, "Add a line (Ctrl+N)")
        self._meet = Line("", classes="caution note")
        self._meet.display = False

    def _row(self, number: int, line: OrderLine | None = None) -> BatchRow:
        return BatchRow(
            f"lines.{number}",
            "",
            {
                "product": pick_of(product_options(self._products), line.product if line else ""),
                "batch": OneLine(),
                "packs": OneLine(str(line.packs) if line else ""),
                "damaged_packs": OneLine("0" if line else ""),
            },
            _WIDTHS,
            like=self._look_alike,
            hint="The batch stands on the pack. Damaged packs are counted among the packs.",
        )

    def questions(self) -> Iterable[Widget]:
        yield self._at
        yield self._into
        yield self._lines
        yield self._meet
        if self._keeping:
            yield self._use_by

    def _rows_of(self, product: str) -> list[RowField]:
        return [row for row in self._lines.rows if row.part("product") == product and row.part("packs").strip()]

    def _look_alike(self, row: BatchRow) -> str:
        """The batch on file, or in a row above, that a row's batch looks like."""
        product, rows = row.part("product"), self._lines.rows
        above = [one.part("batch").strip() for one in rows[: rows.index(row)] if one.part("product") == product]
        return look_alike(row.part("batch").strip(), (*self._on_file.get(product, ()), *above))

    @on(Field.Changed)
    def _look(self) -> None:
        for row in self._lines.query(BatchRow):
            row.look()
        room = self._places[int(self._into.raw)].room
        meet = {
            code: meeting(self._lying.get((room, code), ()), [one.part("batch").strip() for one in self._rows_of(code)])
            for code in dict.fromkeys(row.part("product") for row in self._lines.rows)
            if code in self._boards
        }
        told = [say_meeting(code, batches, room) for code, batches in meet.items() if batches and room]
        self._meet.say(f"▲ {' '.join(told)}" if told else "")
        self._meet.display = bool(told)

    async def action_add_row(self) -> None:
        """Add a line to the delivery."""
        await self._lines.add()

    def _filled_rows(self) -> list[str]:
        return [row.key for row in self._lines.rows if row.part("packs").strip()]

    def fill_in(self, slip: Slip) -> DeliveryDraft:
        use_by = slip.read_if_given(self._use_by, self._clock.read_day) if self._keeping else None
        lines = [self._line(slip, row, use_by) for row in self._lines.rows if row.part("packs").strip()]
        if not lines:
            slip.wrong("lines", "Say how many packs of at least one product came in.")
        return DeliveryDraft(
            at=slip.read(self._at, self._clock.read, self._clock.now),
            into=self._places[int(self._into.raw)],
            lines=tuple(lines),
        )

    def _line(self, slip: Slip, row: RowField, use_by: date | None) -> DeliveryLine:
        packs = slip.read_part(row, "packs", read_whole, 1)
        damaged = slip.read_part(row, "damaged_packs", read_whole, 0) if row.part("damaged_packs").strip() else 0
        if packs < 1:
            slip.wrong(f"{row.key}.packs", "At least one pack came in; leave the number out for a line to forget.")
        elif not 0 <= damaged <= packs:
            slip.wrong(f"{row.key}.damaged_packs", f"Of {packs} packs, from 0 to {packs} can be damaged.")
        if isinstance(row, BatchRow) and row.unanswered:
            slip.wrong(f"{row.key}.same", "Say whether it is the same batch: yes or no, just below.")
        return DeliveryLine(
            product=row.part("product"),
            batch=slip.read_part(row, "batch", read_text, ""),
            packs=packs,
            damaged_packs=damaged,
            use_by=use_by if row.part("product") in self._keeping else None,
        )
