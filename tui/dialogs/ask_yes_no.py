"""A question with two answers; the safe one comes first and has the cursor."""

from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, Vertical
from textual.screen import ModalScreen
from textual.widgets import Button

from tui.widgets.safe import Line, plain


class AskYesNo(ModalScreen[bool | None]):
    """Asks, and answers True only for the second button; Esc and the first one mean no.

    Where both answers go on with something, Esc may leave it altogether: then it answers None.

    Args:
        question: one sentence that ends with a question mark.
        yes: what happens, as the words of the button: “Throw away”.
        no: the words of the safe button.
        detail: what would follow, in a sentence or two.
        may_leave: whether Esc answers None.
    """

    DEFAULT_CSS = """
    AskYesNo { align: center middle; }
    AskYesNo > Vertical { width: 64; max-width: 100%; height: auto; max-height: 100%; padding: 1 2;
                          background: $surface; border: round $border; }
    AskYesNo .ask--question { text-style: bold; }
    AskYesNo .ask--detail { color: $foreground; margin: 1 0 0 0; }
    AskYesNo Horizontal { height: 1; margin: 1 0 0 0; }
    AskYesNo Button { margin: 0 2 0 0; }
    AskYesNo .ask--leave { color: $text-muted; width: 1fr; text-align: right; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "no", "No"),
        Binding("left,right,up,down", "other", "Other answer", show=False),
    ]

    def __init__(
        self, question: str, *, yes: str, no: str = "Cancel", detail: str = "", may_leave: bool = False
    ) -> None:
        super().__init__()
        self._may_leave = may_leave
        self._question, self._yes, self._no, self._detail = question, yes, no, detail

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._question, classes="ask--question")
            if self._detail:
                yield Line(self._detail, classes="ask--detail")
            with Horizontal():
                yield Button(plain(self._no), id="no", compact=True)
                yield Button(plain(self._yes), id="yes", compact=True, variant="warning")
                if self._may_leave:
                    yield Line("Esc leaves it", classes="ask--leave")

    def on_mount(self) -> None:
        self.query_one("#no", Button).focus()

    def action_no(self) -> None:
        self.dismiss(None if self._may_leave else False)

    def action_other(self) -> None:
        self.focus_next(Button)

    @on(Button.Pressed)
    def _answered(self, event: Button.Pressed) -> None:
        event.stop()
        self.dismiss(event.button.id == "yes")
