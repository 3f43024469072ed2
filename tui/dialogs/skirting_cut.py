"""Shows the skirting of a room: asks how long a stick is, and lists what is cut from each and where it goes."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import ClassVar, Protocol

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import Footer, Input

from store.errors import Refused
from store.trade.skirting import Skirting
from tui.dialogs.helped import Helped
from tui.typed.figures import Misread, read_mm
from tui.widgets.fields import Field, TextField
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line
from tui.words.parts import end_words, piece_place, sticks_line
from tui.words.wording import clean, figure

_COLUMNS = (Column(label="What", width=19), Column(label="mm", width=6), Column(label="How"))
_YET = "Type how long a stick is."


class Reckon(Protocol):
    """Works out the skirting of the room from sticks of a length."""

    def __call__(self, *, stick_mm: int, kerf_mm: int, thickness_mm: int) -> Skirting:
        """Return the pieces and their cutting list; ``Refused`` where that cannot be."""


class SkirtingCut(Helped[None]):
    """The skirting of one room, worked out anew with every key; nothing is stored.

    Args:
        room: the room's name.
        reckon: works it out.
    """

    @dataclass
    class Answered(Message):
        """A sum is done: the skirting, or what is wrong."""

        count: int
        answer: Skirting | None
        say: str

    DEFAULT_CSS = """
    SkirtingCut { background: $background; }
    SkirtingCut > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    SkirtingCut .skirting--title { text-style: bold; color: $text-accent; }
    SkirtingCut .skirting--answer { height: auto; max-height: 3; margin: 1 0; }
    """
    CALLED: ClassVar[str] = "skirting"
    TEACHES: ClassVar[tuple[str, ...]] = (
        "The list is cut anew with every figure you type, and nothing is filed.",
        "Inner corners are butted, outer ones mitred.",
        "In a field ? is a letter like any other: F1 shows this from there too.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "close", "Back", key_display="Esc", id="skirting.close"),
    ]

    def __init__(self, room: str, reckon: Reckon) -> None:
        super().__init__()
        self._room, self._reckon, self._count = room, reckon, 0
        self._stick = TextField("stick", "Stick", hint="mm, as sold")
        self._kerf = TextField("kerf", "Saw cut", "3")
        self._thickness = TextField("thickness", "Thickness", "16")

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(f"Skirting of {clean(self._room)}", classes="skirting--title")
            yield from self._fields
            yield Line(_YET, classes="skirting--answer")
            yield FilterList(
                _COLUMNS,
                noun="lines",
                empty="What to cut from each stick stands here, and where each piece goes. Doorways are left out, "
                "inner corners are butted, outer corners mitred, and what is longer than a stick is spliced.",
            )
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        self._stick.query_one(Input).focus()

    @property
    def _fields(self) -> tuple[TextField, ...]:
        return (self._stick, self._kerf, self._thickness)

    @on(Field.Changed)
    def _typed(self, event: Field.Changed) -> None:
        event.stop()
        self._count += 1
        if not self._stick.raw.strip():
            self._show(None, _YET)
            return
        sizes = [read_mm(field.raw) for field in self._fields]
        for field, size in zip(self._fields, sizes, strict=True):
            field.say_problem(size.say if isinstance(size, Misread) else "")
        stick, kerf, thickness = sizes
        if isinstance(stick, Misread) or isinstance(kerf, Misread) or isinstance(thickness, Misread):
            self._show(None, "")
        else:
            self._work_out(self._count, stick, kerf, thickness)

    @work(thread=True, exclusive=True, group="skirting")
    def _work_out(self, count: int, stick: int, kerf: int, thickness: int) -> None:
        try:
            answer, say = self._reckon(stick_mm=stick, kerf_mm=kerf, thickness_mm=thickness), ""
        except Refused as no:
            answer, say = None, f"✗ {no}"
        self.post_message(self.Answered(count, answer, say))

    @on(Answered)
    def _answered(self, event: Answered) -> None:
        event.stop()
        if event.count == self._count:
            self._show(event.answer, event.say)

    def _show(self, answer: Skirting | None, say: str) -> None:
        if answer is not None:
            along, left_out = figure(answer.along_mm / 1000), figure(answer.left_out_mm / 1000)
            say = f"{sticks_line(answer.cutting)}\n{along} m of wall, {left_out} m of doorways and the like left out."
        self.query_one(".skirting--answer", Line).say(say)
        self.query_one(FilterList).fill(tuple(_rows(answer)) if answer else ())

    @on(Input.Submitted)
    def _next(self, event: Input.Submitted) -> None:
        event.stop()
        here = next((at for at, field in enumerate(self._fields) if field.has_focus_within), len(self._fields))
        if here + 1 < len(self._fields):
            self._fields[here + 1].query_one(Input).focus()
        else:
            self.query_one(FilterList).focus_list()

    def action_close(self) -> None:
        """Go back to the folder."""
        self.dismiss(None)


def _rows(answer: Skirting) -> Iterator[Row]:
    cutting = answer.cutting
    for place, (cuts, left) in enumerate(zip(cutting.cuts, cutting.left_mm, strict=True), start=1):
        how = f"{' + '.join(str(cut) for cut in cuts)}, {left} left"
        yield Row(key=f"stick:{place}", cells=(f"Stick {place}", str(sum(cuts)), how))
    for place, piece in enumerate(answer.pieces):
        how = f"from {figure(piece.from_mm, 0)}; {end_words(piece.begins)} and {end_words(piece.ends)}"
        yield Row(key=f"piece:{place}", cells=(piece_place(piece), str(piece.cut_mm), how))
