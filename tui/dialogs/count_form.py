"""The form for counting what is left over, batch by batch, and saying where it goes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.widget import Widget

from store.trade.events import CountDraft, Destination
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import Lying, beside_rows, moment_field
from tui.dialogs.slip import Slip
from tui.typed.figures import read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import Pick, pick_of
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField, RowHeading
from tui.widgets.safe import Line
from tui.words.vocabulary import DESTINATIONS
from tui.words.wording import clean

_WIDTHS = (8, 8, 0)
_WHERE = [(one.value, DESTINATIONS[one]) for one in Destination]


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """What was counted, a draft for each batch and destination."""

    counts: tuple[CountDraft, ...]


class CountForm(Dialog[Counted]):
    """Asks what is left of each batch and where it goes; answers a ``Counted``.

    Args:
        lying: what should be left of each batch, by the books; at least one.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the counts.
        books: what the books say of each, in a sentence; empty for the plain words.
    """

    DEFAULT_CSS = """
    CountForm RowHeading { padding: 0 0 0 18; margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("ctrl+n", "split", "Split the line", id="dialog.add")]

    def __init__(
        self, *, lying: Sequence[Lying], clock: WallClock, check: Check[Counted], books: Sequence[str] = ()
    ) -> None:
        super().__init__("Count what is left", lambda counted: beside_rows(check(counted), self._counted_rows))
        self._clock, self._lying = clock, tuple(lying)
        self._books = tuple(books) or tuple(f"By the books: {one.amount}." for one in self._lying)
        self._counted_rows: list[str] = []
        self._at = moment_field("at", "Counted at", clock)
        self._rows = [(one, self._row(number, one)) for number, one in enumerate(self._lying)]

    def _row(self, number: int, one: Lying, *, again: bool = False) -> RowField:
        label = f"{clean(one.product)} {clean(one.batch)}".strip()
        parts: dict[str, OneLine | Pick] = {"packs": OneLine(), "boards": OneLine(), "to": pick_of(_WHERE)}
        hint = f"{self._books[self._lying.index(one)]} Write 0 where nothing is left."
        # The batch alone: with the product before it, it would be cut off just where two lines differ.
        label = f"  and of {clean(one.batch or one.product)}" if again else label
        return RowField(f"counts.{number}", label, parts, _WIDTHS, hint=hint)

    def questions(self) -> Iterable[Widget]:
        yield self._at
        yield RowHeading(("Packs", "Boards", "Where it goes"), _WIDTHS)
        for _, row in self._rows:
            yield row
        yield Line(
            "Full packs, and loose boards beside them. Ctrl+N splits a line, if part goes elsewhere.",
            classes="muted note",
        )

    async def action_split(self) -> None:
        """Add a second line for the batch under the cursor, for what goes somewhere else."""
        at = next((place for place, (_, row) in enumerate(self._rows) if row.has_focus_within), len(self._rows) - 1)
        one, above = self._rows[at]
        row = self._row(len(self._rows), one, again=True)
        self._rows.insert(at + 1, (one, row))
        await self.query_one(".dialog--fields").mount(row, after=above)
        row.focus_answer()

    def fill_in(self, slip: Slip) -> Counted:
        at = slip.read(self._at, self._clock.read, self._clock.now)
        seen: set[Lying] = set()
        counts = []
        self._counted_rows = []
        for one, row in self._rows:
            if not row.part("packs").strip() and not row.part("boards").strip():
                if one not in seen and one.is_board:
                    slip.wrong(f"{row.key}.packs", "Count this batch too; write 0 where nothing is left.")
                seen.add(one)
                continue
            seen.add(one)
            self._counted_rows.append(row.key)
            counts.append(
                CountDraft(
                    at=at,
                    product=one.product,
                    batch=one.batch,
                    packs=self._number(slip, row, "packs"),
                    boards=self._number(slip, row, "boards"),
                    to=Destination(row.part("to")),
                )
            )
        return Counted(counts=tuple(counts))

    def _number(self, slip: Slip, row: RowField, name: str) -> int:
        if not row.part(name).strip():
            return 0
        number = slip.read_part(row, name, read_whole, 0)
        if number < 0:
            slip.wrong(f"{row.key}.{name}", "A count is 0 or more.")
        return number
