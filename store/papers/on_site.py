"""What is noted on site beside readings, in a folder and out of it: morning lists, and what makes readings void."""

from store.papers.events_out import Entry, Stamp, figure, kept
from store.papers.named import Named
from store.papers.spot import Keys, Spot, instant, number, opened, text, truth, word_of
from store.trade.morning import MorningCheckDraft
from store.trade.readings import Air, Surface, problems_with_measure
from store.trade.voiding import VoidedBy, VoidingDraft


def morning(spot: Spot, named: Named) -> MorningCheckDraft:
    """Return a morning list; what it does not say was looked at and right, was not."""
    keys = opened(spot, "room at who temp_c rh_percent surface_c mixed wedges extraction note")
    draft = MorningCheckDraft(
        room=keys.need("room", named.room),
        at=keys.need("at", instant),
        who=keys.may("who", text, ""),
        temp_c=keys.need("temp_c", number),
        rh_percent=keys.need("rh_percent", number),
        surface_c=keys.need("surface_c", number),
        mixed=keys.may("mixed", truth, False),
        wedges=keys.may("wedges", truth, False),
        extraction=keys.may("extraction", truth, False),
        note=keys.may("note", text, ""),
    )
    keys.vet(problems_with_measure(Air(temp_c=draft.temp_c, rh_percent=draft.rh_percent)))
    _vet_surface(keys, draft)
    return draft


def _vet_surface(keys: Keys, draft: MorningCheckDraft) -> None:
    for problem in problems_with_measure(Surface(temp_c=draft.surface_c)):
        keys.spot("surface_c").refuse(problem.say)


def voiding(spot: Spot, named: Named) -> VoidingDraft:
    """Return something that made the moisture readings of a room void."""
    keys = opened(spot, "room at cause note")
    return VoidingDraft(
        room=keys.need("room", named.room),
        at=keys.need("at", instant),
        cause=keys.need("cause", word_of(VoidedBy)),
        note=keys.may("note", text, ""),
    )


def morning_out(draft: MorningCheckDraft, stamp: Stamp) -> Entry:
    """Write a morning list."""
    return kept(
        {
            "room": draft.room,
            "at": stamp(draft.at),
            "who": draft.who or None,
            "temp_c": figure(draft.temp_c),
            "rh_percent": figure(draft.rh_percent),
            "surface_c": figure(draft.surface_c),
            "mixed": draft.mixed,
            "wedges": draft.wedges,
            "extraction": draft.extraction,
            "note": draft.note or None,
        }
    )


def voiding_out(draft: VoidingDraft, stamp: Stamp) -> Entry:
    """Write what made moisture readings void."""
    return kept({"room": draft.room, "at": stamp(draft.at), "cause": draft.cause.value, "note": draft.note or None})
