"""Making a thrifty lay better to look at, without opening a board more."""

import random
from collections.abc import Sequence

from store.trade.layout.improve import Shifting
from store.trade.layout.looks import NEAR_MM
from store.trade.layout.place import Task
from store.trade.layout.sharing import Wanted, left_over

Triple = tuple[int, int, int]


class Polishing(Shifting):
    """A lay whose joints are shifted run by run, so that fewer lie in line or in stairs; see ``looks.py``.

    A shift is made if around its run fewer joints show; then, if as few show and there are fewer different lengths to
    cut, or as many and a longer piece is left over; never if it costs a board. What it looks at is counted, so that the
    same lay is polished the same way.
    """

    def __init__(self, task: Task, firsts: Sequence[int], chance: random.Random, *, at_most: int) -> None:
        super().__init__(task, firsts, chance)
        self._plainly = True
        self._at_most = at_most
        self._triples = _triples(task, self._neighbours)

    @property
    def firsts(self) -> tuple[int, ...]:
        """The first pieces as they are now."""
        return tuple(self._firsts)

    def tidy(self, times: int) -> None:
        """Try so many shifts towards fewer lengths to cut and a longer piece left over, no more joints showing."""
        merit = self._merit(self._cut)
        for _ in range(times):
            run = int(self._chance.random() * len(self._firsts))
            first, old = self._other_first(run), self._firsts[run]
            if first == old or not self._may_be(run, first):
                continue
            parts, was, before = self._parts_of(run, first), self._parts[run], self._faults(run)
            cut, whole = self._cut_with(was, parts), self._whole + parts[3] - was[3]
            better = self._merit(cut)
            if better <= merit or self._needed(cut, whole)[0] > self._at_most:
                continue
            self._firsts[run] = first
            if self._faults(run) > before:
                self._firsts[run] = old
                continue
            self._parts[run], self._cut, self._whole, merit = parts, cut, whole, better

    def _merit(self, cut: list[list[int]]) -> tuple[int, int]:
        """Return how few lengths are cut, and how long the longest piece is that is left over."""
        left = left_over(
            Wanted(
                starters=cut[0],
                closers=cut[1],
                inserts=cut[2],
                length_mm=self._task.length_mm,
                kerf_mm=self._task.kerf_mm,
            )
        )
        return -len({length for of_kind in cut for length in of_kind}), max(left, default=0)

    def polish(self, times: int) -> None:
        """Try so many shifts; runs that stand in no fault are left alone."""
        for _ in range(times):
            run = int(self._chance.random() * len(self._firsts))
            before = self._faults(run)
            if before == 0:
                continue
            first = self._other_first(run)
            if first != self._firsts[run] and self._may_be(run, first):
                self._shift_if_better(run, first, before)

    def _shift_if_better(self, run: int, first: int, before: int) -> None:
        old, self._firsts[run] = self._firsts[run], first
        if self._faults(run) < before:
            parts, was = self._parts_of(run, first), self._parts[run]
            cut = self._cut_with(was, parts)
            whole = self._whole + parts[3] - was[3]
            if self._needed(cut, whole)[0] <= self._at_most:
                self._parts[run], self._cut, self._whole = parts, cut, whole
                return
        self._firsts[run] = old

    def _faults(self, run: int) -> int:
        return sum(
            self._in_line(one, three) * 2 + self._is_stair(one, two, three) for one, two, three in self._triples[run]
        )

    def _in_line(self, one: int, three: int) -> int:
        task = self._task
        theirs = task.joints(three, self._firsts[three])
        return sum(
            any(-NEAR_MM < here - there < NEAR_MM for there in theirs) for here in task.joints(one, self._firsts[one])
        )

    def _is_stair(self, one: int, two: int, three: int) -> int:
        length = self._task.length_mm
        here, then, last = (self._task.runs[run].left_mm + self._firsts[run] for run in (one, two, three))
        off = (2 * then - here - last) % length
        joined = all(len(self._task.joints(run, self._firsts[run])) for run in (one, two, three))
        return 2 * int(joined and min(off, length - off) < NEAR_MM)


def _triples(task: Task, neighbours: Sequence[Sequence[int]]) -> list[list[Triple]]:
    """Return for each run the runs of three rows on end, one beside the other, that it stands in."""
    of_run: list[list[Triple]] = [[] for _ in task.runs]
    for two, others in enumerate(neighbours):
        row = task.runs[two].row
        for one in (run for run in others if task.runs[run].row < row):
            for three in (run for run in others if task.runs[run].row > row):
                for run in (one, two, three):
                    of_run[run].append((one, two, three))
    return of_run
