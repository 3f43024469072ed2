"""Copies that are kept by themselves: one when something changed, private, verified, numbered, never in the way."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from store.desk.clock import stopped_clock
from store.desk.copies import dated_copy_path
from store.desk.desk import Desk, open_desk
from store.desk.keeping import copies_of, numbered_copies
from store.errors import StoreError
from store.trade.firm import FirmDraft
from tests.tui.shop_window import NOW

OpenAt = Callable[[Path, datetime], Desk]


@pytest.fixture
def open_at() -> Iterator[OpenAt]:
    """Opens desks at any moment, and closes them after the test."""
    with ExitStack() as stack:
        yield lambda path, at: stack.enter_context(open_desk(path, clock=stopped_clock(at), create=True))


@pytest.fixture
def desk(tmp_path: Path, open_at: OpenAt) -> Desk:
    made = open_at(tmp_path / "firm" / "gannet.layday", NOW)
    made.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
    return made


def test_a_copy_is_made_once_something_is_on_file_and_not_again_until_something_changed(desk: Desk) -> None:
    first = desk.keeping.copy_if_changed()
    assert first is not None
    assert first.path.name == "gannet-000001-2026-11-25-063000.layday"
    assert desk.keeping.copy_if_changed() is None
    desk.firm.add_person("Maren Holt")
    second = desk.keeping.copy_if_changed()
    assert second is not None
    assert [copy.number for copy in numbered_copies(desk.path)] == [1, 2]
    with open_desk(second.path, clock=stopped_clock(NOW)) as copied:
        assert copied.firm.people() == desk.firm.people()
        assert copied.firm.card() == desk.firm.card()


def test_copies_and_their_folder_are_for_their_owner_only(desk: Desk) -> None:
    saved = desk.keeping.copy_if_changed()
    assert saved is not None
    assert saved.path.parent.name == "copies"
    assert saved.path.parent.stat().st_mode & 0o777 == 0o700
    assert saved.path.stat().st_mode & 0o777 == 0o600


def test_a_damaged_newest_copy_counts_for_nothing(desk: Desk) -> None:
    saved = desk.keeping.copy_if_changed()
    assert saved is not None
    saved.path.write_bytes(b"no longer what it was")
    again = desk.keeping.copy_if_changed()
    assert again is not None
    assert again.path != saved.path


def test_older_copies_are_thinned_out_and_strange_files_are_left_alone(tmp_path: Path, open_at: OpenAt) -> None:
    path = tmp_path / "gannet.layday"
    first = open_at(path, NOW)
    first.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
    first.keeping.copy_if_changed()
    strange = tmp_path / "copies" / "gannet-old.layday"
    strange.write_text("mine", encoding="utf-8")
    for day in range(1, 40):
        later = open_at(path, NOW + timedelta(days=day))
        later.firm.add_person(f"Fitter {day}")
        assert later.keeping.copy_if_changed() is not None
    numbers = [copy.number for copy in numbered_copies(path)]
    # Days 26 to 39 one each, the last of November (day 5, copy 6), and the very first.
    assert numbers == [1, 6, *range(27, 41)]
    assert strange.read_text(encoding="utf-8") == "mine"


def test_no_copy_is_made_while_looking_at_another_moment(desk: Desk) -> None:
    desk.look_at(NOW)
    assert desk.keeping.copy_if_changed() is None
    assert copies_of(desk.path) == ()


def test_a_copy_that_cannot_be_made_says_why_and_leaves_the_records_alone(desk: Desk) -> None:
    (desk.path.parent / "copies").write_text("a file in the way", encoding="utf-8")
    with pytest.raises(StoreError, match="copies"):
        desk.keeping.copy_if_changed()
    assert desk.firm.card().name == "Gannet Quay Floors"


def test_the_newest_copy_is_found_in_the_folder_and_beside_the_records_even_without_them(desk: Desk) -> None:
    desk.keeping.copy_if_changed()
    later = NOW + timedelta(hours=1)
    by_hand = dated_copy_path(desk.path, later)
    desk.papers.save_copy(by_hand)
    card = desk.keeping.card()
    assert card.last_copy is not None
    assert (card.last_copy.path, card.last_copy.at, card.copies, card.copy_days) == (by_hand, later, 2, 0)
    desk.path.unlink()
    assert copies_of(desk.path)[0].path == by_hand


def test_the_age_of_a_copy_is_counted_in_days_of_the_calendar(tmp_path: Path, open_at: OpenAt) -> None:
    path = tmp_path / "gannet.layday"
    evening = NOW.replace(hour=22, minute=0)  # 23:00 in Brussels
    first = open_at(path, evening)
    first.firm.set_up(FirmDraft(name="Gannet Quay Floors"))
    first.keeping.copy_if_changed()
    assert open_at(path, evening + timedelta(minutes=59)).keeping.card().copy_days == 0
    assert open_at(path, evening + timedelta(minutes=61)).keeping.card().copy_days == 1


def test_only_records_that_are_thrown_away_do_not_wait_for_the_disk(tmp_path: Path) -> None:
    # 3 is EXTRA and 0 is OFF (sqlite.org, PRAGMA synchronous).
    path = tmp_path / "records.layday"
    for throw_away, waits in ((True, 0), (False, 3)):
        with open_desk(path, create=True, throw_away=throw_away) as desk:
            asked = desk._bench.cabinet.file.connection.execute("PRAGMA synchronous")
            assert asked.fetchone() == (waits,)
