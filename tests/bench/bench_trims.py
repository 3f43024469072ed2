"""How soon the fewest sticks for up to 60 pieces are found, and how often they are proved the fewest.

Run from the top of the checkout: ``python tests/bench/bench_trims.py [lists] [seed]``.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from store.trade.trims import quick_floor, trims

STICKS_MM = (2400, 2500, 3000, 4200)
KERF_MM = 3


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


def main(count, seed):
    told = {}
    for kind, stick, kerf, pieces in lists(count, seed):
        began = time.perf_counter()
        answer = trims(stick_mm=stick, kerf_mm=kerf, pieces_mm=pieces)
        took = time.perf_counter() - began
        one = told.setdefault(kind, {"lists": 0, "proved": 0, "over": 0, "sticks": 0, "took": []})
        one["lists"] += 1
        one["proved"] += answer.proved
        one["over"] += answer.sticks - max(quick_floor(stick_mm=stick, kerf_mm=kerf, pieces_mm=pieces))
        one["sticks"] += answer.sticks
        one["took"].append(took)
    for kind, one in told.items():
        took = sorted(one["took"])
        print(
            f"{kind}: {one['lists']} lists, {one['sticks']} sticks, {one['proved']} lists proved; {one['over']} sticks "
            f"over the quick floor; middle {took[len(took) // 2]:.3f} s, slowest {took[-1]:.2f} s"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 15, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
