"""The parts of a lay, each held against an independent reckoning: inset, runs, sharing, bound, joints."""

import math
import random

import networkx as nx
import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp
from shapely import Polygon

from store.errors import Refused
from store.trade.layout.bound import least_boards
from store.trade.layout.floor import floor_of
from store.trade.layout.place import Task
from store.trade.layout.reach import leading_on, some_way
from store.trade.layout.sharing import Wanted, left_over, shared_out
from store.trade.layout.strips import Run, strips_of
from store.trade.outline import faults_in_outline

spots = st.tuples(st.integers(-40, 40), st.integers(-40, 40)).map(lambda c: (50 * c[0], 50 * c[1]))


def in_order_round_the_middle(corners):
    x, y = (sum(side) / len(corners) for side in zip(*corners, strict=True))
    return tuple(sorted(corners, key=lambda c: math.atan2(c[1] - y, c[0] - x)))


def task_of(*lengths_mm, length_mm=1900, stagger_mm=400, shortest_mm=300, kerf_mm=3):
    runs = tuple(Run(row=row, left_mm=0, right_mm=length) for row, length in enumerate(lengths_mm))
    return Task(runs=runs, length_mm=length_mm, stagger_mm=stagger_mm, shortest_mm=shortest_mm, kerf_mm=kerf_mm)


@given(
    st.lists(spots, min_size=3, max_size=10, unique=True).map(in_order_round_the_middle),
    st.sampled_from([0, 5, 12, 60]),
    st.sampled_from([0, 90, 30, 123.4]),
)
@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.filter_too_much])
def test_the_floor_drawn_in_has_the_area_a_geometry_library_gives(outline, gap_mm, direction_deg):
    assume(not faults_in_outline(outline))
    expected = Polygon(outline).buffer(-gap_mm, join_style="mitre", mitre_limit=5).area
    try:
        area = floor_of(outline, (), gap_mm, direction_deg, None).area_mm2
    except Refused:
        area = 0.0
    assert area == pytest.approx(expected, rel=1e-6, abs=1.0)


def test_a_passage_narrower_than_two_gaps_parts_the_floor():
    outline = ((0, 0), (2000, 0), (2000, 990), (3000, 990), (3000, 0), (5000, 0), (5000, 2000), (3000, 2000))
    outline += ((3000, 1009), (2000, 1009), (2000, 2000), (0, 2000))
    floor = floor_of(outline, (), 10, 0, None)
    assert floor.area_mm2 == 2 * 1980 * 1980
    runs = strips_of(floor, 190, 60).runs
    assert {(run.left_mm, run.right_mm) for run in runs} == {(10, 1990), (3010, 4990)}


def test_runs_that_overlap_along_a_row_are_one_run():
    outline = ((0, 0), (3000, 0), (3000, 80), (1000, 80), (1000, 100), (3000, 100), (3000, 180), (0, 180))
    (run,) = strips_of(floor_of(outline, (), 0, 0, None), 190, 60).runs
    assert (run.left_mm, run.right_mm) == (0, 3000)


lengths = st.lists(st.integers(300, 1899), max_size=9)


@given(lengths, lengths, st.integers(0, 5))
@settings(max_examples=200, deadline=None)
def test_starters_and_closers_share_boards_as_well_as_any_matching_could(starters, closers, kerf_mm):
    graph = nx.Graph()
    graph.add_nodes_from(("s", i) for i in range(len(starters)))
    graph.add_nodes_from(("c", i) for i in range(len(closers)))
    graph.add_edges_from(
        (("s", i), ("c", j)) for i, s in enumerate(starters) for j, c in enumerate(closers) if s + c + kerf_mm <= 1900
    )
    pairs = len(nx.max_weight_matching(graph, maxcardinality=True))
    wanted = Wanted(starters=sorted(starters), closers=sorted(closers), length_mm=1900, kerf_mm=kerf_mm)
    assert len(left_over(wanted)) == len(starters) + len(closers) - pairs
    assert len(shared_out(wanted)) == len(starters) + len(closers) - pairs


@given(lengths, lengths, st.lists(st.integers(1, 1900), max_size=9))
@settings(max_examples=200, deadline=None)
def test_every_piece_is_cut_once_and_no_board_gives_more_than_it_has(starters, closers, inserts):
    shares = shared_out(Wanted(starters=starters, closers=closers, inserts=inserts, length_mm=1900, kerf_mm=3))
    assert sorted(s.starter for s in shares if s.starter is not None) == list(range(len(starters)))
    assert sorted(s.closer for s in shares if s.closer is not None) == list(range(len(closers)))
    assert sorted(i for s in shares for i in s.inserts) == list(range(len(inserts)))
    for share in shares:
        pieces = [inserts[i] for i in share.inserts]
        pieces += [] if share.starter is None else [starters[share.starter]]
        pieces += [] if share.closer is None else [closers[share.closer]]
        assert sum(pieces) + 3 * (len(pieces) - 1) <= 1900


def fewest_by_integer_programme(task):
    """The fewest boards for runs longer than a board, every first piece in whole mm, by HiGHS."""
    costs, of_run, starters, closers = [], [], {}, {}
    for run in range(len(task.runs)):
        for first in task.firsts(run, 1):
            cuts = task.cuts(run, first)
            starters.setdefault(cuts.starter, []).append(len(costs))
            closers.setdefault(cuts.closer, []).append(len(costs))
            of_run.append((run, first))
            costs.append(cuts.whole + (cuts.starter > 0) + (cuts.closer > 0))
    starters.pop(0, None)
    closers.pop(0, None)
    choices = len(costs)
    given_s = {s: choices + i for i, s in enumerate(sorted(starters))}
    given_c = {c: choices + len(given_s) + i for i, c in enumerate(sorted(closers))}
    size = choices + len(given_s) + len(given_c)
    rows, low, high = [], [], []

    def keep(entries, least, most):
        row = np.zeros(size)
        for index, factor in entries:
            row[index] += factor
        rows.append(row)
        low.append(least)
        high.append(most)

    for run in range(len(task.runs)):
        keep([(i, 1) for i, (r, _) in enumerate(of_run) if r == run], 1, 1)
    for given_to, users in ((given_s, starters), (given_c, closers)):
        for length, index in given_to.items():
            keep([(index, 1), *((i, -1) for i in users[length])], -np.inf, 0)
    keep([*((i, 1) for i in given_s.values()), *((i, -1) for i in given_c.values())], 0, 0)
    for length in given_s:
        longer = [(i, 1) for s, i in given_s.items() if s >= length]
        fitting = [(i, -1) for c, i in given_c.items() if c <= task.length_mm - task.kerf_mm - length]
        keep(longer + fitting, -np.inf, 0)
    cost = np.array(costs + [-1] * len(given_s) + [0] * len(given_c), float)
    whole = np.array([1] * choices + [0] * (size - choices))
    found = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), low, high),
        integrality=whole,
        bounds=Bounds(0),
        options={"time_limit": 1},
    )
    return round(found.fun)


@pytest.mark.parametrize("turn", range(4))
def test_no_lay_beats_the_bound_even_without_a_stagger(turn):
    chance = random.Random(turn)
    kinds = [chance.randrange(65, 210) for _ in range(2)]
    task = task_of(*(chance.choice(kinds) for _ in range(4)), length_mm=60, stagger_mm=0, shortest_mm=10, kerf_mm=2)
    assert task.least_boards() <= least_boards(task) <= fewest_by_integer_programme(task)


# The linear relaxation of the exact model gives 225.6 and 61.2 boards here (HiGHS, first pieces every 10 mm).
@pytest.mark.parametrize(("rows", "length_mm", "plain", "sharp"), [(47, 9026, 224, 226), (18, 6386, 61, 62)])
def test_prices_on_pieces_prove_more_than_length_and_kerf_do(rows, length_mm, plain, sharp):
    task = task_of(*[length_mm] * rows)
    assert (task.least_boards(), least_boards(task)) == (plain, sharp)


def test_the_bound_counts_the_kerf_and_the_joints_that_would_meet():
    assert task_of(*[2850] * 6).least_boards() == 10
    assert task_of(*[5700] * 6).least_boards() == 19
    assert task_of(*[5700] * 6, stagger_mm=0).least_boards() == 18


# First piece s in a run of ℓ: whole boards n after it and the closer c = ℓ − s − n·1900 (arithmetic).
@pytest.mark.parametrize(
    ("length", "first", "allowed", "closer"),
    [
        (4726, 1900, True, 926),
        (4726, 971, True, 1855),
        (3976, 1900, False, 176),
        (3976, 600, True, 1476),
        (5700, 1900, True, 0),
        (2500, 1000, True, 1500),
    ],
)
def test_the_first_piece_settles_the_last(length, first, allowed, closer):
    task = task_of(length)
    assert task.allows(0, first) == allowed
    assert task.cuts(0, first).closer == closer


def test_the_last_resort_finds_a_way_where_joints_can_hardly_be_kept_apart():
    task = task_of(*[5000] * 6, length_mm=900, stagger_mm=450, shortest_mm=100)
    firsts = some_way(task, leading_on(task))
    assert all(task.apart(run, firsts[run], run + 1, firsts[run + 1]) for run in range(5))


def test_the_last_resort_says_so_when_there_is_no_way():
    task = task_of(5000, 5000, length_mm=900, stagger_mm=451, shortest_mm=100)
    with pytest.raises(Refused, match="451 mm apart"):
        leading_on(task)
