"""What every whole-terminal view shares: the strip above, the footer below, help, and asking the desk again."""

from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import ActiveBinding, Binding, BindingType
from textual.containers import Vertical
from textual.keys import key_to_character
from textual.screen import Screen
from textual.widgets import Footer, Input

from store.desk.desk import Desk
from tui.dialogs.help_screen import help_for
from tui.doors import VIEW_WORDS, ViewName
from tui.telling import refusal_of, tell_no
from tui.typed.wall_clock import WallClock
from tui.widgets.safe import Line
from tui.widgets.strip import ViewStrip
from tui.words.wording import say_now

LEAST_COLUMNS, LEAST_ROWS = 60, 18


class View(Screen[None]):
    """A view over one desk: composes its ``parts``, and shows what the desk answers whenever it is asked ``again``.

    A view holds no facts: it asks the desk whenever it comes up, after every deed, and when another window has
    changed the records.
    """

    NAME: ClassVar[ViewName | None] = None
    TEACHES: ClassVar[tuple[str, ...]] = ()
    DEFAULT_CSS = """
    View > .view--body { height: 1fr; }
    View > .view--note { height: 1; padding: 0 1; background: $panel; color: $text-warning; text-wrap: nowrap;
                         text-overflow: ellipsis; }
    View > .view--small { display: none; padding: 1 2; }
    View.-small > .view--body { display: none; }
    View.-small > ViewStrip { display: none; }
    View.-small > .view--small { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("question_mark", "help", "Help", key_display="?", id="view.help"),
        Binding("f1", "help", "Help", show=False, id="view.help_too"),
    ]

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self.desk = desk
        self._last_no = ""
        self._is_up = False

    def parts(self) -> ComposeResult:
        """Yield the widgets between the strip and the footer."""
        raise NotImplementedError

    def again(self) -> None:
        """Ask the desk, and show what it answers."""
        raise NotImplementedError

    @property
    def words(self) -> str:
        """What the view is called, for its help."""
        return VIEW_WORDS[self.NAME] if self.NAME else "Layday"

    @property
    def clock(self) -> WallClock:
        """The firm's wall clock at this moment."""
        return WallClock(now=self.desk.now(), zone=self.desk.zone())

    @property
    def active_bindings(self) -> dict[str, ActiveBinding]:
        """The keys that work now, in the order of the footer: this view's own first, help and leaving last."""
        active = super().active_bindings
        if isinstance(self.focused, Input):
            active = {key: one for key, one in active.items() if not _is_typed(key)}
        return dict(sorted(active.items(), key=lambda pair: _rank(pair[1].binding)))

    def compose(self) -> ComposeResult:
        yield ViewStrip(self.NAME)
        if self.app.sub_title:
            yield Line(self.app.sub_title, classes="view--note")
        with Vertical(classes="view--body"):
            yield from self.parts()
        small = f"Layday needs {LEAST_COLUMNS} columns and {LEAST_ROWS} rows; make the window larger. q leaves."
        yield Line(small, classes="view--small")
        yield Footer(show_command_palette=False)

    def on_screen_resume(self) -> None:
        # A view called up for the first time is told so twice, by its mode and by the switch to it; one asking will do.
        if not self._is_up:
            self._is_up = self.is_mounted
            self.ask_again()

    def on_screen_suspend(self) -> None:
        self._is_up = False

    def ask_again(self) -> None:
        """Show what the desk answers now; if it says no, what is shown stays, is called old, and the reason is told."""
        # The clock may strike between a view's being called up and its parts' being there; it asks as it comes up.
        if not self.is_mounted:
            return
        error = refusal_of(self._ask)
        if error is None:
            self._last_no = ""
            return
        self.query_one(ViewStrip).tell("", "▲ not up to date")
        if str(error) != self._last_no:
            tell_no(self.app, error)
        self._last_no = str(error)

    @property
    def is_old(self) -> bool:
        """Whether the desk said no when it was last asked, so that what is shown may be out of date."""
        return bool(self._last_no)

    def _ask(self) -> None:
        firm = self.desk.firm.card()
        self.again()
        self.query_one(ViewStrip).tell(firm.name, say_now(self.desk.now(), firm.zone))

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.width < LEAST_COLUMNS or event.size.height < LEAST_ROWS, "-small")

    def action_help(self) -> None:
        """Show the keys that work here."""
        self.app.push_screen(help_for(self, self.words, self.TEACHES))


_RANKS = ("list.open", "", "list.", "view.", "app.")


def _rank(binding: Binding) -> int:
    for rank, family in enumerate(_RANKS):
        if family and (binding.id or "").startswith(family):
            return rank
    return _RANKS.index("")


def _is_typed(key: str) -> bool:
    """Whether a key writes a character where one types; Textual has no character for “slash”."""
    character = key_to_character(key) or ""
    return key == "slash" or (character.isprintable() and bool(character))
