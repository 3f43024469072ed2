"""Looks whether the file itself is in order: pages, references, tables, history, rights."""

import stat
from collections.abc import Callable
from itertools import islice

from store.errors import StoreDamaged
from store.records.cabinet import Cabinet
from store.records.schema import schema_after, schema_of
from store.records.seals import broken_seals
from store.records.steps import STEPS
from store.records.trouble import saying_no

Finding = tuple[str, bool, str]
"""What was looked at, whether it is good, and the sentence that says so."""

_MOST_FAULTS = 5


def findings(cabinet: Cabinet) -> tuple[Finding, ...]:
    """Return what a look through the whole file has found, good or not; damage is told, not raised."""
    looks: tuple[tuple[str, str, Callable[[Cabinet], list[str]]], ...] = (
        ("file", "Every page of the file is whole.", _broken_pages),
        ("references", "Everything on file belongs to something on file.", _loose_references),
        ("tables", "The tables are as this release made them.", _other_tables),
        ("history", "No line of the history was changed since it was written.", _broken_history),
        ("seals", "No reading, delivery or other such line was changed since it was filed.", _broken_seals),
        ("rights", "Nobody else can read the file.", _loose_rights),
    )
    return tuple(_look(cabinet, what, good, look) for what, good, look in looks)


def _look(cabinet: Cabinet, what: str, good: str, look: Callable[[Cabinet], list[str]]) -> Finding:
    try:
        with saying_no(cabinet.path):
            faults = look(cabinet)
    except StoreDamaged as error:
        return what, False, str(error)
    return (what, False, f"The {what}: {'; '.join(faults)}.") if faults else (what, True, good)


def _broken_pages(cabinet: Cabinet) -> list[str]:
    faults = _lines(cabinet, f"PRAGMA integrity_check({_MOST_FAULTS})")
    return [] if faults == ["ok"] else faults


def _loose_references(cabinet: Cabinet) -> list[str]:
    return _lines(cabinet, "PRAGMA foreign_key_check")


def _other_tables(cabinet: Cabinet) -> list[str]:
    same = schema_of(cabinet.file.connection) == schema_after(STEPS)
    return [] if same else ["they are not as this release made them"]


def _broken_history(cabinet: Cabinet) -> list[str]:
    line = cabinet.history.broken()
    return [] if line is None else [f"line {line} is not as it was written, or one before it is missing"]


def _broken_seals(cabinet: Cabinet) -> list[str]:
    return list(islice(broken_seals(cabinet.file.connection), _MOST_FAULTS))


def _loose_rights(cabinet: Cabinet) -> list[str]:
    rights = stat.S_IMODE(cabinet.path.stat().st_mode)
    return [f"others can read it; “chmod 600 {cabinet.path}” puts it right"] if rights & 0o077 else []


def _lines(cabinet: Cabinet, question: str) -> list[str]:
    rows = cabinet.file.connection.execute(question).fetchmany(_MOST_FAULTS)
    return [", ".join(str(column) for column in row) for row in rows]
