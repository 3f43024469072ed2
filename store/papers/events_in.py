"""What happened to a job, read from its folder: each function reads one entry of one list."""

from collections.abc import Callable
from dataclasses import fields
from datetime import datetime
from typing import TypeVar

from store.papers.confirmed import confirmation
from store.papers.named import Named
from store.papers.spot import (
    Keys,
    Spot,
    bared,
    day,
    decimal,
    instant,
    listed,
    name,
    number,
    one_of,
    opened,
    text,
    whole,
    whole_from,
    word_of,
)
from store.trade.confirmations import problems_with_price
from store.trade.events import (
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    SmoothingDraft,
    SnagDraft,
)
from store.trade.evidence import FIGURES_OF, Evidence, Zone, problems_with_evidence
from store.trade.readings import (
    KINDS,
    LevelGrid,
    Measure,
    ReadingDraft,
    Straightedge,
    problems_with_measure,
    problems_with_what_fits,
)

MOST_AREA_M2 = 1_000_000
MM2_IN_M2 = 1_000_000

Line = TypeVar("Line")

_some = whole_from(1)
none_or_some = whole_from(0)


def order(spot: Spot, named: Named) -> OrderDraft:
    """Return an order: the day it was placed, its lines, and perhaps the day it is due."""
    keys = opened(spot, "on due_on lines supplier freight_minor confirmed")
    draft = OrderDraft(
        on=keys.need("on", day),
        due_on=keys.may("due_on", day, None),
        lines=_lines(keys, lambda spot: _order_line(spot, named)),
        supplier=keys.may("supplier", text, ""),
        freight_minor=keys.may("freight_minor", whole, 0),
        confirmed=keys.each("confirmed", lambda spot: confirmation(spot, named)),
    )
    keys.vet(tuple(problems_with_price("freight_minor", draft.freight_minor)))
    if draft.due_on is not None and draft.due_on < draft.on:
        keys.spot("due_on").refuse("the order is due before it was placed.")
    return draft


def _lines(keys: Keys, read: Callable[[Spot], Line]) -> tuple[Line, ...]:
    lines = keys.need("lines", lambda spot: listed(spot, read))
    if not lines:
        keys.spot("lines").refuse("there must be one line or more.")
    return lines


def _order_line(spot: Spot, named: Named) -> OrderLine:
    keys = opened(spot, "product packs price_minor")
    line = OrderLine(
        product=keys.need("product", named.product),
        packs=keys.need("packs", _some),
        price_minor=keys.may("price_minor", whole, None),
    )
    keys.vet(tuple(problems_with_price("price_minor", line.price_minor)))
    return line


def delivery(spot: Spot, named: Named) -> DeliveryDraft:
    """Return a delivery: when it came, where it was put, and what came of each batch."""
    keys = opened(spot, "at into lines")
    return DeliveryDraft(
        at=keys.need("at", instant),
        into=keys.need("into", named.room_or_unit),
        lines=_lines(keys, lambda spot: _delivery_line(spot, named)),
    )


def _delivery_line(spot: Spot, named: Named) -> DeliveryLine:
    keys = opened(spot, "product batch packs damaged_packs use_by")
    line = DeliveryLine(
        product=keys.need("product", named.product),
        batch=keys.may("batch", text, ""),
        packs=keys.need("packs", _some),
        damaged_packs=keys.may("damaged_packs", none_or_some, 0),
        use_by=keys.may("use_by", day, None),
    )
    if line.damaged_packs > line.packs:
        keys.spot("damaged_packs").refuse(f"{line.damaged_packs} are damaged, but only {line.packs} came.")
    return line


def move(spot: Spot, named: Named) -> MoveDraft:
    """Return a move of packs from one place to another."""
    keys = opened(spot, "at product batch packs from to")
    return MoveDraft(
        at=keys.need("at", instant),
        product=keys.need("product", named.product),
        batch=keys.may("batch", text, ""),
        packs=keys.need("packs", _some),
        source=keys.need("from", named.place),
        target=keys.need("to", named.place),
    )


def opening(spot: Spot, named: Named) -> OpeningDraft:
    """Return an opening of packs in a room."""
    keys = opened(spot, "at room product batch packs")
    return OpeningDraft(
        at=keys.need("at", instant),
        room=keys.need("room", named.room),
        product=keys.need("product", named.product),
        batch=keys.may("batch", text, ""),
        packs=keys.need("packs", _some),
    )


def reading(spot: Spot, named: Named) -> ReadingDraft:
    """Return a reading; which figures it has depends on its kind."""
    kind = bared(spot).need("kind", lambda spot: one_of(spot, KINDS))
    measure = KINDS[kind]
    figures = [field.name for field in fields(measure)]
    keys = opened(spot, " ".join(("room at kind taken_by note point instrument", *figures, *FIGURES_OF.get(kind, ()))))
    draft = ReadingDraft(
        room=keys.need("room", named.room),
        at=keys.need("at", instant),
        measure=_measure(keys, measure, figures),
        taken_by=keys.may("taken_by", text, ""),
        note=keys.may("note", text, ""),
        evidence=_evidence(keys),
    )
    keys.vet(problems_with_measure(draft.measure))
    keys.vet(problems_with_evidence(draft.kind, draft.evidence))
    keys.vet(problems_with_what_fits(draft))
    return draft


def _evidence(keys: Keys) -> Evidence:
    return Evidence(
        point=keys.may("point", text, ""),
        instrument=keys.may("instrument", text, ""),
        sample_g=keys.may("sample_g", number, None),
        gauge_bar=keys.may("gauge_bar", number, None),
        depth_mm=keys.may("depth_mm", whole, None),
        hours=keys.may("hours", whole, None),
        zone=keys.may("zone", word_of(Zone), None),
        checked_on=keys.may("checked_on", day, None),
        figures=keys.each("figures", number),
    )


def _measure(keys: Keys, measure: type[Measure], figures: list[str]) -> Measure:
    if issubclass(measure, Straightedge):
        return measure(span_mm=keys.need("span_mm", whole), gap_mm=keys.need("gap_mm", number))
    if issubclass(measure, LevelGrid):
        return measure(
            spacing_mm=keys.need("spacing_mm", whole),
            heights_mm=keys.need("heights_mm", lambda spot: listed(spot, _heights)),
        )
    return measure(**{figure: keys.need(figure, number) for figure in figures})


def _heights(spot: Spot) -> tuple[float | None, ...]:
    return listed(spot, lambda one: None if one.value is None else number(one))


def smoothing(spot: Spot, named: Named) -> SmoothingDraft:
    """Return a smoothing of a room's subfloor."""
    keys = opened(spot, "room at note")
    return SmoothingDraft(
        room=keys.need("room", named.room), at=keys.need("at", instant), note=keys.may("note", text, "")
    )


def laying(spot: Spot, named: Named) -> LayingDraft:
    """Return a laying; one whose ``to`` is null is still going on and has no area yet."""
    keys = opened(spot, "room from to area_m2 tubs")
    begun_at = keys.need("from", instant)
    ended_at = keys.need("to", lambda spot: None if spot.value is None else instant(spot))
    _check_end(keys.spot("to"), begun_at, ended_at, "it ends before it starts.")
    if ended_at is None and keys.spot("area_m2").value is not None:
        keys.spot("area_m2").refuse("a laying that is still going on has no area yet.")
    return LayingDraft(
        room=keys.need("room", named.room),
        begun_at=begun_at,
        ended_at=ended_at,
        area_mm2=None if ended_at is None else keys.need("area_m2", _area_mm2),
        tubs=keys.may("tubs", none_or_some, None),
    )


def count(spot: Spot, named: Named) -> CountDraft:
    """Return a count of leftovers; nothing left is a count too."""
    keys = opened(spot, "at product batch packs boards to")
    return CountDraft(
        at=keys.need("at", instant),
        product=keys.need("product", named.product),
        batch=keys.may("batch", text, ""),
        packs=keys.need("packs", none_or_some),
        boards=keys.need("boards", none_or_some),
        to=keys.need("to", word_of(Destination)),
    )


def snag(spot: Spot, named: Named) -> SnagDraft:
    """Return a snag, mended or not, in a room or in none."""
    keys = opened(spot, "at what room mended_at")
    draft = SnagDraft(
        at=keys.need("at", instant),
        what=keys.need("what", text),
        room=keys.may("room", named.room, ""),
        mended_at=keys.may("mended_at", instant, None),
    )
    _check_end(keys.spot("mended_at"), draft.at, draft.mended_at, "it was mended before it was found.")
    return draft


def note(spot: Spot) -> NoteDraft:
    """Return a note."""
    keys = opened(spot, "at text")
    return NoteDraft(at=keys.need("at", instant), text=keys.need("text", text))


def handover(spot: Spot) -> HandoverDraft:
    """Return the signature under the finished floor."""
    keys = opened(spot, "signed_at by")
    return HandoverDraft(signed_at=keys.need("signed_at", instant), by=keys.need("by", name))


def _area_mm2(spot: Spot) -> int:
    square_metres = decimal(spot)
    if not 0 < square_metres <= MOST_AREA_M2:
        spot.refuse(f"must be an area of more than 0 and up to {MOST_AREA_M2:,} m².")
    return max(1, round(square_metres * MM2_IN_M2))


def _check_end(end: Spot, start: datetime, given: datetime | None, say: str) -> None:
    if given is not None and given < start:
        end.refuse(say)
