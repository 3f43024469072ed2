"""What is bought: boards by the pack, glue by the tub and materials by their unit, as their sheets describe them."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from fractions import Fraction

from store.errors import Problem
from store.trade.firm import ClimateRange
from store.trade.materials import Material, MaterialDraft, problems_with_sheet
from store.trade.own_limits import OwnLimit, problems_with_limits
from store.trade.things import ProductKind, Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardDraft:
    """A floor board as its maker's sheet says.

    ``price_minor`` is the price of one pack in the firm's minor money unit. ``climate`` is the maker's own
    range of room air; None leaves the firm's default in force.

    A pack may hold boards of several lengths: ``lengths`` tells each length and how many of it lie in a pack, the
    longest first, and ``length_mm`` is the longest. Or the lengths are as they come, from ``shortest_mm`` to
    ``length_mm``; then ``pack_run_mm`` is what the boards of a pack measure end to end. ``handed`` blocks come as left
    ones and right ones, in packs of their own. ``sheet_limits`` are the highest readings of the subfloor that the sheet
    allows. ``ready_when_stable``: the wait ends when the boards' moisture stands still, not after hours. ``lead_days``
    are the calendar days from an order to its delivery, where they are known; ``supplier`` is whom it is bought from.
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
    lengths: tuple[tuple[int, int], ...] = ()
    shortest_mm: int | None = None
    pack_run_mm: int | None = None
    handed: bool = False
    sheet_limits: tuple[OwnLimit, ...] = ()
    ready_when_stable: bool = False
    lead_days: int | None = None
    supplier: str = ""

    @property
    def kind(self) -> ProductKind:
        return ProductKind.BOARD

    @property
    def thing(self) -> Thing:
        return Thing.BOARDS

    @property
    def run_mm(self) -> int:
        """What the boards of a pack measure end to end, mm; for lengths as they come at least about that."""
        if self.lengths:
            return sum(length * count for length, count in self.lengths)
        if self.pack_run_mm is not None:
            return self.pack_run_mm
        if self.shortest_mm is not None:
            return self.boards_per_pack * (self.shortest_mm + self.length_mm) // 2
        return self.boards_per_pack * self.length_mm

    @property
    def board_mm2(self) -> Fraction:
        """The face of one board, mm²; of the average board where a pack holds several lengths."""
        return Fraction(self.pack_mm2, self.boards_per_pack)

    @property
    def pack_mm2(self) -> int:
        """What one pack covers, mm²."""
        return self.run_mm * self.width_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueDraft:
    """A glue as its tub says: how much, how long it stays open, when it may be walked on and loaded.

    ``sheet_limits`` are the highest readings of the subfloor that the sheet allows. ``needs_training``: whoever spreads
    it must be trained for diisocyanates (most two-part and polyurethane glues; the label says so).
    """

    code: str
    name: str
    rate_g_per_m2: int
    tub_kg: float
    open_time_min: int
    walk_on_hours: int
    full_load_hours: int
    price_minor: int = 0
    sheet_limits: tuple[OwnLimit, ...] = ()
    needs_training: bool = False
    lead_days: int | None = None
    supplier: str = ""

    @property
    def kind(self) -> ProductKind:
        return ProductKind.GLUE

    @property
    def thing(self) -> Thing:
        return Thing.GLUE


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


ProductDraft = BoardDraft | GlueDraft | MaterialDraft
Product = Board | Glue | Material

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
_SIZES = {ProductKind.BOARD: _BOARD_SIZES, ProductKind.GLUE: _GLUE_SIZES, ProductKind.MATERIAL: ()}


def problems_with_product(draft: ProductDraft) -> tuple[Problem, ...]:
    """Return what is wrong with a product, a sentence for each field."""
    found: list[Problem] = []
    if not draft.code.strip() or len(draft.code) > 40:
        found.append(Problem(field="code", say="Give the product a code of 1 to 40 characters."))
    if not draft.name.strip():
        found.append(Problem(field="name", say="Give the product a name."))
    for field, word, least, most in _SIZES[draft.kind]:
        value: int = getattr(draft, field)
        if not least <= value <= most:
            found.append(Problem(field=field, say=f"The {word} is a whole number from {least} to {most}, not {value}."))
    if not 0 <= draft.price_minor <= MAX_PRICE_MINOR:
        found.append(Problem(field="price_minor", say="A price is from 0 to 1,000,000.00."))
    if draft.lead_days is not None and not 0 <= draft.lead_days <= 730:
        found.append(Problem(field="lead_days", say="From an order to its delivery it takes from 0 to 730 days."))
    if isinstance(draft, MaterialDraft):
        return (*found, *problems_with_sheet(draft))
    found += problems_with_limits("sheet_limits", draft.sheet_limits)
    if isinstance(draft, BoardDraft):
        found += _problems_with_lengths(draft)
    if isinstance(draft, GlueDraft):
        if not 0 < draft.tub_kg <= 1_000:
            found.append(Problem(field="tub_kg", say="A tub holds more than 0 and up to 1,000 kg."))
        if draft.full_load_hours < draft.walk_on_hours:
            found.append(
                Problem(field="full_load_hours", say="Full load cannot come before the floor may be walked on.")
            )
    return tuple(found)


def _problems_with_lengths(board: BoardDraft) -> Iterator[Problem]:
    if board.lengths and board.shortest_mm is not None:
        yield Problem(field="lengths", say="A pack holds set lengths or lengths as they come, not both.")
    elif board.lengths:
        yield from _problems_with_set_lengths(board)
    elif board.shortest_mm is not None:
        if not 50 <= board.shortest_mm < board.length_mm:
            say = f"The shortest board is from 50 mm to less than the longest, {board.length_mm} mm."
            yield Problem(field="shortest_mm", say=say)
        elif board.pack_run_mm is not None and not _can_run(board, board.shortest_mm, board.pack_run_mm):
            say = f"{board.boards_per_pack} boards of these lengths cannot measure {board.pack_run_mm} mm end to end."
            yield Problem(field="pack_run_mm", say=say)
    elif board.pack_run_mm is not None:
        yield Problem(field="pack_run_mm", say="Only for lengths as they come; say the shortest board too.")


def _problems_with_set_lengths(board: BoardDraft) -> Iterator[Problem]:
    lengths = [length for length, _ in board.lengths]
    if len(lengths) > 20 or not all(50 <= length <= 10_000 and 1 <= count <= 10_000 for length, count in board.lengths):
        yield Problem(field="lengths", say="Give up to 20 lengths from 50 to 10,000 mm, each with 1 board or more.")
    elif sorted(set(lengths), reverse=True) != lengths:
        yield Problem(field="lengths", say="Give each length once, the longest first.")
    elif lengths[0] != board.length_mm:
        say = f"The longest in the pack, {lengths[0]} mm, is not the board's length, {board.length_mm} mm."
        yield Problem(field="lengths", say=say)
    elif sum(count for _, count in board.lengths) != board.boards_per_pack:
        say = f"The lengths add up to {sum(count for _, count in board.lengths)} boards, not {board.boards_per_pack}."
        yield Problem(field="lengths", say=say)


def _can_run(board: BoardDraft, shortest_mm: int, run_mm: int) -> bool:
    return board.boards_per_pack * shortest_mm <= run_mm <= board.boards_per_pack * board.length_mm


def same_product(one: ProductDraft, other: ProductDraft) -> bool:
    """Whether two products say the same, whatever number either has on file."""
    return _terms(one) == _terms(other)


def _terms(product: ProductDraft) -> tuple[object, ...]:
    sheet = sheet_of_kind(product.kind)
    return (sheet, *(getattr(product, field.name) for field in fields(sheet)))


def sheet_of_kind(kind: ProductKind) -> type[ProductDraft]:
    """Return the noun that a product of a kind is before it is filed."""
    sheets: dict[ProductKind, type[ProductDraft]] = {
        ProductKind.BOARD: BoardDraft,
        ProductKind.GLUE: GlueDraft,
        ProductKind.MATERIAL: MaterialDraft,
    }
    return sheets[kind]
