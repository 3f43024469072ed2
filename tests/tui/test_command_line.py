"""The command line keeps its published word: options, answers, exit statuses, and what goes to which stream."""

import json
import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import AT_BRUSSELS, Ran, Shop, air, came, folder, in_a_hurry, job, order, run
from tui.version import VERSION

ROOT = Path(__file__).parents[2]
READY = job(orders=[order()], deliveries=[came()], readings=[air()])


@pytest.fixture
def shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Shop:
    in_a_hurry(monkeypatch)
    return Shop(tmp_path)


@pytest.fixture
def open_shop(shop: Shop) -> Shop:
    shop.take_in(folder(READY))
    return shop


def refused(ran: Ran) -> str:
    """The one sentence of a refusal: on standard error, nothing on standard output, nothing of Python's."""
    assert (ran.status, ran.out) == (1, b""), ran
    return sentence(ran)


def sentence(ran: Ran) -> str:
    say = ran.complained
    assert say.endswith("\n")
    assert say.count("\n") == 1
    assert "Traceback" not in say
    assert say.rstrip("\n").endswith((".", "?", "…"))
    return say.rstrip("\n")


# --- asking for nothing in particular ------------------------------------------------------------------------------


def test_the_version_is_one_line_whatever_else_is_asked() -> None:
    assert run("--version") == Ran(0, f"layday {VERSION}\n".encode(), b"")


def test_help_names_every_command_every_common_option_and_every_exit_status() -> None:
    ran = run("--help")
    assert (ran.status, ran.err) == (0, b"")
    for word in ("today", "job", "sum", "export", "import", "backup", "restore", "check"):
        assert f"\n    {word} " in ran.said
    for option in ("--file", "--demo", "--at", "--json", "--help", "--version"):
        assert option in ran.said
    for status in ("0 done", "1 refused", "2 used wrongly", "10 ", "11 ", "12 ", "13 ", "14 "):
        assert status in ran.said


@pytest.mark.parametrize("command", ["today", "job", "export", "import", "backup", "restore", "check", "sum"])
def test_every_command_has_help_of_its_own(command: str) -> None:
    ran = run(command, "--help")
    assert (ran.status, ran.err) == (0, b"")
    assert f"layday {command}" in ran.said
    assert max(map(len, ran.said.splitlines())) <= 80 or "COLUMNS" in os.environ


@pytest.mark.parametrize(
    "typed",
    [
        ["nonsense"],
        ["job"],
        ["import"],
        ["restore"],
        ["today", "--nonsense"],
        ["--file"],
        ["today", "extra"],
        ["today", "--at", "soon"],
        ["--at", "", "today"],
        ["today", "--at", "2026-02-30"],
        ["today", "--at", "0001-01-01T00:00+14:00"],
        ["today", "--at", "9999-12-31T23:59-12:00"],
        ["sum", "nonsense"],
        ["sum", "emc", "--temp", "warm", "--rh", "50"],
        ["--fil", "x", "today"],
    ],
)
def test_what_makes_no_command_is_used_wrongly_and_says_so_on_standard_error(open_shop: Shop, typed: list[str]) -> None:
    ran = open_shop.run(*typed)
    assert (ran.status, ran.out) == (2, b"")
    assert ran.err
    assert b"Traceback" not in ran.err


def test_without_a_terminal_the_screens_are_used_wrongly(open_shop: Shop) -> None:
    ran = open_shop.run()
    assert (ran.status, ran.out) == (2, b"")
    assert "layday today" in ran.complained


def test_the_made_up_firm_and_a_file_exclude_each_other(open_shop: Shop) -> None:
    ran = open_shop.run("--demo", "today")
    assert (ran.status, ran.out) == (2, b"")


# --- options stand in either place ---------------------------------------------------------------------------------


def test_common_options_stand_before_or_after_the_commands_name(open_shop: Shop) -> None:
    file, at = str(open_shop.path), AT_BRUSSELS
    orders = [
        ["--file", file, "--at", at, "--json", "today"],
        ["--json", "today", "--file", file, "--at", at],
        ["today", "--at", at, "--json", "--file", file],
        [f"--file={file}", "today", f"--at={at}", "--json"],
    ]
    answers = {run(*typed) for typed in orders}
    assert len(answers) == 1
    assert answers.pop().answer["at"] == AT_BRUSSELS


def test_an_option_typed_twice_counts_as_typed_last(open_shop: Shop) -> None:
    ran = run("--file", "/nowhere/at/all", "today", "--json", "--file", open_shop.path)
    assert ran.status == 0


def test_a_sum_takes_json_in_every_place() -> None:
    plain = ["emc", "--temp", "20", "--rh", "50"]
    answers = [
        run("--json", "sum", *plain),
        run("sum", "--json", *plain),
        run("sum", *plain, "--json"),
        run("sum", "emc", "--json", "--temp", "20", "--rh", "50"),
    ]
    assert [one.status for one in answers] == [0] * 4
    assert len({one.out for one in answers}) == 1
    # USDA Wood Handbook FPL-GTR-190, eq. 4-5, at 20 °C and 50 %: 9.27 %.
    assert answers[0].answer["emc_percent"] == pytest.approx(9.27, abs=0.01)


def test_the_firms_records_are_where_the_environment_says(open_shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("LAYDAY_FILE", str(open_shop.path))
    assert [one["ref"] for one in run("today", "--json", "--at", AT_BRUSSELS).answer["jobs"]] == ["L-0007"]


# --- answers -------------------------------------------------------------------------------------------------------


def test_today_has_every_published_key(open_shop: Shop) -> None:
    answer = open_shop.run("today", "--json", "--at", AT_BRUSSELS).answer
    assert set(answer) >= {"at", "jobs"}
    (one,) = answer["jobs"]
    assert set(one) >= {"ref", "stage", "verdict", "ready_from", "best_case", "holds", "to_do", "packs", "windows"}
    for held in one["holds"]:
        assert set(held) >= {"room", "kind", "state", "clears_at", "not_before", "say"}
        assert held["say"].endswith((".", "!"))
    for tally in one["packs"]:
        assert set(tally) >= {"product", "needed", "ordered", "on_site", "ready", "laid", "left"}
    assert set(one["windows"]) == {"walk_on", "full_load", "handover"}
    assert all(isinstance(deed, str) and deed for deed in one["to_do"])


def test_a_job_is_told_by_the_same_object_as_in_the_days_list_with_more_keys(open_shop: Shop) -> None:
    (listed,) = open_shop.today()
    whole = open_shop.job()
    assert {key: whole[key] for key in listed} == listed
    assert len(whole) > len(listed)


@pytest.mark.parametrize("asked", [["today"], ["job", "L-0007"], ["check"]])
def test_plain_answers_fit_eighty_columns_and_hold_nothing_but_text(open_shop: Shop, asked: list[str]) -> None:
    at = [] if asked == ["check"] else ["--at", AT_BRUSSELS]
    ran = open_shop.run(*asked, *at)
    assert (ran.status, ran.err) == (0, b"")
    assert ran.said.endswith("\n")
    assert all(len(line) <= 80 and line == line.rstrip() for line in ran.said.splitlines())
    assert all(sign == "\n" or sign.isprintable() for sign in ran.said)


def test_json_answers_are_plain_ascii_and_one_value(open_shop: Shop) -> None:
    for asked in (["today"], ["job", "L-0007"], ["check"], ["sum", "emc", "--temp", "20", "--rh", "50"]):
        ran = open_shop.run(*asked, "--json")
        assert ran.status == 0
        assert ran.out.isascii()
        json.loads(ran.out)


def test_a_closed_or_unknown_job_is_no_secret_of_the_others(open_shop: Shop) -> None:
    say = refused(open_shop.run("job", "L-9999"))
    assert "L-9999" in say
    assert refused(open_shop.run("export", "L-0007", "L-9999"))


def test_the_made_up_firm_is_told_whole_and_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    in_a_hurry(monkeypatch)
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr("tempfile.tempdir", None)
    ran = run("--demo", "export")
    assert (ran.status, ran.err) == (0, b"")
    assert list(tmp_path.iterdir()) == []
    shop = Shop(tmp_path)
    shop.take_in(ran.out)
    jobs = shop.run("today", "--json").answer["jobs"]
    assert {one["stage"] for one in jobs} == {"survey", "delivery", "acclimatisation", "install", "cure", "handover"}
    for one in jobs:
        told = shop.run("job", one["ref"])
        assert told.status == 0
        assert max(map(len, told.said.splitlines())) <= 80


# --- folders out and in --------------------------------------------------------------------------------------------


def test_export_import_export_gives_the_same_bytes(open_shop: Shop, tmp_path: Path) -> None:
    first = open_shop.run("export")
    assert (first.status, first.err) == (0, b"")
    other = Shop(tmp_path / "elsewhere")
    other.take_in(first.out)
    assert other.run("export").out == first.out


def test_an_export_to_a_file_is_what_goes_to_standard_output(open_shop: Shop, tmp_path: Path) -> None:
    target = tmp_path / "out.json"
    assert open_shop.run("export", "-o", target).status == 0
    assert target.read_bytes() == open_shop.run("export", "-o", "-").out == open_shop.run("export").out
    assert target.stat().st_mode & 0o077 == 0


def test_an_export_of_one_job_holds_that_job_and_its_products_only(shop: Shop) -> None:
    shop.take_in(folder(job("A-1"), job("A-2")))
    out = shop.run("export", "A-2").answer
    assert [one["ref"] for one in out["jobs"]] == ["A-2"]


def test_an_export_at_another_moment_holds_what_was_known_then(open_shop: Shop) -> None:
    out = open_shop.run("export", "--at", "2026-11-12T08:00:00+01:00").answer
    assert (len(out["jobs"][0]["orders"]), out["jobs"][0]["deliveries"]) == (1, [])


def test_an_import_makes_the_records_where_there_are_none_and_says_what_came(shop: Shop) -> None:
    ran = shop.offer(folder(READY))
    assert (ran.status, ran.err) == (0, b"")
    assert "1 job" in ran.said
    assert shop.path.stat().st_mode & 0o077 == 0


def test_a_second_import_of_the_same_folder_is_refused_and_changes_nothing(open_shop: Shop) -> None:
    before = open_shop.run("export").out
    assert "jobs[0].ref" in refused(open_shop.offer(folder(READY)))
    assert open_shop.run("export").out == before


def test_jobs_can_come_later_to_the_same_firm(open_shop: Shop) -> None:
    open_shop.take_in(folder(job("L-0008")))
    assert [one["ref"] for one in open_shop.run("export").answer["jobs"]] == ["L-0007", "L-0008"]


@pytest.mark.parametrize("target", ["", "no/such/folder/out.json", "."])
def test_an_export_that_cannot_be_written_is_refused_in_a_sentence(
    open_shop: Shop, tmp_path: Path, target: str
) -> None:
    refused(open_shop.run("export", "-o", tmp_path / target))


def test_an_export_never_writes_over_the_records(open_shop: Shop, tmp_path: Path) -> None:
    refused(open_shop.run("export", "-o", open_shop.path))
    other_name = tmp_path / "link.json"
    other_name.symlink_to(open_shop.path)
    refused(open_shop.run("export", "-o", other_name))
    assert open_shop.run("check").status == 0


def test_an_export_keeps_to_what_a_name_stands_for(open_shop: Shop, tmp_path: Path) -> None:
    real, link = tmp_path / "real.json", tmp_path / "link.json"
    real.write_text("old")
    link.symlink_to(real)
    assert open_shop.run("export", "-o", link).status == 0
    assert link.is_symlink()
    assert real.read_bytes() == open_shop.run("export").out


def test_an_export_can_go_down_a_named_pipe(open_shop: Shop, tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    with subprocess.Popen(["/bin/cat", pipe], stdout=subprocess.PIPE) as reader:
        try:
            assert open_shop.run("export", "-o", pipe).status == 0
            assert reader.communicate(timeout=10)[0] == open_shop.run("export").out
        finally:
            reader.kill()
    assert pipe.is_fifo()


# --- copies --------------------------------------------------------------------------------------------------------


def test_a_copy_put_back_says_the_same_and_sets_the_present_records_aside(open_shop: Shop, tmp_path: Path) -> None:
    copy = tmp_path / "copy.layday"
    saved = open_shop.run("backup", "-o", copy, "--json")
    assert (saved.status, saved.err) == (0, b"")
    before = open_shop.run("export").out
    open_shop.take_in(folder(job("L-0008")))
    after = open_shop.run("export").out
    done = open_shop.run("restore", copy, "--json")
    assert (done.status, done.err) == (0, b"")
    assert open_shop.run("export").out == before
    aside = Path(done.answer["set_aside"])
    assert run("--file", aside, "export").out == after
    assert copy.exists()


def test_a_copy_says_its_own_fingerprint(open_shop: Shop, tmp_path: Path) -> None:
    copy = tmp_path / "copy.layday"
    told = open_shop.run("backup", "-o", copy, "--json").answer
    shown = subprocess.run(["sha256sum", copy], capture_output=True, text=True, check=True).stdout.split()[0]
    assert (told["sha256"], told["bytes"]) == (shown, copy.stat().st_size)


def test_a_copy_never_writes_over_anything(open_shop: Shop, tmp_path: Path) -> None:
    taken = tmp_path / "taken"
    taken.write_text("dear")
    refused(open_shop.run("backup", "-o", taken))
    refused(open_shop.run("backup", "-o", open_shop.path))
    assert taken.read_text() == "dear"


def test_a_copy_without_a_name_lies_beside_the_records(open_shop: Shop) -> None:
    told = open_shop.run("backup", "--json").answer
    assert Path(told["file"]).parent == open_shop.path.parent
    assert run("--file", told["file"], "export").out == open_shop.run("export").out


def test_putting_back_makes_the_records_where_there_are_none(open_shop: Shop, tmp_path: Path) -> None:
    copy = tmp_path / "copy.layday"
    open_shop.run("backup", "-o", copy)
    new = Shop(tmp_path / "new" / "place")
    assert new.run("restore", copy).status == 0
    assert new.run("export").out == open_shop.run("export").out


def test_nothing_that_is_no_copy_is_put_back(open_shop: Shop, tmp_path: Path) -> None:
    before = open_shop.path.read_bytes()
    text = tmp_path / "text"
    text.write_text("not a copy " * 1000)
    cut = tmp_path / "cut"
    cut.write_bytes(before[: len(before) // 2])
    assert open_shop.run("restore", text).status == 13
    assert open_shop.run("restore", cut).status == 13
    assert open_shop.run("restore", tmp_path / "none").status == 1
    assert open_shop.run("restore", open_shop.path).status == 1
    assert open_shop.path.read_bytes() == before
    assert lying_in(tmp_path) == ["cut", "records.layday", "text"]


def test_looking_at_another_moment_refuses_every_deed(open_shop: Shop, tmp_path: Path) -> None:
    before = open_shop.path.read_bytes()
    given = tmp_path / "more.json"
    given.write_text(json.dumps(folder(job("L-0008"))))
    refused(open_shop.run("import", given, "--at", AT_BRUSSELS))
    refused(open_shop.run("restore", given, "--at", AT_BRUSSELS))
    assert open_shop.path.read_bytes() == before


def test_records_in_order_are_said_to_be_so(open_shop: Shop) -> None:
    ran = open_shop.run("check", "--json")
    assert (ran.status, ran.err, ran.answer["in_order"]) == (0, b"", True)
    assert all(one["good"] for one in ran.answer["findings"])


# --- the other exit statuses ---------------------------------------------------------------------------------------

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


def test_a_folder_in_the_place_of_the_records_is_refused(tmp_path: Path) -> None:
    assert run("--file", tmp_path, "today").status == 1


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


def lying_in(place: Path) -> list[str]:
    """What lies in a folder, but for the empty journal that SQLite keeps beside a file of its own."""
    return sorted(one.name for one in place.iterdir() if not (one.name.endswith("-journal") and not one.stat().st_size))


def layday(shop: Shop) -> str:
    return f"{sys.executable} -c 'import sys; from tui.cli import main; sys.exit(main())' --file {shop.path}"


def shell(line: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(["bash", "-c", line], cwd=ROOT, capture_output=True, text=True, check=False, timeout=60)
