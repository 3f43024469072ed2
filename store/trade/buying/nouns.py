"""The nouns of a job's take-off: the things bought, how each amount was worked out, and lines set by hand."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from store.trade.materials import Material
from store.trade.things import Thing
from store.trade.verdict import Need


class Caution(StrEnum):
    """What can hurt somebody, said beside the line it belongs to."""

    HEAVY = "heavy"
    DUST = "dust"
    HIDDEN = "hidden"
    PRIMER_SHEET = "primer_sheet"
    TRAINING = "training"
    STAIRS = "stairs"


class Missing(StrEnum):
    """What keeps a room's part of a line from being worked out."""

    NO_GLUE = "no_glue"
    NO_GRID = "no_grid"
    UNREAD_POINTS = "unread_points"
    NO_SUM = "no_sum"
    WINDERS = "winders"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLineDraft:
    """What somebody sets for one line of a job's take-off, and why.

    ``product`` is the code of the board or glue that the line is about; of every other thing it is the product chosen
    to buy it as, empty where none is. ``wanted`` is False where the line is left out. What is None or empty stays as
    worked out: how many ``units``; the ``size`` of one (kg, m of a roll, mm of a stick, pieces in a box), the
    ``width_mm`` of a roll, the ``rate`` (g/m², of compound kg for each m² and mm); of glue, the ``notch`` it is spread
    with.
    """

    thing: Thing
    at: datetime
    why: str
    product: str = ""
    wanted: bool = True
    units: int | None = None
    size: float | None = None
    width_mm: int | None = None
    rate: float | None = None
    notch: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnLine(OwnLineDraft):
    """A line set by hand, on file; never changed, only taken back."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ByNeed:
    """Boards: what the rooms need together, and the face of a pack in mm²."""

    need: Need
    pack_mm2: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BySpread:
    """Glue or primer: an area at so many g/m², with the notch that the rate is from, if it is."""

    area_mm2: int
    g_per_m2: float
    kg: float
    notch: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """The compound of one room: its area, the mean depth in mm that a level grid shows, and kg."""

    room: str
    area_mm2: int
    depth_mm: float
    kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ByDepth:
    """Compound: room by room, at so many kg for each m² and mm."""

    fills: tuple[Fill, ...]
    rate: float
    kg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Strips:
    """The strips of one room: how many, and how long each is in mm."""

    room: str
    strips: int
    strip_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ByStrips:
    """Film or underlay: strips on the rectangle round each room, from rolls of a width."""

    rooms: tuple[Strips, ...]
    width_mm: int
    overlap_mm: int
    turn_up_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BySticks:
    """Skirting: mm of wall in so many pieces; ``at_least`` sticks are needed by any list, ``proved`` if reached."""

    along_mm: float
    pieces: int
    at_least: int
    proved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ByPieces:
    """Screws: so many for so many pieces of skirting, at most ``spacing_mm`` apart."""

    screws: int
    pieces: int
    spacing_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ByDoorways:
    """Profiles: one for each doorway, one between two rooms of the job; the widest in mm."""

    doorways: int
    widest_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ByWall:
    """Wedges: one for every ``every_mm`` along the walls of the largest room, and used again in the next."""

    room: str
    wall_mm: float
    every_mm: int
    wedges: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ByCount:
    """So many sets for a number of rooms, or for the job where ``rooms`` is None."""

    rooms: int | None


class StepPiece(StrEnum):
    """What is cut for a flight; WINDERS are all the tapered treads of a turn as one rectangle."""

    TREAD = "tread"
    WINDERS = "winders"
    RISER = "riser"
    NOSING = "nosing"


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPart:
    """Pieces of one kind for one flight: how many, how long along the step and how deep, whole mm."""

    flight: str
    piece: StepPiece
    pieces: int
    long_mm: int
    deep_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class ByCladding:
    """Boards that clad stairs: the pieces, the width of a board in mm, and how many boards they come to."""

    parts: tuple[StepPart, ...]
    width_mm: int
    boards: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BySteps:
    """Ready treads, risers or nosing: the pieces; ``at_least`` are needed by any list, ``proved`` if reached."""

    parts: tuple[StepPart, ...]
    at_least: int
    proved: bool


How = (
    ByNeed | BySpread | ByDepth | ByStrips | BySticks | ByPieces | ByDoorways | ByWall | ByCount | ByCladding | BySteps
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BuyingLine:
    """One thing to buy: how many units of which size, how that was worked out, and what was set by hand.

    ``size`` is what a unit holds: kg, m of a roll, mm of a stick, pieces in a box, mm² of a pack of boards, 1 of a set.
    ``units`` is what was worked out. ``how`` is None for a line set by hand that nothing on file asks for any longer,
    or that is ``beyond_sum``: what was set lets no sum be made, and a gap says why.
    ``offered`` is False for what is bought only if somebody takes it up. ``usual``: a size or a rule in it is common
    practice, with no sheet behind it. ``unit_kg`` is about what a unit weighs, where that can be told. ``product`` is
    the code of what it is bought as, empty where none is on file; ``sheet`` is that product, where it is a material.
    """

    thing: Thing
    product: str = ""
    size: float = 1
    units: int = 0
    how: How | None
    offered: bool = True
    usual: bool = False
    unit_kg: float | None = None
    cautions: tuple[Caution, ...] = ()
    own: OwnLine | None = None
    sheet: Material | None = None
    beyond_sum: bool = False

    @property
    def key(self) -> str:
        """What the line is known by in its job, whatever it is bought as."""
        return f"{self.thing.value}:{self.product if self.thing.is_product else ''}"

    @property
    def warns(self) -> bool:
        """Whether something in it can hurt somebody."""
        return bool(self.cautions) or (self.sheet is not None and bool(self.sheet.safety))

    @property
    def is_left_out(self) -> bool:
        """Whether none of it is bought."""
        return not self.offered if self.own is None else not self.own.wanted

    @property
    def to_buy(self) -> int:
        """How many units are bought."""
        if self.is_left_out:
            return 0
        return self.units if self.own is None or self.own.units is None else self.own.units


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """What could not be worked out for a room (or for the job, where that is empty), and the sum's own sentence."""

    thing: Thing
    missing: Missing
    room: str = ""
    say: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Buying:
    """The take-off of a job: its lines in the order of things, and what could not be worked out."""

    lines: tuple[BuyingLine, ...] = ()
    gaps: tuple[Gap, ...] = ()
