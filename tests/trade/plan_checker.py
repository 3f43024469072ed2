"""Judges a plan anew, by nothing that the search uses: double bookings, days off, skills, half days, and days late."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from store.trade.diary import day_of, first_working_moment, is_worked, later
from store.trade.firm import FirmDraft
from store.trade.planning.grid import end_of_half, halves_needed, hours_a_half, start_of_half
from store.trade.planning.nouns import Fitter, Floor, FloorKey, Half, Visit

_HAIR_HOURS = 1e-6


class FaultKind(StrEnum):
    """What can be wrong with a visit."""

    DOUBLE_BOOKED = "double_booked"
    BEFORE_READY = "before_ready"
    SKILL_MISSING = "skill_missing"
    DAY_OFF = "day_off"
    SHUT = "shut"
    TOO_SHORT = "too_short"
    NOBODY = "nobody"


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One thing wrong with the visit to a floor.

    ``half``: the first half day that is double booked, too early, off or shut. ``other``: the floor booked there too.
    ``skills``: those that the fitter lacks. ``halves``: how many half days are missing. NOBODY: no fitter of this name.
    """

    kind: FaultKind
    floor: FloorKey
    fitter: str
    half: Half | None = None
    other: FloorKey | None = None
    skills: frozenset[str] = frozenset()
    halves: int = 0


def faults_in(
    firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], visits: Sequence[Visit]
) -> Iterator[Fault]:
    """Yield what is wrong with a plan, visit by visit; a double booking is said once, of the later of the two."""
    by_key, by_name = {one.key: one for one in floors}, {one.name: one for one in fitters}
    taken: dict[tuple[str, Half], FloorKey] = {}
    for visit in visits:
        clashes: dict[FloorKey, Half] = {}
        for half in visit.halves:
            other = taken.setdefault((visit.fitter, half), visit.floor)
            if other != visit.floor:
                clashes.setdefault(other, half)
        for other, half in clashes.items():
            yield Fault(kind=FaultKind.DOUBLE_BOOKED, floor=visit.floor, fitter=visit.fitter, half=half, other=other)
        who = by_name.get(visit.fitter)
        if who is None:
            yield Fault(kind=FaultKind.NOBODY, floor=visit.floor, fitter=visit.fitter)
        else:
            yield from _days_wrong(firm, who, visit)
        if visit.floor in by_key:
            yield from _floor_wrong(firm, by_key[visit.floor], who, visit)
    for floor in floors:
        yield from _too_short(firm, floor, by_name, [one for one in visits if one.floor == floor.key])


def _days_wrong(firm: FirmDraft, who: Fitter, visit: Visit) -> Iterator[Fault]:
    """Yield each day of a visit on which the firm is shut, or its fitter off."""
    for day in dict.fromkeys(half.day for half in visit.halves):
        half = next(one for one in visit.halves if one.day == day)
        part_time = who.working_days is not None and day.weekday() not in who.working_days
        if not is_worked(firm, day):
            yield Fault(kind=FaultKind.SHUT, floor=visit.floor, fitter=visit.fitter, half=half)
        elif part_time or day in who.off:
            yield Fault(kind=FaultKind.DAY_OFF, floor=visit.floor, fitter=visit.fitter, half=half)


def _floor_wrong(firm: FirmDraft, floor: Floor, who: Fitter | None, visit: Visit) -> Iterator[Fault]:
    """Yield what a floor misses in its visit: its holds to be over, skills, half days enough."""
    if visit.halves and start_of_half(firm, visit.halves[0]) < floor.earliest:
        yield Fault(kind=FaultKind.BEFORE_READY, floor=floor.key, fitter=visit.fitter, half=visit.halves[0])
    if who is None:
        return
    if not floor.skills <= who.skills:
        lacking = floor.skills - who.skills
        yield Fault(kind=FaultKind.SKILL_MISSING, floor=floor.key, fitter=visit.fitter, skills=lacking)


def _too_short(
    firm: FirmDraft, floor: Floor, by_name: Mapping[str, Fitter], visits: Sequence[Visit]
) -> Iterator[Fault]:
    """Yield how many half days of its last visit's fitter a floor lacks, all its visits together."""
    here = [(one, who) for one in visits if (who := by_name.get(one.fitter)) is not None]
    if not here:
        return
    left = floor.hours - sum(len(one.halves) * hours_a_half(firm, who) for one, who in here)
    if left > _HAIR_HOURS:
        last, who = max(here, key=lambda pair: max(pair[0].halves))
        short = halves_needed(firm, left, who)
        yield Fault(kind=FaultKind.TOO_SHORT, floor=floor.key, fitter=last.fitter, halves=short)


def days_late(firm: FirmDraft, floors: Sequence[Floor], visits: Sequence[Visit]) -> Mapping[str, int]:
    """Return the days late of each job at handover, by the floors of it that are in the plan."""
    by_key = {one.key: one for one in floors}
    late: dict[str, int] = defaultdict(int)
    for visit in visits:
        floor = by_key.get(visit.floor)
        if floor is None or floor.promised_on is None or not visit.halves:
            continue
        cured: datetime = later(end_of_half(firm, max(visit.halves)), floor.cure_hours)
        over = day_of(firm, first_working_moment(firm, cured))
        late[floor.job] = max(late[floor.job], (over - floor.promised_on).days)
    return {job: days for job, days in late.items() if days > 0}
