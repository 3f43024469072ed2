"""Text that is shown exactly as it is: the only way by which words on file reach a widget."""

from rich.cells import cell_len, set_cell_size
from rich.text import Text
from textual.content import Content
from textual.widgets import Static

from tui.words.wording import clean


def plain(text: str) -> Content:
    """Return words for a widget's label or option: no markup in them is ever obeyed."""
    return Content(clean(text))


def cell(text: str, style: str = "", *, right: bool = False) -> Text:
    """Return words for a cell of a table: one line, no markup, set to the right for numbers."""
    return Text(
        clean(text),
        style=style,
        justify="right" if right else "left",
        no_wrap=True,
        overflow="ellipsis",
        end="",
    )


def cut(text: str, width: int) -> str:
    """Return the text within ``width`` cells of the terminal; what was cut off shows as an ellipsis.

    >>> cut("Reading room", 8)
    'Reading…'
    """
    shown = clean(text)
    if cell_len(shown) <= width:
        return shown
    return f"{set_cell_size(shown, width - 1).rstrip()}…" if width > 0 else ""


class Line(Static):
    """Words in the window, several lines if need be, shown exactly as they are."""

    def __init__(self, text: str = "", *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(Content(clean(text, many_lines=True)), id=id, classes=classes, markup=False)
        self.words = text

    def say(self, text: str) -> None:
        """Show other words."""
        self.words = text
        self.update(Content(clean(text, many_lines=True)))
