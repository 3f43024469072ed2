"""Film in strips and rolls, primer in canisters, screws by the piece: against worked values, and what always holds."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.film import film
from store.trade.primer import primer
from store.trade.screws import screws


# The handbook's worked values: length and width of the floor, roll, overlap and turn-up, all in m.
@pytest.mark.parametrize(
    ("floor", "roll", "overlap", "turn", "strips", "long", "rolls"),
    [
        ((5, 4), (2, 25), 0.2, 0.1, 3, 5.2, 1),
        ((5, 4), (1, 15), 0, 0, 4, 5, 2),
        ((6.2, 3.9), (1.1, 12.5), 0.1, 0, 4, 6.2, 2),
        ((10, 8), (4, 25), 0.2, 0.1, 3, 10.2, 2),
        ((3, 2.5), (2, 25), 0.2, 0.1, 2, 3.2, 1),
        ((30, 4), (2, 25), 0.2, 0, 3, 30, 4),
    ],
)
def test_film_comes_in_strips_and_whole_rolls(floor, roll, overlap, turn, strips, long, rolls):
    answer = film(
        along_mm=round(floor[0] * 1000),
        across_mm=round(floor[1] * 1000),
        roll_width_mm=round(roll[0] * 1000),
        roll_length_m=roll[1],
        overlap_mm=round(overlap * 1000),
        turn_up_mm=round(turn * 1000),
    )
    assert (answer.strips, answer.strip_mm, answer.rolls) == (strips, long * 1000, rolls)
    assert answer.joined is (long > roll[1])


def test_a_strip_begun_with_what_a_roll_left_is_lapped_wherever_a_roll_ends():
    # Two strips of 45 m from rolls of 25 m, lapped by 0.2. The first takes a roll and 20.2 m of the next, which leaves
    # 4.8; the second takes those, a whole roll more for 24.8 and 15.6 of the fourth: four rolls. A lap fewer would
    # not change that; three strips of 49.6 m show it: 149.2 m of six rolls, by hand, and a seventh for the laps.
    two = film(along_mm=45_000, across_mm=3_800, roll_width_mm=2_000, roll_length_m=25)
    assert (two.strips, two.rolls) == (2, 4)
    three = film(along_mm=49_700, across_mm=5_600, roll_width_mm=2_000, roll_length_m=25)
    assert (three.strips, three.rolls) == (3, 6)
    longer = film(along_mm=49_900, across_mm=5_600, roll_width_mm=2_000, roll_length_m=25)
    assert (longer.strips, longer.rolls) == (3, 7)


@given(
    along=st.integers(500, 80_000),
    across=st.integers(500, 20_000),
    width=st.integers(500, 4_000),
    roll_m=st.integers(5, 60),
    overlap=st.integers(0, 400),
    turn=st.integers(0, 150),
)
def test_the_strips_reach_from_wall_to_wall_and_the_rolls_hold_them(along, across, width, roll_m, overlap, turn):
    answer = film(
        along_mm=along,
        across_mm=across,
        roll_width_mm=width,
        roll_length_m=roll_m,
        overlap_mm=overlap,
        turn_up_mm=turn,
    )
    covers = answer.strips * width - (answer.strips - 1) * overlap
    assert covers >= across + 2 * turn
    assert answer.strips == 1 or covers - (width - overlap) < across + 2 * turn
    assert answer.rolls * roll_m * 1000 >= answer.strips * answer.strip_mm
    joins = math.ceil(answer.strip_mm / (roll_m * 1000 - overlap)) + 1 if answer.joined else 0
    most = answer.strips * (answer.strip_mm + joins * 2 * overlap)
    assert not answer.joined or (answer.rolls - 1) * roll_m * 1000 <= most


def test_an_overlap_as_wide_as_the_roll_covers_nothing_and_is_refused():
    with pytest.raises(Refused, match="less than the roll is wide"):
        film(along_mm=5000, across_mm=4000, roll_width_mm=200, roll_length_m=25, overlap_mm=200)
    with pytest.raises(Refused, match="more than 200,000 pieces"):
        film(along_mm=500_000, across_mm=500_000, roll_width_mm=100, roll_length_m=1, overlap_mm=0)


# By hand: area × rate × coats, canisters rounded up, and a full one never followed by an empty one.
@pytest.mark.parametrize(
    ("area", "rate", "coats", "canister", "kg", "canisters"),
    [(20, 150, 1, 10, 3, 1), (40, 300, 2, 10, 24, 3), (66.7, 150, 1, 5, 10.005, 3), (50, 200, 1, 10, 10, 1)],
)
def test_primer_comes_in_whole_canisters(area, rate, coats, canister, kg, canisters):
    answer = primer(area_m2=area, rate_g_per_m2=rate, coats=coats, canister_kg=canister)
    assert (answer.kg, answer.canisters) == (kg, canisters)


@pytest.mark.parametrize("wrong", [{"coats": 0}, {"coats": 1.5}, {"area_m2": 0}, {"canister_kg": 0}])
def test_primer_that_cannot_be_is_refused(wrong):
    with pytest.raises(Refused):
        primer(**{"area_m2": 20, **wrong})


# The handbook's worked values: 50 mm from the ends, 400 mm apart.
@pytest.mark.parametrize(("length", "count"), [(100, 1), (300, 2), (900, 3), (2000, 6), (2400, 7), (3000, 9)])
def test_a_piece_has_screws_at_its_ends_and_between(length, count):
    assert screws(pieces_mm=(length,)).each == (count,)


@given(st.lists(st.integers(1, 10_000), min_size=1, max_size=20), st.integers(100, 900), st.integers(0, 120))
def test_no_two_screws_are_further_apart_than_the_spacing(pieces, spacing, end):
    answer = screws(pieces_mm=pieces, spacing_mm=spacing, end_mm=end)
    assert answer.screws == sum(answer.each)
    for length, count in zip(pieces, answer.each, strict=True):
        if length > 150:
            assert count >= 2
            assert (length - 2 * end) <= (count - 1) * spacing
        if length > 2 * end + spacing:
            assert (length - 2 * end) > (count - 2) * spacing


def test_screws_for_nothing_are_refused():
    with pytest.raises(Refused, match="give their lengths"):
        screws(pieces_mm=())
    with pytest.raises(Refused):
        screws(pieces_mm=(0,))
