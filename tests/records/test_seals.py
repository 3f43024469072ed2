"""Every line that is never changed carries a seal: a changed byte, or a line that is gone, shows."""

import gzip
import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from store.records.opening import open_cabinet
from store.records.seals import SEALED, broken_seals
from tests.records.test_append_only import NEVER_CHANGED, columns

HERE = Path(__file__).parent


def unguarded(path: Path) -> sqlite3.Connection:
    """Open a file as somebody does who wants to change what was measured."""
    connection = sqlite3.connect(path, isolation_level=None)
    for table in (*SEALED, "seal"):
        for event in ("updated", "deleted", "replaced"):
            connection.execute(f"DROP TRIGGER {table}_not_{event}")
    connection.execute("PRAGMA ignore_check_constraints = ON")
    connection.execute("PRAGMA foreign_keys = OFF")
    return connection


def faults(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as raw:
        return list(broken_seals(raw))


@pytest.fixture
def closed(full_shop) -> Path:
    """Return the path of a file where every sealed table has rows, and that nobody has open."""
    with full_shop.cabinet.deed():
        note = full_shop.cabinet.facts.of_ref("L-0001").notes[0]
        full_shop.cabinet.events.take_back("note", note.id, at=full_shop.now, who="Wren", why="twice")
    full_shop.cabinet.close()
    assert faults(full_shop.path) == []
    return full_shop.path


def test_every_table_that_is_never_changed_is_sealed_or_has_a_chain_of_its_own() -> None:
    assert set(SEALED) == set(NEVER_CHANGED) - {"history", "seal"}


@pytest.mark.parametrize("table", SEALED)
def test_a_changed_figure_in_any_column_is_found(closed: Path, table: str) -> None:
    whole = closed.read_bytes()
    with closing(sqlite3.connect(closed)) as raw:
        names = [name for name in columns(raw, table) if name != "id"]
        row_id = raw.execute(f"SELECT max(id) FROM {table}").fetchone()[0]
    assert names
    for name in names:
        closed.write_bytes(whole)
        with closing(unguarded(closed)) as raw:
            kind = raw.execute(f"SELECT type FROM pragma_table_info('{table}') WHERE name = ?", (name,)).fetchone()[0]
            changed = f"coalesce({name}, 0) + 1" if kind in {"INTEGER", "REAL"} else f"coalesce({name}, '') || ' '"
            raw.execute(f"UPDATE {table} SET {name} = {changed} WHERE id = ?", (row_id,))
        assert faults(closed)[0] == f"line {row_id} of {table} is not as it was filed, or a seal before it is missing"


@pytest.mark.parametrize("table", SEALED)
def test_a_line_that_is_gone_is_found_and_so_is_one_put_in_past_the_seals(closed: Path, table: str) -> None:
    with closing(unguarded(closed)) as raw:
        row_id = raw.execute(f"SELECT min(id) FROM {table}").fetchone()[0]
        raw.execute(f"UPDATE {table} SET id = 999 WHERE id = ?", (row_id,))
    assert faults(closed) == [f"line {row_id} of {table} is gone", f"line 999 of {table} was filed past the seals"]


def test_a_seal_taken_out_of_the_chain_or_made_anew_is_found(closed: Path) -> None:
    whole = closed.read_bytes()
    with closing(sqlite3.connect(closed)) as raw:
        last = raw.execute("SELECT max(id) FROM seal").fetchone()[0]
    chance = random.Random(9)
    for place in sorted({1, 2, last - 1, *(chance.randrange(1, last) for _ in range(5))}):
        closed.write_bytes(whole)
        with closing(unguarded(closed)) as raw:
            raw.execute("DELETE FROM seal WHERE id = ?", (place,))
        assert len(faults(closed)) == 2  # the next seal does not fit, and one line has none
        closed.write_bytes(whole)
        with closing(unguarded(closed)) as raw:
            raw.execute("UPDATE seal SET seal = ? WHERE id = ?", ("0" * 64, place))
        assert faults(closed)


def test_records_of_the_first_release_are_sealed_as_they_are_brought_up_to_date(tmp_path: Path) -> None:
    path = tmp_path / "gannet.layday"
    path.write_bytes(gzip.decompress((HERE / "form_1.layday.gz").read_bytes()))
    path.chmod(0o600)
    open_cabinet(path, create=False).close()
    assert faults(path) == []
    with closing(unguarded(path)) as raw:
        raw.execute("UPDATE reading SET rh_percent = rh_percent - 1 WHERE rh_percent IS NOT NULL")
    assert "of reading is not as it was filed" in faults(path)[0]
