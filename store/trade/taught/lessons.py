"""Reads off a closed job what it taught: one lesson for each of its boards and glues."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from store.trade.counts import reckon
from store.trade.events import PlaceKind
from store.trade.facts import JobFacts
from store.trade.jobs import Room, RoomDraft
from store.trade.laying import laid_mm2
from store.trade.needs import current_plan
from store.trade.orders import paid_for
from store.trade.outline import Ring
from store.trade.products import Glue, problems_with_product
from store.trade.stacks import packs_ordered
from store.trade.standing import closed_at
from store.trade.taught.nouns import FloorLesson, GlueLesson, Shape, SizeBand, Taught
from store.trade.things import Thing
from store.trade.walls import turn

SMALL_UNDER_MM2 = 12_000_000
LARGE_OVER_MM2 = 30_000_000
_MOST_CORNERS = 8

Kind = TypeVar("Kind")


def taught_by(facts: JobFacts) -> Taught:
    """Return what a job taught; nothing while it is not closed, or while a product of it makes no sense."""
    if closed_at(facts) is None or any(problems_with_product(one) for one in facts.products.values()):
        return Taught()
    glues = dict.fromkeys(room.glue for room in facts.rooms if room.glue is not None)
    told = (_glue_lesson(facts, code) for code in glues)
    return Taught(
        floors=tuple(_floor_lesson(facts, code) for code in facts.board_codes),
        glues=tuple(one for one in told if one is not None),
    )


def shape_class(room: RoomDraft) -> Shape:
    """Return how cut up a room is, by its corners and cut-outs (own convention).

    Four corners and no cut-out are a rectangle; up to eight corners, a cut-out counting as four, are a room with
    corners or recesses (an L, a T, a chimney breast, a bay, a hearth); more are a room that is cut up.

    >>> from store.trade.jobs import Method, Subfloor
    >>> breast = ((0, 0), (1000, 0), (1000, 400), (2200, 400), (2200, 0), (4000, 0), (4000, 3000), (0, 3000))
    >>> shape_class(RoomDraft(name="Den", outline=breast, subfloor=Subfloor.OSB, method=Method.GLUED, board="OAK"))
    <Shape.CORNERS: 'corners'>
    """
    corners = _corners(room.outline) + 4 * len(room.cut_outs)
    if corners == 4:
        return Shape.RECTANGLE
    return Shape.CORNERS if corners <= _MOST_CORNERS else Shape.CUT_UP


def size_band(mm2: int) -> SizeBand:
    """Return how large a room of this floor is: under 12 m², 12 to 30 m², over 30 m².

    >>> size_band(11_999_999), size_band(12_000_000), size_band(30_000_000), size_band(30_000_001)
    (<SizeBand.SMALL: 'small'>, <SizeBand.MIDDLE: 'middle'>, <SizeBand.MIDDLE: 'middle'>, <SizeBand.LARGE: 'large'>)
    """
    if mm2 < SMALL_UNDER_MM2:
        return SizeBand.SMALL
    return SizeBand.LARGE if mm2 > LARGE_OVER_MM2 else SizeBand.MIDDLE


def notch_of(facts: JobFacts, code: str) -> str:
    """Return the notch that was set by hand for a glue of a job; the latest such line holds, empty if none says one."""
    lines = [one for one in facts.own_lines if one.thing is Thing.GLUE and one.product == code]
    return max(lines, key=lambda one: (one.at, one.id)).notch.strip().upper() if lines else ""


def tubs_used(facts: JobFacts, code: str) -> int | None:
    """Return the tubs of a glue that went under the floor: as counted when laying ended, else as opened.

    None where a laying was ended without counting tubs and none was written down as opened.
    """
    rooms = {room.name for room in facts.rooms if room.glue == code}
    layings = [one for one in facts.layings if one.room in rooms and one.ended_at is not None]
    if layings and all(one.tubs is not None for one in layings):
        return sum(one.tubs or 0 for one in layings)
    opened = [one.packs for one in facts.openings if one.product == code]
    return sum(opened) if opened else None


def _floor_lesson(facts: JobFacts, code: str) -> FloorLesson:
    rooms, sums = facts.rooms_with(code), reckon(facts, code)
    paid_packs, paid_minor = paid_for(facts.orders, code)
    return FloorLesson(
        product=code,
        rooms=len(rooms),
        pattern=_same(rooms, lambda room: room.pattern),
        shape=_same(rooms, shape_class),
        size=_same(rooms, lambda room: size_band(room.net_mm2)),
        fitters=_booked(facts, {room.name for room in rooms}),
        planned=all(current_plan(facts, room) is not None for room in rooms),
        allowed_percent=sums.allowed_loss_percent,
        laid_mm2=sums.laid_mm2,
        ordered=sums.ordered + sums.from_stock,
        used=sums.used - sums.stairs,
        kept=sums.customer + sums.unit + sums.returned + sums.to_stock,
        scrapped=sums.scrapped,
        gone=sums.unaccounted + sums.missing,
        adds_up=sums.adds_up,
        paid_packs=paid_packs,
        paid_minor=paid_minor,
    )


def _glue_lesson(facts: JobFacts, code: str) -> GlueLesson | None:
    """The lesson about one glue; None where nobody counted its tubs."""
    tubs = tubs_used(facts, code)
    rooms = tuple(room for room in facts.rooms if room.glue == code)
    if not tubs or not isinstance(facts.products[code], Glue):
        return None
    paid_packs, paid_minor = paid_for(facts.orders, code)
    return GlueLesson(
        product=code,
        rooms=len(rooms),
        notch=notch_of(facts, code),
        base=_same(rooms, lambda room: room.subfloor),
        glued_mm2=sum(laid_mm2(facts, room) for room in rooms),
        ordered=packs_ordered(facts, code) + _from_stock(facts, code),
        tubs=tubs,
        paid_packs=paid_packs,
        paid_minor=paid_minor,
    )


def _from_stock(facts: JobFacts, code: str) -> int:
    return sum(one.packs for one in facts.moves if one.product == code and one.source.kind is PlaceKind.SHELF)


def _booked(facts: JobFacts, rooms: set[str]) -> tuple[str, ...]:
    """Those who were booked on the rooms or on the job as a whole, by name."""
    return tuple(sorted({one.person for one in facts.bookings if not one.room or one.room in rooms}))


def _same(rooms: Iterable[Room], quality: Callable[[Room], Kind]) -> Kind | None:
    """The quality that all rooms share, or None."""
    found = {quality(room) for room in rooms}
    return found.pop() if len(found) == 1 else None


def _corners(ring: Ring) -> int:
    """The corners of a ring at which its wall turns."""
    around = zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True)
    return sum(1 for before, here, after in around if turn(before, here, after) != 0)
