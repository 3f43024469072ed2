"""Wood and its moisture: where it settles in a room, how far a board moves, how far floor and base differ."""

import math
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade import species as woods
from store.trade.units import Bounds, Number, one_of, shown

TEMP = Bounds(what="Air temperature", unit="°C", least=-1, most=49)
RH = Bounds(what="Relative humidity", unit="%", least=5, most=95)
WIDTH = Bounds(what="Board width", unit="mm", above_least=True)
AREA = Bounds(what="Area", unit="m²", above_least=True)
SHRINKAGE = Bounds(what="Shrinkage", unit="%", most=30, above_least=True)
FROM = Bounds(what="Moisture at the start", unit="%", least=6, most=14)
TO = Bounds(what="Moisture at the end", unit="%", least=6, most=14)
FROM_WIDE = Bounds(what="Moisture at the start", unit="%", most=30)
TO_WIDE = Bounds(what="Moisture at the end", unit="%", most=30)
IN_BOARD = Bounds(what="Moisture of the boards", unit="%", most=100)
IN_SUBFLOOR = Bounds(what="Moisture of the subfloor", unit="%", most=100)

CUTS = ("flat", "quarter")
WIDE_FROM_MM = 76  # the rule says 3 in (76.2 mm); sources differ on exactly 3 in, so that counts as wide
WIDE_LIMIT = 2.0
NARROW_LIMIT = 4.0
RULE_AREA_M2 = Fraction("92.90304")  # 1000 ft²
HAIR = 1e-9
HALVINGS = 60  # 90 points of humidity halved 60 times is below the last figure of a float


@dataclass(frozen=True, slots=True, kw_only=True)
class EquilibriumMoisture:
    """The moisture content at which wood neither takes up nor gives off water, in %."""

    emc_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class AirForMoisture:
    """The relative humidity at which wood would settle at a moisture content, in %."""

    rh_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """Change of a board's width in mm; below nought it shrinks."""

    change_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MoistureGap:
    """Boards against a timber subfloor: difference and limit in points of moisture, limit included."""

    difference: float
    limit: float
    ok: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GapReadings:
    """How many readings the two means should stand on."""

    boards: int
    subfloor: int


def emc(*, temp_c: Number, rh_percent: Number) -> EquilibriumMoisture:
    """The moisture content wood settles at in still air.

    >>> round(emc(temp_c=20, rh_percent=50).emc_percent, 2)
    9.27

    Method: a two-hydrate sorption curve whose four coefficients are parabolas in the temperature. It
    keeps within 0.06 of the printed table; hysteresis and engineered cores shift real boards by more.

    Args:
        temp_c: Air, °C, -1 to 49.
        rh_percent: Relative humidity, 5 to 95 %.

    Raises:
        Refused: A value is not finite or outside its range.

    Source: USDA Wood Handbook FPL-GTR-190 (2010), eq. 4-5, SI coefficients, and Table 4-2.
    """
    return EquilibriumMoisture(emc_percent=_emc(float(TEMP.take(temp_c)), float(RH.take(rh_percent))))


def _emc(temp: float, rh: float) -> float:
    w = 349 + 1.29 * temp + 0.0135 * temp**2
    k = 0.805 + 0.000736 * temp - 0.00000273 * temp**2
    k1 = 6.27 - 0.00938 * temp - 0.000303 * temp**2
    k2 = 1.91 + 0.0407 * temp - 0.000293 * temp**2
    kh = k * rh / 100
    hydrates = (k1 * kh + 2 * k1 * k2 * kh**2) / (1 + k1 * kh + k1 * k2 * kh**2)
    return 1800 / w * (kh / (1 - kh) + hydrates)


def air_for_moisture(*, temp_c: Number, emc_percent: Number) -> AirForMoisture:
    """The humidity that would hold wood at a moisture content: `emc` turned round.

    >>> round(air_for_moisture(temp_c=20, emc_percent=9).rh_percent, 1)
    48.3

    Method: the curve only rises with humidity, so the range 5 to 95 % is halved until it is a point.

    Args:
        temp_c: Air, °C, -1 to 49.
        emc_percent: The moisture content wanted, %.

    Raises:
        Refused: A value is not finite, or no humidity from 5 to 95 % gives that moisture.

    Source: USDA Wood Handbook FPL-GTR-190 (2010), eq. 4-5, solved by bisection.
    """
    temp = float(TEMP.take(temp_c))
    wanted = float(IN_BOARD.take(emc_percent))
    low, high = float(RH.least), float(RH.most)
    least, most = _emc(temp, low), _emc(temp, high)
    # A humidity a hair above 5 % can come to a moisture a hair below that of 5 %: floats are not that fine.
    if not least - HAIR <= wanted <= most + HAIR:
        raise Refused(
            f"Wood moisture {shown(emc_percent)} % is reached by no air of 5 to 95 % humidity at "
            f"{shown(temp_c)} °C: give {math.ceil(least * 10) / 10} to {math.floor(most * 10) / 10} %."
        )
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if _emc(temp, middle) < wanted else (low, middle)
    return AirForMoisture(rh_percent=high)


def movement(
    *, species: str, width_mm: Number, from_percent: Number, to_percent: Number, cut: str = "flat"
) -> Movement:
    """How far a solid board grows or shrinks across its width.

    >>> movement(species="oak", width_mm=180, from_percent=9, to_percent=7)
    Movement(change_mm=-1.296)

    Method: width x coefficient x change of moisture. Boards are rarely sawn wholly flat, so real widths
    change a little less; fixing the board down changes nothing. Engineered boards move much less, and
    no public figure exists for them.

    Args:
        species: A plain name for the European table (oak), a whole name for an American wood (white-oak).
        width_mm: Width at the start, mm.
        from_percent: Moisture content at the start, 6 to 14 %.
        to_percent: Moisture content at the end, 6 to 14 %.
        cut: ``flat`` (tangential) or ``quarter`` (radial).

    Raises:
        Refused: The wood or the cut is not known, or a number is outside its range.

    Source: USDA Wood Handbook FPL-GTR-190, eq. 13-2 and Table 13-5; coefficients after DIN 68100.
    """
    each = woods.coefficient(species=species, cut=one_of(cut, CUTS, what="Cut"))
    change = TO.take(to_percent) - FROM.take(from_percent)
    return Movement(change_mm=float(WIDTH.take(width_mm) * each * change))


def movement_wide(*, shrinkage_percent: Number, width_mm: Number, from_percent: Number, to_percent: Number) -> Movement:
    """How far a board moves beyond the 6 to 14 % that `movement` covers, up to 30 %.

    >>> round(movement_wide(shrinkage_percent=11.8, width_mm=200, from_percent=12, to_percent=5).change_mm, 3)
    -5.926

    Args:
        shrinkage_percent: From green to oven-dry, %, tangential for flat-sawn, radial for quarter-sawn.
        width_mm: Width at the start, mm.
        from_percent: Moisture content at the start, 0 to 30 %.
        to_percent: Moisture content at the end, 0 to 30 %.

    Raises:
        Refused: A number is not finite or outside its range.

    Source: USDA Wood Handbook FPL-GTR-190, eq. 13-3 (its conditions verified, its form from memory and
    derived again).
    """
    start, shrinkage = FROM_WIDE.take(from_percent), SHRINKAGE.take(shrinkage_percent)
    change = TO_WIDE.take(to_percent) - start
    return Movement(change_mm=float(WIDTH.take(width_mm) * change / (3000 / shrinkage - 30 + start)))


def coefficient_from_shrinkage(*, shrinkage_percent: Number) -> float:
    """A coefficient for `movement` from total shrinkage: eq. 13-3 at 10 % moisture.

    >>> round(coefficient_from_shrinkage(shrinkage_percent=11.9), 5)
    0.00431

    Raises:
        Refused: The shrinkage is not finite, not above 0 or over 30 %.
    """
    return float(1 / (3000 / SHRINKAGE.take(shrinkage_percent) - 20))


def moisture_gap(*, board_percent: Number, subfloor_percent: Number, width_mm: Number) -> MoistureGap:
    """Are solid boards and a timber subfloor close enough in moisture to be joined?

    >>> moisture_gap(board_percent=9, subfloor_percent=11.5, width_mm=140)
    MoistureGap(difference=2.5, limit=2.0, ok=False)

    Args:
        board_percent: Mean moisture of the boards, %.
        subfloor_percent: Mean moisture of the subfloor, %.
        width_mm: Width of a board, mm; 2 points are allowed from 76 mm on, 4 below.

    Raises:
        Refused: A number is not finite or cannot be.

    Source: the US wood-floor association's rule for solid boards on wood subfloors.
    """
    difference = abs(IN_BOARD.take(board_percent) - IN_SUBFLOOR.take(subfloor_percent))
    limit = moisture_gap_limit(WIDTH.take(width_mm))
    return MoistureGap(difference=float(difference), limit=limit, ok=difference <= Fraction(limit))


def moisture_gap_limit(width_mm: Fraction | int) -> float:
    """Return how far boards and a timber subfloor may differ, in points of moisture content, limit included.

    Source: the US wood-floor association's rule for solid boards on wood subfloors: 4 points under 3 in, else 2.
    """
    return WIDE_LIMIT if width_mm >= WIDE_FROM_MM else NARROW_LIMIT


def gap_readings(*, area_m2: Number) -> GapReadings:
    """How many readings of boards and subfloor to take the two means of `moisture_gap` from.

    >>> gap_readings(area_m2=20)
    GapReadings(boards=9, subfloor=5)

    Raises:
        Refused: The area is not finite or not above 0.

    Source: the US association's 40 and 20 per 1000 ft²; the share for smaller areas is our own.
    """
    share = AREA.take(area_m2) / RULE_AREA_M2
    return GapReadings(boards=math.ceil(40 * share), subfloor=math.ceil(20 * share))
