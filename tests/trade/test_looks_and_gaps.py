"""What shows on a floor and what its walls ask for: joints in line, gaps, and boards in any length."""

import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.gaps import known_wood, wall_gap
from store.trade.layout.as_they_come import AnyLengths, as_they_come
from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.looks import joints_of, looks_of
from store.trade.layout.search import lay_room, search_lays
from store.trade.outline import rectangle

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
RULES = LayRules(stagger_mm=400)
ROOMS = [
    rectangle(5200, 4100),
    rectangle(7300, 2900),
    ((0, 0), (4450, 0), (4450, 2040), (2960, 2040), (2960, 4090), (0, 4090)),
]


@pytest.mark.parametrize("outline", ROOMS)
def test_polishing_leaves_fewer_joints_in_line_and_opens_no_board_more(outline):
    lays = [attempt.lay for attempt in search_lays(Room(outline=outline, gap_mm=12), board=OAK, rules=RULES)]
    before, after = looks_of(lays[-2]), looks_of(lays[-1])
    assert lays[-1].boards <= lays[-2].boards
    shows, showed = ((one.in_line + one.stairs, one.cut_lengths) for one in (after, before))
    assert shows < showed
    assert after.in_line <= len([joint for row in joints_of(lays[-1]) for joint in row]) / 5


def test_the_last_attempt_says_that_all_is_done_and_no_other_does():
    done = [attempt.done for attempt in search_lays(Room(outline=ROOMS[0], gap_mm=12), board=OAK, rules=RULES)]
    assert done[-1] == 1
    assert max(done[:-1]) < 1
    assert done == sorted(done)


def test_a_lay_of_a_single_row_shows_nothing():
    assert looks_of(lay_room(Room(outline=rectangle(5000, 200)), board=OAK, rules=RULES)).in_line == 0


# 1.5 mm for every metre of width on each side, 10 mm at least: makers' texts; worked by hand.
@pytest.mark.parametrize(
    ("across_mm", "asked"), [(3000, 10), (5000, 10), (6670, 11), (8000, 12), (10_000, 15), (12_000, 18)]
)
def test_a_floating_floors_gap_grows_with_its_width(across_mm, asked):
    gap = wall_gap(across_mm=across_mm, method="floating", gap_mm=asked)
    assert (gap.asked_mm, gap.enough) == (asked, True)
    assert wall_gap(across_mm=across_mm, method="floating", gap_mm=asked - 1).enough is False


# Fields of 8 m: a maker's text; worked by hand.
@pytest.mark.parametrize(("across_mm", "fields"), [(7000, 1), (8000, 1), (8100, 2), (16_001, 3)])
def test_a_wide_floating_floor_is_parted_into_fields(across_mm, fields):
    assert wall_gap(across_mm=across_mm, method="floating", gap_mm=20).fields == fields


def test_a_glued_floor_is_asked_for_nothing_but_told_what_loose_wood_would_do():
    # About 5 cm over 5 m in a year: German initiative for glued parquet, from memory.
    gap = wall_gap(across_mm=5000, method="glued", gap_mm=10, species="oak")
    assert (gap.asked_mm, gap.enough, gap.fields, gap.free_movement_mm) == (None, None, 1, 54.0)


@given(st.integers(100, 30_000), st.integers(0, 50))
def test_a_wider_floor_never_asks_for_less(across_mm, more):
    narrow = wall_gap(across_mm=across_mm, method="floating", gap_mm=10)
    wide = wall_gap(across_mm=across_mm + more, method="floating", gap_mm=10)
    assert wide.asked_mm >= narrow.asked_mm
    assert wide.fields >= narrow.fields


def test_woods_whose_movement_nobody_wrote_down_are_left_out():
    assert (known_wood("oak"), known_wood("unheard-of wood"), known_wood("")) == ("oak", "", "")


ANY = AnyLengths(shortest_mm=500, longest_mm=1900, width_mm=190, pack_run_mm=11_400)
ANY_RULES = LayRules(stagger_mm=300)


@pytest.mark.parametrize("outline", ROOMS)
def test_boards_of_any_length_lose_a_few_in_a_hundred_and_the_packs_hold_the_floor(outline):
    taken = as_they_come(Room(outline=outline, gap_mm=12), boards=ANY, rules=ANY_RULES)
    assert 0 < taken.mean_loss_percent <= taken.high_loss_percent < 12
    assert taken.near_joints_percent < 2
    assert taken.packs * 11_400 * 190 > (1 + taken.high_loss_percent / 100) * 0.9 * 1e6


def test_being_surer_never_takes_fewer_packs_and_the_same_seed_says_the_same():
    room = Room(outline=ROOMS[0], gap_mm=12)
    half, sure = (as_they_come(room, boards=ANY, rules=ANY_RULES, confidence_percent=at) for at in (50, 99))
    assert half.packs <= sure.packs
    assert half.high_loss_percent <= sure.high_loss_percent
    assert as_they_come(room, boards=ANY, rules=ANY_RULES, confidence_percent=50) == half
    assert half.mean_loss_percent == sure.mean_loss_percent


@settings(max_examples=30, deadline=None)
@given(st.integers(1, 10_000))
def test_any_room_can_be_played_through_however_badly_its_boards_fit(seed):
    chance = random.Random(seed)
    room = Room(outline=rectangle(chance.randint(200, 3000), chance.randint(200, 3000)), gap_mm=10)
    boards = replace(ANY, shortest_mm=chance.randint(400, 1800), longest_mm=1900)
    taken = as_they_come(room, boards=boards, rules=replace(ANY_RULES, stagger_mm=chance.randint(0, 900)))
    assert taken.packs >= 1
    assert taken.mean_loss_percent >= -1e-9


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"shortest_mm": 0}, "shorter than the longest"),
        ({"shortest_mm": 1900}, "shorter than the longest"),
        ({"pack_run_mm": 100}, "at least one board"),
        ({"width_mm": 0}, "more than 0"),
    ],
)
def test_packs_of_any_length_that_cannot_be_are_refused(changed, said):
    with pytest.raises(Refused, match=said):
        as_they_come(Room(outline=ROOMS[0]), boards=replace(ANY, **changed), rules=ANY_RULES)


@pytest.mark.parametrize("confidence", [49, 100])
def test_a_confidence_that_says_nothing_is_refused(confidence):
    with pytest.raises(Refused, match="from 50 to 99"):
        as_they_come(Room(outline=ROOMS[0]), boards=ANY, rules=ANY_RULES, confidence_percent=confidence)


def test_polishing_never_makes_a_floor_look_worse_and_mostly_makes_it_better():
    before, after = [], []
    for long in range(3000, 9000, 500):
        room = Room(outline=rectangle(long, 2500), gap_mm=12)
        lays = [attempt.lay for attempt in search_lays(room, board=OAK, rules=RULES)]
        shows = [looks_of(lay).in_line + looks_of(lay).stairs for lay in lays[-2:]]
        assert shows[1] <= shows[0]
        before.append(shows[0])
        after.append(shows[1])
    assert sum(after) < sum(before) / 2
