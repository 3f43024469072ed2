"""The words for what is on file about a job: each order, delivery, reading or laying in half a sentence."""

from collections.abc import Iterable, Mapping

from store.desk.closing_counter import TakenBack
from store.trade.buying.nouns import OwnLine
from store.trade.confirmations import Confirmation, ConfirmationDraft, ConfirmedLine
from store.trade.credits import Credit, CreditFor
from store.trade.events import (
    Count,
    Delivery,
    DeliveryDraft,
    Handover,
    Laying,
    LayingDraft,
    Move,
    MoveDraft,
    Note,
    Opening,
    OpeningDraft,
    Order,
    OrderDraft,
    Place,
    Smoothing,
    Snag,
)
from store.trade.facts import JobFacts
from store.trade.morning import MorningCheck
from store.trade.products import Product
from store.trade.readings import Reading, ReadingDraft
from store.trade.stock_take import Difference, DifferenceDraft
from store.trade.voiding import Voiding
from tui.typed.wall_clock import WallClock
from tui.words.buying import say_own_line
from tui.words.units import say_much, thing_of
from tui.words.vocabulary import DESTINATIONS, READING_KINDS, WAYS, say_place, say_target, the_room
from tui.words.wording import clean, counted, say_area, say_measure


def say_list(parts: Iterable[str]) -> str:
    """Return parts as one list in a sentence: “a, b and c”."""
    said = list(parts)
    if len(said) < 2:
        return "".join(said)
    return f"{', '.join(said[:-1])} and {said[-1]}"


def say_amount(facts: JobFacts, product: str, packs: int, boards: int = 0) -> str:
    """Return packs, tubs or whatever it is sold by: “12 packs of OAK-190”, “2 tubs of MS-15”, “3 rolls of PE-25”."""
    many = say_much(thing_of(facts.products.get(product)), packs, boards)
    return f"{many} of {clean(product)}"


def say_lot(facts: JobFacts, product: str, batch: str, packs: int, boards: int = 0) -> str:
    """Return packs with their batch: “12 packs of OAK-190, batch K41”."""
    words = say_amount(facts, product, packs, boards)
    return f"{words}, batch {clean(batch)}" if batch else words


def say_from(place: Place) -> str:
    """Return where packs were taken from: “from the unit”."""
    return f"from {say_place(place).removeprefix('in ')}"


def say_order(draft: OrderDraft, facts: JobFacts) -> str:
    """Return what was ordered: “11 packs of OAK-190 and 2 tubs of MS-15”."""
    return say_list(say_amount(facts, line.product, line.packs) for line in draft.lines)


def say_confirmed(draft: ConfirmationDraft, facts: JobFacts, clock: WallClock) -> str:
    """Return what a supplier confirmed: “8 packs of OAK-190 for Tue 1 Dec and 4 packs of OAK-190 for Tue 15 Dec”."""
    return say_list(_confirmed_line(line, facts, clock) for line in draft.lines)


def _confirmed_line(line: ConfirmedLine, facts: JobFacts, clock: WallClock) -> str:
    if not line.packs:
        return f"no {clean(line.product)}"
    day = f" for {clock.say_day(line.due_on)}" if line.due_on else ""
    return f"{say_amount(facts, line.product, line.packs)}{day}"


def say_delivery(draft: DeliveryDraft, facts: JobFacts) -> str:
    """Return what came in, batch by batch, the damaged named."""
    return say_list(
        say_lot(facts, line.product, line.batch, line.packs)
        + (f" ({line.damaged_packs} damaged)" if line.damaged_packs else "")
        for line in draft.lines
    )


def say_move(draft: MoveDraft, facts: JobFacts) -> str:
    """Return what was carried, from where and where to."""
    lot = say_lot(facts, draft.product, draft.batch, draft.packs)
    return f"{lot}, {say_from(draft.source)} {say_target(draft.target)}"


def say_opening(draft: OpeningDraft, facts: JobFacts) -> str:
    """Return which packs were opened, and where."""
    return f"{say_lot(facts, draft.product, draft.batch, draft.packs)}, in {the_room(draft.room)}"


def say_reading(draft: ReadingDraft) -> str:
    """Return what an instrument said and where: “room air 20.5 °C and 52 %, in the Reading room”."""
    kind = READING_KINDS[draft.kind]
    return f"{kind[0].lower()}{kind[1:]} {say_measure(draft.measure)}, in {the_room(draft.room)}"


def say_laying(draft: LayingDraft, clock: WallClock) -> str:
    """Return how much floor was laid where, and from when to when."""
    if draft.ended_at is None:
        return f"laying in {the_room(draft.room)}, begun {clock.say(draft.begun_at)} and going on"
    area = say_area(draft.area_mm2 or 0)
    tubs = f", {counted(draft.tubs, 'tub')} of glue" if draft.tubs is not None else ""
    return f"{area} in {the_room(draft.room)}, {clock.say(draft.begun_at)} to {clock.say(draft.ended_at)}{tubs}"


def say_count(count: Count, facts: JobFacts) -> str:
    """Return what was counted and where it went."""
    if not count.packs and not count.boards:
        batch = f", batch {clean(count.batch)}" if count.batch else ""
        return f"nothing left of {clean(count.product)}{batch}"
    return f"{say_lot(facts, count.product, count.batch, count.packs, count.boards)}, {DESTINATIONS[count.to]}"


def say_difference(one: DifferenceDraft, products: Mapping[str, Product]) -> str:
    """Return what a stock-take found or missed: “2 packs of OAK-190, batch K41, missing”."""
    many = say_much(thing_of(products.get(one.product)), one.packs, one.boards)
    batch = f", batch {clean(one.batch)}," if one.batch else ""
    return f"{many} of {clean(one.product)}{batch} {WAYS[one.way]}"


def say_fact(fact: TakenBack, facts: JobFacts, clock: WallClock) -> str:
    """Return a line on file in half a sentence that names it: “the order of Tue 10 Nov: 12 packs of OAK-190”."""
    match fact:
        case Order() | Delivery() | Move() | Opening() | Difference():
            words = _say_of_packs(fact, facts, clock)
        case Confirmation():
            words = f"what was confirmed {clock.say(fact.at)}: {say_confirmed(fact, facts, clock)}"
        case Credit():
            damaged = "damaged " if fact.owed_for is CreditFor.DAMAGE else ""
            words = f"the credit of {clock.say(fact.at)} for {damaged}{clean(fact.product)}"
        case Reading():
            words = f"the reading of {clock.say(fact.at)}: {say_reading(fact)}"
        case Smoothing():
            words = f"the levelling of {the_room(fact.room)}, {clock.say(fact.at)}"
        case MorningCheck():
            words = f"the morning list of {the_room(fact.room)}, {clock.say(fact.at)}"
        case Voiding():
            words = f"what made readings void in {the_room(fact.room)}, {clock.say(fact.at)}"
        case OwnLine():
            words = f"what was set by hand, {say_own_line(fact)}"
        case Laying():
            words = f"the laying: {say_laying(fact, clock)}"
        case Count() | Handover() | Snag() | Note():
            words = _say_closing(fact, facts, clock)
    return words


def _say_of_packs(fact: Order | Delivery | Move | Opening | Difference, facts: JobFacts, clock: WallClock) -> str:
    match fact:
        case Order():
            return f"the order of {clock.say_day(fact.on)}: {say_order(fact, facts)}"
        case Delivery():
            return f"the delivery of {clock.say(fact.at)}: {say_delivery(fact, facts)}, {say_target(fact.into)}"
        case Move():
            return f"the carrying of {clock.say(fact.at)}: {say_move(fact, facts)}"
        case Opening():
            return f"the opening of {clock.say(fact.at)}: {say_opening(fact, facts)}"
        case Difference():
            return f"the stock-take of {clock.say(fact.at)}: {say_difference(fact, facts.products)}"


def _say_closing(fact: Count | Handover | Snag | Note, facts: JobFacts, clock: WallClock) -> str:
    match fact:
        case Count():
            return f"the count of {clock.say(fact.at)}: {say_count(fact, facts)}"
        case Handover():
            return f"the signature of {clean(fact.by)}, {clock.say(fact.signed_at)}"
        case Snag():
            return f"the snag of {clock.say(fact.at)}: “{clean(fact.what)}”"
        case Note():
            return f"the note of {clock.say(fact.at)}: “{clean(fact.text)}”"
