"""Measures how soon the report on what closed jobs taught is there: 2,000 closed jobs with 60,000 movements of packs.

Run from the project's folder:

    python -m tests.bench.bench_taught
    python -m tests.bench.bench_taught --closed 200

Measured, the quickest of several runs each: the report at the desk, a hint for a room, the whole of ``layday taught``
in a process of its own, and the view from the key ``t`` to its picture; once, the filling of all lessons as records of
the release before are opened. Exit status: 0 if the report at the desk took no longer than 200 ms, 1 otherwise.
"""

import argparse
import asyncio
import sqlite3
import subprocess
import sys
import tempfile
import time
from contextlib import closing
from pathlib import Path

from store.desk.desk import open_desk
from store.trade.jobs import Method, RoomDraft, Subfloor
from store.trade.outline import rectangle
from tests.bench.bench_today import COMMAND, fill, quickest
from tests.desk.shop_floor import ARRIVED, LAID, Hand
from tests.tui.somebodys_folder import Json, came, count, job, order, room

MOST_MS = 200.0
DELIVERIES, CARRIED, OPENED = 4, 12, 11
SIGNED = {"signed_at": "2026-11-28T09:00:00+01:00", "by": "K. Harbour"}
WANTED = RoomDraft(
    name="Parlour", outline=rectangle(4000, 3000), subfloor=Subfloor.OSB, method=Method.GLUED, board="OAK-190"
)


def closed_job(number: int) -> Json:
    """A job with thirty movements: packs come, are carried out and in again, opened, and counted."""
    where = room()["name"]
    pack = {"product": "OAK-190", "batch": "K41", "packs": 1}
    moved = [
        {"at": f"2026-11-18T{8 + step % 9:02}:{step:02}:00+01:00", **pack, "from": ends[0], "to": ends[1]}
        for step in range(CARRIED)
        for ends in [(where, "unit") if step % 2 == 0 else ("unit", where)]
    ]
    opened = [
        {"at": f"2026-11-24T{8 + step % 7:02}:{step:02}:00+01:00", **pack, "room": where} for step in range(OPENED)
    ]
    left = [count("2026-11-28T09:00:00+01:00", packs=1, boards=number % 5)]
    left += [count("2026-11-28T09:00:00+01:00", packs=0, boards=1, to="scrap")] * 2
    return job(
        f"PAST-{number:04}",
        rooms=[room(cut_loss_percent=5 + number % 8)],
        orders=[order()],
        deliveries=[came(3) for _ in range(DELIVERIES)],
        readings=ARRIVED["readings"],
        moves=moved,
        openings=opened,
        laid=[LAID | {"tubs": 2}],
        counts=left,
        handover=SIGNED,
    )


def at_the_desk(path: Path) -> float:
    with open_desk(path, clock=Hand()) as desk:
        return quickest(lambda: str(desk.taught.report().floors), 15)


def a_hint(path: Path) -> float:
    with open_desk(path, clock=Hand()) as desk:
        return quickest(lambda: str(desk.taught.hinter()(WANTED)), 15)


def at_the_command_line(path: Path) -> float:
    def ask() -> None:
        asked = [sys.executable, "-c", COMMAND, "--file", str(path), "taught", "--at", "2026-12-01T11:00:00+01:00"]
        subprocess.run(asked, check=True, stdout=subprocess.DEVNULL)

    return quickest(ask, 5)


def in_the_window(path: Path) -> float:
    from tui.app import LaydayApp  # noqa: PLC0415 - the other measures are not to pay for the screens

    async def until_the_picture() -> float:
        with open_desk(path, clock=Hand()) as desk:
            async with LaydayApp(desk, crash_folder=path.parent).run_test(size=(120, 36)) as pilot:
                await pilot.press("2")
                await pilot.pause()
                begun = time.perf_counter()
                await pilot.press("t")
                await pilot.pause()
                return 1000 * (time.perf_counter() - begun)

    return min(asyncio.run(until_the_picture()) for _ in range(3))


def filled_up(path: Path) -> float:
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("DELETE FROM floor_lesson")
        raw.execute("DELETE FROM glue_lesson")
    begun = time.perf_counter()
    with open_desk(path, clock=Hand()):
        return 1000 * (time.perf_counter() - begun)


MEASURES = {
    "the report at the desk": at_the_desk,
    "a hint for a room": a_hint,
    "layday taught": at_the_command_line,
    "t in the Jobs view": in_the_window,
    "all lessons filled, once": filled_up,
}


def movements(path: Path) -> tuple[int, int]:
    """How many movements of packs and how many lessons are on file."""
    with closing(sqlite3.connect(path)) as raw:
        told = ("SELECT count(*) FROM movement", "SELECT count(*) FROM floor_lesson")
        moved, lessons = (raw.execute(asked).fetchone()[0] for asked in told)
        return moved, lessons


def main() -> int:
    """Measure, print the table, say whether it is good."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--closed", type=int, default=2000)
    closed = asked.parse_args().closed
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "past.layday"
        fill(path, [closed_job(number) for number in range(closed)])
        moved, lessons = movements(path)
        sys.stdout.write(f"{lessons:,} floors of closed jobs, {moved:,} movements; ms\n")
        told = {what: measure(path) for what, measure in MEASURES.items()}
    for what, milliseconds in told.items():
        sys.stdout.write(f"{what:26}{milliseconds:10.1f}\n")
    return 0 if told["the report at the desk"] <= MOST_MS else 1


if __name__ == "__main__":
    sys.exit(main())
