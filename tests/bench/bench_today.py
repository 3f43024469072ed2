"""Measures whether past jobs cost anything today: thirty open jobs alone, and the same beside 2,000 closed ones.

Run from the project's folder:

    python -m tests.bench.bench_today
    python -m tests.bench.bench_today --closed 10000

Measured, the quickest of several runs each: what the desk needs for the day's list, the whole of ``layday today`` in a
process of its own, and the window from nothing to its first picture of the list. Exit status: 0 if no ratio is above
1.5, 1 otherwise.
"""

import argparse
import asyncio
import json
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from store.desk.copies import import_into
from store.desk.desk import open_desk
from tests.desk.shop_floor import ARRIVED, LAID, Hand
from tests.tui.somebodys_folder import Json, count, folder, job

MOST = 1.5
OPEN = 30
BATCH = 250
COMMAND = "import sys; from tui.cli import main; sys.exit(main())"


def open_job(number: int) -> Json:
    """A job in one of three stages."""
    events = ({}, {"orders": ARRIVED["orders"]}, ARRIVED)[number % 3]
    return job(f"OPEN-{number}", **events)


def closed_job(number: int) -> Json:
    """A job laid, signed and counted."""
    signed = {"signed_at": "2026-11-28T09:00:00+01:00", "by": "K. Harbour"}
    counts = [count("2026-11-28T09:00:00+01:00")]
    return job(f"PAST-{number}", **ARRIVED, laid=[LAID], counts=counts, handover=signed)


def fill(path: Path, jobs: list[Json]) -> None:
    """Move jobs in, some at a time."""
    for first in range(0, len(jobs), BATCH):
        raw = json.dumps(folder(*jobs[first : first + BATCH])).encode()
        import_into(path, raw, clock=Hand(), who="bench")


def quickest(measured: Callable[[], None], times: int) -> float:
    """Return the least time of several runs, in milliseconds; what comes on top is other programs'."""

    def once() -> float:
        begun = time.perf_counter()
        measured()
        return 1000 * (time.perf_counter() - begun)

    measured()
    return min(once() for _ in range(times))


def at_the_desk(path: Path) -> float:
    with open_desk(path, clock=Hand()) as desk:
        assert len(desk.jobs.today()) == OPEN
        return quickest(lambda: str(len(desk.jobs.today())), 15)


def at_the_command_line(path: Path) -> float:
    def ask() -> None:
        asked = [sys.executable, "-c", COMMAND, "--file", str(path), "today", "--at", "2026-12-01T11:00:00+01:00"]
        subprocess.run(asked, check=True, stdout=subprocess.DEVNULL)

    return quickest(ask, 7)


def in_the_window(path: Path) -> float:
    from tui.app import LaydayApp  # noqa: PLC0415 - the other measures are not to pay for the screens

    async def until_the_first_picture() -> None:
        with open_desk(path, clock=Hand()) as desk:
            async with LaydayApp(desk, crash_folder=path.parent).run_test(size=(120, 36)) as pilot:
                await pilot.pause()

    return quickest(lambda: asyncio.run(until_the_first_picture()), 5)


MEASURES = {
    "desk.jobs.today()": at_the_desk,
    "layday today": at_the_command_line,
    "the Today screen": in_the_window,
}


def main() -> int:
    """Measure, print the table, say whether it is good."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--closed", type=int, default=2000)
    closed = asked.parse_args().closed
    with tempfile.TemporaryDirectory() as place:
        alone, beside = Path(place) / "alone.layday", Path(place) / "beside.layday"
        fill(alone, [open_job(number) for number in range(OPEN)])
        jobs = [closed_job(number) for number in range(closed)] + [open_job(number) for number in range(OPEN)]
        fill(beside, jobs)
        sys.stdout.write(f"{'ms':20}{f'{OPEN} open':>12}{f'+ {closed} past':>14}{'ratio':>8}\n")
        good = True
        for what, measure in MEASURES.items():
            one, other = measure(alone), measure(beside)
            good = good and other <= MOST * one
            sys.stdout.write(f"{what:20}{one:12.1f}{other:14.1f}{other / one:8.2f}\n")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
