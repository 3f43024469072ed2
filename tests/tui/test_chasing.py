"""An overdue order is chased: a new day from the supplier moves the job's wait, and a word alone becomes a note."""

from datetime import date
from pathlib import Path

from store.trade.verdict import HoldKind, HoldState, Why
from tests.tui.firm_window import demo_desk, press, seen, told, window_on
from tests.tui.shop_window import type_over

OVERDUE = "GQ-0144"


def packs_hold(desk):
    holds = desk.jobs.card(OVERDUE).standing.holds
    return next(hold for hold in holds if hold.kind is HoldKind.PACKS)


async def test_a_new_day_from_the_supplier_is_what_the_job_waits_for(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        assert packs_hold(desk).why is Why.OVERDUE
        async with window_on(desk, OVERDUE) as pilot:
            await press(pilot, "d")
            assert "15 packs of WAL-120 and 2 tubs of MS-15 from Fulmar Hardwoods, due" in seen(pilot)
            await type_over(pilot, "2/12/2026")
            await press(pilot, "enter")
            await type_over(pilot, "The lorry broke down")
            await press(pilot, "ctrl+s")
            assert "The order is now due Wed 2 Dec" in told(pilot)
        hold = packs_hold(desk)
        assert (hold.state, hold.due_on) == (HoldState.WAITING, date(2026, 12, 2))
        facts = desk.jobs.card(OVERDUE).facts
        assert [order.due_on for order in facts.orders] == [date(2026, 12, 2)]
        assert facts.notes[-1].text == "The lorry broke down"
        assert desk.jobs.history(OVERDUE)[0].deed == "order due on another day"


async def test_a_word_alone_is_noted_and_the_order_stays_overdue(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, OVERDUE) as pilot:
            await press(pilot, "d")
            await pilot.press("enter")
            await type_over(pilot, "Nobody answered")
            await press(pilot, "ctrl+s")
        assert desk.jobs.card(OVERDUE).facts.notes[-1].text == "Nobody answered"
        assert packs_hold(desk).why is Why.OVERDUE


async def test_a_day_that_is_over_is_no_new_day(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, OVERDUE) as pilot:
            await press(pilot, "d")
            await type_over(pilot, "2/11/2026")
            await press(pilot, "ctrl+s")
            assert "That day is over already" in seen(pilot)
        assert packs_hold(desk).why is Why.OVERDUE


async def test_a_floor_that_still_cures_is_signed_for_only_after_a_second_thought(tmp_path: Path):
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0147") as pilot:
            await press(pilot, "g")
            assert "Have it signed before the glue has cured?" in seen(pilot)
            assert "The glue cures until Fri 27 Nov 16:10." in seen(pilot)
            await press(pilot, "enter")
            assert "Hand over the floor" not in seen(pilot)
        assert desk.jobs.card("GQ-0147").facts.handover is None
