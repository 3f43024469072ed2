"""What is on hand for one job of one batch: whole packs in a room or in the unit, boards on site.

All of it is the ledger's sum over the job's own movements, so that no deed is let through by one rule and missed by
another.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, datetime

from store.trade.events import OPENED, SITE, SUPPLIER, CountDraft, MoveDraft, OpeningDraft, Place, PlaceKind, in_room
from store.trade.facts import JobFacts, known_at
from store.trade.ledger import WHERE_COUNTED_GO, Cause, Heap, Movement, balances, overdrawn
from store.trade.products import Board
from store.trade.stock_take import ends

_ON_SITE = {PlaceKind.ROOM, PlaceKind.OPENED}
_NEW = 0


def packs_at(facts: JobFacts, place: Place, product: str, batch: str) -> int:
    """Return the whole packs of one batch that lie unopened in a room, or in the unit for this job."""
    heap = Heap(product=product, batch=batch, kind=place.kind, room=place.room, job_ref=facts.job.ref)
    return _heaps(facts, product).get(heap, 0) // _per_pack(facts, product)


def unopened_in_room(facts: JobFacts, room: str, product: str, batch: str) -> int:
    """Return the whole packs of one batch that lie unopened in one room."""
    return packs_at(facts, in_room(room), product, batch)


def boards_on_site(facts: JobFacts, code: str, batch: str) -> int:
    """Return the boards of one batch in the job's rooms, opened or not, less what was counted away."""
    return sum(boards for heap, boards in _heaps(facts, code).items() if heap.batch == batch and heap.kind in _ON_SITE)


def spare_packs(facts: JobFacts, draft: MoveDraft | OpeningDraft) -> int:
    """Return how many of the whole packs a draft asks for its place had at that moment, and nothing has taken since.

    Counts take from the fullest room: so what is taken before one may leave another room short after it.
    """
    source = draft.source if isinstance(draft, MoveDraft) else in_room(draft.room)
    there = min(packs_at(known, source, draft.product, draft.batch) for known in _from_then_on(facts, draft.at))
    packs = min(draft.packs, there)
    while packs > 0 and leaves_short(facts, (_taken(facts, draft, packs),)):
        packs -= 1
    return there if packs == draft.packs else packs


def spare_boards(facts: JobFacts, code: str, batch: str, at: datetime) -> int:
    """Return the boards of one batch that were on site at a moment and that nothing has taken since."""
    return min(boards_on_site(known, code, batch) for known in _from_then_on(facts, at))


def counts_leave_short(facts: JobFacts, drafts: Iterable[CountDraft]) -> bool:
    """Whether a count would leave a room with less than was taken from it afterwards."""
    return leaves_short(facts, tuple(_counted(facts, one) for one in drafts))


def leaves_short(facts: JobFacts, more: Iterable[Movement]) -> bool:
    """Whether some place of the job would at some moment be short of more than it is, with these movements too."""
    return bool(worse(short_of(facts, more), short_of(facts)))


def worse(after: dict[Heap, int], before: dict[Heap, int]) -> tuple[Heap, ...]:
    """Return the places that are short of more than before."""
    return tuple(heap for heap, boards in after.items() if boards > before.get(heap, 0))


def short_of(facts: JobFacts, more: Iterable[Movement] = ()) -> dict[Heap, int]:
    """Return the places of a job that were ever short, with the single boards (tubs) they were short of at worst.

    Free stock is left out: what lies there came from other jobs too.
    """
    codes = dict.fromkeys(_touched(facts))
    movements = [one for code in codes for one in movements_of(facts, code)]
    short = overdrawn([*movements, *more], {code: _per_pack(facts, code) for code in codes})
    return {heap: boards for heap, boards in short.items() if heap.kind is not PlaceKind.SHELF}


def batches_on_site(facts: JobFacts) -> tuple[tuple[str, str], ...]:
    """Return every product and batch that came into the job's rooms, in the order of filing."""
    room = PlaceKind.ROOM
    came = [(line.product, line.batch) for one in facts.deliveries if one.into.kind is room for line in one.lines]
    came += [(one.product, one.batch) for one in facts.moves if one.target.kind is room]
    return tuple(dict.fromkeys(came))


def movements_of(facts: JobFacts, code: str) -> Iterator[Movement]:
    """Yield what moved of one product in a job, as the ledger enters it."""
    for one in facts.deliveries:
        for line in one.lines:
            if line.product == code:
                lot = (code, line.batch)
                came = _movement(facts, Cause.DELIVERY, one.at, lot, line.packs, (SUPPLIER, one.into))
                yield replace(came, damaged_packs=line.damaged_packs)
    yield from (_taken(facts, one, one.packs) for one in facts.moves if one.product == code)
    yield from (_taken(facts, one, one.packs) for one in facts.openings if one.product == code)
    yield from (_counted(facts, one) for one in facts.counts if one.product == code)
    for told in facts.differences:
        if told.product == code:
            between = ends(told.way, facts.job.ref)
            booked = _movement(facts, Cause.STOCK_TAKE, told.at, (code, told.batch), told.packs, between)
            yield replace(booked, boards=told.boards)


def _taken(facts: JobFacts, one: MoveDraft | OpeningDraft, packs: int) -> Movement:
    lot = (one.product, one.batch)
    if isinstance(one, MoveDraft):
        return _movement(facts, Cause.MOVE, one.at, lot, packs, (one.source, one.target))
    return _movement(facts, Cause.OPENING, one.at, lot, packs, (in_room(one.room), OPENED))


def _counted(facts: JobFacts, one: CountDraft) -> Movement:
    target = Place(kind=WHERE_COUNTED_GO[one.to])
    counted = _movement(facts, Cause.COUNT, one.at, (one.product, one.batch), one.packs, (SITE, target))
    return replace(counted, boards=one.boards)


def _movement(
    facts: JobFacts,
    cause: Cause,
    at: datetime,
    lot: tuple[str, str],
    packs: int,
    between: tuple[Place, Place],
) -> Movement:
    return Movement(
        id=_NEW,
        job_ref=facts.job.ref,
        # What lay where while the job was open is asked of a closed one too.
        job_closed=False,
        at=at,
        cause=cause,
        product=lot[0],
        batch=lot[1],
        packs=packs,
        damaged_packs=0,
        boards=0,
        source=between[0],
        target=between[1],
    )


def _from_then_on(facts: JobFacts, at: datetime) -> tuple[JobFacts, ...]:
    """The facts as they were known at a moment and at each later one that took packs away."""
    piles = (facts.moves, facts.openings, facts.counts, facts.differences)
    taken = [one.at for pile in piles for one in pile]
    moments = {at, *(moment for moment in taken if moment > at)}
    return tuple(known_at(facts, moment, date.max) for moment in moments)


def _heaps(facts: JobFacts, code: str) -> dict[Heap, int]:
    return balances(movements_of(facts, code), {code: _per_pack(facts, code)})


def _per_pack(facts: JobFacts, code: str) -> int:
    product = facts.products.get(code)
    return product.boards_per_pack if isinstance(product, Board) else 1


def _touched(facts: JobFacts) -> Iterator[str]:
    yield from (line.product for one in facts.deliveries for line in one.lines)
    piles = (facts.moves, facts.openings, facts.counts, facts.differences)
    yield from (one.product for pile in piles for one in pile)
