"""A lay drawn with the terminal's box characters: rows one above another, every joint where it comes."""

from dataclasses import dataclass

from store.trade.layout.cuts import Cut, Kept, RowOfCuts

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_SIGNS = " ╵╷│╴┘┐┤╶└┌├─┴┬┼"
"""The sign for every set of ways in which lines leave a cell; its place is their sum."""
CUT_FILL = "·"
"""Fills a piece that is cut, so that it differs from a whole board without colour."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """The cells of one piece on a line, walls excluded: from ``start`` up to but not including ``end``."""

    start: int
    end: int
    cut: Cut


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnLine:
    """One line of the drawing: its text, the row it shows (None for a line between rows), and its pieces."""

    text: str
    row: int | None
    stretches: tuple[Stretch, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Brickwork:
    """The drawing, from the top of the floor to its bottom, and how many mm a column stands for."""

    lines: tuple[DrawnLine, ...]
    mm_per_column: float


def brickwork(rows: tuple[RowOfCuts, ...], edges_mm: tuple[tuple[int, int], ...], columns: int, high: int) -> Brickwork:
    """Draw rows to scale along their length, ``high`` lines for each; from 2 lines on they are parted by a rule.

    Args:
        rows: the cuts of a lay, row by row.
        edges_mm: the rows' lower and upper edges, as the lay has them.
        columns: how many cells wide the floor is drawn, 8 or more.
        high: lines for a row: 1 is close, 2 or more leave a rule between.
    """
    cuts = [cut for row in rows for run in row.runs for cut in run]
    low, far = min(cut.piece.from_mm for cut in cuts), max(cut.piece.to_mm for cut in cuts)
    scale = (far - low) / (columns - 1)
    order = sorted(range(len(rows)), key=lambda row: -edges_mm[row][0])
    sheet = _Sheet(columns, len(rows) * high + (1 if high > 1 else 0))
    stretches: dict[int, list[Stretch]] = {}
    for place, row in enumerate(order):
        for cut in (cut for run in rows[row].runs for cut in run):
            left, right = round((cut.piece.from_mm - low) / scale), round((cut.piece.to_mm - low) / scale)
            sheet.box(left, right, place * high, place * high + (high if high > 1 else 0))
            stretches.setdefault(row, []).append(Stretch(start=left + 1, end=right, cut=cut))
    lines = []
    for y in range(sheet.height):
        if high > 1 and y % high == 0:
            lines.append(DrawnLine(text=sheet.line(y, (), named=False), row=None))
            continue
        row = order[y // high]
        of_row = tuple(stretches.get(row, ()))
        named = y % high == high // 2
        lines.append(DrawnLine(text=sheet.line(y, of_row, named=named), row=row, stretches=of_row))
    return Brickwork(lines=tuple(lines), mm_per_column=scale)


class _Sheet:
    """A grid of cells; each keeps the ways in which lines leave it."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._ways = [[0] * width for _ in range(height)]

    def box(self, left: int, right: int, top: int, bottom: int) -> None:
        if top == bottom:
            for column in (left, right):
                self._ways[top][column] |= _UP | _DOWN
            return
        for y in (top, bottom):
            for column in range(left, right):
                self._ways[y][column] |= _RIGHT
                self._ways[y][column + 1] |= _LEFT
        for column in (left, right):
            for y in range(top, bottom):
                self._ways[y][column] |= _DOWN
                self._ways[y + 1][column] |= _UP

    def line(self, y: int, stretches: tuple[Stretch, ...], *, named: bool) -> str:
        signs = [_SIGNS[ways] for ways in self._ways[y]]
        for one in stretches:
            inside = inscribed(one.cut, max(0, one.end - one.start), named=named)
            signs[one.start : one.start + len(inside)] = inside
        return "".join(signs).rstrip()


def inscribed(cut: Cut, width: int, *, named: bool = True) -> str:
    """Return what stands in a piece of so many cells: its mark in the middle, as far as there is room.

    >>> from store.trade.layout.lay import Piece
    >>> piece = Piece(row=0, from_mm=0, to_mm=800, board=12, board_from_mm=0, board_to_mm=800)
    >>> inscribed(Cut(piece=piece, mark="12a", kept=Kept.NEAR, out_of_mm=None, leaves=()), 9)
    '···12a···'
    """
    fill = " " if cut.kept is Kept.WHOLE else CUT_FILL
    mark = cut.mark if named and len(cut.mark) <= width else ""
    return mark.center(width, fill) if len(mark) < width or not mark else mark
