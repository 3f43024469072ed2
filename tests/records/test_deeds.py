"""A deed is on disk whole or not at all, and nobody's change is lost under somebody else's."""

import sqlite3
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import replace
from pathlib import Path

import pytest

from store.errors import ChangedMeanwhile, DiskFull, Refused, StoreError, StoreLocked
from store.records.opening import open_cabinet
from store.trade.events import LayingDraft, NoteDraft, SnagDraft
from store.trade.jobs import CustomerDraft, JobDraft
from store.trade.people import PersonDraft

PATIENCE_S = 2.0  # "within about a second", with room for a busy machine


def file_a_note(shop, text: str) -> None:
    with shop.cabinet.deed():
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=shop.now, text=text))


def notes_of(shop) -> list[str]:
    return [note.text for note in shop.cabinet.facts.of_ref("L-0001").notes]


def is_sound(connection: sqlite3.Connection) -> bool:
    return connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_a_deed_that_fails_leaves_nothing_behind(shop) -> None:
    file_a_note(shop, "kept")
    with suppress(KeyboardInterrupt), shop.cabinet.deed():
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=shop.now, text="half"))
        raise KeyboardInterrupt
    assert notes_of(shop) == ["kept"]
    file_a_note(shop, "and on it goes")
    assert notes_of(shop) == ["kept", "and on it goes"]


def test_a_deed_within_a_deed_is_a_bug_and_undoes_the_outer_one(shop) -> None:
    with pytest.raises(RuntimeError), shop.cabinet.deed():
        file_a_note(shop, "half")
    assert notes_of(shop) == []


def test_writing_outside_a_deed_is_a_bug(shop) -> None:
    with pytest.raises(RuntimeError):
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=shop.now, text="x"))
    with pytest.raises(RuntimeError):
        shop.cabinet.people.remove(1)


def test_a_deed_may_ask_questions_and_sees_what_it_wrote(shop) -> None:
    with shop.cabinet.deed():
        shop.cabinet.events.add_note(shop.job.id, NoteDraft(at=shop.now, text="just now"))
        assert notes_of(shop) == ["just now"]


def test_a_change_to_what_was_changed_meanwhile_is_refused(shop) -> None:
    cabinet, job, room = shop.cabinet, shop.job, shop.room
    firm, board = cabinet.firm.get(), cabinet.products.by_code("OAK-190")
    with cabinet.deed():
        snag = cabinet.events.add_snag(job.id, SnagDraft(at=shop.now, what="x"))
        laying = cabinet.events.add_laying(job.id, LayingDraft(room=room.name, begun_at=shop.now))
    changes = {
        "firm": lambda rev: cabinet.firm.change(replace(firm, name="New name"), rev),
        "product": lambda rev: cabinet.products.change(board.id, replace(board, name="New name"), rev),
        "job": lambda rev: cabinet.jobs.change(job.id, replace(job, title="New title"), rev),
        "room": lambda rev: cabinet.rooms.change(room.id, replace(room, gap_mm=12), rev),
        "snag": lambda rev: cabinet.events.mend_snag(snag.id, shop.now, rev),
        "laying": lambda rev: cabinet.events.end_laying(laying.id, replace(laying, ended_at=shop.now), rev),
    }
    for name, change in changes.items():
        with cabinet.deed():
            assert change(1).rev == 2, name
        with pytest.raises(ChangedMeanwhile), cabinet.deed():
            change(1)
    facts = cabinet.facts.of_ref("L-0001")
    assert (facts.job.title, facts.rooms[0].gap_mm, facts.job.rev, facts.rooms[0].rev) == (
        "New title",
        12,
        2,
        2,
    )
    assert (cabinet.firm.get().name, facts.board("OAK-190").name) == ("New name", "New name")


def test_a_room_changed_meanwhile_is_not_removed(shop) -> None:
    with pytest.raises(ChangedMeanwhile), shop.cabinet.deed():
        shop.cabinet.rooms.remove(shop.room.id, shop.room.rev + 1)


def test_a_room_that_something_is_on_file_about_is_not_removed(full_shop) -> None:
    with pytest.raises(Refused, match="stays"), full_shop.cabinet.deed():
        full_shop.cabinet.rooms.remove(full_shop.room.id, full_shop.room.rev)
    assert full_shop.cabinet.facts.of_ref("L-0001").rooms == (full_shop.room,)


def test_references_codes_and_names_are_given_once(shop) -> None:
    cabinet = shop.cabinet
    again = {
        "reference": lambda: cabinet.jobs.add(shop.job),
        "code": lambda: cabinet.products.add(cabinet.products.by_code("OAK-190")),
        "room": lambda: cabinet.rooms.add(shop.job.id, shop.room),
        "name": lambda: cabinet.people.add(PersonDraft(name="Wren")),
        "firm": lambda: cabinet.firm.put(cabinet.firm.get()),
    }
    for word, add in again.items():
        with (
            pytest.raises(Refused, match=f"(?i){word}.*on file already|{word}.*in this job already"),
            cabinet.deed(),
        ):
            add()


def test_rooms_and_products_that_are_not_on_file_are_refused_by_name(shop) -> None:
    room = replace(shop.room, name="Hall", board="ELM-120")
    with pytest.raises(Refused, match="ELM-120"), shop.cabinet.deed():
        shop.cabinet.rooms.add(shop.job.id, room)
    with pytest.raises(Refused, match="Cellar"), shop.cabinet.deed():
        shop.cabinet.events.add_laying(shop.job.id, LayingDraft(room="Cellar", begun_at=shop.now))


def test_a_customer_and_a_site_are_filed_once_and_forgotten_with_the_last_job_that_names_them(shop) -> None:
    customer = CustomerDraft(name="Harbour office", phone="1")
    with shop.cabinet.deed():
        jobs = [
            shop.cabinet.jobs.add(JobDraft(ref=ref, title="t", customer=customer, address="Quay 3"))
            for ref in ("L-0002", "L-0003")
        ]
    assert [one.name for one in shop.cabinet.jobs.customers()] == ["Harbour library", "Harbour office"]
    mended = replace(customer, phone="2")
    with shop.cabinet.deed():
        shop.cabinet.jobs.change(jobs[0].id, replace(jobs[0], customer=mended), 1)
    assert customer in shop.cabinet.jobs.customers()
    with shop.cabinet.deed():
        shop.cabinet.jobs.change(jobs[1].id, replace(jobs[1], customer=mended), 1)
    assert customer not in shop.cabinet.jobs.customers()
    assert shop.cabinet.jobs.by_ref("L-0003").customer == mended


@pytest.fixture
def other(shop) -> Iterator[sqlite3.Connection]:
    """Yield another window's connection to the same file."""
    with closing(sqlite3.connect(shop.path, isolation_level=None, timeout=0)) as connection:
        yield connection


@pytest.mark.parametrize("lock", ["IMMEDIATE", "EXCLUSIVE"])
def test_a_file_held_by_another_window_is_said_to_be_locked_within_about_a_second(shop, other, lock: str) -> None:
    other.execute(f"BEGIN {lock}")
    begun = time.monotonic()
    with pytest.raises(StoreLocked, match="Another window"):
        file_a_note(shop, "x")
    assert time.monotonic() - begun < PATIENCE_S
    other.execute("ROLLBACK")
    file_a_note(shop, "now")
    assert notes_of(shop) == ["now"]


def test_a_reader_that_does_not_let_go_makes_the_save_fail_whole(shop, other) -> None:
    other.execute("BEGIN")
    other.execute("SELECT count(*) FROM note").fetchone()
    with pytest.raises(StoreLocked):
        file_a_note(shop, "x")
    other.execute("ROLLBACK")
    assert notes_of(shop) == []
    file_a_note(shop, "now")
    assert notes_of(shop) == ["now"]


def test_questions_are_answered_while_another_window_prepares_a_save(shop, other) -> None:
    other.execute("BEGIN IMMEDIATE")
    other.execute("UPDATE job SET title = 'not yet'")
    assert shop.cabinet.facts.of_ref("L-0001").job == shop.job


def test_a_question_to_a_file_being_written_is_said_to_be_locked(shop, other) -> None:
    other.execute("BEGIN EXCLUSIVE")
    with pytest.raises(StoreLocked):
        shop.cabinet.facts.open_at(shop.now)
    with pytest.raises(StoreLocked):
        open_cabinet(shop.path, create=False)


HOLDS_THE_FILE = """
import sqlite3, sys
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("BEGIN EXCLUSIVE")
print("held", flush=True)
sys.stdin.read()
"""


def test_a_file_held_by_another_process_is_said_to_be_locked(shop) -> None:
    command = [sys.executable, "-c", HOLDS_THE_FILE, str(shop.path)]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as holder:
        assert holder.stdout.readline() == b"held\n"
        begun = time.monotonic()
        with pytest.raises(StoreLocked):
            file_a_note(shop, "x")
        with pytest.raises(StoreLocked):
            shop.cabinet.jobs.lines()
        assert time.monotonic() - begun < 2 * PATIENCE_S
        holder.stdin.close()
    file_a_note(shop, "now")
    assert notes_of(shop) == ["now"]


def test_facts_are_of_one_moment_even_if_another_window_saves_in_between(shop, other) -> None:
    attempts = []

    def save_in_between(_event: object) -> None:
        try:
            other.execute("UPDATE job SET title = 'in between'")
            attempts.append("saved")
        except sqlite3.OperationalError as error:
            attempts.append(error.sqlite_errorname)

    shop.cabinet.file.database.query_hooks.append(save_in_between)
    assert shop.cabinet.facts.of_ref("L-0001").job == shop.job
    assert len(attempts) > 10
    assert set(attempts) == {"SQLITE_BUSY"}


def test_a_save_of_another_window_shows_in_the_data_version(shop, other) -> None:
    before = shop.cabinet.data_version()
    file_a_note(shop, "our own")
    assert shop.cabinet.data_version() == before
    other.execute("UPDATE job SET title = 'theirs'")
    assert shop.cabinet.data_version() != before


def test_a_full_disk_is_said_and_loses_nothing(shop) -> None:
    file_a_note(shop, "kept")
    connection = shop.cabinet.file.connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages + 4}")
    with pytest.raises(DiskFull, match="no room"):
        file_a_note(shop, "x" * 90_000)
    assert notes_of(shop) == ["kept"]
    assert is_sound(connection)
    connection.execute("PRAGMA max_page_count = 100000")
    file_a_note(shop, "room again")
    assert notes_of(shop) == ["kept", "room again"]


def test_a_file_that_may_only_be_read_is_read_and_says_so_when_written(shop) -> None:
    shop.cabinet.file.connection.execute("PRAGMA query_only = ON")
    with pytest.raises(StoreError, match="rights"):
        file_a_note(shop, "x")
    assert notes_of(shop) == []


DIES_HALF_WAY = """
import os, sys
from datetime import UTC, datetime
from pathlib import Path
from store.records.opening import open_cabinet
from store.trade.events import NoteDraft
cabinet = open_cabinet(Path(sys.argv[1]), create=False)
cabinet.file.connection.execute("PRAGMA cache_size = 5")
with cabinet.deed():
    for number in range(200):
        note = NoteDraft(at=datetime(2026, 1, 1, tzinfo=UTC), text=str(number) * 500)
        cabinet.events.add_note(int(sys.argv[2]), note)
    os._exit(9)
"""


def test_a_window_that_dies_half_way_through_a_save_leaves_the_records_as_they_were(shop) -> None:
    file_a_note(shop, "kept")
    path, before = shop.path, shop.cabinet.facts.many(None)
    shop.cabinet.close()
    command = [sys.executable, "-c", DIES_HALF_WAY, str(path), str(shop.job.id)]
    root = Path(__file__).parents[2]
    assert subprocess.run(command, cwd=root, check=False, env={"PYTHONPATH": str(root)}).returncode == 9
    journal = path.with_name(path.name + "-journal")
    assert journal.stat().st_size > 0, "the death came before anything was on disk, and shows nothing"
    again = open_cabinet(path, create=False)
    assert again.facts.many(None) == before
    assert is_sound(again.file.connection)
    again.close()
