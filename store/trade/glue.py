"""Glue for a floor: how many tubs, and how many rows may be spread before the first goes off."""

import math
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.units import Bounds, Number

AREA = Bounds(what="Area", unit="m²", above_least=True)
RATE = Bounds(what="Rate", unit="g/m²", above_least=True)
TUB = Bounds(what="Tub", unit="kg", above_least=True)
WASTE = Bounds(what="Waste", unit="%", most=1000)
OPEN_TIME = Bounds(what="Open time", unit="minutes", above_least=True)
PACE = Bounds(what="Pace", unit="m² an hour", above_least=True)
BOARD = Bounds(what="Board width", unit="mm", above_least=True)
RUN = Bounds(what="Length of a row", unit="mm", above_least=True)

MOST_ROWS_AT_ONCE = 3  # a fitter reaches no further over fresh glue; common practice


@dataclass(frozen=True, slots=True, kw_only=True)
class Spreading:
    """How fast a floor is laid, in minutes of open time, m² an hour and mm of board and row."""

    open_time_min: Number
    pace_m2_per_hour: Number
    board_mm: Number
    run_mm: Number


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """Kilograms and whole tubs; rows to spread at once, where the spreading is known.

    ``rate_g_per_m2`` is the rate reckoned with, ``by_notch`` the notch it was taken from, empty where it was given.
    """

    kg: float
    tubs: int
    rows_at_once: int | None
    rate_g_per_m2: float
    by_notch: str = ""


def spreading(
    *,
    open_time_min: Number | None = None,
    pace_m2_per_hour: Number | None = None,
    board_mm: Number | None = None,
    run_mm: Number | None = None,
) -> Spreading | None:
    """The four facts of spreading together, or None where none of them is given.

    Raises:
        Refused: Some are given and some are not.
    """
    given = {
        "open time": open_time_min,
        "pace": pace_m2_per_hour,
        "board width": board_mm,
        "length of a row": run_mm,
    }
    missing = [name for name, value in given.items() if value is None]
    if open_time_min is None or pace_m2_per_hour is None or board_mm is None or run_mm is None:
        if len(missing) == len(given):
            return None
        raise Refused(f"Rows at once need all four of {', '.join(given)}: give {' and '.join(missing)} too.")
    return Spreading(open_time_min=open_time_min, pace_m2_per_hour=pace_m2_per_hour, board_mm=board_mm, run_mm=run_mm)


def glue(
    *,
    area_m2: Number,
    rate_g_per_m2: Number,
    tub_kg: Number,
    waste_percent: Number = 0,
    at_pace: Spreading | None = None,
    by_notch: str = "",
) -> Glue:
    """Glue for an area, and how far ahead of the boards it may be spread.

    >>> pace = spreading(open_time_min=40, pace_m2_per_hour=4, board_mm=190, run_mm=5000)
    >>> glue(area_m2=20, rate_g_per_m2=1100, tub_kg=15, at_pace=pace)
    Glue(kg=22.0, tubs=2, rows_at_once=2, rate_g_per_m2=1100.0, by_notch='')

    Method: area x rate, in exact numbers, so that a full tub is never followed by an empty one. Rows at
    once: what is laid within the open time, in whole rows, at least 1 and at most 3.

    Args:
        area_m2: The area laid, m²; not the area bought.
        rate_g_per_m2: Spread by the notch in use, g/m².
        tub_kg: What a tub holds, kg.
        waste_percent: Added for what stays in tubs, %.
        by_notch: The notch the rate was taken from (notches); empty where the rate was given.
        at_pace: How fast the floor is laid; None leaves rows at once unanswered.

    Raises:
        Refused: A number is not finite or cannot be.

    Source: common practice; rate and open time stand on the tub's own sheet. Notches go by TKB note 6 (2007, 2019);
        what they spread is from memory.
    """
    rate = RATE.take(rate_g_per_m2)
    grams = AREA.take(area_m2) * rate * (1 + WASTE.take(waste_percent) / 100)
    kg = grams / 1000
    rows_at_once = None if at_pace is None else _rows_at_once(at_pace)
    return Glue(
        kg=float(kg),
        tubs=math.ceil(kg / TUB.take(tub_kg)),
        rows_at_once=rows_at_once,
        rate_g_per_m2=float(rate),
        by_notch=by_notch,
    )


def _rows_at_once(at_pace: Spreading) -> int:
    hours = OPEN_TIME.take(at_pace.open_time_min) / 60
    row_m2 = BOARD.take(at_pace.board_mm) * RUN.take(at_pace.run_mm) / Fraction(1_000_000)
    laid = math.floor(hours * PACE.take(at_pace.pace_m2_per_hour) / row_m2)
    return max(1, min(MOST_ROWS_AT_ONCE, laid))
