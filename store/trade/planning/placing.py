"""Putting floors into fitters' half days, one after another in a given order, each where it is done first.

A fitter's half days are numbered without the days off between them, and what is taken is a whole number whose bits are
those half days: the first free stretch of so many is found with a handful of shifts, however full the year is.
"""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from store.errors import Refused
from store.trade.firm import FirmDraft
from store.trade.planning.grid import Grid, halves_needed
from store.trade.planning.nouns import Fitter, Floor, Visit


@dataclass(frozen=True, slots=True)
class Spot:
    """A fitter's half days for one floor: the fitter's number, the first of their half days, and how many."""

    fitter: int
    first: int
    count: int


Cost = tuple[int, int, int, int]
"""Floors without a place, days late, changes to what is booked, and half days waited in all: the less the better."""


class Placing:
    """Floors, fitters and the grid, made ready for trying many orders; not changed by them."""

    def __init__(
        self, firm: FirmDraft, grid: Grid, floors: Sequence[Floor], fitters: Sequence[Fitter], now: datetime
    ) -> None:
        self.grid, self.floors, self.fitters = grid, tuple(floors), tuple(fitters)
        if len({one.name for one in fitters}) < len(fitters):
            raise Refused("Two fitters have one name; give each their own.")
        if len({one.key for one in floors}) < len(floors):
            raise Refused("One floor is in the plan twice.")
        self.own = [grid.own(one) for one in fitters]
        self.able = [[n for n, who in enumerate(fitters) if one.skills <= who.skills] for one in floors]
        self.count = [[halves_needed(firm, one.hours, who) for who in fitters] for one in floors]
        # Nothing is begun in the half day that is going on, but what is booked in it may stay.
        self.going_on = grid.going_on(now)
        self.ready = [grid.first_from(max(now, one.earliest)) for one in floors]
        self.first = [[bisect_left(own, ready) for own in self.own] for ready in self.ready]
        self.jobs = list(dict.fromkeys(one.job for one in floors))
        self.job_of = [self.jobs.index(one.job) for one in floors]
        self.booked = [self._spot_of(one.booked) if one.booked else None for one in floors]
        self.keeps = [self._may_stay(number) for number in range(len(floors))]
        self._late: list[dict[int, int]] = [{} for _ in floors]

    def _spot_of(self, visit: Visit) -> Spot | None:
        """Return where a booked visit is: its half days from today on, as far as its fitter works them."""
        who = next((n for n, one in enumerate(self.fitters) if one.name == visit.fitter), None)
        if who is None:
            return None
        asked = set(visit.halves)
        there = [n for n, place in enumerate(self.own[who]) if self.grid.halves[place] in asked]
        return Spot(who, there[0], there[-1] - there[0] + 1) if there else None

    def _may_stay(self, number: int) -> bool:
        """Whether a booking can be kept: pinned, or long enough, not before the floor is ready, by somebody able."""
        floor, spot = self.floors[number], self.booked[number]
        if spot is None or floor.booked is None or floor.pinned:
            return spot is not None
        whole = spot.count == len(set(floor.booked.halves)) >= self.count[number][spot.fitter]
        begins = self.own[spot.fitter][spot.first]
        in_time = begins >= max(self.going_on, self.grid.first_from(floor.earliest))
        return whole and in_time and spot.fitter in self.able[number]

    def end_of(self, spot: Spot) -> int:
        """Return the half day of the grid in which a spot ends."""
        return self.own[spot.fitter][spot.first + spot.count - 1]

    def handover_on(self, number: int, end: int) -> date:
        """Return the day on which a floor laid until half day ``end`` can be handed over."""
        return self.grid.handover_on(end, self.floors[number].cure_hours)

    def days_late(self, number: int, end: int) -> int:
        """Return the days late of a floor laid until half day ``end``."""
        known = self._late[number].get(end)
        if known is None:
            promised = self.floors[number].promised_on
            known = max(0, (self.handover_on(number, end) - promised).days) if promised else 0
            self._late[number][end] = known
        return known

    def earliest(self, number: int, who: int, taken: int, not_before: int = 0) -> Spot | None:
        """Return the first free stretch of a fitter's half days for a floor, from their half day ``not_before`` on."""
        first, count = max(self.first[number][who], not_before), self.count[number][who]
        there = len(self.own[who]) - first
        if there < count:
            return None
        runs = ~(taken >> first) & ((1 << there) - 1)
        short = count - 1
        step = 1
        while short > 0:
            step = min(step, short)
            runs &= runs >> step
            short -= step
            step *= 2
        return Spot(who, first + (runs & -runs).bit_length() - 1, count) if runs else None

    def place(
        self, order: Sequence[int], chosen: Sequence[int | None], kept: Sequence[bool]
    ) -> tuple[list[Spot | None], Cost]:
        """Place the kept bookings, then the other floors in this order, and say what it costs.

        ``chosen`` is a fitter for each floor, or None for whoever is done with it first. A booking that a kept one
        stands in the way of is not kept.
        """
        spots: list[Spot | None] = [None] * len(self.floors)
        taken = [0] * len(self.fitters)
        for number in self._stays(kept):
            spot = self.booked[number]
            if spot is not None:
                bits = ((1 << spot.count) - 1) << spot.first
                if self.floors[number].pinned or not taken[spot.fitter] & bits:
                    taken[spot.fitter] |= bits
                    spots[number] = spot
        for number in order:
            if spots[number] is not None:
                continue
            best, best_end = None, 0
            who = chosen[number]
            for fitter in self.able[number] if who is None else (who,):
                spot = self.earliest(number, fitter, taken[fitter])
                if spot is not None:
                    end = self.own[fitter][spot.first + spot.count - 1]
                    if best is None or end < best_end:
                        best, best_end = spot, end
            if best is not None:
                taken[best.fitter] |= ((1 << best.count) - 1) << best.first
                spots[number] = best
        return spots, self.cost(spots)

    def _stays(self, kept: Sequence[bool]) -> list[int]:
        """The floors whose booking is kept, pinned ones first."""
        pinned = [one.pinned for one in self.floors]
        stays = [n for n, keep in enumerate(self.keeps) if keep and (kept[n] or pinned[n])]
        return sorted(stays, key=lambda number: not pinned[number])

    def cost(self, spots: Sequence[Spot | None]) -> Cost:
        """Return what a plan costs."""
        late = [0] * len(self.jobs)
        unplaced = changes = waited = 0
        for number, spot in enumerate(spots):
            if spot is None:
                unplaced += 1
            else:
                end = self.end_of(spot)
                late[self.job_of[number]] = max(late[self.job_of[number]], self.days_late(number, end))
                waited += end
            if self.floors[number].booked is not None and spot != self.booked[number]:
                changes += 1
        return unplaced, sum(late), changes, waited
