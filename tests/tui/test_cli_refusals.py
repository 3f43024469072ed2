"""What an import refuses, and that it then changes nothing; and that no text on file ever steers a terminal."""

import copy
import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.tui.somebodys_folder import (
    AT_BRUSSELS,
    Json,
    Ran,
    Shop,
    air,
    board,
    came,
    count,
    folder,
    glue,
    in_a_hurry,
    job,
    laid,
    order,
    room,
    run,
    straightedge,
    timber,
)

WHOLE = job(
    "N-1",
    promised_on="2026-12-18",
    rooms=[
        room(
            cut_outs=[[[100, 100], [1100, 100], [1100, 600], [100, 600]]],
            subfloor="cement_screed",
            screed_mm=60,
            screed_laid_on="2026-08-01",
            site_ready_on="2026-11-01",
        )
    ],
    orders=[order()],
    deliveries=[came(damaged=1)],
    readings=[air(), straightedge(), timber()],
    laid=[laid("2026-11-27T08:00:00+01:00", "2026-11-27T15:00:00+01:00", 20)],
    counts=[count("2026-12-01T10:00:00+01:00")],
    handover={"signed_at": "2026-12-01T09:00:00+01:00", "by": "K. Harbour"},
)


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    in_a_hurry(monkeypatch)
    shop = Shop(tmp_path)
    shop.take_in(folder(job("OLD-1", orders=[order()])))
    return shop


def dump(path: Path) -> list[str]:
    """Everything the file says, whatever its bytes."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return list(reader.iterdump())


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


def one_sentence(ran: Ran) -> str:
    assert (ran.status, ran.out) == (1, b""), ran
    assert ran.complained.count("\n") == 1
    assert ran.complained.endswith(".\n")
    assert "Traceback" not in ran.complained
    assert len(ran.complained) < 1_000
    return ran.complained


def test_the_folder_that_the_refusals_start_from_is_taken_in(shop: Shop) -> None:
    shop.take_in(folder(WHOLE))


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
    shop: Shop, place: str, value: Any, named: str
) -> None:
    before = dump(shop.path)
    assert named in one_sentence(shop.offer(changed(place, value)))
    assert dump(shop.path) == before


@pytest.mark.parametrize("written", ["9" * 400, "1e400", "-1e400", "NaN", "Infinity", "0." + "3" * 400])
def test_a_number_that_nobody_can_mean_is_refused_at_its_place(shop: Shop, written: str) -> None:
    raw = json.dumps(changed(JOB + "readings.0.temp_c", "HERE")).replace('"HERE"', written).encode()
    assert "jobs[0].readings[0].temp_c" in one_sentence(shop.offer(raw))


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
def test_what_is_no_folder_at_all_is_refused_in_a_sentence(shop: Shop, raw: bytes) -> None:
    before = dump(shop.path)
    one_sentence(shop.offer(raw))
    assert dump(shop.path) == before


def test_a_fault_in_the_last_job_keeps_every_other_job_out(shop: Shop) -> None:
    before = dump(shop.path)
    given = folder(job("B-1"), job("B-2"), job("OLD-1"))
    assert "jobs[2].ref" in one_sentence(shop.offer(given))
    assert dump(shop.path) == before


def test_a_refused_import_makes_no_records_where_there_were_none(tmp_path: Path) -> None:
    new = Shop(tmp_path / "new")
    one_sentence(new.offer(changed("firm.surprise", 1)))
    assert not new.path.exists()


def test_what_says_the_same_as_the_file_is_no_conflict_and_the_same_code_saying_else_is(shop: Shop) -> None:
    shop.take_in(folder(job("B-1")))
    given = folder(job("B-2"), products=[board(acclimatise_hours=72), glue()])
    assert "OAK-190" in one_sentence(shop.offer(given))
    assert "firm" in one_sentence(shop.offer(folder(job("B-3"), day_ends="17:00")))
    people = folder(job("B-4"))
    people["people"] = [{"name": "Ode"}, {"name": "Somebody New"}]
    shop.take_in(people)
    assert shop.run("export").answer["people"] == [{"name": "Ode"}, {"name": "Wim"}, {"name": "Somebody New"}]


@pytest.mark.parametrize("key", ["handover", "promised_on"])
@pytest.mark.parametrize("left", [None, ...])
def test_what_may_be_left_out_may_be_null_and_is_left_out_again(shop: Shop, key: str, left: Any) -> None:
    shop.take_in(changed(JOB + key, left))
    assert key not in shop.run("export", "N-1").answer["jobs"][0]


@pytest.mark.parametrize("key", ["screed_mm", "screed_laid_on", "site_ready_on", "glue", "direction_deg", "start"])
@pytest.mark.parametrize("left", [None, "away"])
def test_what_a_room_may_leave_out_may_be_null_and_is_left_out_again(shop: Shop, key: str, left: Any) -> None:
    given = changed(ROOM + "gap_mm", 10)
    given["jobs"][0]["rooms"][0].pop(key, None)
    if left is None:
        given["jobs"][0]["rooms"][0][key] = None
    shop.take_in(given)
    assert key not in shop.run("export", "N-1").answer["jobs"][0]["rooms"][0]


# --- whatever a file can hold --------------------------------------------------------------------------------------

_ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(2**70), 2**70),
    st.sampled_from([0, -1, 1, 0.5, 1e300, -0.0, float("nan"), float("inf"), 2**63, 10**30]),
    st.text(max_size=12),
    st.sampled_from(["", "unit", "\x1b[2J", "\u202e", "\ud800", "\x00", "2026-02-29", "9999-12-31T23:59:59-23:59"]),
    st.lists(st.integers(-5, 5), max_size=3),
    st.dictionaries(st.sampled_from(["ref", "name", "x"]), st.integers(0, 2), max_size=2),
)


_INSTANTS = [
    f"2026-{month:02}-{day:02}T09:30:00+0{zone}:00" for month in (10, 11) for day in (1, 25) for zone in (0, 1)
]


def gently(draw: st.DrawFn, value: Any) -> Any:
    """Another value of the same kind, which the folder may well hold."""
    match value:
        case bool():
            return not value
        case int() | float():
            return draw(st.sampled_from([value, value + 1, value * 2, 1, 5, 12, 60, 99.5, 168]))
        case str() if "T" in value and value[:2] == "20":
            return draw(st.sampled_from(_INSTANTS))
        case str():
            return draw(st.sampled_from([value, value + draw(st.text(max_size=4)), "OAK-190", "osb", "2026-11-12"]))
        case list():
            return draw(st.sampled_from([value[::-1], value * 2, value[:1], value[1:]]))
    return value


def _places(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    found = [way] if way else []
    if isinstance(value, dict):
        found += [place for key, inner in value.items() for place in _places(inner, (*way, key))]
    if isinstance(value, list):
        found += [place for index, inner in enumerate(value) for place in _places(inner, (*way, index))]
    return found


PLACES = _places(folder(WHOLE))


@st.composite
def spoilt(draw: st.DrawFn) -> bytes:
    """A whole folder, spoilt in one to three places, or in its bytes."""
    given = folder(copy.deepcopy(WHOLE))
    for _ in range(draw(st.integers(1, 3))):
        *way, last = draw(st.sampled_from(PLACES))
        at: Any = given
        try:
            for step in way:
                at = at[step]
            match draw(st.sampled_from(["drop", "odd", "twice", *["gently"] * 6])):
                case "drop":
                    del at[last]
                case "odd":
                    at[last] = draw(_ODD)
                case "gently":
                    at[last] = gently(draw, at[last])
                case _:
                    at.insert(last, copy.deepcopy(at[last])) if isinstance(at, list) else at.update(extra=at[last])
        except (KeyError, IndexError, TypeError, AttributeError):
            continue  # an earlier spoiling took this place away
    raw = json.dumps(given).encode()
    match draw(st.sampled_from(["whole"] * 6 + ["cut", "byte"])):
        case "cut":
            return raw[: draw(st.integers(0, len(raw) - 1))]
        case "byte":
            at = draw(st.integers(0, len(raw) - 1))
            return raw[:at] + bytes([draw(st.integers(0, 255))]) + raw[at + 1 :]
    return raw


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(raw=spoilt())
def test_whatever_a_file_holds_it_is_taken_in_whole_or_refused_in_a_sentence(shop: Shop, raw: bytes) -> None:
    at_rest = shop.path.read_bytes()
    before = dump(shop.path)
    ran = shop.offer(raw)
    if ran.status != 0:
        one_sentence(ran)
        assert dump(shop.path) == before
        return
    assert ran.err == b""
    out = shop.run("export")
    for asked in (["today"], ["today", "--json", "--at", AT_BRUSSELS], ["check"]):
        told = shop.run(*asked)
        assert (told.status, told.err) in {(0, b""), (13, b"")}
    for one in out.answer["jobs"]:
        assert shop.run("job", f"--at={AT_BRUSSELS}", "--", one["ref"]).status == 0
    other = Shop(shop.place / "other")
    other.path.unlink(missing_ok=True)
    other.take_in(out.out)
    assert other.run("export").out == out.out
    shop.path.write_bytes(at_rest)


# --- text on file never steers a terminal --------------------------------------------------------------------------

HOSTILE = "\x1b]52;c;cHduZWQ=\x07\x1b[31m\x9b2J\x85\u202egnp\u2066\u2069\u200f\u200b\ufeff\r\b\x7f\u2028[/][bold]"
_STEERS = (
    {*map(chr, range(0x20)), *map(chr, range(0x7F, 0xA0))} - {"\n"}
    | set("\u200e\u200f\u061c\u2028\u2029")
    | {
        *map(chr, range(0x202A, 0x202F)),
        *map(chr, range(0x2066, 0x206A)),
    }
)


def steering(raw: bytes) -> set[str]:
    return set(raw.decode("utf-8")) & _STEERS


def hostile() -> Json:
    """A folder in which every free text carries the hostile one."""

    def word(text: str) -> str:
        return text + HOSTILE

    given = folder(copy.deepcopy(WHOLE))
    given["firm"]["name"] = word("Firm")
    given["people"] = [{"name": word("Ode")}]
    for product in given["products"]:
        for key in {"code", "name", "build", "species"} & product.keys():
            product[key] = word(product[key])[:40]
    one = given["jobs"][0]
    one["ref"], one["title"] = word("N")[:40], word("Title")
    one["customer"] = dict.fromkeys(("name", "phone", "email"), word("K"))
    one["site"]["address"] = word("3 Signal Lane")
    one["rooms"][0] |= {"name": word("Room"), "board": word("OAK-190")[:40], "glue": word("MS-15")[:40]}
    for line in (one["orders"][0]["lines"][0], one["deliveries"][0]["lines"][0], one["counts"][0]):
        line["product"] = word("OAK-190")[:40]
    one["deliveries"][0]["lines"][0]["batch"] = one["counts"][0]["batch"] = word("K41")
    one["deliveries"][0]["into"] = one["laid"][0]["room"] = word("Room")
    for taken in one["readings"]:
        taken["room"] = word("Room")
    one["handover"]["by"] = word("K")
    return given


@pytest.fixture
def hostile_shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    in_a_hurry(monkeypatch)
    shop = Shop(tmp_path)
    shop.take_in(hostile())
    return shop


def test_no_text_on_file_steers_the_terminal_an_answer_is_read_in(hostile_shop: Shop) -> None:
    ref = hostile()["jobs"][0]["ref"]
    for at in ("2026-11-12T08:00:00+01:00", "2026-11-18T08:00:00+01:00", AT_BRUSSELS, "2026-11-29T08:00:00+01:00"):
        for asked in (["today"], ["today", "--json"], ["job", ref], ["job", ref, "--json"], ["export"]):
            ran = hostile_shop.run(*asked, "--at", at)
            assert (ran.status, ran.err) == (0, b"")
            assert steering(ran.out) == set(), asked


def test_no_text_is_altered_on_its_way_through_an_export(hostile_shop: Shop) -> None:
    out = hostile_shop.run("export").answer
    given = hostile()
    assert out["firm"]["name"] == given["firm"]["name"]
    assert out["jobs"][0]["rooms"][0]["name"] == given["jobs"][0]["rooms"][0]["name"]
    assert out["jobs"][0]["title"] == given["jobs"][0]["title"]


def test_json_answers_carry_the_text_itself(hostile_shop: Shop) -> None:
    (one,) = hostile_shop.today()
    assert one["ref"] == hostile()["jobs"][0]["ref"]


def _in_a_reference(shop: Shop) -> Ran:
    return shop.run("job", "L" + HOSTILE)


def _in_an_export(shop: Shop) -> Ran:
    return shop.run("export", "L" + HOSTILE)


def _in_a_file_name(shop: Shop) -> Ran:
    return shop.run("import", shop.place / ("x" + HOSTILE.replace("/", "")))


def _in_records_that_are_not_there(shop: Shop) -> Ran:
    return run("--file", shop.place / ("x" + HOSTILE.replace("/", "")), "today")


def _in_an_instant(shop: Shop) -> Ran:
    return shop.run("today", "--at", HOSTILE)


def _in_a_key(shop: Shop) -> Ran:
    return shop.offer(hostile() | {"k" + HOSTILE: 1})


def _in_a_value(shop: Shop) -> Ran:
    given = hostile()
    given["jobs"][0]["rooms"][0]["subfloor"] = HOSTILE
    return shop.offer(given)


def _in_a_reference_on_file_already(shop: Shop) -> Ran:
    return shop.offer(hostile())


def _in_a_name_that_stands_twice(shop: Shop) -> Ran:
    given = hostile()
    given["jobs"][0]["rooms"] *= 2
    return shop.offer(given)


def _in_a_product_of_another_meaning(shop: Shop) -> Ran:
    given = hostile()
    given["products"][0]["price_minor"] = 1
    return shop.offer(given)


def _in_an_option(shop: Shop) -> Ran:
    return shop.run("sum", "emc", "--temp", HOSTILE, "--rh", "50")


def _in_a_command(shop: Shop) -> Ran:
    return shop.run(HOSTILE)


def _in_a_stray_option(shop: Shop) -> Ran:
    return shop.run("today", "--" + HOSTILE)


def _in_a_sum_of_no_name(shop: Shop) -> Ran:
    return shop.run("sum", HOSTILE)


@pytest.mark.parametrize(
    "complain",
    [
        _in_a_reference,
        _in_an_export,
        _in_a_file_name,
        _in_records_that_are_not_there,
        _in_an_instant,
        _in_a_key,
        _in_a_value,
        _in_a_reference_on_file_already,
        _in_a_name_that_stands_twice,
        _in_a_product_of_another_meaning,
        _in_an_option,
        _in_a_command,
        _in_a_stray_option,
        _in_a_sum_of_no_name,
    ],
)
def test_no_complaint_steers_the_terminal_it_is_read_in(hostile_shop: Shop, complain: Callable[[Shop], Ran]) -> None:
    ran = complain(hostile_shop)
    assert ran.status in {1, 2, 10}
    assert ran.out == b""
    assert ran.err
    assert steering(ran.err) == set()
