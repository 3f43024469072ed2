"""Four weeks of the made-up firm: planned by hand with keys, a delivery slips, the plan is mended, calendars go out."""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot

from store.desk.desk import Desk
from store.trade.clashes import ClashKind
from tests.papers.calendar_checker import faults
from tests.papers.calendar_readers import found_by_all
from tests.tui.firm_window import demo_desk, press, seen, told, window_on
from tests.tui.shop_window import type_over
from tui.dialogs.booking_form import where_of
from tui.errands.diary_errands import _places

FIRST, LAST = date(2026, 11, 25), date(2026, 12, 22)
BY_HAND = (
    # Laying goes on in the back office and the reading room.
    ("Nils Aaker", "GQ-0150", "Back office", "25/11", "27/11"),
    ("Maren Holt", "GQ-0141", "Reading room", "25/11", "27/11"),
    ("Tove Ruud", "GQ-0142", "Vestry", "30/11", "1/12"),
    # Ready Mon 30 Nov 14:00. Tove is at the dentist on Thu 3 Dec.
    ("Nils Aaker", "GQ-0146", "Dining room", "1/12", "2/12"),
    ("Nils Aaker", "GQ-0146", "Hall", "3/12", "3/12"),
    ("Maren Holt", "GQ-0144", "Living room", "2/12", "3/12"),
    # Due Mon 30 Nov, a week in the room: ready Mon 7 Dec; 16.1 h are two days.
    ("Tove Ruud", "GQ-0143", "Gallery", "7/12", "8/12"),
    ("Maren Holt", "GQ-0149", "Parlour", "16/12", "17/12"),
    ("Tove Ruud", "GQ-0149", "Study", "18/12", "18/12"),
)
"""Who lays what from when to when, as somebody at the diary would think it out."""


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        for booking in opened.diary.on_file():
            opened.diary.cancel(booking)
        yield opened


async def pick(pilot: Pilot[Any], options: list[str], wanted: str) -> None:
    """Choose one of the list of the field under the cursor, and go on to the next field."""
    await pilot.press("space", "home", *["down"] * options.index(wanted), "enter", "enter")
    await pilot.pause()


async def book(pilot: Pilot[Any], desk: Desk, who: str, ref: str, room: str, first: str, last: str) -> None:
    await press(pilot, "b")
    await pick(pilot, [one.name for one in desk.firm.people()], who)
    await pick(pilot, [value for value, _ in _places(desk.diary.card(FIRST, LAST))], where_of(ref, room))
    await type_over(pilot, first)
    await pilot.press("enter")
    await type_over(pilot, last)
    await press(pilot, "ctrl+s")
    assert f"Booked: {who}" in seen(pilot)


async def plan_by_hand(pilot: Pilot[Any], desk: Desk) -> None:
    await press(pilot, "7")
    for line in BY_HAND:
        await book(pilot, desk, *line)


async def wait_for(pilot: Pilot[Any], group: str) -> None:
    for _ in range(20):
        going_on = [one for one in pilot.app.workers if one.group == group and not one.is_finished]
        if not going_on:
            break
        await pilot.app.workers.wait_for_complete(going_on)
    await pilot.pause()
    await pilot.pause()


async def let_the_oak_slip_a_week(pilot: Pilot[Any]) -> None:
    """What if the gallery's oak comes a week later? It does: it is filed by the form it is chased with."""
    for key in ("i", "enter", "tab"):
        await press(pilot, key)
    await type_over(pilot, "a week later")
    await press(pilot, "ctrl+s")
    await wait_for(pilot, "suppose")
    for key in ("f", "ctrl+s", "escape"):
        await press(pilot, key)


def clashes(desk: Desk) -> dict[str, set[ClashKind]]:
    """What speaks against the bookings of each job."""
    found: dict[str, set[ClashKind]] = {}
    for one in desk.diary.card(FIRST, LAST).placed:
        if one.clashes:
            found.setdefault(one.booking.ref, set()).update(clash.kind for clash in one.clashes)
    return found


async def test_four_weeks_are_planned_by_hand_a_delivery_slips_and_the_plan_is_mended(desk: Desk) -> None:
    async with window_on(desk, size=(120, 36)) as pilot:
        await plan_by_hand(pilot, desk)
        # Nobody is anywhere twice or away, no promise is broken; some floors still ask for something to be done first.
        waiting = {ClashKind.NOT_READY}
        assert clashes(desk) == {"GQ-0142": waiting, "GQ-0144": waiting, "GQ-0149": waiting}
        before = desk.diary.on_file()

        await let_the_oak_slip_a_week(pilot)
        assert "The order is now due Mon 7 Dec" in told(pilot)
        assert clashes(desk)["GQ-0143"] == {ClashKind.TOO_SOON}

        await press(pilot, "p")
        await wait_for(pilot, "plan")
        await press(pilot, "enter")
        # What is laid later is cured later, and the promise that this breaks is told at once.
        assert "2 bookings taken up from the plan; u turns them back. ▲ B" in seen(pilot)
        assert "after the day promised; GQ-0145 the floor is not ready" in seen(pilot)
        assert ClashKind.TOO_SOON not in clashes(desk).get("GQ-0143", set())
        (gallery,) = (one for one in desk.diary.on_file() if one.ref == "GQ-0143" and not one.cancelled)
        assert (gallery.first, gallery.changes) == (date(2026, 12, 14), 1)
        # Whatever need not move has not moved.
        kept = {one.id: (one.person, one.first, one.last) for one in before if one.ref not in {"GQ-0143"}}
        now = {one.id: (one.person, one.first, one.last) for one in desk.diary.on_file()}
        assert {number: now[number] for number in kept} == kept


async def test_the_calendar_files_are_read_by_three_readers_with_the_right_instants(
    desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    async with window_on(desk, size=(120, 36)) as pilot:
        await plan_by_hand(pilot, desk)
        # And Maren hands the studio over on the morning of Tue 1 Dec.
        await book(pilot, desk, "Maren Holt", "GQ-0147", "Studio", "1/12", "1/12")
        await press(pilot, "enter")
        await pilot.press("tab", "tab", "tab", "tab", "space", "down", "enter")
        await press(pilot, "ctrl+s")
        for key in ("c", "enter"):
            await press(pilot, key)
        await type_over(pilot, "four-weeks.ics")
        await press(pilot, "enter")
    raw = (tmp_path / "four-weeks.ics").read_bytes()
    assert faults(raw) == []
    found = [one for one in found_by_all(raw) if one.status == "CONFIRMED"]
    told_days = {(one.summary.partition(":")[0], one.begin, one.end, one.also_on) for one in found}
    as_typed = {
        (who, _day(first), date.fromordinal(_day(last).toordinal() + 1), ()) for who, _, _, first, last in BY_HAND
    }
    # The day is 08:00 to 16:30 in Brussels, its middle 12:15; in December that is 07:00 to 11:15 UTC.
    morning = (datetime(2026, 12, 1, 7, tzinfo=UTC), datetime(2026, 12, 1, 11, 15, tzinfo=UTC))
    assert told_days == {*as_typed, ("Maren Holt", *morning, ())}
    assert len(found) == len(BY_HAND) + 1


def _day(typed: str) -> date:
    day, month = typed.split("/")
    return date(2026, int(month), int(day))
