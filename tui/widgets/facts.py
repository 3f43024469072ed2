"""Facts under one another: what is said at the left, and what is said about it, in as many lines as it takes."""

from collections.abc import Sequence

from rich.console import Group
from rich.style import Style
from rich.table import Table
from rich.text import Text
from textual.widget import Widget

from tui.words.wording import clean


class Facts(Widget):
    """A heading, and pairs of words below it; long words go on under themselves."""

    DEFAULT_CSS = """
    Facts { height: auto; width: 1fr; }
    Facts > .facts--heading { color: $text-accent; text-style: bold; }
    Facts > .facts--what { color: $text-muted; }
    """
    COMPONENT_CLASSES = {"facts--heading", "facts--what"}  # noqa: RUF012 - Textual reads it from the class
    LABEL_WIDTH = 14

    def __init__(self, heading: str = "", *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._heading = heading
        self._facts: tuple[tuple[str, str], ...] = ()

    def show(self, facts: Sequence[tuple[str, str]], heading: str | None = None) -> None:
        """Show other facts, and another heading if one is given."""
        self._facts = tuple(facts)
        self._heading = self._heading if heading is None else heading
        self.refresh(layout=True)

    @property
    def words(self) -> str:
        """Everything that is shown, a line for each fact."""
        return "\n".join([self._heading, *(f"{what} {words}" for what, words in self._facts)])

    def render(self) -> Group:
        table = Table.grid(expand=True)
        table.add_column(width=self.LABEL_WIDTH)
        table.add_column(ratio=1, overflow="fold")
        for what, words in self._facts:
            table.add_row(Text(clean(what), style=self._style("facts--what")), Text(clean(words)))
        heading = [Text(clean(self._heading), style=self._style("facts--heading"))] if self._heading else []
        return Group(*heading, table)

    def _style(self, name: str) -> Style:
        style = self.get_component_rich_style(name)
        return Style(color=style.color, bold=style.bold)
