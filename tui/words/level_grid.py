"""A grid of levels drawn as a shaded plan, and what it comes to in words."""

from collections.abc import Iterator

from store.trade.level_grid import Spot, depths_mm, sum_of_grid, worst_gap
from store.trade.readings import LevelGrid
from tui.words.wording import counted, figure

_SHADES = " ░▒▓█"
_NOT_READ = "·"


def grid_lines(grid: LevelGrid, width: int, height: int) -> list[str]:
    """Return a grid as a plan of at most ``height`` lines: each point's depth under the highest, in mm, and its shade.

    Where the figures do not fit side by side the shades stand alone; rows that do not fit are counted.

    >>> for line in grid_lines(LevelGrid(spacing_mm=500, heights_mm=((0, -1, None), (2, 0, -6))), 40, 8):
    ...     print(line)
             1      2      3
     1  ░░   2 ▒▒   3      ·
     2       0 ░░   2 ██   8
    """
    depths = depths_mm(grid)
    deepest = max(one for row in depths for one in row if one is not None)
    columns = len(depths[0])
    wide = 7 * columns + 4 <= width
    head = ["    " + "".join(f"{number:>6} " for number in range(1, columns + 1))] if wide else []
    room = height - len(head)
    shown = depths if len(depths) <= room else depths[: max(room - 1, 0)]
    rows = [
        f"{number:>2}  " + "".join(_cell(depth, deepest, wide=wide) for depth in row)
        for number, row in enumerate(shown, 1)
    ]
    hidden = len(depths) - len(shown)
    more = [f"and {counted(hidden, 'row')} more"] if hidden else []
    return [line.rstrip()[:width] for line in (*head, *rows, *more)][:height]


def _cell(depth: float | None, deepest: float, *, wide: bool) -> str:
    if depth is None:
        return f"   {_NOT_READ:>3} " if wide else f"{_NOT_READ} "
    shade = _SHADES[round(depth / deepest * (len(_SHADES) - 1)) if deepest else 0] * 2
    return f"{shade}{figure(depth, 1):>4} " if wide else shade


def say_worst_gap(grid: LevelGrid) -> str:
    """Return the widest gap under a 2 m straightedge in a few words: “4 mm gap”, or that the points tell none."""
    gap = worst_gap(grid)
    return "no gap told" if gap is None else f"{figure(gap.mm)} mm gap"


def say_levels(grid: LevelGrid, limit_mm: float | None, area_mm2: int) -> Iterator[str]:
    """Yield what a grid comes to: its high and low spot, its widest gap, and the compound to fill it up.

    Args:
        grid: the heights.
        limit_mm: the widest gap allowed under 2 m; None where nothing is asked.
        area_mm2: the floor of the room it was read in.
    """
    found = sum_of_grid(grid, area_mm2)
    high, low = _say_place(found.high), _say_place(found.low)
    if found.fall_mm:
        yield f"Highest at {high}; lowest at {low}, {figure(found.fall_mm)} mm under it."
    else:
        yield "All points lie level."
    if found.gap is None:
        yield "The points stand too far apart to say what gap a 2 m straightedge would find."
    else:
        sign = "" if limit_mm is None else "✗ " if found.gap.mm > limit_mm else "✓ "
        most = "" if limit_mm is None else f"; {figure(limit_mm)} mm is allowed"
        where = f" at {_say_place(found.gap)}" if found.gap.mm else ""
        yield f"{sign}Widest gap under a 2 m straightedge: {figure(found.gap.mm)} mm{where}{most}."
        yield "A grid can prove a floor uneven, not even: between its points nobody has read."
    if found.compound is not None:
        kg = f"{figure(found.compound.kg, 0)} kg, {counted(found.compound.bags, 'bag')} of 25 kg"
        yield (
            f"To fill it up to its highest point: {figure(found.fill_mm)} mm on average, about {kg} (at 1.7 kg per m² "
            "and mm, common practice; the bag's figure counts). Grinding makes dust: extract it."
        )
    if found.unread:
        yield f"{counted(found.unread, 'point')} could not be read."


def _say_place(spot: Spot) -> str:
    return f"row {spot.row + 1}, point {spot.column + 1}"
