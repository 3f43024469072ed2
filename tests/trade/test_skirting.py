"""Skirting: every wall once, corners cut as they turn, and a cutting list that holds every piece."""

import math
from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.outline import perimeter_mm, rectangle
from store.trade.skirting import End, Skirting, skirting
from store.trade.surveyed import Doorway
from store.trade.walls import walls_of

L_ROOM = ((0, 0), (4000, 0), (4000, 2000), (2000, 2000), (2000, 3500), (0, 3500))


def ends(answer: Skirting, letter: str) -> tuple[End, End]:
    """How the pieces of a wall of the outline begin and end, taken together."""
    those = [piece for piece in answer.pieces if piece.letter == letter and piece.ring == 0]
    return those[0].begins.how, those[-1].ends.how


def test_inner_corners_are_butted_and_the_outer_one_is_mitred_at_half_its_angle() -> None:
    answer = skirting(outline=L_ROOM, stick_mm=5000)
    assert [ends(answer, letter) for letter in "ABCDEF"] == [
        (End.BUTTED, End.BUTTED),
        (End.BUTTED, End.BUTTED),
        (End.BUTTED, End.MITRED),
        (End.MITRED, End.BUTTED),
        (End.BUTTED, End.BUTTED),
        (End.BUTTED, End.BUTTED),
    ]
    mitre = answer.pieces[2].ends
    assert (mitre.corner_deg, mitre.saw_deg) == (90, 45)
    # Worked by hand: 16 mm thick at 45° the long point runs on by 16 mm.
    assert (answer.pieces[2].along_mm, answer.pieces[2].cut_mm) == (2000, 2016)


# Plane geometry, worked by hand: the saw at (180° − corner) ÷ 2, the long point thickness × tan of it.
@pytest.mark.parametrize(
    ("corner", "thick", "saw", "more"),
    [(90, 16, 45, 16.0), (135, 16, 22.5, 6.63), (92, 18, 44, 17.38), (120, 20, 30, 11.55), (45, 16, 67.5, 38.63)],
)
def test_the_saw_halves_the_corner_and_the_long_point_is_longer(
    corner: float, thick: int, saw: float, more: float
) -> None:
    far = 200_000  # a column with its tip at the origin, so large that whole mm hold the angle
    half = math.radians(corner / 2)
    tip = ((0, 0), (round(far * math.cos(half)), -round(far * math.sin(half))))
    column = (*tip, (tip[1][0], -tip[1][1]))
    hall = ((-400_000, -400_000), (400_000, -400_000), (400_000, 400_000), (-400_000, 400_000))
    answer = skirting(outline=hall, cut_outs=(column,), stick_mm=20_000, thickness_mm=thick)
    first = next(piece for piece in answer.pieces if piece.ring == 1)
    assert first.begins.corner_deg == pytest.approx(corner, abs=0.01)
    assert first.begins.saw_deg == pytest.approx(saw, abs=0.01)
    assert first.cut_mm == math.ceil(first.along_mm + more - 0.01)


def test_a_corner_too_sharp_for_a_saw_is_left_to_the_hand() -> None:
    hall = rectangle(9000, 9000)
    splinter = ((1000, 1000), (5000, 1000), (5000, 1500))
    answer = skirting(outline=hall, cut_outs=(splinter,), stick_mm=5000)
    tip = next(piece for piece in answer.pieces if piece.ring == 1).begins
    assert (tip.how, tip.saw_deg) == (End.BY_HAND, None)


# The walls of a room and its pieces, 2400 mm sticks, 3 mm cuts, worked by hand; seven sticks by first fit and L2.
def test_long_walls_are_spliced_and_no_end_is_shorter_than_300() -> None:
    outline = ((0, 0), (3976, 0), (3976, 2650), (0, 2650))
    lengths = [piece.cut_mm for piece in skirting(outline=outline, stick_mm=2400).pieces]
    assert lengths == [2400, 1576, 2350, 300, 2400, 1576, 2350, 300]


def test_a_doorway_leaves_its_wall_square_on_both_sides() -> None:
    door = Doorway(wall=0, from_mm=1000, width_mm=900)
    first, second, *_ = skirting(outline=L_ROOM, doorways=(door,), stick_mm=5000).pieces
    assert (first.from_mm, first.along_mm, first.ends.how) == (0, 1000, End.SQUARE)
    assert (second.from_mm, second.along_mm, second.begins.how) == (1900, 2100, End.SQUARE)


def test_a_mitre_without_a_partner_beyond_a_doorway_is_cut_square() -> None:
    door = Doorway(wall=3, from_mm=0, width_mm=900)  # begins at the outer corner
    answer = skirting(outline=L_ROOM, doorways=(door,), stick_mm=5000)
    assert ends(answer, "C") == (End.BUTTED, End.SQUARE)
    assert ends(answer, "D") == (End.SQUARE, End.BUTTED)


def test_a_hearth_against_the_wall_is_skirted_round_and_not_behind() -> None:
    hearth = ((1000, 0), (2000, 0), (2000, 400), (1000, 400))
    answer = skirting(outline=rectangle(4000, 3000), cut_outs=(hearth,), stick_mm=5000)
    # 14,000 of wall less the 1,000 behind the hearth, and 400 + 1,000 + 400 round it.
    assert (answer.along_mm, answer.left_out_mm) == (14_800, 2000)
    assert sorted(piece.along_mm for piece in answer.pieces if piece.ring == 1) == [400, 400, 1000]
    assert ends(answer, "A") == (End.BUTTED, End.BUTTED)


def test_the_way_round_the_corners_were_measured_changes_no_piece() -> None:
    there = skirting(outline=L_ROOM, stick_mm=2400)
    back = skirting(outline=L_ROOM[::-1], stick_mm=2400)
    assert sorted(there.cutting.cuts) == sorted(back.cutting.cuts)


@st.composite
def rooms(draw: st.DrawFn) -> tuple[tuple[tuple[int, int], ...], list[Doorway], int, int]:
    """A room with steps in one wall, some doorways, a stick and a thickness."""
    widths = draw(st.lists(st.integers(300, 4000), min_size=1, max_size=4))
    deeps = [draw(st.integers(500, 6000)) for _ in widths]
    corners, x = [(0, 0), (sum(widths), 0)], sum(widths)
    for width, deep in zip(widths, deeps, strict=True):
        corners += [(x, deep), (x - width, deep)]
        x -= width
    ring = tuple(one for i, one in enumerate(corners) if one != corners[i - 1])
    doors = []
    for wall, (a, b) in enumerate(walls_of(ring)):
        long = round(math.dist(a, b))
        if draw(st.booleans()) and long > 100:
            start = draw(st.integers(0, long - 50))
            doors.append(Doorway(wall=wall, from_mm=start, width_mm=draw(st.integers(50, long - start))))
    return ring, doors, draw(st.integers(1000, 5400)), draw(st.integers(0, 50))


@settings(max_examples=40, deadline=None)
@given(rooms())
def test_every_wall_is_covered_once_and_the_total_is_the_perimeter_less_the_doorways(
    room: tuple[tuple[tuple[int, int], ...], list[Doorway], int, int],
) -> None:
    ring, doors, stick, thick = room
    answer = skirting(outline=ring, doorways=doors, stick_mm=stick, thickness_mm=thick, kerf_mm=0)
    bare = sum(door.width_mm for door in doors)
    assert answer.along_mm == pytest.approx(perimeter_mm(ring) - bare)
    assert answer.left_out_mm == pytest.approx(bare)
    for wall, (a, b) in enumerate(walls_of(ring)):
        spans = [(p.from_mm, p.from_mm + p.along_mm) for p in answer.pieces if p.wall == wall]
        spans += [(d.from_mm, d.from_mm + d.width_mm) for d in doors if d.wall == wall]
        spans.sort()
        assert [spans[0][0], spans[-1][1]] == pytest.approx([0, math.dist(a, b)])
        assert all(before[1] == pytest.approx(after[0]) for before, after in pairwise(spans))
    cut = Counter(piece for stick_cuts in answer.cutting.cuts for piece in stick_cuts)
    assert cut == Counter(piece.cut_mm for piece in answer.pieces)
    for piece in answer.pieces:
        assert piece.along_mm <= piece.cut_mm <= stick
        # Where a wall runs straight on into the next, their pieces meet at that corner, however short they are.
        long = math.dist(*walls_of(ring)[piece.wall])
        begun = piece.begins.how is End.SPLICED and piece.from_mm > 0
        ended = piece.ends.how is End.SPLICED and piece.from_mm + piece.along_mm < long - 0.5
        assert not (begun or ended) or piece.along_mm >= 300


@pytest.mark.parametrize(
    ("bad", "say"),
    [
        ({"stick_mm": 0}, "Stick 0 mm"),
        ({"stick_mm": 2400.5}, "whole"),
        ({"kerf_mm": -1}, "Saw cut -1"),
        ({"thickness_mm": float("nan")}, "finite"),
        ({"outline": rectangle(4_000_000, 4_000_000)}, "more than 5000 pieces"),
        ({"doorways": [Doorway(wall=wall, from_mm=0, width_mm=1000) for wall in range(4)]}, "no wall to skirt"),
    ],
)
def test_skirting_that_cannot_be_is_refused_in_a_sentence(bad: dict[str, object], say: str) -> None:
    with pytest.raises(Refused, match=say):
        skirting(**({"outline": rectangle(1000, 1000), "stick_mm": 2400} | bad))  # type: ignore[arg-type]
