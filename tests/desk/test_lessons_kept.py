"""What closed jobs taught is kept in step with their facts, whatever is done to them afterwards."""

import json
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from store.desk.copies import import_into
from store.desk.desk import Desk
from store.errors import Refused, StoreDamaged
from store.records import step_17
from store.trade.bookings import BookingDraft
from store.trade.buying.nouns import OwnLineDraft, Thing
from store.trade.events import OrderLine
from store.trade.jobs import Method, RoomDraft, Subfloor
from store.trade.outline import rectangle
from store.trade.people import PersonDraft
from store.trade.products import Board
from store.trade.surveyed import Pattern
from store.trade.taught.report import By
from tests.desk.shop_floor import ARRIVED, LAID, NOW, Hand, desk_at, in_order
from tests.desk.test_every_deed import COUNT, EARLIER, OPENING, ORDER, ROOM, SIGNED, facts, plan_for
from tests.tui.somebodys_folder import board, folder, glue, job

HERE = "DONE"
WANTED = RoomDraft(
    name="Parlour", outline=rectangle(4000, 3000), subfloor=Subfloor.OSB, method=Method.GLUED, board="OAK-190"
)


@pytest.fixture
def closed(records: Path) -> Path:
    with desk_at(records) as desk:
        desk.closing.count(HERE, (COUNT,))
        desk.closing.sign(HERE, SIGNED)
    return records


def kept(path: Path) -> list[tuple[object, ...]]:
    """What the file keeps of the job's lesson about its board, read past the program."""
    asked = "SELECT used, laid_mm2, ordered, fitters, adds_up FROM floor_lesson ORDER BY id"
    with closing(sqlite3.connect(f"file:{path}?mode=ro", uri=True)) as reader:
        return reader.execute(asked).fetchall()


def spoil(path: Path, statement: str) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute(statement)


def test_a_job_teaches_as_it_closes_and_not_before(records: Path) -> None:
    with desk_at(records) as desk:
        desk.closing.count(HERE, (COUNT,))
        assert (kept(records), desk.taught.report().floors) == ([], 0)
        desk.closing.sign(HERE, SIGNED)
    # Twelve packs came, a pack and two boards were counted: 64 of 72 boards went into 21.32 m².
    assert kept(records) == [(64, 21_320_000, 72, "[]", 1)]
    with desk_at(records) as desk:
        line = desk.taught.report().losses[0]
        assert (line.by, line.floors, line.allowed_percent) == (By.ALL, 1, 10)
        assert line.real_percent == pytest.approx(100 * (64 * 0.361 - 21.32) / 21.32)


def test_a_job_opened_again_teaches_nothing_until_it_is_closed_again(closed: Path) -> None:
    with desk_at(closed) as desk:
        handover = facts(desk, HERE).handover
        assert handover is not None
        desk.closing.take_back(HERE, handover, "slip")
        assert (kept(closed), desk.taught.report().floors) == ([], 0)
        desk.closing.sign(HERE, SIGNED)
        assert desk.taught.report().floors == 1
        assert in_order(desk) == []


def _rename(desk: Desk) -> None:
    desk.diary.book(HERE, BookingDraft(person="Ode", first=date(2026, 11, 24), last=date(2026, 11, 24)))
    ode = next(one for one in desk.firm.people() if one.name == "Ode")
    desk.firm.change_person(ode, PersonDraft(name="Petrel"))


def _cancel(desk: Desk) -> None:
    day = date(2026, 11, 24)
    told = desk.diary.book(HERE, BookingDraft(person="Ode", first=day, last=day))
    assert '["Ode"]' in str(kept(desk.path))
    desk.diary.cancel(told.bookings[0])


def _shorter_boards(desk: Desk) -> None:
    oak = next(one for one in desk.products.all() if one.code == "OAK-190")
    assert isinstance(oak, Board)
    desk.products.change(oak, replace(oak, boards_per_pack=8))


def _plan(desk: Desk) -> None:
    mine = facts(desk, HERE).room(ROOM)
    desk.plans.file(HERE, plan_for(desk, mine))


AFTERWARDS: dict[str, tuple[Callable[[Desk], object], str]] = {
    "an order filed late": (lambda desk: desk.packs.order(HERE, ORDER), "(64, 21320000, 90, '[]', 1)"),
    "packs opened": (lambda desk: desk.packs.open(HERE, OPENING), "(10, 21320000, 72, '[]', 0)"),
    "somebody booked": (
        lambda desk: desk.diary.book(
            HERE, BookingDraft(person="Ode", first=date(2026, 11, 24), last=date(2026, 11, 24))
        ),
        """(64, 21320000, 72, '["Ode"]', 1)""",
    ),
    "somebody called otherwise": (_rename, """(64, 21320000, 72, '["Petrel"]', 1)"""),
    "a booking cancelled": (_cancel, "(64, 21320000, 72, '[]', 1)"),
    "boards to the pack put right": (_shorter_boards, "(86, 21320000, 96, '[]', 1)"),
    "a plan filed late": (_plan, "(64, 21320000, 72, '[]', 1)"),
}


@pytest.mark.parametrize("name", AFTERWARDS)
def test_what_is_put_right_in_a_closed_job_is_taught_again(closed: Path, name: str) -> None:
    deed, told = AFTERWARDS[name]
    with desk_at(closed) as desk:
        deed(desk)
        assert [str(row) for row in kept(closed)] == [told]
        assert in_order(desk) == []


def test_what_boards_and_tubs_were_paid_is_kept_with_their_lessons(records: Path) -> None:
    glued = job("GLUED", **ARRIVED, laid=[LAID | {"tubs": 2}])
    import_into(records, json.dumps(folder(glued, products=[board(), glue()])).encode(), clock=Hand(), who="Maren")
    lines = (
        OrderLine(product="OAK-190", packs=2, price_minor=17_000),
        OrderLine(product="MS-15", packs=3, price_minor=9_000),
    )
    with desk_at(records) as desk:
        desk.packs.order("GLUED", replace(ORDER, lines=lines))
        desk.closing.count("GLUED", (COUNT,))
        desk.closing.sign("GLUED", SIGNED)
        assert in_order(desk) == []
    with closing(sqlite3.connect(f"file:{records}?mode=ro", uri=True)) as reader:
        paid = "SELECT paid_packs, paid_minor FROM {}_lesson"
        assert reader.execute(paid.format("floor")).fetchall() == [(2, 34_000)]
        assert reader.execute(paid.format("glue")).fetchall() == [(3, 27_000)]


def test_a_swap_that_is_written_down_with_another_job_is_taught_too(closed: Path) -> None:
    with desk_at(closed) as desk:
        first, second = date(2026, 11, 24), date(2026, 11, 25)
        one = desk.diary.book("FRESH", BookingDraft(person="Ode", first=first, last=first)).bookings[0]
        other = desk.diary.book(HERE, BookingDraft(person="Wim", first=second, last=second)).bookings[0]
        desk.diary.swap(one, other)
        assert [row[3] for row in kept(closed)] == ['["Ode"]']
        assert in_order(desk) == []


def test_a_board_that_makes_no_sense_is_told_before_a_sum_stumbles_over_it(closed: Path) -> None:
    spoil(closed, "UPDATE product SET length_mm = 20 WHERE code = 'OAK-190'")
    with desk_at(closed) as desk, pytest.raises(StoreDamaged, match="OAK-190"):
        desk.taught.report()


def test_a_notch_set_by_hand_is_taught_again(records: Path) -> None:
    glued = job("GLUED", **ARRIVED, laid=[LAID | {"tubs": 2}])
    import_into(
        records,
        json.dumps(folder(glued, products=[board(), board("ASH-140"), glue()])).encode(),
        clock=Hand(),
        who="Ode",
    )
    with desk_at(records) as desk:
        desk.closing.count("GLUED", (COUNT,))
        desk.closing.sign("GLUED", SIGNED)
        line = OwnLineDraft(thing=Thing.GLUE, product="MS-15", at=EARLIER, notch="B11", why="A rough base")
        desk.buying.set_line("GLUED", line)
        (told,) = desk.taught.report().glues
        assert (told.notch, told.base, round(told.real_g_per_m2)) == ("B11", Subfloor.OSB, 1407)
        assert in_order(desk) == []


def test_jobs_closed_before_lessons_were_kept_are_read_once_as_the_records_are_opened(closed: Path) -> None:
    before = kept(closed)
    spoil(closed, "DELETE FROM floor_lesson")
    with desk_at(closed) as desk:
        assert in_order(desk) == []
    assert kept(closed) == before


def test_lessons_from_before_they_knew_what_was_paid_are_filled_anew(closed: Path) -> None:
    """What the step that lets lessons say it leaves behind: no lesson, and columns that nothing was written in."""
    before = kept(closed)
    for statement in step_17.statements():
        if statement.startswith("DELETE"):
            spoil(closed, statement)
    with desk_at(closed) as desk:
        assert in_order(desk) == []
    assert kept(closed) == before


def test_a_lesson_that_says_something_else_than_the_facts_is_found(closed: Path) -> None:
    spoil(closed, "UPDATE floor_lesson SET used = used + 1")
    with desk_at(closed) as desk:
        assert in_order(desk) == ["Something else is kept of what job DONE taught than its facts say."]


def test_at_another_moment_only_the_jobs_closed_by_then_have_taught(closed: Path) -> None:
    with desk_at(closed) as desk:
        desk.look_at(datetime(2026, 11, 30, tzinfo=UTC))
        assert desk.taught.report().floors == 0
        desk.look_at(NOW)
        assert desk.taught.report().floors == 1


def test_looking_back_at_records_with_lessons_wanting_is_answered_too(closed: Path) -> None:
    spoil(closed, "DELETE FROM floor_lesson")
    with desk_at(closed) as desk:
        desk.look_at(NOW)
        assert desk.taught.report().floors == 1
        with pytest.raises(Refused):
            desk.closing.sign(HERE, SIGNED)


def test_a_hint_speaks_of_floors_of_the_pattern_wanted(closed: Path) -> None:
    with desk_at(closed) as desk:
        said = desk.taught.hinter()
        hint = said(WANTED)
        assert hint is not None
        assert (hint.pattern, hint.width_mm, hint.line.floors) == (Pattern.STRAIGHT, None, 1)
        assert said(replace(WANTED, pattern=Pattern.CHEVRON)) is None
        assert said(replace(WANTED, board="ELM-1")) is None


def test_a_job_whose_boards_are_not_all_ordered_is_told_once_what_its_rooms_share(closed: Path) -> None:
    with desk_at(closed) as desk:
        # Both rooms of 21.32 m² take 22 packs; 14 are ordered.
        (hint,) = desk.taught.hints_for_order(desk.jobs.card("FRESH"))
        assert hint.line.refs == (HERE,)
        desk.packs.order("FRESH", replace(ORDER, lines=(OrderLine(product="OAK-190", packs=8),)))
        assert desk.taught.hints_for_order(desk.jobs.card("FRESH")) == ()


def test_what_was_taught_comes_in_with_a_folder_and_is_the_same_after_a_round_trip(
    closed: Path, tmp_path: Path
) -> None:
    with desk_at(closed) as desk:
        raw, told = desk.papers.export(), desk.taught.report()
    other = tmp_path / "other.layday"
    import_into(other, raw, clock=Hand(), who="Wim")
    with desk_at(other) as desk:
        assert desk.taught.report() == told
        assert desk.papers.export() == raw
        assert in_order(desk) == []
