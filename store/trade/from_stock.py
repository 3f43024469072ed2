"""What a job can take from free stock in the unit before anything is ordered: the same board, of one batch."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from store.trade.batches import alike
from store.trade.events import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeLot:
    """Whole packs or tubs of one batch that stand free in the unit; ``use_by`` where a tub says one."""

    product: str
    batch: str
    packs: int
    use_by: date | None = None


def boards_from_stock(needed: int, free: Mapping[str, int], with_job: Collection[str]) -> dict[str, int]:
    """Return the packs of a board to take from free stock, by batch.

    Boards of two batches can differ in colour, so a job that has some already is offered no other batch; one that has
    none is offered a single batch, the smallest heap that is enough, else the largest.

    >>> boards_from_stock(5, {"K42": 6, "K43": 20, "K44": 2}, with_job=())
    {'K42': 5}
    >>> boards_from_stock(5, {"K42": 6, "K44": 2}, with_job=("K44",))
    {'K44': 2}
    >>> boards_from_stock(9, {"K42": 6, "K44": 2}, with_job=())
    {'K42': 6}
    """
    lying = {batch: packs for batch, packs in free.items() if packs > 0}
    if with_job:
        same = (batch for batch in lying if any(alike(batch, one) for one in with_job))
        mine = sorted(same, key=lambda batch: (-lying[batch], batch))
    else:
        enough = sorted((packs, batch) for batch, packs in lying.items() if packs >= needed)
        most = sorted((-packs, batch) for batch, packs in lying.items())
        mine = [batch for _, batch in (enough or most)[:1]]
    return _taken(needed, ((batch, lying[batch]) for batch in mine))


def tubs_from_stock(needed: int, free: Iterable[FreeLot], today: date) -> dict[str, int]:
    """Return the tubs to take from free stock, by batch: those that go off first, and none past their day.

    >>> old = FreeLot(product="GLUE", batch="G1", packs=2, use_by=date(2026, 11, 1))
    >>> soon = FreeLot(product="GLUE", batch="G2", packs=2, use_by=date(2026, 12, 24))
    >>> tubs_from_stock(3, (FreeLot(product="GLUE", batch="G3", packs=5), soon, old), date(2026, 11, 30))
    {'G2': 2, 'G3': 1}
    """
    good = [one for one in free if one.packs > 0 and (one.use_by is None or one.use_by >= today)]
    return _taken(needed, ((one.batch, one.packs) for one in sorted(good, key=lambda one: one.use_by or date.max)))


def left_to_order(needed: Iterable[OrderLine], kept: Mapping[str, int]) -> tuple[OrderLine, ...]:
    """Return what is still to be ordered when so many packs of each product come from free stock."""
    rest = (OrderLine(product=line.product, packs=line.packs - kept.get(line.product, 0)) for line in needed)
    return tuple(line for line in rest if line.packs > 0)


def _taken(needed: int, heaps: Iterable[tuple[str, int]]) -> dict[str, int]:
    taken: dict[str, int] = {}
    for batch, packs in heaps:
        if needed <= 0:
            break
        taken[batch] = min(needed, packs)
        needed -= taken[batch]
    return taken
