"""Errands about packs: ordering them, taking a delivery in, carrying them."""

from collections.abc import Sequence
from datetime import date

from store.desk.cards import JobCard
from store.trade.batches import batches_by_room
from store.trade.events import (
    SHELF,
    UNIT,
    DeliveryDraft,
    MoveDraft,
    NoteDraft,
    Order,
    OrderDraft,
    OrderLine,
    Place,
    PlaceKind,
    in_room,
)
from store.trade.from_stock import left_to_order
from store.trade.shopping import still_to_come
from store.trade.stacks import still_owed
from tui.dialogs.chase_form import Chased, ChaseForm
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.move_form import MoveForm
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.errands.said import say_carried, say_ordered, say_taken_in
from tui.errands.subject import Subject
from tui.words.facts import say_list
from tui.words.orders import say_lots
from tui.words.supposing import say_owed
from tui.words.taught import say_hint, say_loss
from tui.words.vocabulary import the_room
from tui.words.wording import clean, counted, upper

NO_ROOMS = "No room is on file yet; measure one first (a)."
_CARRIED_FIRST = (PlaceKind.UNIT, PlaceKind.SHELF, PlaceKind.ROOM)


class PackErrands(Subject):
    """Ordering, taking in and carrying packs."""

    async def order(self, ref: str, supplier: str | None = None) -> bool:
        """Put an order on file, filled with what the job still needs; from one supplier, or from the first's."""
        card, products = self.card(ref), self.desk.products.all()
        if not products:
            return self.not_now("No product is on file yet, so there is nothing to order; add one under Products (4).")
        if not card.facts.rooms and not card.facts.flights:
            return self.not_now(f"{NO_ROOMS} Then the packs it needs are worked out for you.")
        bought_from = {one.code: one.supplier for one in products}
        before = await self._before_ordering(card)
        if before is None:
            return False
        card, needed, kept = before
        if kept and not needed:
            return self.done(f"{kept} Nothing is left to order.")
        first = supplier if supplier is not None else next((bought_from[one.product] for one in needed), "")
        last = card.facts.orders[-1].supplier if card.facts.orders else ""
        form = OrderForm(
            products=products,
            suggested=[one for one in needed if bought_from[one.product] == first],
            clock=self.clock,
            check=self.desk.packs.order_problems,
            supplier=first or last,
            currency=self.firm.currency,
        )
        draft: OrderDraft | None = await self.ask(form, lambda order: self.desk.packs.order(ref, order))
        if draft is None:
            return bool(kept) and self.done(kept)
        return self.done(f"{kept} {say_ordered(draft, self.card(ref), self.clock)}".strip())

    async def _before_ordering(self, card: JobCard) -> tuple[JobCard, tuple[OrderLine, ...], str] | None:
        """Ask what changes an order: own floors, free stock. What there is to order then; None where it is left."""
        counted_anew = await self._by_own_floors(card)
        kept = None if counted_anew is None else await self._keep_first(counted_anew)
        return None if counted_anew is None or kept is None else (counted_anew, *kept)

    async def _by_own_floors(self, card: JobCard) -> JobCard | None:
        """Offer to reckon boards with the cut loss that closed floors took; the job as it is counted from then on."""
        for one in self.desk.taught.suggestions(card):
            packs = f"{counted(one.packs_then, 'pack')} of {clean(one.product)} instead of {one.packs_now}"
            rooms = say_list(the_room(room.name) for room in one.rooms)
            question = f"By your own floors: {packs}, with {say_loss(one.percent)} cut loss in {rooms}. Reckon so?"
            yes, no = f"Take {one.packs_then}", f"Stay at {one.packs_now}"
            answer = await self.either(question, yes=yes, no=no, detail=say_hint(one.hint))
            if answer is None:
                return None
            if answer:
                self.desk.taught.take_up(card.ref, one)
        return self.card(card.ref)

    async def _keep_first(self, card: JobCard) -> tuple[tuple[OrderLine, ...], str] | None:
        """Offer what stands free in the unit before anything is ordered: what is left to order, and what was kept."""
        needed = self.desk.shopping.of_job(card)
        lots = self.desk.orders.free_for(card.ref, needed)
        if not lots:
            return needed, ""
        words = say_lots(lots, card.facts)
        stand, them = ("stands", "it") if sum(one.packs for one in lots) == 1 else ("stand", "them")
        question = f"{upper(words)} {stand} free in the unit. Keep {them} for {clean(card.ref)}, and order the rest?"
        answer = await self.either(question, yes=f"Keep {them}", no="Order all new")
        if not answer:
            return None if answer is None else (needed, "")
        self.desk.orders.keep(card.ref, lots)
        packs: dict[str, int] = {}
        for one in lots:
            packs[one.product] = packs.get(one.product, 0) + one.packs
        return left_to_order(needed, packs), f"Kept in the unit for {clean(card.ref)}: {words}."

    async def chase(self, ref: str, product: str) -> bool:
        """Put on file what the supplier said about the earliest order that still owes packs of a product."""
        facts = self.card(ref).facts
        owed = still_owed(facts, product)
        if not owed:
            return self.not_now(f"No order owes any {clean(product)}; order what is missing (o).")
        return await self.chase_order(ref, owed[0].order)

    async def chase_order(self, ref: str, order: Order, due_on: date | None = None) -> bool:
        """Put on file what the supplier said about an order, beginning with a new day if one is known."""
        due = f"due {self.clock.say_day(order.due_on)}" if order.due_on else "with no day"
        supplier = f" from {clean(order.supplier)}" if order.supplier else ""
        form = ChaseForm(
            what=f"{say_owed(self.card(ref).facts, order.id)}{supplier}, {due}, have not come.",
            clock=self.clock,
            check=lambda chased: self.desk.packs.postponing_problems(chased.due_on) if chased.due_on else (),
            due_on=due_on,
        )
        chased: Chased | None = await self.ask(form, lambda one: self._file_chased(ref, order, one))
        if chased is None:
            return False
        if chased.due_on is None:
            return self.done("What the supplier said is noted with the job.")
        return self.done(f"The order is now due {self.clock.say_day(chased.due_on)}; the job waits for that day.")

    def _file_chased(self, ref: str, order: Order, chased: Chased) -> object:
        if chased.due_on is None:
            return self.desk.closing.add_note(ref, NoteDraft(at=self.clock.now, text=chased.said))
        return self.desk.packs.postpone(ref, order, chased.due_on, chased.said)

    async def take_in(self, ref: str) -> bool:
        """Take in a delivery, filled with what the orders still owe."""
        facts = self.card(ref).facts
        if not facts.orders:
            return self.not_now("Nothing is on order for this job; put its order on file first (o).")
        expected = still_to_come(facts)
        coming = {line.product for line in expected}
        rooms = sorted(facts.rooms, key=lambda room: room.board not in coming)
        asked = {line.product for order in facts.orders for line in order.lines}
        form = DeliveryForm(
            products=[one for one in self.desk.products.all() if one.code in asked],
            expected=expected,
            rooms=[room.name for room in rooms],
            clock=self.clock,
            check=lambda draft: self.desk.packs.delivery_problems(ref, draft),
            batches=(self.desk.packs.batches(), batches_by_room(facts)),
        )
        draft: DeliveryDraft | None = await self.ask(form, lambda delivery: self.desk.packs.take_in(ref, delivery))
        return draft is not None and self.done(say_taken_in(draft, self.card(ref), self.clock))

    async def carry(self, ref: str, room: str = "", product: str = "") -> bool:
        """Carry packs; ``room`` and ``product`` are the ones to begin with."""
        card = self.card(ref)
        if not card.facts.rooms:
            return self.not_now(f"{NO_ROOMS} Packs are carried into a room.")
        lying = self._lying(card, product)
        if not lying:
            come = "take a delivery in first (i)" if card.facts.orders else "order them first (o)"
            return self.not_now(f"No packs of this job lie anywhere yet; {come}.")
        form = MoveForm(
            lying=lying,
            targets=_targets(card, lying[0], room),
            clock=self.clock,
            check=lambda draft: self.desk.packs.move_problems(ref, draft),
            laid_with={one.name: one.board for one in card.facts.rooms},
            lying_in=batches_by_room(card.facts),
        )
        draft: MoveDraft | None = await self.ask(form, lambda move: self.desk.packs.carry(ref, move))
        return draft is not None and self.done(say_carried(draft, self.card(ref), self.clock))

    def _lying(self, card: JobCard, product: str) -> list[Lying]:
        """What can be carried for a job: from the unit, from free stock, then from one of its rooms."""
        wanted = {*card.facts.board_codes, *(room.glue for room in card.facts.rooms)}
        wanted |= {one.code for one in card.facts.materials}
        at_home = {(room.name, room.board) for room in card.facts.rooms}
        found = [
            Lying(
                product=line.product,
                batch=line.batch,
                place=Place(kind=line.place, room=line.room),
                packs=line.packs,
                thing=line.thing,
            )
            for line in self.desk.packs.stock(spares=False)
            if line.packs > 0
            and line.place in _CARRIED_FIRST
            and (line.job_ref == card.ref or (line.place is PlaceKind.SHELF and line.product in wanted))
        ]

        def likeliest(one: Lying) -> tuple[bool, bool, bool, int]:
            there = (one.place.room, one.product) in at_home
            return one.product != product, there, not one.is_board, _CARRIED_FIRST.index(one.place.kind)

        return sorted(found, key=likeliest)


def _targets(card: JobCard, first: Lying, room: str) -> Sequence[Place]:
    """Where packs can go, the likeliest first: the room asked for, else one laid with that board."""
    rooms = sorted(card.facts.rooms, key=lambda one: (one.name != room, one.board != first.product))
    places = [*(in_room(one.name) for one in rooms), UNIT, SHELF]
    return sorted(places, key=lambda place: place == first.place)
