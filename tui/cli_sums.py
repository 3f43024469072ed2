"""``layday sum``: one sum of the trade at a time, asked for with options and answered in words or JSON."""

import argparse
import dataclasses
import json
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation
from pathlib import Path

from store.errors import Refused
from store.papers.on_disk import read_whole
from store.papers.room_in import read_room
from store.trade.climate import dew_point
from store.trade.flatness import flatness, smoothing
from store.trade.glue import glue, spreading
from store.trade.layout.lay import BoardSize, LayRules
from store.trade.layout.rows import rows
from store.trade.layout.search import lay_room
from store.trade.moisture import emc, moisture_gap, movement
from store.trade.screed import drying, first_heating, moisture_tests
from store.trade.trims import trims
from store.trade.units import shown
from tui.answers import lay_answer
from tui.cli_parser import CommandParser
from tui.wording import clean

Asked = argparse.Namespace


def number(typed: str) -> Decimal:
    """Read a number typed with a point or a comma; ArgumentTypeError says what would do."""
    try:
        return Decimal(typed.replace(",", ".", 1) if "." not in typed else typed)
    except InvalidOperation:
        raise argparse.ArgumentTypeError(f"“{typed[:40]}” is no number; write one like 20.5") from None


def day(typed: str) -> date:
    """Read a day as YYYY-MM-DD."""
    try:
        return date.fromisoformat(typed)
    except ValueError:
        raise argparse.ArgumentTypeError(f"“{typed[:40]}” is no day; write one like 2026-11-28") from None


def pieces(typed: str) -> tuple[Decimal, ...]:
    """Read lengths in mm with commas between them."""
    return tuple(number(part.strip()) for part in typed.split(",") if part.strip())


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One option of a sum: its name, how it is read, its default (None: it must be typed), and what it is."""

    name: str
    about: str
    read: Callable[[str], object] = number
    default: object = None
    optional: bool = False
    choices: tuple[str, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """One sum: what it is about, what it asks, and how its answer is worked out."""

    about: str
    options: tuple[Option, ...]
    work_out: Callable[[Asked], object]


def _option(name: str, about: str, default: object = None, *, optional: bool = False) -> Option:
    return Option(name=name, about=about, default=default, optional=optional)


def _word(name: str, about: str, *choices: str, default: object = None, optional: bool = False) -> Option:
    return Option(name=name, about=about, read=str, default=default, optional=optional, choices=choices or None)


def _day(name: str, about: str) -> Option:
    return Option(name=name, about=about, read=day)


SUMS: dict[str, Sum] = {
    "rows": Sum(
        about="Rows between two walls: how many, and how wide the first and last are ripped.",
        options=(
            _option("across", "mm from wall to wall, across the rows"),
            _option("board", "mm, a board's cover width"),
            _option("gap", "mm left at each wall", Decimal(10)),
            _option("least", "mm, the narrowest row that is kept", Decimal(60)),
        ),
        work_out=lambda a: rows(across_mm=a.across, board_mm=a.board, gap_mm=a.gap, least_mm=a.least),
    ),
    "emc": Sum(
        about="The moisture wood takes on in a room's air.",
        options=(_option("temp", "°C"), _option("rh", "% relative humidity")),
        work_out=lambda a: emc(temp_c=a.temp, rh_percent=a.rh),
    ),
    "dew-point": Sum(
        about="The dew point, and whether a surface is 3 °C above it.",
        options=(
            _option("temp", "°C, the air"),
            _option("rh", "% relative humidity"),
            _option("surface", "°C, the surface to be glued", optional=True),
        ),
        work_out=lambda a: dew_point(temp_c=a.temp, rh_percent=a.rh, surface_c=a.surface),
    ),
    "movement": Sum(
        about="How far a solid board grows or shrinks across its width.",
        options=(
            _word("species", "oak, beech, ash … or an American wood such as white-oak"),
            _option("width", "mm"),
            _option("from", "% moisture at the start"),
            _option("to", "% moisture at the end"),
            _word("cut", "how the board was sawn", "flat", "quarter", default="flat"),
        ),
        work_out=lambda a: movement(
            species=a.species, width_mm=a.width, from_percent=getattr(a, "from"), to_percent=a.to, cut=a.cut
        ),
    ),
    "drying": Sum(
        about="The day a screed is forecast dry; a forecast never releases a floor.",
        options=(
            _word("screed", "what it is", "cement", "calcium-sulphate"),
            _option("thickness", "mm"),
            _day("laid", "the day it was laid"),
        ),
        work_out=lambda a: drying(screed=a.screed, thickness_mm=a.thickness, laid_on=a.laid),
    ),
    "first-heating": Sum(
        about="The days of a heated screed's first heating.",
        options=(_word("screed", "what it is", "cement", "calcium-sulphate"), _day("laid", "the day it was laid")),
        work_out=lambda a: first_heating(screed=a.screed, laid_on=a.laid),
    ),
    "flatness": Sum(
        about="A gap under the straightedge against a flatness rule.",
        options=(
            _word("rule", "sr1–sr3 (BS 8204) or din2–din4 (DIN 18202)", "sr1", "sr2", "sr3", "din2", "din3", "din4"),
            _option("span", "mm between the two high points"),
            _option("gap", "mm, the widest gap between them"),
        ),
        work_out=lambda a: flatness(rule=a.rule, span_mm=a.span, gap_mm=a.gap),
    ),
    "smoothing": Sum(
        about="Smoothing compound for an area, in whole bags.",
        options=(
            _option("area", "m²"),
            _option("depth", "mm, the mean depth"),
            _option("rate", "kg for each m² and mm", Decimal("1.7")),
            _option("waste", "% added", Decimal(0)),
            _option("bag", "kg in a bag", Decimal(25)),
        ),
        work_out=lambda a: smoothing(
            area_m2=a.area, depth_mm=a.depth, rate_kg_per_m2_mm=a.rate, waste_percent=a.waste, bag_kg=a.bag
        ),
    ),
    "glue": Sum(
        about="Glue for an area in whole tubs, and how many rows may be spread at once.",
        options=(
            _option("area", "m²"),
            _option("rate", "g for each m²"),
            _option("tub", "kg in a tub"),
            _option("open-time", "minutes the glue stays open", optional=True),
            _option("pace", "m² laid in an hour", optional=True),
            _option("board", "mm, a board's width", optional=True),
            _option("run", "mm, the length of a row", optional=True),
        ),
        work_out=lambda a: glue(
            area_m2=a.area,
            rate_g_per_m2=a.rate,
            tub_kg=a.tub,
            at_pace=spreading(open_time_min=a.open_time, pace_m2_per_hour=a.pace, board_mm=a.board, run_mm=a.run),
        ),
    ),
    "tests": Sum(
        about="How many moisture tests an area asks for, and how deep a probe sits.",
        options=(
            _word("method", "how it is tested", "carbide", "in-situ-rh"),
            _option("area", "m²"),
            _option("thickness", "mm of the slab", optional=True),
            _word("drying", "sides it dries to", "one", "both", default="one"),
        ),
        work_out=lambda a: moisture_tests(
            method=a.method, area_m2=a.area, thickness_mm=a.thickness, drying_sides=a.drying
        ),
    ),
    "moisture-gap": Sum(
        about="Whether boards and a wooden subfloor lie close enough in moisture.",
        options=(
            _option("board", "%, the boards"),
            _option("subfloor", "%, the subfloor"),
            _option("width", "mm, a board's width"),
        ),
        work_out=lambda a: moisture_gap(board_percent=a.board, subfloor_percent=a.subfloor, width_mm=a.width),
    ),
    "trims": Sum(
        about="The fewest sticks for a list of pieces.",
        options=(
            _option("stick", "mm, a stick as sold"),
            _option("kerf", "mm lost at a cut"),
            Option(name="pieces", about="mm, with commas between: 3200,1150,900", read=pieces),
        ),
        work_out=lambda a: trims(stick_mm=a.stick, kerf_mm=a.kerf, pieces_mm=a.pieces),
    ),
}


def _lay(asked: Asked) -> dict[str, object]:
    """Lay the room of a file board by board."""
    board = BoardSize(
        length_mm=whole_mm(asked.length, "length"),
        width_mm=whole_mm(asked.width, "width"),
        boards_per_pack=whole_mm(asked.per_pack, "number of boards in a pack"),
    )
    stagger = max(300, 2 * board.width_mm) if asked.stagger is None else whole_mm(asked.stagger, "stagger")
    rules = LayRules(
        stagger_mm=stagger,
        shortest_mm=whole_mm(asked.shortest, "shortest piece"),
        kerf_mm=whole_mm(asked.kerf, "kerf"),
        least_mm=whole_mm(asked.least, "least row width"),
    )
    room = read_room(read_whole(Path(asked.room)))
    return lay_answer(lay_room(room, board=board, rules=rules, seed=whole_mm(asked.seed, "seed")))


def whole_mm(typed: Decimal, what: str) -> int:
    """Return a whole number; Refused if it is not one or has too many figures to be a size."""
    if not typed.is_finite() or typed != typed.to_integral_value() or abs(typed) > 10**9:
        raise Refused(f"The {what} is a whole number of ordinary size, not {shown(typed)}.")
    return int(typed)


SUMS["lay"] = Sum(
    about="A room laid board by board: rows, boards, packs and every piece.",
    options=(
        _word("room", "a file that holds a room as in a job folder"),
        _option("length", "mm, a board"),
        _option("width", "mm, a board"),
        _option("per-pack", "boards in a pack"),
        _option("stagger", "mm between joints of neighbouring rows; 300 or twice the width if left out", optional=True),
        _option("shortest", "mm, the shortest piece", Decimal(300)),
        _option("kerf", "mm lost at a cut", Decimal(3)),
        _option("least", "mm, the narrowest row at a wall", Decimal(60)),
        _option("seed", "another number tries other ways", Decimal(1)),
    ),
    work_out=_lay,
)


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
        one = names.add_parser(name, parents=[common], help=sum_.about, description=sum_.about, allow_abbrev=False)
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
    asked = parser().parse_args(rest)
    answer = SUMS[asked.name].work_out(asked)
    values = answer if isinstance(answer, dict) else _values_of(answer)
    if as_json or getattr(asked, "json", False):
        sys.stdout.write(json.dumps(values, default=str) + "\n")
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
