"""Turns the ledger's heaps into lines of stock: how much of which batch lies where, and what it is worth."""

from collections.abc import Iterable, Mapping
from datetime import date

from store.desk.cards import StockLine, StockSum
from store.trade.events import PlaceKind
from store.trade.ledger import Age, Heap
from store.trade.products import Board, Product
from store.trade.things import ProductKind
from store.trade.worth import worth_minor

UNOPENED = frozenset({PlaceKind.ROOM, PlaceKind.UNIT, PlaceKind.SHELF})
"""Places whose packs are sound, whole and in the firm's hands."""

_FOR_A_JOB = frozenset({PlaceKind.ROOM, PlaceKind.UNIT, PlaceKind.OPENED})
_ORDER = tuple(PlaceKind)


def stock_lines(
    heaps: Mapping[Heap, int],
    products: Mapping[str, Product],
    titles: Mapping[str, str],
    ages: Mapping[tuple[str, str, str], Age],
) -> tuple[StockLine, ...]:
    """Return a line for each heap, by product, batch and place.

    Args:
        heaps: what lies where, in boards or tubs.
        products: by code.
        titles: of the jobs, by reference.
        ages: when each product's batch came and goes off, by code, batch and job; under no job the batch as a whole.
    """
    batches = _batches(heaps, products)
    lines = []
    for heap, pieces in heaps.items():
        product = products[heap.product]
        per_pack = product.boards_per_pack if isinstance(product, Board) else 1
        # Towards nought, so that what is missing shows as so many packs and boards less than none.
        packs = int(pieces / per_pack)
        boards = pieces - packs * per_pack
        lot = (heap.product, heap.batch)
        age = ages.get((*lot, heap.job_ref)) or ages.get((*lot, ""), Age())
        lines.append(
            StockLine(
                product=heap.product,
                product_name=product.name,
                kind=product.kind,
                thing=product.thing,
                batch=heap.batch,
                place=heap.kind,
                room=heap.room,
                job_ref=heap.job_ref,
                job_title=titles.get(heap.job_ref, ""),
                packs=packs,
                boards=boards,
                worth_minor=worth_minor(product, packs, boards),
                batches=len(batches.get((heap.job_ref, heap.product), {heap.batch})) if heap.kind in _FOR_A_JOB else 1,
                since=age.since,
                use_by=age.use_by,
            )
        )
    return tuple(sorted(lines, key=lambda one: (one.product, one.batch, *_where(one))))


def by_place(lines: Iterable[StockLine]) -> tuple[StockLine, ...]:
    """Return the lines by place: the firm's own unit first, then job by job, room by room."""

    def key(one: StockLine) -> tuple[bool, str, int, str, str, str]:
        return (
            one.place is not PlaceKind.SHELF,
            one.job_ref,
            _ORDER.index(one.place),
            one.room,
            one.product,
            one.batch,
        )

    return tuple(sorted(lines, key=key))


def stock_sum(lines: Iterable[StockLine], today: date) -> StockSum:
    """Return how much lies unopened and sound in the unit and in the rooms, and what it is worth."""
    lying = [one for one in lines if one.place in UNOPENED]
    mine = [one for one in lying if one.use_by is None or one.use_by >= today]
    boards = [one for one in mine if one.kind is ProductKind.BOARD]
    return StockSum(
        packs=sum(one.packs for one in boards),
        boards=sum(one.boards for one in boards),
        tubs=sum(one.packs for one in mine if one.kind is ProductKind.GLUE),
        materials=sum(one.packs for one in mine if one.kind is ProductKind.MATERIAL),
        worth_minor=sum(one.worth_minor for one in mine),
        stale=sum(one.packs for one in lying if one.use_by is not None and one.use_by < today),
    )


def _where(one: StockLine) -> tuple[int, str, str]:
    return (_ORDER.index(one.place), one.job_ref, one.room)


def _batches(heaps: Mapping[Heap, int], products: Mapping[str, Product]) -> dict[tuple[str, str], set[str]]:
    """The batches of each board that lie with each job, opened or not."""
    found: dict[tuple[str, str], set[str]] = {}
    for heap, pieces in heaps.items():
        if heap.kind in _FOR_A_JOB and pieces > 0 and isinstance(products[heap.product], Board):
            found.setdefault((heap.job_ref, heap.product), set()).add(heap.batch)
    return found
