"""What is bought: boards by the pack and glue by the tub, as their makers' sheets describe them."""

from dataclasses import dataclass, fields
from enum import StrEnum

from store.errors import Problem
from store.trade.firm import ClimateRange


class ProductKind(StrEnum):
    """The kinds of product the shop knows."""

    BOARD = "board"
    GLUE = "glue"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardDraft:
    """A floor board as its maker's sheet says.

    ``price_minor`` is the price of one pack in the firm's minor money unit. ``climate`` is the maker's own
    range of room air; None leaves the firm's default in force.
    """

    code: str
    name: str
    length_mm: int
    width_mm: int
    thickness_mm: int
    boards_per_pack: int
    acclimatise_hours: int
    build: str = ""
    species: str = ""
    price_minor: int = 0
    climate: ClimateRange | None = None

    @property
    def kind(self) -> ProductKind:
        return ProductKind.BOARD

    @property
    def board_mm2(self) -> int:
        """The face of one board, mm²."""
        return self.length_mm * self.width_mm

    @property
    def pack_mm2(self) -> int:
        """What one pack covers, mm²."""
        return self.board_mm2 * self.boards_per_pack


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueDraft:
    """A glue as its tub says: how much, how long it stays open, when it may be walked on and loaded."""

    code: str
    name: str
    rate_g_per_m2: int
    tub_kg: float
    open_time_min: int
    walk_on_hours: int
    full_load_hours: int
    price_minor: int = 0

    @property
    def kind(self) -> ProductKind:
        return ProductKind.GLUE


@dataclass(frozen=True, slots=True, kw_only=True)
class Board(BoardDraft):
    """A board on file."""

    id: int
    rev: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue(GlueDraft):
    """A glue on file."""

    id: int
    rev: int


ProductDraft = BoardDraft | GlueDraft
Product = Board | Glue

MAX_PRICE_MINOR = 100_000_000
_BOARD_SIZES = (
    ("length_mm", "length", 50, 10_000),
    ("width_mm", "width", 10, 2_000),
    ("thickness_mm", "thickness", 1, 100),
    ("boards_per_pack", "number of boards in a pack", 1, 10_000),
    ("acclimatise_hours", "acclimatisation time in hours", 0, 8_760),
)
_GLUE_SIZES = (
    ("rate_g_per_m2", "rate in g/m²", 1, 20_000),
    ("open_time_min", "open time in minutes", 1, 1_440),
    ("walk_on_hours", "walking time in hours", 0, 2_000),
    ("full_load_hours", "full-load time in hours", 0, 4_000),
)


def problems_with_product(draft: ProductDraft) -> tuple[Problem, ...]:
    """Return what is wrong with a product, a sentence for each field."""
    found: list[Problem] = []
    if not draft.code.strip() or len(draft.code) > 40:
        found.append(Problem(field="code", say="Give the product a code of 1 to 40 characters."))
    if not draft.name.strip():
        found.append(Problem(field="name", say="Give the product a name."))
    sizes = _BOARD_SIZES if isinstance(draft, BoardDraft) else _GLUE_SIZES
    for field, word, least, most in sizes:
        value: int = getattr(draft, field)
        if not least <= value <= most:
            found.append(Problem(field=field, say=f"The {word} is a whole number from {least} to {most}, not {value}."))
    if not 0 <= draft.price_minor <= MAX_PRICE_MINOR:
        found.append(Problem(field="price_minor", say="A price is from 0 to 1,000,000.00."))
    if isinstance(draft, GlueDraft):
        if not 0 < draft.tub_kg <= 1_000:
            found.append(Problem(field="tub_kg", say="A tub holds more than 0 and up to 1,000 kg."))
        if draft.full_load_hours < draft.walk_on_hours:
            found.append(
                Problem(field="full_load_hours", say="Full load cannot come before the floor may be walked on.")
            )
    return tuple(found)


def same_product(one: ProductDraft, other: ProductDraft) -> bool:
    """Whether two products say the same, whatever number either has on file."""
    return _terms(one) == _terms(other)


def _terms(product: ProductDraft) -> tuple[object, ...]:
    sheet = BoardDraft if isinstance(product, BoardDraft) else GlueDraft
    return (sheet, *(getattr(product, field.name) for field in fields(sheet)))
