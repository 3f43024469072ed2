"""Sentences under one another, each with a mark in front that says in a sign and a word what it is."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from tui.widgets.fitting import wrapped

_GAP = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A sentence with its mark; ``tone`` is the mark's colour: ok, wait, warn, bad, accent or muted."""

    say: str
    mark: str = ""
    tone: str = "muted"


class MarkedLines(Widget):
    """Sentences that hang to the right of their marks, however narrow the window is."""

    DEFAULT_CSS = """
    MarkedLines { height: auto; width: 1fr; }
    MarkedLines .marked--ok { color: $text-success; }
    MarkedLines .marked--wait { color: $text-secondary; }
    MarkedLines .marked--warn { color: $text-warning; }
    MarkedLines .marked--bad { color: $text-error; }
    MarkedLines .marked--accent { color: $text-accent; }
    MarkedLines .marked--muted { color: $text-muted; }
    """
    COMPONENT_CLASSES = {  # noqa: RUF012 - Textual reads it from the class
        "marked--ok",
        "marked--wait",
        "marked--warn",
        "marked--bad",
        "marked--accent",
        "marked--muted",
    }

    def __init__(self, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id, classes=classes)
        self._lines: tuple[Marked, ...] = ()

    def show(self, lines: Sequence[Marked]) -> None:
        """Show these sentences; the widget is not there while there is none."""
        self._lines = tuple(lines)
        self.display = bool(lines)
        self.refresh(layout=True)

    @property
    def words(self) -> str:
        """What is shown, a line for each sentence."""
        return "\n".join(f"{one.mark}  {one.say}".strip() for one in self._lines)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return sum(len(lines) for _, lines in self._laid_out(width))

    def render(self) -> Content:
        shown: list[Content] = []
        widest = self._widest
        for one, lines in self._laid_out(self.size.width):
            style = self.get_visual_style(f"marked--{one.tone}", partial=True)
            lead = one.mark + " " * (widest + _GAP - cell_len(one.mark)) if widest else ""
            shown.append(Content.assemble((lead, style), lines[0]))
            shown += [Content(" " * cell_len(lead) + line) for line in lines[1:]]
        return Content("\n").join(shown)

    @property
    def _widest(self) -> int:
        return max((cell_len(one.mark) for one in self._lines), default=0)

    def _laid_out(self, width: int) -> list[tuple[Marked, list[str]]]:
        room = max(width - (self._widest + _GAP if self._widest else 0), 8)
        return [(one, wrapped(one.say, room)) for one in self._lines]
