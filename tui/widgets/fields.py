"""The fields of a form: a label, a place to answer, what is understood, and a line for what is wrong."""

from collections.abc import Callable
from dataclasses import dataclass

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input

from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line
from tui.words.wording import clean


class Field(Vertical):
    """One question of a form; ``key`` is the name of the draft's field, by which problems find it."""

    DEFAULT_CSS = """
    Field { height: auto; width: 1fr; }
    Field > Horizontal { height: 1; }
    Field .field--label { width: 18; color: $text-muted; text-wrap: nowrap; text-overflow: ellipsis; }
    Field.-here .field--label { color: $text-accent; text-style: bold; }
    Field .field--echo { width: auto; max-width: 50%; padding: 0 0 0 1; color: $text-secondary;
                         text-wrap: nowrap; text-overflow: ellipsis; display: none; }
    Field > .field--problem { height: auto; padding: 0 0 0 18; color: $text-error; display: none; }
    Field.-wrong > .field--problem { display: block; }
    Field OneLine { width: 1fr; background: $panel; }
    Field OneLine:focus { background: $panel; background-tint: $foreground 10%; }
    """

    @dataclass
    class Changed(Message):
        """The answer is another one now."""

        field: "Field"

        @property
        def control(self) -> "Field":
            return self.field

    def __init__(self, key: str, label: str, *, hint: str = "") -> None:
        super().__init__(id=f"field-{key.replace('.', '-').replace('_', '-')}")
        self.key = key
        self.label = label
        self.hint = hint

    def answer(self) -> Widget:
        """Return the widget in which the answer is given."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        with Horizontal():
            yield Line(self.label, classes="field--label")
            yield self.answer()
            yield Line("", classes="field--echo")
        yield Line("", classes="field--problem")

    @property
    def raw(self) -> str:
        """The answer as it stands, to tell whether it was changed."""
        raise NotImplementedError

    @property
    def problem(self) -> str:
        """The sentence shown under the field; empty if nothing is wrong."""
        return self.query_one(".field--problem", Line).words if self.has_class("-wrong") else ""

    def on_descendant_focus(self) -> None:
        self.set_class(self.has_focus_within, "-here")

    def on_descendant_blur(self) -> None:
        self.set_class(self.has_focus_within, "-here")

    def say_problem(self, say: str) -> None:
        """Show what is wrong under the field; an empty sentence takes it away."""
        self.query_one(".field--problem", Line).say(f"▲ {say}" if say else "")
        self.set_class(bool(say), "-wrong")

    def say_echo(self, say: str) -> None:
        """Show beside the answer what it means."""
        line = self.query_one(".field--echo", Line)
        line.say(say)
        line.display = bool(say)

    def focus_answer(self, part: str = "") -> None:
        """Put the cursor into the field; ``part`` names one of several answers, where a field has them."""
        self.answer().focus()


class TextField(Field):
    """A field to type in; ``echo`` turns what is typed into the words shown beside it, or into nothing."""

    def __init__(
        self,
        key: str,
        label: str,
        value: str = "",
        *,
        hint: str = "",
        echo: Callable[[str], str] | None = None,
    ) -> None:
        super().__init__(key, label, hint=hint)
        self._echo = echo
        self._line = OneLine(value)

    def answer(self) -> OneLine:
        return self._line

    @property
    def raw(self) -> str:
        return self._line.value

    def fill(self, value: str) -> None:
        """Put another answer into the field."""
        self._line.value = clean(value)

    def on_mount(self) -> None:
        self._show_echo()

    def _show_echo(self) -> None:
        if self._echo is not None:
            self.say_echo(self._echo(self._line.value))

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self._show_echo()
        self.post_message(self.Changed(self))

    @on(OneLine.PasteRefused)
    def _refused(self, event: OneLine.PasteRefused) -> None:
        event.stop()
        self.say_problem(event.say)
