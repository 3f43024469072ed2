"""Probes, many figures at once and grids of levels are typed, shown and drawn; lines taken back can be seen again."""

from datetime import date
from pathlib import Path

import pytest

from store.trade.evidence import Evidence, Zone
from store.trade.readings import BoardMoisture, InSituProbe, LevelGrid, Reading, ReadingDraft, TimberSubfloor
from tests.tui.firm_window import demo_desk, press, seen, turn_to, window_on
from tests.tui.shop_window import CLOCK, NOW, ShopWindow
from tests.tui.test_dialogs_refuse import said
from tui.dialogs.dialog import nothing_to_say
from tui.dialogs.reading_form import ReadingForm
from tui.typed.figures import Misread
from tui.typed.heights import read_heights, read_percents, typed_heights, typed_percents
from tui.widgets.safe import Line
from tui.words.evidence import say_evidence
from tui.words.level_grid import grid_lines

LEVELS = LevelGrid(spacing_mm=500, heights_mm=((0, 1, 2), (0, -6, None)))


def a_form(kind: str, standing: ReadingDraft | None = None) -> ShopWindow:
    return ShopWindow(
        lambda: ReadingForm(
            rooms=["Hall"],
            clock=CLOCK,
            limit_for=lambda room, kind: "",
            check=nothing_to_say,
            first=("Hall", kind),
            standing=standing,
        )
    )


# ---- what is typed


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("9.5", (9.5,)),
        ("9,5 10 9,8", (9.5, 10, 9.8)),
        ("9.5; 10; 11 %", None),
        ("9.5, 10, 11", (9.5, 10, 11)),
        ("9.5 % 10", None),
        ("", None),
        ("nine", None),
    ],
)
def test_one_figure_or_many_are_read(text: str, figures: tuple[float, ...] | None) -> None:
    found = read_percents(text)
    assert (found if figures else isinstance(found, Misread)) == (figures or True)
    if figures:
        assert read_percents(typed_percents(figures)) == figures


def test_a_grid_is_read_row_by_row_and_written_the_same_way() -> None:
    assert read_heights("0 1,5 −2; 0 - 3;") == ((0, 1.5, -2), (0, None, 3))
    assert read_heights("0 1 / x 2") == ((0, 1), (None, 2))
    assert read_heights(typed_heights(LEVELS.heights_mm)) == LEVELS.heights_mm


def test_a_laser_counts_downward() -> None:
    assert read_heights("1200 1204", downward=True) == ((-1200, -1204),)


@pytest.mark.parametrize(("text", "row"), [("0 1; ; 2", "Row 2 has no points"), ("0 1; 0 low", "“low” in row 2")])
def test_a_grid_that_cannot_be_read_names_its_row(text: str, row: str) -> None:
    found = read_heights(text)
    assert isinstance(found, Misread)
    assert row in found.say


# ---- the form


async def test_many_figures_are_filed_as_their_mean_with_each_of_them_kept() -> None:
    app = a_form("timber_subfloor")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab", "tab", "tab", *"7 9 10 14")
        await pilot.pause()
        assert "mean 10 of 4, highest 14" in seen(pilot)
        doubt = app.screen.query_one("#doubt", Line).words
        assert doubt == "▲ The figures lie 7 points apart; over 3 is unusual, look for the reason."
        await pilot.press("ctrl+s")
    assert isinstance(app.answer, ReadingDraft)
    assert app.answer.measure == TimberSubfloor(percent=10)
    assert app.answer.evidence.figures == (7, 9, 10, 14)


async def test_one_figure_is_filed_as_it_is() -> None:
    app = a_form("board")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab", "tab", "tab", *"9,5", "ctrl+s")
    assert isinstance(app.answer, ReadingDraft)
    assert (app.answer.measure, app.answer.evidence.figures) == (BoardMoisture(percent=9.5), ())


async def test_a_grid_says_its_widest_gap_while_it_is_typed_and_names_a_short_row() -> None:
    app = a_form("level_grid")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("tab", "tab", "tab", *"500", "tab", "tab", *"0 -4 0; 1 2 3")
        await pilot.pause()
        assert app.screen.query_one("#doubt", Line).words == "2 rows of 3 points 500 mm apart: 4 mm gap."
        await pilot.press(*"; low", "ctrl+s")
        await pilot.pause()
        assert said(app) == {"heights_mm": "▲ “low” in row 3 is no height; write rows like 0 1.5 2; 0 - 3."}
        await pilot.press(*["backspace"] * 5, "ctrl+s")
    assert isinstance(app.answer, ReadingDraft)
    assert app.answer.measure == LevelGrid(spacing_mm=500, heights_mm=((0, -4, 0), (1, 2, 3)))


PROBE = Evidence(depth_mm=26, hours=20, checked_on=date(2026, 10, 1))


@pytest.mark.parametrize(
    "standing",
    [
        ReadingDraft(room="Hall", at=NOW, measure=InSituProbe(rh_percent=70), evidence=PROBE),
        ReadingDraft(room="Hall", at=NOW, measure=TimberSubfloor(percent=9.5), evidence=Evidence(figures=(9.0, 10.0))),
        ReadingDraft(room="Hall", at=NOW, measure=LEVELS, note="from the door"),
    ],
)
async def test_a_reading_put_right_comes_back_as_it_stood(standing: ReadingDraft) -> None:
    app = a_form(standing.kind, standing)
    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.press("ctrl+s")
        await pilot.press(*"misread", "ctrl+s")
    assert app.answer == standing


async def test_a_probe_read_too_soon_with_an_old_check_is_warned_of() -> None:
    standing = ReadingDraft(room="Hall", at=NOW, measure=InSituProbe(rh_percent=70), evidence=PROBE)
    app = a_form("in_situ_probe", standing)
    async with app.run_test(size=(80, 30)) as pilot:
        await pilot.pause()
        assert app.screen.query_one("#doubt", Line).words.splitlines() == [
            "▲ The probe was in its hole for 20 hours; ASTM F2170 asks for 24.",
            "▲ Its sensor was checked 55 days before; ASTM F2170 asks for a check within 30 days.",
        ]


def test_what_stands_behind_a_reading_is_told() -> None:
    told = list(say_evidence(Evidence(zone=Zone.LOWER, checked_on=date(2026, 11, 2)), NOW.date()))
    assert told == ["Of the lower part.", "Sensor last checked Mon 2 Nov."]
    assert list(say_evidence(Evidence(figures=(9.0, 10.5)), NOW.date())) == ["Mean of 2 figures, 9 to 10.5 %: 9, 10.5."]


# ---- the drawing


def test_a_grid_too_wide_for_its_figures_is_drawn_in_shades_and_hidden_rows_are_counted() -> None:
    wide = LevelGrid(spacing_mm=500, heights_mm=tuple(tuple(float(-column) for column in range(20)) for _ in range(9)))
    lines = grid_lines(wide, 60, 5)
    assert len(lines) == 5
    assert lines[-1] == "and 5 rows more"
    assert "█" in lines[0]
    assert all(len(line) <= 60 for line in lines)


# ---- in the folder


async def test_a_grid_is_drawn_and_said_and_what_was_put_right_is_shown_again(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        room = desk.jobs.card("GQ-0149").facts.rooms[0].name
        draft = ReadingDraft(room=room, at=desk.now(), measure=LEVELS)
        wrong = desk.readings.take("GQ-0149", draft)
        assert isinstance(wrong, Reading)
        async with window_on(desk, "GQ-0149") as pilot:
            await turn_to(pilot, "readings")
            await press(pilot, "z")
            assert "No reading of this job was taken back." in seen(pilot)
            await press(pilot, "h")
            assert "mm under the highest point" in seen(pilot)
            assert "lowest at row 2, point 2, 8 mm under it" in seen(pilot)
            await press(pilot, "escape")
            desk.readings.put_right("GQ-0149", wrong, draft, "[b]the wrong corner[/b]")
            await press(pilot, "z")
            assert "· taken back" in seen(pilot)
            assert "1 reading taken back: shown." in seen(pilot)
            await press(pilot, "down")
            await press(pilot, "x")
            assert "reading again with r." in seen(pilot)
            pilot.app.clear_notifications()
            await press(pilot, "enter")
            assert "[b]the wrong corner[/b]" in seen(pilot)
            await press(pilot, "escape")
            await press(pilot, "z")
            assert "· taken back" not in seen(pilot)
