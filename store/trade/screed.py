"""A screed from its laying to the floor: drying forecast, first heating, and how many moisture tests."""

import math
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from store.errors import Refused
from store.trade.units import Bounds, Number, one_of, round_half_away

THICKNESS = Bounds(what="Thickness", unit="mm", most=1000, above_least=True)
AREA = Bounds(what="Area", unit="m²", above_least=True)
FLOW = Bounds(what="Flow temperature", unit="°C", most=100)
STEP = Bounds(what="Step", unit="K a day", most=100, above_least=True)

SCREEDS = ("cement", "calcium-sulphate")
FAST_LAYER_MM = {"cement": 50, "calcium-sulphate": 40}  # verified, reported from the British Standard
HEATED_FROM_DAYS = {"cement": 21, "calcium-sulphate": 7}  # verified, reported from EN 1264-4
GENTLE_DAYS = 3
FULL_DAYS = 4
TEST_METHODS = ("carbide", "in-situ-rh")
DEPTH_SHARE = {"one": Fraction(40, 100), "both": Fraction(20, 100)}  # verified, ASTM F2170


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """A forecast, for planning only: days from laying, and the day they are over."""

    days: int
    dry_on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstHeating:
    """The earliest days: heating begins at 25 °C flow, goes to full flow, and has been proved."""

    start_on: date
    full_on: date
    end_on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureTests:
    """How many tests an area needs, and how deep the probe sits (None where no depth is given)."""

    tests: int
    depth_mm: int | None


def drying(*, screed: str, thickness_mm: Number, laid_on: date) -> Drying:
    """When a screed may be dry; a forecast never replaces the reading.

    >>> drying(screed="cement", thickness_mm=65, laid_on=date(2027, 1, 4))
    Drying(days=80, dry_on=datetime.date(2027, 3, 25))

    Method: a day for each mm of the first 50 mm (cement) or 40 mm (calcium sulphate), two days for each
    mm beyond, rounded up to whole days.

    Args:
        screed: cement or calcium-sulphate.
        thickness_mm: Mean thickness, mm, up to 1000.
        laid_on: The day it was laid, day 0.

    Raises:
        Refused: The screed is not known, the thickness cannot be, or the days run past the calendar.

    Source: trade rule quoted from the British Standard (cement) and from screed layers (calcium
    sulphate), at 20 °C and up to 65 % RH.
    """
    kind = one_of(screed, SCREEDS, what="Screed")
    thickness = THICKNESS.take(thickness_mm)
    days = math.ceil(thickness + max(Fraction(0), thickness - FAST_LAYER_MM[kind]))
    return Drying(days=days, dry_on=_after(laid_on, days))


def first_heating(*, screed: str, laid_on: date) -> FirstHeating:
    """When a heated screed may be warmed for the first time, and when that has been proved.

    >>> first_heating(screed="calcium-sulphate", laid_on=date(2027, 1, 4)).end_on
    datetime.date(2027, 1, 18)

    Method: 21 days for cement or 7 for calcium sulphate, then 3 days at 25 °C flow, then 4 at full flow.
    This proves the screed; it does not dry it.

    Args:
        screed: cement or calcium-sulphate.
        laid_on: The day it was laid, day 0.

    Raises:
        Refused: The screed is not known, or the days run past the calendar.

    Source: EN 1264-4, as reported by heating and screed trade pages; the maker's sheet comes first.
    """
    kind = one_of(screed, SCREEDS, what="Screed")
    start_days = HEATED_FROM_DAYS[kind]
    return FirstHeating(
        start_on=_after(laid_on, start_days),
        full_on=_after(laid_on, start_days + GENTLE_DAYS),
        end_on=_after(laid_on, start_days + GENTLE_DAYS + FULL_DAYS),
    )


def ramp_days(*, from_c: Number, to_c: Number, step_k: Number = 5) -> int:
    """Days to raise the flow from one temperature to another, a step each day; 0 if it is there.

    Args:
        from_c: Flow now, °C, 0 to 100.
        to_c: Flow wanted, °C, 0 to 100.
        step_k: Raised each day, K.

    Raises:
        Refused: A number is not finite or cannot be.

    Source: common practice (5 K a day); trade schedules go from 1 to 10 K.
    """
    return max(0, math.ceil((FLOW.take(to_c) - FLOW.take(from_c)) / STEP.take(step_k)))


def moisture_tests(
    *, method: str, area_m2: Number, thickness_mm: Number | None = None, drying_sides: str = "one"
) -> MoistureTests:
    """How many moisture tests a mineral base needs, and how deep an in-situ probe sits.

    >>> moisture_tests(method="in-situ-rh", area_m2=250, thickness_mm=65)
    MoistureTests(tests=5, depth_mm=26)

    Method: carbide, 2 up to 200 m² and beyond that one for each 200 m² begun. In-situ probe, 3 for the
    first 100 m² and one for each further 100 m² begun, at 40 % of the thickness where it dries to one
    side, at 20 % where it dries to both. A carbide sample has no one depth: sources disagree.

    Args:
        method: carbide or in-situ-rh.
        area_m2: The area to be floored, m².
        thickness_mm: Of the slab or screed, mm; None leaves the depth unanswered.
        drying_sides: one or both.

    Raises:
        Refused: A name is not known or a number cannot be.

    Source: ASTM F2170-18 for the probe (its part areas rounded up here); for carbide a testing firm's
    schedule, rounded up to two.
    """
    kind = one_of(method, TEST_METHODS, what="Method")
    share = DEPTH_SHARE[one_of(drying_sides, DEPTH_SHARE, what="Drying")]
    area = AREA.take(area_m2)
    thickness = None if thickness_mm is None else THICKNESS.take(thickness_mm)
    if kind == "carbide":
        return MoistureTests(tests=max(2, math.ceil(area / 200)), depth_mm=None)
    depth = None if thickness is None else round_half_away(share * thickness)
    return MoistureTests(tests=3 + max(0, math.ceil((area - 100) / 100)), depth_mm=depth)


def _after(laid_on: date, days: int) -> date:
    try:
        return laid_on + timedelta(days=days)
    except OverflowError:
        raise Refused(f"{days} days after {laid_on} no calendar goes on: give an earlier day of laying.") from None
