"""Every form, filled by keys alone and saved by the last Enter, answers the right draft."""

from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from store.trade.events import (
    SHELF,
    UNIT,
    CountDraft,
    DeliveryDraft,
    DeliveryLine,
    Destination,
    HandoverDraft,
    LayingDraft,
    MoveDraft,
    NoteDraft,
    OpeningDraft,
    OrderDraft,
    OrderLine,
    SmoothingDraft,
    SnagDraft,
    in_room,
)
from store.trade.firm import ClimateRange, ClockForm, FirmDraft, problems_with_firm
from store.trade.jobs import (
    CustomerDraft,
    JobDraft,
    Method,
    RoomDraft,
    Subfloor,
    problems_with_job,
    problems_with_room,
)
from store.trade.people import PersonDraft
from store.trade.products import BoardDraft, GlueDraft, ProductKind, problems_with_product
from store.trade.readings import Air, Carbide, ReadingDraft, Straightedge, problems_with_measure
from tests.tui.shop_window import ASH, CLOCK, GLUE, NOW, OAK, ShopWindow, answer_all, one_by_one
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.count_form import Counted, CountForm
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.laying_forms import FinishLaying, LayingWork, StartLaying
from tui.dialogs.move_form import MoveForm
from tui.dialogs.open_or_make import FirstStep, OpenOrMake
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.dialogs.product_form import ProductForm
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.room_form import RoomForm
from tui.dialogs.sign_form import SignForm
from tui.dialogs.smoothing_form import SmoothingForm
from tui.dialogs.take_on_job import TakeOnJob
from tui.dialogs.word_forms import NoteForm, PersonForm, SnagForm, TakeBack

AT_0930 = datetime(2026, 11, 25, 8, 30, tzinfo=UTC)
ROOMS = ["Reading room", "Hall"]
IN_UNIT = Lying(product="OAK-190", batch="K41", place=UNIT, packs=12)
IN_ROOM = Lying(product="OAK-190", batch="K42", place=in_room("Reading room"), packs=3, boards=2)


async def test_a_job_is_taken_on() -> None:
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=problems_with_job, ref="L-0008"))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, "Oak floor", "Quay Library", "012 34", "", "Pier 1", "18/12")
    customer = CustomerDraft(name="Quay Library", phone="012 34")
    assert app.answer == JobDraft(
        ref="L-0008", title="Oak floor", customer=customer, address="Pier 1", promised_on=date(2026, 12, 18)
    )


async def test_a_room_is_added_with_its_screed() -> None:
    def check(draft: RoomDraft) -> object:
        return problems_with_room(draft, ["OAK-190", "ASH-140"], ["MS-15"])

    app = ShopWindow(lambda: RoomForm(boards=[OAK, ASH], glues=[GLUE], clock=CLOCK, check=check))  # type: ignore[arg-type]
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Reading room", "5.2 x 4.1 m", "1000 x 500 at 0,0", ("space", "down", "enter"))
        await answer_all(pilot, None, None, "12", "8,5", None, ("space",), "65", "1/10", "27/11", "90", "0")
    assert app.answer == RoomDraft(
        name="Reading room",
        outline=((0, 0), (5200, 0), (5200, 4100), (0, 4100)),
        cut_outs=(((0, 0), (1000, 0), (1000, 500), (0, 500)),),
        subfloor=Subfloor.CEMENT_SCREED,
        method=Method.GLUED,
        board="ASH-140",
        glue="MS-15",
        heated=True,
        gap_mm=12,
        cut_loss_percent=8.5,
        screed_mm=65,
        screed_laid_on=date(2026, 10, 1),
        site_ready_on=date(2026, 11, 27),
        direction_deg=90.0,
        start=0,
    )


async def test_a_floating_floor_on_boards_is_asked_for_neither_glue_nor_screed() -> None:
    app = ShopWindow(lambda: RoomForm(boards=[OAK], glues=[GLUE], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Hall", "3000 right, 2000 up, 3000 left, 2000 down", None, None)
        await answer_all(pilot, ("space", "down", "enter"), None, None, ("space", "end", "enter"))
        await answer_all(pilot, None, None, None, None)
    room = app.answer
    assert isinstance(room, RoomDraft)
    assert (room.method, room.glue, room.subfloor) == (Method.FLOATING, None, Subfloor.BOARDS)
    assert room.outline == ((0, 0), (3000, 0), (3000, 2000), (0, 2000))


async def test_a_room_on_file_comes_back_unchanged_from_its_form() -> None:
    room = RoomDraft(
        name="Bay",
        outline=((0, 0), (4000, 0), (4000, 3000), (2000, 4000), (0, 3000)),
        cut_outs=(((500, 500), (900, 500), (900, 900)),),
        subfloor=Subfloor.CONCRETE,
        method=Method.GLUED,
        board="GONE-1",
        glue="MS-15",
        gap_mm=15,
        cut_loss_percent=7.125,
        direction_deg=-45.0,
    )
    app = ShopWindow(lambda: RoomForm(boards=[OAK], glues=[GLUE], clock=CLOCK, check=nothing_to_say, draft=room))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert app.answer == room


async def test_an_order_takes_over_what_is_suggested_and_one_more_line() -> None:
    suggested = [OrderLine(product="OAK-190", packs=11)]
    app = ShopWindow(lambda: OrderForm(products=[OAK, GLUE], suggested=suggested, clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Timber yard", "today", "+7")
        await one_by_one(pilot, "ctrl+n")
        await answer_all(pilot, ("space", "down", "enter"), "2")
    assert app.answer == OrderDraft(
        on=date(2026, 11, 25),
        due_on=date(2026, 12, 2),
        lines=(OrderLine(product="OAK-190", packs=11), OrderLine(product="MS-15", packs=2)),
        supplier="Timber yard",
    )


async def test_a_delivery_is_taken_in_by_batch() -> None:
    expected = [OrderLine(product="OAK-190", packs=12), OrderLine(product="MS-15", packs=2)]
    app = ShopWindow(
        lambda: DeliveryForm(products=[OAK, GLUE], expected=expected, rooms=ROOMS, clock=CLOCK, check=nothing_to_say)
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "9:30", ("space", "end", "enter"), None, "K41", None, "1", None, "", "", None)
    line = DeliveryLine(product="OAK-190", batch="K41", packs=12, damaged_packs=1)
    assert app.answer == DeliveryDraft(at=AT_0930, into=UNIT, lines=(line,))


async def test_packs_are_carried_into_a_room() -> None:
    app = ShopWindow(
        lambda: MoveForm(lying=[IN_ROOM, IN_UNIT], targets=[in_room("Hall"), SHELF], clock=CLOCK, check=nothing_to_say)
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, ("space", "down", "enter"), None, None, "9:30")
    assert app.answer == MoveDraft(
        at=AT_0930, product="OAK-190", batch="K41", packs=12, source=UNIT, target=in_room("Hall")
    )


async def test_a_reading_of_the_air_is_put_on_file_with_its_limit_beside_it() -> None:
    asked: list[tuple[str, str]] = []

    def limit_for(room: str, kind: str) -> str:
        asked.append((room, kind))
        return "It must be 18–24 °C and 40–65 %." if kind == "air" else ""

    app = ShopWindow(
        lambda: ReadingForm(
            rooms=ROOMS,
            clock=CLOCK,
            limit_for=limit_for,
            check=lambda draft: problems_with_measure(draft.measure),
            first=("Hall", "air"),
            people=["Ana", "Bo"],
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, None, "now", "20,5", "52", ("space", "down", "enter"), "by the door")
    assert ("Hall", "air") in asked
    assert app.answer == ReadingDraft(
        room="Hall", at=NOW, measure=Air(temp_c=20.5, rh_percent=52.0), taken_by="Ana", note="by the door"
    )


async def test_the_kind_of_reading_decides_what_is_asked() -> None:
    app = ShopWindow(
        lambda: ReadingForm(rooms=ROOMS, clock=CLOCK, limit_for=lambda room, kind: "", check=nothing_to_say)
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, ("space", "end", "enter"), None, "9:30", "2 m", "2,5", None, None)
    assert app.answer == ReadingDraft(room="Reading room", at=AT_0930, measure=Straightedge(span_mm=2000, gap_mm=2.5))
    app = ShopWindow(
        lambda: ReadingForm(
            rooms=ROOMS,
            clock=CLOCK,
            limit_for=lambda room, kind: "",
            check=nothing_to_say,
            first=("", "carbide"),
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, None, None, None, "1.8", None, None)
    assert isinstance(app.answer, ReadingDraft)
    assert app.answer.measure == Carbide(percent=1.8)


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
    app = ShopWindow(lambda: PersonForm(check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Ana")
    assert app.answer == PersonDraft(name="Ana")


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
        await answer_all(pilot, "182,40")
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
    )
    app = ShopWindow(lambda: ProductForm(kind=ProductKind.GLUE, currency="EUR", check=problems_with_product))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "MS-15", "Glue", "1000", "15", "40", "24", "3 days", "99")
    assert app.answer == GlueDraft(
        code="MS-15",
        name="Glue",
        rate_g_per_m2=1000,
        tub_kg=15.0,
        open_time_min=40,
        walk_on_hours=24,
        full_load_hours=72,
        price_minor=9900,
    )


async def test_the_firm_says_how_it_works() -> None:
    app = ShopWindow(lambda: FirmForm(today=CLOCK.today, check=problems_with_firm))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Gannet Quay Floors", "Europe/London", "mon-sat", "7:30", "16:00", "25/12/2026")
        await answer_all(pilot, "gbp", "17-25", "45-60", ("space", "down", "enter"), "12", "5", "3")
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
