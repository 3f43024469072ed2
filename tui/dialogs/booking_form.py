"""The form for a booking: who, on which floor, from when to when."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from textual.widget import Widget

from store.trade.bookings import BookingDraft, Part
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import DAY_HINT, day_field
from tui.dialogs.slip import Slip
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import Option, SelectField
from tui.words.diary import PARTS
from tui.words.wording import upper


@dataclass(frozen=True, slots=True, kw_only=True)
class BookingWish:
    """What is asked for: a job by its reference, and the booking."""

    ref: str
    draft: BookingDraft


def where_of(ref: str, room: str) -> str:
    """Return the value of a place to choose: a job and its room, or the whole job."""
    return f"{ref}\n{room}"


class BookingForm(Dialog[BookingWish]):
    """Asks for a booking; answers a ``BookingWish``.

    Args:
        people: the names to choose from.
        where: jobs and rooms to choose from, their values by ``where_of``.
        clock: the firm's wall clock.
        check: what the shop finds wrong.
        wish: what the form is filled with at first.
        is_new: whether it is filed for the first time.
    """

    def __init__(
        self,
        *,
        people: Sequence[str],
        where: Sequence[Option],
        clock: WallClock,
        check: Check[BookingWish],
        wish: BookingWish,
        is_new: bool = True,
    ) -> None:
        super().__init__("Book somebody" if is_new else "Change a booking", check)
        self._clock, self._draft = clock, wish.draft
        draft = wish.draft
        start = where_of(wish.ref, draft.room) if wish.ref else (where[0][0] if where else "")
        self._person = SelectField(
            "person", "Who", [(one, one) for one in people], draft.person, hint="Space opens it."
        )
        self._where = SelectField("where", "Where", where, start, hint="Space opens the list of open jobs and rooms.")
        self._first = day_field("first", "First day", clock, draft.first)
        last = None if draft.last == draft.first else draft.last
        self._last = day_field("last", "Last day", clock, last, hint=f"Empty for one day. {DAY_HINT}")
        parts = [(part.value, upper(words)) for part, words in PARTS.items()]
        self._part = SelectField("part", "How long", parts, draft.part.value, hint="Half a day is one day.")

    def questions(self) -> Iterable[Widget]:
        yield self._person
        yield self._where
        yield self._first
        yield self._last
        yield self._part

    def fill_in(self, slip: Slip) -> BookingWish:
        first = slip.read(self._first, self._clock.read_day, self._draft.first)
        last = slip.read_if_given(self._last, self._clock.read_day) or first
        ref, _, room = self._where.raw.partition("\n")
        part = Part(self._part.raw)
        draft = BookingDraft(person=self._person.raw, first=first, last=last, room=room, part=part)
        return BookingWish(ref=ref, draft=draft)
