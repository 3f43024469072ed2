"""The form for what a supplier said about packs that have not come: a new day, a word, or both."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from textual.widget import Widget

from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import day_field
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.fields import TextField
from tui.widgets.safe import Line


@dataclass(frozen=True, slots=True, kw_only=True)
class Chased:
    """The new day the supplier gave, or None where none was given, and what else was said."""

    due_on: date | None
    said: str


class ChaseForm(Dialog[Chased]):
    """Asks for the day a supplier gives now, and what was said; answers a ``Chased``.

    Args:
        what: the order in words.
        clock: the firm's wall clock.
        check: what the shop finds wrong with it.
        due_on: the new day the form begins with, if one is known.
    """

    def __init__(self, *, what: str, clock: WallClock, check: Check[Chased], due_on: date | None = None) -> None:
        super().__init__("Chase an order", check)
        self._what, self._clock = what, clock
        self._due = day_field("due_on", "Now due on", clock, due_on, hint="The day they give now; like fri or +3.")
        self._said = TextField("said", "Said", hint="Who was asked and what was said; becomes a note.")

    def questions(self) -> Iterable[Widget]:
        yield Line(self._what, classes="note")
        yield self._due
        yield self._said

    def fill_in(self, slip: Slip) -> Chased:
        due_on = slip.read_if_given(self._due, self._clock.read_day)
        said = slip.read(self._said, read_text, "")
        if due_on is None and not said and self._due.raw.strip() == "":
            slip.wrong("due_on", "Write the new day, or what was said.")
        return Chased(due_on=due_on, said=said)
