"""Rows at a doorway: which of them meet it, and how they run on through it into the next room."""

import math
from dataclasses import dataclass

from store.errors import Refused
from store.trade.layout.inset import Spot, turned
from store.trade.layout.lay import Lay, Room
from store.trade.outline import twice_area_mm2
from store.trade.surveyed import Doorway
from store.trade.walls import walls_of

_ALONG = math.tan(math.radians(10))


@dataclass(frozen=True, slots=True, kw_only=True)
class RowsAt:
    """The rows that meet a doorway, from the lowest to the highest, counted from 0.

    ``along`` tells that they run past it, not through. ``at_jambs_mm`` is what of the outer rows lies within the
    opening: a sliver beside a jamb shows.
    """

    first_row: int
    last_row: int
    along: bool
    at_jambs_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineThrough:
    """How a room's rows must lie to go on from the next room: their direction, and where an edge between two lies."""

    direction_deg: float
    line_mm: int


def rows_at(room: Room, lay: Lay, door: Doorway) -> RowsAt | None:
    """Return the rows that meet a doorway; None where none does.

    >>> from store.trade.layout.lay import BoardSize, LayRules
    >>> from store.trade.layout.search import lay_room
    >>> hall = Room(outline=((0, 0), (3000, 0), (3000, 2000), (0, 2000)), gap_mm=10)
    >>> oak = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
    >>> lay = lay_room(hall, board=oak, rules=LayRules(stagger_mm=400))
    >>> rows_at(hall, lay, Doorway(wall=1, from_mm=600, width_mm=900))
    RowsAt(first_row=3, last_row=7, along=False, at_jambs_mm=(170.0, 160.0))
    """
    ends = turned(_jambs(room, door), room.outline[0], lay.direction_deg)
    (ax, ay), (bx, by) = ends
    along = abs(by - ay) <= _ALONG * abs(bx - ax)
    reach = room.gap_mm + room.border_mm + 1 if along else 0
    low, high = min(ay, by) - reach, max(ay, by) + reach
    met = sorted((edges[0], row) for row, edges in enumerate(lay.row_edges_mm) if edges[0] < high and edges[1] > low)
    if not met:
        return None
    first, last = met[0][1], met[-1][1]
    widths = [min(high, lay.row_edges_mm[row][1]) - max(low, lay.row_edges_mm[row][0]) for row in (first, last)]
    if along:
        widths = [float(lay.row_edges_mm[row][1] - lay.row_edges_mm[row][0]) for row in (first, last)]
    return RowsAt(first_row=first, last_row=last, along=along, at_jambs_mm=(round(widths[0], 1), round(widths[1], 1)))


def line_through(one: Room, lay: Lay, door: Doorway, other: Room, others_door: Doorway) -> LineThrough:
    """Return how the rows of another room must lie so that those of this one run on through the doorway.

    Each room is measured from its own first corner. The two doorways are the two sides of one hole: their walls run
    opposite ways, and their middles face each other across the wall's thickness. That fixes how one plan lies on the
    other (a turn and a shift); the row edge nearest the middle of the doorway is carried over with it.

    Raises:
        Refused: a doorway that is in no wall.

    Source: plane geometry, derived here.
    """
    here, there = _middle(one, door), _middle(other, others_door)
    along, others_along = _along(one, door), _along(other, others_door)
    turn = math.atan2(-along[1], -along[0]) - math.atan2(others_along[1], others_along[0])
    deep = max(door.deep_mm, others_door.deep_mm)
    beyond = (here[0] + along[1] * deep, here[1] - along[0] * deep)
    on_line = _on_the_nearest_edge(one, lay, here)
    away = (on_line[0] - beyond[0], on_line[1] - beyond[1])
    carried = (
        there[0] + away[0] * math.cos(turn) + away[1] * math.sin(turn),
        there[1] - away[0] * math.sin(turn) + away[1] * math.cos(turn),
    )
    # A row has no front: of the two ways to say its direction, the one nearer to the plan's own is easier to read.
    direction = round((lay.direction_deg - math.degrees(turn) + 45) % 180 - 45, 3)
    (_, height), *_ = _turned_spots([carried], other, direction)
    return LineThrough(direction_deg=direction, line_mm=round(height))


def _on_the_nearest_edge(room: Room, lay: Lay, spot: Spot) -> Spot:
    """Return a spot of the room's plan on the row edge nearest to a spot of it."""
    (_, height), *_ = _turned_spots([spot], room, lay.direction_deg)
    inner = [low for low, _ in lay.row_edges_mm] + [high for _, high in lay.row_edges_mm]
    ends = {min(inner), max(inner)}
    edges = [edge for edge in inner if edge not in ends] or inner
    edge = min(edges, key=lambda one: (abs(one - height), one))
    (x0, y0), angle = room.outline[0], math.radians(lay.direction_deg)
    return x0 - (edge - y0) * math.sin(angle), y0 + (edge - y0) * math.cos(angle)


def _turned_spots(spots: list[Spot], room: Room, direction_deg: float) -> list[Spot]:
    (x0, y0), angle = room.outline[0], math.radians(direction_deg)
    return [
        (
            x0 + (x - x0) * math.cos(angle) + (y - y0) * math.sin(angle),
            y0 - (x - x0) * math.sin(angle) + (y - y0) * math.cos(angle),
        )
        for x, y in spots
    ]


def _jambs(room: Room, door: Doorway) -> tuple[tuple[int, int], tuple[int, int]]:
    walls = walls_of(room.outline)
    if not 0 <= door.wall < len(walls):
        raise Refused(f"There is no wall {door.wall} for a doorway.")
    (ax, ay), (bx, by) = walls[door.wall]
    long = math.dist((ax, ay), (bx, by))
    ways = [(door.from_mm + more) / long for more in (0, door.width_mm)]
    first, second = ((round(ax + (bx - ax) * way), round(ay + (by - ay) * way)) for way in ways)
    return first, second


def _middle(room: Room, door: Doorway) -> Spot:
    (ax, ay), (bx, by) = _jambs(room, door)
    return (ax + bx) / 2, (ay + by) / 2


def _along(room: Room, door: Doorway) -> Spot:
    """Return the way a doorway's wall runs with the floor to its left, as a unit."""
    (ax, ay), (bx, by) = walls_of(room.outline)[door.wall]
    long = math.dist((ax, ay), (bx, by)) * (1 if twice_area_mm2(room.outline) > 0 else -1)
    return (bx - ax) / long, (by - ay) / long
