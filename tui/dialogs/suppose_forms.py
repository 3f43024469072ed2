"""The forms for a what-if: which of several things comes on which day, and who is away."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from textual import on
from textual.widget import Widget

from store.trade.people import DaysOff
from store.trade.planning.suppose import SomebodyAway, Supposition
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import DAY_HINT, day_field
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_text
from tui.typed.later import LATER_HINT, read_later
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField


@dataclass(frozen=True, slots=True, kw_only=True)
class Movable:
    """Something whose day may move: its words, its day as things stand, and the supposition that another day makes."""

    words: str
    base: date
    make: Callable[[date], Supposition]


class MovedForm(Dialog[Supposition]):
    """Asks which of several things gets another day, and which; answers the supposition.

    Args:
        title: what is asked.
        movables: what there is to choose from, at least one.
        label: what the choice is called.
        day_label: what the day is called.
        clock: the firm's wall clock.
        check: what the shop finds wrong.
    """

    def __init__(
        self,
        title: str,
        *,
        movables: Sequence[Movable],
        label: str,
        day_label: str,
        clock: WallClock,
        check: Check[Supposition],
    ) -> None:
        super().__init__(title, check, save="Suppose it")
        self._movables, self._clock = tuple(movables), clock
        options = [(str(place), one.words) for place, one in enumerate(self._movables)]
        self._which = SelectField("which", label, options, "0", hint="Space opens the list.")
        self._day = TextField("day", day_label, "7 days later", hint=LATER_HINT, echo=self._echo)

    def questions(self) -> Iterable[Widget]:
        yield self._which
        yield self._day

    @property
    def _chosen(self) -> Movable:
        return self._movables[int(self._which.raw or 0)]

    def _read(self, text: str) -> date | Misread:
        return read_later(text, self._chosen.base, self._clock.today)

    def _echo(self, text: str) -> str:
        day = self._read(text)
        return "" if isinstance(day, Misread) else self._clock.say_day(day)

    @on(Field.Changed)
    def _other_day(self) -> None:
        self._day.say_echo(self._echo(self._day.raw))

    def fill_in(self, slip: Slip) -> Supposition:
        return self._chosen.make(slip.read(self._day, self._read, self._clock.today))


class AwayForm(Dialog[Supposition]):
    """Asks who is away, from when until when, and why; answers the supposition.

    Args:
        people: the names to choose from.
        person: the name the form begins with.
        clock: the firm's wall clock.
        check: what the shop finds wrong.
    """

    def __init__(self, *, people: Sequence[str], person: str, clock: WallClock, check: Check[Supposition]) -> None:
        super().__init__("What if somebody is away?", check, save="Suppose it")
        self._clock = clock
        names = [(one, one) for one in people]
        self._who = SelectField("person", "Who", names, person, hint="Space opens the list.")
        self._first = day_field("first", "First day", clock, clock.today)
        self._last = day_field("last", "Last day", clock, None, hint=f"Empty for one day. {DAY_HINT}")
        self._why = TextField("why", "Why", hint="May stay empty; like Ill.")

    def questions(self) -> Iterable[Widget]:
        yield self._who
        yield self._first
        yield self._last
        yield self._why

    def fill_in(self, slip: Slip) -> Supposition:
        first = slip.read(self._first, self._clock.read_day, self._clock.today)
        last = slip.read_if_given(self._last, self._clock.read_day) or first
        why = slip.read(self._why, read_text, "")
        return SomebodyAway(person=self._who.raw, days=DaysOff(first=first, last=last, reason=why))
