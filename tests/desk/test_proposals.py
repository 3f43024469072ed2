"""A plan proposed for the open floors: what it is made from, what it books when taken up, and turning it back."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.errors import ChangedMeanwhile, Refused
from store.trade.bookings import Booking, BookingDraft
from store.trade.planning.nouns import FloorKey, Proposal
from tests.tui.firm_window import MovingClock, demo_desk, new_desk

GALLERY = FloorKey("GQ-0143", "Gallery")
PARLOUR = FloorKey("GQ-0149", "Parlour")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        yield opened


def best(desk: Desk) -> Proposal:
    return list(desk.proposals.search(desk.proposals.facts()))[-1]


def booked(desk: Desk) -> set[Booking]:
    return {replace(one, changes=0) for one in desk.diary.on_file() if not one.cancelled}


def far_off(desk: Desk, booking: Booking) -> Booking:
    day = date(2027, 2, 1)
    return desk.diary.change(booking, replace(booking, first=day, last=day)).bookings[0]


def test_every_open_floor_is_in_the_plan_or_named_as_one_of_several_people(desk: Desk) -> None:
    planning = desk.proposals.facts()
    open_rooms = {
        FloorKey(card.ref, room.name)
        for card in desk.jobs.today()
        for room in card.facts.rooms
        if card.standing.verdict
    }
    floors = {floor.key for floor in planning.floors} | set(planning.with_crews)
    laid = {FloorKey("GQ-0150", "Front office")}
    assert floors == open_rooms - laid


def test_a_plan_taken_up_is_what_the_next_plan_finds_booked(desk: Desk) -> None:
    planning, plan = desk.proposals.facts(), best(desk)
    desk.proposals.take_up(planning, plan, {reason.floor for reason in plan.reasons})
    again = best(desk)
    assert again.changes == 0
    assert {visit.floor: visit for visit in again.visits} == {visit.floor: visit for visit in plan.visits}


def test_a_part_of_a_plan_is_booked_and_turned_back_whole(desk: Desk) -> None:
    planning, plan, before = desk.proposals.facts(), best(desk), booked(desk)
    done = desk.proposals.take_up(planning, plan, {PARLOUR})
    assert {(one.ref, one.room) for one in done.bookings} == {PARLOUR}
    assert booked(desk) > before
    desk.diary.undo()
    assert booked(desk) == before


def test_a_booking_that_is_moved_stays_the_same_one_for_everybodys_calendar(desk: Desk) -> None:
    old = next(one for one in desk.diary.on_file() if one.ref == GALLERY.job)
    far_off(desk, old)
    planning, plan = desk.proposals.facts(), best(desk)
    done = desk.proposals.take_up(planning, plan, {GALLERY})
    assert old.mark in {one.mark for one in done.bookings}


def test_a_plan_made_before_another_window_moved_a_booking_is_not_taken_up(desk: Desk) -> None:
    old = next(one for one in desk.diary.on_file() if one.ref == GALLERY.job)
    moved = far_off(desk, old)
    planning, plan = desk.proposals.facts(), best(desk)
    desk.diary.move(moved, 1)
    before = booked(desk)
    with pytest.raises(ChangedMeanwhile):
        desk.proposals.take_up(planning, plan, {GALLERY, PARLOUR})
    assert booked(desk) == before


def test_somebody_away_or_booked_elsewhere_is_not_planned_then(desk: Desk) -> None:
    for person in desk.firm.people():
        desk.diary.book("GQ-0151", BookingDraft(person=person.name, first=date(2026, 12, 7), last=date(2026, 12, 18)))
    plan = best(desk)
    fortnight = {date(2026, 12, day) for day in range(7, 19)}
    kept = {one.floor for one in plan.reasons if one.decider in {"booked", "pinned"}}
    assert not [
        half for visit in plan.visits if visit.floor not in kept for half in visit.halves if half.day in fortnight
    ]


def test_with_nothing_to_lay_or_nobody_on_file_there_is_no_plan(tmp_path: Path) -> None:
    with new_desk(tmp_path, MovingClock()) as desk:
        with pytest.raises(Refused, match="No floor is left to be laid"):
            desk.proposals.facts()
        desk.firm.remove_person(desk.firm.people()[0])
        with pytest.raises(Refused, match="Nobody is on file yet"):
            desk.proposals.facts()


def test_taking_up_nothing_new_is_refused(desk: Desk) -> None:
    planning, plan = desk.proposals.facts(), best(desk)
    with pytest.raises(Refused, match="booked like that already"):
        desk.proposals.take_up(planning, plan, set())
