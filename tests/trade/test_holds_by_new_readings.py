"""Probes, many figures in one reading, and grids of levels decide holds as single readings do."""

from dataclasses import replace

import pytest

from store.trade.evidence import Evidence
from store.trade.holds_damp import tests_asked as asked_by_area
from store.trade.jobs import Subfloor
from store.trade.readings import BoardMoisture, InSituProbe, LevelGrid, Reading, TimberSubfloor
from store.trade.traditions import Tradition
from tests.trade.conftest import (
    FIRM,
    a_job,
    a_reading,
    a_room,
    board_moisture,
    hold,
    hygrometer,
    smoothed,
    straightedge,
    timber,
)

NOON, NINE = "2026-11-20 12:00", "2026-11-20 09:00"
CONCRETE = a_room(subfloor=Subfloor.CONCRETE)
BY_AREA = replace(FIRM, tests_by_area=True)


def probe(percent: float, moment: str = NINE) -> Reading:
    return a_reading(moment, InSituProbe(rh_percent=percent))


def grid(*row: float | None, moment: str = NINE) -> Reading:
    return a_reading(moment, LevelGrid(spacing_mm=500, heights_mm=(row,)))


def many(measure: type[TimberSubfloor] | type[BoardMoisture], *figures: float) -> Reading:
    found = a_reading(NINE, measure(percent=sum(figures) / len(figures)))
    return replace(found, evidence=Evidence(figures=figures))


# ---- a probe: 65 % under glue (UK timber trade body 2022), 75 % in North America (US wood-floor association)


@pytest.mark.parametrize(
    ("tradition", "percent", "state"),
    [
        (Tradition.USUAL, 65.0, "clear"),
        (Tradition.USUAL, 65.1, "failed"),
        (Tradition.NORTH_AMERICAN, 75.0, "clear"),
        (Tradition.NORTH_AMERICAN, 75.1, "failed"),
    ],
)
def test_a_probe_says_whether_concrete_is_dry(tradition: Tradition, percent: float, state: str) -> None:
    facts, firm = a_job(probe(percent), rooms=(CONCRETE,)), replace(FIRM, tradition=tradition)
    assert hold(facts, "subfloor_dry", NOON, firm=firm).state == state


def test_a_damp_probe_is_not_made_good_by_a_dry_hygrometer() -> None:
    facts = a_job(hygrometer("2026-11-20 10:00", 60), probe(80), rooms=(CONCRETE,))
    assert hold(facts, "subfloor_dry", NOON).state == "failed"


def test_a_probe_says_nothing_of_a_wooden_subfloor() -> None:
    assert hold(a_job(probe(40)), "subfloor_dry", NOON).state == "to_do"


# ASTM F2170-18: three for the first 100 m² and one for each further 100 m² (the handbook's check values).
@pytest.mark.parametrize(("m2", "count"), [(20, 3), (100, 3), (101, 4), (200, 4), (250, 5), (450, 7)])
def test_the_area_asks_for_so_many_probes(m2: int, count: int) -> None:
    room = a_room(wide=1000 * m2, deep=1000, subfloor=Subfloor.CONCRETE)
    assert asked_by_area(FIRM, room, InSituProbe) == count


# ---- many figures in one reading


def test_the_highest_figure_of_a_subfloor_decides_not_their_mean() -> None:
    assert hold(a_job(many(TimberSubfloor, 9, 10, 12)), "subfloor_dry", NOON).state == "clear"
    found = hold(a_job(many(TimberSubfloor, 9, 10, 12.1)), "subfloor_dry", NOON)
    assert (found.state, found.measured) == ("failed", 12.1)


def test_many_figures_count_for_as_many_tests() -> None:
    # 21.32 m² ask for 5 readings of the subfloor: 20 for 92.9 m², pro rata and rounded up.
    few = hold(a_job(many(TimberSubfloor, 9, 9, 9, 9)), "subfloor_dry", NOON, firm=BY_AREA)
    assert (few.state, few.readings, few.readings_asked) == ("to_do", 4, 5)
    enough = hold(a_job(many(TimberSubfloor, 9, 9, 9, 9, 9)), "subfloor_dry", NOON, firm=BY_AREA)
    assert (enough.state, enough.readings) == ("clear", 5)


def test_boards_and_subfloor_are_compared_by_the_mean_of_every_single_figure() -> None:
    # Boards 8, 8, 8 and 12 are 9 on average; 2 points are allowed for boards of 190 mm (US association rule).
    boards = (many(BoardMoisture, 8, 8, 8), board_moisture("2026-11-20 10:00", 12))
    assert hold(a_job(*boards, timber(NINE, 11)), "moisture_gap", NOON).state == "clear"
    assert hold(a_job(*boards, timber(NINE, 11.1)), "moisture_gap", NOON).state == "failed"


# ---- a grid of levels: 3 mm under 2 m is allowed


def test_a_grid_proves_a_floor_uneven_even_beside_a_good_straightedge() -> None:
    found = hold(a_job(straightedge(NINE, 1), grid(0, -3.1, 0)), "subfloor_flat", NOON)
    assert (found.state, found.measured, found.reading) == ("failed", 3.1, "level_grid")


def test_a_flat_grid_alone_does_not_release_a_floor() -> None:
    assert hold(a_job(grid(0, -1, 0)), "subfloor_flat", NOON).state == "to_do"
    assert hold(a_job(grid(0, -3, 0), straightedge(NINE, 2)), "subfloor_flat", NOON).measured == 2


def test_a_grid_from_before_the_smoothing_no_longer_counts() -> None:
    facts = a_job(grid(0, -9, 0), smoothed("2026-11-20 10:00"), straightedge("2026-11-20 11:00", 1))
    assert hold(facts, "subfloor_flat", NOON).state == "clear"
