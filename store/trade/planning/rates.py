"""How much floor a fitter lays in a day, by trade rule at first and more and more by the firm's own records.

**The problem.** A plan needs the hours a floor takes. Nobody knows them before; what the firm laid so far says it best,
but two small rooms do not say much.

**Method.** Hours for each m² are summed over the records and over a trade rule that counts like ``RULE_FLOORS`` floors
of ``RULE_FLOOR_M2`` each: a ratio of sums, drawn towards the rule while records are few.

    hours a m² = (5 × 30 m² × rule + hours laid) ÷ (5 × 30 m² + m² laid)

With no record it is the rule; the more is laid, the less the rule counts. How many records stand behind a figure is
told with it: below five it is mostly the rule.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Method, RoomDraft
from store.trade.outline import perimeter_mm
from store.trade.planning.hours import hours_worked
from store.trade.surveyed import Pattern

DAY_HOURS = 8
"""A fitter's day in the rules below, hours."""

RULE_FLOORS = 5
RULE_FLOOR_M2 = 30

M2_A_DAY: dict[tuple[Method, Pattern], float] = {
    (Method.GLUED, Pattern.STRAIGHT): 16.0,  # common practice, 12 to 20
    (Method.FLOATING, Pattern.STRAIGHT): 25.0,  # common practice, 20 to 30
    (Method.NAILED, Pattern.STRAIGHT): 16.0,  # common practice, no source: taken as glued
    (Method.GLUED, Pattern.HERRINGBONE): 8.0,  # common practice, 5 to 10
    (Method.FLOATING, Pattern.HERRINGBONE): 8.0,
    (Method.NAILED, Pattern.HERRINGBONE): 8.0,
    (Method.GLUED, Pattern.CHEVRON): 6.5,  # common practice, 5 to 8
    (Method.FLOATING, Pattern.CHEVRON): 6.5,
    (Method.NAILED, Pattern.CHEVRON): 6.5,
}
"""Floor laid by one fitter in a day of 8 hours, m²: common practice, no standard behind it."""

SMOOTHING_M2_A_DAY = 80.0
"""Compound spread by one fitter in a day, m²: common practice, 60 to 100."""

SKIRTING_M_AN_HOUR = 6.0
"""Skirting put up by one fitter, m an hour: 10 minutes a metre (a German building magazine); 6 to 12 in practice."""

ROUND_HOURS = 0.5
"""For each doorway, pipe or post that boards are cut round (a German building magazine)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """One record of floor laid: how, how much, in how many hours of one fitter's work."""

    method: Method
    pattern: Pattern
    area_m2: float
    fitter_hours: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Floor laid by one fitter in a day of 8 hours, with the records behind it and what the rule alone says."""

    method: Method
    pattern: Pattern
    m2_a_day: float
    rule_m2_a_day: float
    records: int


Rates = Mapping[tuple[Method, Pattern], Rate]


def laid_in(firm: FirmDraft, facts: JobFacts, fitters: Mapping[int, int] | None = None) -> Iterator[Laid]:
    """Yield a record for each laying of a job that is over, its hours the working hours from its start to its end.

    ``fitters`` says how many laid, by the number of the laying; one where it says nothing. A laying of no area or no
    working hours (laid on a Sunday, say) teaches nothing and is left out.
    """
    for one in facts.layings:
        if one.ended_at is None or not one.area_mm2:
            continue
        room = facts.room(one.room)
        worked = hours_worked(firm, one.begun_at, one.ended_at) * (fitters or {}).get(one.id, 1)
        if worked > 0:
            yield Laid(method=room.method, pattern=room.pattern, area_m2=one.area_mm2 / 1_000_000, fitter_hours=worked)


def rates_from(records: Iterable[Laid] = ()) -> Rates:
    """Return a rate for every way of laying, from the firm's records and the rule.

    >>> known = [Laid(method=Method.GLUED, pattern=Pattern.STRAIGHT, area_m2=30, fitter_hours=10)] * 5
    >>> rate = rates_from(known)[Method.GLUED, Pattern.STRAIGHT]
    >>> rate.m2_a_day, rate.rule_m2_a_day, rate.records  # half-way between 15 and 10 hours for 30 m²
    (19.2, 16.0, 5)
    """
    kept = tuple(records)
    found: dict[tuple[Method, Pattern], Rate] = {}
    for (method, pattern), rule in M2_A_DAY.items():
        known = [one for one in kept if (one.method, one.pattern) == (method, pattern)]
        as_rule = RULE_FLOORS * RULE_FLOOR_M2
        took = as_rule * DAY_HOURS / rule + sum(one.fitter_hours for one in known)
        laid = as_rule + sum(one.area_m2 for one in known)
        found[method, pattern] = Rate(
            method=method, pattern=pattern, m2_a_day=DAY_HOURS * laid / took, rule_m2_a_day=rule, records=len(known)
        )
    return found


def laying_hours(room: RoomDraft, rates: Rates) -> float:
    """Return the hours one fitter lays a room: its floor at the rate, and half an hour for each thing cut round."""
    rate = rates[room.method, room.pattern]
    round_it = ROUND_HOURS * (len(room.doorways) + len(room.fixed_things))
    return DAY_HOURS * room.net_mm2 / 1_000_000 / rate.m2_a_day + round_it


def smoothing_hours(room: RoomDraft) -> float:
    """Return the hours one fitter needs to spread compound over a room, without its drying."""
    return DAY_HOURS * room.net_mm2 / 1_000_000 / SMOOTHING_M2_A_DAY


def skirting_hours(room: RoomDraft) -> float:
    """Return the hours one fitter needs for the skirting of a room: its walls less its doorways."""
    along = perimeter_mm(room.outline) - sum(door.width_mm for door in room.doorways)
    return max(0.0, along) / 1000 / SKIRTING_M_AN_HOUR
