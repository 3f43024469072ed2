"""The line above every view: the views with their number keys, the firm, and the time."""

import re

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.widget import Widget

from tui.doors import VIEW_WORDS, GoTo, ViewName
from tui.widgets.safe import cut

_BETWEEN = 2
_YEAR = re.compile(r" [0-9]{4} ")
_LONGEST_FIRM = 40


class ViewStrip(Widget):
    """“1 Today  2 Jobs …” with the present view marked; a click goes to a view.

    Args:
        present: the view that is shown; None for a screen that is none of these.
    """

    DEFAULT_CSS = """
    ViewStrip { height: 1; width: 1fr; background: $panel; color: $foreground; }
    ViewStrip .strip--number { color: $text-accent; text-style: bold; }
    ViewStrip .strip--present { background: $block-cursor-background; color: $block-cursor-foreground;
                                text-style: bold; }
    ViewStrip .strip--told { color: $text-muted; }
    """
    COMPONENT_CLASSES = {"strip--number", "strip--present", "strip--told"}  # noqa: RUF012 - Textual reads it from the class

    def __init__(self, present: ViewName | None) -> None:
        super().__init__()
        self._present = present
        self._firm, self._time = "", ""

    def tell(self, firm: str, time: str) -> None:
        """Show the firm's name and the time at the right."""
        self._firm, self._time = firm, time
        self.refresh()

    def render(self) -> Content:
        number = self.get_visual_style("strip--number", partial=True)
        present = self.get_visual_style("strip--present")
        parts: list[Content] = []
        for place, view in enumerate(ViewName, start=1):
            words = f" {place} {VIEW_WORDS[view]} "
            if view is self._present:
                parts.append(Content.styled(words, present))
            else:
                parts.append(Content.assemble((f" {place}", number), f" {VIEW_WORDS[view]} "))
        tabs = Content("").join(parts)
        # Every tab ends with a blank, so what is told may follow at once where the window is narrow.
        told = self._told(self.size.width - tabs.cell_length - 1)
        gap = " " * max(0, self.size.width - tabs.cell_length - cell_len(told) - 1)
        return Content.assemble(tabs, gap, (told, self.get_visual_style("strip--told", partial=True)), " ")

    def _told(self, room: int) -> str:
        """The firm and the time; the firm gives way where there is no room for both, then the year, then the time."""
        both = f"{cut(self._firm, _LONGEST_FIRM)}{' ' * _BETWEEN}{self._time}"
        return next((told for told in (both, self._time, _YEAR.sub(" ", self._time)) if cell_len(told) <= room), "")

    def on_click(self, event: events.Click) -> None:
        at = 0
        for place, view in enumerate(ViewName, start=1):
            at += cell_len(f" {place} {VIEW_WORDS[view]} ")
            if event.x < at:
                self.post_message(GoTo(view))
                return
