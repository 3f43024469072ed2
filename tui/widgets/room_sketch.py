"""A small drawing of a room to scale: its walls as lines, with their lengths in mm."""

import math
from collections.abc import Sequence

from textual.content import Content
from textual.widget import Widget

from store.trade.outline import Ring
from store.trade.surveyed import NOTHING_FOUND, Doorway, Finds
from store.trade.walls import wall_letter, walls_of

_UP, _DOWN, _LEFT, _RIGHT = 1, 2, 4, 8
_LINES = dict(
    zip(
        (_UP, _DOWN, _UP | _DOWN, _LEFT, _RIGHT, _LEFT | _RIGHT, _DOWN | _RIGHT, _DOWN | _LEFT, _UP | _RIGHT),
        "│││───┌┐└",
        strict=True,
    )
) | {
    _UP | _LEFT: "┘",
    _UP | _DOWN | _RIGHT: "├",
    _UP | _DOWN | _LEFT: "┤",
    _DOWN | _LEFT | _RIGHT: "┬",
    _UP | _LEFT | _RIGHT: "┴",
    _UP | _DOWN | _LEFT | _RIGHT: "┼",
}
_CELL_RATIO = 2.0  # a terminal's cell is about twice as high as it is wide
MOST_CORNERS = 200

Spot = tuple[int, int]


class _Paper:
    """A grid of cells; each cell keeps the ways in which lines leave it, or a sign of its own."""

    def __init__(self, width: int, height: int) -> None:
        self.width, self.height = width, height
        self._ways: dict[Spot, int] = {}
        self._signs: dict[Spot, str] = {}

    def wall(self, start: Spot, end: Spot) -> None:
        (x, y), (far_x, far_y) = start, end
        if y == far_y:
            for column in range(min(x, far_x), max(x, far_x)):
                self._join((column, y), (column + 1, y), _RIGHT, _LEFT)
        elif x == far_x:
            for row in range(min(y, far_y), max(y, far_y)):
                self._join((x, row), (x, row + 1), _DOWN, _UP)
        else:
            self._slope(start, end)

    def _join(self, one: Spot, other: Spot, there: int, back: int) -> None:
        self._ways[one] = self._ways.get(one, 0) | there
        self._ways[other] = self._ways.get(other, 0) | back

    def _slope(self, start: Spot, end: Spot) -> None:
        steps = max(abs(end[0] - start[0]), abs(end[1] - start[1]))
        rising = (end[0] - start[0]) * (end[1] - start[1]) < 0
        for step in range(steps + 1):
            x = round(start[0] + (end[0] - start[0]) * step / steps)
            y = round(start[1] + (end[1] - start[1]) * step / steps)
            self._signs.setdefault((x, y), "╱" if rising else "╲")

    def gap(self, start: Spot, end: Spot, corners: set[Spot]) -> None:
        """Leave a doorway open in a wall along an axis, where nothing is written on it and no wall meets another."""
        (x, y), (far_x, far_y) = sorted((start, end))
        if x != far_x and y != far_y:
            return
        for column in range(x, far_x + 1):
            for row in range(y, far_y + 1):
                if (column, row) not in corners:
                    self._signs.setdefault((column, row), " ")

    def unwritten(self, x: int, y: int, length: int) -> bool:
        return not any((x + i, y) in self._signs for i in range(length))

    def free(self, x: int, y: int, length: int) -> bool:
        inside = 0 <= y < self.height and x >= 0 and x + length <= self.width
        return inside and not any((x + i, y) in self._ways or (x + i, y) in self._signs for i in range(length))

    def write(self, x: int, y: int, words: str) -> None:
        for step, sign in enumerate(words):
            self._signs[x + step, y] = sign

    def lines(self) -> list[str]:
        return ["".join(self._sign((x, y)) for x in range(self.width)).rstrip() for y in range(self.height)]

    def _sign(self, spot: Spot) -> str:
        return self._signs.get(spot) or _LINES.get(self._ways.get(spot, 0), " ")


def sketch(
    outline: Ring, cut_outs: Sequence[Ring] = (), width: int = 24, height: int = 10, finds: Finds = NOTHING_FOUND
) -> list[str]:
    r"""Return a room drawn to scale, as at most ``height`` lines of at most ``width`` cells; y points up.

    Walls carry their letter, and those along the axes their length in mm, where there is room for it. A doorway is a
    gap in its wall, a fixed thing a ring. An outline of fewer than three corners, without extent, or with more than 200
    corners is not drawn: the answer is no line at all.

    >>> print("\n".join(sketch(((0, 0), (4000, 0), (4000, 2000), (0, 2000)), width=18, height=4)))
    ┌──C 4000──┐
    │D 2000    │B 2000
    │          │
    └──A 4000──┘
    """
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    if not 3 <= len(outline) <= MOST_CORNERS or width < 8 or height < 3 or max(xs) == min(xs) or max(ys) == min(ys):
        return []
    room = max(len(str(max(ys) - min(ys))) + 2, 3)  # for the length that stands right of the last wall
    scale = max((max(xs) - min(xs)) / max(1, width - 1 - room), (max(ys) - min(ys)) / (height - 1) / _CELL_RATIO)

    def spot(corner: tuple[float, float]) -> Spot:
        return round((corner[0] - min(xs)) / scale), round((max(ys) - corner[1]) / scale / _CELL_RATIO)

    paper = _Paper(width, min(height, spot((0, min(ys)))[1] + 1))
    outer, inner = walls_of(outline), [wall for ring in cut_outs if len(ring) >= 3 for wall in walls_of(ring)]
    for a, b in (*outer, *inner):
        paper.wall(spot(a), spot(b))
    for thing in finds.fixed_things:
        paper.write(*spot((thing.x_mm, thing.y_mm)), "◦")
    for index, (a, b) in enumerate(outer):
        _label(paper, spot(a), spot(b), wall_letter(index), str(round(math.dist(a, b))))
    for a, b in inner:
        _label(paper, spot(a), spot(b), "", str(round(math.dist(a, b))))
    corners = {spot(corner) for corner in outline}
    for door in finds.doorways:
        if door.wall < len(outer):
            here, there = (spot(jamb) for jamb in _jambs(outer[door.wall], door))
            paper.gap(here, there, corners)
    return paper.lines()


def _jambs(wall: tuple[tuple[int, int], tuple[int, int]], door: Doorway) -> list[tuple[float, float]]:
    (ax, ay), (bx, by) = wall
    long = math.dist(*wall) or 1
    shares = [min(1.0, at / long) for at in (door.from_mm, door.from_mm + door.width_mm)]
    return [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in shares]


def _label(paper: _Paper, start: Spot, end: Spot, letter: str, length: str) -> None:
    (x, y), (far_x, far_y) = sorted((start, end))
    for words in dict.fromkeys((f"{letter} {length}".strip(), length, letter)):
        if not words:
            continue
        left = x + (far_x - x - len(words)) // 2 + 1
        if y == far_y and far_x - x >= len(words) + 1 and paper.unwritten(left, y, len(words)):
            paper.write(left, y, words)
            return
        middle = (y + far_y) // 2
        if x == far_x and far_y - y >= 2 and paper.free(x + 1, middle, len(words)):
            paper.write(x + 1, middle, words)
            return


class RoomSketch(Widget):
    """A drawing of a room to the size there is; says so where there is nothing to draw yet."""

    DEFAULT_CSS = """
    RoomSketch { width: 1fr; height: 10; color: $foreground; }
    """

    def __init__(self, outline: Ring = (), cut_outs: Sequence[Ring] = (), *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._outline, self._cut_outs, self._finds = outline, tuple(cut_outs), NOTHING_FOUND

    def show(self, outline: Ring, cut_outs: Sequence[Ring] = (), finds: Finds = NOTHING_FOUND) -> None:
        """Draw another room."""
        self._outline, self._cut_outs, self._finds = outline, tuple(cut_outs), finds
        self.refresh()

    def render(self) -> Content:
        lines = sketch(self._outline, self._cut_outs, self.size.width, self.size.height, self._finds)
        return Content("\n".join(lines) if lines else "No drawing yet.")
