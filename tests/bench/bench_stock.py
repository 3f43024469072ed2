"""Measures what ten years of packs cost in the stock: 2,000 closed jobs of 30 movements each, and thirty open ones.

Run from the project's folder:

    python -m tests.bench.bench_stock
    python -m tests.bench.bench_stock --closed 500

Measured, the quickest of several runs each: what lies where, the credits still to come, and the Stock screen from the
key press to its picture. Exit status: 0 if no answer of the desk takes longer than 200 ms, 1 otherwise; the
screen's time is mostly Textual's, as for every view that is shown for the first time.
"""

import argparse
import asyncio
import sys
import tempfile
import time
from pathlib import Path

from store.desk.desk import open_desk
from tests.bench.bench_today import OPEN, fill, open_job, quickest
from tests.desk.shop_floor import LAID, Hand
from tests.tui.somebodys_folder import ROOM, Json, air, came, count, job, order, straightedge, timber

MOST_MS = 200
OPENINGS = 24
BATCHES = 40


def closed_job(number: int) -> Json:
    """A job laid pack by pack, signed and counted: 30 movements, one pack back to the yard in every twentieth."""
    batch = f"B{number % BATCHES}"
    at = "2026-11-24T08:00:00+01:00"
    counted = "2026-11-28T09:00:00+01:00"
    back = "return" if number % 20 == 0 else "unit"
    delivery = came(OPENINGS + 8)
    delivery["lines"][0]["batch"] = batch
    extra = [{"product": "MS-15", "batch": f"G{number % 9}", "packs": 1} for _ in range(3)]
    delivery["lines"] += extra
    opened = {"room": ROOM, "product": "OAK-190", "batch": batch, "packs": 1, "at": at}
    counts = [count(counted) | {"batch": batch, "packs": 1, "boards": 0, "to": to} for to in ("customer", back)]
    return job(
        f"PAST-{number}",
        orders=[order(OPENINGS + 8)],
        deliveries=[delivery],
        readings=[air(), straightedge(), timber()],
        openings=[opened for _ in range(OPENINGS)],
        laid=[LAID],
        counts=counts,
        credits=[{"at": counted, "product": "OAK-190", "amount_minor": 18_240}]
        if back == "return" and number < 1900
        else [],
        handover={"signed_at": counted, "by": "K. Harbour"},
    )


def what_lies_where(path: Path) -> float:
    """What the Stock screen asks when it opens: without the spares that closed jobs left with their customers."""
    with open_desk(path, clock=Hand()) as desk:
        return quickest(lambda: str(len(desk.packs.stock(spares=False))), 7)


def with_old_spares(path: Path) -> float:
    with open_desk(path, clock=Hand()) as desk:
        return quickest(lambda: str(len(desk.packs.stock())), 7)


def credits_due(path: Path) -> float:
    with open_desk(path, clock=Hand()) as desk:
        return quickest(lambda: str(len(desk.orders.credits_due())), 7)


def the_screen(path: Path) -> float:
    """The Stock screen, from the key press to its picture."""
    from tui.app import LaydayApp  # noqa: PLC0415 - the other measures are not to pay for the screens

    async def press() -> float:
        with open_desk(path, clock=Hand()) as desk:
            async with LaydayApp(desk, crash_folder=path.parent).run_test(size=(120, 36)) as pilot:
                await pilot.pause()
                begun = time.perf_counter()
                await pilot.press("3")
                await pilot.pause()
                return 1000 * (time.perf_counter() - begun)

    return min(asyncio.run(press()) for _ in range(3))


MEASURES = {
    "what lies where": what_lies_where,
    "with old spares": with_old_spares,
    "credits to come": credits_due,
    "the Stock screen": the_screen,
}


def main() -> int:
    """Measure, print the table, say whether it is good."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--closed", type=int, default=2000)
    closed = asked.parse_args().closed
    with tempfile.TemporaryDirectory() as place:
        path = Path(place) / "stock.layday"
        fill(path, [closed_job(number) for number in range(closed)] + [open_job(number) for number in range(OPEN)])
        with open_desk(path, clock=Hand()) as desk:
            sys.stdout.write(f"{closed} closed jobs, {len(desk.packs.stock()):,} lines of stock\n")
        good = True
        for what, measure in MEASURES.items():
            took = measure(path)
            good = good and (took <= MOST_MS or measure is the_screen)
            sys.stdout.write(f"{what:20}{took:8.0f} ms\n")
    return 0 if good else 1


if __name__ == "__main__":
    sys.exit(main())
