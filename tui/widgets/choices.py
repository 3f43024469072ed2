"""The fields of a form that are answered by choosing: one of a list, or yes and no."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.binding import Binding, BindingType
from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Select

from tui.widgets.fields import Field
from tui.widgets.safe import plain

Option = tuple[str, str]
"""A value, and the words shown for it."""


class Pick(Select[str]):
    """A choice in one row: Space or an arrow opens the list, Enter goes on to the next field."""

    DEFAULT_CSS = """
    Pick { width: 1fr; height: 1; }
    Pick > SelectCurrent { background: $panel; padding: 0 1 0 0; }
    Pick:focus > SelectCurrent { background-tint: $foreground 10%; text-style: bold; }
    """

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "go_on", "Next field", show=False),
        Binding("space,down,up", "show_overlay", "Open the list", show=False),
    ]

    @dataclass
    class GoOn(Message):
        """Enter was pressed on the closed list."""

        pick: "Pick"

    def action_go_on(self) -> None:
        self.post_message(self.GoOn(self))


def pick_of(options: Sequence[Option], value: str = "") -> Pick:
    """Return a choice that starts on ``value``, or on the first option.

    A value that is no longer in the list stays choosable, marked as not on file; an empty list says so.
    """
    listed = list(options)
    if value and value not in {one for one, _ in listed}:
        listed.append((value, f"{value} (not on file)"))
    if not listed:
        listed = [("", "nothing to choose from")]
    start = value if value in {one for one, _ in listed} else listed[0][0]
    return Pick([(plain(words), one) for one, words in listed], value=start, allow_blank=False, compact=True)


class SelectField(Field):
    """A field with a list to choose from; the value is always one of it, or empty if the list is."""

    def __init__(self, key: str, label: str, options: Sequence[Option], value: str = "", *, hint: str = "") -> None:
        super().__init__(key, label, hint=hint)
        self._pick = pick_of(options, value)

    def answer(self) -> Pick:
        return self._pick

    @property
    def raw(self) -> str:
        return self._pick.selection or ""

    def choose(self, value: str) -> None:
        """Choose another value of the list."""
        self._pick.value = value

    @on(Select.Changed)
    def _chosen(self, event: Select.Changed) -> None:
        event.stop()
        self.post_message(self.Changed(self))


class Tick(Widget, can_focus=True):
    """A yes or a no: Space changes it, Enter goes on to the next field."""

    DEFAULT_CSS = """
    Tick { width: 1fr; height: 1; background: $panel; }
    Tick:focus { background-tint: $foreground 10%; text-style: bold; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "turn", "Yes or no", show=False),
        Binding("enter", "go_on", "Next field", show=False),
    ]

    @dataclass
    class Turned(Message):
        """The answer is the other one now."""

        tick: "Tick"

    @dataclass
    class GoOn(Message):
        """Enter was pressed."""

        tick: "Tick"

    def __init__(self, on: bool) -> None:
        super().__init__()
        self.on = on

    def render(self) -> Content:
        return Content("[✓] yes" if self.on else "[ ] no")

    def action_turn(self) -> None:
        self.on = not self.on
        self.refresh()
        self.post_message(self.Turned(self))

    def action_go_on(self) -> None:
        self.post_message(self.GoOn(self))

    def on_click(self, event: Click) -> None:
        event.stop()
        self.action_turn()


class TickField(Field):
    """A field that is answered by yes or no."""

    def __init__(self, key: str, label: str, value: bool = False, *, hint: str = "") -> None:
        super().__init__(key, label, hint=hint)
        self._tick = Tick(value)

    def answer(self) -> Tick:
        return self._tick

    @property
    def yes(self) -> bool:
        """Whether the answer is yes."""
        return self._tick.on

    @property
    def raw(self) -> str:
        return "yes" if self._tick.on else "no"

    @on(Tick.Turned)
    def _turned(self, event: Tick.Turned) -> None:
        event.stop()
        self.post_message(self.Changed(self))
