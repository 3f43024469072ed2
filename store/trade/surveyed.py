"""What a survey finds in a room beside its walls: doorways, things that stay where they are, and the pattern wanted."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from store.trade.outline import Ring
from store.trade.walls import wall_name, walls_of

MOST_FOUND = 200
MOST_NAME = 80


class Pattern(StrEnum):
    """How the boards lie: in rows, or as blocks of two hands."""

    STRAIGHT = "straight"
    HERRINGBONE = "herringbone"
    CHEVRON = "chevron"


@dataclass(frozen=True, slots=True, kw_only=True)
class Doorway:
    """A hole in a wall to walk through.

    ``wall`` is the wall's place in the outline; ``from_mm`` runs along it from its first corner to the opening, which
    is ``width_mm`` wide. ``to`` is the name of the room behind it, ``deep_mm`` the thickness of the wall there.
    """

    wall: int
    from_mm: int
    width_mm: int
    to: str = ""
    deep_mm: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class FixedThing:
    """Something that comes through the floor and is cut round: a pipe, a socket, a post; its middle, and how wide."""

    name: str
    x_mm: int
    y_mm: int
    size_mm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Finds:
    """What is drawn and told beside the walls of a room: its doorways and its fixed things."""

    doorways: Sequence[Doorway] = ()
    fixed_things: Sequence[FixedThing] = ()


NOTHING_FOUND = Finds()


def faults_in_doorways(outline: Ring, doorways: Sequence[Doorway]) -> Iterator[str]:
    """Yield a sentence for each doorway that cannot be in a wall of this outline."""
    if len(doorways) > MOST_FOUND:
        yield f"A room has no more than {MOST_FOUND} doorways."
        return
    walls = walls_of(outline)
    for number, door in enumerate(doorways, start=1):
        if not 0 <= door.wall < len(walls):
            yield f"Doorway {number} is in a wall {door.wall}; the room has wall A (0) to {wall_name(len(walls) - 1)}."
            continue
        long = math.dist(*walls[door.wall])
        if door.from_mm < 0 or door.width_mm <= 0 or door.from_mm + door.width_mm > long + 0.5:
            yield (
                f"Doorway {number}, {door.width_mm} mm wide from {door.from_mm} mm on, is not within "
                f"{wall_name(door.wall)}, which is {long:.0f} mm long."
            )
        if not 0 <= door.deep_mm <= 2_000:
            yield f"Doorway {number}: a wall is from 0 to 2,000 mm thick."
        if len(door.to) > MOST_NAME:
            yield f"Doorway {number}: a room's name has no more than {MOST_NAME} characters here."


def faults_in_fixed_things(outline: Ring, things: Sequence[FixedThing]) -> Iterator[str]:
    """Yield a sentence for each fixed thing that cannot be, or does not stand in the room."""
    if len(things) > MOST_FOUND:
        yield f"A room has no more than {MOST_FOUND} fixed things."
        return
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    for thing in things:
        if not thing.name.strip() or len(thing.name) > MOST_NAME:
            yield f"Give every fixed thing a name of 1 to {MOST_NAME} characters."
        elif not 1 <= thing.size_mm <= 10_000:
            yield f"{thing.name}: a fixed thing is from 1 to 10,000 mm wide."
        elif not (min(xs) <= thing.x_mm <= max(xs) and min(ys) <= thing.y_mm <= max(ys)):
            yield f"{thing.name} at {thing.x_mm}, {thing.y_mm} is outside the room."
