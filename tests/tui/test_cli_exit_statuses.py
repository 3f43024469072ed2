"""How a command ends when records are missing, newer, damaged or have no room, and when nobody listens."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import (
    READY,
    Shop,
    folder,
    in_a_hurry,
    job,
    layday,
    lying_in,
    refused,
    run,
    sentence,
    shell,
)

READING = (["today"], ["job", "L-0007"], ["export"], ["check"], ["backup", "-o", "copy"])


@pytest.mark.parametrize("asked", READING)
def test_where_there_are_no_records_every_other_command_says_ten(shop: Shop, tmp_path: Path, asked: list[str]) -> None:
    ran = shop.run(*asked)
    assert (ran.status, ran.out) == (10, b"")
    assert str(shop.path) in sentence(ran)
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_is_no_records_either(shop: Shop) -> None:
    shop.path.touch()
    assert shop.run("today").status == 10
    assert shop.path.stat().st_size == 0


@pytest.mark.parametrize("asked", READING)
def test_records_of_a_newer_release_are_left_untouched_with_twelve(open_shop: Shop, asked: list[str]) -> None:
    with sqlite3.connect(open_shop.path) as newer:
        newer.execute("PRAGMA user_version = 999")
    newer.close()
    before = open_shop.path.read_bytes(), open_shop.path.stat().st_mtime_ns, sorted(open_shop.place.iterdir())
    ran = open_shop.run(*asked)
    assert (ran.status, ran.out) == (12, b"")
    assert "newer" in sentence(ran)
    after = open_shop.path.read_bytes(), open_shop.path.stat().st_mtime_ns, sorted(open_shop.place.iterdir())
    assert after == before


@pytest.mark.parametrize("asked", READING)
def test_a_file_that_is_not_ours_or_cut_short_is_damaged_with_thirteen(open_shop: Shop, asked: list[str]) -> None:
    whole = open_shop.path.read_bytes()
    for raw in (b"just some text\n" * 500, whole[: len(whole) // 2], whole[:4096], whole[:100], whole[:1]):
        open_shop.path.write_bytes(raw)
        ran = open_shop.run(*asked)
        assert (ran.status, ran.out) == (13, b""), len(raw)
        sentence(ran)
        assert open_shop.path.read_bytes() == raw


def test_another_programs_records_are_not_taken_for_ours(shop: Shop) -> None:
    with sqlite3.connect(shop.path) as other:
        other.execute("CREATE TABLE shopping (bread TEXT)")
    other.close()
    assert shop.run("today").status == 13


def test_a_changed_line_of_the_history_is_found_and_said_with_thirteen(open_shop: Shop) -> None:
    raw = open_shop.path.read_bytes()
    assert raw.count(b"job taken in from a folder") == 1
    open_shop.path.write_bytes(raw.replace(b"job taken in from a folder", b"job taken in from a bucket"))
    ran = open_shop.run("check", "--json")
    assert (ran.status, ran.answer["in_order"]) == (13, False)
    assert [one["what"] for one in ran.answer["findings"] if not one["good"]] == ["history"]


def test_damage_anywhere_ends_in_a_sentence_never_in_a_trace(open_shop: Shop) -> None:
    whole = open_shop.path.read_bytes()
    for page in range(0, len(whole), 3 * 4096):
        smashed = bytearray(whole)
        smashed[page : page + 4096] = bytes(range(256)) * 16
        open_shop.path.write_bytes(smashed)
        for asked in (["today"], ["check"]):
            ran = open_shop.run(*asked)
            assert ran.status in {0, 12, 13}
            if ran.status != 0 and not ran.out:
                sentence(ran)


@pytest.mark.parametrize(
    "spoiled",
    [
        "UPDATE room SET board_id = (SELECT id FROM product WHERE kind = 'glue')",
        "UPDATE room SET outline = '[1,2]'",
        "UPDATE product SET boards_per_pack = 0 WHERE kind = 'board'",
        "UPDATE product SET length_mm = NULL",
        "UPDATE product SET acclimatise_hours = 9223372036854775807 WHERE kind = 'board'",
        "UPDATE firm SET time_zone = 'Nowhere/At all'",
        "UPDATE firm SET working_days = '[9]'",
        "UPDATE firm SET day_starts = '08:00:00+01:00'",
        "UPDATE firm SET climate = '[null,24,40,65]'",
        "UPDATE delivery SET at = '9999-12-31T23:00:00.000000Z'",
    ],
)
def test_a_value_that_another_program_has_spoiled_is_told_with_thirteen(open_shop: Shop, spoiled: str) -> None:
    with closing(sqlite3.connect(open_shop.path)) as other:
        other.execute("PRAGMA ignore_check_constraints = ON")
        other.execute("DROP TRIGGER delivery_not_updated")
        other.execute(spoiled)
        other.commit()
    for asked in (["today"], ["job", "L-0007"]):
        ran = open_shop.run(*asked)
        assert (ran.status, ran.out) == (13, b"")
        assert "makes no sense" in sentence(ran)


def test_a_folder_in_the_place_of_the_records_is_refused(tmp_path: Path) -> None:
    assert run("--file", tmp_path, "today").status == 1


def test_a_home_folder_that_nobody_has_is_used_wrongly(monkeypatch: pytest.MonkeyPatch) -> None:
    for asked in (("today",), ("import", "folder.json"), ("restore", "copy.layday")):
        ran = run("--file", "~nobody-of-this-name/records.layday", *asked)
        assert (ran.status, ran.out) == (2, b"")
        assert "~nobody-of-this-name" in sentence(ran)
    monkeypatch.setenv("LAYDAY_FILE", "~nobody-of-this-name/records.layday")
    assert run("today").status == 2


def test_a_record_file_with_an_odd_name_is_a_file_like_any_other(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_a_hurry(monkeypatch)
    for name in ("spaced out.layday", "été?mode=ro#%41.layday", "-dash"):
        shop = Shop(tmp_path)
        shop.path = tmp_path / name
        shop.take_in(folder(READY))
        assert shop.run("check").status == 0


def test_a_stream_that_is_closed_from_the_start_is_no_fault(open_shop: Shop) -> None:
    assert shell(f"{layday(open_shop)} today >&-; echo $?").stdout.strip() == "0"
    ran = shell(f"{layday(open_shop)} import - <&-")
    assert (ran.returncode, ran.stdout, ran.stderr) == (1, "", "The file is empty.\n")


def test_a_file_without_end_is_refused(open_shop: Shop) -> None:
    assert "larger than" in refused(open_shop.run("import", "/dev/zero"))


@pytest.mark.parametrize("asked", [["today"], ["export"]])
def test_a_reader_that_stops_early_is_no_fault(open_shop: Shop, asked: list[str]) -> None:
    ran = shell(f"{layday(open_shop)} {' '.join(asked)} | head -c 1 >/dev/null; echo ${{PIPESTATUS[0]}}")
    assert (ran.stdout.strip(), ran.stderr) == ("0", "")


@pytest.mark.parametrize("asked", [["today"], ["export"], ["--version"]])
def test_a_full_disk_at_the_other_end_of_standard_output_is_fourteen(open_shop: Shop, asked: list[str]) -> None:
    ran = shell(f"{layday(open_shop)} {' '.join(asked)} >/dev/full; echo $?")
    assert ran.stdout.strip() == "14"
    assert ran.stderr.count("\n") == 1
    assert "Traceback" not in ran.stderr


@pytest.mark.parametrize("asked", [["job", "L-0007"], ["sum", "dew-point", "--temp", "20", "--rh", "50"]])
def test_a_terminal_that_knows_only_ascii_gets_an_answer(open_shop: Shop, asked: list[str]) -> None:
    ran = shell(f"PYTHONIOENCODING=ascii {layday(open_shop)} {' '.join(asked)}")
    assert (ran.returncode, ran.stderr) == (0, "")
    assert ran.stdout.isascii()
    assert len(ran.stdout) > 20


def test_no_room_on_the_disk_is_fourteen_and_the_records_stay_as_they_were(open_shop: Shop, tmp_path: Path) -> None:
    before = open_shop.run("export").out
    more = tmp_path / "more.json"
    more.write_text(json.dumps(folder(*(job(f"B-{number}", title="x" * 9000) for number in range(30)))))
    blocks = open_shop.path.stat().st_size // 1024 + 8
    ran = shell(f"ulimit -f {blocks}; {layday(open_shop)} import {more}; echo $?")
    assert ran.stdout.strip() == "14"
    assert "room" in ran.stderr
    assert ran.stderr.count("\n") == 1
    assert open_shop.run("export").out == before
    assert open_shop.run("check").status == 0


def test_no_room_for_an_export_or_a_copy_is_fourteen_and_leaves_nothing_half(open_shop: Shop, tmp_path: Path) -> None:
    old = tmp_path / "out.json"
    old.write_text("old")
    ran = shell(
        f"ulimit -f 1; {layday(open_shop)} export -o {old}; echo $?;"
        f"{layday(open_shop)} backup -o {tmp_path}/copy; echo $?"
    )
    assert ran.stdout.split() == ["14", "14"]
    assert old.read_text() == "old"
    assert lying_in(tmp_path) == ["out.json", "records.layday"]
