"""Cutting pieces out of as few boards as can be: who shares a board with whom."""

from bisect import bisect_left, bisect_right, insort
from collections.abc import Sequence
from dataclasses import dataclass, field

STARTER, CLOSER, INSERT = 0, 1, 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """The pieces to be cut from boards of one length: starters, closers and inserts, in mm."""

    starters: Sequence[int] = ()
    closers: Sequence[int] = ()
    inserts: Sequence[int] = ()
    length_mm: int
    kerf_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """What one cut board gives, by index into the pieces wanted: a starter, a closer, inserts between."""

    starter: int | None = None
    closer: int | None = None
    inserts: tuple[int, ...] = ()


def left_over(wanted: Wanted) -> list[int]:
    """Return what is left of each board cut, kerf taken off; the lists of pieces ascend.

    A board has one near and one far end, so it gives at most one closer and one starter. Each starter,
    longest first, takes the longest closer that fits beside it. Without inserts no sharing needs fewer
    boards: what fits beside a longer starter fits beside a shorter one, so a starter that can choose less
    never suffers from taking the longest it can (textbook exchange argument). Inserts then go, longest
    first, where they fit most tightly.

    >>> left_over(Wanted(starters=[300, 700, 1500], closers=[400, 1200, 1600], length_mm=1900, kerf_mm=3))
    [397, 794, 394, 297]
    """
    most = wanted.length_mm - wanted.kerf_mm
    alone = list(wanted.closers)
    left: list[int] = []
    for starter in reversed(wanted.starters):
        room = most - starter
        at = bisect_right(alone, room) - 1
        left.append(room if at < 0 else room - alone.pop(at) - wanted.kerf_mm)
    left += [most - closer for closer in alone]
    if wanted.inserts:
        left.sort()
        for insert in reversed(wanted.inserts):
            at = bisect_left(left, insert)
            room = left.pop(at) if at < len(left) else wanted.length_mm
            insort(left, room - insert - wanted.kerf_mm)
    return left


def shared_out(wanted: Wanted) -> list[Share]:
    """Return which pieces come out of which board, in the better of two ways; the lists need not be sorted.

    One way pairs starters with closers as in ``left_over`` before the inserts; the other takes every piece,
    longest first, where it fits most tightly (best fit decreasing, textbook).
    """
    ways = [_cut_out(wanted, _ends_first(wanted))]
    if wanted.inserts:
        ways.append(_cut_out(wanted, _longest_first(wanted)))
    return min(ways, key=len)


def _ends_first(wanted: Wanted) -> list[tuple[int, int, int]]:
    return [
        (kind, length, index)
        for kind, of_kind in ((STARTER, wanted.starters), (CLOSER, wanted.closers), (INSERT, wanted.inserts))
        for length, index in sorted(((length, i) for i, length in enumerate(of_kind)), reverse=True)
    ]


def _longest_first(wanted: Wanted) -> list[tuple[int, int, int]]:
    return sorted(_ends_first(wanted), key=lambda piece: (-piece[1], piece[0]))


@dataclass(slots=True, kw_only=True)
class _Board:
    left: int
    ends: list[int | None] = field(default_factory=lambda: [None, None])
    inserts: list[int] = field(default_factory=list)

    def takes(self, kind: int, length: int) -> bool:
        return length <= self.left and (kind == INSERT or self.ends[kind] is None)


def _cut_out(wanted: Wanted, pieces: list[tuple[int, int, int]]) -> list[Share]:
    boards: list[_Board] = []
    for kind, length, index in pieces:
        fitting = [board for board in boards if board.takes(kind, length)]
        board = min(fitting, key=lambda board: board.left, default=None)
        if board is None:
            board = _Board(left=wanted.length_mm)
            boards.append(board)
        board.left -= length + wanted.kerf_mm
        if kind == INSERT:
            board.inserts.append(index)
        else:
            board.ends[kind] = index
    return [
        Share(starter=board.ends[STARTER], closer=board.ends[CLOSER], inserts=tuple(board.inserts)) for board in boards
    ]
