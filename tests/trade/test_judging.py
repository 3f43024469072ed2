"""A single reading is held against the limit that its hold uses, and what is levelled away counts no longer."""

from dataclasses import replace

import pytest

from store.trade.firm import ClimateRange
from store.trade.jobs import Method, Subfloor
from store.trade.judging import Limit, is_good, is_levelled_away, limit_for
from store.trade.readings import KINDS, Reading
from tests.trade.conftest import (
    FIRM,
    OAK,
    READING_ROOM,
    a_job,
    a_room,
    air,
    board_moisture,
    carbide,
    cold,
    hygrometer,
    smoothed,
    straightedge,
    timber,
)

NOON = "2026-11-20 12:00"


def judged(reading: Reading, *events: object, **room: object) -> bool | None:
    facts = a_job(*events, reading, rooms=(a_room(**room),))
    limit = limit_for(FIRM, facts, facts.room(READING_ROOM), reading.kind)
    return None if limit is None else is_good(reading, limit)


@pytest.mark.parametrize(
    ("reading", "good"),
    [
        (air(NOON, 18, 40), True),  # the limits themselves are good: 18-24 °C and 40-65 %
        (air(NOON, 24, 65), True),
        (cold(NOON), False),
        (air(NOON, 20, 65.1), False),
        (timber(NOON, 12), True),  # 12 % moisture content, common in makers' instructions
        (timber(NOON, 12.1), False),
        (straightedge(NOON, 3), True),  # the firm's 3 mm
        (straightedge(NOON, 3.5), False),
    ],
)
def test_a_reading_is_good_up_to_its_limit(reading: Reading, good: bool) -> None:
    assert judged(reading) is good


def test_a_carbide_test_has_the_limit_of_its_screed_and_none_on_wood() -> None:
    # EN 1264-4:2021 table 2 and the German parquet trade: heated cement screed 1.8 % by mass, else 2.0.
    assert judged(carbide(NOON, 1.9), subfloor=Subfloor.CEMENT_SCREED) is True
    assert judged(carbide(NOON, 1.9), subfloor=Subfloor.CEMENT_SCREED, heated=True) is False
    assert judged(carbide(NOON, 1.9)) is None


def test_a_hygrometer_is_held_more_strictly_under_glue() -> None:
    # UK timber trade body 2022 (65 %); BS 8201:1987 (75 %).
    assert judged(hygrometer(NOON, 70), subfloor=Subfloor.CONCRETE) is False
    assert judged(hygrometer(NOON, 70), subfloor=Subfloor.CONCRETE, method=Method.FLOATING) is True


def test_boards_are_held_against_the_latest_reading_of_a_wooden_subfloor() -> None:
    subfloor = (timber("2026-11-18 08:00", 12), timber("2026-11-19 08:00", 9.5))
    # North American wood-floor association: 2 points for boards of 76 mm and wider.
    assert judged(board_moisture(NOON, 7.5), *subfloor) is True
    assert judged(board_moisture(NOON, 7.4), *subfloor) is False
    assert judged(board_moisture(NOON, 7.4)) is None


def test_nothing_is_asked_of_a_surface_temperature_and_every_kind_can_be_asked_for() -> None:
    facts = a_job()
    limits = {kind: limit_for(FIRM, facts, facts.room(READING_ROOM), kind) for kind in KINDS}
    assert limits["surface"] is None
    assert limits["straightedge"] == Limit(most=3.0)
    assert limits["air"] == Limit(climate=FIRM.climate)


def test_the_boards_own_range_of_air_goes_before_the_firms() -> None:
    strict = ClimateRange(temp_min_c=20, temp_max_c=22)
    facts = a_job(products=(replace(OAK, climate=strict),))
    assert limit_for(FIRM, facts, facts.room(READING_ROOM), "air") == Limit(climate=strict)


def test_a_gap_measured_before_its_room_was_levelled_counts_no_longer() -> None:
    facts = a_job(straightedge("2026-11-18 08:00", 5), smoothed("2026-11-19 08:00"), straightedge(NOON, 2))
    assert [is_levelled_away(one, facts) for one in facts.readings] == [True, False]
    assert not is_levelled_away(timber("2026-11-18 08:00"), facts)
    assert not is_levelled_away(straightedge("2026-11-18 08:00", room="Hall"), facts)
