"""Will it last? The boards and the glue that are left on site, against the floor that is still to be laid.

The problem: half way through a floor somebody must say whether what lies there is enough, while the shop can still send
more. What is to go is counted by rows where the room has a lay plan: a row is laid once the floor laid so far reaches
its far side, and the boards to go are those of which no piece lies in such a row. A row that is begun counts as to go,
and its boards as not used, so that the two sides of the sum agree. Without a plan it is the room's pattern or
allowance, in proportion to the floor left.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from store.trade.diary import day_of
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.jobs import Room
from store.trade.laying import is_begun, is_wholly_laid, laid_mm2
from store.trade.layout.lay import Lay, pack_boards
from store.trade.layout.take_off import border_boards
from store.trade.needs import boards_worth
from store.trade.on_hand import batches_on_site, boards_on_site, unopened_in_room
from store.trade.plans import Plan, floor_in, size_of
from store.trade.products import Glue
from store.trade.stacks import packs_in_unit, still_owed
from store.trade.tubs import glue_on_hand


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomToGo:
    """What one room still takes: its floor, and the rows of its lay plan; None where it has none."""

    room: str
    floor_mm2: int
    rows: int | None
    of_rows: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardsToGo:
    """The boards of one product against what they still have to cover.

    ``packs`` unopened ones and loose ``boards`` are left on site; ``to_go`` boards are needed, ``short`` more than are
    left. ``in_unit`` packs of the job lie in the unit, ``owed`` are still to come. ``opened_packs`` were opened on
    ``opened_days`` days, both nought where nobody wrote one down.
    """

    product: str
    per_pack: int
    rooms: tuple[RoomToGo, ...]
    to_go: int
    packs: int
    boards: int
    in_unit: int
    owed: int
    opened_packs: int
    opened_days: int

    @property
    def left(self) -> int:
        return self.packs * self.per_pack + self.boards

    @property
    def short(self) -> int:
        return max(0, self.to_go - self.left)


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueToGo:
    """The tubs of one glue against the floor it still has to hold.

    ``g_per_m2`` is the rate on the tub as long as the tubs counted so far agree with it, else what they come to at
    least or at most (``so_far``): the last tub of every laying may have been full or all but empty. ``tubs`` are left
    in date; ``too_old`` lie there beside them, past their day, and hold no floor.
    """

    product: str
    floor_mm2: int
    g_per_m2: float
    so_far: bool
    tubs: float
    too_old: float
    to_go: float

    @property
    def short(self) -> int:
        """How many more tubs it takes than are left in date, whole ones."""
        return max(0, math.ceil(round(self.to_go - self.tubs, 9)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lasting:
    """What is left of every board and glue that is being laid; empty before the first and after the last board."""

    boards: tuple[BoardsToGo, ...] = ()
    glues: tuple[GlueToGo, ...] = ()


def will_it_last(firm: FirmDraft, facts: JobFacts, plans: Mapping[str, Plan], today: date) -> Lasting:
    """Return what is left on site against what is to go.

    Args:
        firm: whose days the packs were opened on.
        facts: what is known of the job.
        plans: the lay plans that its rooms are counted by, with every piece, by the room's name.
        today: tells which glue is past its day and no longer counts.
    """
    codes = [code for code in facts.board_codes if _is_going_on(facts, facts.rooms_with(code))]
    glues: dict[str, Glue] = {}
    for room in facts.rooms:
        glue = facts.glue_of(room)
        if glue is not None and _is_going_on(facts, _glued_with(facts, glue.code)):
            glues.setdefault(glue.code, glue)
    return Lasting(
        boards=tuple(_boards(firm, facts, plans, code) for code in codes),
        glues=tuple(_glue(facts, glue, today) for glue in glues.values()),
    )


def rows_laid(lay: Lay, part: Fraction) -> int:
    """Return how many rows of a lay are laid once so large a part of its floor is, from the first row on.

    Rows count by the floor they cover; one that is not quite reached is not laid, but for a hundredth of the floor that
    is lost in measuring (common practice: a room is wholly laid at 99 %).
    """
    covered = [0] * lay.rows
    for piece in lay.pieces:
        low, high = lay.row_edges_mm[piece.row]
        covered[piece.row] += (piece.to_mm - piece.from_mm) * (high - low)
    whole, reached, rows = sum(covered), 0, 0
    for area in covered:
        reached += area
        if 100 * reached > 100 * part * whole + whole:
            break
        rows += 1
    return rows if part > 0 else 0


def _is_going_on(facts: JobFacts, rooms: tuple[Room, ...]) -> bool:
    begun = any(is_begun(facts, room) for room in rooms)
    return begun and not all(is_wholly_laid(facts, room) for room in rooms)


def _glued_with(facts: JobFacts, code: str) -> tuple[Room, ...]:
    return tuple(room for room in facts.rooms if room.glue == code)


def _boards(firm: FirmDraft, facts: JobFacts, plans: Mapping[str, Plan], code: str) -> BoardsToGo:
    board = facts.board(code)
    per_pack = board.boards_per_pack
    used, to_go = Fraction(), Fraction()
    rooms: list[RoomToGo] = []
    for room in facts.rooms_with(code):
        in_floor, wanted, told = _room(facts, room, plans.get(room.name))
        used, to_go = used + in_floor, to_go + wanted
        if told is not None:
            rooms.append(told)
    openings = [one for one in facts.openings if one.product == code]
    opened = sum(one.packs for one in openings)
    batches = [batch for product, batch in batches_on_site(facts) if product == code]
    on_site = sum(boards_on_site(facts, code, batch) for batch in batches)
    if openings:
        # No more went into the floor than came out of the packs opened for it.
        used = min(used, Fraction(opened * per_pack))
    left = max(0, on_site - math.ceil(used))
    packs = left // per_pack
    if openings:
        names = dict.fromkeys(room.name for room in facts.rooms)
        packs = min(packs, sum(max(0, unopened_in_room(facts, name, code, lot)) for name in names for lot in batches))
    return BoardsToGo(
        product=code,
        per_pack=per_pack,
        rooms=tuple(rooms),
        to_go=math.ceil(to_go),
        packs=packs,
        boards=left - packs * per_pack,
        in_unit=packs_in_unit(facts, code),
        owed=sum(one.packs for one in still_owed(facts, code)),
        opened_packs=opened,
        opened_days=len({day_of(firm, one.at) for one in openings}),
    )


def _room(facts: JobFacts, room: Room, plan: Plan | None) -> tuple[Fraction, Fraction, RoomToGo | None]:
    """The boards that a room has taken and still takes, and what there is to say; None of one wholly laid."""
    floor_mm2 = max(0, room.net_mm2 - laid_mm2(facts, room))
    part = min(Fraction(1), Fraction(laid_mm2(facts, room), room.net_mm2))
    is_done = is_wholly_laid(facts, room)
    if plan is None:
        worth = boards_worth(facts, room)
        told = RoomToGo(room=room.name, floor_mm2=floor_mm2, rows=None, of_rows=None)
        return (worth, Fraction(), None) if is_done else (worth * part, worth * (1 - part), told)
    border = Fraction(border_boards(floor_in(room), size_of(facts.board(room.board))))
    rows = plan.lay.rows if is_done else rows_laid(plan.lay, part)
    in_floor = {piece.board for piece in plan.lay.pieces if piece.row < rows}
    used, to_go = _worth(plan.lay, in_floor), _worth(plan.lay, {one.board for one in plan.lay.pieces} - in_floor)
    if is_done:
        return used + border, Fraction(), None
    told = RoomToGo(room=room.name, floor_mm2=floor_mm2, rows=plan.lay.rows - rows, of_rows=plan.lay.rows)
    return used + border * part, to_go + border * (1 - part), told


def _worth(lay: Lay, boards: set[int]) -> Fraction:
    """So many boards of a lay, as the packs that hold them count them."""
    return Fraction(pack_boards(lay.board, len(boards), [lay.length_of(one) for one in boards]))


def _glue(facts: JobFacts, glue: Glue, today: date) -> GlueToGo:
    rooms = _glued_with(facts, glue.code)
    floor_mm2 = sum(max(0, room.net_mm2 - laid_mm2(facts, room)) for room in rooms if not is_wholly_laid(facts, room))
    names = {room.name for room in rooms}
    told = [one for one in facts.layings if one.room in names and one.tubs is not None and one.area_mm2]
    area, tubs = sum(one.area_mm2 or 0 for one in told), sum(one.tubs or 0 for one in told)
    on_hand = glue_on_hand(facts, glue, today)
    grams = _grams(glue, area, (max(0, tubs - len(told)), tubs)) if area else float(glue.rate_g_per_m2)
    return GlueToGo(
        product=glue.code,
        floor_mm2=floor_mm2,
        g_per_m2=grams,
        so_far=grams != glue.rate_g_per_m2,
        tubs=float(on_hand.in_date),
        too_old=float(on_hand.left - on_hand.in_date),
        to_go=floor_mm2 * grams / (1_000_000 * glue.tub_kg * 1000),
    )


def _grams(glue: Glue, area_mm2: int, tubs: tuple[int, int]) -> float:
    """The rate on the tub, held between what so few and so many tubs under an area come to, g/m²."""
    least, most = (1_000_000 * one * glue.tub_kg * 1000 / area_mm2 for one in tubs)
    return min(max(float(glue.rate_g_per_m2), least), most)
