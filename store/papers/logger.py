"""A data logger's file read: moments with the temperature and humidity of a room, and what could not be read where."""

import csv
import math
import re
from dataclasses import dataclass
from datetime import UTC, datetime, tzinfo
from itertools import zip_longest

from store.errors import Refused

MOST_LINES = 20_000
"""Two years of hourly lines; a longer file is taken in piece by piece."""

_ISO = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)(?:[T ]+(.+))?", re.ASCII)
_DAY_FIRST = re.compile(r"(\d\d?)[./-](\d\d?)[./-](\d{4})(?:[T ,]+(.+))?", re.ASCII)
_CLOCK = re.compile(r"(\d\d?)[:.](\d\d)(?:[:.](\d\d)(?:[.,]\d+)?)?\s*(Z|[+-]\d\d:?\d\d)?", re.ASCII)
_NUMBER = re.compile(r"[+-]?\d{1,6}(?:[.,]\d{1,9})?", re.ASCII)
# A column is known by a word of its own; a bare sign speaks only where no other column has it.
_NEITHER = re.compile(
    r"dew|taupunkt|dauwpunt|ros[ée]e|rugiada|roc[ií]o|batt|akku|abs|pressure|druck|volt|signal|co2|co₂"
)
_TEMP_WORD = re.compile(r"temp|celsius")
_HUMIDITY_WORD = re.compile(r"hum|feucht|vocht|umid|fugt|fukt|kosteus|\br\.?\s?[hf]\b")
_TEMP_SIGN, _HUMIDITY_SIGN = re.compile("°"), re.compile("%")
_FAHRENHEIT = re.compile(r"°\s*f|fahrenheit|temp\w*\W*\(?f\)?$")
_FEWEST_HEADED = 3


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
    one cell or in two; one without an offset is told on the firm's wall clock. What stands above the first moment is
    the heading. Temperature and humidity are found by the words in it, never by their order; without a heading they are
    the two cells after the moment.

    Raises:
        Refused: nothing in the file looks like a moment, it is too long, its heading does not say which column is
            which, or it says that it tells °F.
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
    """Return the places of temperature and humidity by what stands over them; None for both where nothing does.

    Raises:
        Refused: a heading is there and does not say which column is which, or says °F.
    """
    rows = [cells for cells in heading if sum(map(bool, cells)) >= _FEWEST_HEADED]
    if not rows:
        return None, None
    words = [" ".join(cells).lower() for cells in zip_longest(*rows, fillvalue="")]
    ours = {place: word for place, word in enumerate(words) if not _NEITHER.search(word)}
    humidity = _the_one(ours, _HUMIDITY_WORD, _HUMIDITY_SIGN, "humidity")
    temp = _the_one(
        {place: word for place, word in ours.items() if place != humidity}, _TEMP_WORD, _TEMP_SIGN, "temperature"
    )
    if _FAHRENHEIT.search(words[temp]):
        raise Refused("This file tells °F; set the logger to °C and have it write the file again.")
    return temp, humidity


def _the_one(words: dict[int, str], by_word: re.Pattern[str], by_sign: re.Pattern[str], what: str) -> int:
    """Return the place of the one column that is known by its word, or else by its sign."""
    for known_by in (by_word, by_sign):
        found = [place for place, word in words.items() if known_by.search(word)]
        if len(found) == 1:
            return found[0]
        if found:
            named = " and ".join(f"“{words[place]}”" for place in found[:3])
            raise Refused(f"Several columns could be the {what}: {named}. Leave one of them in the file.")
    raise Refused(f"No column of this file's heading says {what}; name it so, and the file can be read.")


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
