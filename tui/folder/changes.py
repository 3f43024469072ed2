"""What the key for changing does with each kind of line of a folder, and why it does nothing with the rest."""

from collections.abc import Coroutine

from store.trade.events import Count, Destination, Laying, Order, Snag
from store.trade.flights import Flight
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
