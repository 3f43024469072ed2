"""One job of a folder read: its card, its rooms and everything that happened to it."""

from dataclasses import replace

from store.papers.confirmed import credit
from store.papers.diary_in import booking
from store.papers.events_in import (
    count,
    delivery,
    handover,
    laying,
    move,
    note,
    opening,
    order,
    reading,
    smoothing,
    snag,
)
from store.papers.flights import flight
from store.papers.folder import JobFolder
from store.papers.named import Named
from store.papers.on_site import morning, voiding
from store.papers.own_lines import own_line
from store.papers.plans_in import plan
from store.papers.rings import ring
from store.papers.spot import Keys, Spot, day, listed, number, opened, text, truth, whole, word_of
from store.papers.stock_takes import difference
from store.trade.flights import FlightDraft
from store.trade.jobs import (
    CustomerDraft,
    JobDraft,
    Method,
    OldFloor,
    RoomDraft,
    Sample,
    Subfloor,
    problems_with_job,
    problems_with_room,
)
from store.trade.outline import faults_in_outline
from store.trade.surveyed import Doorway, FixedThing, Pattern

ROOM_KEYS = (
    "name outline cut_outs subfloor heated method board glue gap_mm cut_loss_percent screed_mm"
    " screed_laid_on site_ready_on direction_deg start line_mm pattern border_mm doorways fixed_things"
    " heating_begun_on heating_proved_on heating_off_from old_floor old_floor_sample"
)
"""Every key that a room may have."""


def job_folder(spot: Spot, products: Named) -> JobFolder:
    """Return one job whole.

    Args:
        spot: the job's object in the file.
        products: the codes of the folder's products.
    """
    keys = opened(
        spot,
        "ref title customer site promised_on rooms orders deliveries moves openings readings smoothings laid"
        " counts snags notes plans mornings voidings stock_takes bookings own_lines credits flights handover",
    )
    job = _job(keys)
    rooms = _rooms(keys, products)
    named = replace(products, rooms=frozenset(room.name for room in rooms))
    return JobFolder(
        job=job,
        rooms=rooms,
        orders=keys.each("orders", lambda spot: order(spot, named)),
        deliveries=keys.each("deliveries", lambda spot: delivery(spot, named)),
        moves=keys.each("moves", lambda spot: move(spot, named)),
        openings=keys.each("openings", lambda spot: opening(spot, named)),
        readings=keys.each("readings", lambda spot: reading(spot, named)),
        smoothings=keys.each("smoothings", lambda spot: smoothing(spot, named)),
        layings=keys.each("laid", lambda spot: laying(spot, named)),
        counts=keys.each("counts", lambda spot: count(spot, named)),
        snags=keys.each("snags", lambda spot: snag(spot, named)),
        notes=keys.each("notes", note),
        plans=keys.each("plans", lambda spot: plan(spot, named, rooms)),
        bookings=keys.each("bookings", lambda spot: booking(spot, named)),
        mornings=keys.each("mornings", lambda spot: morning(spot, named)),
        voidings=keys.each("voidings", lambda spot: voiding(spot, named)),
        stock_takes=keys.each("stock_takes", lambda spot: difference(spot, named, of_job=True)),
        own_lines=keys.each("own_lines", lambda spot: own_line(spot, named)),
        credits=keys.each("credits", lambda spot: credit(spot, named)),
        flights=_flights(keys, named),
        handover=keys.may("handover", handover, None),
    )


def _flights(keys: Keys, named: Named) -> tuple[FlightDraft, ...]:
    before: set[str] = set()
    return keys.each("flights", lambda spot: flight(spot, named, before))


def _job(keys: Keys) -> JobDraft:
    draft = JobDraft(
        ref=keys.need("ref", text),
        title=keys.need("title", text),
        customer=keys.need("customer", _customer),
        address=keys.may("site", _address, ""),
        promised_on=keys.may("promised_on", day, None),
    )
    keys.vet(problems_with_job(draft))
    return draft


def _customer(spot: Spot) -> CustomerDraft:
    keys = opened(spot, "name phone email")
    return CustomerDraft(
        name=keys.need("name", text), phone=keys.may("phone", text, ""), email=keys.may("email", text, "")
    )


def _address(spot: Spot) -> str:
    return opened(spot, "address").may("address", text, "")


def _rooms(keys: Keys, products: Named) -> tuple[RoomDraft, ...]:
    before: set[str] = set()

    def read(spot: Spot) -> RoomDraft:
        room = _room(spot, products, before)
        before.add(room.name)
        return room

    return keys.need("rooms", lambda spot: listed(spot, read))


def _room(spot: Spot, products: Named, before: set[str]) -> RoomDraft:
    keys = opened(spot, ROOM_KEYS)
    draft = RoomDraft(
        name=keys.need("name", text),
        outline=keys.need("outline", ring),
        cut_outs=keys.each("cut_outs", ring),
        subfloor=keys.need("subfloor", word_of(Subfloor)),
        heated=keys.may("heated", truth, False),
        method=keys.need("method", word_of(Method)),
        board=keys.need("board", products.board),
        glue=keys.may("glue", products.glue, None),
        gap_mm=keys.may("gap_mm", whole, 10),
        cut_loss_percent=keys.may("cut_loss_percent", number, 10.0),
        screed_mm=keys.may("screed_mm", whole, None),
        screed_laid_on=keys.may("screed_laid_on", day, None),
        site_ready_on=keys.may("site_ready_on", day, None),
        direction_deg=keys.may("direction_deg", number, None),
        start=keys.may("start", whole, None),
        line_mm=keys.may("line_mm", whole, None),
        pattern=keys.may("pattern", word_of(Pattern), Pattern.STRAIGHT),
        border_mm=keys.may("border_mm", whole, 0),
        doorways=keys.each("doorways", doorway),
        fixed_things=keys.each("fixed_things", fixed_thing),
        heating_begun_on=keys.may("heating_begun_on", day, None),
        heating_proved_on=keys.may("heating_proved_on", day, None),
        heating_off_from=keys.may("heating_off_from", day, None),
        old_floor=keys.may("old_floor", word_of(OldFloor), OldFloor.NOT_SAID),
        old_floor_sample=keys.may("old_floor_sample", word_of(Sample), Sample.NOT_TAKEN),
    )
    problems = problems_with_room(draft, products.boards, products.glues, before)
    if problems and problems[0].field == "outline" and not faults_in_outline(draft.outline):
        problems = (replace(problems[0], field="cut_outs"),)
    keys.vet(problems)
    return draft


def doorway(spot: Spot) -> Doorway:
    """Return a doorway of a room."""
    keys = opened(spot, "wall from_mm width_mm to deep_mm")
    return Doorway(
        wall=keys.need("wall", whole),
        from_mm=keys.need("from_mm", whole),
        width_mm=keys.need("width_mm", whole),
        to=keys.may("to", text, ""),
        deep_mm=keys.may("deep_mm", whole, 0),
    )


def fixed_thing(spot: Spot) -> FixedThing:
    """Return something fixed in a room."""
    keys = opened(spot, "name x_mm y_mm size_mm")
    return FixedThing(
        name=keys.need("name", text),
        x_mm=keys.need("x_mm", whole),
        y_mm=keys.need("y_mm", whole),
        size_mm=keys.need("size_mm", whole),
    )
