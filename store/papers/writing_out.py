"""A job folder written: the same content is always the same bytes, and every one can be read in again."""

from dataclasses import fields
from datetime import time

from store.papers.confirmed import credit_out
from store.papers.diary_out import booking, person
from store.papers.events_out import (
    Entry,
    Stamp,
    count,
    delivery,
    figure,
    handover,
    kept,
    laying,
    move,
    note,
    opening,
    order,
    reading,
    smoothing,
    snag,
)
from store.papers.flights import flight_out
from store.papers.folder import VERSION, Folder, JobFolder
from store.papers.json_text import Json, printed
from store.papers.materials import material_out
from store.papers.on_site import morning_out, voiding_out
from store.papers.own_lines import own_line_out
from store.papers.plans_out import plan
from store.papers.reading_in import WEEKDAYS
from store.papers.stock_takes import difference_out
from store.trade.firm import ClimateRange, FirmDraft
from store.trade.jobs import CustomerDraft, OldFloor, RoomDraft, Sample
from store.trade.materials import MaterialDraft
from store.trade.outline import Ring
from store.trade.own_limits import OwnLimit
from store.trade.products import BoardDraft, GlueDraft, ProductDraft
from store.trade.suppliers import Supplier
from store.trade.surveyed import Doorway, FixedThing, Pattern


def write_folder(folder: Folder) -> bytes:
    """Return a folder as UTF-8 JSON with a line end at its end.

    What is nothing (no glue, no due day) is left out; instants are in the firm's zone with their offset.
    """
    zone = folder.firm.zone
    stamp: Stamp = lambda at: at.astimezone(zone).isoformat()  # noqa: E731 - one line says what it is
    content: Entry = {
        "layday_folder": VERSION,
        "firm": _firm(folder.firm),
        "people": [person(one) for one in folder.people],
        "products": [_product(product) for product in folder.products],
        "jobs": [_job(job, stamp) for job in folder.jobs],
        "stock_takes": [difference_out(one, stamp) for one in folder.stock_takes] or None,
    }
    return f"{printed(kept(content))}\n".encode()


def _firm(firm: FirmDraft) -> Entry:
    usual = FirmDraft(name=firm.name)
    entry: Entry = {
        "name": firm.name,
        "time_zone": firm.time_zone,
        "working_days": [WEEKDAYS[day] for day in firm.working_days],
        "day_starts": _time(firm.day_starts),
        "day_ends": _time(firm.day_ends),
    }
    ours: Entry = {
        "holidays": [day.isoformat() for day in firm.holidays],
        "currency": firm.currency,
        "climate": _climate(firm.climate),
        "clock_form": firm.clock_form.value,
        "log_gap_hours": firm.log_gap_hours,
        "flat_limit_mm": firm.flat_limit_mm,
        "reading_good_days": firm.reading_good_days,
        "tradition": firm.tradition.value,
        "own_limits": _limits(firm.own_limits),
        "tests_by_area": firm.tests_by_area,
        "suppliers": [_supplier(one) for one in firm.suppliers],
    }
    return entry | {key: said for key, said in ours.items() if getattr(firm, key) != getattr(usual, key)}


def _supplier(one: Supplier) -> Entry:
    usual = Supplier(name=one.name)
    told = {field.name: getattr(one, field.name) for field in fields(one)}
    told["return_fee_percent"] = figure(one.return_fee_percent)
    return {key: said for key, said in told.items() if key == "name" or said != getattr(usual, key)}


def _limits(limits: tuple[OwnLimit, ...]) -> list[Json]:
    return [
        kept(
            {
                "kind": one.kind,
                "most": figure(one.most),
                "subfloor": one.subfloor.value if one.subfloor else None,
                "heated": one.heated,
                "method": one.method.value if one.method else None,
                "because": one.because or None,
            }
        )
        for one in limits
    ]


def _time(at: time) -> str:
    return at.isoformat() if at.second or at.microsecond else at.isoformat("minutes")


def _climate(climate: ClimateRange) -> Entry:
    return {
        "temp_min_c": figure(climate.temp_min_c),
        "temp_max_c": figure(climate.temp_max_c),
        "rh_min_percent": figure(climate.rh_min_percent),
        "rh_max_percent": figure(climate.rh_max_percent),
    }


def _product(product: ProductDraft) -> Entry:
    match product:
        case BoardDraft():
            return _board(product)
        case GlueDraft():
            return _glue(product)
        case MaterialDraft():
            return material_out(product)


def _board(board: BoardDraft) -> Entry:
    return kept(
        {
            "code": board.code,
            "kind": board.kind.value,
            "name": board.name,
            "build": board.build or None,
            "species": board.species or None,
            "length_mm": board.length_mm,
            "width_mm": board.width_mm,
            "thickness_mm": board.thickness_mm,
            "boards_per_pack": board.boards_per_pack,
            "acclimatise_hours": board.acclimatise_hours,
            "price_minor": board.price_minor,
            "climate": _climate(board.climate) if board.climate else None,
            "lengths": [list(one) for one in board.lengths] or None,
            "shortest_mm": board.shortest_mm,
            "pack_run_mm": board.pack_run_mm,
            "handed": board.handed or None,
            "sheet_limits": _limits(board.sheet_limits) or None,
            "ready_when_stable": board.ready_when_stable or None,
            "lead_days": board.lead_days,
            "supplier": board.supplier or None,
        }
    )


def _glue(glue: GlueDraft) -> Entry:
    return kept(
        {
            "code": glue.code,
            "kind": glue.kind.value,
            "name": glue.name,
            "rate_g_per_m2": glue.rate_g_per_m2,
            "tub_kg": figure(glue.tub_kg),
            "open_time_min": glue.open_time_min,
            "walk_on_hours": glue.walk_on_hours,
            "full_load_hours": glue.full_load_hours,
            "price_minor": glue.price_minor,
            "sheet_limits": _limits(glue.sheet_limits) or None,
            "needs_training": glue.needs_training or None,
            "lead_days": glue.lead_days,
            "supplier": glue.supplier or None,
        }
    )


def _job(folder: JobFolder, stamp: Stamp) -> Entry:
    job = folder.job
    return kept(
        {
            "ref": job.ref,
            "title": job.title,
            "customer": _customer(job.customer),
            "site": {"address": job.address} if job.address else None,
            "promised_on": job.promised_on.isoformat() if job.promised_on else None,
            "rooms": [_room(room) for room in folder.rooms],
            "orders": [order(one, stamp) for one in folder.orders],
            "deliveries": [delivery(one, stamp) for one in folder.deliveries],
            "moves": [move(one, stamp) for one in folder.moves] or None,
            "openings": [opening(one, stamp) for one in folder.openings] or None,
            "readings": [reading(one, stamp) for one in folder.readings],
            "smoothings": [smoothing(one, stamp) for one in folder.smoothings] or None,
            "laid": [laying(one, stamp) for one in folder.layings],
            "counts": [count(one, stamp) for one in folder.counts],
            "snags": [snag(one, stamp) for one in folder.snags] or None,
            "notes": [note(one, stamp) for one in folder.notes] or None,
            "plans": [plan(one, stamp) for one in folder.plans] or None,
            "bookings": [booking(one) for one in folder.bookings] or None,
            "mornings": [morning_out(one, stamp) for one in folder.mornings] or None,
            "voidings": [voiding_out(one, stamp) for one in folder.voidings] or None,
            "stock_takes": [difference_out(one, stamp) for one in folder.stock_takes] or None,
            "credits": [credit_out(one, stamp) for one in folder.credits] or None,
            "own_lines": [own_line_out(one, stamp) for one in folder.own_lines] or None,
            "flights": [flight_out(one) for one in folder.flights] or None,
            "handover": handover(folder.handover, stamp) if folder.handover else None,
        }
    )


def _customer(customer: CustomerDraft) -> Entry:
    return kept({"name": customer.name, "phone": customer.phone or None, "email": customer.email or None})


def _room(room: RoomDraft) -> Entry:
    return kept(
        {
            "name": room.name,
            "outline": _ring(room.outline),
            "cut_outs": [_ring(ring) for ring in room.cut_outs],
            "subfloor": room.subfloor.value,
            "heated": room.heated,
            "method": room.method.value,
            "board": room.board,
            "glue": room.glue,
            "gap_mm": room.gap_mm,
            "cut_loss_percent": figure(room.cut_loss_percent),
            "screed_mm": room.screed_mm,
            "screed_laid_on": room.screed_laid_on.isoformat() if room.screed_laid_on else None,
            "site_ready_on": room.site_ready_on.isoformat() if room.site_ready_on else None,
            "direction_deg": None if room.direction_deg is None else figure(room.direction_deg),
            "start": room.start,
            "line_mm": room.line_mm,
            "pattern": None if room.pattern is Pattern.STRAIGHT else room.pattern.value,
            "border_mm": room.border_mm or None,
            "doorways": [_doorway(one) for one in room.doorways] or None,
            "fixed_things": [_fixed_thing(one) for one in room.fixed_things] or None,
            **_verdict_facts(room),
        }
    )


def _verdict_facts(room: RoomDraft) -> Entry:
    """What a room says of its heating and of an old floor underneath."""
    days = {
        "heating_begun_on": room.heating_begun_on,
        "heating_proved_on": room.heating_proved_on,
        "heating_off_from": room.heating_off_from,
    }
    entry: Entry = {key: day.isoformat() if day else None for key, day in days.items()}
    return entry | {
        "old_floor": None if room.old_floor is OldFloor.NOT_SAID else room.old_floor.value,
        "old_floor_sample": None if room.old_floor_sample is Sample.NOT_TAKEN else room.old_floor_sample.value,
    }


def _doorway(door: Doorway) -> Entry:
    return kept(
        {
            "wall": door.wall,
            "from_mm": door.from_mm,
            "width_mm": door.width_mm,
            "to": door.to or None,
            "deep_mm": door.deep_mm or None,
        }
    )


def _fixed_thing(thing: FixedThing) -> Entry:
    return {"name": thing.name, "x_mm": thing.x_mm, "y_mm": thing.y_mm, "size_mm": thing.size_mm}


def _ring(ring: Ring) -> list[list[int]]:
    return [list(corner) for corner in ring]
