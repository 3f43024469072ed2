"""Floors laid from packs that hold boards of several lengths: right in every rule, thrifty, repeatable."""

import math
from collections import Counter
from contextlib import suppress

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.layout.cuts import cuts_of, left_over
from store.trade.layout.lay import BoardSize, LayRules, Room, pack_boards
from store.trade.layout.search import lay_room, search_lays
from store.trade.outline import rectangle
from tests.trade.lay_checker import faults_in_lay

NESTED = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=7, lengths=((1900, 5), (1000, 1), (900, 1)))
THREE = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=8, lengths=((1900, 4), (1200, 2), (600, 2)))
RULES = LayRules(stagger_mm=300, shortest_mm=300, kerf_mm=3, least_mm=60)
L_SHAPE = ((0, 0), (5200, 0), (5200, 1400), (4300, 1400), (4300, 4100), (0, 4100))

widths = st.integers(700, 5200)


@st.composite
def packs(draw):
    lengths = sorted(draw(st.sets(st.integers(450, 2200), min_size=1, max_size=4)), reverse=True)
    counts = draw(st.lists(st.integers(1, 6), min_size=len(lengths), max_size=len(lengths)))
    return BoardSize(
        length_mm=lengths[0],
        width_mm=draw(st.integers(120, 240)),
        boards_per_pack=sum(counts),
        lengths=tuple(zip(lengths, counts, strict=True)),
    )


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(long=widths, wide=widths, corner=st.tuples(st.integers(2, 8), st.integers(2, 8)), board=packs())
def test_whatever_lies_in_the_packs_every_lay_keeps_every_rule(long, wide, corner, board):
    x, y = long * corner[0] // 10, wide * corner[1] // 10
    room = Room(outline=((0, 0), (long, 0), (long, y), (x, y), (x, wide), (0, wide)), gap_mm=10)
    rules = LayRules(stagger_mm=200, shortest_mm=250, kerf_mm=3, least_mm=60)
    lays = []
    with suppress(Refused):
        lays += [attempt.lay for attempt in search_lays(room, board=board, rules=rules)]
    for lay in lays[-1:]:
        assert faults_in_lay(lay, room, board, rules) == []
    assert [lay.packs for lay in lays] == sorted((lay.packs for lay in lays), reverse=True)


def test_two_rows_of_a_long_and_a_short_board_take_two_packs_and_lose_nothing():
    board = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=2, lengths=((1900, 1), (600, 1)))
    lay = lay_room(Room(outline=rectangle(2500, 380), gap_mm=0), board=board, rules=RULES)
    assert (lay.packs, lay.boards, lay.cut_loss_percent, lay.proved_best) == (2, 4, 0.0, True)
    assert [piece.to_mm - piece.from_mm for piece in lay.pieces] in ([1900, 600, 600, 1900], [600, 1900, 1900, 600])


# What a floor takes in packs can never be less than its runs end to end ÷ a pack's boards end to end; reached, it is
# proved by arithmetic alone.
@pytest.mark.parametrize(
    ("outline", "board", "packs"),
    [(rectangle(4880, 2290), NESTED, 6), (rectangle(7200, 3790), NESTED, 13), (L_SHAPE, THREE, 10)],
)
def test_rooms_are_laid_from_the_fewest_packs_there_can_be(outline, board, packs):
    room = Room(outline=outline, gap_mm=12)
    lay = lay_room(room, board=board, rules=RULES)
    runs = sum(piece.to_mm - piece.from_mm for piece in lay.pieces)
    pack_run = sum(length * count for length, count in board.lengths)
    assert (lay.packs, lay.proved_best) == (packs, True) == (math.ceil(runs / pack_run), True)
    assert faults_in_lay(lay, room, board, RULES) == []


def test_no_more_of_a_length_is_used_than_its_packs_hold():
    lay = lay_room(Room(outline=L_SHAPE, gap_mm=10), board=THREE, rules=RULES)
    used = Counter(lay.board_lengths_mm)
    assert set(used) <= {1900, 1200, 600}
    assert all(used[length] <= lay.packs * count for length, count in THREE.lengths)
    assert len(lay.board_lengths_mm) == lay.boards <= lay.pack_boards <= lay.packs * 8


def test_the_same_room_and_seed_give_the_same_lay_and_another_seed_may_not():
    room = Room(outline=L_SHAPE, gap_mm=10)
    first = lay_room(room, board=NESTED, rules=RULES, seed=1)
    assert lay_room(room, board=NESTED, rules=RULES, seed=1) == first
    assert lay_room(room, board=NESTED, rules=RULES, seed=2).pieces != first.pieces


def test_a_short_room_is_laid_in_single_pieces():
    lay = lay_room(Room(outline=rectangle(520, 2000), gap_mm=10), board=THREE, rules=RULES)
    assert all(piece.to_mm - piece.from_mm == 500 for piece in lay.pieces)
    assert faults_in_lay(lay, Room(outline=rectangle(520, 2000), gap_mm=10), THREE, RULES) == []


def test_the_cut_list_follows_boards_of_every_length():
    lay = lay_room(Room(outline=L_SHAPE, gap_mm=10), board=THREE, rules=RULES)
    cuts = cuts_of(lay, RULES.kerf_mm)
    assert sum(cut.length_mm for cut in cuts) == sum(piece.to_mm - piece.from_mm for piece in lay.pieces)
    lost = left_over(lay, RULES.kerf_mm)
    cut_away = sum(lay.board_lengths_mm) - sum(cut.length_mm for cut in cuts)
    assert 0 <= cut_away - sum(lost) <= 2 * RULES.kerf_mm * len(cuts)


def test_rules_that_these_packs_cannot_keep_are_refused_in_a_sentence():
    board = BoardSize(length_mm=900, width_mm=190, boards_per_pack=2, lengths=((900, 2),))
    with pytest.raises(Refused, match=r"800 mm apart and pieces 300 mm long or more; allow less\."):
        lay_room(Room(outline=rectangle(5000, 2000)), board=board, rules=LayRules(stagger_mm=800, shortest_mm=300))


@pytest.mark.parametrize(
    ("lengths", "said"),
    [(((0, 3), (1900, 1)), "more than 0"), (((1900, 0),), "more than 0"), (((1800, 2),), "No length in the pack")],
)
def test_packs_that_cannot_be_are_refused(lengths, said):
    board = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=3, lengths=lengths)
    with pytest.raises(Refused, match=said):
        lay_room(Room(outline=rectangle(3000, 2000)), board=board, rules=RULES)


def test_the_length_that_runs_out_first_says_how_many_packs_are_opened():
    assert pack_boards(NESTED, 7, [1900] * 5 + [1000, 900]) == 7
    assert pack_boards(NESTED, 2, [1000, 1000]) == 14
    assert pack_boards(NESTED, 1, [1900]) == 2
