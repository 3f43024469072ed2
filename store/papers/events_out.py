"""What happened to a job, written for its folder: each function writes one entry of one list."""

from collections.abc import Callable
from dataclasses import fields
from datetime import date, datetime

from store.papers.json_text import Json
from store.trade.confirmations import ConfirmationDraft
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    Place,
    PlaceKind,
    SmoothingDraft,
    SnagDraft,
)
from store.trade.evidence import Evidence
from store.trade.jobs import UNIT_WORD
from store.trade.readings import ReadingDraft

Entry = dict[str, Json]
Stamp = Callable[[datetime], str]
"""Writes an instant as the firm's wall clock shows it, with its offset."""


def kept(entry: Entry) -> Entry:
    """Return an entry without the keys that have nothing to say."""
    return {key: value for key, value in entry.items() if value is not None}


def figure(value: float) -> float:
    """Return a number as it is written: 20 rather than 20.0."""
    return int(value) if value == int(value) else value


def area_m2(area_mm2: int) -> float:
    """Return an area in m², exact to the mm²: a float of up to 15 figures shows every one of them.

    >>> area_m2(14_500_001), area_m2(14_000_000)
    (14.500001, 14)
    """
    return figure(area_mm2 / 1_000_000)


def order(draft: OrderDraft, stamp: Stamp) -> Entry:
    """Write an order, and what its supplier has said of it."""
    return kept(
        {
            "on": draft.on.isoformat(),
            "due_on": draft.due_on.isoformat() if draft.due_on else None,
            "lines": [_order_line(line) for line in draft.lines],
            "supplier": draft.supplier or None,
            "freight_minor": draft.freight_minor or None,
            "confirmed": [confirmation_out(one, stamp) for one in draft.confirmed] or None,
        }
    )


def _order_line(line: OrderLine) -> Entry:
    return kept({"product": line.product, "packs": line.packs, "price_minor": line.price_minor})


def confirmation_out(draft: ConfirmationDraft, stamp: Stamp) -> Entry:
    """Write what a supplier said of an order."""
    lines = [
        kept(
            {
                "product": line.product,
                "packs": line.packs,
                "due_on": line.due_on.isoformat() if line.due_on else None,
                "price_minor": line.price_minor,
            }
        )
        for line in draft.lines
    ]
    return kept({"at": stamp(draft.at), "number": draft.number or None, "lines": lines})


def delivery(draft: DeliveryDraft, stamp: Stamp) -> Entry:
    """Write a delivery."""
    return {
        "at": stamp(draft.at),
        "into": _place(draft.into),
        "lines": [
            kept(
                {
                    "product": line.product,
                    "batch": line.batch,
                    "packs": line.packs,
                    "damaged_packs": line.damaged_packs,
                    "use_by": line.use_by.isoformat() if line.use_by else None,
                }
            )
            for line in draft.lines
        ],
    }


def move(draft: MoveDraft, stamp: Stamp) -> Entry:
    """Write a move of packs."""
    return {
        "at": stamp(draft.at),
        "product": draft.product,
        "batch": draft.batch,
        "packs": draft.packs,
        "from": _place(draft.source),
        "to": _place(draft.target),
    }


def _place(place: Place) -> Json:
    if place.kind is PlaceKind.ROOM:
        return place.room
    return UNIT_WORD if place.kind is PlaceKind.UNIT else {"place": place.kind.value}


def opening(draft: OpeningDraft, stamp: Stamp) -> Entry:
    """Write an opening of packs."""
    return {
        "at": stamp(draft.at),
        "room": draft.room,
        "product": draft.product,
        "batch": draft.batch,
        "packs": draft.packs,
    }


def reading(draft: ReadingDraft, stamp: Stamp) -> Entry:
    """Write a reading, its figures after its kind."""
    names = [field.name for field in fields(draft.measure)]
    return kept(
        {
            "room": draft.room,
            "at": stamp(draft.at),
            "kind": draft.kind,
            **{name: _told(getattr(draft.measure, name)) for name in names},
            "taken_by": draft.taken_by or None,
            "note": draft.note or None,
            **_evidence(draft.evidence),
        }
    )


def _evidence(evidence: Evidence) -> Entry:
    given = {field.name: getattr(evidence, field.name) for field in fields(evidence)}
    return {name: _told(value) for name, value in given.items() if value not in {"", ()}}


def _told(value: object) -> Json:
    """Write a figure, a day, a word, or a list of figures within which others may lie."""
    if isinstance(value, tuple):
        return [_told(one) for one in value]
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, float):
        return figure(value)
    if value is None or isinstance(value, int | str):
        return value
    raise TypeError(value)


def smoothing(draft: SmoothingDraft, stamp: Stamp) -> Entry:
    """Write a smoothing."""
    return kept({"room": draft.room, "at": stamp(draft.at), "note": draft.note or None})


def laying(draft: LayingDraft, stamp: Stamp) -> Entry:
    """Write a laying; one that is still going on says so by ``"to": null``."""
    entry: Entry = {"room": draft.room, "from": stamp(draft.begun_at), "to": None}
    if draft.ended_at is not None:
        entry["to"] = stamp(draft.ended_at)
    if draft.area_mm2 is not None:
        entry["area_m2"] = area_m2(draft.area_mm2)
    if draft.tubs is not None:
        entry["tubs"] = draft.tubs
    return entry


def count(draft: CountDraft, stamp: Stamp) -> Entry:
    """Write a count of leftovers."""
    return {
        "at": stamp(draft.at),
        "product": draft.product,
        "batch": draft.batch,
        "packs": draft.packs,
        "boards": draft.boards,
        "to": draft.to.value,
    }


def snag(draft: SnagDraft, stamp: Stamp) -> Entry:
    """Write a snag."""
    return kept(
        {
            "at": stamp(draft.at),
            "what": draft.what,
            "room": draft.room or None,
            "mended_at": stamp(draft.mended_at) if draft.mended_at else None,
        }
    )


def note(draft: NoteDraft, stamp: Stamp) -> Entry:
    """Write a note."""
    return {"at": stamp(draft.at), "text": draft.text}


def handover(draft: HandoverDraft, stamp: Stamp) -> Entry:
    """Write the signature under the finished floor."""
    return {"signed_at": stamp(draft.signed_at), "by": draft.by}
