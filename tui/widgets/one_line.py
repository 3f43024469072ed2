"""A line to type in that never drops what was pasted without saying so."""

from dataclasses import dataclass
from typing import ClassVar

from textual import events
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from tui.typed.figures import MOST_TYPED
from tui.words.wording import clean


def refusal_of(pasted: str, already: int = 0) -> str:
    """Return why a paste into one line is refused; empty if it fits.

    A line end after the last word is what copying a cell leaves behind, and no second line.
    """
    lines = pasted.rstrip("\r\n").splitlines()
    if len(lines) > 1:
        return f"What you pasted has {len(lines):,} lines; this takes one. Nothing was pasted."
    if len(pasted) + already > MOST_TYPED:
        return f"What you pasted is longer than {MOST_TYPED:,} characters. Nothing was pasted."
    return ""


class OneLine(Input):
    """An input of one line, one row high."""

    BINDINGS: ClassVar[list[BindingType]] = []

    @dataclass
    class PasteRefused(Message):
        """A paste was not taken over; ``say`` tells why."""

        line: "OneLine"
        say: str

        @property
        def control(self) -> "OneLine":
            return self.line

    def __init__(self, value: str = "", *, placeholder: str = "", id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(value=clean(value), placeholder=placeholder, compact=True, select_on_focus=True, id=id)

    def _on_paste(self, event: events.Paste) -> None:
        event.prevent_default()
        event.stop()
        say = refusal_of(event.text, len(self.value))
        if say:
            self.post_message(self.PasteRefused(self, say))
            return
        self.replace(clean(event.text.rstrip("\r\n")), *self.selection)
