"""What a pattern floor and a border take: blocks of each hand for the field, boards for the border, packs for both."""

import math
from dataclasses import dataclass

from store.errors import Refused
from store.trade.layout.blocks import BlockCount, chevron_columns, herringbone
from store.trade.layout.floor import HAIR_MM, Floor, floor_of_room
from store.trade.layout.lay import BoardSize, Room
from store.trade.outline import Ring, perimeter_mm, twice_area_mm2
from store.trade.surveyed import Pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeOff:
    """Blocks and boards for a floor; ``loss_percent`` is of the whole floor, and goes for its border too.

    ``border_run_mm`` is what the border's boards measure end to end, mitres included; the field is what lies inside it.
    """

    left_hand: int
    right_hand: int
    border_boards: int
    border_run_mm: int
    field_mm2: float
    field_perimeter_mm: float
    loss_percent: float

    @property
    def blocks(self) -> int:
        return self.left_hand + self.right_hand

    @property
    def boards(self) -> int:
        """All that is cut or laid whole, field and border."""
        return self.blocks + self.border_boards

    def packs(self, per_pack: int, *, handed: bool) -> int:
        """Return the packs; where left and right blocks are packed apart, each hand is rounded up on its own.

        The border is cut from what the packs of either hand leave over, and from further packs.
        """
        if not handed:
            return -(-self.boards // per_pack)
        hands = -(-self.left_hand // per_pack) - (-self.right_hand // per_pack)
        return max(hands, -(-self.boards // per_pack))


def take_off(room: Room, board: BoardSize, pattern: Pattern, *, end_deg: float = 45) -> TakeOff:
    """Return what a herringbone or chevron floor takes, with its border.

    The field is the floor inside gap and border. A herringbone is counted by the field's area and its walls, a chevron
    column by column over the field's own shape; both as in ``blocks.py``.

    Raises:
        Refused: a fault of the room, a border that leaves no field, or a straight floor, which is laid in rows.

    >>> from store.trade.outline import rectangle
    >>> block = BoardSize(length_mm=600, width_mm=90, boards_per_pack=30)
    >>> inside = take_off(Room(outline=rectangle(4000, 5000), gap_mm=0), block, Pattern.HERRINGBONE)
    >>> inside.blocks, round(inside.loss_percent, 1), inside.packs(30, handed=True)
    (412, 11.2, 14)

    Source: plane and integral geometry, see ``blocks.py``; the border is derived in ``border_run_mm``.
    """
    if pattern is Pattern.STRAIGHT:
        raise Refused("Straight boards are laid in rows; they need no count of blocks.")
    field = floor_of_room(room)
    around = field_perimeter_mm(room)
    count = _blocks(field, around, board, pattern, end_deg)
    run, boards = border_run_mm(room, board.width_mm), border_boards(room, board)
    whole = _floor_mm2(room)
    faces = (count.blocks + boards) * board.area_mm2
    return TakeOff(
        left_hand=count.left_hand,
        right_hand=count.right_hand,
        border_boards=boards,
        border_run_mm=run,
        field_mm2=field.area_mm2,
        field_perimeter_mm=around,
        loss_percent=100 * (faces - whole) / whole,
    )


def _blocks(field: Floor, around_mm: float, board: BoardSize, pattern: Pattern, end_deg: float) -> BlockCount:
    if pattern is Pattern.HERRINGBONE:
        return herringbone(
            area_mm2=max(1, round(field.area_mm2)),
            perimeter_mm=around_mm,
            length_mm=board.length_mm,
            width_mm=board.width_mm,
        )
    return chevron_columns(field, length_mm=board.length_mm, width_mm=board.width_mm, end_deg=end_deg)


def border_boards(room: Room, board: BoardSize) -> int:
    """Return the boards that a border is cut from: row by row round the room, offcuts used on along the row.

    The last row is ripped to what the border still wants, from whole boards.
    """
    return sum(-(-_up(run) // board.length_mm) for run in _border_rows(room, board.width_mm))


def border_run_mm(room: Room, width_mm: int) -> int:
    """Return what the boards of a border measure end to end, in mm, rounded up; 0 without a border.

    Method: a ring of boards is measured along its middle line. Drawn in by d, the walls of a room measure P − 2·d·Σ
    tan(turn ÷ 2), where a wall turns into the next by ``turn`` (plus at corners that stand back, minus at those that
    jut out). The outer edges of a mitre reach further by half a board's width times tan(turn ÷ 2) on either side.

    >>> from store.trade.outline import rectangle
    >>> border_run_mm(Room(outline=rectangle(4000, 3000), gap_mm=0, border_mm=90), 90)
    14000
    """
    return _up(sum(_border_rows(room, width_mm)))


def _border_rows(room: Room, width_mm: int) -> list[float]:
    rows = []
    for row in range(-(-room.border_mm // width_mm)):
        wide = min(width_mm, room.border_mm - row * width_mm)
        middle = room.gap_mm + row * width_mm + wide / 2
        mitres = sum(wide * abs(math.tan(turn / 2)) for turn in _turns(room.outline))
        rows.append(max(0.0, _drawn_in_mm(room.outline, middle)) + mitres)
    return rows


def field_perimeter_mm(room: Room) -> float:
    """Return what the field's edges measure together, cut-outs included, in mm."""
    outer = _drawn_in_mm(room.outline, room.gap_mm + room.border_mm)
    return max(0.0, outer) + sum(_drawn_in_mm(ring, -room.gap_mm) for ring in room.cut_outs)


def _drawn_in_mm(ring: Ring, by_mm: float) -> float:
    return perimeter_mm(ring) - 2 * by_mm * sum(math.tan(turn / 2) for turn in _turns(ring))


def _turns(ring: Ring) -> list[float]:
    """Return by what angle each wall turns into the next, in radians, positive at the corners of a square."""
    forwards = ring if twice_area_mm2(ring) > 0 else ring[::-1]
    turns = []
    for (ax, ay), (bx, by), (cx, cy) in zip(
        forwards[-1:] + forwards[:-1], forwards, forwards[1:] + forwards[:1], strict=True
    ):
        turn = math.atan2(cy - by, cx - bx) - math.atan2(by - ay, bx - ax)
        turns.append((turn + math.pi) % (2 * math.pi) - math.pi)
    return [min(max(turn, -2.9), 2.9) for turn in turns]


def _floor_mm2(room: Room) -> float:
    return floor_of_room(room, with_border=True).area_mm2


def _up(number: float) -> int:
    return math.ceil(number - HAIR_MM)
