"""Turns the shop's values into words: days, hours, sizes, money, packs; and makes any text safe to show."""

import math
import unicodedata
from datetime import date, datetime, time, tzinfo
from decimal import ROUND_HALF_UP, Decimal

from store.trade.firm import ClimateRange
from store.trade.readings import Air, LevelGrid, Measure, Straightedge, Surface

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")

# ISO 4217: the currencies whose minor unit is not a hundredth.
_MINOR_DIGITS = {
    **dict.fromkeys(("JPY", "KRW", "VND", "CLP", "ISK", "UGX", "XAF", "XOF", "XPF", "PYG", "RWF"), 0),
    **dict.fromkeys(("BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"), 3),
}

# Characters that steer a terminal or hide in a line, beside the control codes: direction marks and overrides,
# characters without width, annotation marks, line separators, tags and halves of surrogate pairs.
_STEERING = frozenset(
    (0x00AD, 0x061C, 0x180E, 0x200B, 0x200E, 0x200F, 0xFEFF, *range(0x2028, 0x202F), *range(0x2060, 0x2070))
) | frozenset((*range(0xFFF9, 0xFFFC), *range(0xE0000, 0xE0080), *range(0xD800, 0xE000)))


def clean(text: str, *, many_lines: bool = False) -> str:
    r"""Return the text so that everything in it is seen and nothing in it steers the terminal.

    Composed to NFC. Control codes become their pictures (ESC becomes ␛), C1 codes, direction controls and
    characters without width become U+FFFD. Line ends and tabs stay only where many lines are allowed.

    >>> clean("Gull \x1b[31mStreet")
    'Gull ␛[31mStreet'
    """
    kept = "\n\t" if many_lines else ""
    if many_lines:
        text = text.replace("\r\n", "\n").replace("\r", "\n")
    if text.isascii() and text.isprintable():
        return text
    return "".join(one if one in kept else _shown(one) for one in unicodedata.normalize("NFC", text))


def _shown(one: str) -> str:
    code = ord(one)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    if 0x80 <= code < 0xA0 or code in _STEERING:
        return "\ufffd"
    return one


def upper(words: str) -> str:
    """Return words as they begin a sentence; only the first letter changes.

    >>> upper("the Reading room")
    'The Reading room'
    """
    return words[:1].upper() + words[1:]


def say_day(day: date, today: date) -> str:
    """Return a day with its weekday: “Sat 28 Nov”, with the year where it is not this one.

    >>> say_day(date(2026, 11, 28), date(2026, 11, 25)), say_day(date(2027, 1, 4), date(2026, 11, 25))
    ('Sat 28 Nov', 'Mon 4 Jan 2027')
    """
    words = f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]}"
    return words if day.year == today.year else f"{words} {day.year}"


def say_time(at: time) -> str:
    """Return a time of day: “09:30”."""
    return f"{at.hour:02}:{at.minute:02}"


def say_instant(at: datetime, now: datetime, zone: tzinfo) -> str:
    """Return an instant on the firm's wall clock: “Sat 28 Nov 09:30”, with the year if not this one."""
    here = at.astimezone(zone)
    return f"{say_day(here.date(), now.astimezone(zone).date())} {say_time(here.time())}"


def say_now(now: datetime, zone: tzinfo) -> str:
    """Return the present moment as the top line shows it: “Wed 25 Nov 2026 07:30”."""
    here = now.astimezone(zone)
    return f"{WEEKDAYS[here.weekday()]} {here.day} {MONTHS[here.month - 1]} {here.year} {say_time(here.time())}"


def typed_day(day: date) -> str:
    """Return a day as a field is filled with it, to be read back the same: “28/11/2026”."""
    return f"{day.day}/{day.month}/{day.year}"


def typed_instant(at: datetime, zone: tzinfo) -> str:
    """Return an instant as a field is filled with it, to be read back the same: “28/11/2026 09:30”."""
    here = at.astimezone(zone)
    return f"{typed_day(here.date())} {say_time(here.time())}"


def figure(value: float, decimals: int = 2) -> str:
    """Return a number without needless noughts: 16.5, 52, −0.5.

    >>> figure(52.0), figure(-0.5), figure(2.25, 1)
    ('52', '−0.5', '2.3')
    """
    if not math.isfinite(value):
        return "?"
    steps = Decimal(1).scaleb(-decimals)
    rounded = Decimal(repr(float(value))).quantize(steps, rounding=ROUND_HALF_UP)
    words = f"{rounded:f}"
    if "." in words:
        words = words.rstrip("0").rstrip(".")
    return "0" if words == "-0" else words.replace("-", "−")


def typed_number(value: float) -> str:
    """Return a number as a field is filled with it, to be read back the same.

    >>> typed_number(10.0), typed_number(7.125)
    ('10', '7.1250')
    """
    words = f"{value:.6f}".rstrip("0").rstrip(".")
    return f"{words}0" if len(words.partition(".")[2]) == 3 else words


def say_temp(temp_c: float) -> str:
    """Return a temperature: “16.5 °C”."""
    return f"{figure(temp_c, 1)} °C"


def say_percent(value: float) -> str:
    """Return a share or a humidity: “52 %”."""
    return f"{figure(value)} %"


def say_air(temp_c: float, rh_percent: float) -> str:
    """Return room air: “16.5 °C and 52 %”."""
    return f"{say_temp(temp_c)} and {say_percent(rh_percent)}"


def say_range(climate: ClimateRange) -> str:
    """Return a range of room air: “18–24 °C and 40–65 %”."""
    return (
        f"{figure(climate.temp_min_c)}–{figure(climate.temp_max_c)} °C and "
        f"{figure(climate.rh_min_percent)}–{figure(climate.rh_max_percent)} %"
    )


def say_measure(measure: Measure) -> str:
    """Return what an instrument said, with its unit."""
    if isinstance(measure, Air):
        return say_air(measure.temp_c, measure.rh_percent)
    if isinstance(measure, Surface):
        return say_temp(measure.temp_c)
    if isinstance(measure, Straightedge):
        return f"{figure(measure.gap_mm)} mm under {say_span(measure.span_mm)}"
    if isinstance(measure, LevelGrid):
        rows = counted(len(measure.heights_mm), "row")
        return f"{rows} of {counted(len(measure.heights_mm[0]), 'point')} {measure.spacing_mm} mm apart"
    return say_percent(measure.percent if hasattr(measure, "percent") else measure.rh_percent)


def say_span(span_mm: int) -> str:
    """Return the length of a straightedge: “2 m”."""
    return f"{figure(span_mm / 1000, 3)} m"


def say_mm(length_mm: float) -> str:
    """Return a length: “5200 mm”."""
    return f"{figure(length_mm)} mm"


def say_area(area_mm2: int) -> str:
    """Return an area to the hundredth of a square metre: “21.32 m²”.

    >>> say_area(21_320_000)
    '21.32 m²'
    """
    return f"{typed_area(area_mm2)} m²"


def typed_area(area_mm2: int) -> str:
    """Return an area in m² as a field is filled with it: “21.32”."""
    return f"{(Decimal(area_mm2) / 1_000_000).quantize(Decimal('0.01'), rounding=ROUND_HALF_UP)}"


def minor_digits(currency: str) -> int:
    """Return how many decimals a currency has (ISO 4217); 2 where nothing else is known."""
    return _MINOR_DIGITS.get(currency.upper(), 2)


def say_money(minor: int, currency: str) -> str:
    """Return an amount of money: “EUR 1,824.00”.

    >>> say_money(182_400, "EUR")
    'EUR 1,824.00'
    """
    digits = minor_digits(currency)
    return f"{clean(currency)} {Decimal(minor).scaleb(-digits):,.{digits}f}".replace("-", "−")


def typed_money(minor: int, currency: str) -> str:
    """Return an amount of money as a field is filled with it: “182.40”."""
    digits = minor_digits(currency)
    return f"{Decimal(minor).scaleb(-digits):.{digits}f}"


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its noun: “1 pack”, “3 packs”."""
    return f"{number:,} {one if number == 1 else many or one + 's'}"


def say_packs(packs: int, boards: int = 0) -> str:
    """Return full packs and loose boards: “3 packs and 2 boards”.

    >>> say_packs(3, 2), say_packs(1), say_packs(0, 4)
    ('3 packs and 2 boards', '1 pack', '4 boards')
    """
    parts = [counted(packs, "pack")] if packs or not boards else []
    if boards:
        parts.append(counted(boards, "board"))
    return " and ".join(parts)


def say_hours(hours: float) -> str:
    """Return a duration in whole hours, rounded down so that no wait is called over early: “31 h”."""
    return f"{math.floor(hours + 1e-9):,} h"
