"""A number of boards that no lay can beat, sharpened by prices on pieces."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from store.trade.layout.place import Task

MOST_ROUNDS = 80
MOST_STEPS = 6
MOST_KINDS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way to lay a run: its starter (0: none), whole boards, what its closer leaves (None: no closer)."""

    starter: int
    whole: int
    leaves: int | None


def least_boards(task: Task) -> int:
    """Return a number of boards no lay of these runs can beat; never less than ``Task.least_boards``.

    Give every starter of length s a price u(s) between 0 and 1 that does not fall as s grows, every closer
    c the price 1 − u(room beside it), every whole board the price 1, and inserts none. A starter fits
    beside a closer only if it is no longer than the room there, so no board's pieces cost more than 1, and
    a lay needs at least as many boards as its pieces cost. A run costs at least the cheapest of all ways to
    lay it. So if prices exist at which runs of each length cost at least y, then no lay needs fewer boards
    than the sum of all y, rounded up.

    Method: the plain bound says what a run of each length costs by length and kerf alone. It is asked
    whether runs can be priced so that the sum comes out just above the bound so far, by raising all lengths
    alike or one alone. "A run costs at least y, however it is laid" bounds one price by another, u(room) ≤
    u(starter) + a number, so the highest prices that keep all of it follow by going round until none falls
    any more (Bellman 1958, difference constraints). If none falls below nought, the prices exist and the
    bound is one higher. All in whole numbers.

    Source: duality of linear programming (textbook), worked out for this case here.

    >>> from store.trade.layout.strips import Run
    >>> runs = tuple(Run(row=row, left_mm=0, right_mm=6386) for row in range(18))
    >>> task = Task(runs=runs, length_mm=1900, stagger_mm=400, shortest_mm=300, kerf_mm=3)
    >>> task.least_boards(), least_boards(task)
    (61, 62)
    """
    least = task.least_boards()
    counts = Counter(run.length_mm for run in task.runs)
    if len(counts) > MOST_KINDS:
        return least
    ways = {task.runs[run].length_mm: run for run in range(len(task.runs))}
    kinds = [(length, counts[length], list(_ways(task, run))) for length, run in sorted(ways.items())]
    for _ in range(MOST_STEPS):
        if not any(_can_cost(task, kinds, costs, unit) for costs, unit in _above(task, kinds, least)):
            break
        least += 1
    return least


def _ways(task: Task, run: int) -> Iterator[_Way]:
    for first in task.firsts(run, 1):
        cuts = task.cuts(run, first)
        leaves = task.length_mm - task.kerf_mm - cuts.closer if cuts.closer else None
        if cuts.insert:
            yield _Way(starter=0, whole=0, leaves=None)
        else:
            yield _Way(starter=cuts.starter, whole=cuts.whole, leaves=leaves)


def _above(task: Task, kinds: list[tuple[int, int, list[_Way]]], least: int) -> Iterator[tuple[list[int], int]]:
    """Yield costs for runs of each kind that come to more than ``least`` boards, and the unit of cost.

    A kind that may be laid as one insert costs nothing, as inserts have no price.
    """
    unit = (task.length_mm + task.kerf_mm) * 1_000
    priced = [i for i, (_, _, ways) in enumerate(kinds) if _Way(starter=0, whole=0, leaves=None) not in ways]
    plain = [
        1_000 * (length + task.kerf_mm * -(-length // task.length_mm)) * (i in priced)
        for i, (length, _, _) in enumerate(kinds)
    ]
    missing = least * unit + 1 - sum(cost * count for cost, (_, count, _) in zip(plain, kinds, strict=True))
    groups = dict.fromkeys([tuple(priced), *((i,) for i in priced)]) if priced else {}
    for group in groups:
        raised = -(-missing // sum(kinds[i][1] for i in group))
        yield [cost + raised * (i in group) for i, cost in enumerate(plain)], unit


def _can_cost(task: Task, kinds: list[tuple[int, int, list[_Way]]], costs: list[int], unit: int) -> bool:
    """Tell whether prices exist at which every way to lay a run of each kind costs at least so much."""
    ties: list[tuple[int, int, int]] = []
    floors: list[tuple[int, int]] = []
    price = [unit] * (task.length_mm + 1)
    for cost, (_, _, ways) in zip(costs, kinds, strict=True):
        for way in ways:
            rest = way.whole * unit - cost
            leaves = way.leaves
            if leaves is None or leaves < 0:
                floors.append((way.starter, -rest - (unit if leaves is not None else 0)))
            elif way.starter:
                ties.append((leaves, way.starter, rest + unit))
            else:
                price[leaves] = min(price[leaves], rest + unit)
    if not _settle(price, ties):
        return False
    return price[0] >= 0 and all((price[starter] if starter else 0) >= least for starter, least in floors)


def _settle(price: list[int], ties: list[tuple[int, int, int]]) -> bool:
    """Lower the prices until every tie holds and none falls with length; False if they fall below nought."""
    for _ in range(MOST_ROUNDS):
        before = price.copy()
        for leaves, starter, more in ties:
            price[leaves] = min(price[leaves], price[starter] + more)
        for length in range(len(price) - 2, -1, -1):
            price[length] = min(price[length], price[length + 1])
        if price[0] < 0:
            return False
        if price == before:
            return True
    return False
