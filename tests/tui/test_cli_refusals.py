"""What an import refuses, at which place, and that it then changes nothing."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest

from tests.tui.somebodys_folder import (
    WHOLE,
    Json,
    Shop,
    board,
    dump,
    folder,
    glue,
    job,
    order,
    refused,
    room,
)


@pytest.fixture
def old_shop(shop: Shop) -> Shop:
    """A shop with a job on file already."""
    shop.take_in(folder(job("OLD-1", orders=[order()])))
    return shop


def changed(place: str, value: Any) -> Json:
    """The whole folder with another value at a dotted place; ``...`` takes the key away."""
    given = folder(copy.deepcopy(WHOLE))
    *way, last = [int(step) if step.isdigit() else step for step in place.split(".")]
    at: Any = given
    for step in way:
        at = at[step]
    if value is ...:
        del at[last]
    else:
        at[last] = value
    return given


def test_the_folder_that_the_refusals_start_from_is_taken_in(old_shop: Shop) -> None:
    old_shop.take_in(folder(WHOLE))


JOB, ROOM = "jobs.0.", "jobs.0.rooms.0."
BOW = [[0, 0], [4000, 4000], [4000, 0], [0, 4000]]
REFUSED: list[tuple[str, Any, str]] = [
    ("layday_folder", 2, "layday_folder"),
    ("layday_folder", "1", "layday_folder"),
    ("layday_folder", ..., "layday_folder"),
    ("surprise", 1, "surprise"),
    ("firm.surprise", 1, "firm.surprise"),
    (JOB + "surprise", 1, "jobs[0].surprise"),
    (ROOM + "surprise", 1, "jobs[0].rooms[0].surprise"),
    (JOB + "readings.0.percent", 3, "jobs[0].readings[0].percent"),
    (JOB + "handover.surprise", 1, "jobs[0].handover.surprise"),
    ("firm", ..., "firm"),
    ("firm.name", "Another Firm", "firm.name"),
    ("firm.time_zone", "Europe/Atlantis", "firm.time_zone"),
    ("firm.day_starts", "8 o'clock", "firm.day_starts"),
    ("firm.working_days", ["mon", "moon"], "firm.working_days[1]"),
    ("firm.holidays", ["2026-02-30"], "firm.holidays[0]"),
    ("products.0.kind", "carpet", "products[0].kind"),
    ("products.0.boards_per_pack", 0, "products[0].boards_per_pack"),
    ("products.0.width_mm", -190, "products[0].width_mm"),
    ("products.0.length_mm", 1900.5, "products[0].length_mm"),
    ("products.0.length_mm", True, "products[0].length_mm"),
    ("products.0.price_minor", 100, "products[0]"),
    ("products.1.tub_kg", 0, "products[1].tub_kg"),
    ("products.1.open_time_min", "40", "products[1].open_time_min"),
    (JOB + "ref", "OLD-1", "jobs[0].ref"),
    (JOB + "ref", "", "jobs[0].ref"),
    (JOB + "ref", 7, "jobs[0].ref"),
    (JOB + "title", "x" * 5_000_000, "jobs[0].title"),
    (JOB + "customer", "K. Harbour", "jobs[0].customer"),
    (JOB + "promised_on", "18/12/2026", "jobs[0].promised_on"),
    (JOB + "rooms.0", [], "jobs[0].rooms[0]"),
    (ROOM + "outline", BOW, "jobs[0].rooms[0].outline"),
    (ROOM + "outline", [[0, 0], [1, 0]], "jobs[0].rooms[0].outline"),
    (ROOM + "outline", [[0, 0], [5200, 0], [5200, 0], [5200, 0]], "jobs[0].rooms[0].outline"),
    (ROOM + "outline.1", [5200], "jobs[0].rooms[0].outline[1]"),
    (ROOM + "cut_outs", [[[9000, 0], [9100, 0], [9100, 100]]], "jobs[0].rooms[0].cut_outs"),
    (ROOM + "cut_outs", [[[5000, 0], [5400, 0], [5400, 100]]], "jobs[0].rooms[0].cut_outs"),
    (ROOM + "subfloor", "sand", "jobs[0].rooms[0].subfloor"),
    (ROOM + "heated", "no", "jobs[0].rooms[0].heated"),
    (ROOM + "heated", 0, "jobs[0].rooms[0].heated"),
    (ROOM + "method", "stapled", "jobs[0].rooms[0].method"),
    (ROOM + "board", "ELM-1", "jobs[0].rooms[0].board"),
    (ROOM + "board", "MS-15", "jobs[0].rooms[0].board"),
    (ROOM + "glue", "OAK-190", "jobs[0].rooms[0].glue"),
    (ROOM + "gap_mm", -1, "jobs[0].rooms[0].gap_mm"),
    (ROOM + "cut_loss_percent", -1, "jobs[0].rooms[0].cut_loss_percent"),
    (ROOM + "screed_mm", -60, "jobs[0].rooms[0].screed_mm"),
    (ROOM + "name", "unit", "jobs[0].rooms[0].name"),
    (JOB + "rooms", [room(), room()], "jobs[0].rooms[1].name"),
    (JOB + "orders.0.lines.0.packs", 0, "jobs[0].orders[0].lines[0].packs"),
    (JOB + "orders.0.lines.0.packs", -3, "jobs[0].orders[0].lines[0].packs"),
    (JOB + "orders.0.lines.0.product", "ELM-1", "jobs[0].orders[0].lines[0].product"),
    (JOB + "orders.0.due_on", "2026-11-09", "jobs[0].orders[0].due_on"),
    (JOB + "deliveries.0.into", "Attic", "jobs[0].deliveries[0].into"),
    (JOB + "deliveries.0.at", "2026-11-17T09:30:00", "jobs[0].deliveries[0].at"),
    (JOB + "deliveries.0.at", "2026-11-17", "jobs[0].deliveries[0].at"),
    (JOB + "deliveries.0.lines.0.damaged_packs", 13, "jobs[0].deliveries[0].lines[0].damaged_packs"),
    (JOB + "deliveries.0.lines.0.packs", 0, "jobs[0].deliveries[0].lines[0].packs"),
    (JOB + "readings.0.room", "Attic", "jobs[0].readings[0].room"),
    (JOB + "readings.0.kind", "smell", "jobs[0].readings[0].kind"),
    (JOB + "readings.0.rh_percent", 140, "jobs[0].readings[0].rh_percent"),
    (JOB + "readings.0.rh_percent", -1, "jobs[0].readings[0].rh_percent"),
    (JOB + "readings.0.temp_c", None, "jobs[0].readings[0].temp_c"),
    (JOB + "readings.1.span_mm", 0, "jobs[0].readings[1].span_mm"),
    (JOB + "laid.0.to", "2026-11-27T07:59:59+01:00", "jobs[0].laid[0].to"),
    (JOB + "laid.0.area_m2", 0, "jobs[0].laid[0].area_m2"),
    (JOB + "laid.0.area_m2", -4, "jobs[0].laid[0].area_m2"),
    (JOB + "laid.0.room", "Attic", "jobs[0].laid[0].room"),
    (JOB + "counts.0.packs", -1, "jobs[0].counts[0].packs"),
    (JOB + "counts.0.to", "the sea", "jobs[0].counts[0].to"),
    (JOB + "handover.signed_at", "tomorrow", "jobs[0].handover.signed_at"),
    (JOB + "handover.by", "", "jobs[0].handover.by"),
]


@pytest.mark.parametrize(("place", "value", "named"), REFUSED, ids=[f"{one[0]}-{n}" for n, one in enumerate(REFUSED)])
def test_a_folder_with_one_fault_is_refused_at_its_place_and_nothing_is_taken_in(
    old_shop: Shop, place: str, value: Any, named: str
) -> None:
    before = dump(old_shop.path)
    assert named in refused(old_shop.offer(changed(place, value)))
    assert dump(old_shop.path) == before


@pytest.mark.parametrize("written", ["9" * 400, "1e400", "-1e400", "NaN", "Infinity", "0." + "3" * 400])
def test_a_number_that_nobody_can_mean_is_refused_at_its_place(old_shop: Shop, written: str) -> None:
    raw = json.dumps(changed(JOB + "readings.0.temp_c", "HERE")).replace('"HERE"', written).encode()
    assert "jobs[0].readings[0].temp_c" in refused(old_shop.offer(raw))


@pytest.mark.parametrize(
    "raw",
    [
        b"",
        b"   \n",
        b"[]",
        b"null",
        b"7",
        b"{",
        b"{}",
        b"\xff\xfe{}",
        b"\x00" * 50,
        b"[" * 200_000,
        b'{"a":' * 100_000,
        b'{"layday_folder": 1, "layday_folder": 1}',
        b'{"layday_folder": 1}}',
        json.dumps(folder(WHOLE)).encode()[:-1],
        json.dumps(folder(WHOLE)).encode("utf-16"),
        b"\x89PNG\r\n\x1a\n" + bytes(range(256)),
    ],
    ids=range(16),
)
def test_what_is_no_folder_at_all_is_refused_in_a_sentence(old_shop: Shop, raw: bytes) -> None:
    before = dump(old_shop.path)
    refused(old_shop.offer(raw))
    assert dump(old_shop.path) == before


def test_a_fault_in_the_last_job_keeps_every_other_job_out(old_shop: Shop) -> None:
    before = dump(old_shop.path)
    given = folder(job("B-1"), job("B-2"), job("OLD-1"))
    assert "jobs[2].ref" in refused(old_shop.offer(given))
    assert dump(old_shop.path) == before


def test_a_refused_import_makes_no_records_where_there_were_none(tmp_path: Path) -> None:
    new = Shop(tmp_path / "new")
    refused(new.offer(changed("firm.surprise", 1)))
    assert not new.path.exists()


def test_what_says_the_same_as_the_file_is_no_conflict_and_the_same_code_saying_else_is(old_shop: Shop) -> None:
    old_shop.take_in(folder(job("B-1")))
    given = folder(job("B-2"), products=[board(acclimatise_hours=72), glue()])
    assert "OAK-190" in refused(old_shop.offer(given))
    assert "firm" in refused(old_shop.offer(folder(job("B-3"), day_ends="17:00")))
    people = folder(job("B-4"))
    people["people"] = [{"name": "Ode"}, {"name": "Somebody New"}]
    old_shop.take_in(people)
    assert old_shop.run("export").answer["people"] == [{"name": "Ode"}, {"name": "Wim"}, {"name": "Somebody New"}]


@pytest.mark.parametrize("key", ["handover", "promised_on"])
@pytest.mark.parametrize("left", [None, ...])
def test_what_may_be_left_out_may_be_null_and_is_left_out_again(old_shop: Shop, key: str, left: Any) -> None:
    old_shop.take_in(changed(JOB + key, left))
    assert key not in old_shop.run("export", "N-1").answer["jobs"][0]


@pytest.mark.parametrize("key", ["screed_mm", "screed_laid_on", "site_ready_on", "glue", "direction_deg", "start"])
@pytest.mark.parametrize("left", [None, "away"])
def test_what_a_room_may_leave_out_may_be_null_and_is_left_out_again(old_shop: Shop, key: str, left: Any) -> None:
    given = changed(ROOM + "gap_mm", 10)
    given["jobs"][0]["rooms"][0].pop(key, None)
    if left is None:
        given["jobs"][0]["rooms"][0][key] = None
    old_shop.take_in(given)
    assert key not in old_shop.run("export", "N-1").answer["jobs"][0]["rooms"][0]
