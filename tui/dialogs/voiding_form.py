"""The form for what makes moisture readings void: a leak, a wet trade, heating that failed, new compound."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.voiding import VoidedBy, VoidingDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field, room_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.vocabulary import VOIDED_BY


class VoidingForm(Dialog[VoidingDraft]):
    """Asks what happened to a subfloor; answers a ``VoidingDraft``.

    Args:
        rooms: the names of the job's rooms, at least one.
        clock: the firm's wall clock.
        check: what the shop finds wrong with it.
        room: the room to begin with.
    """

    def __init__(self, *, rooms: Sequence[str], clock: WallClock, check: Check[VoidingDraft], room: str = "") -> None:
        super().__init__("Make moisture readings void", check)
        self._clock = clock
        self._room = SelectField("room", "Room", room_options(rooms), room, hint="Space opens the list.")
        causes = [(cause.value, VOIDED_BY[cause]) for cause in VoidedBy]
        self._cause = SelectField("cause", "What happened", causes, hint="Space opens the list.")
        self._at = moment_field("at", "When", clock)
        self._note = TextField("note", "Note", hint="Where, and how far it went; may stay empty.")

    def questions(self) -> Iterable[Widget]:
        yield self._room
        yield self._cause
        yield self._at
        yield self._note
        yield Line(
            "Moisture readings of this subfloor from before that no longer count; they stay on file.",
            classes="muted note",
        )

    def fill_in(self, slip: Slip) -> VoidingDraft:
        return VoidingDraft(
            room=self._room.raw,
            at=slip.read(self._at, self._clock.read, self._clock.now),
            cause=VoidedBy(self._cause.raw),
            note=slip.read(self._note, read_text, ""),
        )
