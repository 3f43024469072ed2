"""What somebody mistypes is said beside its field, and nothing of it is filed."""

from pathlib import Path

import pytest

from tests.tui.firm_window import demo_desk, press, seen, told, window_on
from tests.tui.shop_window import answer_all, picture, type_over
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.order_form import OrderForm


class TestWrongEntries:
    """What somebody mistypes is said beside its field, and nothing of it is filed."""

    async def test_a_delivery_before_its_order(self, tmp_path: Path) -> None:
        with demo_desk(tmp_path) as desk:
            async with window_on(desk, "GQ-0144") as pilot:
                await press(pilot, "i")
                await type_over(pilot, "1/10/2026 9:00")
                await press(pilot, "ctrl+s")
                assert isinstance(pilot.app.screen, DeliveryForm)
                assert "This delivery of WAL-120 is dated before its order; look at both dates." in seen(pilot)
                assert not desk.jobs.card("GQ-0144").facts.deliveries

    @pytest.mark.parametrize("packs", ["1000000000", "1e9", "-3", "0"])
    async def test_a_number_of_packs_that_cannot_be(self, tmp_path: Path, packs: str) -> None:
        with demo_desk(tmp_path) as desk:
            async with window_on(desk, "GQ-0149") as pilot:
                await press(pilot, "o")
                await answer_all(pilot, "Skerry", None, "+7", None)
                await type_over(pilot, packs)
                await press(pilot, "ctrl+s")
                assert isinstance(pilot.app.screen, OrderForm)
                assert "▲" in picture(pilot.app)
                assert not desk.jobs.card("GQ-0149").facts.orders

    async def test_a_reading_in_the_future(self, tmp_path: Path) -> None:
        with demo_desk(tmp_path) as desk:
            async with window_on(desk, "GQ-0149") as pilot:
                before = len(desk.jobs.card("GQ-0149").facts.readings)
                await press(pilot, "r")
                await answer_all(pilot, None, None, "26/11 9:00", "20", "50", *[None] * 4)
                assert "That moment has not come yet; write down what has happened." in seen(pilot)
                assert len(desk.jobs.card("GQ-0149").facts.readings) == before

    async def test_a_decimal_comma_is_read_as_one_and_a_doubtful_one_is_asked_about(self, tmp_path: Path) -> None:
        with demo_desk(tmp_path) as desk:
            async with window_on(desk, "GQ-0149") as pilot:
                await press(pilot, "r")
                await answer_all(pilot, None, None, None, "19,5", "1,234", *[None] * 4)
                assert "“1,234” can be read as 1234 or as 1 and a bit" in seen(pilot)
                await type_over(pilot, "48,5")
                await press(pilot, "ctrl+s")
                measure = desk.jobs.card("GQ-0149").facts.readings[-1].measure
                assert (measure.temp_c, measure.rh_percent) == (19.5, 48.5)

    async def test_a_batch_that_looks_like_markup_is_told_and_shown_as_it_is(self, tmp_path: Path) -> None:
        with demo_desk(tmp_path) as desk:
            async with window_on(desk, "GQ-0143") as pilot:
                await press(pilot, "i")
                await answer_all(pilot, None, None, None, "[/][@click=app.quit]K", "5", "0", "")
                assert "5 packs of OAK-190, batch [/][@click=app.quit]K, are in Gallery" in told(pilot)
                pilot.app.clear_notifications()
                await pilot.pause()
                assert "5 × OAK-190 [/][@cl" in seen(pilot)
                await press(pilot, "x")
                assert "[/][@click=app.quit]K" in seen(pilot)
