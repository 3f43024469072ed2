"""The nouns of what closed jobs taught: one lesson for each board and each glue of a job."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from store.trade.jobs import Subfloor
from store.trade.products import Board, Glue, Product
from store.trade.surveyed import Pattern


class Shape(StrEnum):
    """How much of a room's edge is corners: a plain rectangle, one with corners or recesses, or cut up."""

    RECTANGLE = "rectangle"
    CORNERS = "corners"
    CUT_UP = "cut_up"


class SizeBand(StrEnum):
    """How large a room is: under 12 m², 12 to 30 m², over 30 m²."""

    SMALL = "small"
    MIDDLE = "middle"
    LARGE = "large"


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorLesson:
    """What a closed job taught about one board: all its rooms laid with it are one floor, as they were counted.

    ``pattern``, ``shape`` and ``size`` are None where the rooms differ; ``fitters`` are those booked on the rooms.
    ``planned``: every room had a lay plan, so that ``allowed_percent`` is what the plans said. The amounts are boards:
    ``ordered`` counts those from free stock too; ``kept`` went to the customer, the unit or the supplier, ``scrapped``
    were thrown away, ``gone`` nobody can account for. ``adds_up``: nothing is unaccounted for, and no more floor was
    laid than boards were used. ``paid_minor`` is what the ``paid_packs`` cost of which the orders name a price.
    """

    product: str
    rooms: int
    pattern: Pattern | None
    shape: Shape | None
    size: SizeBand | None
    fitters: tuple[str, ...]
    planned: bool
    allowed_percent: float
    laid_mm2: int
    ordered: int
    used: int
    kept: int
    scrapped: int
    gone: int
    adds_up: bool
    paid_packs: int = 0
    paid_minor: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueLesson:
    """What a closed job taught about one glue: ``tubs`` went under ``glued_mm2`` of floor.

    ``notch`` is the one set by hand for the job, else empty. ``base`` is None where the rooms' subfloors differ.
    ``paid_minor`` is what the ``paid_packs`` tubs cost of which the orders name a price.
    """

    product: str
    rooms: int
    notch: str
    base: Subfloor | None
    glued_mm2: int
    ordered: int
    tubs: int
    paid_packs: int = 0
    paid_minor: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Taught:
    """The lessons of one job."""

    floors: tuple[FloorLesson, ...] = ()
    glues: tuple[GlueLesson, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class PastFloor:
    """A lesson on file with its job, and its board as its card says today."""

    ref: str
    title: str
    closed_at: datetime
    board: Board
    lesson: FloorLesson

    @property
    def used_mm2(self) -> float:
        """The faces of the boards used, mm²; a plain float, because thousands of floors are added up."""
        return self.lesson.used * self.board.pack_mm2 / self.board.boards_per_pack

    @property
    def price(self) -> tuple[int, int]:
        """What so many packs cost: minor units, packs; what was paid, else the price on the board's card."""
        return _price(self.lesson, self.board)

    @property
    def real_percent(self) -> float:
        """The real cut loss, % of the floor laid."""
        return 100 * (self.used_mm2 - self.lesson.laid_mm2) / self.lesson.laid_mm2


@dataclass(frozen=True, slots=True, kw_only=True)
class PastGlue:
    """A lesson about glue on file with its job, and the glue as its card says today."""

    ref: str
    title: str
    closed_at: datetime
    glue: Glue
    lesson: GlueLesson

    @property
    def price(self) -> tuple[int, int]:
        """What so many tubs cost: minor units, tubs; what was paid, else the price on the glue's card."""
        return _price(self.lesson, self.glue)

    @property
    def grams(self) -> float:
        """What the tubs held, g; tubs are counted whole, so a rest in the last one counts as used."""
        return self.lesson.tubs * self.glue.tub_kg * 1000


def _price(lesson: FloorLesson | GlueLesson, product: Product) -> tuple[int, int]:
    return (lesson.paid_minor, lesson.paid_packs) if lesson.paid_packs else (product.price_minor, 1)
