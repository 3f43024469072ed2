"""People and bookings read from a folder; older folders have neither skills nor days off nor bookings."""

from dataclasses import replace

from store.errors import Problem
from store.papers.named import Named
from store.papers.spot import Spot, day, name, opened, shown, text, truth, whole_from, word_of
from store.trade.bookings import BookingDraft, Part, problems_with_booking
from store.trade.people import DaysOff, PersonDraft, problems_with_person

_LONGEST_MARK = 100
_KEYS = {"first": "from", "last": "to"}


def person(spot: Spot) -> PersonDraft:
    """Return somebody of the firm."""
    keys = opened(spot, "name herringbone stairs isocyanates_until days_off")
    draft = PersonDraft(
        name=keys.need("name", name),
        herringbone=keys.may("herringbone", truth, False),
        stairs=keys.may("stairs", truth, False),
        isocyanates_until=keys.may("isocyanates_until", day, None),
        days_off=keys.each("days_off", _days_off),
    )
    keys.vet(problems_with_person(draft))
    return draft


def _days_off(spot: Spot) -> DaysOff:
    keys = opened(spot, "from to reason")
    first = keys.need("from", day)
    last = keys.need("to", day)
    if last < first:
        keys.vet([Problem(field="to", say="These days off end before they start.")])
    return DaysOff(first=first, last=last, reason=keys.may("reason", text, ""))


def booking(spot: Spot, named: Named) -> BookingDraft:
    """Return a booking; somebody may be named who works for the firm no longer."""
    keys = opened(spot, "person room from to part mark changes")
    draft = BookingDraft(
        person=keys.need("person", name),
        room=keys.may("room", named.room, ""),
        first=keys.need("from", day),
        last=keys.need("to", day),
        part=keys.may("part", word_of(Part), Part.WHOLE),
        mark=keys.may("mark", _mark, ""),
        changes=keys.may("changes", whole_from(0), 0),
    )
    problems = problems_with_booking(draft, named.rooms)
    keys.vet([replace(one, field=_KEYS.get(one.field, one.field)) for one in problems])
    return draft


def _mark(spot: Spot) -> str:
    given = name(spot)
    if len(given) > _LONGEST_MARK:
        spot.refuse(f"“{shown(given)}” is longer than {_LONGEST_MARK} characters.")
    return given
