"""The form that takes on a job, or changes its card."""

from collections.abc import Iterable

from textual.widget import Widget

from store.trade.jobs import CustomerDraft, JobDraft
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import DAY_HINT
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_text
from tui.typed.wall_clock import WallClock
from tui.widgets.fields import TextField
from tui.words.wording import typed_day


class TakeOnJob(Dialog[JobDraft]):
    """Asks who a floor is for and where; answers a ``JobDraft``.

    Args:
        clock: the firm's wall clock.
        check: what the shop finds wrong with the card.
        draft: the card to start from, or to change.
        ref: the reference to suggest for a new job.
    """

    def __init__(
        self, *, clock: WallClock, check: Check[JobDraft], draft: JobDraft | None = None, ref: str = ""
    ) -> None:
        super().__init__("Change the job's card" if draft else "Take on a job", check)
        start = draft or JobDraft(ref=ref, title="", customer=CustomerDraft(name=""))
        self._clock = clock
        self._ref = TextField("ref", "Reference", start.ref, hint="The firm's own number for the job, like L-0008.")
        self._for = TextField("title", "Job", start.title, hint="In a few words, like Oak in the reading room.")
        self._customer = TextField("customer", "Customer", start.customer.name, hint="Who the floor is for.")
        self._phone = TextField("phone", "Telephone", start.customer.phone, hint="May stay empty.")
        self._email = TextField("email", "E-mail", start.customer.email, hint="May stay empty.")
        self._address = TextField("address", "Address", start.address, hint="Where the floor is laid.")
        promised = typed_day(start.promised_on) if start.promised_on else ""
        self._promised = TextField("promised_on", "Promised for", promised, hint=DAY_HINT, echo=self._echo_promise)

    def questions(self) -> Iterable[Widget]:
        yield self._ref
        yield self._for
        yield self._customer
        yield self._phone
        yield self._email
        yield self._address
        yield self._promised

    def _echo_promise(self, text: str) -> str:
        day = self._clock.read_day(text)
        if isinstance(day, Misread):
            return ""
        over = ", ▲ over already" if day < self._clock.today else ""
        return f"{self._clock.say_day(day)}{over}"

    def fill_in(self, slip: Slip) -> JobDraft:
        return JobDraft(
            ref=slip.read(self._ref, read_text, ""),
            title=slip.read(self._for, read_text, ""),
            customer=CustomerDraft(
                name=slip.read(self._customer, read_text, ""),
                phone=slip.read(self._phone, read_text, ""),
                email=slip.read(self._email, read_text, ""),
            ),
            address=slip.read(self._address, read_text, ""),
            promised_on=slip.read_if_given(self._promised, self._clock.read_day),
        )
