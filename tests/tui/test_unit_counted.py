"""A stock-take from the Stock view: counted line by line, the differences seen, booked, told, and taken back."""

from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from store.desk.desk import Desk
from store.trade.stock_take import StockTake
from tests.tui.made_up import made_up_desk, new_desk, press, second_window, toasts, write
from tests.tui.shop_window import HOSTILE, assert_as_painted, picture
from tui.app import LaydayApp
from tui.dialogs.choose import Choose
from tui.dialogs.stock_take_form import StockTakeForm
from tui.dialogs.word_forms import TakeBack
from tui.screens.stock import StockScreen
from tui.widgets.batch_row import BatchRow
from tui.widgets.count_row import CountRow


def words(app: LaydayApp) -> str:
    return " ".join(picture(app).replace("│", " ").split())


def in_unit(desk: Desk) -> dict[tuple[str, str, str], tuple[int, int]]:
    return {(one.product, one.batch, one.job_ref): (one.packs, one.boards) for one in desk.stock.lines()}


async def fill(pilot: Pilot[Any], row: int, packs: str, boards: str = "") -> None:
    parts = pilot.app.screen.query(CountRow)[row].parts
    for name, typed in (("packs", packs), ("boards", boards)):
        if typed:
            parts[name].focus()
            await write(pilot, typed)


async def say_why(pilot: Pilot[Any], why: str) -> None:
    form = pilot.app.screen
    assert isinstance(form, StockTakeForm)
    form.query_one("#field-why OneLine").focus()
    await write(pilot, why)


OF_OLD = 2
"""The made-up firm has missed a pack and found it again."""


async def test_the_form_looks_like_its_picture_with_a_line_counted(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 0, "1", "2")
            assert_as_painted(picture(app), "stock-take-80x24")


async def test_the_unit_is_counted_and_what_differs_is_booked_and_told(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            assert "2 packs" in words(app)
            await fill(pilot, 0, "1", "2")
            assert "2 packs: ▲ 4 boards missing" in words(app)
            await fill(pilot, 1, "2")
            assert "2 tubs: ✓ the same" in words(app)
            await fill(pilot, 2, "17")
            assert "15 packs: ▲ 2 packs found" in words(app)
            assert "3 of 3 lines counted, 2 differ." in words(app)
            await press(pilot, "ctrl+s")
            assert "Say why the unit and the file differ" in words(app)
            await say_why(pilot, "lent")
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, StockScreen)
            assert "4 boards of OAK-190, batch K39, missing (free stock)" in toasts(app)
            assert "2 packs of OAK-190, batch K42, found (kept for GQ-0145)" in toasts(app)
        assert in_unit(desk) == {
            ("OAK-190", "K39", ""): (1, 2),
            ("MS-15", "", "GQ-0145"): (2, 0),
            ("OAK-190", "K42", "GQ-0145"): (17, 0),
        }
        assert all(one.good for one in desk.papers.look_over())


async def test_a_unit_that_is_as_the_file_says_books_nothing_and_needs_no_reason(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 0, "2")
            await press(pilot, "ctrl+s")
            assert "1 line of the unit counted: all is as the file says. 2 lines not counted." in toasts(app)
        assert len(desk.stock.booked()) == OF_OLD


async def test_a_negative_or_unreadable_count_is_said_beside_its_line_and_books_nothing(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        before = in_unit(desk)
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 0, "-1")
            await press(pilot, "ctrl+s")
            assert "A count is 0 or more" in words(app)
            assert "2 packs: ▲" not in words(app)
            for typed in ("1,5", "two", *HOSTILE):
                app.screen.query(CountRow)[0].parts["packs"].value = typed  # type: ignore[union-attr]
                await press(pilot, "ctrl+s")
                assert isinstance(app.screen, StockTakeForm)
        assert in_unit(desk) == before


async def test_nothing_counted_is_no_stock_take(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t", "ctrl+s")
            assert "Count at least one line" in words(app)


async def test_what_the_file_does_not_know_is_added_and_a_likely_batch_asked_about(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 30)) as pilot:
            await press(pilot, "3", "t", "ctrl+n")
            row = app.screen.query_one(BatchRow)
            row.parts["product"].value = "OAK-190"  # type: ignore[union-attr]
            row.parts["batch"].focus()
            await write(pilot, "k 39")
            assert "k 39 looks like K39" in words(app)
            await press(pilot, "ctrl+s")
            assert "Say whether it is the same batch" in words(app)
            await press(pilot, "space", "down", "enter")
            row.parts["packs"].focus()
            await write(pilot, "3")
            await say_why(pilot, "behind the door")
            await fill(pilot, 0, "2")
            await press(pilot, "ctrl+s")
            assert "This batch stands in another line" in words(app)
            row.parts["batch"].focus()
            await write(pilot, "Z9")
            await press(pilot, "ctrl+s")
            assert "3 packs of OAK-190, batch Z9, found (free stock)" in toasts(app)
        assert in_unit(desk)["OAK-190", "Z9", ""] == (3, 0)


async def test_a_line_that_another_window_changed_is_refused_and_what_was_typed_stays(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk, second_window(desk) as other:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 0, "1")
            await say_why(pilot, "lent")
            line = next(one for one in other.stock.lines() if one.batch == "K39")
            take = app.screen.draft()  # type: ignore[attr-defined]
            assert isinstance(take, StockTake)
            assert line.packs == 2
            other.stock.book(take)
            await press(pilot, "ctrl+s")
            assert "The file has changed since this line was shown" in words(app)
            assert isinstance(app.screen, StockTakeForm)


async def test_a_booked_line_is_taken_back_with_a_reason(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        before = in_unit(desk)
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 2, "14")
            await say_why(pilot, "[b]lent")
            await press(pilot, "ctrl+s", "x")
            assert isinstance(app.screen, Choose)
            assert "OAK-190 K42, kept for GQ-0145: 1 pack missing" in words(app)
            await press(pilot, "enter")
            assert isinstance(app.screen, TakeBack)
            assert "It was booked because: “[b]lent”." in words(app)
            await press(pilot, *"wrong", "ctrl+s")
            assert "Taken back: the stock-take of" in toasts(app)
        assert in_unit(desk) == before
        assert len(desk.stock.booked()) == OF_OLD


async def test_with_nothing_booked_there_is_nothing_to_take_back(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        for one in desk.stock.booked():
            desk.stock.take_back(one, "a story")
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "x")
            assert "none to take back" in toasts(app)


async def test_a_firm_without_products_has_nothing_to_count(tmp_path: Path) -> None:
    with new_desk(tmp_path / "new.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            assert isinstance(app.screen, StockScreen)
            assert "nothing to count" in toasts(app)


async def test_the_folder_of_the_job_tells_what_was_missing_among_its_orders(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "t")
            await fill(pilot, 2, "14")
            await say_why(pilot, "lent")
            await press(pilot, "ctrl+s", "slash", *"k42", "enter", "enter")
            for _ in range(7):
                if "▲ missing in the unit" in words(app):
                    break
                await press(pilot, "right")
            assert "1 × OAK-190 K42 ▲ missing in the unit" in words(app)
