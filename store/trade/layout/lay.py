"""The nouns of a lay: the board, the rules, the pieces, and the answer as a whole."""

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.outline import Ring


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardSize:
    """One kind of board as it is sold: cover length and width in mm, and how many lie in a pack.

    Where a pack holds several lengths, ``lengths`` tells each with how many of it a pack holds, the longest first;
    ``length_mm`` is the longest and ``boards_per_pack`` all of them.
    """

    length_mm: int
    width_mm: int
    boards_per_pack: int
    lengths: tuple[tuple[int, int], ...] = ()

    @property
    def area_mm2(self) -> int:
        """The face of the longest board, mm²."""
        return self.length_mm * self.width_mm

    @property
    def pack_mm2(self) -> int:
        """What one pack covers, mm²."""
        return self.width_mm * sum(length * count for length, count in self.in_pack)

    @property
    def in_pack(self) -> tuple[tuple[int, int], ...]:
        """The lengths in a pack, each with how many of it."""
        return self.lengths or ((self.length_mm, self.boards_per_pack),)


@dataclass(frozen=True, slots=True, kw_only=True)
class LayRules:
    """What a right lay keeps, in mm: joint stagger, shortest piece, saw kerf, narrowest row at a wall."""

    stagger_mm: int
    shortest_mm: int = 300
    kerf_mm: int = 3
    least_mm: int = 60

    @classmethod
    def usual_for(cls, board: BoardSize) -> "LayRules":
        """Return the trade's usual rules: joints twice the board's width apart, 300 mm at least.

        Source: twice the element's width is TKB note 15, from memory; the rest is common practice, no source.
        """
        return cls(stagger_mm=max(300, 2 * board.width_mm))


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """The shape to lay: corners in mm, cut-outs, and the gap kept from every wall.

    ``direction_deg`` turns the rows anticlockwise from x; None means along the start wall, or along x if
    there is none. ``start`` is the index of the wall the first row stands on; None leaves the choice to the
    sum. ``border_mm`` is the width of a border along the walls of the outline, inside the gap; what is laid is the
    field within it. ``line_mm`` is a height in the turned frame at which an edge between two rows has to lie.
    """

    outline: Ring
    cut_outs: tuple[Ring, ...] = ()
    gap_mm: int = 10
    direction_deg: float | None = None
    start: int | None = None
    border_mm: int = 0
    line_mm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One piece of board as it lies: its row, its place along the row, and what part of which board it is.

    ``from_mm`` and ``to_mm`` run along the row in the turned frame; ``board`` counts from 1 in laying order;
    ``board_from_mm`` and ``board_to_mm`` are measured from the board's near end.
    """

    row: int
    from_mm: int
    to_mm: int
    board: int
    board_from_mm: int
    board_to_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Lay:
    """A floor laid board by board: what to open, what to buy, what is lost, and every piece.

    ``board_lengths_mm`` is the length of each board, in the order they are numbered; empty where all are one length.
    """

    boards: int
    packs: int
    net_area_mm2: int
    floor_area_mm2: float
    board: BoardSize
    direction_deg: float
    least_boards: int
    row_edges_mm: tuple[tuple[int, int], ...]
    pieces: tuple[Piece, ...]
    board_lengths_mm: tuple[int, ...] = ()

    @property
    def rows(self) -> int:
        return len(self.row_edges_mm)

    @property
    def proved_best(self) -> bool:
        if self.board.lengths:
            return self.packs == -(-self.least_boards // self.board.boards_per_pack)
        return self.boards == self.least_boards

    @property
    def net_area_m2(self) -> float:
        return self.net_area_mm2 / 1_000_000

    @property
    def bought_area_m2(self) -> float:
        return self.packs * self.board.pack_mm2 / 1_000_000

    @property
    def opened_mm2(self) -> int:
        """The faces of all boards that are cut or laid whole, mm²."""
        if self.board_lengths_mm:
            return sum(self.board_lengths_mm) * self.board.width_mm
        return self.boards * self.board.area_mm2

    @property
    def pack_boards(self) -> int:
        """The boards that the lay takes out of packs, as if a pack were opened for its scarcest length, rounded up.

        Where all boards are of one length it is their number.
        """
        return pack_boards(self.board, self.boards, self.board_lengths_mm)

    def length_of(self, board: int) -> int:
        """Return the length of a board by its number, mm."""
        return self.board_lengths_mm[board - 1] if self.board_lengths_mm else self.board.length_mm

    @property
    def cut_loss_percent(self) -> float:
        """Area of the boards opened beyond the floor covered, in percent of the floor covered."""
        return 100 * (self.opened_mm2 - self.floor_area_mm2) / self.floor_area_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """The best lay so far, and how much of the search is done (0 to 1; exactly 1 for the last)."""

    lay: Lay
    done: float


def pack_boards(board: BoardSize, boards: int, lengths_mm: Sequence[int]) -> int:
    """Return how many boards' worth of packs so many boards of these lengths take.

    A pack gives so many of each length; the length that runs out first decides.

    >>> nested = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=7, lengths=((1900, 5), (1000, 1), (900, 1)))
    >>> pack_boards(nested, 12, [1900] * 10 + [1000] + [900])
    14
    """
    if not board.lengths:
        return boards
    used = Counter(lengths_mm)
    packs = max(Fraction(used[length], count) for length, count in board.lengths)
    return math.ceil(packs * board.boards_per_pack)


def packs_of(board: BoardSize, boards: int, lengths_mm: Sequence[int]) -> int:
    """Return the packs that hold so many boards of these lengths."""
    return -(-pack_boards(board, boards, lengths_mm) // board.boards_per_pack)


def check_sizes(board: BoardSize, rules: LayRules, gap_mm: int) -> None:
    """Refuse sizes no floor can be laid with.

    Raises:
        Refused: a size that is nought or negative where it cannot be, or a shortest piece longer than the
            board.
    """
    if min(board.length_mm, board.width_mm, board.boards_per_pack) <= 0:
        raise Refused("A board's length and width and the boards in a pack must be more than 0.")
    if any(length <= 0 or count <= 0 for length, count in board.lengths):
        raise Refused("Every length in a pack must be more than 0, with 1 board or more of it.")
    if board.lengths and max(length for length, _ in board.lengths) != board.length_mm:
        raise Refused(f"No length in the pack is the board's length, {board.length_mm} mm.")
    if min(rules.stagger_mm, rules.shortest_mm, rules.kerf_mm, rules.least_mm, gap_mm) < 0:
        raise Refused("Gap, stagger, shortest piece, kerf and least row width cannot be negative.")
    if rules.shortest_mm > board.length_mm:
        raise Refused(f"The shortest piece, {rules.shortest_mm} mm, is longer than a board of {board.length_mm} mm.")
