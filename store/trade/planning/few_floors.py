"""The fewest days late that any plan of a few floors can have, found by looking at every plan that could be better."""

from collections.abc import Sequence

from store.trade.planning.placing import Placing, Spot

MOST_FLOORS = 6
MOST_FITTERS = 3
MOST_STEPS = 60_000


class FewFloors:
    """Every plan of a few floors, as far as it can be better than the best so far.

    Days late never fall when a floor is done later, so a best plan is found among those in which each fitter lays some
    floors in some order, each as early as it goes. They are built by adding floors in order of their start, so that
    none is built twice. A plan half built is left as soon as the floors still to come, each begun as if it were the
    next, make it no better than the best (branch and bound; Land and Doig 1960, from memory).
    """

    def __init__(self, placing: Placing, free: Sequence[int], taken: Sequence[int], fixed_late: Sequence[int]) -> None:
        self.placing, self.free = placing, tuple(free)
        self.next, self.taken = [0] * len(placing.fitters), list(taken)
        self.late = list(fixed_late)
        self.found: list[tuple[int, int]] | None = None
        self.steps = 0
        self._way: list[tuple[int, int]] = []

    def better_than(self, days_late: int) -> list[tuple[int, int]] | None:
        """Return floors with their fitters, in order, of a plan with fewest days late, if below ``days_late``."""
        self.found, self.best, self.steps = None, days_late, 0
        self._look(frozenset(self.free), (0, -1))
        return self.found

    def _look(self, left: frozenset[int], begun: tuple[int, int]) -> None:
        self.steps += 1
        if self.steps > MOST_STEPS or self._least(left) >= self.best:
            return
        if not left:
            self.best, self.found = sum(self.late), list(self._way)
            return
        ways: list[tuple[int, int, int, Spot]] = []
        for number in left:
            for who in self.placing.able[number]:
                spot = self.placing.earliest(number, who, self.taken[who], self.next[who])
                if spot is not None:
                    start = self.placing.own[who][spot.first]
                    if (start, number) > begun:
                        ways.append((start, number, who, spot))
        for start, number, who, spot in sorted(ways, key=lambda way: way[:3]):
            job, before = self.placing.job_of[number], self.next[who]
            was = self.late[job]
            self.next[who] = spot.first + spot.count
            self.late[job] = max(was, self.placing.days_late(number, self.placing.end_of(spot)))
            self._way.append((number, who))
            self._look(left - {number}, (start, number))
            self._way.pop()
            self.next[who], self.late[job] = before, was

    def _least(self, left: frozenset[int]) -> int:
        """Days late that no plan going on from here can avoid."""
        late = list(self.late)
        for number in left:
            least: int | None = None
            for who in self.placing.able[number]:
                spot = self.placing.earliest(number, who, self.taken[who], self.next[who])
                if spot is not None:
                    days = self.placing.days_late(number, self.placing.end_of(spot))
                    least = days if least is None else min(least, days)
            if least is None:
                return self.best
            job = self.placing.job_of[number]
            late[job] = max(late[job], least)
        return sum(late)
