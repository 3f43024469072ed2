"""From the first piece of every run to the pieces of a whole lay, each with its board."""

from collections.abc import Iterator, Sequence

from store.trade.layout.lay import Piece
from store.trade.layout.place import Task
from store.trade.layout.sharing import Share, Wanted, shared_out

Slot = tuple[int, int, int]


def pieces_of(task: Task, firsts: Sequence[int]) -> tuple[Piece, ...]:
    """Return the pieces of a lay, row by row from left to right; boards are numbered as they are needed.

    A closer is cut from its board's near end, a starter from its far end, inserts one after another from
    behind the closer, each behind a kerf.
    """
    slots = _slots_of_cut_pieces(task, firsts)
    pieces: list[Piece] = []
    numbers: dict[int, int] = {}
    opened = 0
    for run, first in enumerate(firsts):
        for left, right in _spans(task, run, first):
            shared = slots.get((run, left))
            number = None if shared is None else numbers.get(shared[0])
            if number is None:
                opened += 1
                number = opened
                if shared is not None:
                    numbers[shared[0]] = number
            pieces.append(
                Piece(
                    row=task.runs[run].row,
                    from_mm=left,
                    to_mm=right,
                    board=number,
                    board_from_mm=0 if shared is None else shared[1],
                    board_to_mm=task.length_mm if shared is None else shared[2],
                )
            )
    return tuple(pieces)


def _spans(task: Task, run: int, first: int) -> Iterator[tuple[int, int]]:
    left = task.runs[run].left_mm
    for joint in task.joints(run, first):
        yield left, joint
        left = joint
    yield left, task.runs[run].right_mm


def _slots_of_cut_pieces(task: Task, firsts: Sequence[int]) -> dict[tuple[int, int], Slot]:
    """Return for each cut piece, by its run and its left end, its shared board and its place on it."""
    starters, closers, inserts = [], [], []
    for run, first in enumerate(firsts):
        cuts = task.cuts(run, first)
        left, right = task.runs[run].left_mm, task.runs[run].right_mm
        starters += [(cuts.starter, (run, left))] if cuts.starter else []
        closers += [(cuts.closer, (run, right - cuts.closer))] if cuts.closer else []
        inserts += [(cuts.insert, (run, left))] if cuts.insert else []
    wanted = Wanted(
        starters=[length for length, _ in starters],
        closers=[length for length, _ in closers],
        inserts=[length for length, _ in inserts],
        length_mm=task.length_mm,
        kerf_mm=task.kerf_mm,
    )
    slots: dict[tuple[int, int], Slot] = {}
    for board, share in enumerate(shared_out(wanted)):
        slots.update(_slots_on_board(board, share, starters, closers, inserts, task))
    return slots


def _slots_on_board(
    board: int,
    share: Share,
    starters: list[tuple[int, tuple[int, int]]],
    closers: list[tuple[int, tuple[int, int]]],
    inserts: list[tuple[int, tuple[int, int]]],
    task: Task,
) -> Iterator[tuple[tuple[int, int], Slot]]:
    here = 0
    in_order = ([] if share.closer is None else [closers[share.closer]]) + [inserts[i] for i in share.inserts]
    for length, place in in_order:
        yield place, (board, here, here + length)
        here += length + task.kerf_mm
    if share.starter is not None:
        length, place = starters[share.starter]
        yield place, (board, task.length_mm - length, task.length_mm)
