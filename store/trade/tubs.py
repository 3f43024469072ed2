"""Tubs of one glue for one job: what its floors still take, what is on hand, and what of that is past its day."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime
from fractions import Fraction

from store.trade.events import FOUND, MISSING, SHELF, SUPPLIER, UNIT, Destination, Place, PlaceKind
from store.trade.facts import JobFacts
from store.trade.laying import is_wholly_laid, laid_mm2
from store.trade.products import Glue
from store.trade.units import exact

_HERE = {PlaceKind.ROOM, PlaceKind.UNIT}
_AWAY = Place(kind=PlaceKind.CUSTOMER)
"""Where nothing comes back from: whom counted tubs went to makes no odds here."""

_DELIVERY, _MOVE, _COUNT, _STOCK_TAKE = range(4)
"""What is of one moment is taken in this turn, as the ledger does."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueOnHand:
    """Glue of one kind for one job, in tubs: what the floors still to be laid take, what is left, what is in date."""

    needed: Fraction
    left: Fraction
    in_date: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tubs:
    """Tubs of one batch with the same last day of use; None where they say none, or nobody wrote it down."""

    batch: str
    tubs: int
    use_by: date | None


def glue_on_hand(facts: JobFacts, glue: Glue, today: date) -> GlueOnHand:
    """Return the tubs of a glue that the job needs and has.

    What is laid has used the tubs that were counted for it, else its area at the rate on the tub; the tubs that go off
    first are taken to have been used first (own convention). What was carried off or counted away is of the batch it
    was written down with. Whole tubs are told by rounding up what is needed.
    """
    per_mm2 = Fraction(glue.rate_g_per_m2, 1_000_000) / (exact(glue.tub_kg, what="Tub") * 1000)
    rooms = {room.name: room for room in facts.rooms if room.glue == glue.code}
    open_rooms = [room for room in rooms.values() if not is_wholly_laid(facts, room)]
    needed = sum((max(0, room.net_mm2 - laid_mm2(facts, room)) * per_mm2 for room in open_rooms), Fraction())
    used = sum(
        (
            Fraction(one.tubs) if one.tubs is not None else (one.area_mm2 or 0) * per_mm2
            for one in facts.layings
            if one.room in rooms
        ),
        Fraction(),
    )
    came = sum(
        line.packs - line.damaged_packs for one in facts.deliveries for line in one.lines if line.product == glue.code
    )
    moved = sum(one.packs * (_here(one.target) - _here(one.source)) for one in facts.moves if one.product == glue.code)
    counted = sum(one.packs for one in facts.counts if one.product == glue.code)
    found = sum(one.packs_more for one in facts.differences if one.product == glue.code)
    every = came + moved + found - counted
    stale = sum(one.tubs for one in _as_if_unused(facts, glue.code) if one.use_by is not None and one.use_by < today)
    left = max(Fraction(0), every - used)
    return GlueOnHand(needed=needed, left=left, in_date=min(left, max(Fraction(0), Fraction(every - stale))))


def _as_if_unused(facts: JobFacts, code: str) -> list[_Tubs]:
    """The tubs that came and were neither carried off nor counted away, whether a floor has taken them since or not.

    Of a batch that says several days, what goes off first has gone first. Tubs that come back from free stock are those
    the job carried there; what else comes from outside says the day that its batch says here, if it has a name.
    """
    here: list[_Tubs] = []
    free: list[_Tubs] = []
    for _, _, source, target, change in sorted(_changes(facts, code), key=lambda one: one[:2]):
        if _here(source) is _here(target):
            continue
        if _here(source):
            gone = _take(here, change)
            free += gone if target == SHELF else ()
        elif source == SUPPLIER:
            here.append(change)
        else:
            back = _take(free, change) if source == SHELF else []
            days = [one.use_by for one in here if one.use_by and one.batch == change.batch != ""]
            strange = change.tubs - sum(one.tubs for one in back)
            here += [*back, replace(change, tubs=strange, use_by=min(days, default=None))]
    return here


def _changes(facts: JobFacts, code: str) -> Iterator[tuple[datetime, int, Place, Place, _Tubs]]:
    """What came, was carried, counted away, found and missed: its moment and turn, where from, where to, and what."""
    for delivery in facts.deliveries:
        for line in (line for line in delivery.lines if line.product == code):
            tubs = _Tubs(batch=line.batch, tubs=line.packs - line.damaged_packs, use_by=line.use_by)
            yield delivery.at, _DELIVERY, SUPPLIER, delivery.into, tubs
    for move in (one for one in facts.moves if one.product == code):
        yield move.at, _MOVE, move.source, move.target, _Tubs(batch=move.batch, tubs=move.packs, use_by=None)
    for count in (one for one in facts.counts if one.product == code):
        target = SHELF if count.to is Destination.UNIT else _AWAY
        yield count.at, _COUNT, UNIT, target, _Tubs(batch=count.batch, tubs=count.packs, use_by=None)
    for one in (one for one in facts.differences if one.product == code):
        source, target = (FOUND, UNIT) if one.packs_more > 0 else (UNIT, MISSING)
        yield one.at, _STOCK_TAKE, source, target, _Tubs(batch=one.batch, tubs=one.packs, use_by=None)


def _take(tubs: list[_Tubs], change: _Tubs) -> list[_Tubs]:
    """Take tubs of a batch out of a list, those that go off first before the others; return what could be taken."""
    taken: list[_Tubs] = []
    wanted = change.tubs
    for one in sorted(tubs, key=lambda one: one.use_by or date.max):
        many = min(wanted, one.tubs) if one.batch == change.batch else 0
        if many:
            tubs[tubs.index(one)] = replace(one, tubs=one.tubs - many)
            taken.append(replace(one, tubs=many))
            wanted -= many
    return taken


def _here(place: Place) -> bool:
    return place.kind in _HERE
