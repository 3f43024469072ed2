"""Making a lay thriftier by shifting one run's joints at a time."""

import math
import random
from bisect import bisect_left, insort
from collections.abc import Sequence

from store.trade.layout.place import Task
from store.trade.layout.sharing import Wanted, left_over

Parts = tuple[int, int, int, int]


class Shifting:
    """A lay whose joints are shifted run by run, at random but repeatably, towards fewer boards.

    Method: simulated annealing (Science 220, 1983, 671-680). A shift gives one run another first piece: one
    whose starter fills up a board some closer came from, one whose closer fills up a board some starter
    came from, a bit longer or shorter, or any. Shifts that bring joints too near are not made. A shift for
    the worse is made the less often the cooler it gets.

    Most shifts change the number of boards by nothing; so as to find a way among them, what is left over
    counts for more when it is in one piece: the cost is boards − 0.6 × Σ (left over ÷ board)².
    """

    def __init__(self, task: Task, firsts: Sequence[int], chance: random.Random) -> None:
        self._task = task
        self._chance = chance
        self._neighbours = task.neighbours()
        self._any = [tuple(task.firsts(run, 1)) for run in range(len(task.runs))]
        self._firsts = list(firsts)
        self._parts = [self._parts_of(run, first) for run, first in enumerate(firsts)]
        self._cut = [sorted(parts[kind] for parts in self._parts if parts[kind]) for kind in range(3)]
        self._whole = sum(parts[3] for parts in self._parts)
        self._plainly = False
        self.best_boards, self._cost = self._needed(self._cut, self._whole)
        self.best_firsts = tuple(firsts)

    def shift(self, times: int, *, warm: float, cool: float, enough: int, plainly: bool) -> None:
        """Try so many shifts, cooling from ``warm`` to ``cool`` (in boards); stop at ``enough`` boards.

        ``plainly`` counts boards only, and what is left over not at all.
        """
        self._plainly = plainly
        self._cost = self._needed(self._cut, self._whole)[1]
        for turn in range(times):
            if self.best_boards <= enough:
                return
            run = int(self._chance.random() * len(self._firsts))
            first = self._other_first(run)
            if first == self._firsts[run] or not self._may_be(run, first):
                continue
            self._try(run, first, warm * (cool / warm) ** (turn / times))

    def _parts_of(self, run: int, first: int) -> Parts:
        cuts = self._task.cuts(run, first)
        return cuts.starter, cuts.closer, cuts.insert, cuts.whole

    def _needed(self, cut: list[list[int]], whole: int) -> tuple[int, float]:
        length_mm = self._task.length_mm
        left = left_over(
            Wanted(
                starters=cut[0],
                closers=cut[1],
                inserts=cut[2],
                length_mm=length_mm,
                kerf_mm=self._task.kerf_mm,
            )
        )
        boards = whole + len(left)
        return boards, boards if self._plainly else boards - 0.6 * sum(x * x for x in left) / (length_mm * length_mm)

    def _other_first(self, run: int) -> int:
        chance = self._chance.random
        way = chance()
        length_mm = self._task.length_mm
        starters, closers = self._cut[0], self._cut[1]
        if way < 0.35 and closers:
            return length_mm - self._task.kerf_mm - closers[int(chance() * len(closers))]
        if way < 0.7 and starters:
            closer = length_mm - self._task.kerf_mm - starters[int(chance() * len(starters))]
            return (self._task.runs[run].length_mm - closer) % length_mm or length_mm
        if way < 0.8:
            return self._firsts[run] + int(chance() * 80) - 40
        return self._any[run][int(chance() * len(self._any[run]))]

    def _may_be(self, run: int, first: int) -> bool:
        task = self._task
        if not task.allows(run, first):
            return False
        return all(task.apart(run, first, other, self._firsts[other]) for other in self._neighbours[run])

    def _cut_with(self, was: Parts, parts: Parts) -> list[list[int]]:
        return [
            of_kind if was[kind] == parts[kind] else _exchanged(of_kind, was[kind], parts[kind])
            for kind, of_kind in enumerate(self._cut)
        ]

    def _try(self, run: int, first: int, warmth: float) -> None:
        was, parts = self._parts[run], self._parts_of(run, first)
        cut = self._cut_with(was, parts)
        whole = self._whole + parts[3] - was[3]
        boards, cost = self._needed(cut, whole)
        if cost > self._cost and self._chance.random() >= math.exp((self._cost - cost) / warmth):
            return
        self._firsts[run], self._parts[run] = first, parts
        self._cut, self._whole, self._cost = cut, whole, cost
        if boards < self.best_boards:
            self.best_boards, self.best_firsts = boards, tuple(self._firsts)


def _exchanged(lengths: list[int], old: int, new: int) -> list[int]:
    changed = lengths[:]
    if old:
        del changed[bisect_left(changed, old)]
    if new:
        insort(changed, new)
    return changed
