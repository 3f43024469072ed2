"""A batch typed another way is asked about beside its field, and two batches in one room are told, never refused."""

from pathlib import Path
from typing import Any

from textual.pilot import Pilot

from store.trade.events import UNIT, DeliveryDraft, OrderLine, in_room
from tests.tui.made_up import made_up_desk, press, toasts, write
from tests.tui.shop_window import CLOCK, GLUE, OAK, ShopWindow, picture
from tui.app import LaydayApp
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.laying_forms import LayingWork, StartLaying
from tui.dialogs.move_form import MoveForm
from tui.dialogs.parts import Lying
from tui.widgets.batch_row import BatchRow

ON_FILE = {"OAK-190": ("K42", "K41", "[/] 9")}
LYING = {("Reading room", "OAK-190"): ("K41",)}


def delivery() -> DeliveryForm:
    return DeliveryForm(
        products=[OAK, GLUE],
        expected=[OrderLine(product="OAK-190", packs=4)],
        rooms=["Reading room", "Hall"],
        clock=CLOCK,
        check=nothing_to_say,
        batches=(ON_FILE, LYING),
    )


async def type_batch(pilot: Pilot[Any], batch: str) -> None:
    row = pilot.app.screen.query_one(BatchRow)
    row.parts["batch"].focus()
    await write(pilot, batch)


def words(app: ShopWindow) -> str:
    return " ".join(picture(app).replace("│", " ").split())


def batches_of(answer: object) -> list[str]:
    assert isinstance(answer, DeliveryDraft)
    return [line.batch for line in answer.lines]


async def test_a_batch_typed_another_way_is_asked_about_and_taken_as_it_is_on_file() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "k 41")
        assert "k 41 looks like K41, which is on file already. Is it the same?" in words(app)
        await press(pilot, "ctrl+s")
        assert "Say whether it is the same batch" in words(app)
        await press(pilot, "space", "down", "enter")
        assert app.screen.query_one(BatchRow).part("batch") == "K41"
        assert "looks like" not in words(app)
        await press(pilot, "ctrl+s")
    assert batches_of(app.answer) == ["K41"]


async def test_what_was_typed_is_kept_where_it_is_another_batch() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "K-41")
        await press(pilot, "ctrl+s", "space", "down", "down", "enter", "ctrl+s")
    assert batches_of(app.answer) == ["K-41"]


async def test_another_batch_typed_after_the_answer_is_asked_about_anew() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "K-41")
        await press(pilot, "ctrl+s", "space", "down", "down", "enter")
        await type_batch(pilot, "K-42")
        await press(pilot, "ctrl+s")
        assert "K-42 looks like K42" in words(app)
        assert "Say whether it is the same batch" in words(app)


async def test_a_batch_that_looks_like_one_in_a_row_above_is_asked_about() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 30)) as pilot:
        await type_batch(pilot, "L7")
        await press(pilot, "ctrl+n")
        second = app.screen.query(BatchRow)[1]
        second.parts["batch"].focus()
        await write(pilot, "l-07")
        assert "l-07 looks like L7" in words(app)


async def test_markup_in_a_batch_is_shown_as_it_is_written() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "[/]9")
        assert "[/]9 looks like [/] 9" in words(app)


async def test_a_new_batch_into_a_room_with_another_is_told_and_still_saved() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "K42")
        assert "2 batches of OAK-190 in the Reading room: K41 and K42." in words(app)
        await press(pilot, "ctrl+s")
    assert batches_of(app.answer) == ["K42"]


async def test_the_same_batch_or_another_room_is_not_warned_of() -> None:
    app = ShopWindow(delivery)
    async with app.run_test(size=(80, 24)) as pilot:
        await type_batch(pilot, "K41")
        assert "2 batches" not in words(app)


async def test_carrying_packs_to_another_batch_is_told() -> None:
    lying = [Lying(product="OAK-190", batch="K42", place=UNIT, packs=3)]
    targets = [in_room("Reading room"), in_room("Hall")]
    app = ShopWindow(
        lambda: MoveForm(lying=lying, targets=targets, clock=CLOCK, check=nothing_to_say, lying_in=LYING),
    )
    async with app.run_test(size=(80, 24)) as pilot:
        assert "2 batches of OAK-190 in the Reading room: K41 and K42." in words(app)
        await press(pilot, "tab", "tab", "space", "down", "enter")
        assert "2 batches" not in words(app)


async def test_a_second_batch_taken_in_is_told_in_the_toast_and_among_the_orders(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        window = LaydayApp(desk)
        async with window.run_test(size=(80, 24)) as pilot:
            await press(pilot, "2", "slash", *"0143", "enter", "enter", "i")
            assert isinstance(window.screen, DeliveryForm)
            await type_batch(pilot, "k 42")
            assert "k 42 looks like K42" in " ".join(picture(window).split())
            await type_batch(pilot, "K43")
            await press(pilot, "ctrl+s")
            assert "2 batches of OAK-190 in Gallery: K42 and K43." in toasts(window)
            assert "▲ 2 batches of OAK-190 in Gallery: K42 and K43." in picture(window)


async def test_laying_in_a_room_with_two_batches_says_so_and_begins_all_the_same() -> None:
    lying = [Lying(product="OAK-190", batch=batch, place=in_room("Hall"), packs=3) for batch in ("K41", "K42")]
    app = ShopWindow(
        lambda: StartLaying(
            rooms=["Reading room", "Hall"],
            lying=lying,
            clock=CLOCK,
            check=nothing_to_say,
            mixed={"Hall": "2 batches of OAK-190 in the Hall."},
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        assert "2 batches" not in words(app)
        await press(pilot, "space", "down", "enter")
        assert "▲ 2 batches of OAK-190 in the Hall." in words(app)
        await press(pilot, "ctrl+s")
    assert isinstance(app.answer, LayingWork)
