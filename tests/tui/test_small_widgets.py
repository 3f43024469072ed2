"""The small drawings: a job's stage, a wait and a room."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from textual.app import App, ComposeResult

from store.trade.surveyed import Doorway, Finds, FixedThing
from store.trade.verdict import Stage
from tests.tui.shop_window import HOSTILE, picture
from tui.widgets.countdown_bar import bar_of
from tui.widgets.room_sketch import RoomSketch, sketch
from tui.widgets.safe import Line, cell, cut, plain
from tui.widgets.stage_bar import StageBar, stage_parts
from tui.words.vocabulary import STAGES

L_SHAPE = ((0, 0), (5200, 0), (5200, 1400), (4300, 1400), (4300, 4100), (0, 4100))


@pytest.mark.parametrize("stage", list(Stage))
@pytest.mark.parametrize("width", [40, 60, 78, 120])
def test_the_present_stage_is_named_at_every_width(stage: Stage, width: int) -> None:
    words = "".join(part for part, _ in stage_parts(stage, width))
    assert cell_len(words) <= width
    if stage is Stage.CLOSED and width > 70:
        assert "●" not in words
    else:
        assert STAGES[stage] in words


def test_all_stages_are_named_in_order_where_there_is_room() -> None:
    words = "".join(part for part, _ in stage_parts(Stage.INSTALL, 80))
    assert words == "✓ survey ── ✓ delivery ── ✓ acclimatising ── ● install ── ○ cure ── ○ handover"


@given(st.floats(0, 500), st.floats(0, 500), st.integers(0, 40))
def test_a_bar_has_its_width_and_is_full_only_when_the_wait_is_over(counted: float, needed: float, width: int) -> None:
    bar = bar_of(counted, needed, width)
    assert len(bar) == width
    if width and needed > 0:
        assert ("░" not in bar) == (counted >= needed)


def test_a_room_is_drawn_to_scale_with_the_lengths_of_its_walls() -> None:
    drawing = sketch(L_SHAPE, (), 28, 9)
    assert drawing == [
        "┌─────E 4300─────┐",
        "│                │",
        "│                │D 2700",
        "│                │",
        "│F 4100          │",
        "│                └─C┐",
        "│                   │B 1400",
        "│                   │",
        "└───────A 5200──────┘",
    ]


def test_doorways_are_gaps_in_their_walls_and_fixed_things_are_rings() -> None:
    finds = Finds(
        doorways=[Doorway(wall=0, from_mm=3700, width_mm=900), Doorway(wall=5, from_mm=100, width_mm=900)],
        fixed_things=[FixedThing(name="pipe", x_mm=900, y_mm=2600, size_mm=22)],
    )
    assert sketch(L_SHAPE, (), 28, 9, finds) == [
        "┌─────E 4300─────┐",
        "                 │",
        "                 │D 2700",
        "│   ◦            │",
        "│F 4100          │",
        "│                └─C┐",
        "│                   │B 1400",
        "│                   │",
        "└───────A 5200     ─┘",
    ]


def test_a_shape_that_cannot_be_drawn_is_not_drawn() -> None:
    assert sketch((), (), 28, 9) == []
    assert sketch(((0, 0), (5, 0), (9, 0)), (), 28, 9) == []
    assert sketch(L_SHAPE, (), 5, 2) == []
    assert sketch(tuple((x, x * x) for x in range(500)), (), 28, 9) == []


CORNERS = st.lists(st.tuples(st.integers(-9999, 9999), st.integers(-9999, 9999)), max_size=8).map(tuple)


@given(CORNERS, st.lists(CORNERS, max_size=2), st.integers(0, 60), st.integers(0, 20))
def test_no_shape_makes_the_drawing_fail_or_leave_its_frame(
    outline: tuple[tuple[int, int], ...], cut_outs: list[tuple[tuple[int, int], ...]], width: int, height: int
) -> None:
    drawing = sketch(outline, cut_outs, width, height)
    assert len(drawing) <= height
    assert all(len(line) <= width for line in drawing)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_become_plain_text_on_every_way_to_a_widget(name: str) -> None:
    for shown in (cell(name).plain, plain(name).plain, cut(name, 20)):
        assert "\x1b" not in shown
        assert "\u202e" not in shown
    assert cell_len(cut(name, 20)) <= 20
    assert cell(name).spans == []


class Shelf(App[None]):
    def compose(self) -> ComposeResult:
        yield StageBar(Stage.ACCLIMATISATION)
        yield RoomSketch(L_SHAPE)
        yield Line("[/] & Söhne")


async def test_the_small_drawings_read_well_at_forty_columns() -> None:
    app = Shelf()
    async with app.run_test(size=(40, 20)) as pilot:
        await pilot.pause()
        shown = picture(app)
        assert "● acclimatising" in shown
        assert "4300" in shown
        assert "[/] & Söhne" in shown


async def test_a_drawing_can_show_something_else_later() -> None:
    app = Shelf()
    async with app.run_test(size=(100, 20)) as pilot:
        app.query_one(StageBar).show(Stage.CURE)
        app.query_one(RoomSketch).show(())
        await pilot.pause()
        shown = picture(app)
        assert "● cure" in shown
        assert "No drawing yet." in shown
