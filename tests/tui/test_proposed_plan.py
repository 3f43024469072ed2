"""A plan proposed in the diary: shown while it gets better, taken up whole or in part, and turned back."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import DataTable

from store.desk.desk import Desk
from store.trade.planning.nouns import Decider, FloorKey, Half, Reason, Visit
from tests.tui.firm_window import MovingClock, demo_desk, new_desk, press, seen, told, window_on
from tests.tui.shop_window import match_picture
from tui.dialogs.proposed_plan import ProposedPlan
from tui.screens.diary import DiaryScreen
from tui.widgets.safe import Line
from tui.words.proposals import say_reason, say_visit

TODAY = date(2026, 11, 25)
PARLOUR = FloorKey("GQ-0149", "Parlour")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        yield opened


async def open_plan(pilot: Pilot[Any]) -> ProposedPlan:
    await press(pilot, "7")
    await press(pilot, "p")
    plan = pilot.app.screen
    assert isinstance(plan, ProposedPlan)
    searching = [one for one in pilot.app.workers if one.group == "plan"]
    if searching:  # an empty list would mean all workers, and the errand waits for the answer
        await pilot.app.workers.wait_for_complete(searching)
    await pilot.pause()
    await pilot.pause()
    return plan


def bookings(desk: Desk) -> int:
    return sum(not one.cancelled for one in desk.diary.on_file())


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_plan_looks_like_its_picture(desk: Desk, size: tuple[int, int]) -> None:
    async with window_on(desk, size=size) as pilot:
        await open_plan(pilot)
        match_picture(pilot.app, f"diary-plan-{size[0]}x{size[1]}")


async def test_what_is_marked_is_booked_and_u_turns_all_of_it_back(desk: Desk) -> None:
    before = bookings(desk)
    async with window_on(desk) as pilot:
        await open_plan(pilot)
        await press(pilot, "enter")
        assert isinstance(pilot.app.screen, DiaryScreen)
        assert "taken up from the plan; u turns them back" in seen(pilot)
        assert bookings(desk) > before
        await press(pilot, "u")
        assert bookings(desk) == before


async def test_a_floor_that_is_taken_out_stays_as_it_is(desk: Desk) -> None:
    async with window_on(desk) as pilot:
        plan = await open_plan(pilot)
        await press(pilot, "a")
        assert "✓ GQ-" not in seen(pilot)
        for _ in range(plan.query_one(DataTable).row_count):
            if "Parlour" in plan.query_one(".plan--why", Line).words:
                break
            await press(pilot, "down")
        await press(pilot, "space")
        await press(pilot, "enter")
        taken = {(one.ref, one.room) for one in desk.diary.on_file() if one.ref == "GQ-0149"}
        assert taken == {PARLOUR}


async def test_leaving_the_plan_books_nothing(desk: Desk) -> None:
    before = desk.diary.on_file()
    async with window_on(desk) as pilot:
        await open_plan(pilot)
        await press(pilot, "escape")
        assert isinstance(pilot.app.screen, DiaryScreen)
        assert desk.diary.on_file() == before


async def test_with_no_floor_to_lay_the_key_says_so(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        async with window_on(desk) as pilot:
            await press(pilot, "7")
            await press(pilot, "p")
            assert "No floor is left to be laid" in told(pilot)


@pytest.mark.parametrize(
    ("halves", "said"),
    [
        (((14, 0), (14, 1)), "Mon 14 Dec"),
        (((14, 1),), "Mon 14 Dec afternoon"),
        (((14, 1), (15, 0)), "Mon 14 Dec afternoon to Tue 15 Dec morning"),
        (((14, 0), (14, 1), (15, 0), (15, 1)), "Mon 14 Dec to Tue 15 Dec"),
    ],
)
def test_a_visit_says_its_days_and_halves(halves: tuple[tuple[int, int], ...], said: str) -> None:
    days = tuple(Half(date(2026, 12, day), half) for day, half in halves)
    assert say_visit(Visit(floor=PARLOUR, fitter="Maren Holt", halves=days), TODAY) == said


@pytest.mark.parametrize("decider", list(Decider))
def test_every_reason_has_its_words(decider: Decider) -> None:
    reason = Reason(floor=PARLOUR, decider=decider, fitter="[/]\x1b[31m", behind=PARLOUR)
    said = say_reason(reason, TODAY)
    assert said
    assert "\x1b" not in said
