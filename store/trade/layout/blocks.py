"""Herringbone, chevron and diagonal floors: how many blocks they take, without laying each one."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from store.errors import Refused
from store.trade.layout.floor import Floor


@dataclass(frozen=True, slots=True, kw_only=True)
class BlockCount:
    """Blocks for a floor: all of them, those of each hand, and the loss in percent of the floor."""

    blocks: int
    left_hand: int
    right_hand: int
    loss_percent: float


def herringbone(
    *, area_mm2: int, perimeter_mm: float, length_mm: int, width_mm: int, unused_share: float = 0.5
) -> BlockCount:
    """Return the blocks of a herringbone at 45° to the walls.

    Blocks lie across every wall, and part of each falls outside. For a pattern laid at random against the
    walls the part outside, on average, is P·e ÷ 2 with e = (l + w) ÷ √2 the reach of a block across its
    45°. Of these border offcuts ``unused_share`` is lost: 1 if none is used at another wall, 0.5 as a rule,
    0.3 with care.

        loss = share × P·(l + w) ÷ (2·√2·A)        blocks = ⌈A ÷ (l·w) × (1 + loss)⌉

    Raises:
        Refused: a size that is not more than 0, or a share outside 0 to 1.

    Source: integral geometry (mean number of figures met by a convex body, Santaló 1976), from memory; the
    shares are common practice, no source.

    >>> herringbone(area_mm2=20_000_000, perimeter_mm=18_000, length_mm=600, width_mm=90).blocks
    412
    """
    _more_than_nothing(area_mm2, perimeter_mm, length_mm, width_mm)
    if not 0 <= unused_share <= 1:
        raise Refused("The share of border offcuts that is lost lies between 0 and 1.")
    loss = unused_share * perimeter_mm * (length_mm + width_mm) / (2 * math.sqrt(2) * area_mm2)
    blocks = _up(area_mm2 / (length_mm * width_mm) * (1 + loss))
    hand = -(-blocks // 2)
    return BlockCount(blocks=blocks, left_hand=hand, right_hand=hand, loss_percent=100 * loss)


def chevron(*, across_mm: int, along_mm: int, length_mm: int, width_mm: int, end_deg: float = 45) -> BlockCount:
    """Return the blocks of a chevron floor in a room with four right angles; no offcut is used again.

    Columns run along the room, left-hand and right-hand ones in turn. A block of length l and width w whose
    ends are cut at ``end_deg`` makes a column l·sin wide, takes w ÷ sin of its length, and overshoots each
    column's ends by l·cos together.

    Raises:
        Refused: a size that is not more than 0, or an angle outside 0° to 90°.

    Source: plane geometry, derived here.

    >>> chevron(across_mm=4000, along_mm=5000, length_mm=600, width_mm=90).blocks
    430
    """
    _more_than_nothing(across_mm, along_mm, length_mm, width_mm)
    sine, cosine = _end(end_deg)
    columns = _up(across_mm / (length_mm * sine))
    in_column = _up((along_mm + length_mm * cosine) * sine / width_mm)
    blocks = columns * in_column
    left = -(-columns // 2) * in_column
    loss = 100 * (blocks * length_mm * width_mm / (across_mm * along_mm) - 1)
    return BlockCount(blocks=blocks, left_hand=left, right_hand=blocks - left, loss_percent=loss)


def chevron_columns(field: Floor, *, length_mm: int, width_mm: int, end_deg: float = 45) -> BlockCount:
    """Return the blocks of a chevron over a field of any shape, its columns along the field's rows.

    As ``chevron``, with each column as long as the field is there; where something parts a column, each part counts for
    itself. In a room with four right angles it is the same count.

    Raises:
        Refused: a size that is not more than 0, or an angle outside 0° to 90°.

    Source: plane geometry, derived here.
    """
    _more_than_nothing(length_mm, width_mm)
    sine, cosine = _end(end_deg)
    wide = length_mm * sine
    hands = [0, 0]
    for column in range(_up((field.high - field.low) / wide)):
        low = field.low + column * wide
        spans = [slab.between(low, low + wide) for slab in field.slabs if slab.low < low + wide and slab.high > low]
        for long in _lengths(sorted(span for span in spans if span is not None)):
            hands[column % 2] += _up((long + length_mm * cosine) * sine / width_mm)
    blocks = sum(hands)
    loss = 100 * (blocks * length_mm * width_mm / field.area_mm2 - 1)
    return BlockCount(blocks=blocks, left_hand=hands[0], right_hand=hands[1], loss_percent=loss)


def _lengths(spans: Sequence[tuple[float, float]]) -> Iterator[float]:
    begin = end = None
    for left, right in spans:
        if begin is not None and end is not None and left > end:
            yield end - begin
            begin = end = None
        begin = left if begin is None else begin
        end = right if end is None else max(end, right)
    if begin is not None and end is not None:
        yield end - begin


def _end(end_deg: float) -> tuple[float, float]:
    if not 0 < end_deg < 90:
        raise Refused("The ends of chevron blocks are cut at an angle between 0° and 90°.")
    return math.sin(math.radians(end_deg)), math.cos(math.radians(end_deg))


def diagonal_extra_percent(*, area_mm2: int, perimeter_mm: float, width_mm: int) -> float:
    """Return what a straight floor loses more when laid at 45°, in percent of the floor.

    Every end at a wall is bevelled, and the wedge that falls off is lost: P·W ÷ (2·√2·A). Between parallel
    walls a bevelled offcut fits the wall opposite, so this is the most there is.

    Raises:
        Refused: a size that is not more than 0.

    Source: plane geometry, derived here.

    >>> round(diagonal_extra_percent(area_mm2=20_000_000, perimeter_mm=18_000, width_mm=190), 2)
    6.05
    """
    _more_than_nothing(area_mm2, perimeter_mm, width_mm)
    return 100 * perimeter_mm * width_mm / (2 * math.sqrt(2) * area_mm2)


def _more_than_nothing(*sizes: float) -> None:
    if not all(size > 0 and math.isfinite(size) for size in sizes):
        raise Refused("Area, perimeter and the sizes of a block must be more than 0.")


def _up(number: float) -> int:
    """Round up, but not for a rest that only floating-point sums leave."""
    return math.ceil(round(number, 9))
