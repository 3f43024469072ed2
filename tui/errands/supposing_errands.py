"""Errands of a what-if: asking what is supposed, filing it for real, and showing the plan that is best then."""

from collections.abc import Callable, Iterator, Sequence
from datetime import date

from store.desk.diary_cards import Booked
from store.errors import Problem
from store.trade.limits import screed_dry_on
from store.trade.planning.consequences import Outlook
from store.trade.planning.nouns import Proposal
from store.trade.planning.situation import Planning, Situation
from store.trade.planning.suppose import (
    FloorLater,
    OrderComes,
    PromiseMoves,
    ScreedDriesLater,
    Supposition,
    drying_rooms,
    open_rooms,
    owed_orders,
)
from tui.dialogs.choose import Choose
from tui.dialogs.dialog import Dialog
from tui.dialogs.proposed_plan import ProposedPlan, Taken
from tui.dialogs.suppose_forms import AwayForm, Movable, MovedForm
from tui.errands.pack_errands import PackErrands
from tui.errands.subject import Subject
from tui.view import View
from tui.words.supposing import say_owed, say_supposition
from tui.words.wording import clean, say_day

_KINDS = {
    "order": "A delivery comes on another day",
    "away": "Somebody is away",
    "floor": "A floor cannot be begun before a day",
    "screed": "A screed stays damp for longer",
    "promise": "A job is promised for another day",
}
_NOTHING = {
    "order": "No open job has an order on its way.",
    "away": "Nobody is on file yet; add somebody in the Firm view (5, then n).",
    "floor": "No floor is left to be laid.",
    "screed": "No floor waits for a screed of which thickness and laying day are on file.",
    "promise": "No open job has a room yet.",
}


_LABELS = {
    "order": ("Order", "Comes on"),
    "floor": ("Floor", "Not before"),
    "screed": ("Floor", "Dry on"),
    "promise": ("Job", "Promised for"),
}


class SupposingErrands(Subject):
    """What the what-if screen asks of the shop: see ``Door`` there."""

    def __init__(self, view: View) -> None:
        super().__init__(view)
        self._packs = PackErrands(view)

    def situation(self) -> Situation:
        """Return how things stand now."""
        return self.desk.supposing.now()

    def outlook(self, situation: Situation, suppositions: Sequence[Supposition]) -> Outlook:
        """Reckon how things would stand."""
        return self.desk.supposing.outlook(situation, suppositions)

    def planning(self, seen: Outlook) -> Planning:
        """Return what a plan would be made from."""
        return self.desk.supposing.planning(seen)

    def search(self, planning: Planning, situation: Situation) -> Iterator[Proposal]:
        """Yield ever better plans."""
        return self.desk.supposing.search(planning, situation)

    async def another(self, situation: Situation) -> Supposition | None:
        """Ask what is supposed: first of which kind, then what and when."""
        ask = Choose("What if …?", label="What", options=list(_KINDS.items()))
        kind = await self._view.app.push_screen_wait(ask)
        if kind is None:
            return None
        form = self._form(kind, situation)
        if form is None:
            self.not_now(_NOTHING[kind])
            return None
        return await self._view.app.push_screen_wait(form)

    def _form(self, kind: str, situation: Situation) -> Dialog[Supposition] | None:
        def check(one: Supposition) -> tuple[Problem, ...]:
            return self.desk.supposing.problems(situation, one)

        if kind == "away":
            names = [one.name for one in situation.people]
            return AwayForm(people=names, person=names[0], clock=self.clock, check=check) if names else None
        movables = list(_MOVABLES[kind](situation))
        if not movables:
            return None
        label, day_label = _LABELS[kind]
        title = f"What if {_KINDS[kind][0].lower()}{_KINDS[kind][1:]}?"
        return MovedForm(title, movables=movables, label=label, day_label=day_label, clock=self.clock, check=check)

    async def take_up(self, situation: Situation, supposition: Supposition) -> bool:
        """Ask whether to file a supposition for real, an order by its own form, and do it."""
        if isinstance(supposition, ScreedDriesLater):
            return self.not_now("A screed is held by its readings: file the one that failed in the job's folder (r).")
        if isinstance(supposition, OrderComes):
            facts = self.card(supposition.ref).facts
            order = next((one for one in facts.orders if one.id == supposition.order), None)
            if order is not None:
                return await self._packs.chase_order(supposition.ref, order, supposition.due_on)
        said = say_supposition(supposition, situation)
        if not await self.sure("File this for real?", yes="File it", no="Only suppose it", detail=f"{said}."):
            return False
        self.desk.supposing.take_up(situation, supposition)
        return self.done(f"Filed: {said}.")

    async def show_plan(self, planning: Planning, situation: Situation) -> Booked | None:
        """Show the plan that is best if all is as supposed, and book what is taken up of it."""
        plan = ProposedPlan(
            planning,
            search=lambda: self.search(planning, situation),
            today=self.desk.today(),
            title="Who could lay what, and when, if it comes as supposed",
        )
        taken: Taken | None = await self._view.app.push_screen_wait(plan)
        return self.desk.proposals.take_up(planning, *taken) if taken is not None else None


def _orders(situation: Situation) -> Iterator[Movable]:
    for facts in situation.jobs:
        ref = facts.job.ref
        for order in dict.fromkeys(owed.order for owed, _ in owed_orders(facts)):
            due = f"due {say_day(order.due_on, situation.today)}" if order.due_on else "no day given"

            def make(day: date, ref: str = ref, number: int = order.id, was: date | None = order.due_on) -> Supposition:
                return OrderComes(ref=ref, order=number, due_on=day, was=was)

            words = f"{clean(ref)}  {say_owed(facts, order.id)}, {due}"
            yield Movable(words=words, base=order.due_on or situation.today, make=make)


def _floors(situation: Situation) -> Iterator[Movable]:
    for facts in situation.jobs:
        for room in open_rooms(facts):

            def make(day: date, ref: str = facts.job.ref, name: str = room.name) -> Supposition:
                return FloorLater(ref=ref, room=name, on=day)

            base = max(room.site_ready_on or situation.today, situation.today)
            yield Movable(words=f"{clean(facts.job.ref)}  {clean(room.name)}", base=base, make=make)


def _screeds(situation: Situation) -> Iterator[Movable]:
    for facts in situation.jobs:
        for room in drying_rooms(facts):

            def make(day: date, ref: str = facts.job.ref, name: str = room.name) -> Supposition:
                return ScreedDriesLater(ref=ref, room=name, on=day)

            base = max(screed_dry_on(room) or situation.today, situation.today)
            dry = f"may be dry {say_day(base, situation.today)}"
            yield Movable(words=f"{clean(facts.job.ref)}  {clean(room.name)}, {dry}", base=base, make=make)


def _promises(situation: Situation) -> Iterator[Movable]:
    for facts in situation.jobs:
        job = facts.job

        def make(day: date, ref: str = job.ref, was: date | None = job.promised_on) -> Supposition:
            return PromiseMoves(ref=ref, on=day, was=was)

        due = f"promised for {say_day(job.promised_on, situation.today)}" if job.promised_on else "no day promised"
        words = f"{clean(job.ref)}  {clean(job.title)}, {due}"
        yield Movable(words=words, base=job.promised_on or situation.today, make=make)


_MOVABLES: dict[str, Callable[[Situation], Iterator[Movable]]] = {
    "order": _orders,
    "floor": _floors,
    "screed": _screeds,
    "promise": _promises,
}
