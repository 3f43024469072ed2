"""The tables are those the models name, the settings are in force, and an upgrade is safe."""

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from store.errors import DiskFull, MadeByNewer, StoreDamaged, StoreError
from store.records import event_tables, lesson_tables, tables
from store.records.checking import findings
from store.records.opening import open_cabinet
from store.records.rows import Row
from store.records.steps import APPLICATION_ID, STEPS

MODELS = sorted(
    {
        model
        for module in (tables, event_tables, lesson_tables)
        for model in vars(module).values()
        if isinstance(model, type) and issubclass(model, Row) and model.__name__ not in {"Row", "RowOfJob"}
    },
    key=lambda model: model.__name__,
)
# What SQLite answers for each setting; the numbers stand in its documentation of PRAGMA.
IN_FORCE = {
    "synchronous": 3,
    "journal_mode": "truncate",
    "foreign_keys": 1,
    "recursive_triggers": 1,
    "trusted_schema": 0,
    "cell_size_check": 1,
    "secure_delete": 1,
    "busy_timeout": 900,
}


@pytest.mark.parametrize("model", MODELS, ids=lambda model: model.__name__)
def test_models_and_tables_have_the_same_columns_of_the_same_kinds(cabinet, model: type[Row]) -> None:
    name = model._meta.table_name
    told = cabinet.file.connection.execute(f"PRAGMA table_info({name})").fetchall()
    columns = {column: (kind, bool(required or key)) for _, column, kind, required, _, key in told}
    kinds = {"AUTO": "INTEGER"}
    fields = {
        field.column_name: (kinds.get(field.field_type, field.field_type), not field.null)
        for field in model._meta.sorted_fields
    }
    assert fields == columns


def test_every_table_has_a_model_and_is_strict(cabinet) -> None:
    told = cabinet.file.connection.execute("PRAGMA table_list").fetchall()
    strict = {name: bool(is_strict) for _, name, _, _, _, is_strict in told if not name.startswith("sqlite_")}
    assert strict == {model._meta.table_name: True for model in MODELS}


def test_every_reference_has_an_index_to_be_followed_back_by(cabinet) -> None:
    connection = cabinet.file.connection
    for model in MODELS:
        table = model._meta.table_name
        indexes = [row[1] for row in connection.execute(f"PRAGMA index_list({table})")]
        led_by = {connection.execute(f"PRAGMA index_info({index})").fetchone()[2] for index in indexes}
        references = {row[3] for row in connection.execute(f"PRAGMA foreign_key_list({table})")}
        assert references <= led_by, table


@pytest.mark.parametrize(("setting", "value"), IN_FORCE.items())
def test_the_settings_that_keep_a_save_safe_are_in_force(cabinet, setting: str, value: object) -> None:
    assert cabinet.file.connection.execute(f"PRAGMA {setting}").fetchone()[0] == value


def test_the_file_carries_our_mark_where_sqlite_says_it_lies(full_shop) -> None:
    # SQLite file format: user_version at byte 60, application_id at byte 68, version numbers 1 at 18 and 19
    # for a file without a write-ahead log.
    full_shop.cabinet.close()
    head = full_shop.path.read_bytes()[:100]
    assert int.from_bytes(head[60:64], "big") == len(STEPS)
    assert int.from_bytes(head[68:72], "big") == APPLICATION_ID == int.from_bytes(b"Layd", "big")
    assert (head[18], head[19]) == (1, 1)


def test_what_is_deleted_is_wiped_from_the_file(shop) -> None:
    with shop.cabinet.deed():
        person = shop.cabinet.people.all()[0]
        shop.cabinet.people.remove(person.id)
    assert [one.name for one in shop.cabinet.people.all()] == ["Tern"]
    shop.cabinet.close()
    assert b"Tern" in shop.path.read_bytes()
    assert b"Wren" not in shop.path.read_bytes()


def test_a_good_file_passes_every_look(full_shop) -> None:
    assert {what: good for what, good, _ in findings(full_shop.cabinet)} == {
        "file": True,
        "references": True,
        "tables": True,
        "history": True,
        "seals": True,
        "rights": True,
    }


def test_a_file_others_can_read_is_told(full_shop) -> None:
    full_shop.path.chmod(0o644)
    assert [(what, "chmod 600" in say) for what, good, say in findings(full_shop.cabinet) if not good] == [
        ("rights", True)
    ]


def test_a_loose_reference_is_told(full_shop) -> None:
    raw = full_shop.cabinet.file.connection
    raw.execute("PRAGMA foreign_keys = OFF")
    raw.execute("UPDATE site SET customer_id = 99")
    assert [what for what, good, _ in findings(full_shop.cabinet) if not good] == ["references"]


def _add_a_colour(connection: sqlite3.Connection) -> None:
    connection.execute("ALTER TABLE room ADD COLUMN colour TEXT NOT NULL DEFAULT ''")


def _add_a_bell(connection: sqlite3.Connection) -> None:
    connection.execute("ALTER TABLE site ADD COLUMN bell TEXT")


def _fail_half_way(connection: sqlite3.Connection) -> None:
    _add_a_colour(connection)
    raise sqlite3.OperationalError("the lights went out")


def logical(path: Path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def test_an_upgrade_is_preceded_by_a_proved_backup_beside_the_file(full_shop) -> None:
    path, before = full_shop.path, full_shop.cabinet.facts.many(None)
    full_shop.cabinet.close()
    old = logical(path)
    upgraded = open_cabinet(path, create=False, steps=(*STEPS, _add_a_colour, _add_a_bell))
    assert upgraded.facts.many(None) == before
    assert upgraded.file.connection.execute("PRAGMA user_version").fetchone()[0] == len(STEPS) + 2
    upgraded.close()
    (backup,) = (one for one in path.parent.iterdir() if "before" in one.name)
    assert backup.name.startswith("gannet-20")
    assert f"form-{len(STEPS)}-before-{len(STEPS) + 2}" in backup.name
    assert backup.stat().st_mode & 0o777 == 0o600
    assert logical(backup) == old
    with pytest.raises(MadeByNewer):
        open_cabinet(path, create=False)


def test_an_upgrade_that_fails_leaves_the_file_of_before(full_shop) -> None:
    path = full_shop.path
    full_shop.cabinet.close()
    old = logical(path)
    with pytest.raises(StoreError):
        open_cabinet(path, create=False, steps=(*STEPS, _fail_half_way))
    assert logical(path) == old
    open_cabinet(path, create=False).close()


def test_an_upgrade_does_not_begin_without_its_backup(full_shop, monkeypatch) -> None:
    path = full_shop.path
    full_shop.cabinet.close()
    old = logical(path)

    def no_room(*_: object) -> None:
        raise DiskFull("There is no room left.")

    monkeypatch.setattr("store.records.opening.copy_into_place", no_room)
    with pytest.raises(DiskFull):
        open_cabinet(path, create=False, steps=(*STEPS, _add_a_colour))
    assert logical(path) == old


def test_an_upgrade_of_a_damaged_file_does_not_begin(full_shop) -> None:
    path = full_shop.path
    full_shop.cabinet.close()
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("UPDATE site SET customer_id = 99")
    old = logical(path)
    with pytest.raises(StoreDamaged):
        open_cabinet(path, create=False, steps=(*STEPS, _add_a_colour))
    assert logical(path) == old
