"""What all forms share: fields that scroll, what is wrong beside them, and Save and Cancel below."""

from collections.abc import Callable, Iterable
from typing import ClassVar, TypeVar

from textual import events, on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widget import Widget
from textual.widgets import Button, Input

from store.errors import Problem, StoreError
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.help_screen import help_for
from tui.dialogs.slip import Slip
from tui.telling import sentence_of
from tui.widgets.choices import Pick, Tick
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line, plain
from tui.words.wording import counted

Answer = TypeVar("Answer")
_HOW_TO_FILL_IN = (
    "Enter and Tab go on to the next field, Shift+Tab goes back; Enter in the last one saves.",
    "Space opens a list, and turns a yes into a no.",
)
NARROW = 76
"""Below this width what is only nice to have is left out."""
WIDE = 110
"""From this width on a form may take more than the 78 columns it is made for."""
Check = Callable[[Answer], tuple[Problem, ...]]


def nothing_to_say(_answer: object) -> tuple[Problem, ...]:
    """Find nothing wrong: the check of a form that needs none."""
    return ()


class Dialog(ModalScreen[Answer | None]):
    """One form that is answered by a draft, or by None when it is left.

    A form tells its ``questions`` (fields and lines of words) and how to ``fill_in`` a draft from them. Enter
    goes on to the next field and saves after the last; Ctrl+S saves, Esc leaves, and asks first if something
    was typed. Everything that is wrong is said at once, each beside its field, and what was typed stays.

    Args:
        title: what the form is for.
        check: what the shop finds wrong with a draft; each problem goes beside the field it names.
        save: the words of the button that saves.
    """

    DEFAULT_CSS = """
    Dialog { align: center middle; }
    Dialog > .dialog--box { width: 78; max-width: 100%; height: auto; max-height: 100%; padding: 0 1;
                            background: $surface; border: round $border; }
    Dialog .dialog--title { text-style: bold; color: $text-accent; margin: 0 0 1 0; text-wrap: nowrap;
                            text-overflow: ellipsis; }
    Dialog .dialog--fields { height: auto; scrollbar-size-vertical: 1; }
    Dialog .dialog--hint { height: 1; color: $text-muted; margin: 1 0 0 0; text-wrap: nowrap;
                           text-overflow: ellipsis; }
    Dialog .dialog--trouble { height: auto; max-height: 3; color: $text-error; display: none; }
    Dialog .dialog--trouble.-wrong { display: block; }
    Dialog .dialog--buttons { height: 1; }
    Dialog .dialog--buttons Button { margin: 0 2 0 0; }
    Dialog .dialog--keys { color: $text-muted; width: 1fr; text-align: right; }
    Dialog.-narrow .dialog--keys { display: none; }
    Dialog .caution { color: $text-warning; }
    Dialog .muted { color: $text-muted; }
    Dialog .note { margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("ctrl+s", "save", "Save", id="dialog.save"),
        Binding("escape", "leave", "Cancel", id="dialog.leave"),
        Binding("f1", "help", "Help", id="dialog.help"),
    ]
    AUTO_FOCUS = ".dialog--fields OneLine, .dialog--fields Pick, .dialog--fields Tick"

    def __init__(self, title: str, check: Check[Answer], *, save: str = "Save") -> None:
        super().__init__()
        self._title = title
        self._check = check
        self._file: Check[Answer] = nothing_to_say
        self._save_words = save
        self._as_loaded: tuple[str, ...] = ()
        self._is_answered = False

    def file_with(self, file: Check[Answer]) -> None:
        """Put the answer on file before the form closes; while ``file`` finds anything wrong, the form stays open."""
        self._file = file

    def questions(self) -> Iterable[Widget]:
        """Yield the fields, and lines of words between them."""
        raise NotImplementedError

    def fill_in(self, slip: Slip) -> Answer:
        """Return the draft; what cannot be read is noted on the slip and stood in for."""
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        with Vertical(classes="dialog--box"):
            yield Line(self._title, classes="dialog--title")
            with VerticalScroll(classes="dialog--fields", can_focus=False):
                yield from self.questions()
            yield Line("", classes="dialog--hint")
            yield Line("", classes="dialog--trouble")
            with Horizontal(classes="dialog--buttons"):
                yield Button(plain(self._save_words), id="save", variant="primary", compact=True)
                yield Button(plain("Cancel"), id="cancel", compact=True)
                yield Line("Enter next · Ctrl+S save · Esc cancel", classes="dialog--keys")

    def on_mount(self) -> None:
        # A toast that is still up would lie over the buttons; what it said has been read.
        self.app.clear_notifications()
        self._as_loaded = self._as_typed()

    def on_resize(self, event: events.Resize) -> None:
        # Border, title, hint, buttons and a line of trouble take nine rows; the fields get the rest.
        self.query_one(".dialog--fields").styles.max_height = max(event.size.height - 8, 3)
        self.set_class(event.size.width < NARROW, "-narrow")
        self.set_class(event.size.width >= WIDE, "-wide")

    def _fields(self) -> list[Field]:
        return list(self.query(Field))

    def _as_typed(self) -> tuple[str, ...]:
        return tuple(field.raw for field in self._fields())

    @property
    def is_changed(self) -> bool:
        """Whether anything was typed since the form was opened."""
        return self._as_typed() != self._as_loaded

    def draft(self) -> Answer | tuple[Problem, ...]:
        """Return the draft, or everything that is wrong with it."""
        slip = Slip()
        answer = self.fill_in(slip)
        unread = {problem.field for problem in slip.problems}
        problems = [*slip.problems, *(one for one in self._check(answer) if one.field not in unread)]
        return tuple(problems) if problems else answer

    def show_problems(self, problems: tuple[Problem, ...]) -> None:
        """Show each problem beside its field, the rest above the buttons; the cursor goes to the first."""
        fields = self._fields()
        beside: dict[Field, list[Problem]] = {}
        elsewhere: list[Problem] = []
        for problem in problems:
            place = _place_of(problem, fields)
            if place is None:
                elsewhere.append(problem)
            else:
                beside.setdefault(place, []).append(problem)
        for field in fields:
            field.say_problem(" ".join(dict.fromkeys(problem.say for problem in beside.get(field, ()))))
        first = next((field for field in fields if field in beside), None)
        if first is not None:
            first.focus_answer(beside[first][0].field.removeprefix(f"{first.key}."))
        self._say_trouble(elsewhere, len(problems))

    def _say_trouble(self, elsewhere: list[Problem], number: int) -> None:
        line = self.query_one(".dialog--trouble", Line)
        if not (words := " ".join(dict.fromkeys(problem.say for problem in elsewhere))) and number:
            words = f"{counted(number, 'thing')} to put right; nothing is saved yet."
        line.say(f"▲ {words}" if words else "")
        line.set_class(bool(words), "-wrong")

    def action_save(self) -> None:
        """Save, or say everything that is wrong."""
        # A second Ctrl+S can be on its way while the form closes; it must not file the same twice.
        if self._is_answered:
            return
        try:
            answer = self.draft()
        except StoreError as error:
            # The shop could not even be asked, a lock held elsewhere perhaps: what was typed stays, to be saved again.
            self._say_trouble([Problem(field="", say=sentence_of(error))], 1)
            return
        if isinstance(answer, tuple):
            self.show_problems(answer)
            return
        if problems := self._file(answer):
            self.show_problems(problems)
            return
        self._is_answered = True
        self.dismiss(answer)

    def action_leave(self) -> None:
        """Leave without saving; ask first if something was typed."""
        if not self.is_changed:
            self.dismiss(None)
            return
        ask = AskYesNo("Throw away what you typed?", yes="Throw away", no="Keep typing")
        self.app.push_screen(ask, self._leave_if)

    def _leave_if(self, sure: bool | None) -> None:
        if sure:
            self.dismiss(None)

    def action_help(self) -> None:
        """Show the keys that work here."""
        self.app.push_screen(help_for(self, self._title, _HOW_TO_FILL_IN))

    def on_descendant_focus(self, event: events.DescendantFocus) -> None:
        field = next((one for one in event.widget.ancestors_with_self if isinstance(one, Field)), None)
        if field is not None:
            self.query_one(".dialog--hint", Line).say(field.hint)

    @on(Field.Changed)
    def _answered_anew(self, event: Field.Changed) -> None:
        # What was wrong with the old answer may not be said of the new one; saving looks at it again.
        if event.field.problem:
            event.field.say_problem("")
            if not any(field.problem for field in self._fields()):
                self._say_trouble([], 0)

    @on(Input.Submitted)
    @on(Pick.GoOn)
    @on(Tick.GoOn)
    def _go_on(self, event: Input.Submitted | Pick.GoOn | Tick.GoOn) -> None:
        event.stop()
        answers = [one for one in self.focus_chain if isinstance(one, OneLine | Pick | Tick)]
        here = next((place for place, one in enumerate(answers) if one.has_focus), len(answers))
        if here + 1 < len(answers):
            answers[here + 1].focus()
        else:
            self.action_save()

    @on(Button.Pressed, "#save")
    def _save_pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_save()

    @on(Button.Pressed, "#cancel")
    def _cancel_pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.action_leave()


def _place_of(problem: Problem, fields: list[Field]) -> Field | None:
    shown = [field for field in fields if field.display]
    for field in shown:
        if field.key == problem.field:
            return field
    for field in shown:
        if problem.field.startswith(f"{field.key}.") or field.key.startswith(f"{problem.field}."):
            return field
    return None
