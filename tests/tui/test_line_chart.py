"""A line of figures in the terminal: to scale, within its width, with what is out of range and what counted marked."""

from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from tui.widgets.line_chart import Chart, chart_lines

DAYS = tuple((24.0 * day, f"Mon {day}") for day in range(4))


def test_the_limits_are_named_where_they_lie_and_what_is_beyond_them_is_marked():
    chart = Chart(points=((0, 20), (36, 28), (72, 20)), lowest_good=18, highest_good=24, ticks=DAYS)
    lines = chart_lines(chart, 40, 12)
    assert [line[:2] for line in lines if line[:2].strip()] == ["24", "18"]
    assert lines[-2].count("▲") == 1
    assert lines[-2].index("▲") == 3 + 18  # the middle of 37 columns
    assert lines[-1].split() == ["Mon", "0", "Mon", "1", "Mon", "2", "Mon", "3"]


def test_a_day_that_has_no_room_is_left_out_and_the_last_one_stays_within():
    week = Chart(points=((0, 1), (168, 2)), ticks=tuple((24.0 * day, "Wednesday") for day in range(8)))
    assert chart_lines(week, 40, 8)[-1].split() == ["Wednesday"] * 3
    assert max(map(len, chart_lines(week, 40, 8))) <= 40


def test_stretches_that_count_are_underlined_and_stretch_the_axis():
    chart = Chart(points=((0, 20), (24, 20)), lowest_good=18, highest_good=24, counted=((24, 48),))
    marks = chart_lines(chart, 43, 8)[-2][3:]
    assert marks == "─" * 20 + "━" * 20


def test_a_single_reading_is_a_dot_and_no_reading_is_no_picture():
    assert (
        sum(line.strip("2 ┄─▲\n") != "" for line in chart_lines(Chart(points=((0, 3.1),), highest_good=2), 40, 8)) == 1
    )
    assert chart_lines(Chart(points=()), 40, 8) == []
    assert chart_lines(Chart(points=((0, 1),)), 12, 8) == []


@given(
    points=st.lists(st.tuples(st.floats(0, 1000), st.floats(-50, 100)), min_size=1, max_size=30),
    low=st.none() | st.floats(-50, 100),
    width=st.integers(30, 130),
    height=st.integers(6, 30),
)
def test_whatever_was_read_the_picture_keeps_to_its_frame(points, low, width, height):
    chart = Chart(points=sorted(points), lowest_good=low, ticks=DAYS, counted=((0, 20),))
    lines = chart_lines(chart, width, height)
    assert len(lines) == height
    assert all(cell_len(line) <= width for line in lines)
