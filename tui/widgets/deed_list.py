"""What there is to do about a job, numbered: Enter does the one under the cursor."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import events, on
from textual.binding import Binding, BindingType
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widget import Widget
from textual.widgets import OptionList

from store.trade.verdict import NextDeed
from tui.widgets.fitting import wrapped


class DeedList(OptionList):
    """The things to do about one job, the most pressing first."""

    DEFAULT_CSS = """
    DeedList, DeedList:focus { height: auto; max-height: 100%; width: 1fr; border: none; padding: 0;
                               background: transparent; }
    DeedList > .option-list--option { padding: 0; }
    DeedList > .option-list--option-highlighted { background: transparent; color: $foreground;
                                                  text-style: none; }
    DeedList:focus > .option-list--option-highlighted { background: $block-cursor-background;
                                                        color: $block-cursor-foreground; }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "select", "Do this", key_display="Enter", id="list.open", tooltip="Do what the cursor is on"),
    ]

    @dataclass
    class Do(Message):
        """This one is to be done now."""

        deed: NextDeed

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id, compact=True, markup=False)
        self._deeds: tuple[NextDeed, ...] = ()
        self._says: tuple[str, ...] = ()
        self._width = 0

    def show(self, deeds: Sequence[NextDeed], says: Sequence[str]) -> None:
        """Show things to do, each with its sentence; the cursor stays on the same one if it is still there."""
        before = self.under_cursor
        self._deeds, self._says = tuple(deeds), tuple(says)
        self.display = bool(deeds)
        self._lay_out(self._deeds.index(before) if before in self._deeds else 0)

    @property
    def under_cursor(self) -> NextDeed | None:
        """The thing to do under the cursor."""
        at = self.highlighted
        return self._deeds[at] if at is not None and at < len(self._deeds) else None

    @property
    def words(self) -> tuple[str, ...]:
        """The sentences shown."""
        return self._says

    def action_cursor_down(self) -> None:
        """Go to the next thing to do; after the last, show more of what lies below."""
        if self._says and self.highlighted == len(self._says) - 1:
            self._around.scroll_down(animate=False)
        else:
            super().action_cursor_down()

    def action_cursor_up(self) -> None:
        """Go to the thing to do before; at the first, show more of what lies above."""
        if self.highlighted:
            super().action_cursor_up()
        else:
            self._around.scroll_up(animate=False)

    @property
    def _around(self) -> Widget:
        around = (one for one in self.ancestors if isinstance(one, VerticalScroll))
        return next(around, self)

    def on_resize(self, event: events.Resize) -> None:
        if event.size.width != self._width:
            self._width = event.size.width
            self._lay_out(self.highlighted or 0)

    def _lay_out(self, cursor: int) -> None:
        self.clear_options()
        for number, say in enumerate(self._says, start=1):
            lead = f"{number}. " if number < 10 else f"{number} "
            lines = wrapped(say, max((self._width or 80) - len(lead), 8))
            self.add_option(Content(lead + f"\n{' ' * len(lead)}".join(lines)))
        self.highlighted = cursor if self._says else None

    @on(OptionList.OptionSelected)
    def _picked(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.post_message(self.Do(self._deeds[event.option_index]))
