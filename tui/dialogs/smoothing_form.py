"""The form for compound that was laid to level a subfloor."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.events import SmoothingDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field, room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line


class SmoothingForm(Dialog[SmoothingDraft]):
    """Asks which subfloor was levelled and when; answers a ``SmoothingDraft``."""

    def __init__(self, *, rooms: Sequence[str], clock: WallClock, check: Check[SmoothingDraft], room: str = "") -> None:
        super().__init__("The subfloor is levelled", check)
        self._clock = clock
        self._room = SelectField("room", "Room", room_options(rooms), room, hint="Space opens the list.")
        self._at = moment_field("at", "Done at", clock)
        self._note = TextField("note", "Note", hint="The compound, the bags used; may stay empty.")

    def questions(self) -> Iterable[Widget]:
        yield self._room
        yield self._at
        yield self._note
        yield Line("Readings with the straightedge from before this no longer count.", classes="muted note")
        yield Line("Grinding and mixing raise fine dust: extract it and wear a mask.", classes="caution")

    def fill_in(self, slip: Slip) -> SmoothingDraft:
        return SmoothingDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            note=slip.read(self._note, read_text, ""),
        )
