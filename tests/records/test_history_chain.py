"""A changed, missing or inserted line of history shows."""

import random
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from store.records.checking import findings
from store.records.opening import open_cabinet
from store.trade.history import seal_of

COLUMNS = ("at", "who", "deed", "job_ref", "subject", "before", "after", "seal")


def unguarded(path: Path) -> sqlite3.Connection:
    """Open a file as somebody does who wants to change the past."""
    connection = sqlite3.connect(path, isolation_level=None)
    for event in ("updated", "deleted", "replaced"):
        connection.execute(f"DROP TRIGGER history_not_{event}")
    return connection


def broken_in(path: Path) -> int | None:
    cabinet = open_cabinet(path, create=False)
    try:
        return cabinet.history.broken()
    finally:
        cabinet.close()


@pytest.fixture
def closed(full_shop) -> Path:
    """Return the path of a file with twenty lines of history that nobody has open."""
    assert full_shop.cabinet.history.broken() is None
    full_shop.cabinet.close()
    return full_shop.path


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("line", [1, 7, 20])
def test_one_flipped_byte_in_any_column_of_any_line_is_found(closed: Path, column: str, line: int) -> None:
    chance = random.Random(f"{column}{line}")
    with closing(unguarded(closed)) as raw:
        query = f"SELECT CAST({column} AS BLOB) FROM history WHERE id = ?"
        letters = bytearray(raw.execute(query, (line,)).fetchone()[0] or b"x")
        letters[chance.randrange(len(letters))] ^= 1 << chance.randrange(8)
        change = f"UPDATE history SET {column} = CAST(? AS TEXT) WHERE id = ?"
        raw.execute("PRAGMA ignore_check_constraints = ON")
        raw.execute(change, (bytes(letters), line))
    assert broken_in(closed) == line


def test_one_byte_flipped_in_the_file_under_a_line_is_found(closed: Path) -> None:
    whole = closed.read_bytes()
    where = whole.index(b'line 7{"packs":12}')
    for offset in range(len(b'line 7{"packs":12}')):
        for bit in (0, 7):
            flipped = bytearray(whole)
            flipped[where + offset] ^= 1 << bit
            closed.write_bytes(flipped)
            assert broken_in(closed) == 8, (offset, bit)


def test_a_line_left_out_is_found(closed: Path) -> None:
    with closing(unguarded(closed)) as raw:
        raw.execute("DELETE FROM history WHERE id = 7")
    assert broken_in(closed) == 8


def test_a_line_put_in_is_found(closed: Path) -> None:
    with closing(unguarded(closed)) as raw:
        raw.execute("UPDATE history SET id = 21 WHERE id = 20")
        columns = "at, who, deed, job_ref, subject, before, after, seal"
        raw.execute(f"INSERT INTO history SELECT 20, {columns} FROM history LIMIT 1")
    assert broken_in(closed) == 20


def test_two_lines_changed_over_are_found(closed: Path) -> None:
    with closing(unguarded(closed)) as raw:
        raw.execute("UPDATE history SET id = CASE id WHEN 3 THEN -4 ELSE -3 END WHERE id IN (3, 4)")
        raw.execute("UPDATE history SET id = -id WHERE id < 0")
    assert broken_in(closed) == 3


def test_a_broken_line_is_told_by_the_check(closed: Path) -> None:
    with closing(unguarded(closed)) as raw:
        raw.execute("UPDATE history SET who = 'somebody else' WHERE id = 5")
    cabinet = open_cabinet(closed, create=False)
    bad = {what: say for what, good, say in findings(cabinet) if not good}
    cabinet.close()
    assert set(bad) == {"history", "tables"}
    assert "line 5" in bad["history"]


def test_each_seal_is_over_the_line_and_the_seal_before(full_shop) -> None:
    lines = full_shop.cabinet.history.latest(3)
    newest, before, _ = lines
    assert [line.subject for line in lines] == ["line 19", "line 18", "line 17"]
    assert newest.seal == seal_of(newest, "2026-11-25T06:30:00.000000Z", before.seal)


def test_history_is_told_by_job_the_newest_first_and_no_more_than_asked_for(full_shop) -> None:
    history = full_shop.cabinet.history
    assert [line.subject for line in history.of_job("L-0001", limit=2)] == ["line 19", "line 18"]
    assert history.of_job("L-0002") == ()
    assert len(history.latest()) == 20


def test_history_does_not_stay_behind_a_deed_that_failed(full_shop) -> None:
    with pytest.raises(ZeroDivisionError), full_shop.cabinet.deed():
        full_shop.write_history(str(1 / 0))
    assert full_shop.cabinet.history.latest(1)[0].subject == "line 19"
    with full_shop.cabinet.deed():
        full_shop.write_history("line 20")
    assert full_shop.cabinet.history.broken() is None
