"""What the keys for changing and taking back do with each kind of line of a folder, and why not with the rest."""

from collections.abc import Coroutine

from store.trade.events import Count, Delivery, Destination, Laying, Order, Snag
from store.trade.flights import Flight
from store.trade.history import HistoryLine
from store.trade.jobs import Room
from store.trade.planning.activities import Times
from store.trade.readings import Reading, WithdrawnReading
from tui.errands.errands import Errands
from tui.folder.page import Fact

WORKED_OUT = "Times are worked out from what is on file: the promised day (j), orders, deliveries, readings, layings."
GONE = "This line was taken back and stays as it was; file the reading again with r."


def change_of(errands: Errands, ref: str, fact: Fact | None) -> Coroutine[None, None, bool] | None:
    """Return the errand by which a line is changed; None where it is not one that can be."""
    errand: Coroutine[None, None, bool] | None = None
    match fact:
        case Room():
            errand = errands.change_room(ref, fact)
        case Flight():
            errand = errands.change_flight(ref, fact)
        case Snag():
            errand = errands.mend(ref, fact)
        case Laying(ended_at=None):
            errand = errands.lay(ref, fact.room)
        case Reading():
            errand = errands.put_reading_right(ref, fact)
        case Order():
            errand = errands.confirm(ref, fact)
        case Delivery(lines=lines) if any(line.damaged_packs for line in lines):
            errand = errands.claim(ref, [line.product for line in lines if line.damaged_packs])
        case Count(to=Destination.RETURN):
            errand = errands.credit(ref, fact.product)
    return errand


def why_not_changed(fact: Fact | None) -> str:
    """Return why a line is not changed, and what is done instead."""
    if isinstance(fact, Times):
        return WORKED_OUT
    if isinstance(fact, WithdrawnReading):
        return GONE
    if fact is None:
        return "There is no line to change here; the job's own card is changed with j."
    return "Such a line is not changed: take it back with x, and file it again."


def taking_back_of(errands: Errands, ref: str, fact: Fact | None) -> Coroutine[None, None, bool] | None:
    """Return the errand by which a line is taken back, a room or stairs out of the job; None where it stays."""
    match fact:
        case None | Times() | WithdrawnReading() | HistoryLine():
            return None
        case Room():
            return errands.remove_room(ref, fact)
        case Flight():
            return errands.remove_flight(ref, fact)
        case _:
            return errands.take_back(ref, fact)


def why_not_taken_back(fact: Fact | None) -> str:
    """Return why a line is not taken back, and what is done instead."""
    match fact:
        case Times():
            return WORKED_OUT
        case WithdrawnReading():
            return GONE
        case HistoryLine():
            return "The history stays; take the line itself back, in its own section."
        case _:
            return "There is no line to take back here."
