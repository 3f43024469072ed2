"""Shows the readings of a room as pictures and in words: figures over time, and grids of levels."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Footer

from tui.widgets.safe import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """What a picture is called, how it is drawn in so many columns and lines, and what is said of it."""

    title: str
    draw: Callable[[int, int], list[str]]
    words: Sequence[str]


class _Drawn(Widget):
    """The picture, as large as there is room."""

    def __init__(self, picture: Picture) -> None:
        super().__init__()
        self._picture = picture

    def show(self, picture: Picture) -> None:
        self._picture = picture
        self.refresh()

    def render(self) -> Content:
        lines = self._picture.draw(self.size.width, self.size.height)
        return Content("\n".join(lines))


class ReadingCharts(ModalScreen[None]):
    """Pictures to turn through with the arrow keys; Esc closes them.

    Args:
        pictures: at least one, in the order of the trade.
        begin: which is shown first.
    """

    DEFAULT_CSS = """
    ReadingCharts { background: $background; }
    ReadingCharts > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    ReadingCharts .charts--title { text-style: bold; color: $text-accent; }
    ReadingCharts _Drawn { height: 1fr; max-height: 24; margin: 1 0; }
    ReadingCharts .charts--words { height: auto; max-height: 8; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left,up", "turn(-1)", "Before", key_display="←", id="charts.before"),
        Binding("right,down", "turn(1)", "Next", key_display="→", id="charts.next"),
        Binding("escape,enter,q", "close", "Back", key_display="Esc", id="charts.close"),
    ]

    def __init__(self, pictures: Sequence[Picture], begin: int = 0) -> None:
        super().__init__()
        self._pictures, self._place = tuple(pictures), begin

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line("", classes="charts--title")
            yield _Drawn(self._pictures[self._place])
            yield Line("", classes="charts--words")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        picture = self._pictures[self._place]
        many = len(self._pictures)
        of = f"  ({self._place + 1} of {many})" if many > 1 else ""
        self.query_one(".charts--title", Line).say(f"{picture.title}{of}")
        self.query_one(_Drawn).show(picture)
        self.query_one(".charts--words", Line).say("\n".join(picture.words))

    def action_turn(self, steps: int) -> None:
        """Show another figure."""
        self._place = (self._place + steps) % len(self._pictures)
        self._show()

    def action_close(self) -> None:
        """Go back to the list."""
        self.dismiss(None)
