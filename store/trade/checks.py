"""What is wrong with a draft about a job, given what is on file and the moment it is filed."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime

from store.errors import Problem
from store.trade.confirmations import problems_with_price
from store.trade.events import (
    DeliveryDraft,
    DeliveryLine,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    OpeningDraft,
    OrderDraft,
    Place,
    PlaceKind,
)
from store.trade.evidence import problems_with_evidence
from store.trade.facts import JobFacts
from store.trade.laying import is_wholly_laid, laid_mm2
from store.trade.on_hand import spare_packs
from store.trade.readings import ReadingDraft, problems_with_air, problems_with_measure, problems_with_what_fits
from store.trade.stacks import packs_damaged, packs_delivered, packs_from_free_stock, stacks_on_site

MOST_PACKS = 10_000
"""No line of one job holds more packs than this; a larger figure is a slip of the key."""

Problems = tuple[Problem, ...]


def problems_with_order(draft: OrderDraft, codes: frozenset[str], today: date) -> Problems:
    """Return what is wrong with an order; ``codes`` are the products on file."""
    return tuple(_order_problems(draft, codes, today))


def _order_problems(draft: OrderDraft, codes: frozenset[str], today: date) -> Iterator[Problem]:
    if draft.on > today:
        yield Problem(field="on", say="An order is filed on the day it is placed or later, not before.")
    if draft.due_on is not None and draft.due_on < draft.on:
        yield Problem(field="due_on", say="The order is due before it was placed; look at both dates.")
    if not draft.lines:
        yield Problem(field="lines", say="Order at least one product.")
    for index, line in enumerate(draft.lines):
        if line.product not in codes:
            yield Problem(field=f"lines.{index}.product", say=f"There is no product “{line.product}” on file.")
        yield from _pack_problems(f"lines.{index}.packs", line.packs)
        yield from problems_with_price(f"lines.{index}.price_minor", line.price_minor)
    yield from problems_with_price("freight_minor", draft.freight_minor)


def problems_with_delivery(draft: DeliveryDraft, facts: JobFacts, now: datetime, day: date) -> Problems:
    """Return what is wrong with a delivery that came in on the calendar day ``day``."""
    return tuple(_delivery_problems(draft, facts, now, day))


def _delivery_problems(draft: DeliveryDraft, facts: JobFacts, now: datetime, day: date) -> Iterator[Problem]:
    yield from future("at", draft.at, now)
    if draft.into.kind is PlaceKind.ROOM:
        yield from _room_problems("into", facts, draft.into.room)
    elif draft.into.kind is not PlaceKind.UNIT:
        yield Problem(field="into", say="A delivery is put into a room of the job, or into the unit.")
    if not draft.lines:
        yield Problem(field="lines", say="Write down at least one line of what came.")
    for index, line in enumerate(draft.lines):
        yield from _delivery_line_problems(f"lines.{index}", line, facts, day)


def _delivery_line_problems(place: str, line: DeliveryLine, facts: JobFacts, day: date) -> Iterator[Problem]:
    yield from _pack_problems(f"{place}.packs", line.packs)
    if not 0 <= line.damaged_packs <= max(0, line.packs):
        yield Problem(
            field=f"{place}.damaged_packs",
            say=f"{line.damaged_packs} damaged of {line.packs} packs cannot be; count the damaged ones again.",
        )
    ordered = [
        order.on for order in facts.orders for asked in order.lines if asked.product == line.product and asked.packs
    ]
    if not ordered:
        say = f"No {line.product} is on order for this job; file its order first."
        yield Problem(field=f"{place}.product", say=say)
    elif min(ordered) > day:
        say = f"This delivery of {line.product} is dated before its order; look at both dates."
        yield Problem(field="at", say=say)


def problems_with_move(draft: MoveDraft, facts: JobFacts, on_shelf: Mapping[str, int], now: datetime) -> Problems:
    """Return what is wrong with carrying packs; ``on_shelf`` is the free stock of the product by batch, in packs."""
    return tuple(_move_problems(draft, facts, on_shelf, now))


def _move_problems(draft: MoveDraft, facts: JobFacts, on_shelf: Mapping[str, int], now: datetime) -> Iterator[Problem]:
    yield from future("at", draft.at, now)
    yield from _pack_problems("packs", draft.packs)
    if draft.source == draft.target:
        yield Problem(field="target", say="The packs are there already; choose another place.")
    for field, place in (("source", draft.source), ("target", draft.target)):
        if place.kind is PlaceKind.ROOM:
            yield from _room_problems(field, facts, place.room)
        elif place.kind not in {PlaceKind.UNIT, PlaceKind.SHELF}:
            yield Problem(field=field, say="Packs are carried between the job's rooms and the unit.")
    from_shelf = draft.source.kind is PlaceKind.SHELF
    there = on_shelf.get(draft.batch, 0) if from_shelf else spare_packs(facts, draft)
    if draft.packs > there:
        yield _too_few(_place_word(draft.source), there, batch_word(draft.product, draft.batch))


def problems_with_opening(draft: OpeningDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with opening packs for laying."""
    found = [*future("at", draft.at, now), *_room_problems("room", facts, draft.room)]
    found += _pack_problems("packs", draft.packs)
    there = spare_packs(facts, draft)
    if draft.packs > there:
        found.append(_too_few(draft.room, there, batch_word(draft.product, draft.batch)))
    return tuple(found)


def problems_with_reading(draft: ReadingDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a reading."""
    return (
        *future("at", draft.at, now),
        *_room_problems("room", facts, draft.room),
        *problems_with_measure(draft.measure),
        *problems_with_air(draft.measure),
        *problems_with_evidence(draft.kind, draft.evidence),
        *problems_with_what_fits(draft),
    )


def problems_with_laying(draft: LayingDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a laying: one that starts, goes on or is finished."""
    return tuple(_laying_problems(draft, facts, now))


def _laying_problems(draft: LayingDraft, facts: JobFacts, now: datetime) -> Iterator[Problem]:
    yield from future("begun_at", draft.begun_at, now)
    unknown = tuple(_room_problems("room", facts, draft.room))
    if unknown:
        yield from unknown
        return
    room = facts.room(draft.room)
    stacks = stacks_on_site(facts, room.board)
    if not any(stack.since <= draft.begun_at for stack in stacks):
        yield Problem(field="begun_at", say=f"No packs of {room.board} had come to site by then; take them in first.")
    if draft.ended_at is not None:
        yield from future("ended_at", draft.ended_at, now)
        if draft.ended_at < draft.begun_at:
            yield Problem(field="ended_at", say="The laying ends before it starts; look at both times.")
        left = room.net_mm2 * 102 // 100 - laid_mm2(facts, room)
        if draft.area_mm2 is None or not 0 < draft.area_mm2 <= left:
            # Rounded down, so that the figure shown is one that would be taken.
            most = left // 10_000 / 100
            say = f"The floor laid is more than 0 and at most {most:.2f} m²: {room.name} has no more to lay."
            done = f"{room.name} is laid already; take back what was filed before if it is wrong."
            yield Problem(field="area_mm2", say=say if most > 0 else done)
    elif draft.area_mm2 is not None:
        yield Problem(field="ended_at", say="Say when the laying of that floor ended.")
    if draft.tubs is not None and not 0 <= draft.tubs <= MOST_PACKS:
        yield Problem(field="tubs", say=f"The tubs used are from 0 to {MOST_PACKS:,}.")
    elif draft.tubs and room.glue is not None:
        yield from _tub_problems(draft.tubs, room.glue, facts)


def _tub_problems(tubs: int, glue: str, facts: JobFacts) -> Iterator[Problem]:
    """Yield that more tubs were used than were here; where none was written down as come, nobody can say.

    A tub that was begun in one laying and emptied in the next may have been counted in both.
    """
    rooms = {room.name for room in facts.rooms if room.glue == glue}
    came = packs_delivered(facts, glue) - packs_damaged(facts, glue) + packs_from_free_stock(facts, glue)
    gone = sum(one.packs for one in facts.counts if one.product == glue)
    counted = [one.tubs for one in facts.layings if one.room in rooms and one.tubs]
    left = max(0, came - gone - sum(counted) + len(counted))
    if came > 0 and tubs > left:
        say = f"At most {so_many(left, 'tub')} of {glue} can have been used: {came:,} came for this job"
        yield Problem(field="tubs", say=f"{say}, {sum(counted):,} used before, {gone:,} counted away.")


def problems_with_handover(draft: HandoverDraft, facts: JobFacts, now: datetime) -> Problems:
    """Return what is wrong with a signature."""
    found = list(future("signed_at", draft.signed_at, now))
    if not draft.by.strip():
        found.append(Problem(field="by", say="Write down who signed."))
    if facts.handover is not None:
        found.append(Problem(field="by", say=f"{facts.handover.by} has signed for this job already."))
    open_rooms = [room.name for room in facts.rooms if not is_wholly_laid(facts, room)]
    if open_rooms or not facts.rooms:
        say = f"Not all is laid yet ({', '.join(open_rooms) or 'no room is on file'}); nothing to sign for."
        found.append(Problem(field="by", say=say))
    return tuple(found)


def problems_with_text(field: str, text: str, ask: str) -> Problems:
    """Return what is wrong with a free line of text: it is empty; ``ask`` says what to write."""
    return () if text.strip() else (Problem(field=field, say=ask),)


def problems_with_moment(field: str, at: datetime, now: datetime) -> Problems:
    """Return what is wrong with a moment: it has not come yet."""
    return tuple(future(field, at, now))


def future(field: str, at: datetime, now: datetime) -> Iterator[Problem]:
    """Yield that a moment has not come yet."""
    if at > now:
        yield Problem(field=field, say="That moment has not come yet; write down what has happened.")


def _room_problems(field: str, facts: JobFacts, name: str) -> Iterator[Problem]:
    if all(room.name != name for room in facts.rooms):
        yield Problem(field=field, say=f"The job has no room “{name}”.")


def _pack_problems(field: str, packs: int) -> Iterator[Problem]:
    if not 1 <= packs <= MOST_PACKS:
        yield Problem(field=field, say=f"Packs are a whole number from 1 to {MOST_PACKS:,}, not {packs:,}.")


def _too_few(place: str, there: int, batch: str) -> Problem:
    say = f"{place} had {so_many(max(0, there), 'pack')} of {batch} to spare at that moment."
    return Problem(field="packs", say=say)


def so_many(count: int, thing: str) -> str:
    """Return a number with its noun, none of it as “no packs”."""
    return f"{count or 'no'} {thing}{'' if count == 1 else 's'}"


def _place_word(place: Place) -> str:
    if place.kind is PlaceKind.ROOM:
        return place.room
    return "The unit" if place.kind in {PlaceKind.UNIT, PlaceKind.SHELF} else "That place"


def batch_word(product: str, batch: str) -> str:
    """Return a product with its batch, if it has one."""
    return f"{product}, batch {batch}" if batch else product
