"""Records made by the first release are opened by this one: nothing in them is altered, and no death is in the way.

``form_1.layday.gz`` was made by the first release's own code, with the made-up firm in it as it stood on
2026-11-25 07:30 (+01:00); ``form_1_export.json.gz`` are the job folders which that release wrote of it.
"""

import gzip
import os
import signal
import sqlite3
import subprocess
import sys
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest

from store.papers.folder import Folder, folder_of
from store.papers.writing_out import write_folder
from store.records.backup import prove_sound
from store.records.checking import findings
from store.records.opening import open_cabinet
from store.records.steps import STEPS, lay_plans
from tests.records.conftest import PLAN

HERE = Path(__file__).parent


@pytest.fixture
def old(tmp_path: Path) -> Path:
    """Return a file of the first release, as it lay on somebody's disk."""
    path = tmp_path / "gannet.layday"
    path.write_bytes(gzip.decompress((HERE / "form_1.layday.gz").read_bytes()))
    path.chmod(0o600)
    return path


def version(path: Path) -> int:
    with closing(sqlite3.connect(path)) as reader:
        return reader.execute("PRAGMA user_version").fetchone()[0]


def first_columns() -> dict[str, list[str]]:
    """The tables of the first release and their columns."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as memory:
        STEPS[0](memory)
        names = [name for (name,) in memory.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            name: [row[1] for row in memory.execute(f"PRAGMA table_info({name})")]
            for name in names
            if name != "sqlite_sequence"
        }


def rows(path: Path) -> dict[str, list[tuple[object, ...]]]:
    """Every row of every table of the first release, as far as that release wrote it."""
    with closing(sqlite3.connect(path)) as reader:
        return {
            name: reader.execute(f"SELECT {', '.join(columns)} FROM {name} ORDER BY rowid").fetchall()
            for name, columns in first_columns().items()
        }


def backups_of(path: Path) -> list[Path]:
    return [one for one in path.parent.iterdir() if "before" in one.name and one.suffix == ".layday"]


def test_every_row_of_the_first_release_is_kept_as_it_was(old: Path) -> None:
    before = rows(old)
    assert version(old) == 1
    assert len(before["job"]) > 5
    open_cabinet(old, create=False).close()
    assert version(old) == len(STEPS) > 1
    assert rows(old) == before


def test_the_facts_are_those_that_the_first_release_wrote_into_its_folders(old: Path) -> None:
    cabinet = open_cabinet(old, create=False)
    folder = Folder(
        firm=cabinet.firm.get(),
        people=cabinet.people.all(),
        products=tuple(sorted(cabinet.products.all(), key=lambda product: product.id)),
        jobs=tuple(folder_of(facts) for facts in cabinet.facts.many(None)),
    )
    cabinet.close()
    assert write_folder(folder) == gzip.decompress((HERE / "form_1_export.json.gz").read_bytes())


def test_all_is_in_order_after_the_step_and_a_plan_can_be_filed(old: Path) -> None:
    cabinet = open_cabinet(old, create=False)
    assert [say for _, good, say in findings(cabinet) if not good] == []
    facts = next(one for one in cabinet.facts.many(None) if one.rooms)
    plan = replace(PLAN, room=facts.rooms[0].name, board=facts.rooms[0].board)
    with cabinet.deed():
        filed = cabinet.events.add_plan(facts.job.id, plan)
    assert cabinet.facts.many((facts.job.ref,))[0].plans == (filed,)
    cabinet.close()


def test_a_proved_copy_of_the_file_of_before_lies_beside_it(old: Path) -> None:
    before = rows(old)
    open_cabinet(old, create=False).close()
    (backup,) = backups_of(old)
    assert f"form-1-before-{len(STEPS)}" in backup.name
    assert backup.stat().st_mode & 0o777 == 0o600
    prove_sound(backup)
    assert (version(backup), rows(backup)) == (1, before)


def test_the_second_opening_finds_nothing_to_do(old: Path) -> None:
    open_cabinet(old, create=False).close()
    stepped = old.read_bytes()
    open_cabinet(old, create=False).close()
    assert old.read_bytes() == stepped
    assert len(backups_of(old)) == 1


# Counts what SQLite is told from the step's first word on, and dies by its own hand at the one that is named.
DIES_AT_A_STATEMENT = """
import os, signal, sys
from pathlib import Path
from store.records import opening
from store.records.database import OpenFile
left = int(sys.argv[2])
def note(_statement):
    global left
    left -= 1
    if left < 0:
        os.kill(os.getpid(), signal.SIGKILL)
real = opening.step_up
def watched(connection, steps):
    connection.execute("PRAGMA cache_size = 1")
    connection.set_trace_callback(note)
    real(connection, steps)
    connection.set_trace_callback(None)
opening.step_up = watched
opening.open_cabinet(Path(sys.argv[1]), create=False).close()
"""


def died_at(path: Path, statement: int) -> bool:
    root = Path(__file__).parents[2]
    command = [sys.executable, "-c", DIES_AT_A_STATEMENT, str(path), str(statement)]
    done = subprocess.run(command, cwd=root, check=False, env=os.environ | {"PYTHONPATH": str(root)})
    assert done.returncode in {0, -signal.SIGKILL}
    return done.returncode != 0


# The first step up: a look, BEGIN, another look, its seven statements, two marks, COMMIT. The next begins with a look.
FIRST_COMMIT = 12


@pytest.mark.parametrize("statement", [0, 2, 3, 4, 7, 10, FIRST_COMMIT, FIRST_COMMIT + 1, 16, 20, 24])
def test_a_death_in_the_middle_of_the_steps_leaves_whole_steps_and_every_row(old: Path, statement: int) -> None:
    before = rows(old)
    assert died_at(old, statement)
    with closing(sqlite3.connect(old)) as reader:
        reader.execute("SELECT count(*) FROM job").fetchone()  # puts half a save right, if there is one
    assert version(old) == (1 if statement <= FIRST_COMMIT else 2)
    assert rows(old) == before
    assert [version(backup) for backup in backups_of(old)] == [1]
    cabinet = open_cabinet(old, create=False)
    assert [say for _, good, say in findings(cabinet) if not good] == []
    cabinet.close()
    assert (version(old), rows(old)) == (len(STEPS), before)


def test_nothing_dies_after_the_end_of_the_steps(old: Path) -> None:
    assert not died_at(old, 1_000)
    assert version(old) == len(STEPS)


def test_the_second_step_is_the_one_that_makes_the_table_of_lay_plans() -> None:
    assert STEPS[1] is lay_plans
