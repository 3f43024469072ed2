"""Errands about jobs and their rooms: taking one on, changing its card, measuring."""

from collections.abc import Callable

from store.errors import Refused
from store.trade.jobs import Room, RoomDraft
from store.trade.products import Board, Glue
from tui.dialogs.room_form import RoomForm
from tui.dialogs.take_on_job import TakeOnJob
from tui.errands.subject import Shown, Subject
from tui.words.taught import say_hint
from tui.words.vocabulary import the_room
from tui.words.wording import clean, say_area, say_packs

NO_BOARDS = "No board is on file yet, and a room needs one; add it under Products (4, then n)."


class JobErrands(Subject):
    """Taking jobs on and keeping their cards and rooms."""

    async def take_on(self) -> str | None:
        """Take on a job; its reference, or None where nothing was filed."""
        jobs = self.desk.jobs
        form = TakeOnJob(clock=self.clock, check=jobs.problems, ref=jobs.next_ref())
        draft = await self.ask(form, jobs.take_on)
        if draft is None:
            return None
        self.done(f"Job {clean(draft.ref)}, {clean(draft.title)}, is on file. Next: measure its rooms.")
        return draft.ref

    async def change_job(self, ref: str) -> bool:
        """Change a job's card."""
        jobs, shown = self.desk.jobs, Shown(self.card(ref).facts.job)
        form = TakeOnJob(
            clock=self.clock,
            check=lambda draft: jobs.problems(draft, job=shown.fact),
            draft=shown.fact,
        )
        draft = await self.ask(
            form,
            lambda changed: jobs.change(shown.fact, changed),
            if_changed=lambda: shown.see(self.card(ref).facts.job),
        )
        return draft is not None and self.done(f"The card of job {clean(ref)} is changed.")

    async def add_room(self, ref: str) -> bool:
        """Measure a room and put it on file."""
        boards, glues = self._products()
        self.card(ref)
        if not boards:
            return self.not_now(NO_BOARDS)
        form = RoomForm(
            boards=boards,
            glues=glues,
            clock=self.clock,
            check=lambda draft: self.desk.jobs.room_problems(ref, draft),
            taught=self._taught(),
        )
        draft = await self.ask(form, lambda room: self.desk.jobs.add_room(ref, room))
        return draft is not None and self.done(f"{_named(draft)} is on file; {self._needs(ref, draft)}.")

    async def change_room(self, ref: str, room: Room) -> bool:
        """Change a room."""
        boards, glues = self._products()
        shown = Shown(room)
        form = RoomForm(
            boards=boards,
            glues=glues,
            clock=self.clock,
            check=lambda draft: self.desk.jobs.room_problems(ref, draft, room=shown.fact),
            draft=room,
            taught=self._taught(),
        )
        draft = await self.ask(
            form,
            lambda changed: self.desk.jobs.change_room(ref, shown.fact, changed),
            if_changed=lambda: shown.see(self._room(ref, room.id)),
        )
        return draft is not None and self.done(f"{_named(draft)} is changed; {self._needs(ref, draft)}.")

    async def remove_room(self, ref: str, room: Room) -> bool:
        """Take a room out of a job."""
        name = the_room(room.name)
        detail = "It goes from the job for good. A room stays once anything else is on file about it."
        if not await self.sure(f"Take {name} out of the job?", yes="Take out", no="Keep it", detail=detail):
            return False
        self.desk.jobs.remove_room(ref, room)
        return self.done(f"{_named(room)} is out of job {clean(ref)}.")

    def _taught(self) -> Callable[[RoomDraft], str]:
        """What closed jobs say to a room, in a sentence; empty where they say nothing."""
        hint_of = self.desk.taught.hinter()

        def said(room: RoomDraft) -> str:
            hint = hint_of(room)
            return "" if hint is None else say_hint(hint)

        return said

    def _room(self, ref: str, room_id: int) -> Room:
        found = [room for room in self.card(ref).facts.rooms if room.id == room_id]
        if not found:
            raise Refused("This room is not in the job any more.")
        return found[0]

    def _products(self) -> tuple[list[Board], list[Glue]]:
        products = self.desk.products.all()
        return (
            [one for one in products if isinstance(one, Board)],
            [one for one in products if isinstance(one, Glue)],
        )

    def _needs(self, ref: str, draft: RoomDraft) -> str:
        """What the job needs of the room's board now, all its rooms together."""
        tally = next(one for one in self.card(ref).standing.packs if one.product == draft.board)
        return f"the job needs {say_packs(tally.needed)} of {clean(draft.board)} in all"


def _named(draft: RoomDraft) -> str:
    name = the_room(draft.name)
    return f"{name[:1].upper()}{name[1:]}, {say_area(draft.net_mm2)},"
