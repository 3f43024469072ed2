"""Whatever the diary and the people's cards can hold, for tests that try any content."""

from datetime import date, timedelta

from hypothesis import strategies as st

from store.trade.bookings import BookingDraft, Part
from store.trade.people import DaysOff

parts = st.sampled_from(Part)


def days_off(one: date, other: date, reason: str) -> DaysOff:
    """Days off between two days in whichever order they are drawn."""
    return DaysOff(first=min(one, other), last=max(one, other), reason=reason)


def booked(person: str, first: date, length: int, room: str, part: Part, mark: str) -> BookingDraft:
    """A booking that may be filed: half days are one day long, and none goes beyond the calendar."""
    last = min(first + timedelta(days=length if part is Part.WHOLE else 0), date(2199, 12, 31))
    marked = mark if mark.strip() else ""
    return BookingDraft(person=person, first=first, last=last, room=room, part=part, mark=marked, changes=length)
