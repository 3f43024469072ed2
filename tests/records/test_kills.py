"""A process that is killed loses nothing it has acknowledged; the long loop is tests/bench/kill_loop.py."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def killed(*options: str) -> "subprocess.CompletedProcess[str]":
    loop = [sys.executable, "-m", "tests.bench.kill_loop", *options]
    return subprocess.run(loop, cwd=ROOT, capture_output=True, text=True, check=False, timeout=60)


def test_ten_kills_in_the_middle_of_deeds_lose_nothing_acknowledged_and_leave_nothing_half() -> None:
    ran = killed("--kills", "10")
    assert (ran.returncode, ran.stderr) == (0, ""), ran.stdout
    assert "kills with damage: 0" in ran.stdout


def test_the_same_loop_without_a_journal_finds_damage() -> None:
    # One such kill in eight does damage; that none of so many does would be a wonder.
    ran = killed("--kills", "150", "--journal", "memory", "--stop")
    assert (ran.returncode, ran.stderr) == (1, ""), ran.stdout
