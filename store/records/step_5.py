"""The fifth step: limits of one's own, heating, old floors, training, the morning list, and void readings.

The text of a step is never changed once it has been released; a later step can only add.
"""

_LIST = "GLOB '[[]*]'"
_MOMENT = "GLOB '????-??-??T??:??:??.??????Z'"


def _day(column: str) -> str:
    return f"{column} TEXT CHECK ({column} IS date({column}, '+0 days'))"


_COLUMNS = (
    (
        "firm",
        "tradition TEXT NOT NULL DEFAULT 'usual'"
        " CHECK (tradition IN ('usual', 'uk', 'german', 'french', 'north_american'))",
    ),
    ("firm", f"own_limits TEXT NOT NULL DEFAULT '[]' CHECK (own_limits {_LIST})"),
    ("firm", "tests_by_area INTEGER NOT NULL DEFAULT 0 CHECK (tests_by_area IN (0, 1))"),
    ("product", f"sheet_limits TEXT CHECK (sheet_limits {_LIST})"),
    ("product", "ready_when_stable INTEGER CHECK (ready_when_stable IN (0, 1))"),
    ("product", "needs_training INTEGER CHECK (needs_training IN (0, 1))"),
    ("movement", _day("use_by")),
    ("room", _day("heating_begun_on")),
    ("room", _day("heating_proved_on")),
    ("room", _day("heating_off_from")),
    (
        "room",
        "old_floor TEXT NOT NULL DEFAULT 'not_said'"
        " CHECK (old_floor IN ('not_said', 'none', 'old_covering', 'black_glue'))",
    ),
    (
        "room",
        "old_floor_sample TEXT NOT NULL DEFAULT 'not_taken'"
        " CHECK (old_floor_sample IN ('not_taken', 'clear', 'asbestos', 'removed'))",
    ),
)

_JOB = "job_id INTEGER NOT NULL REFERENCES job (id)"
_ROOM = "room_id INTEGER NOT NULL REFERENCES room (id)"
_TABLES = {
    "morning_check": f"""
    id INTEGER PRIMARY KEY AUTOINCREMENT, {_JOB}, {_ROOM}, at TEXT NOT NULL CHECK (at {_MOMENT}),
    who TEXT NOT NULL CHECK (length(who) <= 100000),
    temp_c REAL NOT NULL CHECK (temp_c BETWEEN -100 AND 1000),
    rh_percent REAL NOT NULL CHECK (rh_percent BETWEEN 0 AND 100),
    surface_c REAL NOT NULL CHECK (surface_c BETWEEN -100 AND 1000),
    mixed INTEGER NOT NULL CHECK (mixed IN (0, 1)), wedges INTEGER NOT NULL CHECK (wedges IN (0, 1)),
    extraction INTEGER NOT NULL CHECK (extraction IN (0, 1)),
    note TEXT NOT NULL CHECK (length(note) <= 100000)""",
    "voiding": f"""
    id INTEGER PRIMARY KEY AUTOINCREMENT, {_JOB}, {_ROOM}, at TEXT NOT NULL CHECK (at {_MOMENT}),
    cause TEXT NOT NULL CHECK (cause IN ('leak', 'wet_trade', 'heating_failed', 'new_compound')),
    note TEXT NOT NULL CHECK (length(note) <= 100000)""",
}


def _triggers_of(table: str) -> tuple[str, ...]:
    # The guard on INSERT holds INSERT OR REPLACE off even where recursive_triggers is switched off.
    stays = f"SELECT RAISE(ABORT, '{table} is never changed')"
    found = f"SELECT 1 FROM {table} WHERE id = NEW.id"  # noqa: S608 - names from this file
    return (
        f"CREATE TRIGGER {table}_not_updated BEFORE UPDATE ON {table} BEGIN {stays}; END",
        f"CREATE TRIGGER {table}_not_deleted BEFORE DELETE ON {table} BEGIN {stays}; END",
        f"CREATE TRIGGER {table}_not_replaced BEFORE INSERT ON {table} WHEN EXISTS ({found}) BEGIN {stays}; END",
    )


def statements() -> tuple[str, ...]:
    """Return the SQL of the fifth step, in the order it is run."""
    columns = tuple(f"ALTER TABLE {table} ADD COLUMN {column}" for table, column in _COLUMNS)
    tables = tuple(f"CREATE TABLE {name} ({text}) STRICT" for name, text in _TABLES.items())
    indexes = tuple(
        f"CREATE INDEX {name}_by_{column} ON {name} ({column})" for name in _TABLES for column in ("job_id", "room_id")
    )
    return (*columns, *tables, *indexes, *(one for name in _TABLES for one in _triggers_of(name)))
