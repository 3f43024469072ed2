"""Stairs and materials at the screen: measured, changed and taken out; kept on file, chosen, ordered, taken in."""

from pathlib import Path

from textual.pilot import Pilot

from store.desk.desk import Desk
from store.trade.buying.nouns import BuyingLine
from store.trade.events import DeliveryDraft, DeliveryLine, OrderDraft, OrderLine, in_room
from store.trade.materials import Material, MaterialDraft
from store.trade.things import Thing
from tests.tui.firm_window import WIDE, demo_desk, folder, press, seen, told, turn_to, window_on
from tests.tui.lay_window import until
from tests.tui.shop_window import match_picture, type_over
from tui.dialogs.flight_form import FlightForm
from tui.dialogs.own_line_form import OwnLineForm
from tui.dialogs.what_to_buy import WhatToBuy
from tui.widgets.choices import SelectField
from tui.widgets.filter_list import FilterList

STAIRS, MEASURED = "GQ-0150", "GQ-0149"


async def give(pilot: Pilot[None], **typed: str) -> None:
    """Type over fields of the form that is open."""
    for key, words in typed.items():
        pilot.app.screen.query_one(f"#field-{key.replace('_', '-')} Input").focus()
        await type_over(pilot, words)
    await pilot.pause()


async def save(pilot: Pilot[None]) -> None:
    await pilot.press("ctrl+s")
    await pilot.pause()
    await pilot.pause()


def line_of(desk: Desk, ref: str, thing: Thing) -> BuyingLine:
    lines = desk.buying.of(desk.jobs.card(ref).facts).lines
    return next(one for one in lines if one.thing is thing)


async def test_stairs_are_measured_with_f_and_the_form_says_which_rule_they_break(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, MEASURED) as pilot:
            await press(pilot, "f")
            assert isinstance(pilot.app.screen, FlightForm)
            await give(pilot, name="Cellar [b]stairs[/b]", rise_mm="2860", width_mm="abc", going_mm="220")
            await save(pilot)
            assert "“abc” is no number" in seen(pilot)
            await give(pilot, width_mm="860", risers="13")
            assert "= 13 risers of 220 mm, 12 treads of 220 mm going; ✗ Pitch 45°; at most 42°" in seen(pilot)
            await save(pilot)
            (flight,) = desk.jobs.card(MEASURED).facts.flights
            assert (flight.name, flight.rise_mm, flight.width_mm, flight.code) == (
                "Cellar [b]stairs[/b]", 2860, 860, "ad-k-private",
            )  # fmt: skip
            assert "They break a limit" in told(pilot)
            words = seen(pilot)
            assert "✗ 1 limit" in words
            assert "Cellar [b]stairs[/b]" in words


async def test_stairs_are_changed_with_e_and_taken_out_with_x_and_the_history_keeps_both(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, STAIRS, WIDE) as pilot:
            await turn_to(pilot, "survey")
            await pilot.press("down", "down")
            await pilot.pause()
            words = seen(pilot)
            assert "✓ Within the limits looked at" in words
            assert "3 winders on 0.81 m²" in words
            await press(pilot, "e")
            await give(pilot, run_mm="1500")
            await save(pilot)
            (flight,) = desk.jobs.card(STAIRS).facts.flights
            assert (flight.run_mm, flight.rev) == (1500, 2)
            assert "They break a limit" in told(pilot)
            await press(pilot, "x")
            assert "Take Loft stairs out of the job?" in seen(pilot)
            await pilot.press("tab", "enter")
            await until(pilot, lambda: not desk.jobs.card(STAIRS).facts.flights)
            deeds = [line.deed for line in desk.jobs.history(STAIRS)]
            assert deeds[:2] == ["stairs removed", "stairs changed"]


async def test_winders_are_asked_for_only_where_the_stairs_turn(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, MEASURED) as pilot:
            await press(pilot, "f")
            form = pilot.app.screen
            winders = form.query_one("#field-winders")
            assert not winders.display
            turn = form.query_one("#field-turn", SelectField)
            turn.choose("quarter_turn")
            await pilot.pause()
            assert winders.display
            await give(
                pilot,
                name="Loft",
                rise_mm="2600",
                width_mm="800",
                run_mm="2000",
                winders="900 x 900",
                winder_treads="3",
            )
            assert "12 risers of 216.7 mm, 11 treads of 250 mm going, 3 of them winders" in seen(pilot)
            await save(pilot)
            assert desk.jobs.card(MEASURED).facts.flights[0].winder_treads == 3


async def test_the_survey_of_stairs_looks_like_its_picture(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, STAIRS) as pilot:
            await turn_to(pilot, "survey")
            await pilot.press("down", "down")
            await pilot.pause()
            match_picture(pilot.app, "folder_stairs_80x24")


async def test_a_material_is_put_on_file_and_begins_with_what_is_usual_for_the_thing(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, size=WIDE) as pilot:
            await press(pilot, "4")
            await press(pilot, "n")
            await pilot.press("down", "down")
            await press(pilot, "enter")
            form = pilot.app.screen
            form.query_one("#field-thing", SelectField).choose("film")
            await pilot.pause()
            assert form.query_one("#field-width-mm").display
            assert not form.query_one("#field-rate").display
            await give(
                pilot, code="PE-25", name="Film, 0.2 mm", width_mm="", price_minor="45", safety="[red]slips[/red]"
            )
            await save(pilot)
            assert "Say how wide a roll is" in seen(pilot)
            await give(pilot, width_mm="2 m")
            await save(pilot)
            film = next(one for one in desk.products.all() if one.code == "PE-25")
            assert isinstance(film, Material)
            assert (film.thing, film.size, film.width_mm, film.price_minor) == (Thing.FILM, 25, 2000, 4500)
            words = seen(pilot)
            assert "2 × 25 m" in words
            assert "[red]slips[/red]" in words


async def test_changing_a_material_keeps_what_is_on_file(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        before = next(one for one in desk.products.all() if one.code == "LEV-25")
        async with window_on(desk) as pilot:
            await press(pilot, "4")
            await pilot.press("down", "down", "down", "down")
            await press(pilot, "e")
            await save(pilot)
            after = next(one for one in desk.products.all() if one.code == "LEV-25")
            assert isinstance(after, Material)
            assert (after.size, after.rate, after.safety) == (25, 1.6, before.safety)  # type: ignore[union-attr]


async def test_one_of_several_products_is_chosen_for_a_line_of_the_list(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        for code, size in (("SK-A", 2400), ("SK-B", 3000)):
            desk.products.add(
                MaterialDraft(code=code, name="Skirting", thing=Thing.SKIRTING, size=size, price_minor=2000)
            )
        async with window_on(desk, STAIRS) as pilot:
            await press(pilot, "n")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            rows = pilot.app.screen.query_one(FilterList)
            while rows.chosen != "skirting:":
                await pilot.press("down")
                await pilot.pause()
            assert line_of(desk, STAIRS, Thing.SKIRTING).product == "SK-A"
            await press(pilot, "e")
            form = pilot.app.screen
            assert isinstance(form, OwnLineForm)
            form.query_one("#field-product", SelectField).choose("SK-B")
            await give(pilot, why="Longer, fewer joints")
            await save(pilot)
            line = line_of(desk, STAIRS, Thing.SKIRTING)
            assert (line.product, line.size) == ("SK-B", 3000)
            assert "bought as SK-B" in told(pilot)
            assert "No supplier named" in seen(pilot)


async def test_what_has_no_product_says_how_to_get_one(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, STAIRS) as pilot:
            await press(pilot, "n")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            rows = pilot.app.screen.query_one(FilterList)
            while rows.chosen != "wedges:":
                await pilot.press("down")
                await pilot.pause()
            assert "No product on file for it; n in Products (4) adds one." in seen(pilot)


async def test_sticks_are_ordered_taken_in_and_lie_in_the_stock_as_sticks(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, STAIRS) as pilot:
            await turn_to(pilot, "orders")
            assert "And 4 packs of ASH-180 for the stairs." in seen(pilot)
            await press(pilot, "o")
            await save(pilot)
            assert "3 packs of ASH-180" in told(pilot)
            await press(pilot, "o")
            assert "Fulmar Hardwoods" in seen(pilot)
            await save(pilot)
            assert "6 sticks of NOSE-24" in told(pilot)
            assert not [one for one in desk.shopping.to_order() if one.job_ref == STAIRS]
            draft = DeliveryDraft(
                at=desk.now(), into=in_room("Front office"), lines=(DeliveryLine(product="NOSE-24", batch="", packs=6),)
            )
            desk.packs.take_in(STAIRS, draft)
            folder(pilot).again()
            await pilot.pause()
            assert "6 sticks of NOSE-24" in seen(pilot)
            (line,) = (one for one in desk.packs.stock() if one.product == "NOSE-24")
            assert (line.packs, line.thing, line.worth_minor) == (6, Thing.NOSING, 6 * 2860)
            await press(pilot, "escape")
            await press(pilot, "3")
            await until(pilot, lambda: "NOSE-24" in seen(pilot))
            assert "6 sticks" in seen(pilot)


def test_crushed_sticks_are_offered_again(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        order = OrderDraft(on=desk.today(), due_on=None, lines=(OrderLine(product="NOSE-24", packs=6),), supplier="")
        desk.packs.order(STAIRS, order)
        line = DeliveryLine(product="NOSE-24", batch="", packs=6, damaged_packs=2)
        desk.packs.take_in(STAIRS, DeliveryDraft(at=desk.now(), into=in_room("Front office"), lines=(line,)))
        (left,) = (one for one in desk.shopping.to_order() if one.product == "NOSE-24")
        assert left.packs == 2
