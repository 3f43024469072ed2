"""What a data logger wrote is filed in one deed, once, and a month of hours is looked through in a moment."""

from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from store.errors import Refused
from store.trade.readings import Air
from tests.desk.shop_floor import desk_at, dump
from tests.desk.test_every_deed import READING, ROOM, facts

MONTH = "\n".join(
    f"{datetime(2026, 10, 1) + timedelta(hours=hour):%Y-%m-%d %H:%M};20,5;{40 + hour % 20}"  # noqa: DTZ001 - told on the wall clock
    for hour in range(720)
).encode()


def test_a_month_of_hours_is_one_deed_and_the_same_file_again_adds_nothing(records: Path) -> None:
    with desk_at(records) as desk:
        before = len(facts(desk, "FRESH").readings)
        told = len(desk.jobs.history("FRESH"))
        taken = desk.loggers.take_in("FRESH", ROOM, MONTH)
        assert taken.readings == 720
        assert len(facts(desk, "FRESH").readings) == before + 720
        assert len(desk.jobs.history("FRESH")) == told + 1
        again = desk.loggers.look_through("FRESH", ROOM, MONTH + b"\n2026-11-01 09:30;20;50")
        assert (len(again.new), again.on_file, again.faults) == (1, 720, ())
        said = dump(records)
        with pytest.raises(Refused, match="Nothing in this file is new"):
            desk.loggers.take_in("FRESH", ROOM, MONTH)
    assert dump(records) == said


def test_what_could_not_be_filed_by_hand_is_a_fault_of_its_line(records: Path) -> None:
    raw = b"2026-11-01 09:30;20;50\n2026-11-01 10:30;68;50\n2036-11-01 09:30;20;50\n2026-11-01 11:30;20;150"
    with desk_at(records) as desk:
        found = desk.loggers.look_through("FRESH", ROOM, raw)
        assert len(found.new) == 1
        assert [fault.line for fault in found.faults] == [2, 3, 4]
        with pytest.raises(Refused, match="no room"):
            desk.loggers.look_through("FRESH", "Nowhere", raw)


def test_a_reading_filed_by_hand_is_not_filed_again_by_the_logger(records: Path) -> None:
    with desk_at(records) as desk:
        desk.readings.take("FRESH", READING)
        raw = f"{READING.at.isoformat()};20;50".encode()
        assert desk.loggers.look_through("FRESH", ROOM, raw).on_file == 1


def test_a_line_that_was_put_right_or_taken_back_does_not_come_in_again(records: Path) -> None:
    raw = b"2026-11-01 09:30;20;50\n2026-11-01 10:30;20;51\n2026-11-01 11:30;20;52"
    with desk_at(records) as desk:
        desk.loggers.take_in("FRESH", ROOM, raw)
        wrong, gone = facts(desk, "FRESH").readings[-3:-1]
        right = replace(READING, at=wrong.at, measure=Air(temp_c=19, rh_percent=50))
        desk.readings.put_right("FRESH", wrong, right, "The logger lay on the radiator.")
        desk.closing.take_back("FRESH", gone, "The window was open.")
        again = desk.loggers.look_through("FRESH", ROOM, raw)
        assert (again.new, again.on_file, again.taken_back) == ((), 1, 2)
        with pytest.raises(Refused, match="Nothing in this file is new"):
            desk.loggers.take_in("FRESH", ROOM, raw)
