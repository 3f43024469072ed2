"""The forms that bring a job to its floor, filled by keys, each answer the right draft on the last Enter."""

from dataclasses import replace
from datetime import UTC, date, datetime

from store.trade.events import (
    SHELF,
    UNIT,
    DeliveryDraft,
    DeliveryLine,
    MoveDraft,
    OrderDraft,
    OrderLine,
    in_room,
)
from store.trade.evidence import Evidence
from store.trade.jobs import (
    CustomerDraft,
    JobDraft,
    Method,
    RoomDraft,
    Subfloor,
    problems_with_job,
    problems_with_room,
)
from store.trade.readings import Air, Carbide, ReadingDraft, Straightedge, problems_with_measure
from store.trade.surveyed import Doorway, FixedThing
from tests.tui.shop_window import ASH, CLOCK, GLUE, NOW, OAK, ShopWindow, answer_all, one_by_one, picture, type_over
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.move_form import MoveForm
from tui.dialogs.order_form import OrderForm
from tui.dialogs.parts import Lying
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.room_form import RoomForm
from tui.dialogs.take_on_job import TakeOnJob

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
        await answer_all(pilot, None, None, "12", "8,5", None, ("space",), "65", "1/10", "27/11", "90", "A")
        await answer_all(pilot, None, None, "A 600 900 Hall", "pipe 22 at 1200,300")
        await answer_all(pilot, "1/11", "9/11", "20/11", None)
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
        doorways=(Doorway(wall=0, from_mm=600, width_mm=900, to="Hall"),),
        fixed_things=(FixedThing(name="pipe", x_mm=1200, y_mm=300, size_mm=22),),
        heating_begun_on=date(2026, 11, 1),
        heating_proved_on=date(2026, 11, 9),
        heating_off_from=date(2026, 11, 20),
    )


async def test_a_floating_floor_on_boards_is_asked_for_neither_glue_nor_screed() -> None:
    app = ShopWindow(lambda: RoomForm(boards=[OAK], glues=[GLUE], clock=CLOCK, check=nothing_to_say))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "Hall", "3000 right, 2000 up, 3000 left, 2000 down", None, None)
        await answer_all(pilot, ("space", "down", "enter"), None, None, ("space", "end", "enter"))
        await answer_all(pilot, *(None,) * 9)
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
        await answer_all(pilot, ("space", "down", "enter"), "2", None, "45")
    assert app.answer == OrderDraft(
        freight_minor=4_500,
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
        await answer_all(pilot, "9:30", ("space", "end", "enter"), None, "K41", None, "1", None, "", "", None, "")
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


async def test_packs_go_at_first_to_a_room_that_is_laid_with_them() -> None:
    other = replace(IN_UNIT, product="ASH-140", batch="A7")
    app = ShopWindow(
        lambda: MoveForm(
            lying=[IN_UNIT, other],
            targets=[in_room("Hall"), in_room("Study"), SHELF],
            clock=CLOCK,
            check=nothing_to_say,
            laid_with={"Hall": "OAK-190", "Study": "ASH-140"},
        )
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, ("space", "down", "enter"), None, None, "9:30")
    assert app.answer is not None
    assert app.answer.target == in_room("Study")


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
        await answer_all(
            pilot, None, None, "now", "20,5", "52", ("space", "down", "enter"), "damp day", "by the door", None
        )
    assert ("Hall", "air") in asked
    assert app.answer == ReadingDraft(
        room="Hall",
        at=NOW,
        measure=Air(temp_c=20.5, rh_percent=52.0),
        taken_by="Ana",
        note="damp day",
        evidence=Evidence(point="by the door"),
    )


async def test_the_kind_of_reading_decides_what_is_asked() -> None:
    app = ShopWindow(
        lambda: ReadingForm(rooms=ROOMS, clock=CLOCK, limit_for=lambda room, kind: "", check=nothing_to_say)
    )
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, ("space", "end", "up", "enter"), None, "9:30", "2 m", "2,5", None, None, None, None)
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
        await answer_all(pilot, None, None, None, "1.8", None, None, "point 3", "bottle 2", "50", "0,7", "30", None)
    assert isinstance(app.answer, ReadingDraft)
    assert app.answer.measure == Carbide(percent=1.8)
    assert app.answer.evidence == Evidence(
        point="point 3", instrument="bottle 2", sample_g=50.0, gauge_bar=0.7, depth_mm=30
    )


async def test_a_promise_that_is_over_already_is_said_beside_the_day_and_may_be_filed() -> None:
    app = ShopWindow(lambda: TakeOnJob(clock=CLOCK, check=lambda draft: ()))
    async with app.run_test(size=(80, 24)) as pilot:
        await answer_all(pilot, "L-1", "Oak", "The quay library", None, None, None)
        await type_over(pilot, "20/11")
        await pilot.pause()
        assert "Fri 20 Nov, ▲ over already" in picture(app)
        await type_over(pilot, "fri")
        await pilot.pause()
        assert "over already" not in picture(app)
        await pilot.press("ctrl+s")
        await pilot.pause()
    assert isinstance(app.answer, JobDraft)
    assert app.answer.promised_on == date(2026, 11, 27)
