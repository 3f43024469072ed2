"""How well and how fast rooms are laid from packs of several lengths: against the bound, and against flat allowances.

Run from the top of the checkout: ``python tests/bench/bench_mixed.py [rooms] [seed]``.
"""

import math
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parents[2]))

from bench_lay import GAP_MM, rooms

from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.looks import looks_of
from store.trade.layout.search import search_lays
from store.trade.outline import net_area_mm2

RULES = LayRules(stagger_mm=300, shortest_mm=300, kerf_mm=3, least_mm=60)
PACKS = {
    "5 × 1900, 1 × 1000, 1 × 900": ((1900, 5), (1000, 1), (900, 1)),
    "4 × 1900, 2 × 1200, 2 × 600": ((1900, 4), (1200, 2), (600, 2)),
}


def main(count, seed):
    for name, lengths in PACKS.items():
        board = BoardSize(
            length_mm=1900, width_mm=190, boards_per_pack=sum(number for _, number in lengths), lengths=lengths
        )
        packs = least = flat = opened = covered = in_line = 0
        first_s = slowest_s = 0.0
        for _, outline in rooms(count, seed):
            began = time.perf_counter()
            lay = None
            for attempt in search_lays(Room(outline=outline, gap_mm=GAP_MM), board=board, rules=RULES):
                if lay is None:
                    first_s = max(first_s, time.perf_counter() - began)
                lay = attempt.lay
            slowest_s = max(slowest_s, time.perf_counter() - began)
            packs += lay.packs
            least += -(-lay.least_boards // board.boards_per_pack)
            flat += math.ceil(net_area_mm2(outline) * 1.07 / board.pack_mm2)
            opened, covered = opened + lay.opened_mm2, covered + lay.floor_area_mm2
            in_line += looks_of(lay).in_line
        print(
            f"{name}: {packs} packs, at least {least}, a flat 7 % {flat}; loss {100 * (opened / covered - 1):.1f} %; "
            f"{in_line} joints in line; first {first_s:.2f} s, slowest {slowest_s:.1f} s"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 36, int(sys.argv[2]) if len(sys.argv) > 2 else 1)
