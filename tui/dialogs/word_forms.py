"""The short forms that take a few words: a snag, a note, and why something is taken back."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.events import NoteDraft, SnagDraft
from tui.dialogs.dialog import Check, Dialog, nothing_to_say
from tui.dialogs.parts import MOMENT_HINT, moment_field
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line


class SnagForm(Dialog[SnagDraft]):
    """Asks what is to be put right; answers a ``SnagDraft``. A snag on file can be mended here too."""

    def __init__(
        self,
        *,
        rooms: Sequence[str],
        clock: WallClock,
        check: Check[SnagDraft],
        draft: SnagDraft | None = None,
    ) -> None:
        super().__init__("Change a snag" if draft else "Put a snag on file", check)
        self._clock, self._is_on_file = clock, draft is not None
        where = [("", "the whole job"), *((room, room) for room in rooms)]
        self._what = TextField("what", "What", draft.what if draft else "", hint="Like Skirting loose by the door.")
        self._room = SelectField("room", "Where", where, draft.room if draft else "", hint="Space opens the list.")
        self._at = moment_field("at", "Seen at", clock, draft.at if draft else None)
        mended = clock.typed(draft.mended_at) if draft and draft.mended_at else ""
        self._mended = TextField(
            "mended_at",
            "Mended at",
            mended,
            hint=f"Empty while it is to be done. {MOMENT_HINT}",
            echo=clock.echo,
        )

    def questions(self) -> Iterable[Widget]:
        yield self._what
        yield self._room
        yield self._at
        if self._is_on_file:
            yield self._mended

    def fill_in(self, slip: Slip) -> SnagDraft:
        what = slip.read(self._what, read_text, "-")
        if not what:
            slip.wrong("what", "Say what is to be put right.")
        return SnagDraft(
            at=slip.read(self._at, self._clock.read, self._clock.now),
            what=what,
            room=self._room.raw,
            mended_at=slip.read_if_given(self._mended, self._clock.read),
        )


class NoteForm(Dialog[NoteDraft]):
    """Asks for a line anybody should know who opens the job; answers a ``NoteDraft``."""

    def __init__(self, *, clock: WallClock, check: Check[NoteDraft], text: str = "") -> None:
        super().__init__("Write a note", check)
        self._clock = clock
        self._text = TextField("text", "Note", text, hint="What anybody should know who opens this job.")
        # A note that is begun is gone on with; selected, it would be gone with the first key.
        self._text.answer().select_on_focus = False
        self._at = moment_field("at", "When", clock)

    def questions(self) -> Iterable[Widget]:
        yield self._text
        yield self._at

    def fill_in(self, slip: Slip) -> NoteDraft:
        text = slip.read(self._text, read_text, "-")
        if not text:
            slip.wrong("text", "Write at least a word.")
        return NoteDraft(at=slip.read(self._at, self._clock.read, self._clock.now), text=text)


class TakeBack(Dialog[str]):
    """Asks why something is taken back; answers the reason.

    Args:
        what: what is taken back, in words: “the reading of Tue 17 Nov 09:30 (20.5 °C and 52 %)”.
        follows: what else follows from it, in a sentence; may be empty.
    """

    def __init__(self, *, what: str, follows: str = "") -> None:
        super().__init__("Take back", nothing_to_say, save="Take back")
        self._what, self._follows = what, follows
        self._why = TextField("why", "Why", hint="Like Read in the wrong room.")

    def questions(self) -> Iterable[Widget]:
        yield Line(f"This takes back {self._what}. The history keeps both.")
        if self._follows:
            yield Line(self._follows, classes="caution")
        yield self._why

    def fill_in(self, slip: Slip) -> str:
        why = slip.read(self._why, read_text, "-")
        if not why:
            slip.wrong("why", "Say in a few words why.")
        return why
