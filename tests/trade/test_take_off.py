"""Herringbones, chevrons and borders: counted by formula, and held against the pattern itself laid over the room."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box
from shapely.affinity import rotate, translate

from store.errors import Refused
from store.trade.layout.blocks import chevron
from store.trade.layout.lay import BoardSize, Room
from store.trade.layout.take_off import border_boards, border_run_mm, field_perimeter_mm, take_off
from store.trade.outline import rectangle
from store.trade.surveyed import Pattern

BLOCK = BoardSize(length_mm=600, width_mm=90, boards_per_pack=30)
L_ROOM = ((0, 0), (6000, 0), (6000, 3000), (3000, 3000), (3000, 5000), (0, 5000))


def blocks_over(room: Polygon, long: float, wide: float, shift: tuple[float, float]) -> int:
    """Blocks of a herringbone that touch a room: blocks in turn along and across, each row a step on, turned by 45°."""
    turned = rotate(room, 45, origin=(0, 0))
    low_x, low_y, high_x, high_y = turned.bounds
    count = 0
    along, across = box(0, 0, long, wide), box(0, 0, wide, long)
    steps = range(int((low_y - 2 * long) / wide) - 40, int((high_y + 2 * long) / wide) + 40)
    for step in steps:
        for place in range(-40, 41):
            x, y = place * 2 * long + step * wide + shift[0], step * wide + shift[1]
            for block, off in ((along, (0, 0)), (across, (long, wide - long))):
                left, low = x + off[0], y + off[1]
                if left > high_x or low > high_y or left + long < low_x or low + long < low_y:
                    continue
                count += translate(block, left, low).intersection(turned).area > 1
    return count


@pytest.mark.parametrize("outline", [rectangle(4000, 5000), rectangle(3000, 3000), L_ROOM])
def test_the_herringbones_formula_is_what_the_pattern_itself_counts_to_within_a_few_in_a_hundred(outline):
    shape = Polygon(outline)
    shifts = [(0, 0), (130, 40), (310, 15), (455, 70)]
    counted = sum(blocks_over(shape, 600, 90, shift) for shift in shifts) / len(shifts)
    # No offcut used again: the area, half the walls times the reach of a block across its 45°, and one block.
    reach = (600 + 90) / math.sqrt(2)
    formula = (shape.area + shape.length / 2 * reach + 600 * 90) / (600 * 90)
    assert formula == pytest.approx(counted, rel=0.04)


# Derived in blocks.py; half of the border's offcuts used again is common practice, no source.
def test_a_room_of_twenty_square_metres_takes_412_blocks_of_600_by_90():
    taken = take_off(Room(outline=rectangle(4000, 5000), gap_mm=0), BLOCK, Pattern.HERRINGBONE)
    assert (taken.blocks, taken.left_hand, taken.right_hand) == (412, 206, 206)
    assert taken.loss_percent == pytest.approx(100 * (412 * 54_000 / 20e6 - 1))


def test_blocks_of_two_hands_are_packed_apart_and_each_hand_is_rounded_up():
    taken = take_off(Room(outline=rectangle(4000, 5000), gap_mm=0), BLOCK, Pattern.HERRINGBONE)
    assert taken.packs(30, handed=False) == 14
    assert taken.packs(103, handed=False) == 4
    assert taken.packs(103, handed=True) == 4
    assert taken.packs(205, handed=True) == 4
    assert taken.packs(205, handed=False) == 3


@given(st.integers(2_000, 9_000), st.integers(2_000, 9_000), st.sampled_from([30.0, 45.0, 60.0]))
def test_a_chevron_in_a_room_of_four_right_angles_is_the_rectangles_sum(across, along, end_deg):
    room = Room(outline=rectangle(along, across), gap_mm=0)
    taken = take_off(room, BLOCK, Pattern.CHEVRON, end_deg=end_deg)
    by_sum = chevron(across_mm=across, along_mm=along, length_mm=600, width_mm=90, end_deg=end_deg)
    assert (taken.left_hand, taken.right_hand) == (by_sum.left_hand, by_sum.right_hand)


def test_a_chevron_is_counted_column_by_column_where_a_room_is_narrower():
    whole = take_off(Room(outline=rectangle(6000, 5000), gap_mm=0), BLOCK, Pattern.CHEVRON)
    part = take_off(Room(outline=L_ROOM, gap_mm=0), BLOCK, Pattern.CHEVRON)
    assert part.blocks < whole.blocks - 90
    assert part.blocks * 54_000 > Polygon(L_ROOM).area


def test_a_border_is_measured_along_its_middle_with_a_boards_width_for_each_mitre():
    room = Room(outline=rectangle(4000, 3000), gap_mm=0, border_mm=90)
    # Middle line 2 × (3910 + 2910) = 13,640; four mitres of 90 mm: 14,000. Worked by hand.
    assert border_run_mm(room, 90) == 14_000
    assert border_boards(room, BLOCK) == 24
    two_rows = Room(outline=rectangle(4000, 3000), gap_mm=0, border_mm=150)
    # The second row is ripped to 60: middle line 2 × (3760 + 2760) = 13,040, and four mitres of 60.
    assert border_run_mm(two_rows, 90) == 14_000 + 13_280


def test_corners_that_jut_into_the_room_lengthen_the_border():
    plain = Room(outline=rectangle(6000, 5000), gap_mm=10, border_mm=90)
    cut_off = Room(outline=L_ROOM, gap_mm=10, border_mm=90)
    assert border_run_mm(plain, 90) + 180 == border_run_mm(cut_off, 90)


@settings(max_examples=40)
@given(st.integers(0, 40), st.integers(0, 700))
def test_the_fields_edge_is_what_shapely_measures(gap, border):
    room = Room(outline=L_ROOM, gap_mm=gap, border_mm=border)
    field = Polygon(L_ROOM).buffer(-(gap + border), join_style="mitre", mitre_limit=10)
    assert field_perimeter_mm(room) == pytest.approx(field.length, abs=1)


def test_a_border_that_leaves_no_field_is_refused_with_its_size():
    with pytest.raises(Refused, match="a border of 1500 mm on every wall leaves no floor"):
        take_off(Room(outline=rectangle(3000, 3000), border_mm=1500), BLOCK, Pattern.HERRINGBONE)


def test_straight_boards_are_not_counted_in_blocks():
    with pytest.raises(Refused, match="laid in rows"):
        take_off(Room(outline=rectangle(3000, 3000)), BLOCK, Pattern.STRAIGHT)
