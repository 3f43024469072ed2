"""What one reading is held against, and whether it is good: the same limits the holds use, for a single reading."""

from dataclasses import dataclass

from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, FirmDraft
from store.trade.groups import climate_for, in_order
from store.trade.jobs import Room
from store.trade.level_grid import worst_gap
from store.trade.limits import TakenLimit, damp_limits
from store.trade.moisture import moisture_gap_limit
from store.trade.readings import (
    KINDS,
    Air,
    BoardMoisture,
    Carbide,
    Hygrometer,
    InSituProbe,
    LevelGrid,
    ReadingDraft,
    Straightedge,
    TimberSubfloor,
    dampness,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """What a reading must keep to: a range of air, at most ``most``, or no further than ``apart`` from ``near``.

    ``taken`` says where a limit of a subfloor's moisture is from.
    """

    climate: ClimateRange | None = None
    most: float | None = None
    near: float | None = None
    apart: float | None = None
    taken: TakenLimit | None = None


def limit_for(firm: FirmDraft, facts: JobFacts, room: Room, kind: str) -> Limit | None:
    """Return what a reading of a kind must keep to in a room; None where nothing is asked of it.

    The limits and their sources stand in ``limits.py``; the range of air is the board's own or the firm's, the gap
    under the straightedge the firm's. Boards are held against the latest reading of a wooden subfloor, if any.
    """
    measure = KINDS[kind]
    if measure is Air:
        return Limit(climate=climate_for(firm, facts.board(room.board)))
    if measure in {Straightedge, LevelGrid}:
        return Limit(most=float(firm.flat_limit_mm))
    if measure is BoardMoisture:
        return _near_subfloor(facts, room)
    taken = damp_limits(firm, facts, room).get(measure)
    return None if taken is None else Limit(most=taken.most, taken=taken)


def is_good(reading: ReadingDraft, limit: Limit) -> bool:
    """Whether a reading keeps to its limit, the limit itself included."""
    measure = reading.measure
    if isinstance(measure, Air):
        return limit.climate is None or limit.climate.holds(measure.temp_c, measure.rh_percent)
    figure = _figure(reading)
    if figure is None:
        return True
    if limit.near is not None and limit.apart is not None:
        return abs(figure - limit.near) <= limit.apart
    return limit.most is None or figure <= limit.most


def is_levelled_away(reading: ReadingDraft, facts: JobFacts) -> bool:
    """Whether a reading of flatness no longer counts, because its room was levelled after it."""
    return isinstance(reading.measure, Straightedge | LevelGrid) and any(
        one.room == reading.room and one.at >= reading.at for one in facts.smoothings
    )


def is_made_void(reading: ReadingDraft, facts: JobFacts) -> bool:
    """Whether a moisture reading of a subfloor no longer counts, because of a leak or the like after it."""
    return isinstance(reading.measure, Carbide | Hygrometer | InSituProbe | TimberSubfloor) and any(
        one.room == reading.room and one.at >= reading.at for one in facts.voidings
    )


def _near_subfloor(facts: JobFacts, room: Room) -> Limit | None:
    if not room.subfloor.is_timber:
        return None
    readings = [one.measure for one in in_order(facts.readings, room.name) if isinstance(one.measure, TimberSubfloor)]
    if not readings:
        return None
    return Limit(near=readings[-1].percent, apart=moisture_gap_limit(facts.board(room.board).width_mm))


def _figure(reading: ReadingDraft) -> float | None:
    measure = reading.measure
    if isinstance(measure, Straightedge):
        return measure.gap_mm
    if isinstance(measure, LevelGrid):
        found = worst_gap(measure)
        return None if found is None else found.mm
    return dampness(reading)
