"""Figures over time as a line in the terminal, against the range they must keep to."""

from collections.abc import Sequence
from dataclasses import dataclass

from rich.cells import cell_len

from tui.words.wording import figure

_DOTS = ((0x01, 0x08), (0x02, 0x10), (0x04, 0x20), (0x40, 0x80))  # a braille cell: two dots across, four down
_BRAILLE = 0x2800
_LIMIT = "┄"
_FEWEST_COLUMNS, _FEWEST_LINES = 20, 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """What is drawn: points in order of ``x``, the range their ``y`` must keep to, and what stands under the line.

    ``ticks`` are words at places along ``x``; ``counted`` are stretches of ``x`` that are underlined. A range without
    an end is None there.
    """

    points: Sequence[tuple[float, float]]
    lowest_good: float | None = None
    highest_good: float | None = None
    ticks: Sequence[tuple[float, str]] = ()
    counted: Sequence[tuple[float, float]] = ()


def chart_lines(chart: Chart, width: int, height: int) -> list[str]:
    """Return the chart as ``height`` lines of at most ``width`` cells; nothing where there is no point or no room.

    Points are dots joined by lines, the ends of the range dashed and named at the left. Under the axis stand the ticks;
    above it ▲ marks a column in which a point is out of range, ━ one whose time counted.

    >>> chart = Chart(points=((0, 19.0), (12, 21.0), (24, 17.0)), lowest_good=18, highest_good=24, ticks=((0, "Mon"),))
    >>> for line in chart_lines(chart, 24, 8):
    ...     print(line)
    24 ┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄┄
    <BLANKLINE>
               ⣀⡠⢄⡀
        ⣀⡠⠤⠔⠒⠉⠉   ⠈⠑⠢⣀
    18 ⠉┄┄┄┄┄┄┄┄┄┄┄┄┄┄⠉⠒⢄⡀┄┄
                         ⠈⠑⠢
       ────────────────────▲
       Mon
    """
    margin = max((cell_len(_label(value)) for value in _named(chart)), default=0) + 1
    columns = width - margin
    rows = height - 2
    if not chart.points or columns < _FEWEST_COLUMNS or rows < _FEWEST_LINES - 2:
        return []
    paper = _Paper(chart, columns, rows)
    names = {paper.row(value): _label(value) for value in _named(chart)}
    lines = [f"{names.get(row, ''):>{margin - 1}} {paper.line(row)}".rstrip() for row in range(rows)]
    under = f"{'':{margin}}{paper.marks()}".rstrip()
    return [*lines, under, f"{'':{margin}}{paper.axis(chart.ticks)}".rstrip()]


def _named(chart: Chart) -> tuple[float, ...]:
    """The values named at the left: the ends of the range, else the highest and the lowest point."""
    limits = tuple(value for value in (chart.lowest_good, chart.highest_good) if value is not None)
    values = [y for _, y in chart.points]
    return limits or (min(values), max(values)) if values else limits


def _label(value: float) -> str:
    return figure(value, 1)


class _Paper:
    def __init__(self, chart: Chart, columns: int, rows: int) -> None:
        self._chart, self._columns, self._rows = chart, columns, rows
        xs = [x for x, _ in chart.points] + [x for span in chart.counted for x in span]
        ys = [y for _, y in chart.points] + list(_named(chart))
        self._left, self._wide = min(xs), max(max(xs) - min(xs), 1e-9)
        space = max(max(ys) - min(ys), 1.0) * 0.05
        self._top, self._high = max(ys) + space, max(ys) - min(ys) + 2 * space
        self._cells: dict[tuple[int, int], int] = {}
        self._draw()

    def row(self, y: float) -> int:
        return self._spot(self._left, y)[1] // 4

    def line(self, row: int) -> str:
        limits = {self.row(value) for value in (self._chart.lowest_good, self._chart.highest_good) if value is not None}
        blank = _LIMIT if row in limits else " "
        return "".join(
            chr(_BRAILLE + self._cells[column, row]) if (column, row) in self._cells else blank
            for column in range(self._columns)
        )

    def marks(self) -> str:
        out = {self._spot(x, y)[0] // 2 for x, y in self._chart.points if not self._is_good(y)}
        counted = {
            column
            for begun, ended in self._chart.counted
            for column in range(self._spot(begun, self._top)[0] // 2, self._spot(ended, self._top)[0] // 2 + 1)
        }
        return "".join("▲" if one in out else "━" if one in counted else "─" for one in range(self._columns))

    def axis(self, ticks: Sequence[tuple[float, str]]) -> str:
        words = ""
        for x, tick in ticks:
            at = min(self._spot(x, self._top)[0] // 2, self._columns - cell_len(tick))
            if at >= cell_len(words) + bool(words):
                words += " " * (at - cell_len(words)) + tick
        return words

    def _is_good(self, y: float) -> bool:
        low, high = self._chart.lowest_good, self._chart.highest_good
        return (low is None or y >= low) and (high is None or y <= high)

    def _spot(self, x: float, y: float) -> tuple[int, int]:
        across, down = 2 * self._columns - 1, 4 * self._rows - 1
        return round((x - self._left) / self._wide * across), round((self._top - y) / self._high * down)

    def _draw(self) -> None:
        spots = [self._spot(x, y) for x, y in self._chart.points]
        for (ax, ay), (bx, by) in zip(spots, spots[1:] or spots, strict=False):
            steps = max(abs(bx - ax), abs(by - ay), 1)
            for step in range(steps + 1):
                x, y = ax + round((bx - ax) * step / steps), ay + round((by - ay) * step / steps)
                cell = x // 2, y // 4
                self._cells[cell] = self._cells.get(cell, 0) | _DOTS[y % 4][x % 2]
