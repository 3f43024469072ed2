"""Carrying packs as the stock view asks for it: between a job's rooms and the unit, and from free stock to a job."""

from store.desk.cards import JobCard, StockLine
from store.trade.batches import batches_by_room
from store.trade.events import SHELF, UNIT, MoveDraft, Place, PlaceKind, in_room
from tui.dialogs.choose import Choose
from tui.dialogs.move_form import MoveForm
from tui.dialogs.parts import Lying
from tui.errands.said import say_carried
from tui.errands.subject import Subject
from tui.words.stock import say_where
from tui.words.wording import clean

_CARRIED = (PlaceKind.SHELF, PlaceKind.UNIT, PlaceKind.ROOM)


class ShelfErrands(Subject):
    """Carrying packs that lie somewhere."""

    async def carry(self, line: StockLine | None) -> bool:
        """Ask which packs go where, beginning with those of a line, and file it."""
        if line is None:
            return self.not_now("No packs lie here yet; take in a delivery in a job's folder first.")
        if line.place not in _CARRIED:
            return self.not_now(f"What is {say_where(line)} is not carried; whole packs in the unit or a room are.")
        if line.packs < 1:
            return self.not_now("Only whole packs are carried, and no whole one lies here.")
        ref = line.job_ref or await self._ask_for_job(line.product)
        return bool(ref) and await self._carry_for(ref or "", line)

    async def _ask_for_job(self, product: str) -> str | None:
        """Ask which open job free stock goes to; those that are laid with it come first."""
        cards = sorted(self.desk.jobs.today(), key=lambda card: (not _takes(card, product), card.ref))
        if not cards:
            self.not_now("No job is open that the packs could go to; take one on first (2, then n).")
            return None
        options = [(card.ref, _say_job(card, product)) for card in cards]
        ask = Choose(f"Which job does {clean(product)} go to?", label="Job", options=options)
        return await self._view.app.push_screen_wait(ask)

    async def _carry_for(self, ref: str, line: StockLine) -> bool:
        card = self.card(ref)
        form = MoveForm(
            lying=[_lying(one) for one in self._beside(line)],
            targets=_targets(card, line),
            clock=self.clock,
            check=lambda draft: self.desk.packs.move_problems(ref, draft),
            lying_in=batches_by_room(card.facts),
        )
        draft: MoveDraft | None = await self.ask(form, lambda move: self.desk.packs.carry(ref, move))
        return draft is not None and self.done(say_carried(draft, self.card(ref), self.clock))

    def _beside(self, line: StockLine) -> list[StockLine]:
        """The line itself, and after it whatever else lies there for the same job, or free."""
        same = [
            one for one in self.desk.packs.stock(spares=False) if one.job_ref == line.job_ref and one.place in _CARRIED
        ]
        return sorted((one for one in same if one.packs > 0), key=lambda one: _which(one) != _which(line))


def _targets(card: JobCard, line: StockLine) -> list[Place]:
    """Where packs of a line can go, the likeliest first: a room that is laid with them, the unit, free stock."""
    rooms = sorted(card.facts.rooms, key=lambda room: line.product not in {room.board, room.glue})
    places = [*(in_room(room.name) for room in rooms), UNIT, SHELF]
    return [place for place in places if place != _place(line)]


def _takes(card: JobCard, product: str) -> bool:
    return any(product in {room.board, room.glue} for room in card.facts.rooms)


def _say_job(card: JobCard, product: str) -> str:
    words = f"{clean(card.ref)}  {clean(card.facts.job.title)}"
    return f"{words} (laid with it)" if _takes(card, product) else words


def _which(line: StockLine) -> tuple[str, str, Place]:
    return line.product, line.batch, _place(line)


def _place(line: StockLine) -> Place:
    return Place(kind=line.place, room=line.room)


def _lying(line: StockLine) -> Lying:
    return Lying(
        product=line.product,
        batch=line.batch,
        place=_place(line),
        packs=line.packs,
        thing=line.thing,
    )
