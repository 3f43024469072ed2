"""Seals every line that is never changed: each seal is over its line and the seal before, so that a changed byte shows.

A seal names the columns it is over, because a later step may add columns to a table whose lines are sealed already.
"""

import hashlib
import json
import sqlite3
from collections.abc import Iterator

SEALED = (
    "purchase",
    "purchase_line",
    "delivery",
    "movement",
    "difference",
    "reading",
    "smoothing",
    "morning_check",
    "voiding",
    "handover",
    "note",
    "lay_plan",
    "own_line",
    "confirmation",
    "confirmed_line",
    "credit",
    "taken_back",
)
"""The tables whose lines are sealed as they are filed; the history has a chain of its own."""


def seal_row(connection: sqlite3.Connection, table: str, row_id: int) -> None:
    """Put a seal over a line that has just been filed."""
    row = _row(connection, table, row_id)
    if row is None:
        raise sqlite3.DatabaseError(f"the line {row_id} of {table} is gone")
    before = connection.execute("SELECT seal FROM seal ORDER BY id DESC LIMIT 1").fetchone()
    columns = list(row)
    connection.execute(
        "INSERT INTO seal (of_table, row_id, columns, seal) VALUES (?, ?, ?, ?)",
        (table, row_id, json.dumps(columns), _seal_of(before[0] if before else "", table, row, columns)),
    )


def seal_all(connection: sqlite3.Connection) -> None:
    """Seal the lines of a file from before there were seals, table by table; a later step makes what is not there."""
    there = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()}
    for table in (one for one in SEALED if one in there):
        for (row_id,) in connection.execute(f"SELECT id FROM {table} ORDER BY id").fetchall():  # noqa: S608 - ours
            seal_row(connection, table, row_id)


def broken_seals(connection: sqlite3.Connection) -> Iterator[str]:
    """Yield each line that is not as it was filed, that is gone, or that was filed past the seals."""
    before = ""
    query = "SELECT of_table, row_id, columns, seal FROM seal ORDER BY id"
    for table, row_id, columns, seal in connection.execute(query).fetchall():
        row = _row(connection, table, row_id) if table in SEALED else None
        if row is None:
            yield f"line {row_id} of {table} is gone"
        elif _seal_of(before, table, row, _named_in(columns)) != seal:
            yield f"line {row_id} of {table} is not as it was filed, or a seal before it is missing"
        before = seal
    for table in SEALED:
        past = f"SELECT id FROM {table} WHERE id NOT IN (SELECT row_id FROM seal WHERE of_table = ?)"  # noqa: S608 - ours
        for (row_id,) in connection.execute(past, (table,)).fetchall():
            yield f"line {row_id} of {table} was filed past the seals"


def _named_in(columns: str) -> list[str]:
    """Return the columns that a seal names; none where it cannot be read, so that it fits no line."""
    try:
        found = json.loads(columns)
    except ValueError:
        return []
    return [str(name) for name in found] if isinstance(found, list) else []


def _row(connection: sqlite3.Connection, table: str, row_id: int) -> dict[str, object] | None:
    found = connection.execute(f"SELECT * FROM {table} WHERE id = ?", (row_id,))  # noqa: S608 - names from this file
    names = [column[0] for column in found.description]
    values = found.fetchone()
    return None if values is None else dict(zip(names, values, strict=True))


def _seal_of(before: str, table: str, row: dict[str, object], columns: list[str]) -> str:
    told = [before, table, *([name, row.get(name)] for name in columns)]
    return hashlib.sha256(json.dumps(told, ensure_ascii=True, default=repr).encode()).hexdigest()
