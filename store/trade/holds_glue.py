"""Holds on the glue: enough of it on hand and in date, and somebody trained for it."""

from dataclasses import dataclass
from datetime import date, datetime
from fractions import Fraction

from store.trade.diary import day_of, start_of
from store.trade.events import Place, PlaceKind
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.holds_room import nothing_on_file
from store.trade.jobs import Room
from store.trade.laying import is_wholly_laid, laid_mm2
from store.trade.products import Glue
from store.trade.stacks import orders_needed, packs_ordered, still_owed
from store.trade.units import exact
from store.trade.verdict import Hold, HoldKind, HoldState, Why

_HERE = {PlaceKind.ROOM, PlaceKind.UNIT}


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueOnHand:
    """Glue of one kind for one job, in tubs: what the floors still to be laid take, what is left, what is in date."""

    needed: Fraction
    left: Fraction
    in_date: Fraction


def glue(firm: FirmDraft, facts: JobFacts, room: Room, now: datetime) -> Hold:
    """To do while too little glue is on hand or in date; waiting for what is on order; clear where none was bought.

    A folder that neither ordered nor took in this glue knows nothing of it, and is not held.
    """
    product = facts.glue_of(room)
    if product is None or not _is_on_file(facts, product.code):
        return nothing_on_file(room, HoldKind.GLUE)
    today = day_of(firm, now)
    on_hand = glue_on_hand(facts, product, today)
    short, due_on, clears_at = _whole(on_hand.needed - on_hand.left), None, None
    state, why = HoldState.TO_DO, Why.GLUE_SHORT
    owing = orders_needed(still_owed(facts, product.code), short)
    if short <= 0:
        state, why = HoldState.CLEAR, Why.GLUE_ENOUGH
        if on_hand.in_date < on_hand.needed:
            state, why, short = HoldState.TO_DO, Why.GLUE_TOO_OLD, _whole(on_hand.needed - on_hand.in_date)
    elif owing is not None and all(one.due_on for one in owing):
        dues = [one.due_on for one in owing if one.due_on]
        late = [due for due in dues if due < today]
        due_on = min(late) if late else max(dues)
        why = Why.GLUE_OVERDUE if late else Why.GLUE_ON_ORDER
        if not late:
            state, clears_at = HoldState.WAITING, start_of(firm, due_on)
    elif owing is not None:
        why = Why.GLUE_OVERDUE
    return Hold(
        room=room.name,
        kind=HoldKind.GLUE,
        state=state,
        why=why,
        clears_at=clears_at,
        product=product.code,
        packs=short if state is not HoldState.CLEAR else _whole(on_hand.needed),
        due_on=due_on,
    )


def glue_on_hand(facts: JobFacts, glue: Glue, today: date) -> GlueOnHand:
    """Return the tubs of a glue that the job needs and has.

    What is laid has used the tubs that were counted for it, else its area at the rate on the tub; the tubs that go off
    first are taken to have been used first. Whole tubs are told by rounding up what is needed.
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
    came = [
        (line.packs - line.damaged_packs, line.use_by)
        for one in facts.deliveries
        for line in one.lines
        if line.product == glue.code
    ]
    moved = sum(one.packs * (_here(one.target) - _here(one.source)) for one in facts.moves if one.product == glue.code)
    counted = sum(one.packs for one in facts.counts if one.product == glue.code)
    found = sum(one.packs_more for one in facts.differences if one.product == glue.code)
    every = sum(tubs for tubs, _ in came) + moved + found - counted
    stale = sum(tubs for tubs, use_by in came if use_by is not None and use_by < today)
    left = max(Fraction(0), every - used)
    return GlueOnHand(needed=needed, left=left, in_date=min(left, max(Fraction(0), Fraction(every - stale))))


def people(firm: FirmDraft, facts: JobFacts, room: Room, now: datetime) -> Hold:
    """To do where the room's glue asks for training and nobody's is in force; clear where no glue does.

    Since 24 August 2023 glues with 0.1 % of free diisocyanates or more are for trained people only, trained anew every
    five years at least (REACH Annex XVII entry 74, Regulation (EU) 2020/1149).
    """
    product = facts.glue_of(room)
    if product is None or not product.needs_training:
        return nothing_on_file(room, HoldKind.PEOPLE)
    today = day_of(firm, now)
    trained = [one for one in facts.people if one.isocyanates_until is not None and one.isocyanates_until >= today]
    first = max(trained, key=lambda one: (one.isocyanates_until or date.min, one.name), default=None)
    return Hold(
        room=room.name,
        kind=HoldKind.PEOPLE,
        state=HoldState.CLEAR if first else HoldState.TO_DO,
        why=Why.TRAINED if first else Why.NOBODY_TRAINED,
        product=product.code,
        who=first.name if first else "",
        due_on=first.isocyanates_until if first else None,
    )


def _is_on_file(facts: JobFacts, code: str) -> bool:
    delivered = any(line.product == code for one in facts.deliveries for line in one.lines)
    return delivered or packs_ordered(facts, code) > 0 or any(one.product == code for one in facts.moves)


def _here(place: Place) -> bool:
    return place.kind in _HERE


def _whole(tubs: Fraction) -> int:
    return -(-tubs // 1)
