"""Errands: each opens its form filled with what is known, files the answer, tells it, and loses nothing typed."""

from pathlib import Path
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.screen import Screen

from store.desk.desk import Desk
from store.trade.jobs import CustomerDraft, JobDraft
from store.trade.verdict import DeedKind, NextDeed
from tests.tui.firm_window import MovingClock, demo_desk, new_desk, press, seen, set_out, told, window_on
from tests.tui.shop_window import answer_all
from tui.dialogs.ask_yes_no import AskYesNo
from tui.dialogs.chase_form import ChaseForm
from tui.dialogs.count_form import CountForm
from tui.dialogs.delivery_form import DeliveryForm
from tui.dialogs.laying_forms import FinishLaying
from tui.dialogs.mend_form import MendForm
from tui.dialogs.morning_form import MorningForm
from tui.dialogs.move_form import MoveForm
from tui.dialogs.reading_form import ReadingForm
from tui.dialogs.room_form import RoomForm
from tui.dialogs.sign_form import SignForm
from tui.dialogs.smoothing_form import SmoothingForm
from tui.errands.errands import Errands
from tui.screens.folder import FolderScreen
from tui.view import View


def errands(pilot: Pilot[None]) -> Errands:
    screen = pilot.app.screen
    assert isinstance(screen, View)
    return Errands(screen)


def deed(kind: DeedKind, room: str = "", product: str = "") -> NextDeed:
    return NextDeed(kind=kind, room=room, product=product)


@pytest.mark.parametrize(
    ("ref", "asked", "form", "words"),
    [
        ("GQ-0151", deed(DeedKind.MEASURE), RoomForm, "Add a room"),
        ("GQ-0149", deed(DeedKind.ORDER, product="OAK-190"), AskYesNo, "Your last 3 floors in straight rows of 190 mm"),
        ("GQ-0144", deed(DeedKind.CHASE, product="WAL-120"), ChaseForm, "15 packs of WAL-120 and 2 tubs of MS-15"),
        ("GQ-0143", deed(DeedKind.TAKE_IN, product="OAK-190"), DeliveryForm, "into Gallery"),
        (
            "GQ-0145",
            deed(DeedKind.CARRY_IN, "Shop floor", "OAK-190"),
            MoveForm,
            "15 packs of OAK-190, batch K42, in the unit",
        ),
        ("GQ-0149", deed(DeedKind.READ_AIR, "Study"), ReadingForm, "Room air ▼ Room Study"),
        ("GQ-0142", deed(DeedKind.PUT_AIR_RIGHT, "Vestry"), ReadingForm, "Must be 18–24 °C and 40–65 %."),
        ("GQ-0149", deed(DeedKind.TEST_DAMP, "Study"), ReadingForm, "Must be at most 12 % (makers' instructions"),
        ("GQ-0145", deed(DeedKind.TEST_DAMP, "Shop floor"), ReadingForm, "Carbide test of the screed"),
        ("GQ-0149", deed(DeedKind.CHECK_FLAT, "Study"), ReadingForm, "Must be at most 3 mm."),
        ("GQ-0149", deed(DeedKind.LEVEL, "Parlour"), SmoothingForm, "Room Parlour"),
        ("GQ-0141", deed(DeedKind.READ_BOARDS, "Reading room"), ReadingForm, "Must be at most 2 points from 9.5 %"),
        ("GQ-0141", deed(DeedKind.LAY, "Reading room"), MorningForm, "Before the first board"),
        ("GQ-0150", deed(DeedKind.FINISH_LAYING, "Back office"), FinishLaying, "of 12.00 m² left to lay"),
        ("GQ-0149", deed(DeedKind.NAME_GLUE, "Study"), RoomForm, "Change a room"),
        ("GQ-0148", deed(DeedKind.COUNT, product="WAL-120"), AskYesNo, "Count more leftovers?"),
        ("GQ-0148", deed(DeedKind.SIGN), SignForm, "Harbour Pilots' Mess"),
        ("GQ-0148", deed(DeedKind.MEND, "Mess room"), MendForm, "Skirting loose behind the door"),
    ],
    ids=lambda one: one.kind.value if isinstance(one, NextDeed) else None,
)
async def test_each_deed_opens_its_form_filled_with_what_it_is_about(
    tmp_path: Path, ref: str, asked: NextDeed, form: type[Screen[Any]], words: str
) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk) as pilot:
            await set_out(pilot, errands(pilot).do(asked, ref))
            assert isinstance(pilot.app.screen, form)
            assert words in seen(pilot)


def test_there_is_a_deed_for_every_kind(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        assert set(Errands(FolderScreen(desk, "GQ-0141"))._deeds) == set(DeedKind)


@pytest.mark.parametrize(
    ("ref", "key", "why"),
    [
        ("GQ-0151", "o", "No room is on file yet"),
        ("GQ-0151", "i", "Nothing is on order for this job; put its order on file first (o)."),
        ("GQ-0151", "c", "No room is on file yet"),
        ("GQ-0149", "c", "No packs of this job lie anywhere yet; order them first (o)."),
        ("GQ-0151", "r", "measure one first (a)"),
        ("GQ-0151", "s", "measure one first (a)"),
        ("GQ-0151", "l", "there is no floor to lay; measure one first (a)."),
        ("GQ-0144", "l", "No packs of WAL-120 have come to site yet; take a delivery in first (i)"),
        ("GQ-0147", "l", "Every room of this job is laid"),
        ("GQ-0141", "k", "Nothing is laid yet, so nothing is left over"),
        ("GQ-0141", "g", "Not all is laid yet (Reading room); nothing to sign for."),
        ("GQ-0138", "g", "A. Penrose has signed for this job already."),
    ],
)
async def test_what_cannot_be_done_now_says_why_and_what_would_help(
    tmp_path: Path, ref: str, key: str, why: str
) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, ref) as pilot:
            if ref == "GQ-0149":
                # Free stock of its board would lie in the unit, and could be carried.
                take_free_stock(desk)
            await press(pilot, key)
            assert isinstance(pilot.app.screen, FolderScreen)
            assert why in told(pilot)


def take_free_stock(desk: Desk) -> None:
    card = desk.jobs.card("GQ-0138")
    for count in card.facts.counts:
        desk.closing.take_back("GQ-0138", count, "For this test")


async def test_a_room_cannot_be_measured_before_there_is_a_board(tmp_path: Path) -> None:
    clock = MovingClock()
    with new_desk(tmp_path, clock) as desk:
        desk.jobs.take_on(JobDraft(ref="L-1", title="A floor", customer=CustomerDraft(name="Vale")))
        async with window_on(desk, "L-1") as pilot:
            desk.products.all = lambda: ()  # type: ignore[method-assign]
            await press(pilot, "a")
            assert "No board is on file yet" in told(pilot)


async def test_laying_before_all_is_ready_asks_first_and_says_what_is_in_the_way(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0146") as pilot:
            await press(pilot, "l")
            assert isinstance(pilot.app.screen, AskYesNo)
            assert "Lay the Dining room all the same?" in seen(pilot)
            assert "41 h of 168 h, ready Mon 30 Nov 14:00" in seen(pilot)
            await press(pilot, "enter")
            assert isinstance(pilot.app.screen, FolderScreen)
            assert not desk.jobs.card("GQ-0146").facts.layings


async def test_packs_opened_since_are_filed_with_the_end_of_laying_or_not_at_all(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0150") as pilot:
            await press(pilot, "l")
            await answer_all(pilot, None, None, "1", "0", "2")
            assert "is laid" in told(pilot)
            facts = desk.jobs.card("GQ-0150").facts
            assert facts.openings[-1].packs == 2
            assert facts.openings[-1].room == "Back office"
            assert [one for one in facts.layings if one.ended_at is None] == []


async def test_carrying_offers_the_unit_then_free_stock_then_the_rooms(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0141") as pilot:
            await press(pilot, "c")
            await press(pilot, "space")
            words = seen(pilot)
            free = words.index("2 packs of OAK-190, batch K39, in the unit, free")
            assert free < words.rindex("11 packs of OAK-190, batch K41, in the Reading room")
            assert "2 tubs of MS-15" in words


async def test_free_stock_carried_into_the_room_begins_its_wait(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0141") as pilot:
            await press(pilot, "c")
            await answer_all(pilot, None, None, None, None)
            assert "2 packs of OAK-190, batch K39, are in the Reading room; ready Wed 2 Dec 07:30" in told(pilot)
            assert desk.packs.on_shelf("OAK-190") == {}


async def test_a_snag_put_right_is_not_asked_for_again(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0148") as pilot:
            await press(pilot, "e")
            assert isinstance(pilot.app.screen, MendForm)
            await answer_all(pilot, "yesterday 16:00")
            assert "The snag “Skirting loose behind the door.” is put right." in told(pilot)
            await press(pilot, "e")
            assert "was put right Tue 24 Nov 16:00 already" in told(pilot)


async def test_a_room_with_readings_stays_in_the_job_and_the_shop_says_why(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "x")
            await press(pilot, "right")
            await press(pilot, "enter")
            assert "Something is on file about this room, so it stays." in told(pilot)
            assert len(desk.jobs.card("GQ-0149").facts.rooms) == 2


async def test_counting_puts_what_is_wrong_beside_its_own_line(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0147") as pilot:
            await press(pilot, "k")
            assert isinstance(pilot.app.screen, CountForm)
            await answer_all(pilot, None, "20", "0", None, "", "", None)
            assert "OAK-190, batch K40: 14 packs on site then, and no more to count." in seen(pilot)
            assert "1 thing to put right" in seen(pilot)
            row = pilot.app.screen.query_one("#field-counts-0")
            assert row.has_class("-wrong")


async def test_a_folder_is_closed_by_going_to_the_view_it_was_opened_from(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        async with window_on(desk, "GQ-0149") as pilot:
            await press(pilot, "1")
            assert not isinstance(pilot.app.screen, FolderScreen)
