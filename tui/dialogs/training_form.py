"""The form for somebody's training: until when it is in force."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.people import Person, PersonDraft
from tui.dialogs.dialog import Dialog, nothing_to_say
from tui.dialogs.parts import day_field
from tui.dialogs.slip import Slip
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.safe import Line


class TrainingForm(Dialog[PersonDraft]):
    """Asks whose training is in force until when; answers them with that day, or with none.

    Args:
        people: who works for the firm, at least one.
        clock: the firm's wall clock.
    """

    def __init__(self, *, people: Sequence[Person], clock: WallClock) -> None:
        super().__init__("Note a training", nothing_to_say)
        self._clock = clock
        names = [(one.name, one.name) for one in people]
        self._who = SelectField("name", "Who", names, hint="Space opens the list.")
        hint = "The last day it holds: five years after it at most. Empty: none is in force."
        self._until = day_field("trained_until", "Trained until", clock, None, hint=hint)

    def questions(self) -> Iterable[Widget]:
        yield self._who
        yield self._until
        yield Line(
            "For glues and lacquers with diisocyanates, trained anew every five years at least; the firm keeps the "
            "proof (REACH Annex XVII entry 74, Reg. (EU) 2020/1149). Other countries have their own rules.",
            classes="muted note",
        )

    def fill_in(self, slip: Slip) -> PersonDraft:
        return PersonDraft(name=self._who.raw, trained_until=slip.read_if_given(self._until, self._clock.read_day))
