"""A search for ever better lays in a thread, one at a time: it tells the view what it finds, and can be ended."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from textual.message import Message
from textual.worker import get_current_worker

from store.errors import StoreError
from store.trade.layout.lay import Attempt
from tui.view import View

_GROUP = "lay"


@dataclass
class Found(Message):
    """A search has found a lay; ``number`` tells which search it was. A later one takes the place of one unread."""

    number: int
    attempt: Attempt

    def can_replace(self, message: Message) -> bool:
        return isinstance(message, Found) and message.number == self.number


@dataclass
class Ended(Message):
    """A search is over; ``say`` tells why where it found nothing."""

    number: int
    say: str


class LaySearch:
    """The search of one view; a newer one replaces the older.

    Args:
        view: is posted ``Found`` and ``Ended``, and asks whether they are of the search that counts.
    """

    def __init__(self, view: View) -> None:
        self._view = view
        self._number = 0
        self._done: float | None = None

    @property
    def is_going_on(self) -> bool:
        """Whether a search is going on."""
        return self._done is not None

    @property
    def percent(self) -> float:
        """How much of the search is done, in percent."""
        return 100 * (self._done or 0)

    def begin(self, search: Callable[[], Iterator[Attempt]]) -> None:
        """Begin a search; one that goes on is ended."""
        self._number += 1
        self._done = 0.0
        number = self._number
        self._view.run_worker(lambda: self._go_through(number, search), group=_GROUP, exclusive=True, thread=True)

    def end(self) -> None:
        """End the search; what it may still find is left alone."""
        self._number += 1
        self._done = None
        self._view.workers.cancel_group(self._view, _GROUP)

    def takes(self, event: Found) -> bool:
        """Whether a lay is of the search that goes on; notes how much of it is done."""
        if event.number != self._number or not self.is_going_on:
            return False
        self._done = event.attempt.done
        return True

    def ends(self, event: Ended) -> bool:
        """Whether it is the search that counts which is over."""
        if event.number != self._number:
            return False
        self._done = None
        return True

    def _go_through(self, number: int, search: Callable[[], Iterator[Attempt]]) -> None:
        worker = get_current_worker()
        say = ""
        try:
            for attempt in search():
                if worker.is_cancelled:
                    return
                self._view.post_message(Found(number, attempt))
        except StoreError as error:
            say = str(error)
        self._view.post_message(Ended(number, say))
