"""What tables a sound file has, told by running the steps on an empty one."""

import sqlite3
from contextlib import closing

from store.records.steps import APPLICATION_ID, Step, step_up, version_of

_TEXT = "SELECT type, name, tbl_name, sql FROM sqlite_master WHERE name NOT GLOB 'sqlite_*' ORDER BY name"


def schema_of(connection: sqlite3.Connection) -> tuple[tuple[str, str, str, str], ...]:
    """Return every table, index and trigger of a file with the text that made it, by name."""
    return tuple(connection.execute(_TEXT).fetchall())


def schema_after(steps: tuple[Step, ...]) -> tuple[tuple[str, str, str, str], ...]:
    """Return what a file looks like that has been through these steps."""
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as empty:
        step_up(empty, steps)
        return schema_of(empty)


def is_ours(connection: sqlite3.Connection) -> bool:
    """Whether a file carries our mark and has been through at least one step."""
    mark: int = connection.execute("PRAGMA application_id").fetchone()[0]
    return mark == APPLICATION_ID and version_of(connection) >= 1
