"""Reads what somebody types: numbers, lengths, areas, hours and money; or says what to write instead."""

import re
from dataclasses import dataclass
from decimal import Decimal

from tui.words.wording import clean, minor_digits


@dataclass(frozen=True, slots=True, kw_only=True)
class Misread:
    """What was typed cannot be read; ``say`` tells what to write instead, with an example."""

    say: str


MOST_TYPED = 10_000
"""The longest text a field takes, in characters."""

_NUMBER = re.compile(r"([+-]?)([0-9]{1,15})(?:[.,]([0-9]{1,9}))?")
_GROUPED = re.compile(r"([+-]?)([0-9]{1,3}(?:([ '.,\u00a0\u202f])[0-9]{3})(?:\3[0-9]{3})*)(?:([.,])([0-9]{1,9}))?")
_LENGTH = re.compile(r"(.*?)\s*(mm|cm|m|)", re.IGNORECASE | re.DOTALL)
_TO_MM = {"": Decimal(1), "mm": Decimal(1), "cm": Decimal(10), "m": Decimal(1000)}
_HOURS = re.compile(r"(.*?)\s*(hours?|h|days?|d|)", re.IGNORECASE | re.DOTALL)


def shown(text: str) -> str:
    """Return what was typed, safe and in quotation marks, for a sentence about it."""
    words = clean(text.strip())
    return f"“{words[:30]}…”" if len(words) > 30 else f"“{words}”"


def tidy(text: str) -> str:
    """Return what was typed with single blanks and plain minus signs."""
    return " ".join(text.replace("−", "-").split())


def read_text(text: str) -> str | Misread:
    """Read a line of plain words: made safe to show, without blanks around it."""
    if len(text) > MOST_TYPED:
        return Misread(say=f"That is longer than {MOST_TYPED:,} characters; write less.")
    return clean(text).strip()


def _exact(text: str, example: str, *, sure_decimal: bool = False) -> Decimal | Misread:
    """Read a number exactly; refuse one whose comma or point may part thousands or decimals."""
    typed = tidy(text)
    plain = _NUMBER.fullmatch(typed)
    if plain is not None:
        sign, whole, decimals = plain[1], plain[2], plain[3] or ""
        unsure = len(decimals) == 3 and 1 <= len(whole) <= 3 and whole.strip("0") != "" and not sure_decimal
        if unsure:
            readings = f"{whole}{decimals} or as {whole} and a bit"
            return Misread(
                say=f"{shown(text)} can be read as {readings}; write {whole}{decimals}, or one decimal more."
            )
        return Decimal(f"{sign}{whole}.{decimals or 0}")
    grouped = _GROUPED.fullmatch(typed)
    if grouped is not None and grouped[3] != grouped[4] and (grouped[4] or grouped[3] not in ".,"):
        return Decimal(f"{grouped[1]}{re.sub('[^0-9]', '', grouped[2])}.{grouped[5] or 0}")
    if re.fullmatch(r"[+-]?[0-9]{16,}.*", typed, re.DOTALL):
        return Misread(say=f"That number is too long; write one like {example}.")
    return Misread(say=f"{shown(text)} is no number; write one like {example}." if typed else _missing(example))


def _missing(example: str) -> str:
    return f"Fill this in, like {example}."


def read_number(text: str) -> float | Misread:
    """Read a number with a comma or a point: “16,5”, “16.5”, “−2”."""
    number = _exact(text, "16.5")
    return number if isinstance(number, Misread) else float(number)


def read_whole(text: str) -> int | Misread:
    """Read a whole number: “12”."""
    number = _exact(text, "12")
    if isinstance(number, Misread):
        return number
    if number != number.to_integral_value():
        return Misread(say=f"{shown(text)} is not a whole number; write one like 12.")
    return int(number)


def read_mm(text: str) -> int | Misread:
    """Read a length as whole mm: “5200”, “5.2 m”, “5,2 m”, “520 cm”."""
    example = "5200, 5.2 m or 520 cm"
    parts = _LENGTH.fullmatch(tidy(text))
    unit = parts[2].lower() if parts else ""
    number = _exact(parts[1] if parts else text, example, sure_decimal=unit == "m")
    if isinstance(number, Misread):
        return number
    length = number * _TO_MM[unit]
    if length != length.to_integral_value():
        near = f"{int(length)} or {int(length) + 1} mm" if length > 0 else example
        return Misread(say=f"{shown(text)} is finer than a millimetre; write {near}.")
    return int(length)


def read_hours(text: str) -> int | Misread:
    """Read a duration as whole hours: “168”, “168 h”, “7 days”."""
    example = "168 or 7 days"
    parts = _HOURS.fullmatch(tidy(text))
    number = _exact(parts[1] if parts else text, example)
    if isinstance(number, Misread):
        return number
    hours = number * (24 if parts and parts[2].lower().startswith("d") else 1)
    if hours != hours.to_integral_value():
        return Misread(say=f"{shown(text)} is not a whole number of hours; write {example}.")
    return int(hours)


def read_area(text: str) -> int | Misread:
    """Read an area in m² as whole mm²: “14.5”, “14,5 m²”."""
    number = _exact(re.sub(r"\s*m[²2]$", "", tidy(text)), "14.5")
    return number if isinstance(number, Misread) else int((number * 1_000_000).to_integral_value())


def read_money(text: str, currency: str) -> int | Misread:
    """Read an amount in a currency's minor units: “182,40” is 18240 in EUR."""
    digits = minor_digits(currency)
    example = "182.40" if digits == 2 else f"{Decimal(182).scaleb(0):.{digits}f}"
    typed = tidy(text)
    for mark in (currency.upper(), currency.lower(), "€", "£", "$"):
        typed = typed.removeprefix(mark).removesuffix(mark).strip()
    number = _exact(typed, example, sure_decimal=digits == 3)
    if isinstance(number, Misread):
        return number
    minor = number.scaleb(digits)
    if minor != minor.to_integral_value():
        return Misread(say=f"{shown(text)} is finer than the currency; write {example}.")
    return int(minor)


def read_range(text: str) -> tuple[float, float] | Misread:
    """Read two numbers, the lower first: “18-24”, “18 to 24”."""
    parts = re.fullmatch(r"(-?[^-–]+?)\s*(?:-|–|to)\s*(-?[^-–]+)", tidy(text), re.IGNORECASE)
    if parts is None:
        return Misread(say=f"{shown(text)} is no range; write one like 18-24.")
    low, high = read_number(parts[1]), read_number(parts[2])
    if isinstance(low, Misread):
        return low
    if isinstance(high, Misread):
        return high
    return low, high


def read_currency(text: str) -> str | Misread:
    """Read a currency's code of three letters (ISO 4217): “EUR”."""
    typed = text.strip().upper()
    if not re.fullmatch(r"[A-Z]{3}", typed):
        return Misread(say=f"{shown(text)} is no currency code; write three letters like EUR.")
    return typed
