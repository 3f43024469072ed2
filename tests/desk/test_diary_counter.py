"""The diary at the desk: booked, moved, stretched, swapped, cancelled, turned back, and what each breaks or saves."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from store.desk.copies import import_into
from store.desk.desk import Desk
from store.errors import ChangedMeanwhile, DraftRefused, Refused
from store.trade.bookings import Booking, BookingDraft, Part
from store.trade.clashes import ClashKind
from store.trade.people import DaysOff, PersonDraft
from tests.desk.shop_floor import Hand, desk_at, history

WED, THU, FRI, MON = date(2026, 12, 2), date(2026, 12, 3), date(2026, 12, 4), date(2026, 12, 7)
ODE = BookingDraft(person="Ode", first=WED, last=THU)


@pytest.fixture
def desk(records: Path) -> Iterator[Desk]:
    with desk_at(records) as opened:
        yield opened


def book(desk: Desk, ref: str = "FRESH", **more: object) -> Booking:
    return desk.diary.book(ref, replace(ODE, **more)).bookings[0]  # type: ignore[arg-type]  # told by name


def spans(desk: Desk) -> list[tuple[str, date, date]]:
    return [(one.person, one.first, one.last) for one in desk.diary.on_file() if not one.cancelled]


def test_a_week_says_who_is_where_and_runs_from_monday_to_sunday(desk: Desk) -> None:
    book(desk)
    week = desk.diary.week(WED)
    assert (week.first, week.last) == (date(2026, 11, 30), date(2026, 12, 6))
    assert [(one.booking.person, one.title, one.days) for one in week.placed] == [
        ("Ode", desk.jobs.card("FRESH").facts.job.title, (WED, THU))
    ]
    assert desk.diary.week(date(2026, 12, 9)).placed == ()
    # ISO 8601: 1 January 2027 lies in week 53 of 2026, which begins on Monday 28 December.
    assert desk.diary.week(date(2027, 1, 1)).first == date(2026, 12, 28)


def test_every_deed_can_be_turned_back_one_by_one_and_the_history_tells_both(desk: Desk, records: Path) -> None:
    first = book(desk)
    other = book(desk, person="Wim")
    told = [spans(desk)]
    for deed in (
        lambda: desk.diary.move(desk.diary.on_file()[0], 2),
        lambda: desk.diary.stretch(next(one for one in desk.diary.on_file() if one.id == first.id), 1),
        lambda: desk.diary.swap(*(one for one in desk.diary.on_file())),
        lambda: desk.diary.cancel(next(one for one in desk.diary.on_file() if one.id == other.id)),
    ):
        deed()
        told.append(spans(desk))
    for before in reversed(told[:-1]):
        desk.diary.undo()
        assert spans(desk) == before
    desk.diary.undo()
    desk.diary.undo()
    assert spans(desk) == []
    with pytest.raises(Refused):
        desk.diary.undo()
    assert [what for _, what, _ in history(records)][-6:] == ["diary turned back"] * 6


def test_another_windows_change_is_never_turned_back(desk: Desk, records: Path) -> None:
    booking = book(desk)
    with desk_at(records) as other:
        other.diary.move(booking, 1)
        with pytest.raises(ChangedMeanwhile):
            desk.diary.undo()
        with pytest.raises(ChangedMeanwhile):
            desk.diary.cancel(booking)
    assert spans(desk) == [("Ode", THU, FRI)]


def test_a_deed_tells_what_it_breaks_and_turning_it_back_what_it_saves(desk: Desk) -> None:
    book(desk, "DONE")
    twice = desk.diary.book("LAYING", replace(ODE, first=THU, last=FRI))
    assert [(one.booking.ref, one.clash.kind, one.clash.ref) for one in twice.breaks] == [
        ("DONE", ClashKind.TWICE, "LAYING"),
        ("LAYING", ClashKind.TWICE, "DONE"),
    ]
    moved = desk.diary.move(twice.bookings[0], 1)
    assert moved.breaks == ()
    assert {one.clash.kind for one in moved.saves} == {ClashKind.TWICE}


def test_a_floor_not_ready_and_a_promise_that_is_missed_are_shown_and_not_refused(desk: Desk) -> None:
    job = desk.jobs.card("FRESH").facts.job
    desk.jobs.change(job, replace(job, promised_on=WED))
    book(desk, last=FRI)
    (placed,) = desk.diary.week(WED).placed
    clashes = {clash.kind: clash for clash in placed.clashes}
    # Booked to Fri 27 Nov, and the glue takes three days: handed over on Mon 30 Nov, promised for Wed 25 Nov.
    assert clashes[ClashKind.LATE].days == 5
    assert {ClashKind.NOT_READY, ClashKind.TOO_SOON} & clashes.keys()


def test_somebody_booked_is_not_taken_off_the_list_until_the_days_are_given_away(desk: Desk) -> None:
    booking = book(desk)
    ode = next(person for person in desk.firm.people() if person.name == "Ode")
    with pytest.raises(Refused, match="booked once"):
        desk.firm.remove_person(ode)
    desk.diary.give(booking, "Wim")
    desk.firm.remove_person(ode)
    assert [person.name for person in desk.firm.people()] == ["Wim"]
    with pytest.raises(Refused, match="any longer"):
        desk.firm.remove_person(ode)


def test_who_has_left_stays_in_the_diary_of_the_days_they_worked(records: Path) -> None:
    hand = Hand()
    with desk_at(records, hand) as desk:
        book(desk)
        hand.shows = hand.shows.replace(month=12, day=20)
        desk.firm.remove_person(next(person for person in desk.firm.people() if person.name == "Ode"))
        week = desk.diary.week(WED)
    assert [person.name for person in week.people] == ["Wim", "Ode"]
    assert [one.booking.person for one in week.placed] == ["Ode"]


def test_bookings_follow_somebody_who_goes_by_another_name(desk: Desk) -> None:
    book(desk)
    ode = next(person for person in desk.firm.people() if person.name == "Ode")
    off = (DaysOff(first=WED, last=WED, reason="Course"),)
    desk.firm.change_person(ode, PersonDraft(name="Ode Wind", days_off=off, stairs=True))
    (placed,) = desk.diary.week(WED).placed
    assert placed.booking.person == "Ode Wind"
    assert [clash.reason for clash in placed.clashes if clash.kind is ClashKind.AWAY] == ["Course"]


@pytest.mark.parametrize(
    ("more", "field"),
    [({"person": "Nobody"}, "person"), ({"room": "Attic"}, "room"), ({"last": date(2026, 12, 1)}, "last")],
)
def test_what_makes_no_booking_is_refused_and_nothing_is_filed(desk: Desk, more: dict[str, object], field: str) -> None:
    with pytest.raises(DraftRefused) as refused:
        book(desk, **more)
    assert [problem.field for problem in refused.value.problems] == [field]
    assert desk.diary.on_file() == ()
    with pytest.raises(Refused, match="nothing to turn back"):
        desk.diary.undo()


def test_a_booking_never_shrinks_to_nothing_and_one_person_does_not_swap_with_themselves(desk: Desk) -> None:
    one = book(desk, last=WED)
    with pytest.raises(Refused, match="a day at least"):
        desk.diary.stretch(one, -1)
    with pytest.raises(Refused, match="one person"):
        desk.diary.swap(one, book(desk, first=MON, last=MON))


def test_bookings_and_cards_go_with_the_job_folder_and_come_back_byte_for_byte(desk: Desk, tmp_path: Path) -> None:
    booking = book(desk, room=desk.jobs.card("FRESH").facts.rooms[0].name)
    book(desk, person="Wim", last=WED, part=Part.MORNING)
    desk.diary.cancel(book(desk, first=FRI, last=FRI))
    desk.diary.move(booking, 1)
    desk.firm.take_on(PersonDraft(name="Ari", herringbone=True, isocyanates_until=WED))
    raw = desk.papers.export()
    path = tmp_path / "elsewhere.layday"
    import_into(path, raw, clock=Hand(), who="Ode")
    with desk_at(path) as elsewhere:
        assert elsewhere.papers.export() == raw
        assert [one.mark for one in elsewhere.diary.on_file()] == [
            one.mark for one in desk.diary.on_file() if not one.cancelled
        ]
        with pytest.raises(Refused):
            elsewhere.papers.take_in(raw)


def test_a_mark_that_is_on_file_already_is_refused_with_its_place(desk: Desk) -> None:
    book(desk)
    raw = desk.papers.export(("FRESH",)).replace(b'"FRESH"', b'"OTHER"')
    with pytest.raises(Refused, match=r"jobs\[0\]\.bookings\[0\]\.mark"):
        desk.papers.take_in(raw)
