"""Folders out and in, copies made and put back, by the command line."""

import json
import os
import subprocess
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import AT_BRUSSELS, READY, Shop, folder, job, lying_in, refused, run


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


def test_an_export_says_whether_it_took_the_place_of_a_file_that_was_there(open_shop: Shop, tmp_path: Path) -> None:
    target = tmp_path / "out.json"
    assert open_shop.run("export", "-o", target).out.startswith(b"Written to ")
    assert open_shop.run("export", "-o", target).out.startswith(b"Replaced ")


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


@pytest.mark.parametrize("target", ["", "no/such/folder/out.json", ".", "x" * 300])
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


def test_no_paper_is_written_over_records_whichever_desk_it_comes_from(open_shop: Shop, tmp_path: Path) -> None:
    before = open_shop.path.read_bytes()
    refused(run("--demo", "export", "-o", open_shop.path))
    hall = tmp_path / "hall.json"
    hall.write_text('{"outline": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]]}', encoding="utf-8")
    sizes = ("--length", "1900", "--width", "190", "--per-pack", "6")
    refused(run("sum", "lay", "--room", hall, *sizes, "--svg", open_shop.path))
    assert open_shop.path.read_bytes() == before


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
