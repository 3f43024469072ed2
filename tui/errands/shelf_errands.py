"""Carrying packs, as the stock view asks for it: between a job's rooms and the unit, and from free stock to a job."""

from textual.screen import Screen

from store.desk.cards import JobCard, StockLine
from store.desk.desk import Desk
from store.errors import StoreError
from store.trade.events import SHELF, UNIT, MoveDraft, Place, PlaceKind, in_room
from tui.dialogs.choose import Choose
from tui.dialogs.move_form import MoveForm
from tui.dialogs.parts import Lying
from tui.telling import tell, tell_no
from tui.vocabulary import say_target
from tui.wall_clock import WallClock
from tui.wording import clean, counted
from tui.words_for_stock import say_where

_CARRIED = (PlaceKind.SHELF, PlaceKind.UNIT, PlaceKind.ROOM)


async def carry(screen: Screen[None], desk: Desk, line: StockLine | None) -> None:
    """Ask which packs go where, beginning with those of a line, and file it; say why where none can be carried."""
    if line is None:
        tell(screen.app, "No packs lie here yet; take in a delivery in a job's folder first.")
    elif line.place not in _CARRIED:
        tell(screen.app, f"What is {say_where(line)} is not carried; whole packs in the unit or in a room are.")
    elif line.packs < 1:
        tell(screen.app, "Only whole packs are carried, and no whole one lies here.")
    else:
        try:
            ref = line.job_ref or await _ask_for_job(screen, desk, line.product)
            if ref:
                await _carry_for(screen, desk, line, ref)
        except StoreError as error:
            tell_no(screen.app, error)


async def _ask_for_job(screen: Screen[None], desk: Desk, product: str) -> str | None:
    """Ask which open job free stock goes to; those that are laid with it come first."""
    cards = sorted(desk.jobs.today(), key=lambda card: (not _takes(card, product), card.ref))
    options = [(card.ref, _say_job(card, product)) for card in cards]
    if not options:
        tell(screen.app, "No job is open that the packs could go to; take one on first (2, then n).")
        return None
    return await screen.app.push_screen_wait(
        Choose(f"Which job does {clean(product)} go to?", label="Job", options=options)
    )


def _takes(card: JobCard, product: str) -> bool:
    return any(product in {room.board, room.glue} for room in card.facts.rooms)


def _say_job(card: JobCard, product: str) -> str:
    words = f"{clean(card.ref)}  {clean(card.facts.job.title)}"
    return f"{words} (laid with it)" if _takes(card, product) else words


async def _carry_for(screen: Screen[None], desk: Desk, line: StockLine, ref: str) -> None:
    rooms = desk.jobs.card(ref).facts.rooms
    source = _place(line)
    targets = [place for place in (*(in_room(room.name) for room in rooms), UNIT, SHELF) if place != source]
    if not line.job_ref:
        targets.remove(UNIT)
        targets.append(UNIT)
    form = MoveForm(
        lying=[_lying(one) for one in _beside(desk, line)],
        targets=targets,
        clock=WallClock(now=desk.now(), zone=desk.zone()),
        check=lambda draft: desk.packs.move_problems(ref, draft),
    )
    draft = await screen.app.push_screen_wait(form)
    if draft is not None:
        desk.packs.carry(ref, draft)
        tell(screen.app, _say_carried(draft, ref))


def _beside(desk: Desk, line: StockLine) -> list[StockLine]:
    """The line itself, and after it whatever else lies there for the same job, or free."""
    same = [one for one in desk.packs.stock() if one.job_ref == line.job_ref and one.place in _CARRIED]
    return sorted((one for one in same if one.packs > 0), key=lambda one: _place_of(one) != _place_of(line))


def _place_of(line: StockLine) -> tuple[str, str, Place]:
    return line.product, line.batch, _place(line)


def _place(line: StockLine) -> Place:
    return Place(kind=line.place, room=line.room)


def _lying(line: StockLine) -> Lying:
    return Lying(product=line.product, batch=line.batch, place=_place(line), packs=line.packs, boards=line.boards)


def _say_carried(draft: MoveDraft, ref: str) -> str:
    batch = f", batch {clean(draft.batch)}" if draft.batch else ""
    packs = counted(draft.packs, "pack")
    return f"Carried: {packs} of {clean(draft.product)}{batch}, {say_target(draft.target)} ({clean(ref)})."
