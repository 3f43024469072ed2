"""Holds on the glue: enough of it on hand and in date, and somebody trained for it."""

from datetime import date, datetime
from fractions import Fraction

from store.trade.diary import day_of, start_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.holds_room import nothing_on_file
from store.trade.jobs import Room
from store.trade.stacks import orders_needed, packs_ordered, still_owed
from store.trade.tubs import glue_on_hand
from store.trade.verdict import Hold, HoldKind, HoldState, Why


def glue(firm: FirmDraft, facts: JobFacts, room: Room, now: datetime) -> Hold:
    """To do while too little glue in date is on hand; waiting for what is on order; clear where none was bought.

    A folder that neither ordered nor took in this glue knows nothing of it, and is not held. Where the orders bring
    too little, ``packs`` are the tubs still to order.
    """
    product = facts.glue_of(room)
    if product is None or not _is_on_file(facts, product.code):
        return nothing_on_file(room, HoldKind.GLUE)
    today = day_of(firm, now)
    on_hand = glue_on_hand(facts, product, today)
    short, due_on, clears_at = _whole(on_hand.needed - on_hand.in_date), None, None
    owed = still_owed(facts, product.code)
    owing = orders_needed(owed, short)
    state, why = HoldState.TO_DO, Why.GLUE_OVERDUE
    if short <= 0:
        state, why = HoldState.CLEAR, Why.GLUE_ENOUGH
    elif owing is None:
        why = Why.GLUE_TOO_OLD if short > _whole(on_hand.needed - on_hand.left) else Why.GLUE_SHORT
        short -= sum(one.packs for one in owed)
    elif all(one.due_on for one in owing):
        dues = [one.due_on for one in owing if one.due_on]
        late = [due for due in dues if due < today]
        due_on = min(late) if late else max(dues)
        if not late:
            state, why, clears_at = HoldState.WAITING, Why.GLUE_ON_ORDER, start_of(firm, due_on)
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


def _whole(tubs: Fraction) -> int:
    return -(-tubs // 1)
