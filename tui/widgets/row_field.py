"""A row of a form with several answers side by side, such as a product, its batch and its packs."""

from collections.abc import Mapping

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal
from textual.widgets import Input, Select

from tui.widgets.choices import Pick
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line


class RowField(Field):
    """Several answers in one row, each by its name.

    Args:
        key: the name of the row, such as “lines.0”; a problem with “lines.0.packs” is shown under it.
        label: what stands before the answers; may be empty.
        parts: the answers by their names, in order.
        widths: the width of each answer in cells; 0 takes a share of the rest.
    """

    DEFAULT_CSS = """
    RowField OneLine, RowField Pick { margin: 0 1 0 0; }
    RowField > .field--problem { padding: 0; }
    """

    def __init__(
        self,
        key: str,
        label: str,
        parts: Mapping[str, OneLine | Pick],
        widths: tuple[int, ...],
        *,
        hint: str = "",
    ) -> None:
        super().__init__(key, label, hint=hint)
        self.parts = dict(parts)
        self._widths = widths

    def compose(self) -> ComposeResult:
        with Horizontal():
            if self.label:
                yield Line(self.label, classes="field--label")
            for part, width in zip(self.parts.values(), self._widths, strict=True):
                if width:
                    part.styles.width = width
                yield part
        yield Line("", classes="field--problem")

    def answer(self) -> OneLine | Pick:
        return next(iter(self.parts.values()))

    def focus_answer(self, part: str = "") -> None:
        self.parts.get(part, self.answer()).focus()

    def part(self, name: str) -> str:
        """Return one answer as it stands."""
        part = self.parts[name]
        return part.value if isinstance(part, OneLine) else part.selection or ""

    @property
    def raw(self) -> str:
        return "\x1f".join(self.part(name) for name in self.parts)

    @on(Input.Changed)
    @on(Select.Changed)
    def _changed(self, event: Input.Changed | Select.Changed) -> None:
        event.stop()
        self.post_message(self.Changed(self))

    @on(OneLine.PasteRefused)
    def _refused(self, event: OneLine.PasteRefused) -> None:
        event.stop()
        self.say_problem(event.say)


class RowHeading(Horizontal):
    """The headings over such rows, as wide as the answers under them."""

    DEFAULT_CSS = """
    RowHeading { height: 1; color: $text-muted; }
    RowHeading > Line { width: 1fr; margin: 0 1 0 0; text-wrap: nowrap; text-overflow: ellipsis; }
    """

    def __init__(self, words: tuple[str, ...], widths: tuple[int, ...]) -> None:
        super().__init__()
        self._words, self._widths = words, widths

    def compose(self) -> ComposeResult:
        for words, width in zip(self._words, self._widths, strict=True):
            line = Line(words)
            if width:
                line.styles.width = width
            yield line
