"""How well and how fast rooms are laid: against the bound, against last-offcut laying, against a flat tenth.

Run from the top of the checkout: ``python tests/bench/bench_lay.py [rooms] [seed]``.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from store.trade.layout.floor import floor_of
from store.trade.layout.lay import BoardSize, LayRules, Room
from store.trade.layout.search import search_lays
from store.trade.layout.strips import strips_of
from store.trade.outline import net_area_mm2, rectangle

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
RULES = LayRules(stagger_mm=400, shortest_mm=300, kerf_mm=3, least_mm=60)
GAP_MM = 12
KINDS = ("rect", "L", "T", "U", "chimney", "bay")


def drawn(kind, chance):
    """Return a room of a kind, its sizes drawn at random in steps of 10 mm."""

    def between(low, high):
        return chance.randrange(low, max(low + 10, high), 10)

    a, b = between(2600, 11500), between(2400, 9500)
    if kind == "rect":
        return rectangle(a, b)
    if kind == "L":
        c, d = between(a // 3, a * 3 // 4), between(b // 3, b * 3 // 4)
        return ((0, 0), (a, 0), (a, d), (c, d), (c, b), (0, b))
    if kind == "T":
        left, right, d = between(a // 6, a // 3), a - between(a // 6, a // 3), between(b // 3, b * 2 // 3)
        return ((0, 0), (a, 0), (a, d), (right, d), (right, b), (left, b), (left, d), (0, d))
    if kind == "U":
        left, right = between(a // 4, a * 2 // 5), a - between(a // 4, a * 2 // 5)
        d = between(b // 4, b * 2 // 3)
        return ((0, 0), (a, 0), (a, b), (right, b), (right, d), (left, d), (left, b), (0, b))
    if kind == "chimney":
        wide, deep = between(900, 1600), between(300, 600)
        left = between(300, a - wide - 300)
        breast = ((left + wide, b), (left + wide, b - deep), (left, b - deep), (left, b))
        return ((0, 0), (a, 0), (a, b), *breast, (0, b))
    wide, deep = between(1200, 2200), between(400, 900)
    left = between(200, a - wide - 200)
    bay = ((left, 0), (left + deep // 2, -deep), (left + wide - deep // 2, -deep), (left + wide, 0))
    return ((0, 0), *bay, (a, 0), (a, b), (0, b))


def rooms(count, seed):
    """Yield seeded rooms of 8 to 120 m², the kinds in turn."""
    chance = random.Random(seed)
    made = turn = 0
    while made < count:
        kind = KINDS[turn % len(KINDS)]
        turn += 1
        outline = drawn(kind, chance)
        if 8e6 <= net_area_mm2(outline) <= 120e6:
            made += 1
            yield kind, outline


def laid_from_the_last_offcut(runs):
    """Boards a fitter opens who starts each row with the last offcut, or a whole board, or a cut one."""
    boards = offcut = 0
    joints_before, row_before = [], -1
    joints_here = []
    for run in runs:
        if run.row != row_before:
            joints_before, joints_here, row_before = joints_here, [], run.row
        length = run.length_mm
        for first in (offcut, OAK.length_mm, *range(OAK.length_mm - 50, RULES.shortest_mm, -50)):
            if length <= OAK.length_mm:
                first = length
            joints = range(run.left_mm + first, run.right_mm, OAK.length_mm) if first else ()
            closer = (length - first) % OAK.length_mm
            right = first >= min(RULES.shortest_mm, length) and (closer == 0 or closer >= RULES.shortest_mm)
            if right and all(abs(j - k) >= RULES.stagger_mm for j in joints for k in joints_before):
                break
        boards += (first > offcut) + (length - first) // OAK.length_mm + (closer > 0)
        offcut = OAK.length_mm - RULES.kerf_mm - closer if closer else 0
        joints_here += joints
    return boards


def packs_of(boards):
    return -(-boards // OAK.boards_per_pack)


def main():
    """Print a row for each room and the sums below."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 36
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    head = ("kind", "m²", "rows", "area", "bound", "first", "best", "proved", "loss%", "last-offcut", "loss%")
    form = "{:>8} {:>6} {:>5} {:>5} {:>5} {:>5} {:>5} {:>6} {:>6} {:>11} {:>6} {:>6} {:>6} {:>7} {:>7}"
    print(form.format(*head, "packs", "flat10", "first s", "all s"))
    sums = dict.fromkeys(("area", "bound", "best", "naive", "packs", "flat", "short", "floor", "proved"), 0)
    slowest = 0.0
    for kind, outline in rooms(count, seed):
        room = Room(outline=outline, gap_mm=GAP_MM)
        began = time.perf_counter()
        attempts = search_lays(room, board=OAK, rules=RULES)
        first = next(attempts)
        at_first = time.perf_counter() - began
        lay = [first, *attempts][-1].lay
        whole = time.perf_counter() - began
        strips = strips_of(floor_of(outline, (), GAP_MM, 0, None), OAK.width_mm, RULES.least_mm)
        naive = laid_from_the_last_offcut(strips.runs)
        area = -(-lay.floor_area_mm2 // OAK.area_mm2)
        flat = -(-net_area_mm2(outline) * 11 // (10 * OAK.area_mm2 * OAK.boards_per_pack))
        naive_loss = 100 * (naive * OAK.area_mm2 - lay.floor_area_mm2) / lay.floor_area_mm2
        print(
            form.format(
                kind, f"{lay.net_area_m2:.1f}", lay.rows, f"{area:.0f}", lay.least_boards, first.lay.boards,
                lay.boards, "yes" if lay.proved_best else "", f"{lay.cut_loss_percent:.1f}", naive,
                f"{naive_loss:.1f}", lay.packs, flat, f"{at_first:.3f}", f"{whole:.2f}",
            ),
            flush=True,
        )  # fmt: skip
        for name, value in (
            ("area", area), ("bound", lay.least_boards), ("best", lay.boards), ("naive", naive),
            ("packs", lay.packs), ("flat", flat), ("short", packs_of(naive) > flat),
            ("floor", lay.floor_area_mm2), ("proved", lay.proved_best),
        ):  # fmt: skip
            sums[name] += value
        slowest = max(slowest, whole)

    def loss(boards):
        return 100 * (boards * OAK.area_mm2 / sums["floor"] - 1)

    print(f"\n{count} rooms, {sums['floor'] / 1e6:.0f} m² of floor. Boards (loss on laid area):")
    for name, key in (("area", "area"), ("bound", "bound"), ("best lay", "best"), ("last-offcut", "naive")):
        print(f"  {name:<12} {sums[key]:>6.0f}  {loss(sums[key]):5.1f} %")
    print(
        f"Packs: best lay {sums['packs']}, flat 10 % {sums['flat']}; flat 10 % is short in {sums['short']} "
        f"rooms laid from the last offcut. Proved best: {sums['proved']}. Slowest room {slowest:.1f} s."
    )


if __name__ == "__main__":
    main()
