"""What is told once something is on file: one sentence that names it, and what follows from it."""

from collections.abc import Sequence
from datetime import datetime

from store.desk.cards import JobCard
from store.trade.batches import mixed_rooms
from store.trade.events import (
    DeliveryDraft,
    LayingDraft,
    MoveDraft,
    OpeningDraft,
    OrderDraft,
    Place,
    PlaceKind,
)
from store.trade.firm import Firm
from store.trade.laying import is_wholly_laid, laid_mm2
from store.trade.morning import MorningCheckDraft
from store.trade.readings import ReadingDraft
from store.trade.verdict import DeedKind
from tui.typed.wall_clock import WallClock
from tui.words.batches import say_meeting
from tui.words.facts import say_delivery, say_list, say_lot, say_order, say_reading
from tui.words.limits import say_judgement
from tui.words.morning import say_amiss
from tui.words.standing import say_windows
from tui.words.vocabulary import say_place, say_target, the_room
from tui.words.wording import clean, counted, say_area, upper


def say_ordered(draft: OrderDraft, card: JobCard, clock: WallClock) -> str:
    """Return what is on order now, and when it is due."""
    many = sum(line.packs for line in draft.lines) > 1
    due = f", due {clock.say_day(draft.due_on)}" if draft.due_on else "; ask the supplier for a day"
    return f"{upper(say_order(draft, card.facts))} {'are' if many else 'is'} on order{due}."


def say_taken_in(draft: DeliveryDraft, card: JobCard, clock: WallClock) -> str:
    """Return what came in, where it lies, and when it is ready."""
    lies = _lies(say_delivery(draft, card.facts), sum(line.packs for line in draft.lines), draft.into)
    boards = [line.product for line in draft.lines if line.product in card.facts.board_codes]
    came = [line.product for line in draft.lines]
    broken = sum(line.damaged_packs for line in draft.lines)
    say = f" {counted(broken, 'damaged pack')} set aside: photograph and claim; o in Stock follows it."
    claim = say if broken else ""
    wait = _wait(card, draft.into.room, boards, draft.at, clock)
    return f"{lies}{wait}.{claim}{_mixed(card, draft.into.room, came)}"


def say_carried(draft: MoveDraft, card: JobCard, clock: WallClock) -> str:
    """Return what was carried where, and when it is ready."""
    lot = say_lot(card.facts, draft.product, draft.batch, draft.packs)
    if draft.target.kind is not PlaceKind.ROOM:
        return f"{upper(lot)} went {say_target(draft.target)}."
    boards = [draft.product] if draft.product in card.facts.board_codes else []
    wait = _wait(card, draft.target.room, boards, draft.at, clock)
    return f"{_lies(lot, draft.packs, draft.target)}{wait}.{_mixed(card, draft.target.room, [draft.product])}"


def _mixed(card: JobCard, room: str, products: Sequence[str]) -> str:
    """That batches of what was put into a room lie together there now, as one more sentence."""
    mixed = mixed_rooms(card.facts)
    words = [say_meeting(code, mixed[room, code], room) for code in dict.fromkeys(products) if (room, code) in mixed]
    return "".join(f" {one}" for one in words)


def _lies(lot: str, packs: int, place: Place) -> str:
    """Where packs lie, as the beginning of a sentence."""
    # A batch stands between commas, unless a bracket closes it off.
    last = lot.rpartition(" and ")[2]
    comma = "," if ", batch" in last and not last.endswith(")") else ""
    return f"{upper(lot)}{comma} {'are' if packs > 1 else 'is'} {say_place(place)}"


def _wait(card: JobCard, room: str, boards: list[str], at: datetime, clock: WallClock) -> str:
    """When boards put into a room at one moment are ready, as the end of a sentence."""
    if not room:
        return "; their wait begins once they are carried into a room (c)" if boards else ""
    board = card.facts.room(room).board
    strange = [code for code in boards if code != board]
    if strange:
        return f"; that room is laid with {clean(board)}, not {say_list(clean(code) for code in strange)}"
    mine = [one for one in card.standing.clocks if one.room == room and one.since == at and one.product in boards]
    if not mine:
        return ""
    if any(one.ready_at is None for one in mine):
        return "; their wait stands still until the air there is read in range (r)"
    ready = max(one.ready_at for one in mine if one.ready_at)
    unread = any(deed.kind is DeedKind.READ_AIR and deed.room == room for deed in card.standing.to_do)
    if ready <= clock.now:
        return "; their wait is over"
    return f"; ready {clock.say(ready)} if the air stays right" + (". Read the air there now" if unread else "")


def say_read(reading: ReadingDraft, card: JobCard, firm: Firm) -> str:
    """Return a reading, and whether it keeps to its limit."""
    limit, judgement = say_judgement(firm, card.facts, reading)
    words = upper(say_reading(reading))
    if not limit:
        return f"{words}, is on file."
    good = judgement.startswith("✓")
    follows = ""
    if any(one.room == reading.room and not one.running for one in card.standing.clocks):
        follows = " The wait of the boards there stands still; put the air right, then read it again."
    return f"{words}: {'good' if good else 'not good'} ({limit}).{follows}"


def say_begun(draft: LayingDraft, openings: tuple[OpeningDraft, ...], card: JobCard) -> str:
    """Return where laying has begun, and what was opened for it."""
    opened = say_list(say_lot(card.facts, one.product, one.batch, one.packs) for one in openings)
    words = f"; {opened} opened" if opened else ""
    return f"Laying has begun in {the_room(draft.room)}{words}. When it is done, l finishes it."


def say_laid(draft: LayingDraft, card: JobCard, firm: Firm, clock: WallClock) -> str:
    """Return what is laid, what is left to lay, and when the floor may be walked on."""
    room = card.facts.room(draft.room)
    done = f"{say_area(draft.area_mm2 or 0)} of {the_room(draft.room)}"
    if not is_wholly_laid(card.facts, room):
        left = max(0, room.net_mm2 - laid_mm2(card.facts, room))
        return f"{done} are laid; {say_area(left)} of it are left."
    if card.standing.verdict is not None:
        return f"{upper(the_room(draft.room))} is laid; other rooms of the job are not."
    return f"{upper(the_room(draft.room))} is laid. {say_windows(card.standing.windows, firm, clock.now)}"


def say_looked_round(draft: MorningCheckDraft, card: JobCard, firm: Firm) -> str:
    """Return that a morning list is on file, and what is not right."""
    amiss = say_amiss(draft, card.facts, firm)
    return f"The morning list of {the_room(draft.room)} is on file. {amiss or 'All is right.'}"
