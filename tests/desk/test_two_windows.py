"""Two windows on one file: no change is lost, nothing is given out twice, and a lock held elsewhere is soon told."""

import sqlite3
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import replace
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.errors import ChangedMeanwhile, DraftRefused, Refused, StoreLocked
from store.trade.events import LayingDraft
from tests.desk.shop_floor import NOW, Hand, desk_at, dump, in_order
from tests.desk.test_every_deed import (
    CARD,
    COUNT,
    EARLIER,
    GLUE,
    MOVE,
    NOTE,
    OPENING,
    PARLOUR,
    ROOM,
    SIGNED,
    SNAG,
    facts,
)
from tests.tui.somebodys_folder import run

ROOT = Path(__file__).parents[2]
Change = Callable[[Desk, object, str], object]


def _finish(desk: Desk, shown: object, word: str) -> object:
    begun = shown.begun_at  # type: ignore[attr-defined]  # a laying
    done = LayingDraft(room=ROOM, begun_at=begun, ended_at=EARLIER, area_mm2=1_000_000, tubs=len(word))
    return desk.laying.finish("LAYING", shown, done)  # type: ignore[arg-type]  # a laying


CHANGES: dict[str, tuple[Callable[[Desk], object], Change]] = {
    "the firm": (
        lambda desk: desk.firm.card(),
        lambda desk, shown, word: desk.firm.change(replace(shown, name=word), shown.rev),
    ),
    "a product": (
        lambda desk: desk.products.all()[0],
        lambda desk, shown, word: desk.products.change(shown, replace(shown, name=word)),
    ),
    "a job's card": (
        lambda desk: facts(desk, "FRESH").job,
        lambda desk, shown, word: desk.jobs.change(shown, replace(shown, title=word)),
    ),
    "a room": (
        lambda desk: facts(desk, "FRESH").room(ROOM),
        lambda desk, shown, word: desk.jobs.change_room("FRESH", shown, replace(shown, gap_mm=len(word))),
    ),
    "a room that goes": (
        lambda desk: facts(desk, "FRESH").room("Spare"),
        lambda desk, shown, word: desk.jobs.remove_room("FRESH", shown),
    ),
    "a flight of stairs": (
        lambda desk: facts(desk, "FRESH").flights[0],
        lambda desk, shown, word: desk.flights.change("FRESH", shown, replace(shown, width_mm=800 + len(word))),
    ),
    "stairs that go": (
        lambda desk: facts(desk, "FRESH").flights[0],
        lambda desk, shown, word: desk.flights.remove("FRESH", shown),
    ),
    "a laying": (lambda desk: facts(desk, "LAYING").layings[0], _finish),
    "a snag": (
        lambda desk: facts(desk, "FRESH").snags[0],
        lambda desk, shown, word: desk.closing.mend("FRESH", shown, NOW),
    ),
}


@pytest.fixture
def shop(records: Path) -> Path:
    with desk_at(records) as desk:
        desk.closing.add_snag("FRESH", SNAG)
    return records


@pytest.mark.parametrize("what", CHANGES)
def test_what_another_window_has_changed_is_never_overwritten(shop: Path, what: str) -> None:
    look, change = CHANGES[what]
    with desk_at(shop) as one, desk_at(shop) as other:
        shown_here, shown_there = look(one), look(other)
        assert shown_here == shown_there
        change(other, shown_there, "theirs")
        said = dump(shop)
        with pytest.raises((ChangedMeanwhile, Refused)) as refused:
            change(one, shown_here, "ours")
        assert dump(shop) == said
        assert str(refused.value).endswith(".")
        if what not in {"a room that goes", "stairs that go", "a laying"}:
            assert isinstance(refused.value, ChangedMeanwhile)
            change(one, look(one), "ours")


def test_each_window_notices_that_the_other_has_saved(shop: Path) -> None:
    with desk_at(shop) as one, desk_at(shop) as other:
        before = one.changes()
        assert one.changes() == before
        other.closing.add_note("FRESH", NOTE)
        assert one.changes() != before
        assert facts(one, "FRESH").notes


RACES: dict[str, Callable[[Desk], object]] = {
    "the last packs carried": lambda desk: desk.packs.carry("FRESH", replace(MOVE, packs=2)),
    "the last packs opened": lambda desk: desk.packs.open("FRESH", replace(OPENING, packs=12)),
    "leftovers counted": lambda desk: desk.closing.count("DONE", (replace(COUNT, packs=12, boards=0),)),
    "a signature": lambda desk: desk.closing.sign("DONE", SIGNED),
    "a laying begun": lambda desk: desk.laying.start("FRESH", LayingDraft(room=ROOM, begun_at=EARLIER)),
    "a reference": lambda desk: desk.jobs.take_on(CARD),
    "a code": lambda desk: desk.products.add(GLUE),
    "a room's name": lambda desk: desk.jobs.add_room("FRESH", PARLOUR),
    "a person": lambda desk: desk.firm.add_person("Ari"),
}


@pytest.mark.parametrize("what", RACES)
def test_nothing_is_given_out_twice_however_closely_two_windows_follow(
    shop: Path, what: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The other window acts the moment this one looks at the clock, which is between its check and its saving."""
    monkeypatch.setattr("store.records.database.LOCK_WAIT_S", 0.02)
    with desk_at(shop) as other:
        told: list[str] = []

        class Elbowed(Hand):
            def __call__(self):  # type: ignore[no-untyped-def]  # as the clock it stands in for
                if not told:
                    told.append("tried")
                    try:
                        RACES[what](other)
                        told.append("done")
                    except (Refused, StoreLocked):
                        told.append("held off")
                return super().__call__()

        with desk_at(shop, Elbowed()) as one:
            try:
                RACES[what](one)
                told.append("done")
            except (DraftRefused, Refused):
                told.append("refused")
            assert told.count("done") == 1
            assert in_order(one) == []


def test_a_hundred_changes_from_two_processes_are_a_hundred_changes(shop: Path) -> None:
    with desk_at(shop) as desk:
        firm = desk.firm.card()
        desk.firm.change(replace(firm, reading_good_days=1, name="0"), firm.rev)
    tallying = [sys.executable, "-c", _TALLY, str(shop)]
    both = [subprocess.Popen(tallying, cwd=ROOT, stderr=subprocess.PIPE) for _ in range(2)]
    for one in both:
        assert one.communicate(timeout=60)[1] == b""
        assert one.returncode == 0
    with desk_at(shop) as desk:
        assert desk.firm.card().name == "100"
        assert desk.firm.card().rev == firm.rev + 101
        assert in_order(desk) == []


_TALLY = """
import sys
from contextlib import ExitStack
from dataclasses import replace
from pathlib import Path
from store.desk.desk import open_desk
from store.errors import ChangedMeanwhile, StoreLocked
with ExitStack() as until:
    while True:
        try:
            desk = until.enter_context(open_desk(Path(sys.argv[1]), who="tally"))
            break
        except StoreLocked:
            pass
    for _ in range(50):
        while True:
            try:
                firm = desk.firm.card()
                desk.firm.change(replace(firm, name=str(int(firm.name) + 1)), firm.rev)
                break
            except (ChangedMeanwhile, StoreLocked):
                pass
"""


@contextmanager
def held(path: Path, how: str) -> Iterator[None]:
    """Another program in the middle of a change."""
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute(f"BEGIN {how}")
        try:
            yield
        finally:
            other.execute("ROLLBACK")


def test_a_lock_held_elsewhere_is_told_within_a_second_and_a_half(shop: Path) -> None:
    said = dump(shop)
    with desk_at(shop) as desk, held(shop, "IMMEDIATE"):
        begun = time.perf_counter()
        with pytest.raises(StoreLocked):
            desk.closing.add_note("FRESH", NOTE)
        assert 0.2 < time.perf_counter() - begun < 1.5
        # Reading goes on beside a change that is not saved yet.
        assert len(desk.jobs.today()) == 3
    assert dump(shop) == said
    with desk_at(shop) as desk:
        desk.closing.add_note("FRESH", NOTE)


@pytest.mark.parametrize("asked", [["today"], ["check"], ["import", "-"]])
def test_a_command_on_locked_records_leaves_with_eleven_and_a_sentence(shop: Path, asked: list[str]) -> None:
    given = run("--file", shop, "export", "FRESH").out.replace(b"FRESH", b"OTHER")
    with held(shop, "EXCLUSIVE"):
        begun = time.perf_counter()
        ran = run("--file", shop, *asked, stdin=given)
        assert time.perf_counter() - begun < 1.5
    assert (ran.status, ran.out) == (11, b"")
    assert ran.complained.count("\n") == 1
    assert "Another window" in ran.complained


def test_records_put_back_meanwhile_are_not_written_into_blindly(shop: Path, tmp_path: Path) -> None:
    copy = tmp_path / "copy.layday"
    assert run("--file", shop, "backup", "-o", copy).status == 0
    with desk_at(shop) as desk:
        desk.closing.add_note("FRESH", NOTE)
        assert run("--file", shop, "restore", copy).status == 0
        said = dump(shop)
        with pytest.raises(Exception, match=r"put back or moved|changed|disk"):
            desk.closing.add_note("FRESH", NOTE)
        assert dump(shop) == said
