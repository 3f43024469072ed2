"""The firm view: its settings and people, who is at the desk, copies, the look whether all is in order, export."""

import hashlib
import re
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from store.desk.clock import stopped_clock
from store.desk.desk import open_desk
from store.papers.reading_in import read_folder
from store.trade.bookings import BookingDraft
from store.trade.events import NoteDraft
from tests.tui.made_up import made_up_desk, new_desk, press, second_window, toasts, write
from tests.tui.shop_window import NOW, assert_as_painted, picture, settled
from tui.app import LaydayApp
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.where_form import WhereForm
from tui.screens.firm import FirmScreen

RECORDS = Path("gannet.layday")


@pytest.fixture(autouse=True)
def in_an_empty_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the records lie under a short name, the same on every machine."""
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("size", [(80, 24), (120, 36)], ids=lambda size: f"{size[0]}x{size[1]}")
async def test_the_firm_looks_like_its_picture(size: tuple[int, int]) -> None:
    with made_up_desk(RECORDS) as desk:
        desk.keeping.copy_if_changed()
        desk.firm.sit_down("Maren Holt")
        app = LaydayApp(desk)
        async with app.run_test(size=size) as pilot:
            await press(pilot, "5")
            # How many pages SQLite takes for the same words is its own affair.
            shown = re.sub(r"\d+ kB", "295 kB", await settled(app, pilot))
    assert_as_painted(shown, f"firm-{size[0]}x{size[1]}")


async def test_the_firm_keeps_other_hours_and_the_view_says_so() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "e", "tab", "tab")
            await write(pilot, "mon-thu")
            await press(pilot, "tab")
            await write(pilot, "7:00")
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, FirmScreen)
            assert "Mon to Thu" in picture(app)
            assert "07:00 to 16:30" in picture(app)
        assert desk.firm.card().working_days == (0, 1, 2, 3)


async def test_settings_that_another_window_changed_are_told_and_what_was_typed_is_kept() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "e")
            await write(pilot, "Gannet Quay Boards")
            with second_window(desk) as other:
                firm = other.firm.card()
                other.firm.change(replace(firm, flat_limit_mm=2), firm.rev)
            await press(pilot, "ctrl+s")
            assert isinstance(app.screen, FirmForm)
            shown = " ".join(picture(app).replace("│", " ").replace("▆", " ").split())
            assert "The firm was changed in another window (on file now: Flatness: at most 2 mm under 2 m)" in shown
            assert "Gannet Quay Boards" in shown
            assert desk.firm.card().name == "Gannet Quay Floors"
            await press(pilot, "ctrl+s")
        assert desk.firm.card().name == "Gannet Quay Boards"


async def test_somebody_is_added_sits_down_and_is_named_in_the_history() -> None:
    with new_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "w")
            assert "Nobody is on file yet" in toasts(app)
            await press(pilot, "n")
            await write(pilot, "Maren [Holt]")
            await press(pilot, "ctrl+s", "w", "enter")
            assert "At the desk   Maren [Holt], whom the history names" in picture(app)
        assert desk.firm.at_the_desk == "Maren [Holt]"


async def test_nobody_can_be_on_file_twice() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "n")
            await write(pilot, "Nils Aaker")
            await press(pilot, "ctrl+s")
            assert "Nils Aaker is on file already." in picture(app)
        assert len(desk.firm.people()) == 3


async def test_what_somebody_can_do_is_changed_and_who_is_booked_stays_on_the_list() -> None:
    with made_up_desk(RECORDS) as desk:
        for booking in desk.diary.on_file():
            desk.diary.cancel(booking)
        draft = BookingDraft(person="Nils Aaker", first=date(2027, 3, 1), last=date(2027, 3, 2))
        desk.diary.book("GQ-0141", draft)
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "p", "down", "enter", "tab", "space", "ctrl+s")
            assert "The card of Nils Aaker is changed." in toasts(app)
            assert not next(one for one in desk.firm.people() if one.name == "Nils Aaker").herringbone
            await press(pilot, "x", "down", "enter", "right", "enter")
            assert "Nils Aaker is booked once from 2027-03-01 on" in toasts(app)
            await press(pilot, "x", "down", "down", "enter", "right", "enter")
            assert "Tove Ruud is off the list." in toasts(app)
        assert [one.name for one in desk.firm.people()] == ["Maren Holt", "Nils Aaker"]


async def test_what_is_done_after_sitting_down_bears_the_name() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "w", "down", "enter")
        desk.closing.add_note("GQ-0141", NoteDraft(at=NOW, text="Key is with the neighbour"))
        assert desk.jobs.history("GQ-0141")[0].who == "Nils Aaker"


async def test_a_copy_is_made_where_it_is_asked_for_and_its_seal_is_told() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 30)) as pilot:
            await press(pilot, "5")
            assert "none yet; b makes one" in picture(app)
            await press(pilot, "b", "enter")
            copy = Path("gannet-copy-2026-11-25-063000.layday")
            assert hashlib.sha256(copy.read_bytes()).hexdigest() in toasts(app)
            assert str(copy) in toasts(app)
            assert "Last copy     Wed 25 Nov 07:30" in picture(app)
        with open_desk(copy, clock=stopped_clock(NOW)) as other:
            assert other.papers.export() == desk.papers.export()


@pytest.mark.parametrize(
    ("typed", "say"),
    [("taken.layday", "There is a file taken.layday already"), ("no/such.layday", "There is no folder no")],
)
async def test_a_copy_that_cannot_be_written_leaves_the_form_open_and_says_why(typed: str, say: str) -> None:
    Path("taken.layday").write_text("mine", encoding="utf-8")
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "b")
            await write(pilot, typed)
            await press(pilot, "enter")
            assert isinstance(app.screen, WhereForm)
            assert say in picture(app)
    assert Path("taken.layday").read_text(encoding="utf-8") == "mine"


async def test_all_jobs_are_written_to_a_file_that_can_be_taken_in_again() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "j", "enter")
            written = Path("gannet-jobs-2026-11-25-063000.json")
            assert f"Written: {written}" in toasts(app)
        refs = {line.ref for line in desk.jobs.lines()}
    assert {job.job.ref for job in read_folder(written.read_bytes()).jobs} == refs
    assert written.stat().st_mode & 0o077 == 0


async def test_a_look_over_that_finds_nothing_wrong_looks_like_its_picture() -> None:
    with made_up_desk(RECORDS) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "l")
            shown = re.sub(r"\d+ kB", "295 kB", await settled(app, pilot))
            await press(pilot, "escape")
            assert isinstance(app.screen, FirmScreen)
    assert_as_painted(shown, "firm-in-order-80x24")


async def test_a_look_over_names_what_is_not_in_order() -> None:
    with made_up_desk(RECORDS) as desk:
        RECORDS.chmod(0o644)
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 24)) as pilot:
            await press(pilot, "5", "l")
            shown = " ".join(picture(app).replace("│", " ").split())
    assert "1 thing not in order" in shown
    assert "✗ The rights: others can read it" in shown
    assert "✓ No place holds less than nothing." in shown


async def test_a_copy_older_than_a_week_is_called_old() -> None:
    with made_up_desk(RECORDS) as desk:
        desk.papers.save_copy(Path("gannet-copy-2026-11-17-120000.layday"))
    with open_desk(RECORDS, clock=stopped_clock(datetime(2026, 11, 25, 6, 30, tzinfo=UTC))) as desk:
        app = LaydayApp(desk)
        async with app.run_test(size=(80, 30)) as pilot:
            await press(pilot, "5")
            assert "▲ Tue 17 Nov 13:00, 8 days old; b makes one" in picture(app)
