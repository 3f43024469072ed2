"""Kills the shop at random moments in the middle of its deeds, and looks whether anything it had acknowledged is gone.

Run from the project's folder:

    python -m tests.bench.kill_loop --kills 200
    python -m tests.bench.kill_loop --kills 200 --journal memory     (the control: this must find damage)

A child process files one deed after another through the desk and acknowledges each one down a pipe the moment the desk
says that it is done. The parent waits for a random number of them and a random while, ends the child with SIGKILL,
opens the records as the program does at its start, and compares: every acknowledged deed is there and whole, at most
the one under way is there beside them (and is whole too), each deed has its one line of history, and everything that
``layday check`` looks at is in order. A page cache of a few pages makes SQLite write in the middle of a deed as well,
which is harder than life.
The control switches SQLite's journal off inside the child, so that a kill in mid-write leaves half a save behind: it
shows that this loop can find damage. A kill shows nothing about power cuts, where the disk's own cache counts.
Exit status: 0 nothing lost, 1 damage found.
"""

import argparse
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from datetime import date
from pathlib import Path

from store.desk.desk import Desk, open_desk
from store.errors import StoreError
from store.records import database
from store.trade.events import NoteDraft, OrderDraft, OrderLine
from store.trade.jobs import CustomerDraft, JobDraft
from tests.desk.shop_floor import NOW, Hand, furnished

ROUNDS_PER_FILE = 25
LINES = 12
NOTE = 90_000

HARDER = {"cache_size": "8"}
CONTROL = {"journal_mode": "MEMORY", "synchronous": "OFF"}


def deed(desk: Desk, ref: str, number: int) -> None:
    """File the deed of this number: by turns an order of many lines and a long note, each of many pages on disk."""
    if number % 2:
        lines = tuple(OrderLine(product="OAK-190", packs=number) for _ in range(LINES))
        desk.packs.order(ref, OrderDraft(on=date(2026, 12, 1), due_on=None, lines=lines))
    else:
        desk.closing.add_note(ref, NoteDraft(at=NOW, text=f"{number} ".ljust(NOTE, ".")))


def work(path: Path, ref: str, acknowledge: int, settings: dict[str, str]) -> None:
    """File deeds, with these settings of SQLite in place of the shop's own, until somebody puts an end to it."""
    database.SETTINGS = (*(one for one in database.SETTINGS if one[0] not in settings), *settings.items())
    with open_desk(path, clock=Hand(), who="kill loop") as desk:
        desk.jobs.take_on(JobDraft(ref=ref, title="Killed", customer=CustomerDraft(name="Nobody")))
        number = 0
        while True:
            os.write(acknowledge, f"{number}\n".encode())
            number += 1
            deed(desk, ref, number)


def kill_once(path: Path, ref: str, dice: random.Random, settings: dict[str, str]) -> int:
    """Start a child, kill it at a random moment; return the number of the last deed it acknowledged, or −1."""
    hears, tells = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(hears)
            work(path, ref, tells, settings)
        finally:
            os._exit(3)
    os.close(tells)
    heard, patience = b"", dice.randrange(1, 12)
    while heard.count(b"\n") < patience and (more := os.read(hears, 64)):
        heard += more
    time.sleep(dice.uniform(0, 0.05))
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    while more := os.read(hears, 65536):
        heard += more
    os.close(hears)
    if os.WIFEXITED(status):
        raise SystemExit(f"the child ended by itself with {os.WEXITSTATUS(status)}; nothing was proved")
    return int(heard.split(b"\n")[-2]) if b"\n" in heard else -1


def damage(path: Path, ref: str, acknowledged: int) -> list[str]:
    """Open the records as the program does and say what is wrong with them."""
    try:
        with open_desk(path, clock=Hand()) as desk:
            wrong = [f"check: {one.what}" for one in desk.papers.look_over() if not one.good]
            facts = desk.jobs.card(ref).facts if any(line.ref == ref for line in desk.jobs.lines()) else None
            told = desk.jobs.history(ref)
    except StoreError as error:
        return [f"will not open: {type(error).__name__}"]
    if facts is None:
        return [*wrong, "lost"] if acknowledged >= 0 else wrong
    odd = [one.lines for one in facts.orders]
    even = [one.text for one in facts.notes]
    there = len(odd) + len(even)
    if there < acknowledged:
        wrong.append("lost")
    if there > acknowledged + 1:
        wrong.append("more than was done")
    whole = [tuple(OrderLine(product="OAK-190", packs=2 * n + 1) for _ in range(LINES)) for n in range(len(odd))]
    if odd != whole or even != [f"{2 * n + 2} ".ljust(NOTE, ".") for n in range(len(even))]:
        wrong.append("half")
    if len(told) != min(200, there + 1):
        wrong.append("history")
    return wrong


def loop(options: argparse.Namespace, path: Path) -> tuple[int, int, Counter[str]]:
    """Kill and look as often as asked; returns the kills, the acknowledged deeds and what was found damaged."""
    dice, found, deeds = random.Random(options.seed), Counter[str](), 0
    fresh = furnished(path).read_bytes()
    settings = HARDER if options.journal == "as shipped" else HARDER | CONTROL
    spoilt = False
    for number in range(options.kills):
        if number % ROUNDS_PER_FILE == 0 or spoilt:
            path.with_name(path.name + "-journal").unlink(missing_ok=True)
            path.write_bytes(fresh)
        acknowledged = kill_once(path, f"KILL-{number}", dice, settings)
        wrong = damage(path, f"KILL-{number}", acknowledged)
        spoilt = bool(wrong)
        found.update([*wrong, *["kills with damage"] * spoilt])
        deeds += max(0, acknowledged)
        if options.stop and spoilt:
            break
    return number + 1, deeds, found


def main() -> int:
    """Run the loop and print its figures."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--kills", type=int, default=200)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--journal", choices=("as shipped", "memory"), default="as shipped")
    asked.add_argument("--stop", action="store_true", help="stop at the first damage found")
    options = asked.parse_args()
    begun = time.perf_counter()
    with tempfile.TemporaryDirectory() as folder:
        kills, deeds, found = loop(options, Path(folder) / "records.layday")
    seconds = time.perf_counter() - begun
    sys.stdout.write(f"{kills} kills, {deeds} acknowledged deeds, {seconds:.1f} s, journal {options.journal}\n")
    sys.stdout.write(f"  kills with damage: {found.pop('kills with damage', 0)}\n")
    sys.stdout.write("".join(f"  {what}: {times}\n" for what, times in sorted(found.items())))
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
