"""The names that one part of a folder may call another by: its products, and the rooms of the job at hand."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from store.papers.spot import Spot, one_of, opened, shown, text
from store.trade.events import UNIT, Place, PlaceKind, in_room
from store.trade.jobs import UNIT_WORD
from store.trade.things import Thing

OTHER_PLACES = (
    PlaceKind.SHELF,
    PlaceKind.OPENED,
    PlaceKind.CUSTOMER,
    PlaceKind.RETURN,
    PlaceKind.SCRAP,
)
"""The places that are written ``{"place": "shelf"}``, so that a room may be called by the same word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """The codes and names that may be referred to; every method reads one reference, or refuses it."""

    boards: frozenset[str]
    glues: frozenset[str]
    materials: Mapping[str, Thing] = field(default_factory=dict)
    rooms: frozenset[str] = frozenset()

    def board(self, spot: Spot) -> str:
        """Return the code of a board of this folder."""
        return _known(spot, self.boards, "board", "among the products of this folder")

    def glue(self, spot: Spot) -> str:
        """Return the code of a glue of this folder."""
        return _known(spot, self.glues, "glue", "among the products of this folder")

    def material(self, spot: Spot, thing: Thing) -> str:
        """Return the code of a material of this folder that a thing is bought as."""
        of_thing = frozenset(code for code, what in self.materials.items() if what is thing)
        return _known(spot, of_thing, "material", f"for {thing.value} among the products of this folder")

    def product(self, spot: Spot) -> str:
        """Return the code of any product of this folder."""
        return _known(spot, self.boards | self.glues | frozenset(self.materials), "product", "in this folder")

    def room(self, spot: Spot) -> str:
        """Return the name of a room of the job."""
        return _known(spot, self.rooms, "room", "in this job")

    def room_or_unit(self, spot: Spot) -> Place:
        """Return where a delivery was put: a room of the job, or ``unit``."""
        return UNIT if spot.value == UNIT_WORD else in_room(self.room(spot))

    def place(self, spot: Spot) -> Place:
        """Return where packs were carried from or to: a room, ``unit``, or ``{"place": …}``."""
        if isinstance(spot.value, str):
            return self.room_or_unit(spot)
        keys = opened(spot, "place")
        return Place(kind=PlaceKind(keys.need("place", _other_place)))


def _other_place(spot: Spot) -> str:
    return one_of(spot, [kind.value for kind in OTHER_PLACES])


def _known(spot: Spot, known: frozenset[str], noun: str, where: str) -> str:
    given = text(spot)
    if given not in known:
        spot.refuse(f"there is no {noun} “{shown(given)}” {where}.")
    return given
