"""Laying a floor from packs that hold boards of several lengths, with as few packs as can be found."""

import random
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import partial

from store.errors import Refused
from store.trade.layout.compose import Composer, Way
from store.trade.layout.lay import BoardSize, LayRules, Piece, pack_boards
from store.trade.layout.looks import NEAR_MM
from store.trade.layout.place import Task
from store.trade.layout.stock import WHOLE, Stock

STARTS = 12
RUNS_AT_FULL_WORK = 60
MORE_PACKS = 4
IN_LINE_MM = 60
MOST_NODES = 260
AT_FIRST = 60
"""How many ways on are looked at for a run; few at first, so that there soon is something to look at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedWay:
    """All pieces of a floor in laying order, and the length of each board by its number, in mm."""

    pieces: tuple[Piece, ...]
    board_lengths_mm: tuple[int, ...]


def least_mixed(task: Task, board: BoardSize) -> int:
    """Return a number of boards, in whole packs' terms, that no lay of these runs can beat.

    A pack of B boards measures M mm end to end. If a lay takes u boards of a length of which a pack holds n, its
    packs, in fractions, are x = max(u ÷ n). All boards taken measure no more than x·M, and at least what the runs
    measure, so x ≥ runs ÷ M, and x·B boards ≥ runs × B ÷ M, rounded up. Derived here.
    """
    runs = sum(run.length_mm for run in task.runs)
    pack = sum(length * count for length, count in board.in_pack)
    return -(-runs * board.boards_per_pack // pack)


def mixed_ways(task: Task, board: BoardSize, rules: LayRules, seed: int) -> Iterator[tuple[MixedWay, float]]:
    """Yield ever better lays of runs from packs of several lengths, with the share of the search that is done.

    The floor is laid run by run, as a fitter does it. For each run several ways are tried that keep its joints away
    from those of the row before; taken is the one that opens the least new board, where an offcut that can still
    begin or end a run counts as board not lost, the less so the nearer the end of the floor. Lengths that are used up
    faster than their share of the pack count as dearer. That is repeated with other chances, in supplies of so many
    packs and, once it has been done, of one pack fewer, down to the fewest packs that can hold the floor.

    The work is counted, not timed. Source: greedy randomised construction with restarts (GRASP, Journal of Global
    Optimization 6, 1995, 109-133), from memory; the rules are this floor's.

    Raises:
        Refused: no lay was found that keeps the rules.
    """
    least_packs = -(-least_mixed(task, board) // board.boards_per_pack)
    best: MixedWay | None = None
    merit: tuple[int, int] = (0, 0)
    starts = max(3, STARTS * RUNS_AT_FULL_WORK // max(RUNS_AT_FULL_WORK, len(task.runs)))
    for turn in range(starts):
        for packs in _packs_to_try(best, board, least_packs, turn):
            chance = random.Random(f"{seed}/{packs}/{turn}")  # noqa: S311 - repeatable, not secret
            found = _lay(task, board, rules, packs, chance, MOST_NODES if turn else AT_FIRST)
            if found is None:
                continue
            here = (pack_boards(board, len(found.board_lengths_mm), found.board_lengths_mm), _run_of(found))
            here_packs, best_packs = (-(-count // board.boards_per_pack) for count in (here[0], merit[0]))
            if best is None or (here_packs, here[1]) < (best_packs, merit[1]):
                best, merit = found, here
            break
        if best is not None:
            yield best, (turn + 1) / starts
    if best is None:
        raise Refused(
            f"With these packs no lay was found that keeps joints {rules.stagger_mm} mm apart and pieces "
            f"{rules.shortest_mm} mm long or more; allow less."
        )


def _run_of(way: MixedWay) -> int:
    return sum(way.board_lengths_mm)


def _packs_to_try(best: MixedWay | None, board: BoardSize, least_packs: int, turn: int) -> Iterator[int]:
    if best is None:
        more = MORE_PACKS + least_packs // 4
        yield from range(least_packs + min(turn, 1), least_packs + more + 1)
        return
    have = -(-pack_boards(board, len(best.board_lengths_mm), best.board_lengths_mm) // board.boards_per_pack)
    if have > least_packs:
        yield have - 1
    yield have


@dataclass(slots=True, kw_only=True)
class _Floor:
    task: Task
    board: BoardSize
    stock: Stock
    composer: Composer
    supply: dict[int, int]
    pieces: list[Piece] = field(default_factory=list)
    joints: list[tuple[int, ...]] = field(default_factory=list)
    laid_mm: int = 0
    whole_mm: int = 0


def _lay(
    task: Task, board: BoardSize, rules: LayRules, packs: int, chance: random.Random, most_nodes: int
) -> MixedWay | None:
    """Lay all runs from so many packs, or return None where the boards or the ways run out."""
    floor = _Floor(
        task=task,
        board=board,
        stock=Stock.of_packs(packs, dict(board.in_pack), rules.kerf_mm, rules.shortest_mm),
        composer=Composer(
            lengths=[length for length, _ in board.in_pack],
            stagger_mm=rules.stagger_mm,
            shortest_mm=max(1, rules.shortest_mm),
            chance=chance,
            most_nodes=most_nodes,
        ),
        supply={length: packs * count for length, count in board.in_pack},
        whole_mm=sum(run.length_mm for run in task.runs),
    )
    two_before = task.neighbours(2)
    for run, neighbours in enumerate(task.neighbours()):
        near = sorted(joint for other in neighbours if other < run for joint in floor.joints[other])
        left, right = task.runs[run].left_mm, task.runs[run].right_mm
        ways = floor.composer.ways(left, right, near, floor.stock)
        if not ways:
            return None
        in_line = sorted(joint for other in two_before[run] if other < run for joint in floor.joints[other])
        _put_down(floor, run, min(ways, key=partial(_cost, floor, in_line)))
    return MixedWay(pieces=tuple(floor.pieces), board_lengths_mm=tuple(floor.stock.opened))


def _cost(floor: _Floor, in_line: Sequence[int], way: Way) -> float:
    """Return what a way costs, in mm of board: opened, less what stays usable, and more for lengths that run short.

    A joint in line with one two rows before costs as much as ``IN_LINE_MM`` of board.
    """
    stock, done = floor.stock, floor.laid_mm / floor.whole_mm
    worth = 0.97 * (1 - done**6)
    cost = 0.0
    for kept, length, source, size in way.cuts:
        if source == WHOLE:
            cost += size * (1 + 0.25 * _overdrawn(floor, size))
            rest = size - length - stock.kerf_mm
        else:
            cost += size * worth
            rest = size - length - stock.kerf_mm if kept != source else 0
        if rest >= stock.shortest_mm:
            cost -= rest * worth
    for joint in way.joints if in_line else ():
        at = bisect_left(in_line, joint - NEAR_MM + 1)
        if at < len(in_line) and in_line[at] < joint + NEAR_MM:
            cost += IN_LINE_MM
    return cost + floor.composer.chance.random() * 40


def _overdrawn(floor: _Floor, length: int) -> float:
    """Return by how much more of a length is gone than of the floor is laid, as a share of all there is of it."""
    whole = floor.supply[length]
    return (whole - floor.stock.left[length] + 1) / whole - floor.laid_mm / floor.whole_mm


def _put_down(floor: _Floor, run: int, way: Way) -> None:
    here = floor.task.runs[run].left_mm
    for kept, length, source, size in way.cuts:
        taken = floor.stock.take(kept, length, source, size)
        floor.pieces.append(
            Piece(
                row=floor.task.runs[run].row,
                from_mm=here,
                to_mm=here + length,
                board=taken.board,
                board_from_mm=taken.low_mm,
                board_to_mm=taken.high_mm,
            )
        )
        here += length
    floor.joints.append(way.joints)
    floor.laid_mm += floor.task.runs[run].length_mm
