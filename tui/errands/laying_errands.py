"""Errands about laying: beginning a room's floor, and finishing it."""

from collections.abc import Sequence
from dataclasses import replace

from store.desk.cards import JobCard
from store.errors import Problem
from store.trade.events import Laying, OpeningDraft, in_room
from store.trade.jobs import Method, Room
from store.trade.laying import is_wholly_laid, laid_mm2
from store.trade.morning import MorningCheckDraft
from store.trade.on_hand import batches_on_site, unopened_in_room
from store.trade.stacks import stacks_on_site
from store.trade.verdict import HoldState
from tui.dialogs.laying_forms import FinishLaying, LayingWork, StartLaying
from tui.dialogs.morning_form import MorningForm
from tui.dialogs.parts import Lying
from tui.errands.said import say_begun, say_laid, say_looked_round
from tui.errands.subject import Shown, Subject
from tui.words.batches import mixed_by_room
from tui.words.holds import say_hold
from tui.words.morning import say_amiss
from tui.words.vocabulary import HOLD_KINDS, HOLD_SIGNS, the_room
from tui.words.wording import clean


class LayingErrands(Subject):
    """Beginning and finishing floors."""

    async def lay(self, ref: str, room: str = "") -> bool:
        """Finish the laying that goes on in a room, or anywhere where none is named; else begin one."""
        card = self.card(ref)
        going_on = [one for one in card.facts.layings if one.ended_at is None and room in {"", one.room}]
        return await self._finish(card, going_on[0]) if going_on else await self._begin(card, room)

    async def _begin(self, card: JobCard, wanted: str) -> bool:
        rooms, why_not = _rooms_to_begin(card)
        if why_not:
            return self.not_now(why_not)
        first = next((room for room in rooms if room.name == wanted), rooms[0])
        if not await self._may_begin(card, first) or not await self._looked_round(card, rooms, first):
            return False
        lying = _unopened(card, first.board)
        form = StartLaying(
            rooms=[room.name for room in rooms],
            lying=lying,
            clock=self.clock,
            check=lambda work: self._problems(card.ref, work, lying),
            room=first.name,
            mixed=mixed_by_room(card.facts),
        )
        work = await self.ask(form, lambda one: self.desk.laying.start(card.ref, one.laying, one.openings))
        return work is not None and self.done(say_begun(work.laying, work.openings, card))

    async def _may_begin(self, card: JobCard, room: Room) -> bool:
        """Ask whether to lay all the same, where something stands in the way of a room's floor."""
        holds = [one for one in card.standing.holds if one.room == room.name and one.state is not HoldState.CLEAR]
        if not holds:
            return True
        now, firm = self.clock.now, self.firm
        reasons = "\n".join(
            f"{HOLD_SIGNS[one.state]} {HOLD_KINDS[one.kind]}: {say_hold(one, card.facts, firm, now)}" for one in holds
        )
        question = f"Lay {the_room(room.name)} all the same?"
        return await self.sure(question, yes="Lay all the same", no="Not yet", detail=f"In the way:\n{reasons}")

    async def look_round(self, ref: str, room: str = "") -> bool:
        """Put the morning list of a room on file."""
        card = self.card(ref)
        rooms = [one for one in card.facts.rooms if not is_wholly_laid(card.facts, one)]
        if not rooms:
            return self.not_now("No floor of this job is left to lay, so there is no morning list to go through.")
        draft = await self._ask_morning(card, rooms, room)
        return draft is not None and self.done(say_looked_round(draft, card, self.firm))

    async def _looked_round(self, card: JobCard, rooms: Sequence[Room], room: Room) -> bool:
        """Go through the morning list of a room, unless that was done today; it may be left out, knowingly."""
        today = self.clock.today
        if any(one.room == room.name and self.clock.day(one.at) == today for one in card.facts.mornings):
            return True
        draft = await self._ask_morning(card, rooms, room.name)
        if draft is not None:
            self.done(say_looked_round(draft, card, self.firm))
            return True
        question = "Begin without the morning list?"
        return await self.sure(question, yes="Begin without it", no="Not yet", detail="Nothing of it is on file then.")

    async def _ask_morning(self, card: JobCard, rooms: Sequence[Room], room: str) -> MorningCheckDraft | None:
        facts, firm, laying = card.facts, self.firm, self.desk.laying
        form = MorningForm(
            rooms=[one.name for one in rooms],
            clock=self.clock,
            told=lambda draft: say_amiss(draft, facts, firm),
            check=lambda draft: laying.morning_problems(card.ref, draft),
            room=room,
            people=[person.name for person in self.desk.firm.people()],
            who=self.desk.firm.at_the_desk,
        )
        return await self.ask(form, lambda draft: laying.look_round(card.ref, draft))

    async def _finish(self, card: JobCard, laying: Laying) -> bool:
        room, shown = card.facts.room(laying.room), Shown(laying)
        lying = _unopened(card, room.board)
        form = FinishLaying(
            laying=laying,
            rest_mm2=max(0, room.net_mm2 - laid_mm2(card.facts, room)),
            clock=self.clock,
            check=lambda work: self._problems(card.ref, work, lying),
            lying=lying,
            glued=room.method is Method.GLUED,
            mixed=mixed_by_room(card.facts).get(room.name, ""),
        )
        work = await self.ask(
            form,
            lambda done: self.desk.laying.finish(card.ref, shown.fact, done.laying, done.openings),
            if_changed=lambda: shown.see(self._laying(card.ref, laying)),
        )
        return work is not None and self.done(say_laid(work.laying, self.card(card.ref), self.firm, self.clock))

    def _laying(self, ref: str, laying: Laying) -> Laying:
        return next((one for one in self.card(ref).facts.layings if one.id == laying.id), laying)

    def _problems(self, ref: str, work: LayingWork, lying: Sequence[Lying]) -> tuple[Problem, ...]:
        """What is wrong, the packs opened beside the field they were typed in."""
        found = self.desk.laying.opening_problems(ref, work.openings)
        return self.desk.laying.problems(ref, work.laying) + tuple(
            replace(one, field=_field_of(one.field, work.openings, lying)) for one in found
        )


def _field_of(field: str, openings: Sequence[OpeningDraft], lying: Sequence[Lying]) -> str:
    opening = openings[int(field.split(".")[1])]
    wanted = (opening.product, opening.batch, opening.room)
    keys = [(one.product, one.batch, one.place.room) for one in lying]
    return f"openings.{keys.index(wanted)}" if wanted in keys else field


def _unopened(card: JobCard, board: str) -> list[Lying]:
    """The packs of a board that lie unopened in the job's rooms."""
    facts = card.facts
    return [
        Lying(product=code, batch=batch, place=in_room(room.name), packs=packs)
        for code, batch in batches_on_site(facts)
        for room in facts.rooms
        if code == board and (packs := unopened_in_room(facts, room.name, code, batch)) > 0
    ]


def _rooms_to_begin(card: JobCard) -> tuple[list[Room], str]:
    """The rooms whose floor can be begun, or why there is none."""
    facts = card.facts
    if not facts.rooms:
        return [], "No room is on file yet, so there is no floor to lay; measure one first (a)."
    going_on = {one.room for one in facts.layings if one.ended_at is None}
    rooms = [room for room in facts.rooms if room.name not in going_on and not is_wholly_laid(facts, room)]
    if not rooms:
        return [], "Every room of this job is laid; there is no floor left to begin."
    with_packs = [room for room in rooms if stacks_on_site(facts, room.board)]
    if not with_packs:
        boards = ", ".join(dict.fromkeys(clean(room.board) for room in rooms))
        return [], f"No packs of {boards} have come to site yet; take a delivery in first (i), or carry them in (c)."
    return with_packs, ""
