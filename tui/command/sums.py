"""``layday sum``: one sum of the trade at a time, asked for with options and answered in words or JSON."""

import argparse
import dataclasses
import json
import sys
from collections.abc import Sequence
from datetime import date

from tui.command.laying_sum import LAY, RANDOM_LENGTHS
from tui.command.parser import CommandParser
from tui.command.parts_sums import PARTS
from tui.command.pattern_sums import PATTERNS
from tui.command.sums_on_offer import SUMS as _WITHOUT_A_ROOM
from tui.command.sums_on_offer import Sum
from tui.words.wording import clean

SUMS: dict[str, Sum] = {**_WITHOUT_A_ROOM, **PATTERNS, **PARTS, "lay": LAY, "random-lengths": RANDOM_LENGTHS}


def parser() -> argparse.ArgumentParser:
    """Return the parser of ``layday sum``."""
    common = argparse.ArgumentParser(add_help=False, argument_default=argparse.SUPPRESS)
    common.add_argument("--json", action="store_true", help="answer in JSON")
    for ignored in ("--file", "--at", "--who"):
        common.add_argument(ignored, help=argparse.SUPPRESS)
    common.add_argument("--demo", action="store_true", help=argparse.SUPPRESS)
    top: argparse.ArgumentParser = CommandParser(prog="layday sum", parents=[common], allow_abbrev=False)
    names = top.add_subparsers(dest="name", metavar="NAME", required=True, title="sums")
    for name, sum_ in SUMS.items():
        told = f"With --json: {sum_.keys_told}." if sum_.keys_told else None
        one = names.add_parser(
            name, parents=[common], help=sum_.about, description=sum_.about, epilog=told, allow_abbrev=False
        )
        for option in sum_.options:
            needed = option.default is None and not option.optional
            shown = f" (default {option.default})" if option.default is not None else ""
            one.add_argument(
                f"--{option.name}",
                type=option.read,
                required=needed,
                default=option.default,
                choices=option.choices,
                help=(option.about + shown).replace("%", "%%"),
                metavar=None if option.choices else option.name.upper(),
            )
    return top


def answer_sum(rest: Sequence[str], *, as_json: bool) -> int:
    """Work out the sum that ``rest`` asks for and print its answer.

    Raises:
        Refused: the sum's rule does not cover the values.
    """
    reader = parser()
    if not rest:
        reader.error(f"name one of the sums: {', '.join(SUMS)}")
    asked = reader.parse_args(rest)
    sum_ = SUMS[asked.name]
    missing = sum_.missing(asked) if sum_.missing else ""
    if missing:
        reader.error(missing)
    answer = sum_.work_out(asked)
    values = sum_.keys(answer) if sum_.keys else _values_of(answer)
    if as_json or getattr(asked, "json", False):
        sys.stdout.write(json.dumps(values, default=str) + "\n")
    elif sum_.text:
        sys.stdout.write(sum_.text(answer))
    else:
        sys.stdout.write("".join(f"{_said(name)}: {_shown(value)}\n" for name, value in values.items()))
    return 0


def _values_of(answer: object) -> dict[str, object]:
    if not dataclasses.is_dataclass(answer) or isinstance(answer, type):
        raise TypeError(answer)
    return dataclasses.asdict(answer)


_UNITS = {"mm": " (mm)", "percent": " (%)", "c": " (°C)", "m2": " (m²)"}


def _said(name: str) -> str:
    head, _, tail = name.rpartition("_")
    return f"{head.replace('_', ' ')}{_UNITS[tail]}" if tail in _UNITS and head else name.replace("_", " ")


def _shown(value: object) -> str:
    if value is None:
        return "not asked"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.4f}".rstrip("0").rstrip(".")
    if isinstance(value, date):
        return f"{value:%a} {value.isoformat()}"
    if isinstance(value, tuple):
        return "; ".join(_shown(one) if isinstance(one, tuple) else str(one) for one in value)
    return clean(str(value))
