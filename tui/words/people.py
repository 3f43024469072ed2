"""What somebody can do and when they are away, in words."""

from datetime import date

from store.trade.people import DaysOff, PersonDraft
from tui.words.wording import clean, say_day


def card_of_person(person: PersonDraft, today: date) -> list[tuple[str, str]]:
    """Return a person's card as pairs of words."""
    card = [("Herringbone", _yes(person.herringbone)), ("Stairs", _yes(person.stairs))]
    until = person.isocyanates_until
    card.append(("Isocyanates", f"until {say_day(until, today)}" if until else "not trained"))
    card.append(("Days off", "; ".join(say_days_off(one, today) for one in person.days_off) or "none"))
    return card


def say_card(person: PersonDraft, today: date) -> str:
    """Return what is on a card beside the name, in one line; nothing for a card with a name alone."""
    can = [word for word, does in (("herringbone", person.herringbone), ("stairs", person.stairs)) if does]
    until = person.isocyanates_until
    if until is not None:
        over = "isocyanates: training ran out" if until < today else "isocyanates until"
        can.append(f"{over} {say_day(until, today)}")
    off = [say_days_off(one, today) for one in person.days_off if one.last >= today]
    can += [f"off {words}" for words in off]
    return "; ".join(can)


def say_days_off(one: DaysOff, today: date) -> str:
    """Return days off in words: “Thu 24 Dec to Mon 4 Jan 2027, Holiday”."""
    until = "" if one.first == one.last else f" to {say_day(one.last, today)}"
    return f"{say_day(one.first, today)}{until}" + (f", {clean(one.reason)}" if one.reason else "")


def _yes(does: bool) -> str:
    return "yes" if does else "no"
