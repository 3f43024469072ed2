"""Packs whose boards come in any length between two: how many a floor takes, and what is lost, without a cut list."""

import math
import random
from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

from store.errors import Refused
from store.trade.layout.floor import floor_of_room
from store.trade.layout.lay import BoardSize, LayRules, Room, check_sizes
from store.trade.layout.place import Task
from store.trade.layout.strips import Run, strips_of

TRIALS = 60
WORK = 60_000
FEWEST_TRIALS = 8
LAID_OUT = 12
MOST_DRAWN = 24
MOST_BOARDS = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class AnyLengths:
    """Boards of any length between two; those of a pack measure ``pack_run_mm`` end to end."""

    shortest_mm: int
    longest_mm: int
    width_mm: int
    pack_run_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class AsTheyCome:
    """What a floor of boards in any length takes.

    ``packs`` are enough with the confidence asked. The losses are in percent of the floor: on average, and the one that
    so many floors stay under. ``near_joints_percent`` is the share of joints that came nearer to one in the row before
    than the stagger, because no board laid out would do.
    """

    packs: int
    mean_loss_percent: float
    high_loss_percent: float
    near_joints_percent: float
    confidence_percent: float
    trials: int


def as_they_come(
    room: Room, *, boards: AnyLengths, rules: LayRules, confidence_percent: float = 90, seed: int = 1
) -> AsTheyCome:
    """Return the packs that a floor takes when nobody knows the boards' lengths before the packs are open.

    There is no cut list for such boards: the fitter lays out a dozen, and takes for each place the one that fits. This
    plays it through on this floor, over and over, with boards drawn at random:

    1. a row begins with an offcut of an earlier row if one keeps the joints apart, else with a board;
    2. it goes on with boards laid out whose joints keep the stagger, and that leave no piece too short;
    3. it ends with the shortest board that reaches the wall, whose far end is kept as an offcut.

    All lengths between the two are taken to be equally likely, which is rough: real packs differ, and only opening them
    tells. The boards opened in the trials, sorted, give the packs for the confidence asked.

    Raises:
        Refused: a size that cannot be, a floor that cannot be, or a confidence outside 50 to 99 %.

    Source: derived here (repeated trials, a textbook method); no published source.
    """
    _check(boards, rules, room.gap_mm, confidence_percent)
    floor = floor_of_room(room)
    if floor.area_mm2 > MOST_BOARDS * boards.longest_mm * boards.width_mm:
        raise Refused(f"This floor takes more than {MOST_BOARDS:,} boards; lay it in fields.")
    strips = strips_of(floor, boards.width_mm, rules.least_mm, room.line_mm)
    task = Task(
        runs=strips.runs,
        length_mm=boards.longest_mm,
        stagger_mm=rules.stagger_mm,
        shortest_mm=max(1, rules.shortest_mm),
        kerf_mm=rules.kerf_mm,
    )
    pieces = sum(2 + run.length_mm // boards.shortest_mm for run in task.runs)
    trials = max(FEWEST_TRIALS, min(TRIALS, WORK // pieces))
    neighbours = task.neighbours()
    done = [_Trial(task, boards, random.Random(f"{seed}/{trial}")) for trial in range(trials)]  # noqa: S311
    for one in done:
        one.lay_all(neighbours)
    opened = sorted(one.opened_mm for one in done)
    enough = opened[math.ceil(trials * confidence_percent / 100) - 1]
    joints = sum(one.joints for one in done)
    return AsTheyCome(
        packs=-(-enough // boards.pack_run_mm),
        mean_loss_percent=_loss(sum(opened) / trials, boards, floor.area_mm2),
        high_loss_percent=_loss(enough, boards, floor.area_mm2),
        near_joints_percent=100 * sum(one.too_near for one in done) / joints if joints else 0.0,
        confidence_percent=confidence_percent,
        trials=trials,
    )


def _check(boards: AnyLengths, rules: LayRules, gap_mm: int, confidence_percent: float) -> None:
    size = BoardSize(length_mm=boards.longest_mm, width_mm=boards.width_mm, boards_per_pack=1)
    check_sizes(size, rules, gap_mm)
    if not 0 < boards.shortest_mm < boards.longest_mm:
        raise Refused("The shortest board must be more than 0 and shorter than the longest.")
    if boards.pack_run_mm < boards.shortest_mm:
        raise Refused("The boards of a pack measure at least one board end to end.")
    if not 50 <= confidence_percent <= 99:
        raise Refused("The confidence is from 50 to 99 %.")


def _loss(opened_mm: float, boards: AnyLengths, floor_mm2: float) -> float:
    return 100 * (opened_mm * boards.width_mm - floor_mm2) / floor_mm2


class _Trial:
    """One floor laid with boards drawn at random; counts what is opened and what could not be kept."""

    def __init__(self, task: Task, boards: AnyLengths, chance: random.Random) -> None:
        self._task, self._boards, self._chance = task, boards, chance
        self._laid_out: list[int] = []
        self._offcuts: list[int] = []
        self.opened_mm = self.joints = self.too_near = 0

    def lay_all(self, neighbours: Sequence[Sequence[int]]) -> None:
        joints: list[list[int]] = []
        for run, others in enumerate(neighbours):
            before = sorted(joint for other in others if other < run for joint in joints[other])
            joints.append(self._lay(self._task.runs[run], before))

    def _lay(self, run: Run, before: list[int]) -> list[int]:
        here, joints = run.left_mm, list[int]()
        first = self._offcut_for(run, before)
        while True:
            rest = run.right_mm - here
            if first is None and self._ends(rest):
                return joints
            here += first or self._next(here, rest, before)
            first = None
            joints.append(here)

    def _offcut_for(self, run: Run, before: list[int]) -> int | None:
        for place in reversed(range(len(self._offcuts))):
            size = self._offcuts[place]
            if run.length_mm - size >= self._task.shortest_mm and self._is_apart(run.left_mm + size, before):
                self.joints += 1
                return self._offcuts.pop(place)
        return None

    def _ends(self, rest: int) -> bool:
        """End a run with an offcut or the shortest board that reaches; False where none laid out does."""
        self._lay_out()
        at = bisect_left(self._laid_out, rest)
        if at == len(self._laid_out):
            return False
        size = self._laid_out.pop(at)
        self.opened_mm += size
        left = size - rest - self._task.kerf_mm
        if left >= self._task.shortest_mm:
            insort(self._offcuts, left)
        return True

    def _next(self, here: int, rest: int, before: list[int]) -> int:
        """Take the next board of a run: one laid out that fits, or more are drawn; at last any, and that is counted."""
        self.joints += 1
        fitting: list[int] = []
        for _ in range(MOST_DRAWN):
            fitting = [size for size in self._laid_out if rest - size >= self._task.shortest_mm]
            apart = [size for size in fitting if self._is_apart(here + size, before)]
            if apart:
                return self._open(apart[int(self._chance.random() * len(apart))])
            insort(self._laid_out, self._drawn())
        self.too_near += 1
        if fitting:
            return self._open(fitting[-1])
        self._open(self._laid_out[0])  # is cut to what the run still takes
        return max(1, rest - self._task.shortest_mm)

    def _open(self, size: int) -> int:
        self._laid_out.remove(size)
        self.opened_mm += size
        return size

    def _lay_out(self) -> None:
        while len(self._laid_out) < LAID_OUT:
            insort(self._laid_out, self._drawn())

    def _drawn(self) -> int:
        return self._chance.randint(self._boards.shortest_mm, self._boards.longest_mm)

    def _is_apart(self, joint: int, before: list[int]) -> bool:
        at = bisect_left(before, joint - self._task.stagger_mm + 1)
        return at == len(before) or before[at] >= joint + self._task.stagger_mm
