"""Opening the screens: new records made with care, the made-up firm never mistaken for the real one."""

import os
import signal
from datetime import date
from pathlib import Path

import pytest

from store.desk.desk import open_desk
from store.errors import StoreError
from store.trade.firm import FirmDraft, problems_with_firm
from tests.tui.made_up import made_up_desk, new_desk, press, toasts, write
from tests.tui.opened import Opened, asked
from tests.tui.shop_window import assert_as_painted, picture, settled
from tui.app import LaydayApp
from tui.dialogs.firm_form import FirmForm
from tui.dialogs.open_or_make import FirstStep, OpenOrMake
from tui.first_window import FirstWindow
from tui.opening import DEMO_NOTE, FIRST_STEPS, run_screens

FIRM = FirmDraft(name="Gannet Quay Floors")


def first_window(*, only_firm: bool = False) -> FirstWindow:
    path = Path("/home/maren/records.layday")
    return FirstWindow(path=path, said="", today=date(2026, 11, 25), check=problems_with_firm, only_firm=only_firm)


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> Opened:
    return Opened(monkeypatch)


async def test_the_first_question_leads_to_the_firm_and_its_name_is_enough() -> None:
    window = first_window()
    async with window.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert isinstance(window.screen, OpenOrMake)
        await press(pilot, "enter")
        assert isinstance(window.screen, FirmForm)
        await write(pilot, "Gannet Quay Floors")
        await press(pilot, "ctrl+s")
    assert window.return_value == FIRM


async def test_leaving_the_form_of_the_firm_leads_back_to_the_question_and_nothing_is_made() -> None:
    window = first_window()
    async with window.run_test(size=(80, 24)) as pilot:
        await press(pilot, "enter", "escape")
        assert isinstance(window.screen, OpenOrMake)
        await press(pilot, "escape")
    assert window.return_value is FirstStep.LEAVE


@pytest.mark.parametrize("number", [signal.SIGTERM, signal.SIGHUP, signal.SIGINT, signal.SIGQUIT])
async def test_a_signal_ends_the_first_question_with_nothing_made(number: signal.Signals) -> None:
    window = first_window()
    async with window.run_test() as pilot:
        os.kill(os.getpid(), number)
        await pilot.pause(0.1)
    assert (window.return_value, window.return_code) == (FirstStep.LEAVE, 128 + number)


async def test_a_firm_without_a_name_is_asked_for_it() -> None:
    window = first_window(only_firm=True)
    async with window.run_test(size=(80, 24)) as pilot:
        await press(pilot, "ctrl+s")
        assert isinstance(window.screen, FirmForm)
        assert "The firm needs a name." in picture(window)


async def test_the_made_up_firm_is_one_arrow_and_enter_away() -> None:
    window = first_window()
    async with window.run_test(size=(80, 24)) as pilot:
        await press(pilot, "down", "enter")
    assert window.return_value is FirstStep.DEMO


def test_records_are_made_for_a_new_firm_and_it_is_told_what_to_do_first(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "new" / "gannet.layday"
    opened.answer = FIRM
    assert run_screens(asked(path)) == 0
    assert opened.firms == ["Gannet Quay Floors"]
    assert opened.greetings == [FIRST_STEPS]
    assert opened.notes == [""]
    assert path.stat().st_mode & 0o777 == 0o600
    assert path.parent.stat().st_mode & 0o777 == 0o700


def test_leaving_makes_nothing(tmp_path: Path, opened: Opened) -> None:
    opened.answer = FirstStep.LEAVE
    assert run_screens(asked(tmp_path / "new" / "gannet.layday")) == 0
    assert list(tmp_path.iterdir()) == []
    assert opened.notes == []


def test_a_look_at_the_made_up_firm_makes_no_records_and_says_so(tmp_path: Path, opened: Opened) -> None:
    opened.answer = FirstStep.DEMO
    assert run_screens(asked(tmp_path / "gannet.layday")) == 0
    assert opened.notes == [DEMO_NOTE]
    assert opened.crash_folders == [None], "a note beside the made-up firm would be thrown away with it"
    assert list(tmp_path.iterdir()) == []


def test_an_empty_file_is_told_and_only_filled_if_asked_to(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    path.touch()
    opened.answer = FirstStep.LEAVE
    run_screens(asked(path))
    assert "is empty" in opened.said[0]
    assert path.stat().st_size == 0


def test_where_records_are_gone_their_newest_copy_is_named(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    with new_desk(path) as desk:
        saved = desk.keeping.copy_if_changed()
    assert saved is not None
    path.unlink()
    opened.answer = FirstStep.LEAVE
    run_screens(asked(path))
    assert f"layday restore {saved.path}" in opened.said[0]


def test_records_without_a_firm_are_asked_for_it_and_kept(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    with open_desk(path, create=True):
        pass
    opened.answer = FIRM
    assert run_screens(asked(path)) == 0
    assert opened.firms == ["Gannet Quay Floors"]


def test_a_copy_is_kept_when_the_screens_open_on_changed_records_and_only_then(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    with made_up_desk(path):
        pass
    assert [run_screens(asked(path)), run_screens(asked(path))] == [0, 0]
    assert len(list((tmp_path / "copies").iterdir())) == 1
    assert opened.greetings == ["", ""]
    with open_desk(path) as desk:
        desk.firm.add_person("Somebody New")
    run_screens(asked(path))
    assert len(list((tmp_path / "copies").iterdir())) == 2


def test_a_copy_that_fails_is_told_and_the_screens_open_all_the_same(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    (tmp_path / "copies").write_text("a file in the way", encoding="utf-8")
    with made_up_desk(path):
        pass
    assert run_screens(asked(path)) == 0
    assert "No copy of the records could be kept this time" in opened.greetings[0]


def test_looking_at_another_moment_makes_nothing_and_says_so(tmp_path: Path, opened: Opened) -> None:
    path = tmp_path / "gannet.layday"
    with pytest.raises(StoreError):
        run_screens(asked(path, at="2026-11-25T07:30+01:00"))
    assert list(tmp_path.iterdir()) == []
    with made_up_desk(path):
        pass
    assert run_screens(asked(path, at="2026-11-20T07:30+01:00")) == 0
    assert opened.notes == ["Looking at Fri 20 Nov 2026 07:30: nothing can be changed."]
    assert not (tmp_path / "copies").exists()


async def test_the_made_up_firm_says_on_every_view_that_nothing_is_kept(tmp_path: Path) -> None:
    with made_up_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk, note=DEMO_NOTE)
        async with app.run_test(size=(80, 24)) as pilot:
            for key in ("1", "2", "3", "4", "5"):
                await press(pilot, key)
                assert DEMO_NOTE in picture(app)
            await press(pilot, "3", "enter")
            assert DEMO_NOTE in picture(app)


async def test_new_records_greet_with_the_first_steps(tmp_path: Path) -> None:
    with new_desk(tmp_path / "gannet.layday") as desk:
        app = LaydayApp(desk, greeting=FIRST_STEPS)
        async with app.run_test(size=(80, 24)) as pilot:
            await pilot.pause()
            assert FIRST_STEPS in toasts(app)


async def test_the_first_question_looks_like_its_picture() -> None:
    window = first_window()
    async with window.run_test(size=(80, 24)) as pilot:
        shown = await settled(window, pilot)
    assert_as_painted(shown, "first-window-80x24")
