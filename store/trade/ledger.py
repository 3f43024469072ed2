"""The ledger of packs: every one is somewhere, and what is on hand is always the sum of what was moved."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from itertools import groupby

from store.trade.events import Destination, Place, PlaceKind

WHERE_COUNTED_GO = {
    Destination.CUSTOMER: PlaceKind.CUSTOMER,
    Destination.UNIT: PlaceKind.SHELF,
    Destination.RETURN: PlaceKind.RETURN,
    Destination.SCRAP: PlaceKind.SCRAP,
}
"""Leftovers counted back to the unit are free for any job: they go on its shelf."""


class Cause(StrEnum):
    """Why packs moved."""

    DELIVERY = "delivery"
    MOVE = "move"
    OPENING = "opening"
    COUNT = "count"
    STOCK_TAKE = "stock-take"


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """Packs and loose boards of one batch going from one place to another, for one job.

    ``job_ref`` is empty where a stock-take of free stock is booked, which belongs to none.
    ``damaged_packs`` of a delivery's packs are set aside instead of going to the target.
    """

    id: int
    job_ref: str
    job_closed: bool
    at: datetime
    cause: Cause
    product: str
    batch: str
    packs: int
    damaged_packs: int
    boards: int
    source: Place
    target: Place
    use_by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Heap:
    """Where something lies and whose it is; free stock and what left the firm's hands belong to no open job."""

    product: str
    batch: str
    kind: PlaceKind
    room: str
    job_ref: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Age:
    """When the first of a batch came to the firm, and the earliest last day of use that one of its tubs says."""

    since: datetime | None = None
    use_by: date | None = None


_SHARED = {PlaceKind.SHELF, PlaceKind.SUPPLIER}
"""Places where stock belongs to no job in particular."""

_CAUSES = tuple(Cause)

_NOT_KEPT = {PlaceKind.SUPPLIER, PlaceKind.FOUND}
"""Places of which only is told what came from there."""

_LASTING = {PlaceKind.SHELF, PlaceKind.CUSTOMER}
"""Places that still hold a closed job's leftovers."""


def balances(movements: Iterable[Movement], boards_per_pack: Mapping[str, int]) -> dict[Heap, int]:
    """Return what lies where, in single boards (tubs for glue), by heap; nought is left out.

    Counts leave a job's site as a whole: full packs come from its rooms, the fullest heap first, then from
    opened packs; loose boards come from opened packs, and where none was written down, from a room's heap. What is
    of one moment is taken deliveries first and counts last, so that the order of entry changes no balance.
    What lies at the supplier's is not kept, nor where found packs were: what came is what matters. Of a closed job
    only what it left on the shelf or with the customer is kept, and what still lay in the unit for it, which is free
    from then on: the rest is taken to be in its floor.
    """
    heaps: dict[Heap, int] = {}
    _enter(heaps, movements, boards_per_pack)
    return {heap: boards for heap, boards in heaps.items() if boards}


def overdrawn(movements: Iterable[Movement], boards_per_pack: Mapping[str, int]) -> dict[Heap, int]:
    """Return the heaps that were ever below nought, each with the single boards (tubs) it was short of at worst.

    It is looked at once all that is of one moment is entered.
    """
    heaps: dict[Heap, int] = {}
    short: dict[Heap, int] = {}
    for _, together in groupby(sorted(movements, key=_turn), key=lambda one: one.at):
        _enter(heaps, together, boards_per_pack)
        for heap, boards in heaps.items():
            if boards < 0:
                short[heap] = max(short.get(heap, 0), -boards)
    return short


def _enter(heaps: dict[Heap, int], movements: Iterable[Movement], boards_per_pack: Mapping[str, int]) -> None:
    """Enter movements into the heaps, in the ledger's order."""

    def put(one: Movement, place: Place, boards: int) -> None:
        heap = _heap(one, place)
        if place.kind not in _NOT_KEPT and (heap.kind in _LASTING or not one.job_closed):
            heaps[heap] = heaps.get(heap, 0) + boards

    for one in sorted(movements, key=_turn):
        per_pack = boards_per_pack.get(one.product, 1)
        boards = (one.packs - one.damaged_packs) * per_pack + one.boards
        put(one, one.target, boards)
        if one.damaged_packs:
            put(one, Place(kind=PlaceKind.ASIDE), one.damaged_packs * per_pack)
        if one.source.kind is not PlaceKind.SITE:
            put(one, one.source, -boards)
        elif not one.job_closed:
            _take_from_site(heaps, one, per_pack)


def _heap(one: Movement, place: Place) -> Heap:
    kind = PlaceKind.SHELF if one.job_closed and place.kind is PlaceKind.UNIT else place.kind
    job_ref = "" if kind in _SHARED else one.job_ref
    return Heap(product=one.product, batch=one.batch, kind=kind, room=place.room, job_ref=job_ref)


def _turn(one: Movement) -> tuple[object, ...]:
    """The place of a movement in the ledger's order: all that can change a balance, and nothing else."""
    places = (one.source.kind, one.source.room, one.target.kind, one.target.room)
    return (one.at, _CAUSES.index(one.cause), one.job_ref, one.product, one.batch, *places, one.packs, one.boards)


def _take_from_site(heaps: dict[Heap, int], one: Movement, per_pack: int) -> None:
    """Take what was counted from the job's rooms and opened packs; a shortfall shows as less than nought opened."""
    opened = _heap(one, Place(kind=PlaceKind.OPENED))
    rooms = sorted((heap for heap in heaps if _is_in_room_of(heap, one)), key=lambda heap: (-heaps[heap], heap.room))
    heaps.setdefault(opened, 0)
    for boards, heaps_in_turn in ((one.packs * per_pack, [*rooms, opened]), (one.boards, [opened, *rooms])):
        left = boards
        for heap in heaps_in_turn:
            taken = min(left, max(0, heaps[heap]))
            heaps[heap] -= taken
            left -= taken
        heaps[opened] -= left


def _is_in_room_of(heap: Heap, one: Movement) -> bool:
    same = heap.product == one.product and heap.batch == one.batch and heap.job_ref == one.job_ref
    return same and heap.kind is PlaceKind.ROOM
