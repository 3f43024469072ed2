"""What happened is never changed in the file, whatever statement tries."""

import sqlite3

import pytest

from store.trade.jobs import Method, RoomDraft, Subfloor

NEVER_CHANGED = (
    "purchase",
    "purchase_line",
    "delivery",
    "movement",
    "reading",
    "smoothing",
    "handover",
    "note",
    "lay_plan",
    "morning_check",
    "voiding",
    "difference",
    "own_line",
    "confirmation",
    "confirmed_line",
    "credit",
    "taken_back",
    "seal",
    "history",
)
switches = pytest.mark.parametrize("recursive_triggers", ["ON", "OFF"])
tables = pytest.mark.parametrize("table", NEVER_CHANGED)


@pytest.fixture
def raw(full_shop) -> sqlite3.Connection:
    """Return a bare connection to a file where every table has rows."""
    with full_shop.cabinet.deed():
        note = full_shop.cabinet.facts.of_ref("L-0001").notes[0]
        full_shop.cabinet.events.take_back("note", note.id, at=full_shop.now, who="Wren", why="")
    return full_shop.cabinet.file.connection


def contents(raw: sqlite3.Connection, table: str) -> list[tuple[object, ...]]:
    return raw.execute(f"SELECT * FROM {table} ORDER BY id").fetchall()


def columns(raw: sqlite3.Connection, table: str) -> list[str]:
    return [row[1] for row in raw.execute(f"PRAGMA table_info({table})")]


@tables
@switches
def test_no_row_is_updated(raw: sqlite3.Connection, table: str, recursive_triggers: str) -> None:
    raw.execute(f"PRAGMA recursive_triggers = {recursive_triggers}")
    before = contents(raw, table)
    assert before
    for column in columns(raw, table):
        with pytest.raises(sqlite3.IntegrityError, match="never changed"):
            raw.execute(f"UPDATE {table} SET {column} = {column}")
    assert contents(raw, table) == before


@tables
@switches
def test_no_row_is_deleted(raw: sqlite3.Connection, table: str, recursive_triggers: str) -> None:
    raw.execute(f"PRAGMA recursive_triggers = {recursive_triggers}")
    before = contents(raw, table)
    with pytest.raises(sqlite3.IntegrityError, match="never changed"):
        raw.execute(f"DELETE FROM {table}")
    assert contents(raw, table) == before


@tables
@switches
@pytest.mark.parametrize("statement", ["INSERT OR REPLACE INTO", "REPLACE INTO", "INSERT OR IGNORE INTO"])
def test_no_row_is_replaced(raw: sqlite3.Connection, table: str, recursive_triggers: str, statement: str) -> None:
    raw.execute(f"PRAGMA recursive_triggers = {recursive_triggers}")
    before = contents(raw, table)
    with pytest.raises(sqlite3.IntegrityError, match="never changed"):
        raw.execute(f"{statement} {table} SELECT * FROM {table}")
    assert contents(raw, table) == before


@switches
def test_a_taking_back_is_not_replaced_by_its_kind_and_number(raw: sqlite3.Connection, recursive_triggers: str) -> None:
    raw.execute(f"PRAGMA recursive_triggers = {recursive_triggers}")
    before = contents(raw, "taken_back")
    with pytest.raises(sqlite3.IntegrityError, match="never changed"):
        raw.execute(
            "INSERT OR REPLACE INTO taken_back (kind, row_id, at, who, why) "
            "SELECT kind, row_id, at, 'somebody else', why FROM taken_back"
        )
    assert contents(raw, "taken_back") == before


@tables
def test_no_row_is_changed_by_an_upsert(raw: sqlite3.Connection, table: str) -> None:
    before = contents(raw, table)
    with pytest.raises(sqlite3.IntegrityError, match="never changed"):
        raw.execute(
            f"INSERT INTO {table} SELECT * FROM {table} WHERE true ON CONFLICT (id) DO UPDATE SET id = excluded.id"
        )
    assert contents(raw, table) == before


def test_a_line_of_a_delivery_cannot_go_where_the_delivery_did_not(raw: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="where the delivery went"):
        raw.execute(
            "INSERT INTO movement SELECT 99, job_id, cause, at, product_id, batch, packs, damaged_packs,"
            " boards, source, source_room_id, 'unit', NULL, delivery_id, use_by"
            " FROM movement WHERE cause = 'delivery'"
        )


def test_a_number_is_never_given_twice(shop) -> None:
    with shop.cabinet.deed():
        spare = shop.cabinet.rooms.add(shop.job.id, _room_called("Spare"))
        shop.cabinet.rooms.remove(spare.id, spare.rev)
        next_one = shop.cabinet.rooms.add(shop.job.id, _room_called("Next"))
    assert next_one.id > spare.id


def _room_called(name: str) -> RoomDraft:
    square = ((0, 0), (1000, 0), (1000, 1000), (0, 1000))
    return RoomDraft(name=name, outline=square, subfloor=Subfloor.OSB, method=Method.NAILED, board="OAK-190")
