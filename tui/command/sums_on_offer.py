"""The sums of the trade that are on offer without a job: what each asks, and how it is worked out."""

import argparse
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal, InvalidOperation

from store.trade.climate import dew_point
from store.trade.flatness import flatness, smoothing
from store.trade.gaps import wall_gap
from store.trade.glue import Glue, glue, spreading
from store.trade.jobs import Method
from store.trade.layout.rows import rows
from store.trade.moisture import emc, moisture_gap, movement
from store.trade.notches import BASES, rate_or_usual
from store.trade.screed import drying, first_heating, moisture_tests
from store.trade.trims import trims
from tui.words.parts import notch_lines
from tui.words.wording import figure

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
    """One sum: what it is about, what it asks, how its answer is worked out, and the rule whose source it carries.

    ``keys`` and ``text`` make an answer's keys in JSON and its plain text, where those are not the answer's own.
    ``at_once`` tells that it is worked out as fast as one types. ``missing`` says what of the options that may each be
    left out is wanted all the same. ``keys_told`` names the keys of the answer in JSON, at the foot of its help.
    """

    about: str
    options: tuple[Option, ...]
    work_out: Callable[[Asked], object]
    rule: Callable[..., object]
    keys: Callable[[object], dict[str, object]] | None = None
    text: Callable[[object], str] | None = None
    at_once: bool = True
    missing: Callable[[Asked], str] | None = None
    keys_told: str = ""


def option(name: str, about: str, default: object = None, *, optional: bool = False) -> Option:
    """Return an option that is a number."""
    return Option(name=name, about=about, default=default, optional=optional)


def word(name: str, about: str, *choices: str, default: object = None, optional: bool = False) -> Option:
    """Return an option that is a word, one of the choices if there are any."""
    return Option(name=name, about=about, read=str, default=default, optional=optional, choices=choices or None)


def day_option(name: str, about: str) -> Option:
    """Return an option that is a day."""
    return Option(name=name, about=about, read=day)


def _glue_text(answer: object) -> str:
    if not isinstance(answer, Glue):
        raise TypeError(answer)
    rows_at_once = "not asked" if answer.rows_at_once is None else answer.rows_at_once
    lines = [
        f"kg: {figure(answer.kg, 4)}",
        f"tubs: {answer.tubs}",
        f"rows at once: {rows_at_once}",
        *notch_lines(answer),
    ]
    return "".join(f"{line}\n" for line in lines)


SUMS: dict[str, Sum] = {
    "rows": Sum(
        about="Rows between two walls: how many, and how wide the first and last are ripped.",
        options=(
            option("across", "mm from wall to wall, across the rows"),
            option("board", "mm, a board's cover width"),
            option("gap", "mm left at each wall", Decimal(10)),
            option("least", "mm, the narrowest row that is kept", Decimal(60)),
        ),
        work_out=lambda a: rows(across_mm=a.across, board_mm=a.board, gap_mm=a.gap, least_mm=a.least),
        rule=rows,
    ),
    "emc": Sum(
        about="The moisture wood takes on in a room's air.",
        options=(option("temp", "°C"), option("rh", "% relative humidity")),
        work_out=lambda a: emc(temp_c=a.temp, rh_percent=a.rh),
        rule=emc,
    ),
    "dew-point": Sum(
        about="The dew point, and whether a surface is 3 °C above it.",
        options=(
            option("temp", "°C, the air"),
            option("rh", "% relative humidity"),
            option("surface", "°C, the surface to be glued", optional=True),
        ),
        work_out=lambda a: dew_point(temp_c=a.temp, rh_percent=a.rh, surface_c=a.surface),
        rule=dew_point,
    ),
    "movement": Sum(
        about="How far a solid board grows or shrinks across its width.",
        options=(
            word("species", "oak, beech, ash … or an American wood such as white-oak"),
            option("width", "mm"),
            option("from", "% moisture at the start"),
            option("to", "% moisture at the end"),
            word("cut", "how the board was sawn", "flat", "quarter", default="flat"),
        ),
        work_out=lambda a: movement(
            species=a.species, width_mm=a.width, from_percent=getattr(a, "from"), to_percent=a.to, cut=a.cut
        ),
        rule=movement,
    ),
    "gap": Sum(
        about="The gap along the walls that a floor's width asks for, and how far loose wood would move.",
        options=(
            option("across", "mm from wall to wall, across the boards"),
            word("method", "how the floor is held", *(one.value for one in Method), default="floating"),
            option("gap", "mm left at each wall", Decimal(10)),
            word("species", "oak, beech, ash … or an American wood; may be left out", optional=True),
            option("points", "% points of moisture between the driest and the dampest season", Decimal(3)),
        ),
        work_out=lambda a: wall_gap(
            across_mm=a.across, method=a.method, gap_mm=a.gap, species=a.species or "", points=a.points
        ),
        rule=wall_gap,
    ),
    "drying": Sum(
        about="The day a screed is forecast dry; a forecast never releases a floor.",
        options=(
            word("screed", "what it is", "cement", "calcium-sulphate"),
            option("thickness", "mm"),
            day_option("laid", "the day it was laid"),
        ),
        work_out=lambda a: drying(screed=a.screed, thickness_mm=a.thickness, laid_on=a.laid),
        rule=drying,
    ),
    "first-heating": Sum(
        about="The days of a heated screed's first heating.",
        options=(word("screed", "what it is", "cement", "calcium-sulphate"), day_option("laid", "the day it was laid")),
        work_out=lambda a: first_heating(screed=a.screed, laid_on=a.laid),
        rule=first_heating,
    ),
    "flatness": Sum(
        about="A gap under the straightedge against a flatness rule.",
        options=(
            word("rule", "sr1–sr3 (BS 8204) or din2–din4 (DIN 18202)", "sr1", "sr2", "sr3", "din2", "din3", "din4"),
            option("span", "mm between the two high points"),
            option("gap", "mm, the widest gap between them"),
        ),
        work_out=lambda a: flatness(rule=a.rule, span_mm=a.span, gap_mm=a.gap),
        rule=flatness,
    ),
    "smoothing": Sum(
        about="Smoothing compound for an area, in whole bags.",
        options=(
            option("area", "m²"),
            option("depth", "mm, the mean depth"),
            option("rate", "kg for each m² and mm", Decimal("1.7")),
            option("waste", "% added", Decimal(0)),
            option("bag", "kg in a bag", Decimal(25)),
        ),
        work_out=lambda a: smoothing(
            area_m2=a.area, depth_mm=a.depth, rate_kg_per_m2_mm=a.rate, waste_percent=a.waste, bag_kg=a.bag
        ),
        rule=smoothing,
    ),
    "glue": Sum(
        about="Glue for an area in whole tubs, and how many rows may be spread at once.",
        options=(
            option("area", "m²"),
            option("rate", "g for each m², from the glue maker's sheet; or give the notch", optional=True),
            option("tub", "kg in a tub"),
            option("open-time", "minutes the glue stays open", optional=True),
            option("pace", "m² laid in an hour", optional=True),
            option("board", "mm, a board's width", optional=True),
            option("run", "mm, the length of a row", optional=True),
            word("notch", "the trowel, such as B3, where the maker's sheet is not at hand", optional=True),
            word("base", "what the glue is spread on, for the notch", *BASES, default="rough"),
        ),
        work_out=lambda a: glue(
            area_m2=a.area,
            rate_g_per_m2=rate_or_usual(rate_g_per_m2=a.rate, notch=a.notch, base=a.base),
            tub_kg=a.tub,
            by_notch=a.notch or "",
            at_pace=spreading(open_time_min=a.open_time, pace_m2_per_hour=a.pace, board_mm=a.board, run_mm=a.run),
        ),
        rule=glue,
        text=_glue_text,
        missing=lambda a: "" if a.rate is not None or a.notch else "give --rate, or --notch such as B3",
    ),
    "tests": Sum(
        about="How many moisture tests an area asks for, and how deep a probe sits.",
        options=(
            word("method", "how it is tested", "carbide", "in-situ-rh"),
            option("area", "m²"),
            option("thickness", "mm of the slab", optional=True),
            word("drying", "sides it dries to", "one", "both", default="one"),
        ),
        work_out=lambda a: moisture_tests(
            method=a.method, area_m2=a.area, thickness_mm=a.thickness, drying_sides=a.drying
        ),
        rule=moisture_tests,
    ),
    "moisture-gap": Sum(
        about="Whether boards and a wooden subfloor lie close enough in moisture.",
        options=(
            option("board", "%, the boards"),
            option("subfloor", "%, the subfloor"),
            option("width", "mm, a board's width"),
        ),
        work_out=lambda a: moisture_gap(board_percent=a.board, subfloor_percent=a.subfloor, width_mm=a.width),
        rule=moisture_gap,
    ),
    "trims": Sum(
        about="The fewest sticks for a list of pieces.",
        options=(
            option("stick", "mm, a stick as sold"),
            option("kerf", "mm lost at a cut"),
            Option(name="pieces", about="mm, with commas between: 3200,1150,900", read=pieces),
        ),
        work_out=lambda a: trims(stick_mm=a.stick, kerf_mm=a.kerf, pieces_mm=a.pieces),
        rule=trims,
    ),
}
