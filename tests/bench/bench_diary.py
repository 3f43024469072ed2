"""How long a move in a full diary takes: thirty open jobs, six people, a year of bookings (run by hand).

``python -m tests.bench.bench_diary`` moves a booking to and fro and prints the median in ms; the desk answers what the
move breaks and saves. At most 50 ms are wanted.
"""

import statistics
import sys
import tempfile
import time
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

from store.desk.clock import stopped_clock
from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from store.trade.bookings import BookingDraft

NOW = datetime(2026, 11, 25, 6, 30, tzinfo=UTC)
JOBS, BOOKINGS, MOVES = 30, 300, 20
WANTED_MS = 50


def fill(desk: Desk) -> None:
    """Take on jobs and book people until the diary is full."""
    for name in ("Ari", "Ode", "Wim"):
        desk.firm.add_person(name)
    model = desk.jobs.card("GQ-0143").facts
    while len(desk.jobs.today()) < JOBS:
        ref = desk.jobs.next_ref()
        desk.jobs.take_on(replace(model.job, ref=ref))
        desk.jobs.add_room(ref, model.rooms[0])
    refs = [card.ref for card in desk.jobs.today() if card.facts.rooms]
    people = [one.name for one in desk.firm.people()]
    for number in range(BOOKINGS):
        first = desk.today() + timedelta(days=number)
        draft = BookingDraft(person=people[number % len(people)], first=first, last=first + timedelta(days=2))
        desk.diary.book(refs[number % len(refs)], draft)


def main() -> int:
    """Measure, print, and say whether it is quick enough."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "full.layday"
        furnish(path, NOW)
        with open_desk(path, clock=stopped_clock(NOW), throw_away=True) as desk:
            fill(desk)
            booking, took = desk.diary.on_file()[-1], []
            for turn in range(MOVES):
                begun = time.perf_counter()
                booking = desk.diary.move(booking, 1 if turn % 2 else -1).bookings[0]
                took.append(1000 * (time.perf_counter() - begun))
    middle = statistics.median(took)
    print(f"{JOBS} jobs, {BOOKINGS} bookings: a move takes {middle:.0f} ms (at most {WANTED_MS} wanted)")
    return 0 if middle <= WANTED_MS else 1


if __name__ == "__main__":
    sys.exit(main())
