"""The diary on the command line: a week as a sheet and for scripts, calendar files, and what is refused how."""

import json
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest

from store.desk.desk import Desk, open_desk
from store.trade.bookings import BookingDraft, Part
from tests.papers.calendar_checker import faults, unfolded
from tests.tui.firm_window import MovingClock
from tests.tui.somebodys_folder import Shop, folder, job

AT = "2026-12-01T10:00:00+01:00"
WEEK = ("diary", "--week", "2026-12-02", "--at", AT)


@contextmanager
def desk_of(shop: Shop) -> Iterator[Desk]:
    with open_desk(shop.path, clock=MovingClock(), who="Ode") as desk:
        yield desk


@pytest.fixture
def booked(shop: Shop) -> Shop:
    """A shop where Ode is booked over a weekend and Wim for a morning."""
    shop.take_in(folder(job("B-1", customer={"name": "Quay; library, \\ north"})))
    with desk_of(shop) as desk:
        desk.diary.book("B-1", BookingDraft(person="Ode", first=date(2026, 12, 4), last=date(2026, 12, 7)))
        morning = BookingDraft(person="Wim", first=date(2026, 12, 2), last=date(2026, 12, 2), part=Part.MORNING)
        desk.diary.book("B-1", morning)
    return shop


def test_a_week_reads_day_by_day_within_80_columns(booked: Shop) -> None:
    ran = booked.run(*WEEK)
    assert (ran.status, ran.err) == (0, b"")
    told = ran.out.decode()
    assert "week 49 of 2026: Mon 30 Nov to Sun 6 Dec" in told
    assert "Wed 2 Dec\n  Wim  B-1" in told
    assert "Fri 4 Dec\n  Ode  B-1" in told
    assert "Sat 5 Dec" not in told
    assert all(len(line) <= 80 for line in told.splitlines())
    only = booked.run(*WEEK, "--person", "Wim").out.decode()
    assert "Wim" in only
    assert "Ode" not in only


def test_the_week_for_scripts_tells_days_and_what_speaks_against_them(booked: Shop) -> None:
    told = json.loads(booked.run(*WEEK, "--json").out)
    assert (told["week"], told["from"], told["to"]) == ("2026-W49", "2026-11-30", "2026-12-06")
    assert [(one["person"], one["part"], one["days"]) for one in told["bookings"]] == [
        ("Wim", "morning", ["2026-12-02"]),
        ("Ode", "day", ["2026-12-04", "2026-12-07"]),
    ]
    assert {clash["kind"] for one in told["bookings"] for clash in one["clashes"]} <= {"not_ready", "too_soon"}
    assert [one["name"] for one in told["people"]] == ["Ode", "Wim"]


def test_an_empty_week_says_how_to_book_somebody(booked: Shop) -> None:
    assert "7 and then b" in booked.run("diary", "--week", "2027-06-01").out.decode()


@pytest.mark.parametrize(
    ("monday", "week"),
    [
        # RFC 5545 §3.8.5.3 prints “Monday of week number 20” as these days (told from memory).
        ("1997-05-12", "week 20 of 1997"),
        ("1998-05-11", "week 20 of 1998"),
        ("1999-05-17", "week 20 of 1999"),
        # ISO 8601: the week with the year's first Thursday is its first; 2026 and 2020 have 53.
        ("2026-12-28", "week 53 of 2026"),
        ("2027-01-03", "week 53 of 2026"),
        ("2021-01-01", "week 53 of 2020"),
        ("2027-01-04", "week 1 of 2027"),
    ],
)
def test_weeks_are_numbered_as_the_standards_print_them(booked: Shop, monday: str, week: str) -> None:
    assert week in booked.run("diary", "--week", monday).out.decode()


def test_calendars_are_written_for_the_firm_a_person_and_a_job(booked: Shop, tmp_path: Path) -> None:
    for options in ((), ("--person", "Wim"), ("--job", "B-1")):
        ran = booked.run("calendar", *options)
        assert ran.status == 0
        assert faults(ran.out) == []
    only = "\n".join(unfolded(booked.run("calendar", "--person", "Wim").out))
    assert "SUMMARY:Wim" in only
    assert "SUMMARY:Ode" not in only
    target = tmp_path / "diary.ics"
    assert booked.run("calendar", "-o", target).status == 0
    assert faults(target.read_bytes()) == []


def test_a_booking_that_moves_keeps_its_uid_and_its_sequence_rises(booked: Shop) -> None:
    before = unfolded(booked.run("calendar", "--person", "Ode").out)
    with desk_of(booked) as desk:
        (ode,) = desk.diary.of_person("Ode")
        moved = desk.diary.move(ode, 1).bookings[0]
        desk.diary.cancel(moved)
    after = unfolded(booked.run("calendar", "--person", "Ode").out)

    def told(lines: list[str], name: str) -> str:
        return next(line for line in lines if line.startswith(name))

    assert told(before, "UID:") == told(after, "UID:")
    assert (told(before, "SEQUENCE:"), told(after, "SEQUENCE:")) == ("SEQUENCE:0", "SEQUENCE:2")
    assert (told(before, "STATUS:"), told(after, "STATUS:")) == ("STATUS:CONFIRMED", "STATUS:CANCELLED")


@pytest.mark.parametrize(
    ("arguments", "status"),
    [
        (("diary", "--week", "soon"), 2),
        (("diary", "--person", "Nobody"), 1),
        (("calendar", "--person", "Nobody"), 1),
        (("calendar", "--job", "B-9"), 1),
        (("calendar", "--job", "B-1", "--person", "Ode"), 2),
    ],
)
def test_what_cannot_be_answered_is_refused_with_one_sentence(
    booked: Shop, arguments: tuple[str, ...], status: int
) -> None:
    ran = booked.run(*arguments)
    assert (ran.status, ran.out) == (status, b"")
    assert b"Traceback" not in ran.err


def test_a_calendar_never_replaces_records_and_none_is_written_of_nothing(booked: Shop, shop: Shop) -> None:
    before = booked.path.read_bytes()
    ran = booked.run("calendar", "-o", booked.path)
    assert ran.status == 1
    assert booked.path.read_bytes() == before
    with desk_of(booked) as desk:
        desk.firm.add_person("Ari")
    assert b"nothing to write" in booked.run("calendar", "--person", "Ari").err


def test_without_records_both_say_so(tmp_path: Path) -> None:
    nowhere = Shop(tmp_path / "nowhere")
    assert nowhere.run("diary").status == nowhere.run("calendar").status == 10


def test_whoever_comes_stands_in_the_days_list_and_in_the_job(booked: Shop) -> None:
    today = booked.run("today", "--at", AT).out.decode()
    assert "Wim (morning) comes Wed 2 Dec, ▲ the floor is not ready" in today
    whole = booked.run("job", "B-1", "--at", AT).out.decode()
    assert "Ode: Fri 4 Dec to Mon 7 Dec" in whole
