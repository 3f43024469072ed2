"""The boards and offcuts at hand while a floor is laid from packs that hold boards of several lengths."""

from bisect import bisect_left, insort
from collections.abc import Mapping
from dataclasses import dataclass, field

WHOLE, FAR, NEAR, MIDDLE = "whole", "far", "near", "middle"
"""Which factory ends a piece keeps: both, the far one (it begins a run), the near one (it ends a run), neither."""

Stretch = tuple[int, int, int, int]
"""A free part of a board: its length, the board's number, and from where to where on the board, in mm."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """A piece that is cut, and the part of a board it is, in mm from the board's near end."""

    board: int
    low_mm: int
    high_mm: int


@dataclass(slots=True, kw_only=True)
class Stock:
    """Whole boards still in their packs, by length, and offcuts that still have a factory end.

    ``far`` and ``near`` hold offcuts with their far or near end, the shortest first; an offcut shorter than
    ``shortest_mm`` is not kept. ``opened`` are the lengths of the boards taken so far, in order.
    """

    kerf_mm: int
    shortest_mm: int
    left: dict[int, int]
    far: list[Stretch] = field(default_factory=list)
    near: list[Stretch] = field(default_factory=list)
    opened: list[int] = field(default_factory=list)

    @classmethod
    def of_packs(cls, packs: int, in_pack: Mapping[int, int], kerf_mm: int, shortest_mm: int) -> "Stock":
        """Return what so many closed packs hold."""
        left = {length: packs * count for length, count in in_pack.items()}
        return cls(kerf_mm=kerf_mm, shortest_mm=max(1, shortest_mm), left=left)

    def take(self, kept: str, length_mm: int, source: str, size_mm: int) -> Taken:
        """Cut a piece and put away what is left of it.

        Args:
            kept: which ends the piece keeps.
            length_mm: the piece's length.
            source: ``WHOLE`` for a board from a pack, ``FAR`` or ``NEAR`` for an offcut.
            size_mm: the length of the board or offcut that it is cut from.
        """
        if source == WHOLE:
            self.left[size_mm] -= 1
            self.opened.append(size_mm)
            stretch: Stretch = (size_mm, len(self.opened), 0, size_mm)
        else:
            heap = self.far if source == FAR else self.near
            stretch = heap.pop(bisect_left(heap, (size_mm,)))
        _, board, low, high = stretch
        if kept == FAR or (kept == MIDDLE and source == NEAR):
            cut = Taken(board=board, low_mm=high - length_mm, high_mm=high)
            if source != FAR:
                self._keep(self.near, board, low, cut.low_mm - self.kerf_mm)
        else:
            cut = Taken(board=board, low_mm=low, high_mm=low + length_mm)
            if source != NEAR:
                self._keep(self.far, board, cut.high_mm + self.kerf_mm, high)
        return cut

    def _keep(self, heap: list[Stretch], board: int, low: int, high: int) -> None:
        if high - low >= self.shortest_mm:
            insort(heap, (high - low, board, low, high))
