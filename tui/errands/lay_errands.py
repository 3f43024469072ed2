"""Errands about a room's lay: changing the wishes, filing it as the room's plan, and writing it out for the site."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from store.errors import Problem, Refused
from store.trade.jobs import Room
from store.trade.layout.doorway import LineThrough, line_through
from store.trade.layout.figures import strips_at_walls
from store.trade.layout.lay import Attempt, Lay, check_sizes
from store.trade.layout.reserve import brought_for
from store.trade.plan_checks import problems_with_terms
from store.trade.plans import floor_in, size_of
from store.trade.products import Board
from store.trade.surveyed import Doorway, Finds
from store.trade.walls import wall_letter
from store.trade.ways import other_ways
from store.trade.wishes import LayWishes, is_same_floor, plan_of, room_with, shape_with
from tui.command.laying_sum import drawing_of
from tui.dialogs.choose import Choose
from tui.dialogs.lay_form import LayForm
from tui.dialogs.what_if import Taken, WhatIf
from tui.errands.subject import Subject
from tui.words.lays import lay_text
from tui.words.wording import clean, counted, figure


class LayErrands(Subject):
    """What is done with the lay of one room."""

    def boards(self) -> dict[str, Board]:
        """Return the boards on file by their codes."""
        return {one.code: one for one in self.desk.products.all() if isinstance(one, Board)}

    async def change(self, room: Room, wishes: LayWishes, lay: Lay | None) -> LayWishes | None:
        """Ask how the room is to be laid."""
        boards = self.boards()

        def check(draft: LayWishes) -> tuple[Problem, ...]:
            return self._problems(room, boards, draft, lay)

        form = LayForm(room=room, boards=list(boards.values()), wishes=wishes, check=check)
        return await self._view.app.push_screen_wait(form)

    def _problems(
        self, room: Room, boards: dict[str, Board], wishes: LayWishes, lay: Lay | None
    ) -> tuple[Problem, ...]:
        if wishes.board not in boards:
            return (Problem(field="board", say=f"There is no board “{clean(wishes.board)}” on file."),)
        board = boards[wishes.board]
        try:
            check_sizes(size_of(board), wishes.rules, room.gap_mm)
        except Refused as no:
            return (Problem(field="", say=str(no)),)
        if lay is None:
            return ()
        terms = problems_with_terms(plan_of(room, board, wishes, lay, self.desk.now()))
        return tuple(one for one in terms if one.field != "lay")

    async def compare(self, room: Room, wishes: LayWishes) -> Taken | None:
        """Show other ways side by side; the one that is taken over, if any."""
        boards = self.boards()

        def search(other: LayWishes) -> Iterator[Attempt]:
            return self.desk.plans.search(room_with(room, other), boards[other.board], other.rules, other.seed)

        ways = other_ways(room, wishes, list(boards.values()))

        def narrowest(other: LayWishes, lay: Lay) -> float:
            strips = strips_at_walls(shape_with(room, other), lay)
            return strips[0].width_mm if strips else lay.board.width_mm

        title = f"{clean(room.name)}: what if"
        what_if = WhatIf(title, ways=ways, search=search, packs=packs_by, narrowest=narrowest)
        return await self._view.app.push_screen_wait(what_if)

    async def line_from_next_room(self, ref: str, room: Room, wishes: LayWishes) -> LayWishes | None:
        """Carry the rows of the next room's lay through the doorway between them; None where there is none to carry."""
        ways: dict[str, LineThrough] = {}
        for other, door, others_door in _doorways_between(room, self.card(ref).facts.rooms):
            plan = self.desk.plans.current(ref, other.name)
            if plan is not None:
                shape = shape_with(room, wishes)
                ways[other.name] = line_through(floor_in(other), plan.lay, others_door, shape, door)
        if not ways:
            self.not_now(
                "No doorway here leads to a room whose lay is on file. Give both rooms the doorway between them (like "
                "C 600 900 Hall), and save the other room's lay first."
            )
            return None
        chosen: str | None = next(iter(ways))
        if len(ways) > 1:
            choose = Choose(
                "Whose rows run on into this room?", label="Room", options=[(name, clean(name)) for name in ways]
            )
            chosen = await self._view.app.push_screen_wait(choose)
        if chosen is None:
            return None
        line = ways[chosen]
        self.done(
            f"The rows run on from {clean(chosen)}: turned {figure(line.direction_deg, 1)}°, with an edge between two "
            f"rows at {line.line_mm} mm."
        )
        return replace(wishes, direction_deg=line.direction_deg, start=None, line_mm=line.line_mm)

    async def save(self, ref: str, room: Room, wishes: LayWishes, lay: Lay) -> bool:
        """File the lay as the room's plan; the room takes on its board, direction and first wall where they differ."""
        board = self.boards()[wishes.board]
        if is_same_floor(room, wishes):
            self.desk.plans.file(ref, plan_of(room, board, wishes, lay, self.desk.now()))
        else:
            sure = await self.sure(
                f"Lay {clean(room.name)} like this?",
                yes="File both",
                no="Not yet",
                detail=f"The room is on file otherwise. It will be {_say_floor(wishes)}.",
            )
            if not sure:
                return False
            terms = room_with(room, wishes)
            self.desk.plans.file_for(ref, room, terms, plan_of(terms, board, wishes, lay, self.desk.now()))
        return self.done(
            f"The lay of {clean(room.name)} is on file: {counted(lay.boards, 'board')} to open, "
            f"{counted(packs_by(wishes, lay), 'pack')} to have."
        )

    async def write_out(self, ref: str, room: Room, wishes: LayWishes, lay: Lay) -> bool:
        """Write the cut list and the drawing into a folder."""
        name = file_name(f"{ref} {room.name}")
        shape, title = shape_with(room, wishes), f"{ref}, {room.name}, {wishes.board}"
        finds = Finds(doorways=room.doorways, fixed_things=room.fixed_things)
        folder = await self.write_files(
            "Write the lay out",
            f"Two files for the site: “{name} lay.txt” with the cut list, and “{name} lay.svg”, the drawing.",
            lambda: {
                f"{name} lay.txt": lay_text(shape, lay, wishes.rules, title=title, finds=finds).encode(),
                f"{name} lay.svg": drawing_of(shape, lay, wishes.rules, title, finds=finds).encode(),
            },
        )
        if folder is None:
            return False
        return self.done(f"The cut list and the drawing are in {clean(str(folder))}, as “{name} lay”.")


def _doorways_between(room: Room, rooms: Iterable[Room]) -> Iterator[tuple[Room, Doorway, Doorway]]:
    """Yield the rooms next to one, with its doorway to each and the other's doorway back."""
    for door in room.doorways:
        for other in rooms:
            back = next((one for one in other.doorways if one.to.casefold() == room.name.casefold()), None)
            if other.id != room.id and other.name.casefold() == door.to.casefold() and back is not None:
                yield other, door, back


def packs_by(wishes: LayWishes, lay: Lay) -> int:
    """Return the packs to have for a lay, with those for culls and spare."""
    return brought_for(
        lay,
        culls_percent=wishes.culls_percent,
        confidence_percent=wishes.confidence_percent,
        spare_packs=wishes.spare_packs,
    ).packs


def file_name(words: str) -> str:
    """Return words as a file's name that every platform takes.

    >>> file_name("GQ-0149 [/] Söhne: hall?")
    'GQ-0149 Söhne hall'
    """
    kept = " ".join(re.sub(r"[^\w-]+", " ", clean(words)).split())[:80].strip()
    return kept or "room"


def _say_floor(wishes: LayWishes) -> str:
    turn = "" if wishes.direction_deg is None else f", rows turned {figure(wishes.direction_deg, 1)}°"
    start = "" if wishes.start is None else f", first row at wall {wall_letter(wishes.start)}"
    if wishes.line_mm is not None:
        start = f", with an edge between two rows at {wishes.line_mm} mm"
    return f"laid with {clean(wishes.board)}{turn}{start or ', first row where the program chooses'}"
