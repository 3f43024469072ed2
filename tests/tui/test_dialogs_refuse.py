"""What cannot be saved is said beside its field, all at once, and nothing that was typed is lost."""

from datetime import timedelta

import pytest

from store.errors import Problem
from store.trade.events import UNIT, LayingDraft, NoteDraft
from store.trade.firm import problems_with_firm
from store.trade.jobs import RoomDraft, problems_with_job, problems_with_room
from store.trade.products import problems_with_product
from store.trade.readings import problems_with_measure
from store.trade.things import ProductKind
from tests.tui.shop_window import (
    CLOCK,
    GLUE,
    NOTHING_YET,
    NOW,
    OAK,
    ShopWindow,
    one_by_one,
    type_over,
)
from tui.dialogs.count_form import CountForm
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.laying_forms import FinishLaying, StartLaying
from tui.dialogs.move_form import MoveForm
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.dialogs.person_form import PersonForm
from tui.dialogs.product_form import ProductForm
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.room_form import RoomForm
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm, SnagForm, TakeBack
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line

LYING = Lying(product="OAK-190", batch="K41", place=UNIT, packs=12)


def said(app: ShopWindow) -> dict[str, str]:
    """The problem shown under each field that has one."""
    return {field.key: field.problem for field in app.screen.query(Field) if field.problem}


def trouble(app: ShopWindow) -> str:
    return app.screen.query_one(".dialog--trouble", Line).words


async def test_every_fault_of_a_job_is_said_at_once_and_the_cursor_goes_to_the_first() -> None:
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=problems_with_job))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*["tab"] * 6, *"32/13", "ctrl+s")
        await pilot.pause()
        assert set(said(app)) == {"ref", "title", "customer", "promised_on"}
        assert "“32/13”" in said(app)["promised_on"]
        assert trouble(app) == "▲ 4 things to put right; nothing is saved yet."
        assert app.focused is not None
        assert app.focused.parent is not None
        assert app.screen.query_one("#field-ref OneLine").has_focus
        assert app.screen.query_one("#field-promised-on OneLine", OneLine).value == "32/13"
        assert app.answer is NOTHING_YET


async def test_a_fault_that_is_put_right_is_no_longer_shown() -> None:
    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert said(app) == {"text": "▲ Write at least a word."}
        await pilot.press(*"Key", "tab")
        await type_over(pilot, "soon")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert set(said(app)) == {"at"}


async def test_what_the_shop_says_about_no_field_stands_above_the_buttons() -> None:
    def check(_draft: NoteDraft) -> tuple[Problem, ...]:
        return (Problem(field="elsewhere", say="The job is closed."), Problem(field="text", say="Too rude."))

    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=check))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"Hm", "ctrl+s")
        await pilot.pause()
        assert trouble(app) == "▲ The job is closed."
        assert said(app) == {"text": "▲ Too rude."}


async def test_a_room_with_a_wrong_shape_and_a_name_taken_says_both() -> None:
    def check(draft: RoomDraft) -> tuple[Problem, ...]:
        return problems_with_room(draft, ["OAK-190"], ["MS-15"], ["Hall"])

    app = ShopWindow(lambda: RoomForm(boards=[OAK], glues=[GLUE], clock=CLOCK, check=check))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*"Hall", "tab", *"0,0", "space", *"10,10", "space", *"10,0", "space", *"0,10", "ctrl+s")
        await pilot.pause()
        assert set(said(app)) == {"name", "outline"}
        assert "crosses" in said(app)["outline"]


async def test_fields_that_must_be_filled_say_how() -> None:
    app = ShopWindow(lambda: ProductForm(kind=ProductKind.GLUE, currency="EUR", check=problems_with_product))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert said(app)["tub_kg"] == "▲ Fill this in: what a tub holds, in kg, like 15."
        assert set(said(app)) == {
            "code",
            "name",
            "rate_g_per_m2",
            "tub_kg",
            "open_time_min",
            "walk_on_hours",
            "full_load_hours",
        }


async def test_half_a_range_of_room_air_is_asked_for_the_other_half() -> None:
    app = ShopWindow(lambda: ProductForm(kind=ProductKind.BOARD, currency="EUR", check=problems_with_product))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*["tab"] * 7, *"18-24", "ctrl+s")
        await pilot.pause()
        assert said(app)["climate.rh"] == "▲ Give temperatures and humidities, or neither."


async def test_wrong_settings_of_the_firm_are_said_beside_them() -> None:
    app = ShopWindow(lambda: FirmForm(today=CLOCK.today, check=problems_with_firm))
    async with app.run_test(size=(80, 24)) as pilot:
        for text in ("", "Mars/Olympus", "someday", "17:00", "16:00", "x", "euro", "30-20", "40-65"):
            await type_over(pilot, text)
            await pilot.press("tab")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert {
            "name",
            "time_zone",
            "working_days",
            "day_ends",
            "holidays",
            "currency",
            "climate.temp",
        } == set(said(app))


async def test_an_order_or_delivery_without_a_line_says_so_and_a_wrong_line_says_which() -> None:
    app = ShopWindow(lambda: OrderForm(products=[OAK], suggested=[], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert "at least one product" in trouble(app) or "at least one product" in "".join(said(app).values())
    app = ShopWindow(lambda: DeliveryForm(products=[OAK], expected=[], rooms=[], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await one_by_one(pilot, "ctrl+n")
        await pilot.press("tab", "tab", *"2", "tab", *"3", "ctrl+s")
        await pilot.pause()
        assert said(app) == {"lines.1": "▲ Of 2 packs, from 0 to 2 can be damaged."}
        assert isinstance(app.focused, OneLine)
        assert app.focused.value == "3"


async def test_more_packs_than_there_are_can_be_neither_carried_nor_opened() -> None:
    app = ShopWindow(lambda: MoveForm(lying=[LYING], targets=[UNIT], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab")
        await type_over(pilot, "13")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert said(app) == {"packs": "▲ There are 12 to carry; write a number from 1 to 12."}
    app = ShopWindow(lambda: StartLaying(rooms=["Hall"], lying=[LYING], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab", "tab", *"13", "ctrl+s")
        await pilot.pause()
        assert said(app) == {"openings.0": "▲ There are 12 to open; write a number from 0 to 12."}


async def test_laying_cannot_end_before_it_began() -> None:
    laying = LayingDraft(room="Hall", begun_at=NOW - timedelta(hours=1))
    app = ShopWindow(lambda: FinishLaying(laying=laying, rest_mm2=10**7, clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await type_over(pilot, "6:00")
        await pilot.press("tab")
        await type_over(pilot, "0")
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert set(said(app)) == {"ended_at", "area_mm2"}


async def test_every_batch_must_be_counted() -> None:
    app = ShopWindow(lambda: CountForm(lying=[LYING], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert said(app) == {"counts.0": "▲ Count this batch too; write 0 where nothing is left."}
        await pilot.press(*"-1", "ctrl+s")
        await pilot.pause()
        assert said(app) == {"counts.0": "▲ A count is 0 or more."}


async def test_a_figure_no_instrument_shows_is_refused_beside_it() -> None:
    app = ShopWindow(
        lambda: ReadingForm(
            rooms=["Hall"],
            clock=CLOCK,
            limit_for=lambda room, kind: "",
            check=lambda draft: problems_with_measure(draft.measure),
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab", "tab", "tab", *"200", "tab", *"140", "ctrl+s")
        await pilot.pause()
        assert set(said(app)) == {"temp_c", "rh_percent"}


@pytest.mark.parametrize(
    "make",
    [
        lambda: PersonForm(clock=CLOCK, check=nothing_to_say),
        lambda: TakeBack(what="the note"),
        lambda: SnagForm(rooms=[], clock=CLOCK, check=nothing_to_say),
    ],
)
async def test_short_forms_want_at_least_a_word(make: object) -> None:
    app = ShopWindow(make)  # type: ignore[arg-type]
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
        assert len(said(app)) == 1


async def test_what_was_wrong_with_an_answer_goes_away_when_it_is_typed_anew() -> None:
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=problems_with_job))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press(*["tab"] * 6, *"32/13", "ctrl+s")
        await pilot.pause()
        await pilot.press(*"L-7")
        await pilot.pause()
        assert set(said(app)) == {"title", "customer", "promised_on"}
        assert trouble(app) != ""
        for answer in ("Library", "Frau Vey"):
            await pilot.press("tab", *answer)
        await pilot.press(*["tab"] * 4, "backspace")
        await pilot.pause()
        assert said(app) == {}
        assert trouble(app) == ""
