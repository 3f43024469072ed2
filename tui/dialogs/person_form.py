"""The form for somebody who works for the firm: their name, what they can do, and when they are away."""

from collections.abc import Iterable

from textual.widget import Widget

from store.trade.people import PersonDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import day_field
from tui.dialogs.slip import Slip
from tui.typed.days_off import DAYS_OFF_EXAMPLE, read_days_off, typed_days_off
from tui.typed.figures import Misread, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import TickField
from tui.widgets.fields import TextField


class PersonForm(Dialog[PersonDraft]):
    """Asks who somebody is; answers a ``PersonDraft``. Only the name must be told."""

    def __init__(self, *, clock: WallClock, check: Check[PersonDraft], draft: PersonDraft | None = None) -> None:
        super().__init__("Change somebody's card" if draft else "Add somebody", check)
        self._clock = clock
        shown = draft or PersonDraft(name="")
        self._called = TextField("name", "Name", shown.name, hint="The name they go by.")
        self._herringbone = TickField(
            "herringbone", "Herringbone", shown.herringbone, hint="Space turns it: lays herringbone and chevron."
        )
        self._stairs = TickField("stairs", "Stairs", shown.stairs, hint="Space turns it: clads stairs.")
        self._isocyanates = day_field(
            "isocyanates_until",
            "Isocyanates until",
            clock,
            shown.isocyanates_until,
            hint="The day their training for such glues and lacquers runs out; empty if none.",
        )
        self._days_off = TextField(
            "days_off", "Days off", typed_days_off(shown.days_off), hint=f"Like {DAYS_OFF_EXAMPLE}.", echo=self._echo
        )

    def questions(self) -> Iterable[Widget]:
        yield self._called
        yield self._herringbone
        yield self._stairs
        yield self._isocyanates
        yield self._days_off

    def _echo(self, text: str) -> str:
        read = read_days_off(text, self._clock.today)
        if isinstance(read, Misread):
            return ""
        spans = (
            self._clock.say_day(one.first) + ("" if one.first == one.last else f" to {self._clock.say_day(one.last)}")
            for one in read
        )
        return "; ".join(spans)

    def fill_in(self, slip: Slip) -> PersonDraft:
        name = slip.read(self._called, read_text, "-")
        if not name:
            slip.wrong("name", "Write the name.")
        until = slip.read_if_given(self._isocyanates, self._clock.read_day)
        days_off = slip.read_if_given(self._days_off, lambda text: read_days_off(text, self._clock.today))
        return PersonDraft(
            name=name,
            herringbone=self._herringbone.yes,
            stairs=self._stairs.yes,
            isocyanates_until=until,
            days_off=days_off or (),
        )
