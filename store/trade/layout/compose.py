"""Ways to lay one run from boards of several lengths, its joints away from those of the row before."""

import random
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from store.trade.layout.stock import FAR, MIDDLE, NEAR, WHOLE, Stock, Stretch

Cut = tuple[str, int, str, int]
"""How a piece is got: the ends it keeps, its length, what it is cut from, and the length of that."""

STEP_MM = 50
NODES_A_START = 40
MOST_WAYS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to lay a run: its pieces in order, and where its joints come."""

    cuts: tuple[Cut, ...]
    joints: tuple[int, ...]


@dataclass(slots=True, kw_only=True)
class Composer:
    """Finds ways to lay a run; how many are looked at is counted, so that the same run gives the same ways."""

    lengths: Sequence[int]
    stagger_mm: int
    shortest_mm: int
    chance: random.Random
    most_nodes: int

    def ways(self, left_mm: int, right_mm: int, near_joints: Sequence[int], stock: Stock) -> list[Way]:
        """Return ways to lay a run, none with a joint nearer than the stagger to one of ``near_joints``."""
        run = _Run(composer=self, left_mm=left_mm, right_mm=right_mm, near_joints=near_joints, stock=stock)
        return run.found()


@dataclass(slots=True, kw_only=True)
class _Run:
    composer: Composer
    left_mm: int
    right_mm: int
    near_joints: Sequence[int]
    stock: Stock
    nodes: int = 0

    def found(self) -> list[Way]:
        length = self.right_mm - self.left_mm
        ways = [Way(cuts=(cut,), joints=()) for cut in self._in_one(length)]
        nodes = self.composer.most_nodes
        for first in self._starters(length):
            if nodes <= 0 and ways:
                break
            self.nodes = NODES_A_START
            ways += self._from(first, length)[:MOST_WAYS]
            nodes -= NODES_A_START - max(0, self.nodes)
        return ways

    def _in_one(self, length: int) -> Iterator[Cut]:
        stock = self.stock
        if stock.left.get(length, 0):
            yield WHOLE, length, WHOLE, length
            return
        for source, heap in ((FAR, stock.far), (NEAR, stock.near)):
            stretch = _tightest(heap, length)
            if stretch is not None:
                yield MIDDLE, length, source, stretch[0]
        fitting = [one for one in self.composer.lengths if one > length and stock.left[one]]
        if fitting:
            yield MIDDLE, length, WHOLE, min(fitting)

    def _starters(self, length: int) -> Iterator[Cut]:
        """Yield first pieces: offcuts as they are, whole boards, then pieces cut to length."""
        shortest, stock = self.composer.shortest_mm, self.stock
        longest = length - 1 if length - shortest < shortest else length - shortest
        ready = sorted({stretch[0] for stretch in stock.far if shortest <= stretch[0] <= longest}, reverse=True)
        begun = [(FAR, size, FAR, size) for size in ready]
        whole = [(WHOLE, one, WHOLE, one) for one in self.composer.lengths if one < length and stock.left[one]]
        self.composer.chance.shuffle(begun)
        self.composer.chance.shuffle(whole)
        yield from (cut for cut in begun[:8] + whole if self._may_join(self.left_mm + cut[1]))
        trimmed = list(range(shortest, min(longest, max(self.composer.lengths)) + 1, STEP_MM))
        self.composer.chance.shuffle(trimmed)
        for size in trimmed[:14]:
            if self._may_join(self.left_mm + size):
                yield from self._cut_to(FAR, size)

    def _cut_to(self, kept: str, size: int) -> Iterator[Cut]:
        """Yield where a piece with one factory end can be cut from: the tightest offcut, the boards in packs."""
        stretch = _tightest(self.stock.far if kept == FAR else self.stock.near, size)
        if stretch is not None:
            yield kept, size, kept, stretch[0]
        for one in self.composer.lengths:
            if one > size and self.stock.left[one]:
                yield kept, size, WHOLE, one

    def _from(self, first: Cut, length: int) -> list[Way]:
        used = {first[3]: 1} if first[2] == WHOLE else {}
        found: list[Way] = []
        self._go_on([first], [self.left_mm + first[1]], length - first[1], used, found)
        return found

    def _go_on(self, cuts: list[Cut], joints: list[int], rest: int, used: dict[int, int], found: list[Way]) -> None:
        self.nodes -= 1
        if self.nodes <= 0 or len(found) >= MOST_WAYS:
            return
        found += [Way(cuts=(*cuts, last), joints=tuple(joints)) for last in self._closers(rest, used)]
        onward = [
            one
            for one in self.composer.lengths
            if rest - one >= self.composer.shortest_mm
            and self.stock.left[one] > used.get(one, 0)
            and self._may_join(joints[-1] + one)
        ]
        self.composer.chance.shuffle(onward)
        for one in onward:
            used[one] = used.get(one, 0) + 1
            self._go_on([*cuts, (WHOLE, one, WHOLE, one)], [*joints, joints[-1] + one], rest - one, used, found)
            used[one] -= 1

    def _closers(self, rest: int, used: dict[int, int]) -> Iterator[Cut]:
        if self.stock.left.get(rest, 0) > used.get(rest, 0):
            yield WHOLE, rest, WHOLE, rest
        elif self.composer.shortest_mm <= rest < self.composer.lengths[0]:
            for cut in self._cut_to(NEAR, rest):
                if cut[2] != WHOLE or self.stock.left[cut[3]] > used.get(cut[3], 0):
                    yield cut

    def _may_join(self, at: int) -> bool:
        place = bisect_left(self.near_joints, at - self.composer.stagger_mm + 1)
        return place == len(self.near_joints) or self.near_joints[place] >= at + self.composer.stagger_mm


def _tightest(heap: list[Stretch], length: int) -> Stretch | None:
    at = bisect_left(heap, (length,))
    return heap[at] if at < len(heap) else None
