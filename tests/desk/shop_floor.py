"""A shop with work in every stage, its clock in the test's hand, and the means to see what a deed has changed."""

import json
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from pathlib import Path

from store.desk.copies import import_into
from store.desk.desk import Desk, open_desk
from tests.tui.somebodys_folder import (
    CAME,
    air,
    board,
    came,
    folder,
    glue,
    job,
    laid,
    order,
    room,
    straightedge,
    timber,
)

NOW = datetime(2026, 12, 1, 10, 0, tzinfo=UTC)  # Tue 1 Dec 2026 11:00 in Brussels
LAID = laid("2026-11-24T08:00:00+01:00", "2026-11-24T15:00:00+01:00")
ARRIVED = {"orders": [order()], "deliveries": [came()], "readings": [air(), straightedge(), timber()]}

STAIRS = {"name": "Hall stairs", "rise_mm": 2600, "width_mm": 860, "code": "ad-k-private", "going_mm": 225}
FRESH = job(
    "FRESH",
    rooms=[room(), room("Spare")],
    orders=[order(), order(2)],
    deliveries=[came(), came(2, into="unit")],
    flights=[STAIRS],
)
LAYING = job("LAYING", **ARRIVED, laid=[LAID | {"to": None}])
LAYING["laid"][0].pop("area_m2")
DONE = job("DONE", **ARRIVED, laid=[LAID])


class Hand:
    """A clock that shows what the test has set it to."""

    def __init__(self) -> None:
        self.shows = NOW

    def __call__(self) -> datetime:
        return self.shows


def furnished(path: Path) -> Path:
    """Make records that hold the three jobs."""
    given = folder(FRESH, LAYING, DONE, products=[board(), board("ASH-140"), glue()])
    import_into(path, json.dumps(given).encode(), clock=Hand(), who="Ode")
    return path


@contextmanager
def desk_at(path: Path, clock: Hand | None = None, who: str = "Wim") -> Iterator[Desk]:
    with open_desk(path, clock=clock or Hand(), who=who) as desk:
        yield desk


def dump(path: Path) -> list[str]:
    """Everything the file says, whatever its bytes."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return list(reader.iterdump())


def history(path: Path) -> list[tuple[str, str, str]]:
    """Who did what to which job, in the order of filing."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return reader.execute("SELECT who, deed, job_ref FROM history ORDER BY id").fetchall()


def marks(path: Path) -> dict[str, str | None]:
    """When each job is noted to have closed."""
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return dict(reader.execute("SELECT ref, closed_at FROM job").fetchall())


def in_order(desk: Desk) -> list[str]:
    """What the look over the records finds amiss."""
    return [one.say for one in desk.papers.look_over() if not one.good]


__all__ = ["ARRIVED", "CAME", "DONE", "FRESH", "LAID", "LAYING", "NOW", "Hand", "desk_at", "dump", "furnished"]
