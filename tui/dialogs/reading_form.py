"""The form for a reading, new or put right; the kind of reading decides what is asked."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from dataclasses import fields

from textual import on
from textual.widget import Widget

from store.trade.evidence import FIGURES_OF, Evidence
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
from tui.dialogs.slip import Reader, Slip, Value
from tui.typed.figures import Misread, read_hours, read_mm, read_number, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.evidence import say_doubt
from tui.words.vocabulary import READING_KINDS
from tui.words.wording import typed_number

_ASKED = {
    "air": ("temp_c", "rh_percent"),
    "carbide": ("percent",),
    "hygrometer": ("rh_percent",),
    "timber_subfloor": ("percent",),
    "board": ("percent",),
    "surface": ("temp_c",),
    "straightedge": ("span_mm", "gap_mm"),
}
_FIGURES = (
    ("temp_c", "Temperature °C", "Like 20.5."),
    ("rh_percent", "Humidity %", "Like 52."),
    ("percent", "Moisture %", "Like 1.8."),
    ("span_mm", "Straightedge", "Its length, like 2 m or 2000."),
    ("gap_mm", "Widest gap mm", "Under the straightedge, like 2 or 2.5."),
)
_BEHIND = (
    ("point", "Place in the room", "Like by the door, or point 3; may stay empty."),
    ("instrument", "Instrument", "Which one it was; may stay empty."),
    ("sample_g", "Sample g", "Like 50; may stay empty."),
    ("gauge_bar", "Gauge bar", "What the bottle showed, like 0.9; may stay empty."),
    ("depth_mm", "From how deep", "In mm, like 30; may stay empty."),
    ("hours", "Hours in place", "Like 72 or 3 days; may stay empty."),
)
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
        standing: the reading to be put right, with which the form is filled; it then asks for the reason too.
    """

    DEFAULT_CSS = """
    ReadingForm #limit, ReadingForm #doubt { padding: 0 0 0 18; color: $text-secondary; }
    ReadingForm #doubt { color: $text-warning; }
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
        standing: ReadingDraft | None = None,
    ) -> None:
        super().__init__("Put a reading right" if standing else "Put a reading on file", check)
        self._clock, self._limit_for = clock, limit_for
        stands = _as_typed(standing)
        kinds = [(kind, READING_KINDS[kind]) for kind in KINDS]
        self._kind = SelectField("kind", "Reading", kinds, first[1], hint="Space opens the list.")
        self._room = SelectField("room", "Room", room_options(rooms), first[0], hint="Space opens the list.")
        self._at = moment_field("at", "Read at", clock, standing.at if standing else None)
        self._figures = {name: TextField(name, label, stands[name], hint=hint) for name, label, hint in _FIGURES}
        taker = standing.taken_by if standing else ""
        takers = [("", "not said"), *((name, name) for name in dict.fromkeys([*people, taker]) if name)]
        self._taken_by = SelectField("taken_by", "Taken by", takers, taker, hint="Space opens the list.")
        self._note = TextField("note", "Note", standing.note if standing else "", hint="May stay empty.")
        self._behind = {name: TextField(name, label, stands[name], hint=hint) for name, label, hint in _BEHIND}
        self._why = TextField("why", "Why", hint="Why the old line is wrong, like Two figures were swapped.")
        self._is_new = standing is None
        self._limit = Line("", id="limit")
        self._doubt = Line("", id="doubt")
        self._caution = Line("", classes="caution note")

    def questions(self) -> Iterable[Widget]:
        yield self._kind
        yield self._room
        yield self._at
        yield from self._figures.values()
        yield self._limit
        yield self._taken_by
        yield self._note
        yield from self._behind.values()
        yield self._doubt
        if not self._is_new:
            yield self._why
        yield self._caution

    @property
    def why(self) -> str:
        """The reason that was given for putting a reading right."""
        read = read_text(self._why.raw)
        return "" if isinstance(read, Misread) else read

    def on_mount(self) -> None:
        super().on_mount()
        self._ask_for_kind()

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if event.field in {self._kind, self._room}:
            self._ask_for_kind()
        self._say_doubt()

    def _ask_for_kind(self) -> None:
        kind = self._kind.raw
        for name, field in self._figures.items():
            field.display = name in _ASKED[kind]
        for name, field in self._behind.items():
            field.display = name in {"point", "instrument", *FIGURES_OF.get(kind, ())}
        limit = self._limit_for(self._room.raw, kind)
        self._limit.say(limit)
        self._limit.display = bool(limit)
        self._caution.say(_CAUTIONS.get(kind, ""))
        self._caution.display = kind in _CAUTIONS

    def _say_doubt(self) -> None:
        percent = read_number(self._figures["percent"].raw)
        if KINDS[self._kind.raw] is not Carbide or isinstance(percent, Misread):
            words = ""
        else:
            words = say_doubt(percent, self._evidence(Slip()))
        self._doubt.say(f"▲ {words}" if words else "")
        self._doubt.display = bool(words)

    def fill_in(self, slip: Slip) -> ReadingDraft:
        if not self._is_new and not self.why:
            slip.wrong("why", "Say in a few words why.")
        return ReadingDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            measure=self._measure(slip),
            taken_by=self._taken_by.raw,
            note=slip.read(self._note, read_text, ""),
            evidence=self._evidence(slip),
        )

    def _evidence(self, slip: Slip) -> Evidence:
        asked, behind = FIGURES_OF.get(self._kind.raw, ()), self._behind

        def given(name: str, reader: Reader[Value]) -> Value | None:
            return slip.read_if_given(behind[name], reader) if name in asked else None

        return Evidence(
            point=slip.read(behind["point"], read_text, ""),
            instrument=slip.read(behind["instrument"], read_text, ""),
            sample_g=given("sample_g", read_number),
            gauge_bar=given("gauge_bar", read_number),
            depth_mm=given("depth_mm", read_mm),
            hours=given("hours", read_hours),
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


def _as_typed(standing: ReadingDraft | None) -> defaultdict[str, str]:
    """Return the figures of a reading that stands on file, and what stands behind them, as they are typed."""
    both = (standing.measure, standing.evidence) if standing else ()
    found = {field.name: getattr(one, field.name) for one in both for field in fields(one)}
    given = {name: value for name, value in found.items() if value is not None}
    words = {name: value if isinstance(value, str) else typed_number(value) for name, value in given.items()}
    return defaultdict(str, {"span_mm": "2 m"} | words)
