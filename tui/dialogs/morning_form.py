"""The form for the morning of laying: what is looked at in a room before the first board."""

from collections.abc import Callable, Iterable, Sequence

from textual import on
from textual.widget import Widget

from store.trade.morning import MorningCheckDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field, room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_number, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line

# Facts and limits with their sources; local rules and the data sheets come first.
CAUTIONS = (
    "Hardwood dust harms lungs and nose: EU limit 2 mg/m³ (Dir. 2004/37/EC), Great Britain 3 (HSE); extract, do not "
    "sweep. Silica 0.1 mg/m³: do not cut a screed dry. Drying oils: rags soaked or hung up singly outdoors, they "
    "catch fire by themselves. Packs: no more than two can carry. Local rules and data sheets come first."
)


class MorningForm(Dialog[MorningCheckDraft]):
    """Asks for the morning list of a room; answers a ``MorningCheckDraft``, whatever was found.

    Args:
        rooms: the rooms whose floor can be begun, at least one.
        clock: the firm's wall clock.
        told: says what is not right on a list, in a sentence; empty where all is.
        check: what the shop finds wrong with the list itself.
        room: the room to begin with.
        people: the names of those who can have looked.
        who: the one to begin with.
    """

    DEFAULT_CSS = """
    MorningForm #amiss { padding: 0 0 0 18; color: $text-warning; height: auto; }
    """

    def __init__(
        self,
        *,
        rooms: Sequence[str],
        clock: WallClock,
        told: Callable[[MorningCheckDraft], str],
        check: Check[MorningCheckDraft],
        room: str = "",
        people: Sequence[str] = (),
        who: str = "",
    ) -> None:
        super().__init__("Before the first board", check)
        self._clock, self._told = clock, told
        self._room = SelectField("room", "Room", room_options(rooms), room, hint="Space opens the list.")
        self._at = moment_field("at", "Looked at", clock)
        self._temp = TextField("temp_c", "Air °C", hint="Like 20.5.")
        self._rh = TextField("rh_percent", "Air humidity %", hint="Like 52.")
        self._surface = TextField("surface_c", "Base °C", hint="Its surface: 15 °C or more, 3 °C above the dew point.")
        self._mixed = TickField("mixed", "Packs mixed", hint="Boards from several opened packs, sound and of one look.")
        self._wedges = TickField("wedges", "Wedges ready", hint="For the gap along the walls. Space changes it.")
        self._extraction = TickField("extraction", "Extraction on", hint="At the saw and the sander. Space changes it.")
        lookers = [("", "not said"), *((name, name) for name in people)]
        self._who = SelectField("who", "Looked by", lookers, who, hint="Space opens the list.")
        self._note = TextField("note", "Note", hint="May stay empty.")
        self._amiss = Line("", id="amiss")

    def questions(self) -> Iterable[Widget]:
        yield self._room
        yield self._at
        yield self._temp
        yield self._rh
        yield self._surface
        yield self._mixed
        yield self._wedges
        yield self._extraction
        yield self._who
        yield self._note
        yield self._amiss
        yield Line(CAUTIONS, classes="caution note")

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        figures = [read_number(field.raw) for field in (self._temp, self._rh, self._surface)]
        say = "" if any(isinstance(one, Misread) for one in figures) else self._told(self.fill_in(Slip()))
        self._amiss.say(f"▲ {say}" if say else "")

    def fill_in(self, slip: Slip) -> MorningCheckDraft:
        return MorningCheckDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            temp_c=slip.read(self._temp, read_number, 20.0),
            rh_percent=slip.read(self._rh, read_number, 50.0),
            surface_c=slip.read(self._surface, read_number, 20.0),
            mixed=self._mixed.yes,
            wedges=self._wedges.yes,
            extraction=self._extraction.yes,
            who=self._who.raw,
            note=slip.read(self._note, read_text, ""),
        )
