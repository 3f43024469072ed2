"""The made-up firm's jobs, rooms and products as demo_data writes them, turned into drafts."""

from collections.abc import Callable
from datetime import date
from typing import Any, cast

from store.trade.flights import FlightDraft, Turn
from store.trade.jobs import CustomerDraft, JobDraft, Method, OldFloor, RoomDraft, Subfloor
from store.trade.materials import MaterialDraft
from store.trade.outline import Ring, rectangle
from store.trade.people import DaysOff, PersonDraft
from store.trade.products import BoardDraft, GlueDraft, ProductDraft
from store.trade.surveyed import Doorway, FixedThing
from store.trade.things import Thing

Toml = dict[str, object]


def job_draft(told: Toml, promised_on: date | None) -> JobDraft:
    """Return the job's card."""
    customer = cast("dict[str, str]", told["customer"])
    return JobDraft(
        ref=str(told["ref"]),
        title=str(told["title"]),
        customer=CustomerDraft(**customer),
        address=str(told["address"]),
        promised_on=promised_on,
    )


def room_draft(told: Toml, day: Callable[[str], date]) -> RoomDraft:
    """Return a room; ``sides`` stands for a rectangle, ``outline`` for corners."""
    sides = cast("list[int] | None", told.get("sides"))
    outline = rectangle(*sides) if sides else _ring(told["outline"])
    screed_laid = told.get("screed_laid")
    site_ready = told.get("site_ready")
    return RoomDraft(
        name=str(told["name"]),
        outline=outline,
        cut_outs=tuple(_ring(one) for one in cast("list[object]", told.get("cut_outs", []))),
        subfloor=Subfloor(str(told["subfloor"])),
        method=Method(str(told.get("method", "glued"))),
        board=str(told["board"]),
        glue=str(told["glue"]) if "glue" in told else None,
        heated=bool(told.get("heated", False)),
        cut_loss_percent=float(cast("float", told.get("cut_loss_percent", 10))),
        screed_mm=cast("int | None", told.get("screed_mm")),
        screed_laid_on=day(str(screed_laid)) if screed_laid else None,
        site_ready_on=day(str(site_ready)) if site_ready else None,
        doorways=tuple(Doorway(**one) for one in _each(told, "doorways")),
        old_floor=OldFloor(str(told.get("old_floor", OldFloor.NOT_SAID.value))),
        fixed_things=tuple(FixedThing(**one) for one in _each(told, "fixed_things")),
    )


def product_draft(told: Toml) -> ProductDraft:
    """Return a board, a glue or a material; the keys are the nouns' own."""
    sheet = {key: value for key, value in told.items() if key != "kind"}
    if "thing" in sheet:
        sheet["thing"] = Thing(str(sheet["thing"]))
    kinds: dict[object, Callable[..., ProductDraft]] = {
        "board": BoardDraft,
        "glue": GlueDraft,
        "material": MaterialDraft,
    }
    return kinds[told["kind"]](**sheet)


def flight_draft(told: Toml) -> FlightDraft:
    """Return a flight of stairs; the keys are the noun's own."""
    sheet: dict[str, Any] = {key: value for key, value in told.items() if key not in {"turn", "winders"}}
    turn = Turn(str(told.get("turn", Turn.STRAIGHT.value)))
    return FlightDraft(**sheet, turn=turn, winders=_ring(told.get("winders", [])))


def person_draft(told: Toml, day: Callable[[str], date]) -> PersonDraft:
    """Return somebody of the firm; their days off are told as happenings tell days."""
    days_off = tuple(
        DaysOff(first=day(one["first"]), last=day(one["last"]), reason=one["reason"])
        for one in cast("list[dict[str, str]]", told.get("days_off", []))
    )
    return PersonDraft(
        name=str(told["name"]),
        herringbone=bool(told.get("herringbone", False)),
        stairs=bool(told.get("stairs", False)),
        days_off=days_off,
    )


def _each(told: Toml, key: str) -> list[dict[str, Any]]:
    return cast("list[dict[str, Any]]", told.get(key, []))


def _ring(corners: object) -> Ring:
    return tuple((x, y) for x, y in cast("list[tuple[int, int]]", corners))
