"""What a flight of a job comes to: its steps held against its code and the length there is, and the pieces it takes."""

import math
from dataclasses import dataclass
from fractions import Fraction

from store.errors import Refused
from store.trade.outline import Ring, net_area_mm2
from store.trade.stairs import STAIR_CODES, StairCheck, Stairs, fewest_risers, stairs

OPEN_OVERLAP_MM = 16


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A flight in mm as ``FlightDraft`` says, without its name and what it is clad with."""

    rise_mm: int
    width_mm: int
    code: str
    going_mm: int | None
    run_mm: int | None
    risers: int | None
    nosing_mm: int
    winders: Ring
    winder_treads: int
    open_risers: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightSum:
    """The steps of a flight, and its pieces.

    ``checks`` are those of the code and, where it is known, of the length there is. ``straight_treads`` is without the
    winders, ``runs_mm`` the level length they take. ``winders_mm2`` is the area inside the winders' outline,
    ``winders_box_mm`` the sides of the rectangle round it, ``winder_edge_mm`` the longest that the front edge of a
    winder can be.
    """

    steps: Stairs
    checks: tuple[StairCheck, ...]
    straight_treads: int
    runs_mm: float
    winder_treads: int
    winders_mm2: int
    winders_box_mm: tuple[int, int]
    winder_edge_mm: int

    @property
    def ok(self) -> bool:
        """Whether nothing that was looked at is broken."""
        return all(check.ok for check in self.checks)


def flight_sum(flight: Measured) -> FlightSum:
    """Return what a flight comes to.

    The risers are those counted, else the fewest that keep each rise at or under the code's highest. A turn's winders
    are treads too, so only the rest take length. The going is the one wished, else the length there is shared out over
    the straight treads. The front edge of a winder is taken to be no longer than the two corners of the outline that
    lie farthest apart, rounded up.

    >>> hall = Measured(rise_mm=2600, width_mm=860, code="ad-k-private", going_mm=None, run_mm=2700, risers=13,
    ...                 nosing_mm=25, winders=(), winder_treads=0)
    >>> found = flight_sum(hall)
    >>> found.straight_treads, found.steps.going_mm, found.steps.rise_mm, found.ok
    (12, 225, 200, True)

    Raises:
        Refused: more winders than treads, neither a going nor a length, or a number that cannot be.
    """
    highest = STAIR_CODES[flight.code].rise_mm[1] if flight.code in STAIR_CODES else 1
    risers = flight.risers or fewest_risers(flight.rise_mm, highest)
    straight = risers - 1 - flight.winder_treads
    if straight < 0:
        raise Refused(
            f"{risers} risers make {risers - 1} treads, and {flight.winder_treads} of them cannot be winders."
        )
    steps = stairs(
        total_rise_mm=flight.rise_mm,
        going_mm=_going(flight, straight),
        width_mm=flight.width_mm,
        code=flight.code,
        risers=risers,
        nosing_mm=flight.nosing_mm,
    )
    runs = straight * steps.going_mm
    box = _box(flight.winders)
    return FlightSum(
        steps=steps,
        checks=(*steps.checks, *_length(runs, flight.run_mm), *_overlap(flight)),
        straight_treads=straight,
        runs_mm=runs,
        winder_treads=flight.winder_treads,
        winders_mm2=net_area_mm2(flight.winders) if flight.winders else 0,
        winders_box_mm=box,
        winder_edge_mm=math.ceil(_farthest(flight.winders)),
    )


def _going(flight: Measured, straight: int) -> Fraction:
    if flight.going_mm is not None:
        return Fraction(flight.going_mm)
    if flight.run_mm is None or not straight:
        raise Refused("Say the going wished: no straight tread shares out a length.")
    return Fraction(flight.run_mm, straight)


def _length(runs_mm: float, there_mm: int | None) -> tuple[StairCheck, ...]:
    if there_mm is None:
        return ()
    ok = runs_mm <= there_mm + 0.5
    return (StairCheck(what="length", value=runs_mm, unit="mm", least=None, most=there_mm, ok=ok),)


def _overlap(flight: Measured) -> tuple[StairCheck, ...]:
    """Open treads overlap by 16 mm at least: Approved Document K (2013), Diagram 1.1; no other code names it here."""
    if not flight.open_risers or not flight.code.startswith("ad-k"):
        return ()
    ok = flight.nosing_mm >= OPEN_OVERLAP_MM
    value = float(flight.nosing_mm)
    return (StairCheck(what="overlap of open treads", value=value, unit="mm", least=OPEN_OVERLAP_MM, most=None, ok=ok),)


def _box(ring: Ring) -> tuple[int, int]:
    sides = [max(spots) - min(spots) for spots in zip(*ring, strict=True)]
    return (sides[0], sides[1]) if ring else (0, 0)


def _farthest(ring: Ring) -> float:
    return max((math.dist(one, other) for one in ring for other in ring), default=0.0)
