"""The form for a reading; the kind of reading decides what is asked."""

from collections.abc import Callable, Iterable, Sequence

from textual import on
from textual.widget import Widget

from store.trade.readings import (
    KINDS,
    Air,
    BoardMoisture,
    Carbide,
    Hygrometer,
    Measure,
    ReadingDraft,
    Straightedge,
    Surface,
    TimberSubfloor,
)
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field, room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_mm, read_number, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.vocabulary import READING_KINDS

_ASKED = {
    "air": ("temp_c", "rh_percent"),
    "carbide": ("percent",),
    "hygrometer": ("rh_percent",),
    "timber_subfloor": ("percent",),
    "board": ("percent",),
    "surface": ("temp_c",),
    "straightedge": ("span_mm", "gap_mm"),
}
# Common practice with acetylene and caustic residue, and with pipes in a heated floor; no source.
_CAUTIONS = {
    "carbide": "Open the bottle outdoors, away from flames: the gas burns, the residue burns the skin. "
    "On a heated floor chisel only at marked points.",
    "hygrometer": "On a heated floor drill only at marked points: pipes and cables lie in it.",
}


class ReadingForm(Dialog[ReadingDraft]):
    """Asks what an instrument said; answers a ``ReadingDraft``.

    Args:
        rooms: the names of the job's rooms, at least one.
        clock: the firm's wall clock.
        limit_for: says in a sentence what a reading of a kind must be in a room; empty if nothing is said.
        check: what the shop finds wrong with the reading.
        first: the room and the kind to begin with.
        people: the names of those who can have taken it.
    """

    DEFAULT_CSS = """
    ReadingForm #limit { padding: 0 0 0 18; color: $text-secondary; }
    """

    def __init__(
        self,
        *,
        rooms: Sequence[str],
        clock: WallClock,
        limit_for: Callable[[str, str], str],
        check: Check[ReadingDraft],
        first: tuple[str, str] = ("", "air"),
        people: Sequence[str] = (),
    ) -> None:
        super().__init__("Put a reading on file", check)
        self._clock, self._limit_for = clock, limit_for
        kinds = [(kind, READING_KINDS[kind]) for kind in KINDS]
        self._kind = SelectField("kind", "Reading", kinds, first[1], hint="Space opens the list.")
        self._room = SelectField("room", "Room", room_options(rooms), first[0], hint="Space opens the list.")
        self._at = moment_field("at", "Read at", clock)
        self._figures = {
            "temp_c": TextField("temp_c", "Temperature °C", hint="Like 20.5."),
            "rh_percent": TextField("rh_percent", "Humidity %", hint="Like 52."),
            "percent": TextField("percent", "Moisture %", hint="Like 1.8."),
            "span_mm": TextField("span_mm", "Straightedge", "2 m", hint="Its length, like 2 m or 2000."),
            "gap_mm": TextField("gap_mm", "Widest gap mm", hint="Under the straightedge, like 2 or 2.5."),
        }
        takers = [("", "not said"), *((name, name) for name in people)]
        self._taken_by = SelectField("taken_by", "Taken by", takers, hint="Space opens the list.")
        self._note = TextField("note", "Note", hint="The place in the room, the instrument; may stay empty.")
        self._limit = Line("", id="limit")
        self._caution = Line("", classes="caution note")

    def questions(self) -> Iterable[Widget]:
        yield self._kind
        yield self._room
        yield self._at
        yield from self._figures.values()
        yield self._limit
        yield self._taken_by
        yield self._note
        yield self._caution

    def on_mount(self) -> None:
        super().on_mount()
        self._ask_for_kind()

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if event.field in {self._kind, self._room}:
            self._ask_for_kind()

    def _ask_for_kind(self) -> None:
        kind = self._kind.raw
        for name, field in self._figures.items():
            field.display = name in _ASKED[kind]
        limit = self._limit_for(self._room.raw, kind)
        self._limit.say(limit)
        self._limit.display = bool(limit)
        self._caution.say(_CAUTIONS.get(kind, ""))
        self._caution.display = kind in _CAUTIONS

    def fill_in(self, slip: Slip) -> ReadingDraft:
        return ReadingDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            measure=self._measure(slip),
            taken_by=self._taken_by.raw,
            note=slip.read(self._note, read_text, ""),
        )

    def _measure(self, slip: Slip) -> Measure:
        def number(name: str, otherwise: float) -> float:
            return slip.read(self._figures[name], read_number, otherwise)

        kind = KINDS[self._kind.raw]
        if kind is Air:
            return Air(temp_c=number("temp_c", 20.0), rh_percent=number("rh_percent", 50.0))
        if kind is Hygrometer:
            return Hygrometer(rh_percent=number("rh_percent", 50.0))
        if kind is Surface:
            return Surface(temp_c=number("temp_c", 20.0))
        if kind is Straightedge:
            span = slip.read(self._figures["span_mm"], read_mm, 2000)
            return Straightedge(span_mm=span, gap_mm=number("gap_mm", 1.0))
        percent = number("percent", 1.0)
        if kind is Carbide:
            return Carbide(percent=percent)
        return TimberSubfloor(percent=percent) if kind is TimberSubfloor else BoardMoisture(percent=percent)
