"""The close-out sum of a board: ordered = used + left + returned + scrapped, and what is unaccounted for.

Everything is counted in single boards, so that full packs and loose boards add up. Money is in minor units.
"""

from dataclasses import dataclass
from fractions import Fraction

from store.trade.buying.steps import boards_for_stairs
from store.trade.events import Destination, PlaceKind
from store.trade.facts import JobFacts
from store.trade.jobs import Room
from store.trade.laying import laid_mm2
from store.trade.needs import boards_worth, loss_percent
from store.trade.products import Board, BoardDraft
from store.trade.stacks import packs_damaged, packs_delivered, packs_in_unit, packs_ordered


@dataclass(frozen=True, slots=True, kw_only=True)
class Reckoning:
    """Where every board of one product went, in boards, for one job.

    The balance: ``ordered + from_stock + more_came + found = never_came + damaged + to_stock + missing + used
    + customer + unit + returned + scrapped + unaccounted``; ``found`` and ``missing`` are what stock-takes of the
    unit said of packs kept for the job. ``used`` is what openings and counts say went into the floor;
    ``unaccounted`` is what came, was never opened and was not counted, nought where no opening was written down (then
    all that is not left counts as used). ``unit`` is what was counted back there and what never left it.
    ``stairs`` are the boards of those used that were reckoned for stairs clad with them; ``used_mm2`` is without them.
    ``real_loss_percent`` is (area used − floor laid) ÷ floor laid; negative where more floor was laid than boards were
    used, which cannot be.
    """

    product: str
    boards_per_pack: int
    ordered: int
    never_came: int
    more_came: int
    damaged: int
    from_stock: int
    to_stock: int
    found: int
    missing: int
    opened: int | None
    used: int
    customer: int
    unit: int
    returned: int
    scrapped: int
    unaccounted: int
    counted: bool
    laid_mm2: int
    used_mm2: int
    real_loss_percent: float | None
    allowed_loss_percent: float
    lost_minor: int
    unaccounted_minor: int
    stairs: int = 0

    @property
    def adds_up(self) -> bool:
        """Whether nothing is missing and no more floor was laid than boards were used for it."""
        short_of_floor = self.real_loss_percent is not None and self.real_loss_percent < 0
        return self.unaccounted == 0 and self.used >= 0 and not short_of_floor


def reckon(facts: JobFacts, code: str) -> Reckoning:
    """Return where every board of one product went.

    Raises:
        KeyError: ``code`` is not a board on file.
    """
    board = facts.board(code)
    per_pack = board.boards_per_pack
    ordered, came = packs_ordered(facts, code) * per_pack, packs_delivered(facts, code) * per_pack
    damaged = packs_damaged(facts, code) * per_pack
    from_stock, to_stock = (packs * per_pack for packs in _through_stock(facts, code))
    found, missing = (packs * per_pack for packs in _by_stock_take(facts, code))
    left = _left(facts, board)
    in_unit = packs_in_unit(facts, code) * per_pack
    left[Destination.UNIT] += in_unit
    on_hand = came - damaged + from_stock - to_stock + found - missing
    opened = _opened_packs(facts, code)
    if opened is None:
        used, unaccounted = on_hand - sum(left.values()), 0
    else:
        loose = _loose_boards(facts, board, on_hand - in_unit - opened * per_pack)
        used = opened * per_pack - loose
        unaccounted = on_hand - used - sum(left.values())
    laid = sum(laid_mm2(facts, room) for room in facts.rooms_with(code))
    stairs = max(0, min(used, boards_for_stairs(facts, code)))
    used_mm2 = round((used - stairs) * board.board_mm2)
    return Reckoning(
        product=code,
        boards_per_pack=per_pack,
        ordered=ordered,
        never_came=max(0, ordered - came),
        more_came=max(0, came - ordered),
        damaged=damaged,
        from_stock=from_stock,
        to_stock=to_stock,
        found=found,
        missing=missing,
        opened=None if opened is None else opened * per_pack,
        used=used,
        customer=left[Destination.CUSTOMER],
        unit=left[Destination.UNIT],
        returned=left[Destination.RETURN],
        scrapped=left[Destination.SCRAP],
        unaccounted=unaccounted,
        counted=any(count.product == code for count in facts.counts),
        laid_mm2=laid,
        used_mm2=used_mm2,
        real_loss_percent=float(Fraction(100 * (used_mm2 - laid), laid)) if laid else None,
        allowed_loss_percent=_allowed_loss(facts, code),
        lost_minor=_worth(board, (used_mm2 - laid) / board.board_mm2) if laid else 0,
        unaccounted_minor=_worth(board, Fraction(unaccounted)),
        stairs=stairs,
    )


def packs_used(facts: JobFacts, board: BoardDraft) -> int:
    """Return how many packs went into the floor, as far as is known, rounded up.

    Counted leftovers say it best, then the packs opened; before either, the floor laid with the allowed loss.
    """
    rooms = facts.rooms_with(board.code)
    laid = sum(laid_mm2(facts, room) for room in rooms)
    if laid == 0:
        return _opened_packs(facts, board.code) or 0
    if any(count.product == board.code for count in facts.counts):
        return max(0, -(-reckon(facts, board.code).used // board.boards_per_pack))
    opened = _opened_packs(facts, board.code)
    if opened is not None:
        return opened
    with_loss = sum((_laid_with_loss(facts, room, board) for room in rooms), Fraction())
    return -(-with_loss // board.pack_mm2)


def _laid_with_loss(facts: JobFacts, room: Room, board: BoardDraft) -> Fraction:
    """The boards that went into the floor laid so far, mm², as far as the room's plan or allowance can say."""
    return boards_worth(facts, room) * board.board_mm2 * laid_mm2(facts, room) / room.net_mm2


def _through_stock(facts: JobFacts, code: str) -> tuple[int, int]:
    """Packs that came to the job from free stock, and packs that went back there before the count."""
    came = sum(move.packs for move in facts.moves if move.product == code and move.source.kind is PlaceKind.SHELF)
    went = sum(move.packs for move in facts.moves if move.product == code and move.target.kind is PlaceKind.SHELF)
    return came, went


def _by_stock_take(facts: JobFacts, code: str) -> tuple[int, int]:
    """Packs kept for the job that a stock-take found beyond the file, and packs that it missed."""
    more = [one.packs_more for one in facts.differences if one.product == code]
    return sum(packs for packs in more if packs > 0), -sum(packs for packs in more if packs < 0)


def _left(facts: JobFacts, board: Board) -> dict[Destination, int]:
    left = dict.fromkeys(Destination, 0)
    for count in facts.counts:
        if count.product == board.code:
            left[count.to] += count.packs * board.boards_per_pack + count.boards
    return left


def _opened_packs(facts: JobFacts, code: str) -> int | None:
    """Packs opened for laying, or None where nobody wrote one down."""
    opened = [one.packs for one in facts.openings if one.product == code]
    return sum(opened) if opened else None


def _loose_boards(facts: JobFacts, board: Board, unopened: int) -> int:
    """Counted boards that came out of opened packs: the loose ones, and full packs beyond what was unopened."""
    counts = [count for count in facts.counts if count.product == board.code]
    full = sum(count.packs for count in counts) * board.boards_per_pack
    return sum(count.boards for count in counts) + max(0, full - max(0, unopened))


def _allowed_loss(facts: JobFacts, code: str) -> float:
    """The cut loss allowed over the board's rooms together, % of their floor; a planned room's is its plan's."""
    rooms = facts.rooms_with(code)
    floor = sum(room.net_mm2 for room in rooms)
    return sum(room.net_mm2 * loss_percent(facts, room) for room in rooms) / floor if floor else 0.0


def _worth(board: Board, boards: Fraction) -> int:
    """What so many boards cost, in minor units, rounded half up."""
    return (boards * board.price_minor / board.boards_per_pack + Fraction(1, 2)) // 1
