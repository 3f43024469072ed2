"""JSON as text (RFC 8259): read so strictly that nothing is guessed, written so that a person can read it."""

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from store.errors import Refused

Json = str | int | float | bool | Sequence["Json"] | Mapping[str, "Json"] | None

MOST_FIGURES = 60
_LINE_WIDTH = 100
# Legal inside a JSON string, but a terminal obeys them or an editor shows the line in another order.
_BETTER_ESCAPED = re.compile("[\x7f-\x9f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A number with a fraction, an exponent or too many figures, as it is written; also NaN and Infinity."""

    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyTwice:
    """An object in which one key is given twice, so that nobody can say which of the two is meant."""

    key: str


def parsed(raw: bytes) -> object:
    """Return the value that a JSON file holds.

    Objects are dicts, lists are lists; a number that is no short whole number is a ``Figure``, an object with
    a key given twice a ``KeyTwice``: whoever asks for the value knows its place in the file, and refuses it
    there. A byte order mark is passed over.

    Raises:
        Refused: not UTF-8, cut off, not JSON, or nested deeper than anything sensible.
    """
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise Refused(f"The file is not text in UTF-8: byte {error.start} cannot be read.") from error
    if not text.strip():
        raise Refused("The file is empty.")
    try:
        value: object = json.loads(
            text,
            object_pairs_hook=_object,
            parse_int=_whole,
            parse_float=_figure,
            parse_constant=_figure,
        )
    except json.JSONDecodeError as error:
        raise Refused(_not_json(text, error)) from error
    except RecursionError as error:
        raise Refused("The file is nested far deeper than a job folder is.") from error
    return value


def printed(value: Json) -> str:
    """Return a value as JSON text: what fits goes on one line, the rest is indented by one space.

    >>> print(printed({"name": "Reading room", "outline": [[0, 0], [5200, 0], [5200, 4100]]}))
    {"name": "Reading room", "outline": [[0, 0], [5200, 0], [5200, 4100]]}
    """
    return _BETTER_ESCAPED.sub(lambda found: f"\\u{ord(found[0]):04x}", _lines(value, 0))


def _lines(value: Json, depth: int) -> str:
    whole = json.dumps(value, ensure_ascii=False, allow_nan=False)
    if len(whole) + depth <= _LINE_WIDTH or not value or not isinstance(value, list | tuple | Mapping):
        return whole
    margin = "\n" + " " * (depth + 1)
    if isinstance(value, Mapping):
        inside = [f"{json.dumps(key)}: {_lines(one, depth + 1)}" for key, one in value.items()]
        return "{" + margin + f",{margin}".join(inside) + margin[:-1] + "}"
    return "[" + margin + f",{margin}".join(_lines(one, depth + 1) for one in value) + margin[:-1] + "]"


def _object(pairs: list[tuple[str, object]]) -> dict[str, object] | KeyTwice:
    values: dict[str, object] = {}
    for key, value in pairs:
        if key in values:
            return KeyTwice(key=key)
        values[key] = value
    return values


def _whole(written: str) -> int | Figure:
    return int(written) if len(written) <= MOST_FIGURES else _figure(written)


def _figure(written: str) -> Figure:
    return Figure(written=written)


def _not_json(text: str, error: json.JSONDecodeError) -> str:
    if error.pos >= len(text.rstrip()) or error.msg.startswith("Unterminated string"):
        return f"The file is cut off: it ends in the middle, after line {text.count(chr(10)) + 1}."
    return f"The file is not JSON: line {error.lineno}, column {error.colno} cannot be read."
