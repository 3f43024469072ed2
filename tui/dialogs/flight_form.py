"""The form for a flight of stairs, which says what its steps come to as one types."""

from collections.abc import Iterable, Sequence

from textual import on
from textual.widget import Widget

from store.errors import Refused
from store.trade.flight_sum import flight_sum
from store.trade.flights import FlightDraft, Turn
from store.trade.products import Board
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_mm, read_text, read_whole
from tui.typed.outline import read_ring, typed_ring
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.stairs import STAIRS_CAUTION, TURNS, code_options, say_fault, say_steps
from tui.words.wording import clean, counted

_USUAL = FlightDraft(name="", rise_mm=0, width_mm=0, code="")


class FlightForm(Dialog[FlightDraft]):
    """Asks for a flight; answers a ``FlightDraft``.

    Args:
        boards: the boards on file, to clad it with.
        check: what the shop finds wrong with the flight.
        draft: the flight to change; None for a new one.
        code: the building code to begin with.
    """

    DEFAULT_CSS = """
    FlightForm .flight--sum { padding: 0 0 0 18; color: $text-secondary; height: auto; }
    """

    def __init__(
        self,
        *,
        boards: Sequence[Board],
        check: Check[FlightDraft],
        draft: FlightDraft | None = None,
        code: str = "",
    ) -> None:
        super().__init__("Change the stairs" if draft else "Add stairs", check)
        start = draft or _USUAL
        self._called = TextField("name", "Stairs", start.name, hint="Like Hall stairs.")
        self._rise = _mm("rise_mm", "Floor to floor mm", start.rise_mm, "Finished floor to finished floor, like 2600.")
        self._wide = _mm("width_mm", "Width mm", start.width_mm, "Of the treads, like 860.")
        self._going = _mm("going_mm", "Going mm", start.going_mm, "Nosing to nosing, like 225; empty: from the length.")
        self._run = _mm("run_mm", "Length there is", start.run_mm, "Level, for the straight treads, like 2700.")
        risers = str(start.risers) if start.risers else ""
        self._risers = TextField("risers", "Risers", risers, hint="As counted; empty: the fewest the code allows.")
        self._nosing = TextField(
            "nosing_mm", "Nosing mm", str(start.nosing_mm), hint="How far a tread stands out, like 25."
        )
        self._code = SelectField(
            "code", "Held against", code_options(), start.code or code, hint="The local building code decides."
        )
        self._open = TickField("open_risers", "Open risers", start.open_risers, hint="Yes where one can look through.")
        turns = [(one.value, TURNS[one]) for one in Turn]
        self._turn = SelectField("turn", "It goes up", turns, start.turn.value, hint="Space opens the list.")
        self._winders = TextField(
            "winders",
            "Winders lie in",
            typed_ring(start.winders) if start.winders else "",
            hint="900 x 900, or walls: 900 right, 900 up, …; empty for a landing.",
        )
        self._winder_treads = TextField(
            "winder_treads", "Winders", str(start.winder_treads or ""), hint="How many lie in it, like 3."
        )
        self._board = SelectField(
            "board",
            "Clad with",
            [("", "ready treads, no board"), *product_options(boards)],
            start.board or "",
            hint="The board that treads and risers are cut from.",
        )
        self._sum = Line("", classes="flight--sum")

    def questions(self) -> Iterable[Widget]:
        yield self._called
        yield self._rise
        yield self._wide
        yield self._going
        yield self._run
        yield self._risers
        yield self._sum
        yield self._code
        yield self._board
        yield self._nosing
        yield self._open
        yield self._turn
        yield self._winders
        yield self._winder_treads
        yield Line(STAIRS_CAUTION, classes="caution note")

    def on_mount(self) -> None:
        super().on_mount()
        self._reckon()

    @on(Field.Changed)
    def _answered(self) -> None:
        self._reckon()

    def _reckon(self) -> None:
        """Say what the steps come to, as far as what is typed can be read."""
        self._winders.display = self._winder_treads.display = self._turns
        slip = Slip()
        draft = self.fill_in(slip)
        if slip.problems or not (draft.rise_mm and draft.width_mm and (draft.going_mm or draft.run_mm)):
            self._sum.say("")
            return
        try:
            found = flight_sum(draft.measured)
        except Refused as no:
            self._sum.say(f"= {no}")
            return
        broken = [say_fault(one, found.steps.code_source) for one in found.checks if not one.ok]
        more = f" And {counted(len(broken) - 1, 'more limit')}." if len(broken) > 1 else ""
        says = f"✗ {clean(broken[0])}{more}" if broken else "✓ within the limits looked at"
        self._sum.say(f"= {say_steps(found)}; {says}")

    @property
    def _turns(self) -> bool:
        return self._turn.raw != Turn.STRAIGHT.value

    def fill_in(self, slip: Slip) -> FlightDraft:
        return FlightDraft(
            name=slip.read(self._called, read_text, ""),
            rise_mm=slip.read(self._rise, read_mm, 0),
            width_mm=slip.read(self._wide, read_mm, 0),
            code=self._code.raw,
            going_mm=slip.read_if_given(self._going, read_mm),
            run_mm=slip.read_if_given(self._run, read_mm),
            risers=slip.read_if_given(self._risers, read_whole),
            nosing_mm=slip.read(self._nosing, read_mm, 0),
            open_risers=self._open.yes,
            turn=Turn(self._turn.raw),
            winders=slip.read_if_given(self._winders, read_ring) or () if self._turns else (),
            winder_treads=slip.read_if_given(self._winder_treads, read_whole) or 0 if self._turns else 0,
            board=self._board.raw or None,
        )


def _mm(key: str, label: str, value: int | None, hint: str) -> TextField:
    """A field for a length, empty where there is none yet."""
    return TextField(key, label, str(value) if value else "", hint=hint)
