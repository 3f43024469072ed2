"""Stairs: steps against published limits, and pieces, nosings and boards that are enough."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.stairs import STAIR_CODES, StairBoard, stair_board, stairs


def flight(**given_too):
    return stairs(**({"total_rise_mm": 2600, "going_mm": 225, "width_mm": 860, "code": "ad-k-private"} | given_too))


def failed(answer):
    return [check.what for check in answer.checks if not check.ok]


# Worked by hand: the fewest risers of at most 220 mm (Approved Document K 2013, Table 1.1, private stair).
@pytest.mark.parametrize(
    ("total", "risers", "rise"),
    [(2600, 12, 216.7), (2700, 13, 207.7), (2800, 13, 215.4), (3000, 14, 214.3), (2420, 11, 220), (2200, 10, 220)],
)
def test_a_total_rise_is_shared_by_the_fewest_risers_the_code_allows(total, risers, rise):
    answer = flight(total_rise_mm=total)
    assert (answer.risers, answer.treads, answer.nosings) == (risers, risers - 1, risers)
    assert answer.rise_mm == pytest.approx(rise, abs=0.05)


# Approved Document K (2013), Table 1.1, private stair: pitch at most 42°, 2R + G from 550 to 700. Worked by hand.
@pytest.mark.parametrize(
    ("rise", "going", "sum_", "amiss"),
    [
        (200, 225, 625, []),
        (220, 220, 660, ["pitch"]),  # 45°
        (150, 300, 600, []),
        (190, 250, 630, []),
        (220, 240, 680, ["pitch"]),  # 42.5°
        (220, 280, 720, ["2R + G"]),
    ],
)
def test_a_step_is_held_against_each_limit_of_the_code(rise, going, sum_, amiss):
    answer = flight(total_rise_mm=rise * 10, risers=10, going_mm=going)
    assert (answer.rise_mm, answer.twice_rise_and_going_mm) == (rise, sum_)
    assert failed(answer) == amiss
    assert answer.ok is (not amiss)


def test_one_step_passes_one_code_and_not_another():
    def amiss(code):
        return failed(flight(total_rise_mm=2000, risers=10, going_mm=240, code=code))

    assert amiss("ad-k-private") == []
    assert amiss("ad-k-utility") == ["rise", "going"]
    assert amiss("ad-k-general") == ["rise", "going"]
    assert amiss("din-18065") == []
    assert amiss("irc") == ["rise", "going"]
    assert failed(flight(total_rise_mm=1900, risers=10, going_mm=260, nosing_mm=40, code="irc")) == ["nosing"]


# Worked by hand from width, going and nosing, and rise.
@pytest.mark.parametrize(
    ("risers", "width", "going", "nosing", "rise", "treads_m2", "risers_m2", "nosing_m"),
    [
        (13, 860, 225, 25, 200, 2.580, 2.236, 11.18),
        (14, 900, 250, 25, 193, 3.2175, 2.4318, 12.6),
        (12, 800, 220, 20, 220, 2.112, 2.112, 9.6),
    ],
)
def test_the_parts_of_a_flight_add_up(risers, width, going, nosing, rise, treads_m2, risers_m2, nosing_m):
    answer = flight(total_rise_mm=risers * rise, risers=risers, width_mm=width, going_mm=going, nosing_mm=nosing)
    assert (answer.tread_m2, answer.riser_m2, answer.nosing_m) == pytest.approx((treads_m2, risers_m2, nosing_m))


# Worked by hand: as many pieces from a stick as its length and the cuts of 3 mm between them give.
@pytest.mark.parametrize(
    ("width", "length", "sticks"), [(860, 2400, 7), (900, 2700, 7), (800, 2400, 7), (1199, 2400, 13), (860, 1900, 7)]
)
def test_the_saw_cut_counts_between_the_pieces_of_a_board(width, length, sticks):
    board = StairBoard(length_mm=length, width_mm=300)
    answer = flight(total_rise_mm=2600, risers=13, width_mm=width, board=board)
    assert answer.boards.nosing_sticks == sticks
    assert answer.boards.riser_boards == sticks


def test_a_tread_deeper_than_a_board_takes_two_side_by_side():
    # 12 treads of 250 mm: two boards of 190 each, two pieces
    # from a board of 1900: 12 boards. 13 risers of 200: two boards each too, 13 boards.
    boards = flight(risers=13, board=StairBoard(length_mm=1900, width_mm=190)).boards
    assert (boards.tread_boards, boards.riser_boards, boards.nosing_sticks) == (12, 13, 7)


@given(st.integers(200, 9000), st.integers(1, 400), st.integers(200, 2000), st.integers(60, 400))
def test_boards_hold_their_parts_and_rises_never_pass_the_one_preferred(total, going, width, face):
    board = StairBoard(length_mm=2000, width_mm=face)
    answer = flight(total_rise_mm=total, going_mm=going, width_mm=width, rise_mm=180, board=board)
    assert answer.rise_mm <= 180
    assert answer.rise_mm * answer.risers == pytest.approx(total)
    assert answer.risers == 1 or total / (answer.risers - 1) > 180
    assert answer.boards.tread_boards * 2 * face / 1000 >= answer.tread_m2 - 1e-9
    assert answer.boards.riser_boards * 2 * face / 1000 >= answer.riser_m2 - 1e-9


def test_one_riser_is_a_step_without_a_tread():
    answer = flight(total_rise_mm=180, risers=1, board=StairBoard(length_mm=2000, width_mm=200))
    assert (answer.treads, answer.tread_m2, answer.boards.tread_boards, answer.boards.riser_boards) == (0, 0, 0, 1)


@pytest.mark.parametrize(
    ("bad", "say"),
    [
        ({"going_mm": 0}, "Going 0 mm"),
        ({"total_rise_mm": 0}, "Total rise 0 mm"),
        ({"rise_mm": 0}, "Rise 0 mm"),
        ({"risers": 0}, "Risers 0"),
        ({"risers": 2.5}, "is not whole"),
        ({"risers": 10**30}, "outside what this sum covers"),
        ({"total_rise_mm": 30_000, "rise_mm": 1}, "Risers 30000"),
        ({"risers": 13, "rise_mm": 180}, "not both"),
        ({"width_mm": float("nan")}, "finite"),
        ({"nosing_mm": -1}, "Nosing -1"),
        ({"code": "mist"}, "'mist' is not known"),
        ({"board": StairBoard(length_mm=800, width_mm=200)}, "longer than a board of 800 mm"),
    ],
)
def test_a_stair_that_cannot_be_is_refused_in_a_sentence(bad, say):
    with pytest.raises(Refused, match=say):
        flight(**bad)


def test_a_board_has_a_length_and_a_width():
    assert stair_board(length_mm=None, width_mm=None, kerf_mm=3) is None
    with pytest.raises(Refused, match="give both"):
        stair_board(length_mm=1900, width_mm=None, kerf_mm=3)


def test_every_code_names_its_source():
    assert all(code.source for code in STAIR_CODES.values())
