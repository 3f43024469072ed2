"""Doorways, fixed things, lengths in a pack and measured outlines are read as people type them, and written back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.surveyed import Doorway, FixedThing
from tui.typed.figures import Misread
from tui.typed.finds import (
    read_direction,
    read_doorways,
    read_fixed_things,
    read_wall,
    typed_doorways,
    typed_fixed_things,
)
from tui.typed.lengths import PackLengths, read_lengths, read_run_mm, say_lengths
from tui.typed.outline import read_measured

names = st.from_regex(r"[A-Z][a-z]{2,12}( [a-z]{3,8})?", fullmatch=True).filter(
    lambda name: not name.lower().startswith(("to ", "deep"))
)
doorways = st.builds(
    Doorway,
    wall=st.integers(0, 60),
    from_mm=st.integers(0, 9_000),
    width_mm=st.integers(1, 3_000),
    to=st.just("") | names,
    deep_mm=st.integers(0, 400),
)
things = st.builds(
    FixedThing,
    name=names,
    x_mm=st.integers(-900, 9_000),
    y_mm=st.integers(-900, 9_000),
    size_mm=st.integers(1, 900),
)


@given(st.lists(doorways, max_size=4).map(tuple))
def test_doorways_are_read_back_as_they_were_written(given_ones):
    assert read_doorways(typed_doorways(given_ones)) == given_ones


@given(st.lists(things, max_size=4).map(tuple))
def test_fixed_things_are_read_back_as_they_were_written(given_ones):
    assert read_fixed_things(typed_fixed_things(given_ones)) == given_ones


@pytest.mark.parametrize(
    ("typed", "door"),
    [
        ("C 600 900 Hall", Doorway(wall=2, from_mm=600, width_mm=900, to="Hall")),
        ("c 0.6 m, 90 cm to Hall", Doorway(wall=2, from_mm=600, width_mm=900, to="Hall")),
        ("wall C: 600 900", Doorway(wall=2, from_mm=600, width_mm=900)),
        ("2 600 900 deep 120 Back room", Doorway(wall=2, from_mm=600, width_mm=900, deep_mm=120, to="Back room")),
        ("AB 0 826", Doorway(wall=27, from_mm=0, width_mm=826)),
    ],
)
def test_a_doorway_may_be_typed_in_many_ways(typed, door):
    assert read_doorways(typed) == (door,)


@pytest.mark.parametrize("typed", ["Hall", "C 600", "C wide 900", "600 900", "C 600 900 Hall; nonsense", "ABCD 1 2"])
def test_what_is_no_doorway_is_answered_by_an_example(typed):
    read = read_doorways(typed)
    assert isinstance(read, Misread)
    assert "C 600 900 Hall" in read.say


@pytest.mark.parametrize("typed", ["pipe", "pipe 22", "22 at 1,2", "pipe 22 at 1200", "pipe 22 at a,b"])
def test_what_is_nothing_fixed_is_answered_by_an_example(typed):
    read = read_fixed_things(typed)
    assert isinstance(read, Misread)
    assert "radiator pipe 22 at 1200,300" in read.say


def test_markup_and_control_characters_in_a_name_are_shown_and_not_obeyed():
    (thing,) = read_fixed_things("[bold]pi\x1bpe[/] 22 at 1,2")
    assert "\x1b" not in thing.name
    assert thing.name.startswith("[bold]")


@pytest.mark.parametrize(("typed", "wall"), [("C", 2), ("wall c", 2), ("2", 2), ("AA", 26)])
def test_a_wall_is_read_by_its_letter_or_its_place(typed, wall):
    assert read_wall(typed) == wall


@pytest.mark.parametrize("typed", ["", "C2", "-1", "ABCD"])
def test_what_is_no_wall_is_said_to_be_none(typed):
    assert isinstance(read_wall(typed), Misread)


@pytest.mark.parametrize(
    ("typed", "lengths"),
    [
        ("5 x 1900, 1 x 1000, 1 x 900", PackLengths(each=((1900, 5), (1000, 1), (900, 1)), longest_mm=1900)),
        ("1x900+5×1900;1*1000", PackLengths(each=((1900, 5), (1000, 1), (900, 1)), longest_mm=1900)),
        ("2 x 600, 3 x 600", PackLengths(each=((600, 5),), longest_mm=600)),
        ("500 - 1900", PackLengths(shortest_mm=500, longest_mm=1900)),
        ("1900 to 500 mm", PackLengths(shortest_mm=500, longest_mm=1900)),
        ("", PackLengths()),
    ],
)
def test_lengths_in_a_pack_may_be_counted_or_between_two(typed, lengths):
    assert read_lengths(typed) == lengths


def test_counted_lengths_are_written_back_as_they_are_read():
    each = ((1900, 5), (1000, 1))
    assert read_lengths(say_lengths(each)) == PackLengths(each=each, longest_mm=1900)


@pytest.mark.parametrize("typed", ["1900", "5 of 1900", "5 x", "x 1900", "5 x 1900, some"])
def test_what_is_no_length_with_a_count_is_answered_by_an_example(typed):
    read = read_lengths(typed)
    assert isinstance(read, Misread)
    assert "5 x 1900" in read.say


@pytest.mark.parametrize(
    ("typed", "run_mm"), [("11.4", 11_400), ("11,4", 11_400), ("11400 mm", 11_400), ("12", 12_000)]
)
def test_a_packs_run_is_in_metres_unless_a_unit_stands_there(typed, run_mm):
    assert read_run_mm(typed) == run_mm


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("5206 right, 4100 up, 5200 left, 4100 down", "closes with 6 mm, shared out over the walls"),
        ("5.2 m right, 4.1 m up, 5.2 m left, 4.1 m down", "closes"),
        ("5200 x 4100 diagonals 6622 6610", "out of square by 8 mm; the tape agrees to 5.9 mm"),
        ("4 m x 3 m diagonals 5 m, 5 m", "square"),
        ("5200 x 4100", ""),
    ],
)
def test_a_measured_outline_says_how_well_the_tape_agrees(typed, said):
    measured = read_measured(typed)
    assert not isinstance(measured, Misread)
    assert measured.say == said


def test_diagonals_that_do_not_go_together_say_which_to_measure_again():
    read = read_measured("5200 x 4100 diagonals 6622 6510")
    assert isinstance(read, Misread)
    assert "Measure the diagonals again" in read.say


OUTLINE = ((0, 0), (5200, 0), (5200, 4100), (0, 4100))


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("90", 90), ("-30", -30), ("B", 90), ("along wall B", 90), ("long wall", 0), ("the longest wall", 0),
        ("light A", 90), ("from B", 0), ("22,5", 22.5),
    ],
)  # fmt: skip
def test_rows_may_run_by_degrees_along_a_wall_or_along_the_light(typed, degrees):
    assert read_direction(typed, OUTLINE) == degrees


@pytest.mark.parametrize("typed", ["F", "light Z", "sideways", "north of here"])
def test_a_direction_that_is_none_is_said_to_be_none(typed):
    assert isinstance(read_direction(typed, OUTLINE), Misread)


def test_without_an_outline_only_degrees_are_read():
    assert read_direction("90", ()) == 90
    assert isinstance(read_direction("B", ()), Misread)
