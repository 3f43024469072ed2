"""The search for a cutting list with fewer sticks, bounded by work and never by the clock.

Lengths, room, counts and fills are those of trims_bounds.
"""

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import accumulate

from store.trade.trims_bounds import Pattern, PricedSticks, Taken, by_length, by_long_pieces
from store.trade.trims_refill import Sticks, falling, filled_again, settled
from store.trade.trims_steps import Steps

FILLS_AT_ONCE = 3_000
DIVES = 4
QUICK = 120_000  # steps of a search for the last pieces
SMALL = 30  # pieces few enough to be searched through
FILL = 4  # steps of one fill looked at
# What a stage may take of the steps still left, one part in so many: the cheapest comes first and mostly does.
REFILL_FIRST = 10
A_PIECE = 250  # steps for each piece let the sticks be filled some times over; at most half of all
SEARCH = 6
SEARCH_TIGHT = 1.5  # where next to nothing may be left over, few fills do
PRICES = 1.25
REFILL_LATER = 2


def fewest(pieces: Sequence[int], room: int, steps: Steps) -> tuple[Sticks, int]:
    """The best sticks found, and a number of sticks that no list can beat.

    Method: settle the sticks that a best list may be taken to have, and list the rest. Take the better of first-fit
    and best-fit falling. While the floor is lower, look for a list with each number of sticks from the floor upwards; a
    number that is looked through without success raises the floor, and so do the prices of the pieces.
    """
    first, rest = settled(pieces, room)
    if not rest:
        return first, len(first)
    found, floor = _fewest(rest, room, steps)
    return first + found, len(first) + floor


def _fewest(pieces: Sequence[int], room: int, steps: Steps) -> tuple[Sticks, int]:
    best = min(falling(pieces, room, best_fit=False), falling(pieces, room, best_fit=True), key=len)
    wanted = Counter(pieces)
    lengths = sorted(wanted, reverse=True)
    counts = tuple(wanted[length] for length in lengths)
    floor = max(by_length(lengths, counts, room), by_long_pieces(lengths, counts, room))
    if floor == len(best):
        return best, floor
    share = max(steps.left // REFILL_FIRST, min(steps.left // 2, A_PIECE * len(pieces)))
    again = filled_again(pieces, room, floor, steps.part(share))
    best = min(best, again, key=len)
    if floor == len(best):
        return best, floor
    for_prices = steps.part(int(steps.left / PRICES))
    # prices come sooner when good fills are there from the start
    cuts = [] if PricedSticks.is_too_much(len(lengths), for_prices) else [Counter(stick) for stick in again]
    known = [tuple(cut[length] for length in lengths) for cut in cuts]
    priced = PricedSticks(lengths, counts, room, for_prices, known)
    target = floor
    while target < len(best) and not steps.are_out:
        found, searched = _look(priced, target, len(best), steps)
        if found is not None and len(found) < len(best):
            best = found
        if len(best) <= target:
            return best, floor
        target += 1
        if searched and floor == target - 1:
            floor = target
        floor = max(floor, priced.least)
        target = max(target, floor)
    return best, floor


def _look(priced: PricedSticks, sticks: int, enough: int, steps: Steps) -> tuple[Sticks | None, bool]:
    """A list of so many sticks or a few more, and whether no list has so few: search, prices, filling again, dives."""
    total = sum(length * count for length, count in zip(priced.lengths, priced.counts, strict=True))
    tight = sticks * priced.room - total < priced.room // 100
    search = _Search(priced.lengths, priced.room, steps.part(int(steps.left / (SEARCH_TIGHT if tight else SEARCH))))
    found = search.look(priced.counts, sticks)
    if found is not None or search.finished:
        return found, search.finished
    priced.improve(enough)
    if priced.least > sticks:
        return None, True
    pieces = [length for length, count in zip(priced.lengths, priced.counts, strict=True) for _ in range(count)]
    # by another chance than the first time, which led nowhere
    again = filled_again(pieces, priced.room, sticks, steps.part(steps.left // REFILL_LATER), seed=sticks)
    if len(again) <= sticks:
        return again, False
    found = _dives(priced, sticks, steps) if priced.is_best else None
    if found is None:
        search = _Search(priced.lengths, priced.room, steps.part(steps.left))
        found = search.look(priced.counts, sticks)
    return (again if found is None else found), found is None and search.finished


def _dives(priced: PricedSticks, sticks: int, steps: Steps) -> Sticks | None:
    for turn in range(DIVES):
        found = _dive(priced, sticks, turn, steps)
        if found is not None:
            return found
    return None


def _sticks(fills: Sequence[Pattern], lengths: Sequence[int]) -> Sticks:
    return [[length for length, n in zip(lengths, fill, strict=True) for _ in range(n)] for fill in fills]


def _dive(priced: PricedSticks, sticks: int, turn: int, steps: Steps) -> Sticks | None:
    """Cut the whole uses of the priced fills, or the fullest one; price the rest again; search the last few.

    From the second turn on, one step takes the next fullest fill instead.
    """
    rest, fills = priced.counts, list[Pattern]()
    step = 0
    while any(rest):
        if steps.are_out or priced.is_too_long:
            return None
        if len(fills) + priced.least > sticks:
            return None
        if sum(rest) <= SMALL:
            found = _Search(priced.lengths, priced.room, steps.part(QUICK)).look(rest, sticks - len(fills))
            if found is not None:
                return _sticks(fills, priced.lengths) + found
        whole = [(fill, int(uses + 1e-6)) for fill, uses in zip(priced.fills, priced.uses, strict=True)]
        if not any(times for _, times in whole):
            order = sorted(range(len(whole)), key=lambda j: -priced.uses[j])
            whole = [(priced.fills[order[step == turn - 1]], 1)]
            step += 1
        for fill, times in whole:
            for _ in range(times):
                cut = tuple(min(n, r) for n, r in zip(fill, rest, strict=True))
                if any(cut):
                    fills.append(cut)
                    rest = tuple(r - n for r, n in zip(rest, cut, strict=True))
        priced = PricedSticks(priced.lengths, rest, priced.room, steps.part(steps.left), priced.known)
        priced.improve(len(rest) + sum(rest))
    return _sticks(fills, priced.lengths) if len(fills) <= sticks else None


@dataclass(slots=True)
class _Search:
    """Stick after stick: the longest piece left must be somewhere, so try every fill that holds it.

    Three things keep it short. What all sticks together may waste is known, so a fill that wastes more
    is out. A fill is out if a piece still left could stand in the place of shorter ones in it: the
    changed list is as good, and the changed fill is tried anyway. And pieces left that once could not be
    cut from so many sticks are not tried again.
    """

    lengths: Sequence[int]
    room: int
    steps: Steps
    finished: bool = True
    failed: dict[Pattern, int] = field(default_factory=dict)

    def look(self, counts: Pattern, sticks: int) -> Sticks | None:
        """A list of at most so many sticks, or None; ``finished`` says whether None is a proof."""
        if not any(counts):
            return []
        if not self._may_fit(counts, sticks):
            return None
        path: list[tuple[Pattern, Iterator[Pattern], Pattern]] = [(counts, self._tried(counts, sticks), ())]
        while path:
            now, fills, _ = path[-1]
            spare = sticks - len(path)
            fill = next(fills, None)
            if fill is None:
                if self.finished:
                    self.failed[now] = max(self.failed.get(now, 0), spare + 1)
                path.pop()
                continue
            rest = tuple(n - m for n, m in zip(now, fill, strict=True))
            if not any(rest):
                return _sticks([*(cut for _, _, cut in path[1:]), fill], self.lengths)
            self.steps.take(8 + len(now) // 2)
            if self.steps.are_out:
                self.finished = False
                return None
            if self._may_fit(rest, spare):
                path.append((rest, self._tried(rest, spare), fill))
        return None

    def _may_fit(self, counts: Pattern, sticks: int) -> bool:
        if self.failed.get(counts, 0) >= sticks or by_length(self.lengths, counts, self.room) > sticks:
            return False
        return by_long_pieces(self.lengths, counts, self.room) <= sticks

    def _tried(self, counts: Pattern, sticks: int) -> Iterator[Pattern]:
        """The fills that hold the longest piece left, least waste first."""
        spare = sticks * self.room - sum(w * n for w, n in zip(self.lengths, counts, strict=True))
        found = sorted(self._fills(counts, spare), key=lambda one: one[0])
        for _, taken in found:
            held = dict(taken)
            yield tuple(held.get(i, 0) for i in range(len(counts)))

    def _fills(self, counts: Pattern, spare: int) -> Iterator[tuple[int, Taken]]:
        """Each fill that wastes no more than may be wasted and holds its own, after its waste."""
        lengths = self.lengths
        kinds = [i for i, n in enumerate(counts) if n]
        rising = [-lengths[i] for i in kinds]
        after = [*accumulate((lengths[i] * counts[i] for i in reversed(kinds)), initial=0)][::-1]
        first = kinds[0]
        todo: list[tuple[int, int, Taken]] = [
            (1, self.room - n * lengths[first], ((first, n),))
            for n in range(1, min(counts[first], self.room // lengths[first]) + 1)
        ]
        for _ in range(FILLS_AT_ONCE):
            if not todo:
                return
            self.steps.take(FILL)
            if self.steps.are_out:
                break
            place, left, taken = todo.pop()
            if left <= spare and self._holds_its_own(counts, taken, left):
                yield left, taken
            start = max(place, bisect_left(rising, -left))
            # where only one more piece can follow, it must be long enough to bring the waste down
            end = bisect_right(rising, spare - left) if left + 2 * rising[-1] < 0 else len(kinds)
            for at in range(start, end):
                if left - after[at] > spare:
                    break
                i = kinds[at]
                todo.extend(
                    (at + 1, left - n * lengths[i], (*taken, (i, n)))
                    for n in range(1, min(counts[i], left // lengths[i]) + 1)
                )
        self.finished = False

    def _holds_its_own(self, counts: Pattern, taken: Taken, left: int) -> bool:
        """Would no piece still left fit in the rest, or in the place of one or two shorter ones?"""
        lengths = self.lengths
        used = dict(taken)
        free = [i for i in range(taken[0][0], len(counts)) if counts[i] > used.get(i, 0)]
        self.steps.take(2 + len(counts) // 8 + len(free) // 4)
        if free and lengths[free[-1]] <= left:
            return False
        # the longest piece of the stick keeps its place: it is the one the search stands on
        movable = [(i, n - (i == taken[0][0])) for i, n in taken]
        movable = [(i, n) for i, n in movable if n]
        singles = [lengths[i] for i, _ in movable]
        doubles = [
            lengths[i] + lengths[j] for a, (i, n) in enumerate(movable) for j, _ in movable[a if n > 1 else a + 1 :]
        ]
        for i in free:
            length = lengths[i]
            if any(short < length <= short + left for short in singles):
                return False
            if any(two <= length <= two + left for two in doubles):
                return False
        return True
