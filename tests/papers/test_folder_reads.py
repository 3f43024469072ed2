"""What a job folder may say, and what is meant where it says nothing."""

import json
from collections.abc import Callable
from datetime import UTC, date, datetime
from typing import Any

import pytest

from store.papers.folder import Folder
from store.papers.reading_in import read_folder
from store.papers.writing_out import write_folder
from store.trade.events import (
    OPENED,
    SHELF,
    UNIT,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    OrderDraft,
    OrderLine,
    Place,
    PlaceKind,
    in_room,
)
from store.trade.firm import FirmDraft
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.products import BoardDraft, GlueDraft
from store.trade.readings import Air, ReadingDraft, Straightedge, TimberSubfloor

Spoiled = Callable[[str, object], bytes]

EXAMPLE = """
{"layday_folder": 1,
 "firm": {"name": "Gannet Quay Floors", "time_zone": "Europe/Brussels", "working_days": ["mon","tue","wed","thu","fri"],
          "day_starts": "08:00", "day_ends": "16:30", "holidays": ["2026-12-25"]},
 "people": [{"name": "Femke"}],
 "products": [
  {"code": "OAK-190", "kind": "board", "name": "Oak plank", "build": "engineered", "species": "oak", "length_mm": 1900,
   "width_mm": 190, "thickness_mm": 14, "boards_per_pack": 6, "acclimatise_hours": 168, "price_minor": 18240},
  {"code": "MS-15", "kind": "glue", "name": "Elastic glue", "rate_g_per_m2": 1000, "tub_kg": 15, "open_time_min": 40,
   "walk_on_hours": 24, "full_load_hours": 72, "price_minor": 9900}],
 "jobs": [
  {"ref": "L-0007", "title": "Reading room in oak",
   "customer": {"name": "Harbour library", "phone": "059 00 00 00", "email": "desk@library.example"},
   "site": {"address": "Quay 1"}, "promised_on": "2026-12-18",
   "rooms": [{"name": "Reading room", "outline": [[0,0],[5200,0],[5200,4100],[0,4100]], "cut_outs": [],
              "subfloor": "osb", "heated": false, "method": "glued", "board": "OAK-190", "glue": "MS-15", "gap_mm": 10,
              "cut_loss_percent": 10}],
   "orders": [{"on": "2026-11-10", "due_on": "2026-11-17", "lines": [{"product": "OAK-190", "packs": 12}]}],
   "deliveries": [{"at": "2026-11-17T09:30:00+01:00", "into": "Reading room",
                   "lines": [{"product": "OAK-190", "batch": "K41", "packs": 12, "damaged_packs": 0}]}],
   "readings": [{"room": "Reading room", "at": "2026-11-17T09:30:00+01:00", "kind": "air", "temp_c": 20.5, "rh_percent": 52},
                {"room": "Reading room", "at": "2026-11-17T09:35:00+01:00", "kind": "straightedge", "span_mm": 2000, "gap_mm": 2},
                {"room": "Reading room", "at": "2026-11-17T09:40:00+01:00", "kind": "timber_subfloor", "percent": 9.5}],
   "laid": [{"room": "Reading room", "from": "2026-11-26T08:00:00+01:00", "to": "2026-11-26T15:00:00+01:00", "area_m2": 14.5}],
   "counts": [{"at": "2026-11-27T09:00:00+01:00", "product": "OAK-190", "batch": "K41", "packs": 1, "boards": 2, "to": "customer"}],
   "handover": {"signed_at": "2026-11-30T10:00:00+01:00", "by": "A. Harbour"}}]}
"""  # noqa: E501 - a file as another program writes it


def at(day: int, hour: int, minute: int = 0) -> datetime:
    return datetime(2026, 11, day, hour, minute, tzinfo=UTC)


def test_the_example_of_the_format_says_what_it_says() -> None:
    folder = read_folder(EXAMPLE.encode())
    assert folder.firm == FirmDraft(name="Gannet Quay Floors", holidays=(date(2026, 12, 25),))
    assert [person.name for person in folder.people] == ["Femke"]
    assert folder.products == (
        BoardDraft(
            code="OAK-190",
            name="Oak plank",
            build="engineered",
            species="oak",
            length_mm=1900,
            width_mm=190,
            thickness_mm=14,
            boards_per_pack=6,
            acclimatise_hours=168,
            price_minor=18240,
        ),
        GlueDraft(
            code="MS-15",
            name="Elastic glue",
            rate_g_per_m2=1000,
            tub_kg=15.0,
            open_time_min=40,
            walk_on_hours=24,
            full_load_hours=72,
            price_minor=9900,
        ),
    )
    (job,) = folder.jobs
    assert job.job == JobDraft(
        ref="L-0007",
        title="Reading room in oak",
        customer=CustomerDraft(name="Harbour library", phone="059 00 00 00", email="desk@library.example"),
        address="Quay 1",
        promised_on=date(2026, 12, 18),
    )
    assert job.rooms == (
        RoomDraft(
            name="Reading room",
            outline=((0, 0), (5200, 0), (5200, 4100), (0, 4100)),
            subfloor=Subfloor.OSB,
            method=Method.GLUED,
            board="OAK-190",
            glue="MS-15",
        ),
    )


def test_what_happened_in_the_example_is_read_with_its_moments() -> None:
    (job,) = read_folder(EXAMPLE.encode()).jobs
    assert job.orders == (
        OrderDraft(
            on=date(2026, 11, 10),
            due_on=date(2026, 11, 17),
            lines=(OrderLine(product="OAK-190", packs=12),),
        ),
    )
    assert job.deliveries == (
        DeliveryDraft(
            at=at(17, 8, 30),
            into=in_room("Reading room"),
            lines=(DeliveryLine(product="OAK-190", batch="K41", packs=12),),
        ),
    )
    assert job.readings == (
        ReadingDraft(room="Reading room", at=at(17, 8, 30), measure=Air(temp_c=20.5, rh_percent=52.0)),
        ReadingDraft(room="Reading room", at=at(17, 8, 35), measure=Straightedge(span_mm=2000, gap_mm=2.0)),
        ReadingDraft(room="Reading room", at=at(17, 8, 40), measure=TimberSubfloor(percent=9.5)),
    )
    assert job.layings == (
        LayingDraft(room="Reading room", begun_at=at(26, 7), ended_at=at(26, 14), area_mm2=14_500_000),
    )
    (count,) = job.counts
    assert (count.at, count.product, count.batch) == (at(27, 8), "OAK-190", "K41")
    assert (count.packs, count.boards, count.to) == (1, 2, Destination.CUSTOMER)
    assert job.handover == HandoverDraft(signed_at=at(30, 9), by="A. Harbour")


def test_the_example_written_again_says_the_same_to_any_reader_of_json() -> None:
    again = write_folder(read_folder(EXAMPLE.encode()))
    assert json.loads(again) == json.loads(EXAMPLE)


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read_folder(b"\xef\xbb\xbf" + EXAMPLE.encode()) == read_folder(EXAMPLE.encode())


def test_a_folder_needs_no_more_than_a_firm() -> None:
    bare = {"layday_folder": 1, "firm": {"name": "Gannet Quay Floors", "time_zone": "Europe/Brussels"}}
    alone = Folder(firm=FirmDraft(name="Gannet Quay Floors"))
    assert read_folder(json.dumps(bare).encode()) == alone
    emptied = bare | {"people": None, "products": None, "jobs": None}
    assert read_folder(json.dumps(emptied).encode()) == alone


def test_a_room_is_a_place_by_its_name_and_other_places_by_their_words(
    whole_folder: dict[str, Any], spoiled: Spoiled
) -> None:
    move = whole_folder["jobs"][0]["moves"][0]
    ways = [
        ("Hall", "unit", in_room("Hall"), UNIT),
        ("unit", {"place": "shelf"}, UNIT, SHELF),
        ({"place": "opened"}, "Hall", OPENED, in_room("Hall")),
        ("Hall", {"place": "scrap"}, in_room("Hall"), Place(kind=PlaceKind.SCRAP)),
    ]
    moves = [move | {"from": source, "to": target} for source, target, _, _ in ways]
    (job,) = read_folder(spoiled("jobs[0].moves", moves)).jobs
    assert [(one.source, one.target) for one in job.moves] == [(source, target) for _, _, source, target in ways]


def test_a_delivery_may_go_into_the_unit(spoiled: Spoiled) -> None:
    (job,) = read_folder(spoiled("jobs[0].deliveries[0].into", "unit")).jobs
    assert job.deliveries[0].into == UNIT


def test_a_laying_without_an_end_is_still_going_on(spoiled: Spoiled) -> None:
    laid = {"room": "Hall", "from": "2026-11-26T08:00:00+01:00", "to": None}
    (job,) = read_folder(spoiled("jobs[0].laid[0]", laid)).jobs
    assert job.layings == (LayingDraft(room="Hall", begun_at=at(26, 7)),)
    assert b'"to": null' in write_folder(read_folder(spoiled("jobs[0].laid[0]", laid)))


def test_a_laying_may_end_the_moment_it_began(spoiled: Spoiled) -> None:
    read_folder(spoiled("jobs[0].laid[0].to", "2026-11-26T07:00:00Z"))


@pytest.mark.parametrize(
    ("written", "area_mm2"),
    [
        ("14.5", 14_500_000),
        ("14.500001", 14_500_001),
        ("2.01", 2_010_000),
        ("0.1", 100_000),
        ("1.45e1", 14_500_000),
        ("3", 3_000_000),
    ],
)
def test_an_area_is_read_to_the_square_millimetre(written: str, area_mm2: int) -> None:
    raw = EXAMPLE.replace('"area_m2": 14.5', f'"area_m2": {written}').encode()
    assert read_folder(raw).jobs[0].layings[0].area_mm2 == area_mm2


@pytest.mark.parametrize(
    "written",
    [
        "2026-11-17T09:30:00+01:00",
        "2026-11-17T08:30:00Z",
        "2026-11-17T08:30Z",
        "2026-11-17 08:30:00+00:00",
        "20261117T083000Z",
        "2026-W47-2T08:30:00Z",
        "2026-11-16T22:30:00.000-10:00",
    ],
)
def test_one_instant_may_be_written_in_many_ways(written: str, spoiled: Spoiled) -> None:
    came = read_folder(spoiled("jobs[0].deliveries[0].at", written)).jobs[0].deliveries[0].at
    assert came == at(17, 8, 30)
    assert came.utcoffset() is not None
