"""How soon the fewest sticks for a list are found, in seconds of one core, and how often they are proved the fewest.

Run from the top of the checkout: ``python tests/bench/bench_trims.py [lists] [seed]``.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from store.trade.skirting import skirting_pieces
from store.trade.surveyed import Doorway
from store.trade.trims import FEW_STEPS, STEPS, quick_floor, trims

STICKS_MM = (2400, 2500, 3000, 4200)
KERF_MM = 3
LONGER = (100, 150, 300)  # pieces
HOUSES = (6, 12, 20, 30)  # rooms
LIMITS = {"a sum": STEPS, "the take-off": FEW_STEPS}


def lists(count, seed):
    """Lists as rooms give them, many full sticks; lists of short trims; and triplets that fill their sticks wholly."""
    rng = random.Random(seed)
    for stick in STICKS_MM:
        for _ in range(count):
            number = rng.randint(10, 60)
            yield "skirting", stick, KERF_MM, [rng.randint(200, stick) for _ in range(number)]
            yield "short trims", stick, KERF_MM, [rng.randint(stick // 8, stick // 2) for _ in range(number)]
        for _ in range(count):
            pieces = []
            for _ in range(20):
                longest = rng.randint(stick * 38 // 100, stick * 49 // 100)
                middle = rng.randint(stick // 4, (stick - longest) // 2)
                pieces += [longest, middle, stick - longest - middle]
            rng.shuffle(pieces)
            yield "triplets", stick, 0, pieces
    for number in (60, *LONGER):
        for low, high in ((300, 900), (300, 1600), (200, 2400)):
            for _ in range(count):
                yield f"{number} of {low} to {high}", 2400, KERF_MM, [rng.randint(low, high) for _ in range(number)]
    for rooms in HOUSES:
        for _ in range(count):
            yield f"a house of {rooms} rooms", 2400, KERF_MM, house(rng, rooms)


def house(rng, rooms):
    """The skirting of made-up rooms: rectangles, L shapes and chimney breasts, each with a doorway or two."""
    pieces = []
    for _ in range(rooms):
        wide, deep = rng.randint(1200, 6500), rng.randint(1500, 7000)
        shape = rng.random()
        if shape < 0.5:
            ring = ((0, 0), (wide, 0), (wide, deep), (0, deep))
        elif shape < 0.8:
            x, y = rng.randint(wide // 4, 3 * wide // 4), rng.randint(deep // 4, 3 * deep // 4)
            ring = ((0, 0), (wide, 0), (wide, y), (x, y), (x, deep), (0, deep))
        else:
            x, out = rng.randint(100, wide // 2 - 100), rng.randint(200, 500)
            end = rng.randint(x + 300, min(x + 1800, wide - 60))
            ring = (
                (0, 0),
                (wide, 0),
                (wide, deep),
                (end, deep),
                (end, deep - out),
                (x, deep - out),
                (x, deep),
                (0, deep),
            )
        doors = []
        for wall in range(rng.randint(1, 2)):
            long = (wide, ring[2][1])[wall]
            if long > 1100:
                doors.append(
                    Doorway(wall=wall, from_mm=rng.randint(100, long - 1000), width_mm=rng.choice((760, 860, 900)))
                )
        pieces += [one.cut_mm for one in skirting_pieces(rings=(ring,), doorways=doors, stick_mm=2400)]
    return pieces


def main(count, seed):
    for limit, steps in LIMITS.items():
        print(f"With the steps of {limit}:")
        measure(count, seed, steps)


def measure(count, seed, steps):
    told = {}
    for kind, stick, kerf, pieces in lists(count, seed):
        began = time.process_time()
        answer = trims(stick_mm=stick, kerf_mm=kerf, pieces_mm=pieces, steps=steps)
        took = time.process_time() - began
        one = told.setdefault(kind, {"proved": 0, "over": 0, "floor": 0, "sticks": 0, "took": []})
        one["proved"] += answer.proved
        one["over"] += answer.sticks - max(quick_floor(stick_mm=stick, kerf_mm=kerf, pieces_mm=pieces))
        one["floor"] += answer.sticks - answer.at_least
        one["sticks"] += answer.sticks
        one["took"].append(took)
    for kind, one in [*told.items(), ("all", together(told.values()))]:
        took = sorted(one["took"])
        print(
            f"  {kind}: {one['proved']} of {len(took)} lists proved, {one['sticks']} sticks, {one['over']} over the "
            f"quick floor, {one['floor']} over the proved; middle {took[len(took) // 2]:.3f} s, slowest {took[-1]:.2f}"
        )


def together(kinds):
    whole = {"proved": 0, "over": 0, "floor": 0, "sticks": 0, "took": []}
    for one in kinds:
        for name, value in one.items():
            whole[name] += value
    return whole


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
