"""A data logger's file read: moments with the temperature and humidity of a room, and what could not be read where."""

import csv
import math
import re
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo

from store.errors import Refused

MOST_LINES = 20_000
"""Two years of hourly lines; a longer file is taken in piece by piece."""

_ISO = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)(?:[T ]+(.+))?", re.ASCII)
_DAY_FIRST = re.compile(r"(\d\d?)[./-](\d\d?)[./-](\d{4})(?:[T ,]+(.+))?", re.ASCII)
_CLOCK = re.compile(r"(\d\d?)[:.](\d\d)(?:[:.](\d\d)(?:[.,]\d+)?)?\s*(Z|[+-]\d\d:?\d\d)?", re.ASCII)
_NUMBER = re.compile(r"[+-]?\d{1,6}(?:[.,]\d{1,9})?", re.ASCII)
_TEMP, _HUMIDITY = re.compile("temp|°|celsius"), re.compile("hum|rh|%")
_FAHRENHEIT = re.compile(r"°\s*f|fahrenheit|temp\w*\W*\(?f\)?$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """What a logger wrote in one line."""

    line: int
    at: datetime
    temp_c: float
    rh_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LineFault:
    """A line that could not be read, and why, in a sentence."""

    line: int
    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggerFile:
    """A file as it was read: its lines, and its faults by line."""

    lines: tuple[Logged, ...]
    faults: tuple[LineFault, ...]


def read_logger(raw: bytes, zone: tzinfo) -> LoggerFile:
    """Return what a data logger's file says.

    Cells are parted by semicolons, tabs or commas. A moment is ISO 8601, or a date with the day first and a time, in
    one cell or in two; one without an offset is told on the firm's wall clock. Temperature and humidity are found by
    the words over them, or are the two cells after the moment. What stands above the first moment is the heading.

    Raises:
        Refused: nothing in the file looks like a moment, it is too long, or it says that it tells °F.
    """
    rows = _rows(_text(raw))
    first = next((place for place, (_, cells) in enumerate(rows) if _place_of_date(cells) is not None), None)
    if first is None:
        raise Refused("No line of this file begins with a date and a time, like 2026-11-17 09:30.")
    temp, humidity = _columns([cells for _, cells in rows[:first]])
    lines: list[Logged] = []
    faults: list[LineFault] = []
    for number, cells in rows[first:]:
        try:
            lines.append(_line(number, cells, (temp, humidity), zone, lines[-1].at if lines else None))
        except ValueError as error:
            faults.append(LineFault(line=number, say=str(error)))
    return LoggerFile(lines=tuple(lines), faults=tuple(faults))


def _text(raw: bytes) -> str:
    for encoding in ("utf-16",) if raw[:2] in {b"\xff\xfe", b"\xfe\xff"} else ("utf-8-sig", "cp1252"):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise Refused("This is no text that can be read; have the logger write it as CSV.")


def _rows(text: str) -> list[tuple[int, list[str]]]:
    lines = text.splitlines()
    if len(lines) > MOST_LINES:
        raise Refused(f"This file has {len(lines):,} lines; no more than {MOST_LINES:,} are taken in at once.")
    said = [(number, line) for number, line in enumerate(lines, start=1) if line.strip()]
    # A comma may be a decimal one; where lines hold semicolons or tabs as well, it is.
    most = max(1, len(said) // 2)
    mark = next((one for one in ";\t" if sum(one in line for _, line in said) >= most), ",")
    return [(number, [cell.strip() for cell in _cells(line, mark)]) for number, line in said]


def _cells(line: str, mark: str) -> list[str]:
    try:
        return next(csv.reader([line], delimiter=mark), [])
    except csv.Error:
        return [line]


def _place_of_date(cells: list[str]) -> int | None:
    return next((place for place, cell in enumerate(cells) if _ISO.fullmatch(cell) or _DAY_FIRST.fullmatch(cell)), None)


def _columns(heading: list[list[str]]) -> tuple[int | None, int | None]:
    for cells in reversed(heading):
        words = [cell.lower() for cell in cells]
        humidity = next((place for place, word in enumerate(words) if _HUMIDITY.search(word)), None)
        temp = next((place for place, word in enumerate(words) if _TEMP.search(word) and place != humidity), None)
        if temp is None or humidity is None:
            continue
        if _FAHRENHEIT.search(words[temp]):
            raise Refused("This file tells °F; set the logger to °C and have it write the file again.")
        return temp, humidity
    return None, None


def _line(
    number: int, cells: list[str], columns: tuple[int | None, int | None], zone: tzinfo, before: datetime | None
) -> Logged:
    place = _place_of_date(cells)
    if place is None:
        raise ValueError("no date and time, like 2026-11-17 09:30.")
    at, used = _moment(cells, place, zone, before)
    after = place + used
    temp, humidity = (columns[0], columns[1]) if columns[0] is not None else (after, after + 1)
    if columns[0] is None and len(cells) > after + 2 and "".join(cells[after + 2 :]):
        raise ValueError("more cells than a moment, a temperature and a humidity, and no heading says which is which.")
    return Logged(
        line=number,
        at=at,
        temp_c=_figure(cells, temp, "temperature"),
        rh_percent=_figure(cells, humidity, "humidity"),
    )


def _moment(cells: list[str], place: int, zone: tzinfo, before: datetime | None) -> tuple[datetime, int]:
    day = cells[place]
    iso, ours = _ISO.fullmatch(day), _DAY_FIRST.fullmatch(day)
    parts = iso.groups() if iso else (ours[3], ours[2], ours[1], ours[4]) if ours else ()
    if not parts:
        raise ValueError("no date and time, like 2026-11-17 09:30.")
    year, month, date, clock = parts
    used = 1 if clock else 2
    told = _CLOCK.fullmatch((clock or (cells[place + 1] if place + 1 < len(cells) else "")).strip())
    if told is None:
        raise ValueError("no time of day beside the date, like 09:30.")
    try:
        wall = datetime(int(year), int(month), int(date), int(told[1]), int(told[2]), int(told[3] or 0), tzinfo=UTC)
    except ValueError:
        raise ValueError("there is no such day or time; dates are read with the day first.") from None
    if told[4]:
        return datetime.fromisoformat(f"{wall:%Y-%m-%dT%H:%M:%S}{told[4]}").astimezone(UTC), used
    return _on_the_clock(wall.replace(tzinfo=None), zone, before), used


def _on_the_clock(wall: datetime, zone: tzinfo, before: datetime | None) -> datetime:
    """Return the instant of a wall clock's time; the second of two where the line before stands after the first."""
    here = wall.replace(tzinfo=zone)
    at, again = here.astimezone(UTC), here.replace(fold=1).astimezone(UTC)
    if at.astimezone(zone).replace(tzinfo=None) != wall:
        raise ValueError("the clocks skip that time; is the logger set to the firm's clock?")
    return again if before is not None and at <= before < again else at


def _figure(cells: list[str], place: int | None, word: str) -> float:
    cell = cells[place] if place is not None and place < len(cells) else ""
    found = _NUMBER.fullmatch(re.sub(r"\s*(°\s*C|%|%\s*RH)$", "", cell.replace("−", "-"), flags=re.IGNORECASE))
    if found is None:
        raise ValueError(f"no {word} that can be read.")
    value = float(found[0].replace(",", "."))
    if not math.isfinite(value):
        raise ValueError(f"no {word} that can be read.")
    return value
