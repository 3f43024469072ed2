"""A form is left, helped with and saved by keys and by the mouse."""

from store.trade.events import UNIT, NoteDraft
from store.trade.jobs import problems_with_job
from tests.tui.shop_window import (
    CLOCK,
    OAK,
    ShopWindow,
    one_by_one,
    picture,
)
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.help_screen import HelpScreen
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm
from tui.widgets.one_line import OneLine

LYING = Lying(product="OAK-190", batch="K41", place=UNIT, packs=12)


async def test_escape_leaves_an_unchanged_form_at_once_and_asks_in_a_changed_one() -> None:
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=problems_with_job))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("escape")
        await pilot.pause()
        assert app.answer is None
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=problems_with_job))
    async with app.run_test(size=(80, 24)) as pilot:
        await one_by_one(pilot, "x", "escape")
        assert isinstance(app.screen, AskYesNo)
        await pilot.press("enter")
        await pilot.pause()
        assert isinstance(app.screen, TakeOnJob)
        assert app.screen.query_one("#field-ref OneLine", OneLine).value == "x"
        await one_by_one(pilot, "escape", "right", "enter")
        assert app.answer is None


async def test_help_shows_the_keys_of_the_form_and_escape_goes_back_to_it() -> None:
    app = ShopWindow(lambda: OrderForm(products=[OAK], suggested=[], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("f1")
        await pilot.pause()
        assert isinstance(app.screen, HelpScreen)
        shown = picture(app)
        for words in ("Ctrl+S", "Save", "Esc", "Cancel", "Ctrl+N", "Add a line"):
            assert words in shown
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, OrderForm)


async def test_the_mouse_saves_and_cancels() -> None:
    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"Key")
        await pilot.click("#save")
        await pilot.pause()
        assert isinstance(app.answer, NoteDraft)
    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.click("#cancel")
        await pilot.pause()
        assert app.answer is None
