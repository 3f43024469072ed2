"""A row in which something is counted, with what the file says, or by how much it differs, beside it."""

from textual.app import ComposeResult
from textual.containers import Horizontal

from tui.widgets.one_line import OneLine
from tui.widgets.row_field import RowField
from tui.widgets.safe import Line

WIDTH = 7


class CountRow(RowField):
    """Full packs, and loose boards where there can be some.

    Args:
        key: the name of the row.
        label: what is counted.
        loose: whether loose boards are asked for.
        hint: what is said while the cursor is in the row.
    """

    DEFAULT_CSS = """
    CountRow .field--label { width: 28; margin: 0 1 0 0; }
    CountRow > Horizontal > Line { margin: 0; }
    CountRow .field--echo { width: 1fr; max-width: 100%; }
    CountRow .field--echo.-differs { color: $text-warning; }
    CountRow .count--none { width: 8; }
    """

    def __init__(self, key: str, label: str, *, loose: bool, hint: str) -> None:
        parts = {"packs": OneLine(), "boards": OneLine()} if loose else {"packs": OneLine()}
        super().__init__(key, label, parts, (WIDTH,) * len(parts), hint=hint)

    def compose(self) -> ComposeResult:
        with Horizontal():
            yield Line(self.label, classes="field--label")
            for part in self.parts.values():
                part.styles.width = WIDTH
                yield part
            if "boards" not in self.parts:
                yield Line("", classes="count--none")
            yield Line("", classes="field--echo")
        yield Line("", classes="field--problem")

    @property
    def is_blank(self) -> bool:
        """Whether nothing was counted here yet."""
        return not any(self.part(name).strip() for name in self.parts)

    def tell(self, words: str, *, differs: bool) -> None:
        """Say beside the row what the file says of it, or by how much it differs."""
        self.say_echo(words)
        self.query_one(".field--echo", Line).set_class(differs, "-differs")
