"""A lay on paper: the drawing is true to scale, shows every piece once, and takes any name."""

import importlib.util
import re
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from store.papers.brickwork import CUT_FILL, brickwork
from store.papers.drawing import svg_of
from store.trade.layout.cuts import rows_of_cuts
from store.trade.layout.footprint import floor_under, footprints
from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.search import lay_room

_spec = importlib.util.spec_from_file_location(
    "judge_of_lays", Path(__file__).parent.parent / "trade" / "lay_checker.py"
)
judge = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(judge)

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
RULES = LayRules.usual_for(OAK)
SVG = "{http://www.w3.org/2000/svg}"
ROOMS = {
    "parlour": Room(
        outline=((0, 0), (5400, 0), (5400, 4300), (3500, 4300), (3500, 3900), (2000, 3900), (2000, 4300), (0, 4300)),
        cut_outs=(((2100, 3400), (3400, 3400), (3400, 3850), (2100, 3850)),),
    ),
    "aslant": Room(outline=((0, 0), (4000, 300), (5200, 2600), (3000, 4000), (200, 3300)), direction_deg=17.5),
    "pillar": Room(
        outline=((0, 0), (4200, 0), (4200, 3000), (0, 3000)),
        cut_outs=(((1500, 1000), (1500, 1400), (1900, 1500), (1900, 1100)),),
        direction_deg=90,
    ),
    "clockwise": Room(outline=((0, 0), (0, 2600), (1900, 2600), (3100, 900), (3100, 0)), gap_mm=12),
    "closet": Room(outline=((0, 0), (900, 0), (900, 150), (0, 150))),
}


@pytest.fixture(params=ROOMS, scope="module")
def laid(request):
    room = ROOMS[request.param]
    return room, lay_room(room, board=OAK, rules=RULES)


def pieces_in(svg):
    """The pieces of a drawing as shapes of a geometry library, in drawing order, in drawn mm."""
    shapes = []
    for path in ElementTree.fromstring(svg).iter(f"{SVG}path"):
        if path.get("id", "").startswith("piece-"):
            rings = [
                [tuple(map(float, spot.split())) for spot in ring.rstrip("Z").split("L")]
                for ring in path.get("d").split("M")[1:]
            ]
            shape = Polygon()
            for ring in rings:
                shape = shape.symmetric_difference(Polygon(ring))
            shapes.append(shape)
    return shapes


def test_every_piece_is_drawn_once_with_its_own_area_and_none_on_another(laid):
    room, lay = laid
    floor = judge.floor_polygon(room.outline, room.cut_outs, room.gap_mm, lay.direction_deg)
    shapes = pieces_in(svg_of(room, lay, kerf_mm=3, title="Room"))
    assert len(shapes) == len(lay.pieces)
    for piece, shape in zip(lay.pieces, shapes, strict=True):
        low, high = lay.row_edges_mm[piece.row]
        meant = floor.intersection(box(piece.from_mm, low, piece.to_mm, high))
        assert shape.area == pytest.approx(meant.area, abs=8)
    assert unary_union(shapes).area == pytest.approx(sum(shape.area for shape in shapes), abs=40)
    assert sum(shape.area for shape in shapes) == pytest.approx(lay.floor_area_mm2, abs=40)


def test_a_footprint_lies_where_the_piece_lies_on_the_floor(laid):
    room, lay = laid
    floor = judge.floor_polygon(room.outline, room.cut_outs, room.gap_mm, lay.direction_deg)
    for foot in footprints(floor_under(room, lay), lay):
        low, high = lay.row_edges_mm[foot.piece.row]
        meant = floor.intersection(box(foot.piece.from_mm, low, foot.piece.to_mm, high))
        drawn = Polygon()
        for ring in foot.rings:
            drawn = drawn.symmetric_difference(Polygon(ring))
        assert drawn.symmetric_difference(meant).area < 8
        assert foot.area_mm2 == pytest.approx(meant.area, abs=8)
        if foot.middle is not None:
            assert foot.middle == pytest.approx((meant.centroid.x, meant.centroid.y), abs=0.5)


def test_the_drawing_is_to_scale_and_fits_a_sheet_of_a4(laid):
    room, lay = laid
    root = ElementTree.fromstring(svg_of(room, lay, kerf_mm=3, title="Room"))
    wide, high = (float(root.get(side).removesuffix("mm")) for side in ("width", "height"))
    _, _, box_wide, box_high = map(float, root.get("viewBox").split())
    assert wide / box_wide == pytest.approx(high / box_high, rel=1e-3)
    assert max(wide, high) <= 277.1
    assert min(wide, high) <= 190.1


def test_every_wall_carries_its_length_and_every_piece_its_mark(laid):
    room, lay = laid
    svg = svg_of(room, lay, kerf_mm=3, title="Room")
    said = [text.text for text in ElementTree.fromstring(svg).iter(f"{SVG}text")]
    for wall in range(len(room.outline)):
        (ax, ay), (bx, by) = room.outline[wall], room.outline[(wall + 1) % len(room.outline)]
        assert f"wall {'ABCDEFGHIJ'[wall]}: {((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5:.0f}" in said
    for row in rows_of_cuts(lay, 3):
        for cut in (cut for run in row.runs for cut in run):
            assert any(words.split(" · ")[0] == cut.mark for words in said)


@given(st.text(max_size=300))
@settings(max_examples=60, deadline=None)
def test_any_name_is_shown_as_text_and_nothing_else(name):
    room = ROOMS["closet"]
    lay = lay_room(room, board=OAK, rules=RULES)
    svg = svg_of(room, lay, kerf_mm=3, title=name, notes=(name, name))
    root = ElementTree.fromstring(svg)
    plain = ElementTree.fromstring(svg_of(room, lay, kerf_mm=3, title="Room", notes=("one", "two")))
    assert [one.tag for one in root.iter()] == [one.tag for one in plain.iter()]


@pytest.mark.parametrize(
    "name",
    ["</text><script>alert(1)</script>", '" onload="x', "a\x1b[31mb", "\u202egnirtS", "&amp;<b>", "\ud800", "]]>"],
)
def test_a_hostile_name_neither_breaks_the_drawing_nor_reaches_outside(name):
    room = ROOMS["closet"]
    svg = svg_of(room, lay_room(room, board=OAK, rules=RULES), kerf_mm=3, title=name, notes=(name,))
    root = ElementTree.fromstring(svg.encode())
    assert not any(one.tag.endswith(("script", "image", "a", "use", "foreignObject")) for one in root.iter())
    outside = re.findall(
        r"(?:href|src|url\((?!#)|@import|https?://(?!www\.w3\.org/2000/svg))", re.sub(">[^<]*<", "><", svg)
    )
    assert outside == []
    assert not {"\x1b", "\u202e"} & set(svg)


def test_cut_pieces_differ_from_whole_boards_without_colour():
    room = ROOMS["parlour"]
    svg = svg_of(room, lay_room(room, board=OAK, rules=RULES), kerf_mm=3, title="Room")
    assert set(re.findall(r'fill="(url\(#[a-z]+\)|#[0-9a-f]+|none)"', svg)) <= {
        "#fff", "none", "url(#near)", "url(#far)", "url(#neither)",
    }  # fmt: skip
    assert "url(#near)" in svg
    assert "url(#far)" in svg


def test_brickwork_shows_each_joint_at_its_place_and_dots_in_what_is_cut(laid):
    _, lay = laid
    rows = rows_of_cuts(lay, 3)
    drawn = brickwork(rows, lay.row_edges_mm, 76, 2)
    assert len(drawn.lines) == 2 * lay.rows + 1
    low = min(piece.from_mm for piece in lay.pieces)
    for line in drawn.lines:
        for one in line.stretches:
            left = round((one.cut.piece.from_mm - low) / drawn.mm_per_column)
            assert line.text[left] == "│"
            inside = line.text[one.start : one.end]
            is_whole = one.cut.piece.board_to_mm - one.cut.piece.board_from_mm == OAK.length_mm
            assert (CUT_FILL in inside) != is_whole or len(inside) <= len(one.cut.mark)


@pytest.mark.parametrize("high", [1, 2, 3])
@pytest.mark.parametrize("columns", [8, 23, 140])
def test_brickwork_keeps_within_its_columns_whatever_the_room(laid, columns, high):
    _, lay = laid
    drawn = brickwork(rows_of_cuts(lay, 3), lay.row_edges_mm, columns, high)
    assert all(len(line.text) <= columns for line in drawn.lines)
    assert [line.row for line in drawn.lines if line.row is not None].count(0) == max(1, high - 1)
