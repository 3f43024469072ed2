"""A plan of who lays which floor when: ever better ones, the best last.

**The problem.** Floors become ready one after another, are promised for a day, and wait for the few fitters who can lay
them. Some are booked already. Wanted is the plan with the fewest days late at handover, all jobs together; of those the
one that changes least of what is booked; of those the one that has every floor laid soonest.

**Method.**

1. Floors are placed one after another, each in the half days of the fitter who is done with it first (``placing.py``).
   So the order of the floors, and which bookings are kept, is all there is to search.
2. First come, first served is tried first, then the earliest promised, the earliest ready, and the least time to spare;
   each with all bookings kept and with none.
3. Of up to 6 floors and 3 fitters every plan that could be better is looked at (``few_floors.py``).
4. Else floors are moved in the best order, bookings kept or let go, fitters chosen, one change at a time. A change for
   the worse is accepted now and then, less and less (simulated annealing; Kirkpatrick 1983, from memory).

The work is counted, not timed: the same floors, people and seed give the same plans. The last plan is never worse than
first come, first served. To cancel is to stop iterating.
"""

import itertools
import math
import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from store.trade.diary import day_of, later
from store.trade.firm import FirmDraft
from store.trade.planning.few_floors import MOST_FITTERS, MOST_FLOORS, FewFloors
from store.trade.planning.grid import grid_from
from store.trade.planning.nouns import Fitter, Floor, Proposal
from store.trade.planning.placing import Cost, Placing, Spot
from store.trade.planning.reasons import proposal_of

TRIES = 6_000
FLOORS_AT_FULL_WORK = 20
STEPS = 10
HOT_DAYS = 3.0
COLD_DAYS = 0.02


@dataclass(frozen=True, slots=True)
class _Way:
    """One way to place the floors: their order, a fitter chosen for some, and which bookings are kept."""

    order: tuple[int, ...]
    chosen: tuple[int | None, ...]
    kept: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class _Tried:
    way: _Way
    spots: list[Spot | None]
    cost: Cost


def propose(
    firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], now: datetime, *, seed: int = 1
) -> Iterator[Proposal]:
    """Yield plans for some floors, each as good as the last or better, from ``now`` on for a year.

    ``floors`` come in the order in which their jobs came. Those that are booked and not to be moved are pinned.

    Raises:
        Refused: two fitters or two floors of one name, somebody who works no hours, or a firm that never works.
    """
    placing = _placing(firm, floors, fitters, now)
    search = _Search(placing, random.Random(seed))  # noqa: S311 - chance here must be repeatable, not secret
    shown: Cost | None = None
    for done in search.run():
        best = search.best
        if best.cost != shown or done == 1.0:
            shown = best.cost
            yield proposal_of(placing, best.spots, best.cost[2], done)


def first_come_first_served(
    firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], now: datetime
) -> Proposal:
    """Return the plan in which every floor, in the order given, is laid by whoever is done with it first.

    Only pinned bookings are kept.
    """
    placing = _placing(firm, floors, fitters, now)
    nobody, nothing = (None,) * len(floors), (False,) * len(floors)
    spots, cost = placing.place(range(len(floors)), nobody, nothing)
    return proposal_of(placing, spots, cost[2], 1.0)


def _placing(firm: FirmDraft, floors: Sequence[Floor], fitters: Sequence[Fitter], now: datetime) -> Placing:
    grid = grid_from(firm, day_of(firm, now), [one.cure_hours for one in floors])
    return Placing(firm, grid, floors, fitters, now)


class _Search:
    """The search for a better way; ``best`` is the best so far."""

    def __init__(self, placing: Placing, chance: random.Random) -> None:
        self.placing, self.chance = placing, chance
        self.floors = len(placing.floors)
        starts = [self._try(way) for way in self._first_ways()]
        self.best = min(starts, key=lambda one: one.cost)

    def _try(self, way: _Way) -> _Tried:
        spots, cost = self.placing.place(way.order, way.chosen, way.kept)
        return _Tried(way, spots, cost)

    def _first_ways(self) -> Iterator[_Way]:
        placing, numbers = self.placing, range(self.floors)

        def spare(number: int) -> tuple[bool, datetime]:
            floor = placing.floors[number]
            ready = placing.grid.starts[min(placing.ready[number], len(placing.grid.starts) - 1)]
            return floor.promised_on is None, later(ready, floor.hours + floor.cure_hours)

        def promised(number: int) -> tuple[bool, float]:
            floor = placing.floors[number]
            day = floor.promised_on.toordinal() if floor.promised_on else 0
            return floor.promised_on is None, day - floor.cure_hours / 24

        orders = (
            tuple(numbers),
            tuple(sorted(numbers, key=promised)),
            tuple(sorted(numbers, key=lambda number: placing.ready[number])),
            tuple(sorted(numbers, key=spare)),
        )
        for order, keep in itertools.product(orders, (True, False)):
            yield _Way(order, (None,) * self.floors, (keep,) * self.floors)

    def run(self) -> Iterator[float]:
        """Search, and yield the share that is done now and then."""
        if not self.floors:
            yield 1.0
            return
        yield 0.05
        free = sum(not one.pinned for one in self.placing.floors)
        if free <= MOST_FLOORS and len(self.placing.fitters) <= MOST_FITTERS:
            self._look_at_all()
            yield 0.3
        tries = int(TRIES * min(1.0, FLOORS_AT_FULL_WORK / self.floors))
        here = self.best
        for step in range(STEPS):
            for turn in range(tries // STEPS):
                warm = HOT_DAYS * (COLD_DAYS / HOT_DAYS) ** ((step + turn * STEPS / tries) / STEPS)
                there = self._try(self._changed(here))
                if there.cost < self.best.cost:
                    self.best = there
                worse = _scalar(there.cost) - _scalar(here.cost)
                if worse <= 0 or self.chance.random() < math.exp(-worse / warm):
                    here = there
            if step == STEPS // 2:
                here = self.best
            yield 0.3 + 0.7 * (step + 1) / STEPS

    def _look_at_all(self) -> None:
        """Look at every plan with fewer days late; then keep as many bookings as such a plan can."""
        booked = [number for number, keep in enumerate(self.placing.keeps) if keep and not self._is_pinned(number)]
        fewest = self._fewest(frozenset(), self.best.cost[1])
        if fewest is not None:
            self.best = min(self.best, fewest, key=lambda one: one.cost)
        for let_go in range(len(booked) + 1):
            for gone in itertools.combinations(booked, let_go):
                if let_go >= self.best.cost[2]:
                    return
                found = self._fewest(frozenset(booked) - frozenset(gone), self.best.cost[1] + 1)
                if found is not None and found.cost < self.best.cost:
                    self.best = found

    def _is_pinned(self, number: int) -> bool:
        return self.placing.floors[number].pinned

    def _fewest(self, kept: frozenset[int], below: int) -> _Tried | None:
        """Return the plan with fewest days late that keeps these bookings, if they are fewer than ``below``."""
        placing = self.placing
        keep = tuple(number in kept for number in range(self.floors))
        nobody: tuple[int | None, ...] = (None,) * self.floors
        spots, _ = placing.place((), nobody, keep)
        taken, late = [0] * len(placing.fitters), [0] * len(placing.jobs)
        for number, spot in enumerate(spots):
            if spot is not None:
                taken[spot.fitter] |= ((1 << spot.count) - 1) << spot.first
                job = placing.job_of[number]
                late[job] = max(late[job], placing.days_late(number, placing.end_of(spot)))
        free = [number for number, spot in enumerate(spots) if spot is None]
        way = FewFloors(placing, free, taken, late).better_than(below)
        if way is None:
            return None
        chosen = list(nobody)
        for number, who in way:
            chosen[number] = who
        return self._try(_Way(tuple(number for number, _ in way), tuple(chosen), keep))

    def _changed(self, here: _Tried) -> _Way:
        """Return a way that is a little different from the one at hand."""
        way, chance = here.way, self.chance
        order, chosen, kept = list(way.order), way.chosen, way.kept
        luck = chance.random()
        number = self._one_to_move(here)
        if luck < 0.15 and self.placing.keeps[number]:
            kept = (*kept[:number], not kept[number], *kept[number + 1 :])
        elif luck < 0.3 and self.placing.able[number]:
            who = chance.choice([None, *self.placing.able[number]])
            chosen = (*chosen[:number], who, *chosen[number + 1 :])
        elif luck < 0.5 and len(order) > 1:
            first, second = chance.sample(range(len(order)), 2)
            order[first], order[second] = order[second], order[first]
        elif number in order:
            order.remove(number)
            order.insert(chance.randrange(len(order) + 1), number)
        return _Way(tuple(order), chosen, kept)

    def _one_to_move(self, here: _Tried) -> int:
        """Pick a floor, a late one as likely as any of all."""
        placing = self.placing
        late = [
            number
            for number, spot in enumerate(here.spots)
            if spot is not None and placing.days_late(number, placing.end_of(spot))
        ]
        return self.chance.choice(late) if late and self.chance.random() < 0.5 else self.chance.randrange(self.floors)


def _scalar(cost: Cost) -> float:
    """A plan's cost in days, for weighing a change for the worse: a floor without a place is worth a year."""
    unplaced, late, changes, waited = cost
    return 366.0 * unplaced + late + 0.2 * changes + 0.001 * waited
