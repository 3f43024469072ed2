"""One line that shows how much of a wait is over: a bar, and the words beside it."""

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from tui.widgets.safe import cut
from tui.wording import clean


def bar_of(counted: float, needed: float, width: int) -> str:
    """Return a bar of ``width`` cells, filled by the share that is counted; full only when all is.

    >>> bar_of(31, 168, 12)
    '██░░░░░░░░░░'
    """
    if width <= 0:
        return ""
    share = 1.0 if needed <= 0 else min(max(counted / needed, 0.0), 1.0)
    filled = int(share * width)
    return "█" * filled + "░" * (width - filled)


class CountdownBar(Widget):
    """Hours counted of hours needed: “████░░░░ ◐ 31 h of 168 h, ready Sat 28 Nov 09:30”."""

    DEFAULT_CSS = """
    CountdownBar { height: 1; width: 1fr; }
    CountdownBar .countdown-bar--bar { color: $text-secondary; }
    CountdownBar .countdown-bar--stopped { color: $text-warning; }
    CountdownBar .countdown-bar--over { color: $text-success; }
    """
    COMPONENT_CLASSES = {  # noqa: RUF012 - Textual reads it from the class
        "countdown-bar--bar",
        "countdown-bar--stopped",
        "countdown-bar--over",
    }

    def __init__(
        self,
        counted: float,
        needed: float,
        words: str,
        *,
        running: bool = True,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__(id=id)
        self.show(counted, needed, words, running=running)

    def show(self, counted: float, needed: float, words: str, *, running: bool = True) -> None:
        """Show another state of the wait."""
        self._counted, self._needed, self._words, self._counts_on = counted, needed, words, running
        self.refresh()

    def render(self) -> Content:
        over = self._counted >= self._needed
        name = "over" if over else "bar" if self._counts_on else "stopped"
        style = self.get_visual_style(f"countdown-bar--{name}", partial=True)
        room = self.size.width - cell_len(clean(self._words)) - 1
        bar = bar_of(self._counted, self._needed, min(max(room, 6), 24))
        sign = "✓" if over else "◐" if self._counts_on else "▲"
        words = cut(self._words, max(self.size.width - len(bar) - 3, 0))
        return Content.assemble((f"{bar} {sign} ", style), words)
