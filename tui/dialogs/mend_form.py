"""The form that says when a snag was put right."""

from collections.abc import Iterable
from datetime import datetime

from textual.widget import Widget

from store.trade.events import SnagDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field
from tui.dialogs.slip import Slip
from tui.typed.wall_clock import WallClock
from tui.widgets.safe import Line
from tui.words.vocabulary import the_room


class MendForm(Dialog[datetime]):
    """Asks when a snag was put right; answers that moment.

    Args:
        snag: what was to be put right.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the moment.
    """

    def __init__(self, *, snag: SnagDraft, clock: WallClock, check: Check[datetime]) -> None:
        super().__init__("A snag is put right", check)
        self._snag, self._clock = snag, clock
        self._at = moment_field("at", "Put right at", clock)

    def questions(self) -> Iterable[Widget]:
        where = f"In {the_room(self._snag.room)}: " if self._snag.room else ""
        yield Line(f"{where}{self._snag.what}")
        yield Line(f"Seen {self._clock.say(self._snag.at)}.", classes="muted")
        yield self._at

    def fill_in(self, slip: Slip) -> datetime:
        return slip.read(self._at, self._clock.read, self._clock.now)
