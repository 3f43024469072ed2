"""What one move in a plan breaks or saves: double bookings, floors not ready, days off, skills, and days late."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from enum import StrEnum

from store.errors import Refused
from store.trade.diary import day_of, first_working_moment, is_worked, later, start_of
from store.trade.firm import FirmDraft
from store.trade.planning.grid import end_of_half, halves_needed, hours_a_half, start_of_half
from store.trade.planning.hours import with_days_off
from store.trade.planning.nouns import Fitter, Floor, FloorKey, Half, Visit

MOST_HALVES = 400
_HAIR_HOURS = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A floor to another half day, to another fitter, to another length; None leaves that as it is.

    ``of`` is the fitter whose visit is moved where several lay the floor; None is the first of them.
    """

    floor: FloorKey
    of: str | None = None
    fitter: str | None = None
    start: Half | None = None
    halves: int | None = None


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


@dataclass(frozen=True, slots=True, kw_only=True)
class LateChange:
    """A job whose days late are others after the move."""

    job: str
    before: int
    after: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Effects:
    """The plan after a move, what the move breaks and what it saves, and the jobs whose days late it changes."""

    visits: tuple[Visit, ...]
    breaks: tuple[Fault, ...]
    saves: tuple[Fault, ...]
    late: tuple[LateChange, ...]

    @property
    def days_late_more(self) -> int:
        """The days late that the move costs, all jobs together; below 0 if it saves some."""
        return sum(one.after - one.before for one in self.late)


def what_breaks(
    firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], visits: Sequence[Visit], move: Move
) -> Effects:
    """Return what one move does to a plan. Nothing is refused for being unwise: that is what the answer is for.

    Raises:
        Refused: a floor or a fitter that is not there, a floor not in the plan moved without a day or a fitter, or a
            length of nothing.
    """
    after = moved(firm, floors, fitters, visits, move)
    faults_before, faults_after = (dict.fromkeys(faults_in(firm, floors, fitters, plan)) for plan in (visits, after))
    late_before, late_after = (days_late(firm, floors, plan) for plan in (visits, after))
    return Effects(
        visits=after,
        breaks=tuple(one for one in faults_after if one not in faults_before),
        saves=tuple(one for one in faults_before if one not in faults_after),
        late=tuple(
            LateChange(job=job, before=late_before.get(job, 0), after=late_after.get(job, 0))
            for job in dict.fromkeys(one.job for one in floors)
            if late_before.get(job, 0) != late_after.get(job, 0)
        ),
    )


def moved(
    firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], visits: Sequence[Visit], move: Move
) -> tuple[Visit, ...]:
    """Return the plan after a move, in order of time.

    The visit begins in the very half day asked for; it goes on in the next ones that its fitter works. Its length stays
    what it was, or is what the floor needs where it was not in the plan.

    Raises:
        Refused: as ``what_breaks``.
    """
    floor = next((one for one in floors if one.key == move.floor), None)
    if floor is None:
        raise Refused(f"{move.floor.room} of {move.floor.job} is not among the floors to be laid.")
    was = next((one for one in visits if one.floor == move.floor and move.of in {None, one.fitter}), None)
    name = move.fitter or (was.fitter if was else None)
    start = move.start or (was.halves[0] if was else None)
    if start is None or name is None:
        raise Refused("Say who lays this floor, and from which half day.")
    who = next((one for one in fitters if one.name == name), None)
    if who is None:
        raise Refused(f"{name} is not among the fitters.")
    count = move.halves
    if count is None:
        count = len(was.halves) if was else halves_needed(firm, floor.hours, who)
    if not 1 <= count <= MOST_HALVES:
        raise Refused(f"A floor is laid in 1 to {MOST_HALVES} half days.")
    there = Visit(floor=move.floor, fitter=who.name, halves=tuple(_stretch(firm, who, start, count)))
    others = [one for one in visits if one is not was]
    return tuple(sorted([*others, there], key=lambda one: (one.halves[0], one.fitter)))


def _stretch(firm: FirmDraft, who: Fitter, start: Half, count: int) -> Iterator[Half]:
    """Yield the half days of a visit: the first as asked, the others as its fitter works."""
    yield start
    theirs = with_days_off(firm, who.off)
    if who.working_days is not None:
        theirs = replace(theirs, working_days=tuple(set(who.working_days) & set(firm.working_days)))
    here = start
    for _ in range(count - 1):
        if here.half == 0 and (here == start or is_worked(theirs, here.day)):
            here = Half(here.day, 1)
        else:
            tomorrow = start_of(theirs, here.day + timedelta(days=1))
            here = Half(day_of(firm, first_working_moment(theirs, tomorrow)), 0)
        yield here


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
