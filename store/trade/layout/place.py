"""Placing boards in a run: what the first piece's length makes of it, and where its joints come."""

from collections.abc import Iterator
from dataclasses import dataclass

from store.trade.layout.strips import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Cuts:
    """The pieces of one run: a starter, a closer or one insert (0 where there is none), and whole boards."""

    starter: int
    whole: int
    closer: int
    insert: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """Runs to be laid with boards of one length, and the rules joints and pieces keep, all in mm."""

    runs: tuple[Run, ...]
    length_mm: int
    stagger_mm: int
    shortest_mm: int
    kerf_mm: int

    def cuts(self, run: int, first: int) -> Cuts:
        """Return what a run is made of if its first piece is ``first`` long.

        >>> run = Run(row=0, left_mm=0, right_mm=4726)
        >>> Task(runs=(run,), length_mm=1900, stagger_mm=400, shortest_mm=300, kerf_mm=3).cuts(0, 971)
        Cuts(starter=971, whole=1, closer=1855, insert=0)
        """
        length = self.runs[run].length_mm
        if first == length < self.length_mm:
            return Cuts(starter=0, whole=0, closer=0, insert=length)
        whole, closer = divmod(length - first, self.length_mm)
        if first == self.length_mm:
            return Cuts(starter=0, whole=whole + 1, closer=closer, insert=0)
        return Cuts(starter=first, whole=whole, closer=closer, insert=0)

    def allows(self, run: int, first: int) -> bool:
        """Tell whether no piece of the run comes out too short or too long with this first piece."""
        length = self.runs[run].length_mm
        if first == length:
            return first <= self.length_mm
        if not self.shortest_mm <= first <= min(self.length_mm, length):
            return False
        closer = (length - first) % self.length_mm
        return closer == 0 or closer >= self.shortest_mm

    def joints(self, run: int, first: int) -> range:
        """Return where the joints of a run come, in mm along the row."""
        left = self.runs[run].left_mm
        return range(left + first, self.runs[run].right_mm, self.length_mm)

    def apart(self, run: int, first: int, other: int, others_first: int) -> bool:
        """Tell whether the joints of two runs in neighbouring rows keep the stagger."""
        stagger = self.stagger_mm
        offset = (self.runs[run].left_mm + first - self.runs[other].left_mm - others_first) % self.length_mm
        if stagger <= offset <= self.length_mm - stagger:
            return True
        joints = self.joints(other, others_first)
        for here in self.joints(run, first):
            for there in joints:
                if -stagger < here - there < stagger:
                    return False
        return True

    def neighbours(self, rows_off: int = 1) -> tuple[tuple[int, ...], ...]:
        """Return for each run the runs so many rows before and after it whose joints could come too near."""
        by_row: dict[int, list[int]] = {}
        for index, run in enumerate(self.runs):
            by_row.setdefault(run.row, []).append(index)
        return tuple(
            tuple(
                other
                for row in (run.row - rows_off, run.row + rows_off)
                for other in by_row.get(row, ())
                if self.runs[other].left_mm - self.stagger_mm < run.right_mm
                and run.left_mm - self.stagger_mm < self.runs[other].right_mm
            )
            for run in self.runs
        )

    def least_boards(self) -> int:
        """Return a number of boards no lay of these runs can beat.

        Let N boards be cut into P pieces. Every piece after a board's first costs a saw cut, so the pieces
        together with P − N kerfs come out of N board lengths: runs + kerf × (P − N) ≤ N × length, or N ≥
        (runs + kerf × P) ÷ (length + kerf). A run needs at least ⌈run ÷ length⌉ pieces. A run of exactly n
        whole boards needs one piece more if it is laid in any other way than whole board after whole board,
        and of two such neighbours whose joints would then meet at least one has to be: such pairs, no run
        in two of them, each add a piece. What is saved by nothing: rounding up.

        >>> run = Run(row=0, left_mm=0, right_mm=2850)
        >>> Task(runs=(run,) * 6, length_mm=1900, stagger_mm=400, shortest_mm=300, kerf_mm=3).least_boards()
        10
        """
        pieces = sum(-(-run.length_mm // self.length_mm) for run in self.runs) + self._clashes()
        total = sum(run.length_mm for run in self.runs)
        return -(-(total + self.kerf_mm * pieces) // (self.length_mm + self.kerf_mm))

    def _clashes(self) -> int:
        taken: set[int] = set()
        clashes = 0
        for index, others in enumerate(self.neighbours()):
            if self.runs[index].length_mm % self.length_mm or index in taken:
                continue
            for other in others:
                if other in taken or other < index or self.runs[other].length_mm % self.length_mm:
                    continue
                if not self.apart(index, self.length_mm, other, self.length_mm):
                    taken |= {index, other}
                    clashes += 1
                    break
        return clashes

    def firsts(self, run: int, step_mm: int) -> Iterator[int]:
        """Yield first pieces worth trying: a grid, a whole board first, a whole board last, one piece."""
        length = self.runs[run].length_mm
        tried = {*range(self.shortest_mm, self.length_mm, step_mm), self.length_mm, length}
        tried |= {
            length % self.length_mm,
            length - self.shortest_mm,
            (length - self.shortest_mm) % self.length_mm,
        }
        tried.add(self.shortest_mm)
        yield from (first for first in sorted(tried, reverse=True) if self.allows(run, first))
