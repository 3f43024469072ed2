"""Measures the proposed plans: how long they take, and how many days late they save over first come, first served.

Run from the project's folder:

    python -m tests.bench.bench_plan
    python -m tests.bench.bench_plan --months 30

Measured on one core: thirty open jobs of one to three floors and six fitters planned over a year, a single move
answered, and months in which more is promised than first come, first served can keep. Exit status: 0 if the plan
takes up to 2 s, a move up to 50 ms, no month is worse than first come, first served and all together are 20 % less
late; 1 otherwise.
"""

import argparse
import random
import sys
import time
from datetime import UTC, date, datetime, timedelta

from store.trade.firm import FirmDraft
from store.trade.planning.nouns import Fitter, Floor
from store.trade.planning.propose import first_come_first_served, propose

FIRM = FirmDraft(name="Gannet Quay Floors", holidays=(date(2027, 1, 1),))
NOW = datetime(2027, 1, 4, 6, tzinfo=UTC)
NAMES = ("Maren", "Ilse", "Tove", "Anders", "Piet", "Oona")


def people(count: int, chance: random.Random) -> list[Fitter]:
    """Fitters of whom every second can lay patterns, with some days off."""
    return [
        Fitter(
            name=NAMES[number],
            skills=frozenset({"pattern"} if number % 2 == 0 else ()),
            off=frozenset(date(2027, 1, 4) + timedelta(days=chance.randrange(60)) for _ in range(4)),
        )
        for number in range(count)
    ]


def jobs(count: int, days: int, spare: int, chance: random.Random, rooms: int = 1) -> list[Floor]:
    """Floors of so many jobs, ready within ``days`` days, promised up to ``spare`` days after they could be laid."""
    floors: list[Floor] = []
    for number in range(count):
        ready = NOW + timedelta(hours=chance.randrange(24 * days))
        hours = [chance.choice((4, 8, 8, 12, 16, 24)) for _ in range(chance.randint(1, rooms))]
        cure = chance.choice((0, 24, 72))
        promised = ready + timedelta(hours=cure + 3 * sum(hours)) + timedelta(days=1 + chance.randrange(spare))
        floors += [
            Floor(
                job=f"L-{number:04}",
                room=f"Room {room}",
                hours=took,
                earliest=ready,
                promised_on=promised.date(),
                cure_hours=cure,
                skills=frozenset({"pattern"} if chance.random() < 0.2 else ()),
            )
            for room, took in enumerate(hours, start=1)
        ]
    chance.shuffle(floors)
    return floors


def crowded_month(seed: int) -> tuple[list[Floor], list[Fitter]]:
    """A month of 32 jobs for three fitters, in the order in which they came in."""
    chance = random.Random(seed)
    return jobs(32, 26, 12, chance), people(3, chance)


def last(plans):
    for plan in plans:
        best = plan
    return best


def months(count: int) -> bool:
    good, before, by_promise, after = True, 0, 0, 0
    print("month  first come  by promise  proposed")
    for seed in range(count):
        floors, fitters = crowded_month(seed)
        came = first_come_first_served(FIRM, floors, fitters, NOW)
        best = last(propose(FIRM, floors, fitters, NOW))
        promised = first_come_first_served(FIRM, sorted(floors, key=lambda one: one.promised_on), fitters, NOW)
        before, after = before + came.days_late, after + best.days_late
        by_promise += promised.days_late
        good = good and best.days_late <= came.days_late and not best.unplaced
        print(f"{seed:>5}  {came.days_late:>10}  {promised.days_late:>10}  {best.days_late:>8}")
    print(f"  all  {before:>10}  {by_promise:>10}  {after:>8}   {100 * (1 - after / before):.0f} % less")
    return good and after <= 0.8 * before


def a_year() -> bool:
    chance = random.Random(7)
    floors, fitters = jobs(30, 330, 20, chance, rooms=3), people(6, chance)
    begun = time.perf_counter()
    first = next(propose(FIRM, floors, fitters, NOW))
    at_first = time.perf_counter() - begun
    begun = time.perf_counter()
    best = last(propose(FIRM, floors, fitters, NOW))
    took = time.perf_counter() - begun
    print(f"a year: {len(floors)} floors, first plan {1000 * at_first:.0f} ms ({first.days_late} days late), ", end="")
    print(f"best {took:.2f} s ({best.days_late} days late)")
    return took <= 2.0


def main() -> int:
    """Measure, print, and say whether all is good."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--months", type=int, default=30)
    count = asked.parse_args().months
    results = [a_year(), months(count)]
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main())
