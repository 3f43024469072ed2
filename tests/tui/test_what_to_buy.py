"""What a job needs bought: asked with n, each line explained, set by hand, taken back, written out, empty at first."""

import csv
from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from store.trade.buying.nouns import BuyingLine
from store.trade.jobs import CustomerDraft, JobDraft, Method, RoomDraft, Subfloor
from store.trade.outline import rectangle
from store.trade.things import Thing
from tests.tui.firm_window import NARROW, WIDE, MovingClock, demo_desk, folder, new_desk, press, seen, told, window_on
from tests.tui.lay_window import until
from tests.tui.shop_window import match_picture, picture, type_over
from tui.dialogs.own_line_form import OwnLineForm
from tui.dialogs.what_to_buy import WhatToBuy
from tui.widgets.filter_list import FilterList
from tui.widgets.safe import Line
from tui.widgets.signed_lines import SignedLines
from tui.words.buying import say_to_buy
from tui.words.buying_how import say_how

REF = "GQ-0145"


def below(pilot: Pilot[None]) -> str:
    """What is said of the chosen line."""
    return "\n".join(one.words for one in pilot.app.screen.query_one(SignedLines).lines)


async def choose(pilot: Pilot[None], thing: str) -> None:
    """Go through the list, key by key, to the line of a thing."""
    rows = pilot.app.screen.query_one(FilterList)
    for key in ("up", "down"):
        for _ in range(rows.table.row_count):
            if not (rows.chosen or "").startswith(f"{thing}:"):
                await pilot.press(key)
                await pilot.pause()
    assert (rows.chosen or "").startswith(f"{thing}:")


async def give(pilot: Pilot[None], **typed: str) -> None:
    """Type over fields of a form and save it."""
    for key, words in typed.items():
        pilot.app.screen.query_one(f"#field-{key.replace('_', '-')} Input").focus()
        await type_over(pilot, words)
    await pilot.press("ctrl+s")
    await pilot.pause()
    await pilot.pause()


def line_of(desk, thing: Thing) -> BuyingLine:
    lines = desk.buying.of(desk.jobs.card(REF).facts).lines
    return next(one for one in lines if one.thing is thing)


@pytest.mark.parametrize("size", [NARROW, WIDE], ids=["80x24", "120x36"])
async def test_n_shows_what_the_job_needs_bought(tmp_path: Path, size: tuple[int, int]) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF, size) as pilot:
            await press(pilot, "n")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy) and "Boards" in below(pilot))
            match_picture(pilot.app, f"to-buy-{size[0]}x{size[1]}")
            await pilot.press("slash", *"stick", "enter")
            await until(pilot, lambda: pilot.app.screen.query_one(FilterList).table.row_count == 1)
            assert pilot.app.screen.query_one(".filter-list--count", Line).words.startswith("1 of ")
            await pilot.press("escape", "escape")
            await until(pilot, lambda: not isinstance(pilot.app.screen, WhatToBuy))
            assert folder(pilot).ref == REF


async def test_a_line_says_how_it_was_worked_out_and_what_can_hurt(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF) as pilot:
            await press(pilot, "n")
            # 27.92 m² at 1,000 g: 27.92 kg, two tubs of 15.
            await choose(pilot, "glue")
            await until(pilot, lambda: "2 tubs of 15 kg: 27.92 m² at 1000 g/m²: 27.9 kg." in below(pilot))
            await choose(pilot, "screws")
            await until(pilot, lambda: "▲ Caution: look for pipes and cables" in below(pilot))


def test_a_line_that_no_sum_can_be_made_with_says_so_and_one_that_nothing_asks_for_says_that() -> None:
    line = BuyingLine(thing=Thing.TREADS, how=None, beyond_sum=True)
    assert say_how(line) == "▲ cannot be worked out with what was set: the reason stands below"
    assert say_how(replace(line, beyond_sum=False)) == "nothing on file asks for it any longer"


async def test_a_line_is_set_by_hand_with_a_reason_and_taken_back_again(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF) as pilot:
            await press(pilot, "n")
            before = line_of(desk, Thing.SKIRTING)
            await choose(pilot, "skirting")
            await pilot.press("e")
            await until(pilot, lambda: isinstance(pilot.app.screen, OwnLineForm))
            await give(pilot, size="3 m", why="Sold in 3 m here")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            line = line_of(desk, Thing.SKIRTING)
            assert (line.size, line.own.why) == (3000, "Sold in 3 m here")
            assert "reckoned with sticks of 3000 mm. x takes it back." in told(pilot)
            assert "✎ Reckoned with sticks of 3000 mm: Sold in 3 m here" in below(pilot)
            await pilot.press("x")
            await pilot.pause()
            await give(pilot, why="slip")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            assert line_of(desk, Thing.SKIRTING) == before
            said = [one.deed for one in desk.jobs.history(REF)[:2]]
            assert said == ["own line taken back", "line of the take-off set"]


async def test_a_line_is_left_out_and_primer_taken_up(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF) as pilot:
            await press(pilot, "n")
            await choose(pilot, "felt_pads")
            await pilot.press("e")
            await until(pilot, lambda: isinstance(pilot.app.screen, OwnLineForm))
            await pilot.press("space")
            await give(pilot, why="The customer has them")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            assert line_of(desk, Thing.FELT_PADS).to_buy == 0
            assert "✎ Left out (worked out: 1 set): The customer has them" in below(pilot)
            await choose(pilot, "primer")
            await pilot.press("e")
            await until(pilot, lambda: isinstance(pilot.app.screen, OwnLineForm))
            await give(pilot, why="The glue's sheet asks for it")
            await until(pilot, lambda: isinstance(pilot.app.screen, WhatToBuy))
            assert say_to_buy(line_of(desk, Thing.PRIMER)) == "1 canister of 10 kg"


async def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_lost(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF) as pilot:
            await press(pilot, "n")
            await choose(pilot, "skirting")
            await pilot.press("e")
            await until(pilot, lambda: isinstance(pilot.app.screen, OwnLineForm))
            await give(pilot, size="20", why="[bold]too short")
            assert isinstance(pilot.app.screen, OwnLineForm)
            assert "outside what this sum covers" in seen(pilot)
            assert "[bold]too short" in seen(pilot)
            assert line_of(desk, Thing.SKIRTING).own is None
            await give(pilot, size="three", why="as told")
            assert "“three” is no number" in seen(pilot)
            assert "Nothing is set yet" not in seen(pilot)
            await give(pilot, size="", why="")
            assert "Nothing is set yet" in seen(pilot)
            assert "Say why" in seen(pilot)


async def test_the_list_is_written_out_for_the_merchant(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, REF) as pilot:
            await press(pilot, "n")
            await pilot.press("w")
            await pilot.pause()
            await give(pilot, target=str(tmp_path))
            await until(pilot, lambda: "The list is in" in told(pilot))
        text = (tmp_path / f"{REF} to buy.txt").read_text(encoding="utf-8")
        assert "[ ] 2 tubs of 15 kg: Glue MS-15" in text
        assert all(len(line) <= 80 for line in text.splitlines())
        # Python's own reader of RFC 4180 finds what was written; what is not taken up is no line of it.
        with (tmp_path / f"{REF} to buy.csv").open(encoding="utf-8", newline="") as sheet:
            rows = list(csv.DictReader(sheet))
        assert {row["product"]: row["quantity"] for row in rows if row["product"]} == {"OAK-190": "15", "MS-15": "2"}
        assert not any("Primer" in row["what"] for row in rows)


async def test_without_a_room_the_list_teaches_what_to_do_first(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        customer = CustomerDraft(name="Tide Lane Library")
        desk.jobs.take_on(JobDraft(ref="GQ-0200", title="Reading room", customer=customer, address="2 Tide Lane"))
        async with window_on(desk, "GQ-0200") as pilot:
            await press(pilot, "n")
            assert "Measure a room first" in seen(pilot)
            assert "Set by hand" not in picture(pilot.app).splitlines()[-1]
            await pilot.press("e", "x", "w", "question_mark")
            await pilot.pause()
            assert "Help: To buy" in seen(pilot)


async def test_what_could_not_be_worked_out_is_told_beside_the_lines(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        customer = CustomerDraft(name="Tide Lane Library")
        desk.jobs.take_on(JobDraft(ref="GQ-0200", title="Reading room", customer=customer, address="2 Tide Lane"))
        room = RoomDraft(
            name="[red]Nave" + "e" * 60,
            outline=rectangle(4000, 3000),
            subfloor=Subfloor.CONCRETE,
            method=Method.GLUED,
            board="OAK-190",
        )
        desk.jobs.add_room("GQ-0200", room)
        async with window_on(desk, "GQ-0200") as pilot:
            await press(pilot, "n")
            await until(pilot, lambda: "names no glue yet" in below(pilot))
            assert "[red]Nave" in below(pilot)
