"""The forms for laying, counting, words, products and the firm, filled by keys, answer the right draft."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from store.trade.events import (
    UNIT,
    CountDraft,
    Destination,
    HandoverDraft,
    LayingDraft,
    NoteDraft,
    OpeningDraft,
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.firm import ClimateRange, ClockForm, FirmDraft, problems_with_firm
from store.trade.jobs import Subfloor
from store.trade.own_limits import OwnLimit
from store.trade.people import DaysOff, PersonDraft
from store.trade.products import BoardDraft, GlueDraft, problems_with_product
from store.trade.things import ProductKind
from store.trade.traditions import Tradition
from tests.tui.shop_window import CLOCK, NOW, ShopWindow, answer_all, one_by_one, picture
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.count_form import Counted, CountForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.laying_forms import FinishLaying, LayingWork, StartLaying
from tui.dialogs.open_or_make import FirstStep, OpenOrMake
from tui.dialogs.parts import Lying
from tui.dialogs.person_form import PersonForm
from tui.dialogs.product_form import ProductForm
from tui.dialogs.sign_form import SignForm
from tui.dialogs.smoothing_form import SmoothingForm
from tui.dialogs.word_forms import NoteForm, SnagForm, TakeBack
from tui.typed.days_off import read_days_off, typed_days_off
from tui.typed.figures import Misread

AT_0930 = datetime(2026, 11, 25, 8, 30, tzinfo=UTC)
ROOMS = ["Reading room", "Hall"]
IN_UNIT = Lying(product="OAK-190", batch="K41", place=UNIT, packs=12)
IN_ROOM = Lying(product="OAK-190", batch="K42", place=in_room("Reading room"), packs=3, boards=2)


async def test_smoothing_is_put_on_file() -> None:
    app = ShopWindow(lambda: SmoothingForm(rooms=ROOMS, clock=CLOCK, check=nothing_to_say, room="Hall"))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, "9:30", "five bags")
    assert app.answer == SmoothingDraft(room="Hall", at=AT_0930, note="five bags")


async def test_laying_begins_with_the_packs_that_are_opened() -> None:
    app = ShopWindow(lambda: StartLaying(rooms=ROOMS, lying=[IN_UNIT, IN_ROOM], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, "9:30", "", "3")
    opening = OpeningDraft(at=AT_0930, room="Reading room", product="OAK-190", batch="K42", packs=3)
    assert app.answer == LayingWork(laying=LayingDraft(room="Reading room", begun_at=AT_0930), openings=(opening,))


async def test_laying_ends_with_all_of_the_rest_unless_something_else_is_said() -> None:
    begun = LayingDraft(room="Hall", begun_at=NOW - timedelta(days=1))
    for typed, area_mm2 in ((None, 18_894_321), ("14,5", 14_500_000)):
        app = ShopWindow(lambda: FinishLaying(laying=begun, rest_mm2=18_894_321, clock=CLOCK, check=nothing_to_say))
        async with app.run_test(size=(80, 24)) as pilot:
            await answer_all(pilot, "9:30", typed, "2")
        assert app.answer == LayingWork(
            laying=LayingDraft(room="Hall", begun_at=begun.begun_at, ended_at=AT_0930, area_mm2=area_mm2, tubs=2)
        )


async def test_leftovers_are_counted_and_a_batch_can_be_split() -> None:
    app = ShopWindow(lambda: CountForm(lying=[IN_UNIT, IN_ROOM], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "9:30", "1", "", ("space", "down", "enter"), "0", "2")
        await one_by_one(pilot, "ctrl+n")
        await answer_all(pilot, "", "1", ("space", "end", "enter"))
    common = {"at": AT_0930, "product": "OAK-190"}
    assert app.answer == Counted(
        counts=(
            CountDraft(**common, batch="K41", packs=1, boards=0, to=Destination.UNIT),  # type: ignore[arg-type]
            CountDraft(**common, batch="K42", packs=0, boards=2, to=Destination.CUSTOMER),  # type: ignore[arg-type]
            CountDraft(**common, batch="K42", packs=0, boards=1, to=Destination.SCRAP),  # type: ignore[arg-type]
        )
    )


async def test_the_short_forms_take_a_few_words() -> None:
    app = ShopWindow(lambda: SignForm(customer="Quay Library", clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, "9:30")
    assert app.answer == HandoverDraft(signed_at=AT_0930, by="Quay Library")
    app = ShopWindow(lambda: NoteForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Key at the bakery", "9:30")
    assert app.answer == NoteDraft(at=AT_0930, text="Key at the bakery")
    app = ShopWindow(lambda: TakeBack(what="the reading"))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Wrong room")
    assert app.answer == "Wrong room"
    app = ShopWindow(lambda: PersonForm(clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Ana", ("space",), (), "1/6/2027", "24/12/2026 to 4/1/2027 Home; 7/1/2027 Dentist")
    off = (
        DaysOff(first=date(2026, 12, 24), last=date(2027, 1, 4), reason="Home"),
        DaysOff(first=date(2027, 1, 7), last=date(2027, 1, 7), reason="Dentist"),
    )
    until = date(2027, 6, 1)
    assert app.answer == PersonDraft(name="Ana", herringbone=True, isocyanates_until=until, days_off=off)
    assert read_days_off(typed_days_off(off), date(2026, 11, 25)) == off
    assert isinstance(read_days_off("Christmas", date(2026, 11, 25)), Misread)


async def test_a_snag_is_put_on_file_and_mended_later() -> None:
    app = ShopWindow(lambda: SnagForm(rooms=ROOMS, clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Skirting loose", ("space", "end", "enter"), "9:30")
    snag = SnagDraft(at=AT_0930, what="Skirting loose", room="Hall")
    assert app.answer == snag
    app = ShopWindow(lambda: SnagForm(rooms=ROOMS, clock=CLOCK, check=nothing_to_say, draft=snag))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, None, None, "now")
    assert app.answer == SnagDraft(at=AT_0930, what="Skirting loose", room="Hall", mended_at=NOW)


async def test_a_board_and_a_glue_are_added() -> None:
    app = ShopWindow(lambda: ProductForm(kind=ProductKind.BOARD, currency="EUR", check=problems_with_product))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "OAK-190", "Oak", "1.9 m", "190", "14", "6", "7 days", "18-24", "40 to 60", "", "oak")
        await answer_all(pilot, "182,40", "", "", None, "carbide cement 2; hygrometer 75", ("space",), None, "21")
    assert app.answer == BoardDraft(
        code="OAK-190",
        name="Oak",
        length_mm=1900,
        width_mm=190,
        thickness_mm=14,
        boards_per_pack=6,
        acclimatise_hours=168,
        species="oak",
        price_minor=18240,
        climate=ClimateRange(temp_min_c=18, temp_max_c=24, rh_min_percent=40, rh_max_percent=60),
        sheet_limits=(
            OwnLimit(kind="carbide", most=2.0, subfloor=Subfloor.CEMENT_SCREED),
            OwnLimit(kind="hygrometer", most=75.0),
        ),
        ready_when_stable=True,
        lead_days=21,
    )
    app = ShopWindow(lambda: ProductForm(kind=ProductKind.GLUE, currency="EUR", check=problems_with_product))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "MS-15", "Glue", "1000", "15", "40", "24", "3 days", "99", "", ("space",), None, "")
    assert app.answer == GlueDraft(
        code="MS-15",
        name="Glue",
        rate_g_per_m2=1000,
        tub_kg=15.0,
        open_time_min=40,
        walk_on_hours=24,
        full_load_hours=72,
        price_minor=9900,
        needs_training=True,
    )


async def test_the_firm_says_how_it_works() -> None:
    app = ShopWindow(lambda: FirmForm(today=CLOCK.today, check=problems_with_firm))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Gannet Quay Floors", "Europe/London", "mon-sat", "7:30", "16:00", "25/12/2026")
        await answer_all(pilot, "gbp", "17-25", "45-60", ("space", "down", "enter"), "12", "5", "3")
        await answer_all(pilot, ("space", "end", "enter"), "hygrometer 60: our own", ("space",))
    assert app.answer == FirmDraft(
        name="Gannet Quay Floors",
        time_zone="Europe/London",
        working_days=(0, 1, 2, 3, 4, 5),
        day_starts=time(7, 30),
        day_ends=time(16),
        holidays=(date(2026, 12, 25),),
        currency="GBP",
        climate=ClimateRange(temp_min_c=17, temp_max_c=25, rh_min_percent=45, rh_max_percent=60),
        clock_form=ClockForm.STRICT_LOG,
        log_gap_hours=12,
        flat_limit_mm=5,
        reading_good_days=3,
        tradition=Tradition.NORTH_AMERICAN,
        own_limits=(OwnLimit(kind="hygrometer", most=60.0, because="our own"),),
        tests_by_area=True,
    )


async def test_a_firm_on_file_comes_back_unchanged_from_its_form() -> None:
    firm = FirmDraft(name="F", holidays=(date(2026, 12, 25), date(2027, 1, 1)), climate=ClimateRange(temp_min_c=16.5))
    app = ShopWindow(lambda: FirmForm(today=CLOCK.today, check=problems_with_firm, draft=firm))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert app.answer == firm


async def test_a_question_is_answered_no_by_enter_and_escape_and_yes_only_on_purpose() -> None:
    for keys, sure in (
        (("enter",), False),
        (("escape",), False),
        (("right", "enter"), True),
        (("tab", "enter"), True),
    ):
        app = ShopWindow(lambda: AskYesNo("Throw it away?", yes="Throw away"))
        async with app.run_test(size=(80, 24)) as pilot:
            await one_by_one(pilot, *keys)
        assert app.answer is sure


async def test_the_first_step_is_chosen_with_the_arrows() -> None:
    for keys, step in (
        (("enter",), FirstStep.MAKE),
        (("down", "enter"), FirstStep.DEMO),
        (("up", "enter"), FirstStep.LEAVE),
        (("escape",), FirstStep.LEAVE),
    ):
        app = ShopWindow(lambda: OpenOrMake(path=Path("firm.layday")))
        async with app.run_test(size=(80, 24)) as pilot:
            await one_by_one(pilot, *keys)
        assert app.answer == step


async def test_who_hands_a_floor_over_is_told_what_is_still_to_be_put_right() -> None:
    snags = ("Skirting [/] loose",)
    app = ShopWindow(lambda: SignForm(customer="Quay Library", clock=CLOCK, check=nothing_to_say, snags=snags))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert "Still to put right: “Skirting [/] loose”." in picture(app)


async def test_the_second_line_of_a_split_batch_still_names_the_batch() -> None:
    lying = replace(IN_ROOM, product="OAK-BRUSHED-190", batch="K42")
    app = ShopWindow(lambda: CountForm(lying=[lying], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "9:30", "0", "2")
        await one_by_one(pilot, "ctrl+n")
        assert "and of K42" in picture(app)
