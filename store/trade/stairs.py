"""A straight flight of stairs: its steps against published limits, and the boards and nosings that clad it."""

import math
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.units import Bounds, Number, one_of, plain_mm

TOTAL_RISE = Bounds(what="Total rise", unit="mm", most=30_000, above_least=True)
RISE = Bounds(what="Rise", unit="mm", most=1000, above_least=True)
GOING = Bounds(what="Going", unit="mm", most=2000, above_least=True)
WIDTH = Bounds(what="Width", unit="mm", most=20_000, above_least=True)
NOSING = Bounds(what="Nosing", unit="mm", most=200)
KERF = Bounds(what="Saw cut", unit="mm", most=50)
LENGTH = Bounds(what="Length of a board", unit="mm", most=20_000, above_least=True)
FACE = Bounds(what="Width of a board", unit="mm", most=5000, above_least=True)
RISERS = Bounds(what="Risers", unit="steps", least=1, most=200)


@dataclass(frozen=True, slots=True, kw_only=True)
class StairCode:
    """Limits of a published code, mm and degrees, each from and to (None: the code as read here names none)."""

    source: str
    rise_mm: tuple[int | None, int]
    going_mm: tuple[int, int | None]
    twice_rise_and_going_mm: tuple[int, int] | None = None
    steepest_deg: int | None = None
    nosing_mm: tuple[int, int] | None = None


_AD_K = "England, Approved Document K, edition of 2013, Table 1.1"
STAIR_CODES: dict[str, StairCode] = {
    "ad-k-private": StairCode(
        source=f"{_AD_K}, private stair",
        rise_mm=(150, 220),
        going_mm=(220, 300),
        twice_rise_and_going_mm=(550, 700),
        steepest_deg=42,
    ),
    "ad-k-utility": StairCode(
        source=f"{_AD_K}, utility stair",
        rise_mm=(150, 190),
        going_mm=(250, 400),
        twice_rise_and_going_mm=(550, 700),
    ),
    "ad-k-general": StairCode(
        source=f"{_AD_K}, general access stair",
        rise_mm=(150, 170),
        going_mm=(250, 400),
        twice_rise_and_going_mm=(550, 700),
    ),
    "din-18065": StairCode(
        source="DIN 18065, dwellings of up to two homes; 2R + G from memory, the edition was not at hand",
        rise_mm=(None, 200),
        going_mm=(230, None),
        twice_rise_and_going_mm=(590, 650),
    ),
    "irc": StairCode(
        source="International Residential Code R311.7.5, from memory, the edition was not at hand",
        rise_mm=(None, 196),
        going_mm=(254, None),
        nosing_mm=(19, 32),
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class StairCheck:
    """One measure against its limits, mm or degrees as ``unit`` says."""

    what: str
    value: float
    unit: str
    least: int | None
    most: int | None
    ok: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StairBoards:
    """Boards to buy for a flight: for treads, for risers, and sticks of nosing of the same length."""

    tread_boards: int
    riser_boards: int
    nosing_sticks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Stairs:
    """A flight: its steps in mm, its checks, its parts in m² and m, and its boards where a board is known."""

    risers: int
    rise_mm: float
    going_mm: float
    treads: int
    twice_rise_and_going_mm: float
    pitch_deg: float
    ok: bool
    code_source: str
    checks: tuple[StairCheck, ...]
    tread_depth_mm: float
    piece_mm: float
    tread_m2: float
    riser_m2: float
    nosings: int
    nosing_m: float
    boards: StairBoards | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StairBoard:
    """The boards that treads and risers are cut from, and what a saw cut takes, all mm."""

    length_mm: Number
    width_mm: Number
    kerf_mm: Number = 3


def stair_board(*, length_mm: Number | None, width_mm: Number | None, kerf_mm: Number) -> StairBoard | None:
    """The board, or None where neither its length nor its width is given.

    Raises:
        Refused: Only one of the two is given.
    """
    if length_mm is None and width_mm is None:
        return None
    if length_mm is None or width_mm is None:
        raise Refused("Boards for a stair need a length and a width: give both, or neither.")
    return StairBoard(length_mm=length_mm, width_mm=width_mm, kerf_mm=kerf_mm)


def stairs(  # noqa: PLR0913 - each is one measure of the flight
    *,
    total_rise_mm: Number,
    going_mm: Number,
    width_mm: Number,
    code: str,
    risers: Number | None = None,
    rise_mm: Number | None = None,
    nosing_mm: Number = 25,
    board: StairBoard | None = None,
) -> Stairs:
    """A straight flight from floor to floor.

    >>> flight = stairs(total_rise_mm=2600, going_mm=225, width_mm=860, code="ad-k-private", risers=13)
    >>> flight.rise_mm, flight.treads, flight.twice_rise_and_going_mm, flight.ok
    (200, 12, 625, True)

    Method: without a number of risers, the fewest that keep each rise at or under the one preferred, or the highest
    of the code. The upper floor is the last tread, so there is one tread fewer than risers, and one nosing for each
    riser, the landing's among them. A tread is the going and its nosing deep. Boards: pieces lie along the width of
    the stair, as many from a board as its length and the saw cuts give; where a piece is deeper than a board, whole
    boards lie side by side and the last is ripped. What is ripped off is not used again.

    Args:
        total_rise_mm: From finished floor to finished floor.
        going_mm: From nosing to nosing, level.
        width_mm: Of the flight, which is the length of every piece.
        code: One of ``STAIR_CODES``.
        risers: How many, where that is known.
        rise_mm: The rise preferred, where the number is not known; not higher than this.
        nosing_mm: How far a tread stands out over the riser below it.
        board: What pieces are cut from; None leaves boards unanswered.

    Returns:
        JSON keys: ``risers rise_mm going_mm treads twice_rise_and_going_mm pitch_deg ok code_source checks
        tread_depth_mm piece_mm tread_m2 riser_m2 nosings nosing_m boards``; each of ``checks`` has ``what value unit
        least most ok``, and ``boards`` (null without a board) has ``tread_boards riser_boards nosing_sticks``.

    Raises:
        Refused: A number cannot be, or a step is wider than a board is long.

    Source: England's Approved Document K (2013), Table 1.1; DIN 18065; International Residential Code R311.7.5, as far
        as each is quoted with its limits. The local building code decides.
    """
    limits = STAIR_CODES[one_of(code, STAIR_CODES, what="Building code")]
    total, going, width = TOTAL_RISE.take(total_rise_mm), GOING.take(going_mm), WIDTH.take(width_mm)
    nosing = NOSING.take(nosing_mm)
    count = _risers(total, risers, rise_mm, limits.rise_mm[1])
    rise = total / count
    depth = going + nosing
    pitch = math.degrees(math.atan2(rise, going))
    checks = tuple(_checks(limits, rise, going, nosing, pitch))
    return Stairs(
        risers=count,
        rise_mm=plain_mm(rise),
        going_mm=plain_mm(going),
        treads=count - 1,
        twice_rise_and_going_mm=plain_mm(2 * rise + going),
        pitch_deg=pitch,
        ok=all(check.ok for check in checks),
        code_source=limits.source,
        checks=checks,
        tread_depth_mm=plain_mm(depth),
        piece_mm=plain_mm(width),
        tread_m2=float((count - 1) * depth * width / 1_000_000),
        riser_m2=float(count * rise * width / 1_000_000),
        nosings=count,
        nosing_m=float(count * width / 1000),
        boards=None if board is None else _boards(board, count, rise, depth, width),
    )


def _risers(total: Fraction, risers: Number | None, rise: Number | None, highest: int) -> int:
    if risers is not None and rise is not None:
        raise Refused("Give the number of risers or the rise preferred, not both.")
    if risers is not None:
        return RISERS.take_whole(risers)
    return fewest_risers(total, highest if rise is None else rise)


def fewest_risers(total_rise_mm: Number, highest_mm: Number) -> int:
    """Return the fewest risers that keep each rise at or under the highest.

    >>> fewest_risers(2600, 220), fewest_risers(2420, 220)
    (12, 11)
    """
    return RISERS.take_whole(math.ceil(TOTAL_RISE.take(total_rise_mm) / RISE.take(highest_mm)))


def _checks(limits: StairCode, rise: Fraction, going: Fraction, nosing: Fraction, pitch: float) -> list[StairCheck]:
    asked: list[tuple[str, Fraction | float, str, tuple[int | None, int | None] | None]] = [
        ("rise", rise, "mm", limits.rise_mm),
        ("going", going, "mm", limits.going_mm),
        ("2R + G", 2 * rise + going, "mm", limits.twice_rise_and_going_mm),
        ("pitch", pitch, "°", None if limits.steepest_deg is None else (None, limits.steepest_deg)),
        ("nosing", nosing, "mm", limits.nosing_mm),
    ]
    return [
        StairCheck(
            what=what,
            value=float(value),
            unit=unit,
            least=within[0],
            most=within[1],
            ok=(within[0] is None or value >= within[0]) and (within[1] is None or value <= within[1]),
        )
        for what, value, unit, within in asked
        if within is not None
    ]


def _boards(board: StairBoard, count: int, rise: Fraction, depth: Fraction, width: Fraction) -> StairBoards:
    length, face = LENGTH.take(board.length_mm), FACE.take(board.width_mm)
    kerf = KERF.take(board.kerf_mm)
    from_one = math.floor((length + kerf) / (width + kerf))
    if from_one < 1:
        raise Refused(
            f"A step {float(width):g} mm wide is longer than a board of {float(length):g} mm: use longer boards."
        )

    def needed(pieces: int, deep: Fraction) -> int:
        return math.ceil(Fraction(pieces * math.ceil(deep / face), from_one))

    return StairBoards(
        tread_boards=needed(count - 1, depth),
        riser_boards=needed(count, rise),
        nosing_sticks=math.ceil(Fraction(count, from_one)),
    )
