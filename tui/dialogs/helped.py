"""A whole-terminal question that says on ? what its keys do."""

from typing import ClassVar, TypeVar

from textual.binding import Binding, BindingType
from textual.screen import ModalScreen

from tui.dialogs.help_screen import help_for

Result = TypeVar("Result")


class Helped(ModalScreen[Result]):
    """A modal screen with help: ``CALLED`` is its name there, ``TEACHES`` a few sentences above its keys."""

    CALLED: ClassVar[str] = ""
    TEACHES: ClassVar[tuple[str, ...]] = ()
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("question_mark,f1", "help", "Help", key_display="?", id="view.help"),
    ]

    def action_help(self) -> None:
        """Show the keys that work here."""
        self.app.push_screen(help_for(self, self.CALLED, self.TEACHES))
