"""A flight of stairs of a job as it was surveyed: what is measured, what is wished, and what it is clad with."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum

from store.errors import Problem, Refused
from store.trade.flight_sum import Measured, flight_sum
from store.trade.outline import Ring, faults_in_outline
from store.trade.stairs import STAIR_CODES

MOST_NAME = 80
MOST_WINDERS = 20
MOST_CORNERS = 60
_SIZES = (
    ("rise_mm", "height from floor to floor", 50, 30_000),
    ("width_mm", "width of the stairs", 300, 20_000),
    ("going_mm", "going", 50, 2_000),
    ("run_mm", "length there is", 50, 100_000),
    ("risers", "number of risers", 1, 200),
    ("nosing_mm", "nosing", 0, 200),
    ("winder_treads", "number of winders", 0, MOST_WINDERS),
)


class Turn(StrEnum):
    """How a flight goes up."""

    STRAIGHT = "straight"
    QUARTER = "quarter_turn"
    HALF = "half_turn"


@dataclass(frozen=True, slots=True, kw_only=True)
class FlightDraft:
    """A flight from floor to floor, all in mm, floors as they will be when finished.

    ``going_mm`` is the going wished, ``run_mm`` the level length there is for the straight treads; one of them is
    known. ``risers`` is counted, or left to the code, a key of ``STAIR_CODES``. ``winders`` is the outline of a turn's
    tapered treads and ``winder_treads`` how many lie in it. ``board`` is the code of what it is clad with; None for
    treads bought ready.
    """

    name: str
    rise_mm: int
    width_mm: int
    code: str
    going_mm: int | None = None
    run_mm: int | None = None
    risers: int | None = None
    nosing_mm: int = 25
    open_risers: bool = False
    turn: Turn = Turn.STRAIGHT
    winders: Ring = ()
    winder_treads: int = 0
    board: str | None = None

    @property
    def measured(self) -> Measured:
        """What the sum of its steps is made from."""
        return Measured(
            rise_mm=self.rise_mm,
            width_mm=self.width_mm,
            code=self.code,
            going_mm=self.going_mm,
            run_mm=self.run_mm,
            risers=self.risers,
            nosing_mm=self.nosing_mm,
            winders=self.winders,
            winder_treads=self.winder_treads,
            open_risers=self.open_risers,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Flight(FlightDraft):
    """A flight on file."""

    id: int
    rev: int


def problems_with_flight(draft: FlightDraft, boards: Collection[str], others: Collection[str]) -> tuple[Problem, ...]:
    """Return what is wrong with a flight.

    Args:
        draft: the flight.
        boards: the codes of the boards on file.
        others: the names of the job's other flights.
    """
    found = [*_name(draft, others), *_figures(draft), *_turn(draft)]
    if draft.board is not None and draft.board not in boards:
        found.append(Problem(field="board", say=f"There is no board “{draft.board}” on file."))
    if not found:
        try:
            flight_sum(draft.measured)
        except Refused as no:
            found.append(Problem(field="rise_mm", say=str(no)))
    return tuple(found)


def _name(draft: FlightDraft, others: Collection[str]) -> Iterator[Problem]:
    if not draft.name.strip() or len(draft.name) > MOST_NAME:
        yield Problem(field="name", say=f"Give the stairs a name of 1 to {MOST_NAME} characters.")
    elif draft.name in others:
        yield Problem(field="name", say=f"The job has stairs “{draft.name}” already.")


def _figures(draft: FlightDraft) -> Iterator[Problem]:
    for field, word, least, most in _SIZES:
        value: int | None = getattr(draft, field)
        if value is not None and not least <= value <= most:
            say = f"The {word} is a whole number from {least:,} to {most:,}, not {value:,}."
            yield Problem(field=field, say=say)
    if draft.going_mm is None and draft.run_mm is None:
        yield Problem(field="going_mm", say="Say the going wished, or the length there is for the treads.")
    if draft.code not in STAIR_CODES:
        yield Problem(field="code", say=f"There is no building code “{draft.code}” here.")


def _turn(draft: FlightDraft) -> Iterator[Problem]:
    if draft.turn is Turn.STRAIGHT and (draft.winders or draft.winder_treads):
        yield Problem(field="turn", say="A straight flight has no winders; say how it turns.")
    elif bool(draft.winders) != bool(draft.winder_treads):
        say = "Winders are told by their outline and by how many lie in it; give both, or neither."
        yield Problem(field="winders", say=say)
    elif len(draft.winders) > MOST_CORNERS:
        yield Problem(field="winders", say=f"The outline of winders has up to {MOST_CORNERS} corners.")
    elif draft.winders:
        yield from (Problem(field="winders", say=one) for one in faults_in_outline(draft.winders)[:1])
