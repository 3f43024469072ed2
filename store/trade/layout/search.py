"""Laying a room with as few boards as can be found: ever better lays, the best last."""

import random
from collections.abc import Iterator
from dataclasses import dataclass

from store.errors import Refused
from store.trade.layout.bound import least_boards
from store.trade.layout.floor import Floor, floor_of_room
from store.trade.layout.improve import Shifting
from store.trade.layout.lay import Attempt, BoardSize, Lay, LayRules, Piece, Room, check_sizes, packs_of
from store.trade.layout.looks import looks_of
from store.trade.layout.mixed import least_mixed, mixed_ways
from store.trade.layout.offcuts import lay_in_order
from store.trade.layout.pieces import pieces_of
from store.trade.layout.place import Task
from store.trade.layout.polish import Polishing
from store.trade.layout.reach import leading_on, refusal, some_way
from store.trade.layout.strips import Strips, strips_of
from store.trade.outline import net_area_mm2

MOST_BOARDS = 20_000
STEP_MM = 50
WIDTHS = (1, 8, 24)
ROUNDS = (False, True, False, False)
CHUNKS = 4
SHIFTS = 2_500
RUNS_AT_FULL_WORK = 60
SEARCHED = 0.95
POLISH = 4_000
TIDY = 2_000


@dataclass(frozen=True, slots=True, kw_only=True)
class _Job:
    room: Room
    board: BoardSize
    floor: Floor
    strips: Strips
    task: Task
    least_boards: int

    def lay(self, firsts: tuple[int, ...]) -> Lay:
        return self.lay_of(pieces_of(self.task, firsts), ())

    def lay_of(self, pieces: tuple[Piece, ...], board_lengths_mm: tuple[int, ...]) -> Lay:
        boards = max(piece.board for piece in pieces)
        return Lay(
            boards=boards,
            board_lengths_mm=board_lengths_mm,
            packs=packs_of(self.board, boards, board_lengths_mm),
            net_area_mm2=net_area_mm2(self.room.outline, self.room.cut_outs),
            floor_area_mm2=self.floor.area_mm2,
            board=self.board,
            direction_deg=self.floor.direction_deg,
            least_boards=min(boards, self.least_boards),
            row_edges_mm=self.strips.edges_mm,
            pieces=pieces,
        )


def lay_room(room: Room, *, board: BoardSize, rules: LayRules, seed: int = 1) -> Lay:
    """Lay a room board by board and return the lay that needs the fewest boards of all that were tried.

    Raises:
        Refused: as ``search_lays``.

    >>> reading_room = Room(outline=((0, 0), (4880, 0), (4880, 2290), (0, 2290)), gap_mm=12)
    >>> oak = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
    >>> lay = lay_room(reading_room, board=oak, rules=LayRules(stagger_mm=400))
    >>> lay.rows, lay.boards, lay.packs, lay.proved_best
    (12, 31, 6, True)
    """
    best = None
    for attempt in search_lays(room, board=board, rules=rules, seed=seed):
        best = attempt.lay
    if best is None:
        raise Refused("This room could not be laid.")
    return best


def search_lays(room: Room, *, board: BoardSize, rules: LayRules, seed: int = 1) -> Iterator[Attempt]:
    """Yield lays of a room, each as good as the last or better, with the share of the search that is done.

    The floor is what the gap leaves of the room; rows of one board's width are cut from it, and every row
    into runs from wall to wall. Within a run all joints are factory ends, so boards follow one another
    whole from the first joint to the last: the length of the first piece settles the run. What is searched
    for is one such length for every run, so that joints in neighbouring rows stay apart and the cut pieces
    come out of the fewest boards.

    1. Run after run is laid, from the offcuts that lie about (one way, then the best 8 and 24 ways at a
       time).
    2. The best is improved by shifting one run at a time.
    3. That ends early when no lay could have fewer boards.
    4. The best is polished: joints in line with those two rows before, and stairs of joints, are shifted apart where
       that costs no board.

    The work is counted, not timed: the same room, board, rules and seed give the same lays. Packs that hold boards of
    several lengths are laid as in ``mixed.py``.

    Raises:
        Refused: a fault of the outline, a size that cannot be, a start that is no wall, no floor left by
            the gap, a
            floor of more than 20,000 boards, or rules that no lay can keep.
    """
    job = _job(room, board, rules)
    if board.lengths:
        yield from _from_mixed_packs(job, rules, seed)
        return
    chance = random.Random(seed)  # noqa: S311 - chance here must be repeatable, not secret
    seen: tuple[int, ...] = ()
    seen_best: tuple[int, ...] = ()
    best: Lay | None = None
    for firsts, done in _ways(job.task, job.least_boards, chance):
        if best is None or firsts != seen:
            lay, seen = job.lay(firsts), firsts
            if best is None or lay.boards < best.boards:
                best, seen_best = lay, firsts
        yield Attempt(lay=best, done=min(done, SEARCHED))
        if best.proved_best:
            break
    if best is not None:
        yield Attempt(lay=_polished(job, seen_best, best, chance), done=1.0)


def _polished(job: _Job, firsts: tuple[int, ...], best: Lay, chance: random.Random) -> Lay:
    """Return the best lay with fewer joints in line or in stairs, where that costs no board."""
    polishing = Polishing(job.task, firsts, chance, at_most=best.boards)
    share = RUNS_AT_FULL_WORK / max(RUNS_AT_FULL_WORK, len(job.task.runs))
    polishing.polish(int(POLISH * share))
    polishing.tidy(int(TIDY * share))
    lay = job.lay(polishing.firsts)
    looks, looked = (looks_of(one) for one in (lay, best))
    shows, showed = ((one.in_line + one.stairs, one.cut_lengths) for one in (looks, looked))
    return lay if lay.boards <= best.boards and shows < showed else best


def _from_mixed_packs(job: _Job, rules: LayRules, seed: int) -> Iterator[Attempt]:
    for way, done in mixed_ways(job.task, job.board, rules, seed):
        yield Attempt(lay=job.lay_of(way.pieces, way.board_lengths_mm), done=done)


def _job(room: Room, board: BoardSize, rules: LayRules) -> _Job:
    check_sizes(board, rules, room.gap_mm)
    floor = floor_of_room(room)
    if floor.area_mm2 > MOST_BOARDS * board.area_mm2:
        raise Refused(f"This floor takes more than {MOST_BOARDS:,} boards; lay it in fields.")
    strips = strips_of(floor, board.width_mm, rules.least_mm, room.line_mm)
    task = Task(
        runs=strips.runs,
        length_mm=board.length_mm,
        stagger_mm=rules.stagger_mm,
        shortest_mm=max(1, rules.shortest_mm),
        kerf_mm=rules.kerf_mm,
    )
    least = least_mixed(task, board) if board.lengths else least_boards(task)
    return _Job(room=room, board=board, floor=floor, strips=strips, task=task, least_boards=least)


def _ways(task: Task, least_boards: int, chance: random.Random) -> Iterator[tuple[tuple[int, ...], float]]:
    """Yield first pieces for all runs with the share of the work done, in the order they are found."""
    best: Shifting | None = None
    for share, firsts in _laid_in_order(task):
        way = Shifting(task, firsts, chance)
        if best is None or way.best_boards < best.best_boards:
            best = way
        yield firsts, share
    if best is None:
        raise Refused(refusal(task))
    times = SHIFTS * RUNS_AT_FULL_WORK // max(RUNS_AT_FULL_WORK, len(task.runs))
    steps = len(ROUNDS) * CHUNKS
    for step in range(steps):
        plainly = ROUNDS[step // CHUNKS]
        hot = (0.6 if plainly else 0.06) * (1 - step % CHUNKS / CHUNKS)
        best.shift(times, warm=hot, cool=hot / 3, enough=least_boards, plainly=plainly)
        yield best.best_firsts, 0.3 + 0.7 * (step + 1) / steps


def _laid_in_order(task: Task) -> Iterator[tuple[float, tuple[int, ...]]]:
    choices = [list(task.firsts(run, STEP_MM)) for run in range(len(task.runs))]
    if not all(choices):
        raise Refused(refusal(task))
    found = False
    for turn, width in enumerate(WIDTHS):
        if turn and width * len(task.runs) > RUNS_AT_FULL_WORK * WIDTHS[-1]:
            break
        for firsts in lay_in_order(task, width=width, choices=choices)[:1]:
            found = True
            yield 0.1 * (turn + 1), firsts
    if not found:
        choices = leading_on(task)
        ways = lay_in_order(task, width=WIDTHS[1], choices=choices)
        yield 0.3, ways[0] if ways else some_way(task, choices)
