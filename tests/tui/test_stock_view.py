"""The stock view: what lies where, whose it is and what it is worth, and packs carried from it."""

from dataclasses import replace
from pathlib import Path

import pytest

from store.desk.cards import StockSum
from store.trade.events import PlaceKind
from tests.tui.made_up import made_up_desk, new_desk, press, second_window, toasts
from tests.tui.shop_window import HOSTILE, assert_as_painted, picture, settled
from tui.app import LaydayApp
from tui.dialogs.choose import Choose
from tui.dialogs.move_form import MoveForm
from tui.screens.folder import FolderScreen
from tui.screens.stock import StockScreen
from tui.widgets.fitted_list import FittedList
from tui.words.stock import GONE, say_sum


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
@pytest.mark.parametrize("turned", [False, True], ids=["by-product", "by-place"])
async def test_the_stock_looks_like_its_picture(tmp_path: Path, size: tuple[int, int], turned: bool) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=size) as pilot:
            await press(pilot, "3", *("v" for _ in range(turned)))
            shown = await settled(app, pilot)
    assert_as_painted(shown, f"stock-{'by-place' if turned else 'by-product'}-{size[0]}x{size[1]}")


def test_the_sum_names_tubs_past_their_day_and_the_worth_first() -> None:
    sums = StockSum(packs=5, boards=3, tubs=1, materials=11, worth_minor=97_665, stale=2)
    said = say_sum(sums, "EUR")
    assert said.startswith("EUR 976.65 lie unopened and sound: 5 packs and 3 boards, 1 tub and 11 of other materials")
    assert said.endswith("; ✗ 2 tubs past their day")


async def test_two_batches_of_one_board_in_one_job_are_told_in_words(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *"07-c", "enter")
            shown = " ".join(picture(app).split())
    assert "07-C ▲ · 2 batches" in shown
    assert "This job has 2 batches of it" in shown
    assert "06-B ▲" not in shown


async def test_one_key_turns_the_list_by_place_and_back_and_the_cursor_keeps_its_line(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "down", "down", "down")
            before = app.screen.query_one("#stock-by-product", FittedList).chosen
            await press(pilot, "v")
            turned = app.screen.query_one("#stock-by-place", FittedList)
            assert turned.display
            assert turned.chosen == before
            assert "lines by place" in picture(app)
            assert "v By product" in picture(app)
            await press(pilot, "down", "v")
            assert app.screen.query_one("#stock-by-product", FittedList).chosen == turned.chosen


@pytest.mark.parametrize(("typed", "count"), [("brushed", "7 of 24"), ("bakery", "2 of 24"), ("dining", "3 of 24")])
async def test_the_filter_finds_lines_by_product_job_and_place(tmp_path: Path, typed: str, count: str) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *typed)
            assert count in picture(app)


async def test_free_stock_is_carried_to_a_job_that_is_chosen(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *"free", "enter", "c")
            assert isinstance(app.screen, Choose)
            await press(pilot, "slash", *"0149", "enter", "enter")
            assert isinstance(app.screen, MoveForm)
            assert "2 packs of OAK-190, batch K39, in the unit, free" in picture(app)
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, StockScreen)
            assert "2 packs of OAK-190, batch K39" in toasts(app)
        lying = [
            one for one in desk.packs.stock() if one.batch == "K39" and one.place not in {PlaceKind.CUSTOMER, *GONE}
        ]
    assert [(one.job_ref, one.room, one.packs) for one in lying] == [("GQ-0149", "Parlour", 2)]


async def test_packs_in_the_unit_are_carried_into_the_room_that_is_laid_with_them(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *"kept k42", "enter", "c")
            assert "into Shop floor" in picture(app)
            await press(pilot, "ctrl+s")
        lines = [one for one in desk.packs.stock() if one.job_ref == "GQ-0145" and one.product == "OAK-190"]
    assert [(one.place, one.room, one.packs) for one in lines] == [(PlaceKind.ROOM, "Shop floor", 15)]


@pytest.mark.parametrize(
    ("typed", "say"),
    [("opened k40", "opened for laying is not carried"), ("customer w-318", "with the customer is not carried")],
)
async def test_what_cannot_be_carried_says_why(tmp_path: Path, typed: str, say: str) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *("space" if one == " " else one for one in typed), "enter", "c")
            assert isinstance(app.screen, StockScreen)
            assert say in toasts(app)


async def test_enter_opens_the_job_of_the_line(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *"bakery", "enter", "enter")
            folder = app.screen
            assert isinstance(folder, FolderScreen)
            assert folder.ref == "GQ-0145"
            await press(pilot, "escape")
            assert isinstance(app.screen, StockScreen)


async def test_enter_on_free_stock_says_that_it_has_no_job(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3", "slash", *"free", "enter", "enter")
            assert isinstance(app.screen, StockScreen)
            assert "belongs to no job" in toasts(app)


async def test_an_empty_stock_says_how_it_fills(tmp_path: Path) -> None:
    with new_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "3")
            assert "Nothing lies anywhere yet." in picture(app)
            await press(pilot, "c")
            assert "take in a delivery" in toasts(app)


async def test_a_product_that_is_named_like_markup_is_shown_as_it_is_named(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        product = desk.products.all()[0]
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            for name in (*HOSTILE[:4], *HOSTILE[5:]):
                with second_window(desk) as other:
                    product = other.products.change(product, replace(product, name=name))
                await press(pilot, "3", "2", "3")
                assert "\x1b" not in picture(app)
                assert isinstance(app.screen, StockScreen)
