"""Looks whether the file itself is in order: pages, references, tables, history, rights."""

import stat
from collections.abc import Iterator

from store.records.cabinet import Cabinet
from store.records.database import OpenFile
from store.records.schema import schema_after, schema_of
from store.records.steps import STEPS
from store.records.trouble import saying_no

Finding = tuple[str, bool, str]
"""What was looked at, whether it is good, and the sentence that says so."""

_MOST_LINES = 5


def findings(cabinet: Cabinet) -> tuple[Finding, ...]:
    """Return what a look through the whole file has found, good or not."""
    return tuple(_findings(cabinet))


def _findings(cabinet: Cabinet) -> Iterator[Finding]:
    file = cabinet.file
    faults = _lines(file, f"PRAGMA integrity_check({_MOST_LINES})")
    yield _found("file", faults if faults != ["ok"] else [], "Every page of the file is whole.")
    loose = _lines(file, "PRAGMA foreign_key_check")
    yield _found("references", loose, "Everything on file belongs to something on file.")
    same = schema_of(file.connection) == schema_after(STEPS)
    yield _found("tables", [] if same else ["they are not those of this release"], "The tables are as they should be.")
    line = cabinet.history.broken()
    broken = [] if line is None else [f"line {line} is not as it was written, or one before it is missing"]
    yield _found("history", broken, "No line of the history was changed since it was written.")
    rights = stat.S_IMODE(cabinet.path.stat().st_mode)
    open_to = (
        [f"others on this machine can read it; “chmod 600 {cabinet.path}” puts it right"] if rights & 0o077 else []
    )
    yield _found("rights", open_to, "Nobody else can read the file.")


def _lines(file: OpenFile, question: str) -> list[str]:
    with saying_no(file.path):
        rows = file.connection.execute(question).fetchmany(_MOST_LINES)
    return [", ".join(str(column) for column in row) for row in rows]


def _found(what: str, faults: list[str], good: str) -> Finding:
    return (what, False, f"The {what}: {'; '.join(faults)}.") if faults else (what, True, good)
