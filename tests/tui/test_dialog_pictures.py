"""Pictures of the forms as the terminal shows them, and the promise that every one of them fits 80 by 24."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from textual.screen import Screen
from textual.widgets import Button

from store.trade.events import SHELF, UNIT, LayingDraft, OrderLine, SnagDraft, in_room
from store.trade.firm import ClimateRange
from store.trade.jobs import Method, RoomDraft, Subfloor, problems_with_job
from store.trade.things import ProductKind
from tests.tui.shop_window import ASH, CLOCK, GLUE, NOW, OAK, ShopWindow, match_picture, picture
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.count_form import CountForm
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.laying_forms import FinishLaying, StartLaying
from tui.dialogs.move_form import MoveForm
from tui.dialogs.open_or_make import OpenOrMake
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.dialogs.person_form import PersonForm
from tui.dialogs.product_form import ProductForm
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.room_form import RoomForm
from tui.dialogs.sign_form import SignForm
from tui.dialogs.smoothing_form import SmoothingForm
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm, SnagForm, TakeBack

ROOMS = ["Reading room", "Hall"]
LYING = [
    Lying(product="OAK-190", batch="K41", place=UNIT, packs=12),
    Lying(product="OAK-190", batch="K42", place=in_room("Reading room"), packs=3, boards=2),
]
LINES = [OrderLine(product="OAK-190", packs=12), OrderLine(product="MS-15", packs=2)]
ROOM = RoomDraft(
    name="Reading room",
    outline=((0, 0), (5200, 0), (5200, 1400), (4300, 1400), (4300, 4100), (0, 4100)),
    subfloor=Subfloor.CEMENT_SCREED,
    method=Method.GLUED,
    board="OAK-190",
    glue="MS-15",
    screed_mm=65,
)
BEGUN = LayingDraft(room="Reading room", begun_at=NOW - timedelta(days=1))


def limit_for(room: str, kind: str) -> str:
    return "It must be 18–24 °C and 40–65 %." if kind == "air" else ""


def reading_form(kind: str) -> ReadingForm:
    return ReadingForm(
        rooms=ROOMS,
        clock=CLOCK,
        limit_for=limit_for,
        check=nothing_to_say,
        first=("Hall", kind),
        people=["Ana"],
    )


FORMS: dict[str, Callable[[], Screen[Any]]] = {
    "job": lambda: TakeOnJob(clock=CLOCK, check=problems_with_job, ref="L-0008"),
    "room": lambda: RoomForm(boards=[OAK, ASH], glues=[GLUE], clock=CLOCK, check=nothing_to_say, draft=ROOM),
    "order": lambda: OrderForm(products=[OAK, GLUE], suggested=LINES, clock=CLOCK, check=nothing_to_say),
    "delivery": lambda: DeliveryForm(
        products=[OAK, GLUE], expected=LINES, rooms=ROOMS, clock=CLOCK, check=nothing_to_say
    ),
    "move": lambda: MoveForm(lying=LYING, targets=[in_room("Reading room"), SHELF], clock=CLOCK, check=nothing_to_say),
    "reading-air": lambda: reading_form("air"),
    "reading-carbide": lambda: reading_form("carbide"),
    "smoothing": lambda: SmoothingForm(rooms=ROOMS, clock=CLOCK, check=nothing_to_say),
    "start-laying": lambda: StartLaying(rooms=ROOMS, lying=LYING, clock=CLOCK, check=nothing_to_say),
    "finish-laying": lambda: FinishLaying(
        laying=BEGUN, rest_mm2=18_890_000, clock=CLOCK, check=nothing_to_say, lying=LYING
    ),
    "count": lambda: CountForm(lying=LYING, clock=CLOCK, check=nothing_to_say),
    "sign": lambda: SignForm(customer="Quay Library", clock=CLOCK, check=nothing_to_say),
    "snag": lambda: SnagForm(
        rooms=ROOMS, clock=CLOCK, check=nothing_to_say, draft=SnagDraft(at=NOW, what="Skirting loose")
    ),
    "note": lambda: NoteForm(clock=CLOCK, check=nothing_to_say),
    "take-back": lambda: TakeBack(what="the reading of Tue 17 Nov 09:30", follows="The wait begins later then."),
    "board": lambda: ProductForm(
        kind=ProductKind.BOARD, currency="EUR", check=nothing_to_say, draft=OAK, climate=ClimateRange()
    ),
    "glue": lambda: ProductForm(kind=ProductKind.GLUE, currency="EUR", check=nothing_to_say, draft=GLUE),
    "firm": lambda: FirmForm(today=CLOCK.today, check=nothing_to_say),
    "person": lambda: PersonForm(clock=CLOCK, check=nothing_to_say),
    "question": lambda: AskYesNo("Throw away what you typed?", yes="Throw away", no="Keep typing"),
    "first-run": lambda: OpenOrMake(path=Path("firm.layday")),
}


@pytest.mark.parametrize("name", list(FORMS))
async def test_each_form_looks_as_pictured(name: str) -> None:
    app = ShopWindow(FORMS[name])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        match_picture(app, f"form-{name}-80x24")


async def test_a_room_in_a_wide_window_looks_as_pictured() -> None:
    app = ShopWindow(FORMS["room"])
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        match_picture(app, "form-room-120x36")


async def test_faults_beside_their_fields_look_as_pictured() -> None:
    app = ShopWindow(FORMS["job"])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        match_picture(app, "form-job-faults-80x24")


async def test_help_over_a_form_looks_as_pictured() -> None:
    app = ShopWindow(FORMS["order"])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f1")
        await pilot.pause()
        match_picture(app, "form-help-80x24")


@pytest.mark.parametrize("name", list(FORMS))
async def test_every_button_of_every_form_is_in_sight_even_in_a_small_window(name: str) -> None:
    app = ShopWindow(FORMS[name])
    async with app.run_test(size=(60, 18)) as pilot:
        await pilot.pause()
        for button in app.screen.query("Button").results(Button):
            if button.id != "add-row":
                assert app.screen.region.contains_region(button.region), button.id
                assert str(button.label) in picture(app)


@pytest.mark.parametrize("size", [(40, 12), (20, 5), (5, 3), (1, 1)])
async def test_no_window_is_too_small_to_survive(size: tuple[int, int]) -> None:
    app = ShopWindow(FORMS["room"])
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.resize_terminal(*size)
        await pilot.resize_terminal(80, 24)
        await pilot.pause()
        assert "Change a room" in picture(app)
