"""Errands about the site: readings, and subfloors levelled."""

from store.trade.events import SmoothingDraft
from store.trade.jobs import Room, Subfloor
from store.trade.readings import Reading, ReadingDraft
from store.trade.voiding import VoidingDraft
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.smoothing_form import SmoothingForm
from tui.dialogs.voiding_form import VoidingForm
from tui.errands.said import say_read
from tui.errands.subject import Subject
from tui.words.limits import say_limit_before
from tui.words.vocabulary import the_room

NO_ROOMS = "No room is on file yet; measure one first (a), so that what is read there has a place."


def damp_kind(room: Room) -> str:
    """Return the kind of reading that is usual for a room's subfloor."""
    if room.subfloor.is_timber:
        return "timber_subfloor"
    return "hygrometer" if room.subfloor is Subfloor.CONCRETE else "carbide"


class SiteErrands(Subject):
    """Reading what a room is like, and levelling its subfloor."""

    async def read(self, ref: str, room: str = "", kind: str = "air") -> bool:
        """Put a reading on file; ``room`` and ``kind`` are the ones to begin with. No kind means the subfloor's own."""
        facts, firm = self.card(ref).facts, self.firm
        if not facts.rooms:
            return self.not_now(NO_ROOMS)
        names = [one.name for one in facts.rooms]
        first = facts.room(room) if room in names else facts.rooms[0]
        form = ReadingForm(
            rooms=names,
            clock=self.clock,
            limit_for=lambda where, what: say_limit_before(firm, facts, where, what),
            check=lambda draft: self.desk.readings.problems(ref, draft),
            first=(first.name, kind or damp_kind(first)),
            people=[person.name for person in self.desk.firm.people()],
        )
        draft: ReadingDraft | None = await self.ask(form, lambda reading: self.desk.readings.take(ref, reading))
        return draft is not None and self.done(say_read(draft, self.card(ref), firm))

    async def void(self, ref: str, room: str = "") -> bool:
        """Put on file what makes the moisture readings of a subfloor void."""
        facts = self.card(ref).facts
        if not facts.rooms:
            return self.not_now(NO_ROOMS)
        form = VoidingForm(
            rooms=[one.name for one in facts.rooms],
            clock=self.clock,
            check=lambda draft: self.desk.readings.voiding_problems(ref, draft),
            room=room,
        )
        draft: VoidingDraft | None = await self.ask(form, lambda one: self.desk.readings.void(ref, one))
        if draft is None:
            return False
        return self.done(f"What was measured on the subfloor in {the_room(draft.room)} before is void; test it again.")

    async def put_right(self, ref: str, reading: Reading) -> bool:
        """Put a reading right: the old line is taken back and the new one filed, in one deed."""
        facts, firm = self.card(ref).facts, self.firm
        form = ReadingForm(
            rooms=[one.name for one in facts.rooms],
            clock=self.clock,
            limit_for=lambda where, what: say_limit_before(firm, facts, where, what),
            check=lambda draft: self.desk.readings.problems(ref, draft),
            first=(reading.room, reading.kind),
            people=[person.name for person in self.desk.firm.people()],
            standing=reading,
        )
        draft = await self.ask(form, lambda right: self.desk.readings.put_right(ref, reading, right, form.why))
        if draft is None:
            return False
        return self.done(f"Put right. {say_read(draft, self.card(ref), firm)} The history keeps the old line.")

    async def smooth(self, ref: str, room: str = "") -> bool:
        """Put on file that a subfloor was levelled."""
        facts = self.card(ref).facts
        if not facts.rooms:
            return self.not_now(NO_ROOMS)
        form = SmoothingForm(
            rooms=[one.name for one in facts.rooms],
            clock=self.clock,
            check=lambda draft: self.desk.readings.smoothing_problems(ref, draft),
            room=room,
        )
        draft: SmoothingDraft | None = await self.ask(form, lambda one: self.desk.readings.smoothed(ref, one))
        if draft is None:
            return False
        return self.done(
            f"The subfloor in {the_room(draft.room)} is levelled. Check it again with the straightedge (r)."
        )
