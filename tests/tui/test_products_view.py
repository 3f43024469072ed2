"""The products view: makers' sheets put on file and changed, and nothing typed lost when two windows change one."""

from dataclasses import replace
from pathlib import Path

import pytest

from store.trade.firm import ClimateRange
from store.trade.products import Board, Glue, Product
from tests.tui.made_up import made_up_desk, new_desk, press, second_window, toasts, write
from tests.tui.shop_window import HOSTILE, assert_as_painted, picture, settled
from tui.app import LaydayApp
from tui.dialogs.choose import Choose
from tui.dialogs.product_form import ProductForm
from tui.screens.products import ProductsScreen


def product(products: tuple[Product, ...], code: str) -> Product:
    return next(one for one in products if one.code == code)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_products_look_like_their_picture(tmp_path: Path, size: tuple[int, int]) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=size) as pilot:
            await press(pilot, "4")
            shown = await settled(app, pilot)
    assert_as_painted(shown, f"products-{size[0]}x{size[1]}")


async def test_the_first_board_and_glue_are_put_on_file_with_keys_alone(tmp_path: Path) -> None:
    with new_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4")
            assert "No board and no glue is on file yet." in picture(app)
            await press(pilot, "n", "enter")
            for answer in (
                "OAK-190",
                "Oak plank",
                "1900",
                "190",
                "14",
                "6",
                "168",
                "",
                "",
                "engineered",
                "oak",
                "182,40",
                "",
                "",
            ):
                await write(pilot, answer)
                await press(pilot, "enter")
            await press(pilot, *["enter"] * 5)
            assert isinstance(app.screen, ProductsScreen)
            assert "OAK-190" in picture(app)
            assert "EUR 182.40" in picture(app)
            await press(pilot, "n", "down", "enter")
            for answer in ("MS-15", "Elastic glue", "1000", "15", "40", "24", "3 days", "99"):
                await write(pilot, answer)
                await press(pilot, "enter")
            await press(pilot, *["enter"] * 4)
            assert "after 72 h" in picture(app)
        board, glue = product(desk.products.all(), "OAK-190"), product(desk.products.all(), "MS-15")
    assert isinstance(board, Board)
    assert (board.length_mm, board.width_mm, board.boards_per_pack, board.price_minor) == (1900, 190, 6, 18_240)
    assert board.climate is None
    assert isinstance(glue, Glue)
    assert (glue.rate_g_per_m2, glue.full_load_hours, glue.price_minor) == (1000, 72, 9_900)


async def test_a_price_is_changed_and_shown_at_once(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4", "down", "enter", *("shift+tab",) * 10)
            assert isinstance(app.screen, ProductForm)
            await write(pilot, "190")
            await press(pilot, "ctrl+s")
            assert "EUR 190.00" in picture(app)
            assert "The sheet of OAK-190 is changed." in toasts(app)
        assert product(desk.products.all(), "OAK-190").price_minor == 19_000


async def test_what_another_window_changed_meanwhile_is_told_and_what_was_typed_is_kept(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4", "down", "e", "tab")
            await write(pilot, "Oak, my own words")
            with second_window(desk) as other:
                oak = product(other.products.all(), "OAK-190")
                other.products.change(oak, replace(oak, price_minor=20_000))
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, ProductForm)
            shown = " ".join(picture(app).replace("│", " ").split())
            assert "OAK-190 was changed in another window (on file now: A pack costs: EUR 200.00)" in shown
            assert "Oak, my own words" in shown
            assert product(desk.products.all(), "OAK-190").name != "Oak, my own words"
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, ProductsScreen)
        assert product(desk.products.all(), "OAK-190").name == "Oak, my own words"


async def test_a_product_keeps_its_code(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4", "e")
            await write(pilot, "ASH-181")
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, ProductForm)
            assert "keeps its code, ASH-180" in picture(app)
        assert product(desk.products.all(), "ASH-180").rev == 1


async def test_the_sheet_says_in_one_line_whose_range_of_air_holds(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        ash = product(desk.products.all(), "ASH-180")
        own = ClimateRange(temp_min_c=15, temp_max_c=25, rh_min_percent=35, rh_max_percent=60)
        desk.products.change(ash, replace(ash, climate=own))
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4")
            assert "15–25 °C and 35–60 %, the maker's, which goes before the firm's" in picture(app)
            await press(pilot, "down")
            assert "18–24 °C and 40–65 %, the firm's own range" in picture(app)


async def test_help_names_the_danger_of_polyurethane_glue_and_every_key(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4", "question_mark")
            shown = picture(app)
    assert "isocyanates" in shown
    assert "s holds the suppliers" in " ".join(shown.replace("│", " ").split())


async def test_a_product_named_like_markup_is_shown_as_it_is_named(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            for name in HOSTILE:
                with second_window(desk) as other:
                    ash = product(other.products.all(), "ASH-180")
                    other.products.change(ash, replace(ash, name=name, species=name))
                await press(pilot, "3", "4", "e", "escape")
                shown = await settled(app, pilot)
                assert isinstance(app.screen, ProductsScreen)
                assert "\x1b" not in shown
                assert name[:3].replace("\x1b", "␛").replace("\u202e", "\ufffd") in shown


async def test_a_view_that_is_asked_again_before_its_parts_are_there_waits_until_they_are(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        ProductsScreen(desk).ask_again()
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4")
            assert "ASH-180" in await settled(app, pilot)


async def test_nothing_is_offered_for_change_while_there_is_no_product(tmp_path: Path) -> None:
    with new_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "4")
            shown = picture(app)
            assert "n New product" in shown
            assert "Change it" not in shown
            await press(pilot, "e", "n")
            assert isinstance(app.screen, Choose)
