"""What is on hand for one job of one batch: whole packs in a room or in the unit, boards on site."""

from datetime import date, datetime

from store.trade.events import Place, PlaceKind
from store.trade.facts import JobFacts, known_at
from store.trade.products import Board
from store.trade.stacks import stacks_on_site


def packs_at(facts: JobFacts, place: Place, product: str, batch: str) -> int:
    """Return the whole packs of one batch that lie unopened in a room or in the unit."""
    if place.kind is PlaceKind.ROOM:
        return unopened_in_room(facts, place.room, product, batch)
    unit = PlaceKind.UNIT
    came = sum(
        line.packs - line.damaged_packs
        for one in facts.deliveries
        if one.into.kind is unit
        for line in one.lines
        if (line.product, line.batch) == (product, batch)
    )
    counted = sum(one.packs_more for one in facts.differences if (one.product, one.batch) == (product, batch))
    return (
        came
        + counted
        + sum(
            one.packs * ((one.target.kind is unit) - (one.source.kind is unit))
            for one in facts.moves
            if (one.product, one.batch) == (product, batch)
        )
    )


def spare_packs(facts: JobFacts, place: Place, product: str, batch: str, at: datetime) -> int:
    """Return the whole packs of one batch that lay in a place at a moment and that nothing has taken since."""
    return min(packs_at(known, place, product, batch) for known in _from_then_on(facts, at))


def spare_boards(facts: JobFacts, code: str, batch: str, at: datetime) -> int:
    """Return the boards of one batch that were on site at a moment and that nothing has taken since."""
    return min(boards_on_site(known, code, batch) for known in _from_then_on(facts, at))


def _from_then_on(facts: JobFacts, at: datetime) -> tuple[JobFacts, ...]:
    """The facts as they were known at a moment and at each later one that took packs away."""
    piles = (facts.moves, facts.openings, facts.counts, facts.differences)
    taken = [one.at for pile in piles for one in pile]
    moments = {at, *(moment for moment in taken if moment > at)}
    return tuple(known_at(facts, moment, date.max) for moment in moments)


def unopened_in_room(facts: JobFacts, room: str, product: str, batch: str) -> int:
    """Return the whole packs of one batch that lie unopened in one room."""
    stacked = sum(one.packs for one in stacks_on_site(facts, product) if one.room == room and one.batch == batch)
    opened = sum(one.packs for one in facts.openings if (one.room, one.product, one.batch) == (room, product, batch))
    return stacked - opened


def boards_on_site(facts: JobFacts, code: str, batch: str) -> int:
    """Return the boards of one batch in the job's rooms, opened or not, less what was counted away."""
    product = facts.products[code]
    per_pack = product.boards_per_pack if isinstance(product, Board) else 1
    brought = sum(
        line.packs - line.damaged_packs
        for one in facts.deliveries
        if one.into.kind is PlaceKind.ROOM
        for line in one.lines
        if (line.product, line.batch) == (code, batch)
    )
    room = PlaceKind.ROOM
    carried = sum(
        one.packs * ((one.target.kind is room) - (one.source.kind is room))
        for one in facts.moves
        if (one.product, one.batch) == (code, batch)
    )
    counted = sum(
        one.packs * per_pack + one.boards for one in facts.counts if (one.product, one.batch) == (code, batch)
    )
    return (brought + carried) * per_pack - counted


def batches_on_site(facts: JobFacts) -> tuple[tuple[str, str], ...]:
    """Return every product and batch that came into the job's rooms, in the order of filing."""
    room = PlaceKind.ROOM
    came = [(line.product, line.batch) for one in facts.deliveries if one.into.kind is room for line in one.lines]
    came += [(one.product, one.batch) for one in facts.moves if one.target.kind is room]
    return tuple(dict.fromkeys(came))
