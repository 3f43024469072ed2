"""Somebody else's cutting lists: the fewest sticks are those of scipy, and every stick holds what it says."""

import itertools
from collections import Counter

import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from tests.tui.somebody_asks import answers, ask, each_no, refuses


def fewest(stick: int, kerf: int, pieces: list[int]) -> int:
    """The optimum of HiGHS over every handful of pieces that one stick holds: each piece is in one handful or more."""
    numbers = range(len(pieces))
    handfuls = [
        one
        for size in range(1, len(pieces) + 1)
        for one in itertools.combinations(numbers, size)
        if sum(pieces[i] for i in one) + kerf * (size - 1) <= stick
    ]
    holds = np.array([[piece in one for one in handfuls] for piece in numbers], dtype=float)
    everyone = LinearConstraint(holds, 1, np.inf)
    solved = milp(np.ones(len(handfuls)), constraints=everyone, integrality=1, bounds=Bounds(0, 1))
    return round(solved.fun)


# Stick, saw cut, pieces as they are typed.
LISTS = [
    (2400, 3, "2400"), (2400, 3, "1"), (2400, 0, "2400,2400,2400"), (2400, 3, "1199,1198"), (2400, 3, "1199,1199"),
    (2400, 0, "800,800,800"), (2400, 1, "800,800,800"), (2400, 3, "798,798,798"), (2400, 3, "799,798,798"),
    (2400, 3, "1000,1000,800,800,600,600"), (2400, 0, "1000,1000,800,800,600,600"), (2400, 3, "3,2394,2397"),
    (2700, 3, "1350,1347,900,897,897,2,1"), (3000, 4, "1500,1496,1001,999,992,750,747,747,744"),
    (1000, 0, "510,270,260,230,510,260,250,240,245,235"),
    (4200, 3, "2100,2097,1399,1398,1397,1397,840,839,837,837,835"),
    (2500, 2, "1249,1249,1250,833,832,831,625,624,624,623"), (5400, 5, "1800,1795,1795,1350,1346,1345,1344,2697,2698"),
    (2400, 10, "600,600,590,580,570,460,450,1190,1195"), (1800, 3, "900,900,900,449,448,448,448,448,447"),
]  # fmt: skip


@pytest.mark.parametrize(("stick", "kerf", "typed"), LISTS)
def test_a_list_takes_no_more_sticks_than_scipy_finds(stick: int, kerf: int, typed: str) -> None:
    pieces = [int(one) for one in typed.split(",")]
    ran = ask(f"trims --pieces {typed} --kerf {kerf} --stick {stick}", "--json")
    assert (ran.status, ran.err) == (0, b"")
    answer = ran.answer
    assert answer["sticks"] == len(answer["cuts"]) == len(answer["left_mm"]) == fewest(stick, kerf, pieces)
    assert Counter(itertools.chain.from_iterable(answer["cuts"])) == Counter(pieces)
    for cut, left in zip(answer["cuts"], answer["left_mm"], strict=True):
        assert left == stick - sum(cut) - kerf * (len(cut) - 1) >= 0


# The last piece of a stick needs no cut after it: 3 × 798 + 2 × 3 is 2400 just, a mm more is not. By hand.
@pytest.mark.parametrize(("pieces", "sticks"), [("798,798,798", 1), ("798,798,799", 2)])
def test_three_pieces_and_two_cuts_fill_a_stick_to_the_millimetre(pieces: str, sticks: int) -> None:
    answers(f"trims --stick 2400 --kerf 3 --pieces {pieces}", {"sticks": sticks})


# Thirteen nosings of 860 mm, two to a stick of 2400 mm: by hand.
def test_the_nosings_of_a_flight_are_cut_two_to_a_stick() -> None:
    answers(f"trims --stick 2400 --kerf 3 --pieces {','.join(['860'] * 13)}", {"sticks": 7})


NOT_COVERED = [
    ("a piece a mm too long", "trims --stick 2400 --kerf 3 --pieces 1200,2401"),
    ("a piece of nothing", "trims --stick 2400 --kerf 3 --pieces 1200,0"),
    ("a piece below nought", "trims --stick 2400 --kerf 3 --pieces -1200"),
    ("half a mm", "trims --stick 2400 --kerf 3 --pieces 1200.5"),
    ("a saw that adds wood", "trims --stick 2400 --kerf -3 --pieces 1200"),
    ("a stick of nothing", "trims --stick 0 --kerf 3 --pieces 1200"),
    ("no pieces", 'trims --stick 2400 --kerf 3 --pieces ""'),
]


@pytest.mark.parametrize("typed", each_no(NOT_COVERED))
def test_a_list_that_no_saw_can_cut_is_refused(typed: str) -> None:
    refuses(typed)


def test_a_list_in_words_names_each_stick() -> None:
    ran = ask("trims --stick 2400 --kerf 3 --pieces 1199,1198,900")
    assert (ran.status, ran.err) == (0, b"")
    assert "sticks: 2" in ran.said.splitlines()
