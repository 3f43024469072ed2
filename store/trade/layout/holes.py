"""Where pipes, sockets and posts come through a lay: in which piece, and how far from its ends and edges."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from store.trade.layout.cuts import cuts_of
from store.trade.layout.inset import turned
from store.trade.layout.lay import Lay, Room
from store.trade.surveyed import FixedThing


@dataclass(frozen=True, slots=True, kw_only=True)
class Hole:
    """A hole or notch to be cut in one piece of a lay.

    ``mark`` is the piece's; ``from_left_mm`` runs from the piece's left end, ``from_edge_mm`` from its edge on the side
    of the first row; both are to the middle of the thing.
    """

    thing: FixedThing
    row: int
    mark: str
    from_left_mm: int
    from_edge_mm: int


def holes_in(room: Room, lay: Lay, things: Sequence[FixedThing], kerf_mm: int) -> tuple[Hole, ...]:
    """Return the holes for fixed things, each in every piece that the thing's square touches, in laying order.

    >>> from store.trade.layout.lay import BoardSize, LayRules
    >>> from store.trade.layout.search import lay_room
    >>> hall = Room(outline=((0, 0), (3000, 0), (3000, 2000), (0, 2000)), gap_mm=10)
    >>> oak = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
    >>> lay = lay_room(hall, board=oak, rules=LayRules(stagger_mm=400))
    >>> (hole,) = holes_in(hall, lay, [FixedThing(name="pipe", x_mm=60, y_mm=100, size_mm=22)], 3)
    >>> hole.row, hole.from_left_mm, hole.from_edge_mm
    (0, 50, 90)
    """
    return tuple(_holes(room, lay, things, kerf_mm))


def _holes(room: Room, lay: Lay, things: Sequence[FixedThing], kerf_mm: int) -> Iterator[Hole]:
    upward = len(lay.row_edges_mm) < 2 or lay.row_edges_mm[0][0] < lay.row_edges_mm[1][0]
    spots = turned(tuple((one.x_mm, one.y_mm) for one in things), room.outline[0], lay.direction_deg)
    for cut in cuts_of(lay, kerf_mm):
        low, high = lay.row_edges_mm[cut.piece.row]
        for thing, (x, y) in zip(things, spots, strict=True):
            half = thing.size_mm / 2
            beside = cut.piece.from_mm - half < x < cut.piece.to_mm + half
            if beside and low - half < y < high + half:
                yield Hole(
                    thing=thing,
                    row=cut.piece.row,
                    mark=cut.mark,
                    from_left_mm=round(x - cut.piece.from_mm),
                    from_edge_mm=round(y - low if upward else high - y),
                )
