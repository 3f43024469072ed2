"""What is fitted beside the floor or handed over with it: skirting, screws, profiles, wedges, pads and care."""

import math
from collections import Counter
from collections.abc import Iterator

from store.trade.buying.nouns import BuyingLine, ByCount, ByDoorways, ByPieces, BySticks, ByWall, Caution
from store.trade.buying.sheets import Taken, taken
from store.trade.buying.sizes import KERF_MM, SCREW_SPACING_MM, WEDGE_EVERY_MM
from store.trade.facts import JobFacts
from store.trade.jobs import Room
from store.trade.screws import screws
from store.trade.skirting import SkirtingPiece, skirting_pieces
from store.trade.surveyed import Doorway
from store.trade.things import Thing
from store.trade.trims import FEW_STEPS, trims
from store.trade.walls import walls_of


def pieces_of(facts: JobFacts, stick_mm: int) -> list[SkirtingPiece]:
    """Return the skirting of all rooms, from sticks of a length; a room that is doorways all round has none.

    Raises:
        Refused: a room needs more pieces than a list holds.
    """
    return [piece for room in facts.rooms if _bare_wall_mm(room) > 1 for piece in _pieces(room, stick_mm)]


def _pieces(room: Room, stick_mm: int) -> tuple[SkirtingPiece, ...]:
    return skirting_pieces(rings=(room.outline, *room.cut_outs), doorways=room.doorways, stick_mm=stick_mm)


def skirting_line(pieces: list[SkirtingPiece], taken_as: Taken) -> BuyingLine | None:
    """Return the fewest sticks for the pieces of all rooms together; where that takes long, the fewest found soon."""
    if not pieces:
        return None
    cutting = trims(
        stick_mm=int(taken_as.size),
        kerf_mm=KERF_MM,
        pieces_mm=[piece.cut_mm for piece in pieces],
        steps=FEW_STEPS,
    )
    return taken_as.sold(
        BuyingLine(
            thing=Thing.SKIRTING,
            units=cutting.sticks,
            how=BySticks(
                along_mm=math.fsum(piece.along_mm for piece in pieces),
                pieces=len(pieces),
                at_least=cutting.at_least,
                proved=cutting.proved,
            ),
            usual=taken_as.is_usual,
            cautions=(Caution.DUST,),
        )
    )


def screws_line(facts: JobFacts, pieces: list[SkirtingPiece]) -> BuyingLine | None:
    """Return the boxes of screws that hold the skirting."""
    if not pieces:
        return None
    taken_as = taken(facts, Thing.SCREWS)
    count = screws(pieces_mm=[piece.cut_mm for piece in pieces], spacing_mm=SCREW_SPACING_MM).screws
    return taken_as.sold(
        BuyingLine(
            thing=Thing.SCREWS,
            units=math.ceil(count / taken_as.size),
            how=ByPieces(screws=count, pieces=len(pieces), spacing_mm=SCREW_SPACING_MM),
            usual=True,
            cautions=(Caution.HIDDEN,),
        )
    )


def profiles_line(facts: JobFacts) -> BuyingLine | None:
    """Return a profile for each doorway; one that was drawn in both of the rooms it joins is one doorway."""
    doors = list(_doorways(facts))
    if not doors:
        return None
    taken_as = taken(facts, Thing.PROFILES)
    return taken_as.sold(
        BuyingLine(
            thing=Thing.PROFILES,
            units=sum(math.ceil(door.width_mm / taken_as.size) for door in doors),
            how=ByDoorways(doorways=len(doors), widest_mm=max(door.width_mm for door in doors)),
            usual=taken_as.is_usual,
            cautions=(Caution.HIDDEN,),
        )
    )


def _doorways(facts: JobFacts) -> Iterator[Doorway]:
    """Yield each doorway once: of two rooms that both name the way to the other, those of the first."""
    names = {room.name for room in facts.rooms}
    drawn: Counter[tuple[str, str]] = Counter()
    for room in facts.rooms:
        for door in room.doorways:
            here, there = (room.name, door.to), (door.to, room.name)
            if door.to in names and door.to != room.name and drawn[there] > 0:
                drawn[there] -= 1
                continue
            drawn[here] += 1
            yield door


def wedges_line(facts: JobFacts) -> BuyingLine | None:
    """Return wedges for the room with the most wall: they are used again in the next (common practice, no source)."""
    if not facts.rooms:
        return None
    room = max(facts.rooms, key=_bare_wall_mm)
    wall = _bare_wall_mm(room)
    if wall <= 0:
        return None
    taken_as, count = taken(facts, Thing.WEDGES), math.ceil(wall / WEDGE_EVERY_MM)
    return taken_as.sold(
        BuyingLine(
            thing=Thing.WEDGES,
            units=math.ceil(count / taken_as.size),
            how=ByWall(room=room.name, wall_mm=wall, every_mm=WEDGE_EVERY_MM, wedges=count),
            usual=True,
        )
    )


def _bare_wall_mm(room: Room) -> float:
    """How much wall of a room and its cut-outs is no doorway, mm."""
    whole = math.fsum(math.dist(*wall) for ring in (room.outline, *room.cut_outs) for wall in walls_of(ring))
    return whole - sum(door.width_mm for door in room.doorways)


def set_line(facts: JobFacts, thing: Thing) -> BuyingLine | None:
    """Return felt pads, a set for each room, or the care set of the job (common practice, no source)."""
    if not facts.rooms:
        return None
    rooms = len(facts.rooms) if thing is Thing.FELT_PADS else None
    line = BuyingLine(thing=thing, units=rooms or 1, how=ByCount(rooms=rooms), usual=True)
    return taken(facts, thing).sold(line)
