"""One line with the names of sections, the present one marked; a click goes to a section."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from tui.widgets.safe import cut

_TURN = "◂ ▸ turn "


class SectionStrip(Widget):
    """“Survey  Orders  …”; the words of each section in order.

    Args:
        sections: the sections' names, in order.
    """

    DEFAULT_CSS = """
    SectionStrip { height: 1; width: 1fr; background: $panel; }
    SectionStrip .section-strip--present { background: $block-cursor-background; color: $block-cursor-foreground;
                                           text-style: bold; }
    SectionStrip .section-strip--turn { color: $text-muted; }
    """
    COMPONENT_CLASSES = {"section-strip--present", "section-strip--turn"}  # noqa: RUF012 - Textual reads it from the class

    @dataclass
    class Turned(Message):
        """A section was clicked on; ``place`` counts from 0."""

        place: int

    def __init__(self, sections: Sequence[str]) -> None:
        super().__init__()
        self._sections = tuple(sections)
        self._present = 0

    def show(self, place: int) -> None:
        """Mark the section that is shown."""
        self._present = place
        self.refresh()

    def render(self) -> Content:
        present = self.get_visual_style("section-strip--present")
        names = Content("").join(
            Content.styled(f" {words} ", present) if place == self._present else Content(f" {words} ")
            for place, words in enumerate(self._sections)
        )
        room = self.size.width - names.cell_length
        turn = cut(_TURN, room) if room >= cell_len(_TURN) else ""
        gap = " " * max(0, room - cell_len(turn))
        return Content.assemble(names, gap, (turn, self.get_visual_style("section-strip--turn", partial=True)))

    def on_click(self, event: events.Click) -> None:
        at = 0
        for place, words in enumerate(self._sections):
            at += cell_len(f" {words} ")
            if event.x < at:
                self.post_message(self.Turned(place))
                return
