"""The form for the customer's signature."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.trade.events import HandoverDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field
from tui.dialogs.slip import Slip
from tui.typed.figures import read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.wording import clean


class SignForm(Dialog[HandoverDraft]):
    """Asks who signed for the floor and when; answers a ``HandoverDraft``.

    Args:
        customer: whom the floor is for, to begin with.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the handover.
        snags: what is still to be put right, each in the words it was seen in.
    """

    def __init__(
        self, *, customer: str, clock: WallClock, check: Check[HandoverDraft], snags: Sequence[str] = ()
    ) -> None:
        super().__init__("Hand over the floor", check)
        self._snags = tuple(snags)
        self._clock = clock
        self._by = TextField("by", "Signed by", customer, hint="The name under the handover sheet.")
        self._at = moment_field("signed_at", "Signed at", clock)

    def questions(self) -> Iterable[Widget]:
        yield self._by
        yield self._at
        if self._snags:
            seen = ", ".join(f"“{clean(snag)}”" for snag in self._snags)
            yield Line(f"Still to put right: {seen}. Settle with who signs when it is done.", classes="caution note")
        yield Line("Leave the care sheet, and say when the floor may take its full load.", classes="muted note")

    def fill_in(self, slip: Slip) -> HandoverDraft:
        by = slip.read(self._by, read_text, "-")
        if not by:
            slip.wrong("by", "Write the name of who signed.")
        return HandoverDraft(signed_at=slip.read(self._at, self._clock.read, self._clock.now), by=by)
