"""The offcuts that lie about while a floor is laid, and the laying of row after row that uses them up."""

import heapq
from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from store.trade.layout.place import Task
from store.trade.layout.sharing import CLOSER, INSERT, STARTER

Caps = tuple[int, ...]

NEAR, FAR, BOTH, NEITHER = 0, 1, 2, 3

_FITS = {
    STARTER: ((FAR, NEITHER), (BOTH, NEAR)),
    CLOSER: ((NEAR, NEITHER), (BOTH, FAR)),
    INSERT: ((NEITHER, NEITHER), (NEAR, NEAR), (FAR, FAR), (BOTH, BOTH)),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcuts:
    """The longest piece each offcut can still give, by the ends it has left; and boards opened.

    ``caps`` holds four ascending lists: offcuts with the near end, with the far end, with both, and with
    neither.
    """

    boards: int = 0
    caps: tuple[Caps, Caps, Caps, Caps] = ((), (), (), ())

    def after(self, kind: int, piece: int, task: Task) -> "Offcuts":
        """Return the offcuts once a piece is cut from the tightest that gives it, or from a new board."""
        tightest, source, target = task.length_mm + 1, BOTH, BOTH
        for place, becomes in _FITS[kind]:
            at = bisect_left(self.caps[place], piece)
            if at < len(self.caps[place]) and self.caps[place][at] < tightest:
                tightest, source, target = self.caps[place][at], place, becomes
        caps = list(self.caps)
        boards = self.boards
        if tightest > task.length_mm:
            tightest, target, boards = task.length_mm, _FITS[kind][-1][1], boards + 1
        else:
            at = bisect_left(caps[source], tightest)
            caps[source] = caps[source][:at] + caps[source][at + 1 :]
        left = tightest - piece - task.kerf_mm
        if left >= task.shortest_mm:
            at = bisect_left(caps[target], left)
            caps[target] = (*caps[target][:at], left, *caps[target][at:])
        return Offcuts(boards=boards, caps=(caps[NEAR], caps[FAR], caps[BOTH], caps[NEITHER]))

    def spent(self, length_mm: int) -> int:
        """Return ten times the length used up; an offcut with a factory end counts as used by a tenth."""
        return 10 * self.boards * length_mm - 9 * sum(map(sum, self.caps[:NEITHER]))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    spent: int
    firsts: Caps
    offcuts: Offcuts


def lay_in_order(task: Task, *, width: int, choices: Sequence[Sequence[int]]) -> list[tuple[int, ...]]:
    """Lay run after run, keeping the ``width`` thriftiest ways so far; return the first pieces of each way.

    For every run the given choices of a first piece are tried, and those that use up an offcut exactly: as
    the first piece, or as the last. An empty answer means that the joints of some run could not be kept
    apart.

    Source: beam search; the kept offcuts are the usable leftovers of the cutting-stock literature (Pesquisa
    Operacional 35, 2015, 509-522).
    """
    neighbours = task.neighbours()
    ways = [_Laid(spent=0, firsts=(), offcuts=Offcuts())]
    for run in range(len(task.runs)):
        before = [other for other in neighbours[run] if other < run]
        found: dict[tuple[int, tuple[Caps, ...]], _Laid] = {}
        for way in ways:
            for first in _fitting(task, run, before, way, choices[run]):
                offcuts = _cut(task, run, first, way.offcuts)
                laid = _Laid(spent=offcuts.spent(task.length_mm), firsts=(*way.firsts, first), offcuts=offcuts)
                found.setdefault((first, offcuts.caps), laid)
        ways = heapq.nsmallest(width, found.values(), key=_spent)
    return [way.firsts for way in ways]


def _spent(way: _Laid) -> int:
    return way.spent


def _fitting(task: Task, run: int, before: Iterable[int], way: _Laid, choices: Sequence[int]) -> list[int]:
    near, far, both, _ = way.offcuts.caps
    length = task.runs[run].length_mm
    exact = {*far, *both, *((length - cap) % task.length_mm or task.length_mm for cap in (*near, *both))}
    fitting = [first for first in sorted(exact.difference(choices)) if task.allows(run, first)]
    fitting += choices
    for other in before:
        fitting = [first for first in fitting if task.apart(run, first, other, way.firsts[other])]
    return fitting


def _cut(task: Task, run: int, first: int, offcuts: Offcuts) -> Offcuts:
    cuts = task.cuts(run, first)
    for kind, piece in ((STARTER, cuts.starter), (CLOSER, cuts.closer), (INSERT, cuts.insert)):
        if piece:
            offcuts = offcuts.after(kind, piece, task)
    return Offcuts(boards=offcuts.boards + cuts.whole, caps=offcuts.caps)
