"""The sentences about a morning list: what is not right, each with its figures and limit."""

from store.trade.climate import SAFE_MARGIN_C, dew_point
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.groups import climate_for
from store.trade.morning import LEAST_BASE_C, Amiss, MorningCheckDraft, amiss
from tui.words.vocabulary import the_room
from tui.words.wording import figure, say_air, say_range, say_temp

_SHORT = {
    Amiss.NOT_MIXED: "open several packs and mix their boards",
    Amiss.NO_WEDGES: "have wedges ready for the gap",
    Amiss.NO_EXTRACTION: "put saw and sander on extraction",
}


def found_amiss(check: MorningCheckDraft, facts: JobFacts, firm: FirmDraft) -> tuple[Amiss, ...]:
    """Return what is not right on a morning list, by the range of air of the room's board."""
    return amiss(check, climate_for(firm, facts.board(facts.room(check.room).board)))


def say_amiss(check: MorningCheckDraft, facts: JobFacts, firm: FirmDraft) -> str:
    """Return what is not right on a morning list, in a sentence; empty where all is right."""
    parts = [_say(one, check, facts, firm) for one in found_amiss(check, facts, firm)]
    return f"Not right: {'; '.join(parts)}." if parts else ""


def say_looked(check: MorningCheckDraft) -> str:
    """Return what was measured on a morning list: “air 20.5 °C and 52 %, base 18 °C”."""
    return f"air {say_air(check.temp_c, check.rh_percent)}, base {say_temp(check.surface_c)}"


def say_room_of(check: MorningCheckDraft) -> str:
    """Return where a morning list was gone through: “the Reading room”."""
    return the_room(check.room)


def _say(one: Amiss, check: MorningCheckDraft, facts: JobFacts, firm: FirmDraft) -> str:
    if one is Amiss.AIR:
        climate = climate_for(firm, facts.board(facts.room(check.room).board))
        return f"the air must be {say_range(climate)}"
    if one is Amiss.DEW:
        return _say_dew(check)
    if one is Amiss.BASE_COLD:
        return f"the base must be {figure(LEAST_BASE_C)} °C or warmer"
    return _SHORT[one]


def _say_dew(check: MorningCheckDraft) -> str:
    if not 0 < check.rh_percent <= 100:
        return "no dew point is known for such air"
    dew = dew_point(temp_c=check.temp_c, rh_percent=check.rh_percent).dew_point_c
    return f"the base must be {SAFE_MARGIN_C} °C above the dew point of {figure(dew, 1)} °C"
