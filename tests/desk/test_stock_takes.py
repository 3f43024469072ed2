"""The unit counted against the file: booked in one deed, taken back, kept in folders, and never less than nothing."""

import json
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from store.desk.copies import import_into
from store.desk.desk import Desk
from store.errors import DraftRefused, Refused
from store.trade.events import SHELF, UNIT, MoveDraft, PlaceKind, in_room
from store.trade.stock_take import Booked, CountedLine, StockTake, Way
from tests.desk.shop_floor import NOW, Hand, desk_at, dump, history, in_order
from tests.tui.somebodys_folder import folder

OAK, ROOM = "OAK-190", "Reading room"
TO_SHELF = MoveDraft(at=NOW - timedelta(hours=2), product=OAK, batch="K41", packs=1, source=UNIT, target=SHELF)


def in_unit(desk: Desk) -> dict[tuple[str, str], tuple[int, int]]:
    """Packs and boards in the unit, by job and batch."""
    return {(one.job_ref, one.batch): (one.packs, one.boards) for one in desk.stock.lines() if one.product == OAK}


def count(desk: Desk, *counted: tuple[str, str, int, int], why: str = "nobody knows") -> tuple[Booked, ...]:
    """Book what was counted: job, batch, packs and boards of each line."""
    filed = {(one.job_ref, one.batch): one.packs * 6 + one.boards for one in desk.stock.lines() if one.product == OAK}
    lines = tuple(
        CountedLine(product=OAK, batch=batch, job_ref=ref, packs=packs, boards=boards, filed=filed.get((ref, batch), 0))
        for ref, batch, packs, boards in counted
    )
    return desk.stock.book(StockTake(lines=lines, why=why))


@pytest.fixture
def shop(records: Path) -> Path:
    """The three jobs, with a pack of the FRESH one put on the shelf."""
    with desk_at(records) as desk:
        desk.packs.carry("FRESH", TO_SHELF)
        assert in_unit(desk) == {("", "K41"): (1, 0), ("FRESH", "K41"): (1, 0)}
    return records


def test_all_that_differs_is_booked_in_one_deed_with_one_line_of_history(shop: Path) -> None:
    before = history(shop)
    with desk_at(shop, who="Ari") as desk:
        booked = count(desk, ("", "K41", 0, 4), ("FRESH", "K41", 3, 0), ("", "K9", 2, 1))
        assert in_unit(desk) == {("", "K41"): (0, 4), ("FRESH", "K41"): (3, 0), ("", "K9"): (2, 1)}
        assert in_order(desk) == []
    told = [(one.job_ref, one.difference.way, one.difference.packs, one.difference.boards) for one in booked]
    assert told == [("", Way.MISSING, 0, 2), ("FRESH", Way.FOUND, 2, 0), ("", Way.FOUND, 2, 1)]
    assert history(shop) == [*before, ("Ari", "stock counted", "")]


def test_a_stock_take_in_which_nothing_differs_is_noted_and_books_nothing(shop: Path) -> None:
    with desk_at(shop, who="Ari") as desk:
        assert count(desk, ("", "K41", 1, 0), why="") == ()
        assert desk.stock.booked() == ()
    assert history(shop)[-1] == ("Ari", "stock counted", "")


def test_a_negative_count_is_refused_and_nothing_is_booked(shop: Path) -> None:
    said = dump(shop)
    with desk_at(shop) as desk:
        with pytest.raises(DraftRefused):
            count(desk, ("", "K41", 0, 0), ("FRESH", "K41", -1, 0))
        with pytest.raises(DraftRefused):
            count(desk, ("", "K41", 0, 0), why=" ")
    assert dump(shop) == said


def test_a_line_that_another_window_changed_meanwhile_is_refused(shop: Path) -> None:
    with desk_at(shop) as desk, desk_at(shop) as other:
        line = CountedLine(product=OAK, batch="K41", job_ref="", packs=1, boards=0, filed=6)
        other.packs.carry("FRESH", replace(TO_SHELF, source=SHELF, target=UNIT, at=NOW))
        with pytest.raises(DraftRefused, match="has changed"):
            desk.stock.book(StockTake(lines=(line,)))


def test_a_difference_taken_back_restores_the_balance_and_stays_on_file(shop: Path) -> None:
    with desk_at(shop) as desk:
        before = in_unit(desk)
        count(desk, ("", "K41", 0, 4), ("FRESH", "K41", 3, 0))
        for one in desk.stock.booked():
            desk.stock.take_back(one, "counted the wrong rack")
        assert in_unit(desk) == before
        assert desk.stock.booked() == ()
        assert in_order(desk) == []
    assert sum('INSERT INTO "difference"' in line for line in dump(shop)) == 2


def test_a_difference_is_taken_back_once_and_with_a_reason(shop: Path) -> None:
    with desk_at(shop) as desk:
        (one,) = count(desk, ("", "K41", 0, 4))
        with pytest.raises(DraftRefused):
            desk.stock.take_back(one, " ")
        desk.stock.take_back(one, "counted the wrong rack")
        with pytest.raises(Refused):
            desk.stock.take_back(one, "counted the wrong rack")


def test_packs_found_and_used_since_cannot_be_taken_back(shop: Path) -> None:
    with desk_at(shop) as desk:
        free, kept = count(desk, ("", "K41", 3, 0), ("FRESH", "K41", 2, 0))
        out = replace(TO_SHELF, at=NOW, target=in_room(ROOM))
        desk.packs.carry("FRESH", replace(out, source=SHELF, packs=3))
        desk.packs.carry("FRESH", replace(out, packs=2))
        said = dump(shop)
        for one in (free, kept):
            with pytest.raises(Refused):
                desk.stock.take_back(one, "counted the wrong rack")
    assert dump(shop) == said


def test_kept_packs_that_are_missing_cannot_be_carried(shop: Path) -> None:
    with desk_at(shop) as desk:
        count(desk, ("FRESH", "K41", 0, 0))
        move = replace(TO_SHELF, at=NOW, target=in_room(ROOM))
        assert [one.field for one in desk.packs.move_problems("FRESH", move)] == ["packs"]


def test_folders_keep_stock_takes_and_come_out_the_same_again(shop: Path, tmp_path: Path) -> None:
    with desk_at(shop) as desk:
        count(desk, ("", "K41", 0, 4), ("FRESH", "K41", 3, 0), ("", "K9", 2, 1), why="Lent to “[/] & Söhne”")
        unit, raw = in_unit(desk), desk.papers.export()
        alone = json.loads(desk.papers.export(["FRESH"]))
    assert "stock_takes" not in alone
    assert [one["packs"] for one in alone["jobs"][0]["stock_takes"]] == [2]
    import_into(tmp_path / "new.layday", raw, clock=Hand(), who="Ode")
    with desk_at(tmp_path / "new.layday") as desk:
        assert in_unit(desk) == unit
        assert desk.papers.export() == raw
        assert in_order(desk) == []
        assert [line for _, line, _ in history(tmp_path / "new.layday")][-1] == "stock-takes taken in from a folder"


def test_a_stock_take_that_is_on_file_already_is_not_taken_in_twice(shop: Path) -> None:
    with desk_at(shop) as desk:
        count(desk, ("", "K41", 0, 4))
        told = json.loads(desk.papers.export())
        said = dump(shop)
        with pytest.raises(Refused, match=r"stock_takes\[0\]: this stock-take of OAK-190 is on file already"):
            desk.papers.take_in(json.dumps(told | {"jobs": []}).encode())
    assert dump(shop) == said


@pytest.mark.parametrize(
    ("wrong", "say"),
    [
        ({"packs": 0}, "stock_takes[0].packs: nothing found and nothing missing"),
        ({"way": "lost"}, "stock_takes[0].way"),
        ({"why": " "}, "stock_takes[0].why: a difference has a reason"),
        ({"packs": -1}, "stock_takes[0].packs"),
        ({"product": "PINE"}, "stock_takes[0].product"),
        ({"packs": 10_001}, "stock_takes[0].packs"),
    ],
)
def test_a_folder_with_a_stock_take_that_cannot_be_is_refused(shop: Path, wrong: dict[str, object], say: str) -> None:
    line = {"at": "2026-11-20T16:00:00+01:00", "product": OAK, "packs": 1, "boards": 0, "way": "found", "why": "x"}
    raw = json.dumps(folder() | {"stock_takes": [line | wrong]}).encode()
    with desk_at(shop) as desk, pytest.raises(Refused) as refused:
        desk.papers.take_in(raw)
    assert say in str(refused.value)


def test_at_an_earlier_moment_a_later_stock_take_is_not_known(shop: Path) -> None:
    hand = Hand()
    hand.shows = NOW + timedelta(hours=3)
    with desk_at(shop, hand) as desk:
        before = in_unit(desk)
        count(desk, ("", "K41", 0, 4), ("FRESH", "K41", 3, 0))
        desk.look_at(NOW)
        assert in_unit(desk) == before
        assert desk.stock.booked() == ()
        assert "stock_takes" not in json.loads(desk.papers.export())
        assert PlaceKind.MISSING not in {one.place for one in desk.packs.stock()}
