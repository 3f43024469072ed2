"""A data logger's file is read however it parts its cells and writes its figures, and its faults are named by line."""

import re
from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from store.errors import Refused
from store.papers.logger import read_logger

BRUSSELS = ZoneInfo("Europe/Brussels")
HALF_NINE = datetime(2026, 11, 17, 8, 30, tzinfo=UTC)


@pytest.mark.parametrize(
    "text",
    [
        "2026-11-17 09:30,20.5,52\n",
        "2026-11-17T09:30:00;20,5;52\r\n",
        "17/11/2026 09:30\t20,5\t52",
        "17.11.2026;09:30;20,5 °C;52 %",
        "2026-11-17T08:30:00Z,20.5,52",
        "2026-11-17T09:30:00+01:00,20.5,52",
        "Logger of the vestry\nNo,Date,Humidity %,Temp °C\n1,17-11-2026 09:30:00,52,20.5\n",
        '"Time";"RH";"Temperature"\n"2026-11-17 09:30";"52";"20,5"\n',
    ],
)
def test_every_way_of_writing_one_line_says_the_same(text: str) -> None:
    for raw in (text.encode(), text.encode("utf-8-sig"), text.encode("cp1252"), text.encode("utf-16")):
        found = read_logger(raw, BRUSSELS)
        assert found.faults == ()
        assert [(one.at, one.temp_c, one.rh_percent) for one in found.lines] == [(HALF_NINE, 20.5, 52.0)]


def test_a_line_that_cannot_be_read_is_named_by_its_number_and_the_rest_is_read() -> None:
    text = (
        "time;temp;rh\n2026-11-17 09:30;20;50\n\n2026-11-17 10:30;---;50\n2026-13-17 11:30;20;50\n"
        "end of file\n2026-03-29 02:30;20;50\n2026-11-17;20;50\n"
    )
    found = read_logger(text.encode(), BRUSSELS)
    assert len(found.lines) == 1
    assert [(one.line, one.say.split(",")[0].split(";")[0]) for one in found.faults] == [
        (4, "no temperature that can be read."),
        (5, "there is no such day or time"),
        (6, "no date and time"),
        (7, "the clocks skip that time"),
        (8, "no time of day beside the date"),
    ]


def test_the_hour_that_comes_twice_in_autumn_is_read_as_both() -> None:
    # Clocks go back on Sunday 25 October 2026 at 03:00 summer time (EU Directive 2000/84/EC): 01:00 in UTC.
    text = "\n".join(f"2026-10-25 {clock};20;50" for clock in ("02:00", "02:30", "02:00", "02:30", "03:00"))
    found = read_logger(text.encode(), BRUSSELS)
    assert [f"{one.at:%H:%M}" for one in found.lines] == ["00:00", "00:30", "01:00", "01:30", "02:00"]


def test_a_decimal_comma_between_commas_is_a_fault_and_not_a_guess() -> None:
    (fault,) = read_logger(b"2026-11-17 09:30,20,5,52", BRUSSELS).faults
    assert "more cells" in fault.say


FAHRENHEIT = b"time,Temp (\xb0F),RH\n2026-11-17 9:30,68,50"


@pytest.mark.parametrize("raw", [b"", b"hello", b"a;b;c\n", b"\x00\x01\xff", FAHRENHEIT])
def test_what_is_no_loggers_file_is_refused_in_a_sentence(raw: bytes) -> None:
    with pytest.raises(Refused) as refusal:
        read_logger(raw, BRUSSELS)
    assert str(refusal.value).endswith((".", "again."))


@pytest.mark.parametrize(
    "heading",
    [
        "Zeit;Feuchte;Temperatur",
        "Tijd;Luchtvochtigheid;Temperatuur",
        "Data;Umidità;Temperatura",
        "Date;Humidité;Température",
        "Time;RH %;Temperature °C",
        "Time;%;°C",
        "Date;r.h.;Celsius",
        "Time;Fugt;Temperatur",
        "Time;Humidity;Temp\n;%;°C",
    ],
)
def test_temperature_and_humidity_are_known_by_their_words_and_not_by_their_order(heading: str) -> None:
    (line,) = read_logger(f"{heading}\n2026-11-17 09:30;42,5;20,5\n".encode(), BRUSSELS).lines
    assert (line.temp_c, line.rh_percent) == (20.5, 42.5)


@pytest.mark.parametrize(
    ("heading", "told"),
    [
        ("Time,Dew point °C,Temperature °C,RH %", "2026-11-17 09:30,10.1,20.5,52"),
        ("Time,Battery %,Temperature,RH", "2026-11-17 09:30,88,20.5,52"),
        ("Time,Temperature °C,Absolute humidity g/m³,Humidity %", "2026-11-17 09:30,20.5,9.3,52"),
        ("No,Time,Signal %,RH,Taupunkt,Temp", "1,2026-11-17 09:30,77,52,10.1,20.5"),
    ],
)
def test_dew_points_and_batteries_are_passed_over(heading: str, told: str) -> None:
    (line,) = read_logger(f"{heading}\n{told}\n".encode(), BRUSSELS).lines
    assert (line.temp_c, line.rh_percent) == (20.5, 52.0)


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("Time,Channel 1,Channel 2", "No column of this file's heading says humidity"),
        ("Time,Temp inside,Temp outside,RH", "could be the temperature: “temp inside” and “temp outside”"),
        ("Time,°C,°C,RH", "Several columns could be the temperature"),
        ("Time,Dew point,RH,Battery", "No column of this file's heading says temperature"),
    ],
)
def test_a_heading_that_does_not_say_which_is_which_is_refused_and_nothing_is_guessed(heading: str, said: str) -> None:
    with pytest.raises(Refused, match=re.escape(said)):
        read_logger(f"{heading}\n2026-11-17 09:30,20.5,52,1\n".encode(), BRUSSELS)
