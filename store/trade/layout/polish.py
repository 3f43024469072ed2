"""Making a thrifty lay better to look at, without opening a board more."""

import random
from collections.abc import Sequence

from store.trade.layout.improve import Shifting
from store.trade.layout.looks import NEAR_MM
from store.trade.layout.place import Task

Triple = tuple[int, int, int]


class Polishing(Shifting):
    """A lay whose joints are shifted run by run, so that fewer lie in line or in stairs; see ``looks.py``.

    A shift is made if around its run fewer joints show, or as many with fewer lengths to cut, or with a longer piece
    left over; never if it costs a board. What it looks at is counted, so that the same lay is polished the same way.
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

    def polish(self, times: int) -> None:
        """Try so many shifts; runs that stand in no fault are left alone after the first look."""
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
