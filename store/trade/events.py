"""What happens to a job, each a fact with its moment: ordered, come in, moved, opened, laid, counted, signed."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from store.trade.confirmations import ConfirmationDraft


class PlaceKind(StrEnum):
    """Where packs can be.

    UNIT is the firm's own store, the packs kept there for one job; SHELF is the same store, free for any job.
    SITE is all of a job's rooms together: a count at the end says what leaves it, not from which room.
    ASIDE holds what came in damaged, until it goes back. FOUND and MISSING are where the differences of a
    stock-take come from and go to: nobody knows where that is.
    """

    SUPPLIER = "supplier"
    UNIT = "unit"
    SHELF = "shelf"
    ROOM = "room"
    SITE = "site"
    OPENED = "opened"
    CUSTOMER = "customer"
    RETURN = "return"
    SCRAP = "scrap"
    ASIDE = "aside"
    FOUND = "found"
    MISSING = "missing"


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One place; ``room`` is the room's name where the kind is ROOM, else empty."""

    kind: PlaceKind
    room: str = ""


SUPPLIER = Place(kind=PlaceKind.SUPPLIER)
UNIT = Place(kind=PlaceKind.UNIT)
SHELF = Place(kind=PlaceKind.SHELF)
SITE = Place(kind=PlaceKind.SITE)
OPENED = Place(kind=PlaceKind.OPENED)
FOUND = Place(kind=PlaceKind.FOUND)
MISSING = Place(kind=PlaceKind.MISSING)


def in_room(name: str) -> Place:
    """The place that is this room."""
    return Place(kind=PlaceKind.ROOM, room=name)


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """So many packs (or tubs) of one product; ``price_minor`` is the price of one, None where none was agreed."""

    product: str
    packs: int
    price_minor: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderDraft:
    """An order to a supplier: the day it was placed, the day it is due, and what was asked for.

    ``freight_minor`` is what its way here costs. ``confirmed`` is what the supplier has said since, in the order said;
    of a product the latest that names it holds (``orders.py``).
    """

    on: date
    due_on: date | None
    lines: tuple[OrderLine, ...]
    supplier: str = ""
    freight_minor: int = 0
    confirmed: tuple[ConfirmationDraft, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Order(OrderDraft):
    """An order on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryLine:
    """What came in of one batch: ``damaged_packs`` of the ``packs`` are not fit to lay.

    ``use_by`` is the last day on which a glue may be used, where its tub says one.
    """

    product: str
    batch: str
    packs: int
    damaged_packs: int = 0
    use_by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DeliveryDraft:
    """What came in at one moment, and where it was put: a room, or the unit."""

    at: datetime
    into: Place
    lines: tuple[DeliveryLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Delivery(DeliveryDraft):
    """A delivery on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MoveDraft:
    """Whole packs of one batch carried from one place to another."""

    at: datetime
    product: str
    batch: str
    packs: int
    source: Place
    target: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Move(MoveDraft):
    """A move on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningDraft:
    """Whole packs of one batch opened for laying in a room."""

    at: datetime
    room: str
    product: str
    batch: str
    packs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening(OpeningDraft):
    """An opening on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LayingDraft:
    """Floor laid in a room, from one moment to another.

    A laying that is still going on has neither an end nor an area. ``area_mm2`` is the floor covered;
    ``tubs`` is the glue used, if anybody counted.
    """

    room: str
    begun_at: datetime
    ended_at: datetime | None = None
    area_mm2: int | None = None
    tubs: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Laying(LayingDraft):
    """A laying on file."""

    id: int
    rev: int


class Destination(StrEnum):
    """Where counted leftovers go; UNIT frees them for any job."""

    CUSTOMER = "customer"
    UNIT = "unit"
    RETURN = "return"
    SCRAP = "scrap"


@dataclass(frozen=True, slots=True, kw_only=True)
class CountDraft:
    """What was found left over of one batch, and where it goes: full packs and loose boards."""

    at: datetime
    product: str
    batch: str
    packs: int
    boards: int
    to: Destination


@dataclass(frozen=True, slots=True, kw_only=True)
class Count(CountDraft):
    """A count on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SmoothingDraft:
    """Compound laid to level a room's subfloor: straightedge readings from before it no longer count."""

    room: str
    at: datetime
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Smoothing(SmoothingDraft):
    """A smoothing on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HandoverDraft:
    """The customer's signature under the finished floor."""

    signed_at: datetime
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Handover(HandoverDraft):
    """A handover on file."""

    id: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SnagDraft:
    """Something to put right; ``mended_at`` is None while it still is to be."""

    at: datetime
    what: str
    room: str = ""
    mended_at: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Snag(SnagDraft):
    """A snag on file."""

    id: int
    rev: int


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteDraft:
    """A line anybody should know who opens the job."""

    at: datetime
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(NoteDraft):
    """A note on file."""

    id: int
