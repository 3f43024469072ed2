"""A row with a batch in it that asks, beside what was typed, whether it is one that is on file already."""

from collections.abc import Callable, Mapping

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Select

from tui.widgets.choices import Pick, pick_of
from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField
from tui.widgets.safe import Line, plain
from tui.words.batches import say_likeness
from tui.words.wording import clean

_ASKED, _TAKE, _KEEP = "", "take", "keep"


class BatchRow(RowField):
    """Several answers in one row, one of them a ``batch``, and the question whether it was typed another way before.

    Args:
        key: the name of the row.
        label: what stands before the answers; may be empty.
        parts: the answers by their names; ``batch`` among them.
        widths: the width of each answer in cells.
        like: returns the batch on file that the row's batch looks like, or nothing.
        hint: what is said while the cursor is in the row.
    """

    DEFAULT_CSS = """
    BatchRow > .batch--like { color: $text-warning; height: auto; display: none; }
    BatchRow > .batch--answer { display: none; }
    BatchRow.-asks > .batch--like, BatchRow.-asks > .batch--answer { display: block; }
    BatchRow .batch--answer Pick { width: 36; }
    """

    def __init__(
        self,
        key: str,
        label: str,
        parts: Mapping[str, OneLine | Pick],
        widths: tuple[int, ...],
        *,
        like: Callable[["BatchRow"], str],
        hint: str = "",
    ) -> None:
        super().__init__(key, label, parts, widths, hint=hint)
        self._like, self._asked = like, ("", "")
        self._same = pick_of([(_ASKED, "Say which")])

    def compose(self) -> ComposeResult:
        yield from super().compose()
        yield Line("", classes="batch--like")
        with Horizontal(classes="batch--answer"):
            yield self._same

    @property
    def unanswered(self) -> str:
        """What is asked and not answered yet; empty where nothing is."""
        return say_likeness(*self._asked) if self._asked[1] and self._same.selection == _ASKED else ""

    def look(self) -> None:
        """Ask about the batch as it stands, or ask no longer."""
        asked = (self.part("batch"), self._like(self))
        if asked == self._asked or not (asked[1] or self._asked[1]):
            return
        self._asked = asked
        typed, known = (clean(one) for one in asked)
        self.set_class(bool(known), "-asks")
        self.query_one(".batch--like", Line).say(f"▲ {say_likeness(*asked)}" if known else "")
        options = [(plain("Say which"), _ASKED)]
        if known:
            options += [(plain(f"Yes: take {known}"), _TAKE), (plain(f"No: keep {typed}"), _KEEP)]
        with self.prevent(Select.Changed):
            self._same.set_options(options)
            self._same.value = _ASKED

    @on(Select.Changed)
    def _answered(self, event: Select.Changed) -> None:
        batch = self.parts["batch"]
        if event.select is self._same and self._same.selection == _TAKE and isinstance(batch, OneLine):
            batch.value = clean(self._asked[1])
            batch.focus()

    def focus_answer(self, part: str = "") -> None:
        if part == "same":
            self._same.focus()
        else:
            super().focus_answer(part)
