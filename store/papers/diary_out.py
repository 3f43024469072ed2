"""People and bookings written for a folder; what somebody cannot do, and days that are not off, are left out."""

from store.papers.events_out import Entry, kept
from store.trade.bookings import BookingDraft, Part
from store.trade.people import DaysOff, PersonDraft


def person(draft: PersonDraft) -> Entry:
    """Write somebody of the firm."""
    until = draft.isocyanates_until
    return kept(
        {
            "name": draft.name,
            "herringbone": draft.herringbone or None,
            "stairs": draft.stairs or None,
            "isocyanates_until": until.isoformat() if until else None,
            "days_off": [_days_off(one) for one in draft.days_off] or None,
        }
    )


def _days_off(one: DaysOff) -> Entry:
    return kept({"from": one.first.isoformat(), "to": one.last.isoformat(), "reason": one.reason or None})


def booking(draft: BookingDraft) -> Entry:
    """Write a booking; its mark and its changes let calendars know it again."""
    return kept(
        {
            "person": draft.person,
            "room": draft.room or None,
            "from": draft.first.isoformat(),
            "to": draft.last.isoformat(),
            "part": None if draft.part is Part.WHOLE else draft.part.value,
            "mark": draft.mark or None,
            "changes": draft.changes or None,
        }
    )
