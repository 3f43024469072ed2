"""Rows at doorways: which meet them, and how they run on into the next room."""

import math
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import LineString, Point
from shapely.affinity import rotate, translate

from store.errors import Refused
from store.trade.layout.doorway import line_through, rows_at
from store.trade.layout.holes import holes_in
from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.search import lay_room
from store.trade.outline import rectangle
from store.trade.surveyed import Doorway, FixedThing
from tests.trade.lay_checker import faults_in_lay

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
RULES = LayRules(stagger_mm=400)
HALL = Room(outline=rectangle(3000, 2000), gap_mm=10)


def test_rows_that_run_through_a_doorway_are_counted_with_what_lies_beside_its_jambs():
    lay = lay_room(HALL, board=OAK, rules=RULES)
    met = rows_at(HALL, lay, Doorway(wall=1, from_mm=600, width_mm=900))
    edges = [edge for edge, _ in lay.row_edges_mm if 600 < edge < 1500]
    assert met is not None
    assert (met.along, met.last_row - met.first_row) == (False, len(edges))
    assert met.at_jambs_mm == (edges[0] - 600, 1500 - edges[-1])


def test_a_row_that_runs_past_a_doorway_is_told_with_its_width():
    lay = lay_room(HALL, board=OAK, rules=RULES)
    met = rows_at(HALL, lay, Doorway(wall=0, from_mm=600, width_mm=900))
    assert met is not None
    assert (met.along, met.first_row, met.last_row, met.at_jambs_mm) == (True, 0, 0, (190.0, 190.0))


def test_a_room_to_the_right_goes_on_with_the_same_rows():
    lay = lay_room(HALL, board=OAK, rules=RULES)
    # Room 2 lies right of the hall, its floor 500 mm lower on the plan; the wall between is 120 mm thick.
    other = Room(outline=rectangle(4000, 3000), gap_mm=10)
    line = line_through(
        HALL, lay, Doorway(wall=1, from_mm=600, width_mm=900, deep_mm=120), other,
        Doorway(wall=3, from_mm=1000, width_mm=900),
    )  # fmt: skip
    assert line.direction_deg == 0
    # The middle of the doorway is at 1050 in the hall, at 3000 − 1450 = 1550 in the room: 500 higher.
    assert (line.line_mm - 500) % 190 == lay.row_edges_mm[1][0] % 190


outlines = st.sampled_from([rectangle(4000, 3000), rectangle(4000, 3000)[::-1], rectangle(2600, 5200)])
turns = st.sampled_from([0.0, 90.0, 45.0, 30.0, 200.0])


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(outlines, outlines, st.integers(0, 3), st.integers(0, 3), turns, st.integers(0, 300))
def test_laid_side_by_side_the_rows_of_both_rooms_are_one(one, other, wall, others_wall, turn, deep):
    first = Room(outline=one, gap_mm=10, direction_deg=turn)
    second = Room(outline=other, gap_mm=10)
    lay = lay_room(first, board=OAK, rules=replace(RULES, stagger_mm=300))
    door, back = (
        Doorway(wall=wall, from_mm=700, width_mm=800, deep_mm=deep),
        Doorway(wall=others_wall, from_mm=900, width_mm=800),
    )
    line = line_through(first, lay, door, second, back)

    def middle(outline, opening):
        a, b = outline[opening.wall], outline[(opening.wall + 1) % 4]
        share = (opening.from_mm + opening.width_mm / 2) / math.dist(a, b)
        return Point(a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share), math.atan2(b[1] - a[1], b[0] - a[0])

    (here, way), (there, others_way) = middle(one, door), middle(other, back)
    is_turned = [1 if outline != rectangle(4000, 3000)[::-1] else -1 for outline in (one, other)]
    outward = (math.sin(way) * is_turned[0], -math.cos(way) * is_turned[0])
    # The second plan is laid against the first by shapely: turned until the walls face, then shifted.
    turned_by = math.degrees(way - others_way) + (180 if is_turned[0] == is_turned[1] else 0)
    angle = math.radians(line.direction_deg)
    x0, y0 = other[0]
    on_edge = (x0 - (line.line_mm - y0) * math.sin(angle), y0 + (line.line_mm - y0) * math.cos(angle))
    row = LineString([on_edge, (on_edge[0] + 1000 * math.cos(angle), on_edge[1] + 1000 * math.sin(angle))])
    moved = rotate(row, turned_by, origin=there)
    moved = translate(moved, here.x + outward[0] * deep - there.x, here.y + outward[1] * deep - there.y)
    (ax, ay), (bx, by) = moved.coords
    run = math.degrees(math.atan2(by - ay, bx - ax))
    assert (run - turn + 90) % 180 == pytest.approx(90, abs=0.01)
    back_by = math.radians(turn)
    height = one[0][1] - (ax - one[0][0]) * math.sin(back_by) + (ay - one[0][1]) * math.cos(back_by)
    assert min(abs(height - edge) for pair in lay.row_edges_mm for edge in pair) <= 1


def test_a_room_keeps_the_line_it_is_given_whatever_that_leaves_at_its_walls():
    room = replace(HALL, line_mm=30)
    lay = lay_room(room, board=OAK, rules=RULES)
    assert lay.row_edges_mm[0] == (10, 30)
    assert all((low - 30) % 190 == 0 for low, _ in lay.row_edges_mm[1:])
    assert [fault for fault in faults_in_lay(lay, room, OAK, RULES) if "wide" not in fault] == []


def test_a_doorway_in_no_wall_is_refused():
    with pytest.raises(Refused, match="no wall 9"):
        rows_at(HALL, lay_room(HALL, board=OAK, rules=RULES), Doorway(wall=9, from_mm=0, width_mm=800))


def test_a_pipe_is_found_in_its_piece_from_the_left_end_and_the_first_rows_side():
    lay = lay_room(HALL, board=OAK, rules=RULES)
    (hole,) = holes_in(HALL, lay, [FixedThing(name="pipe", x_mm=110, y_mm=300, size_mm=22)], 3)
    assert (hole.row, hole.from_left_mm, hole.from_edge_mm) == (1, 100, 100)
    from_above = replace(HALL, start=2)
    (hole,) = holes_in(
        from_above, lay_room(from_above, board=OAK, rules=RULES),
        [FixedThing(name="pipe", x_mm=110, y_mm=1700, size_mm=22)], 3,
    )  # fmt: skip
    assert (hole.row, hole.from_edge_mm) == (1, 100)


def test_a_post_that_stands_on_a_joint_of_rows_is_cut_out_of_both():
    lay = lay_room(HALL, board=OAK, rules=RULES)
    edge = lay.row_edges_mm[1][0]
    holes = holes_in(HALL, lay, [FixedThing(name="post", x_mm=300, y_mm=edge, size_mm=90)], 3)
    assert [hole.row for hole in holes] == [0, 1]
