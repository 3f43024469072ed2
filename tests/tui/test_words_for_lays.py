"""The words for a lay: a cut list that can be followed on one's knees, checked against pieces by hand."""

import json
from collections import defaultdict
from dataclasses import replace
from xml.etree import ElementTree

import pytest
from rich.cells import cell_len

from store.trade.layout.cuts import Kept, cuts_of, left_over, rows_of_cuts
from store.trade.layout.figures import figures_of, strips_at_walls
from store.trade.layout.lay import BoardSize, Lay, LayRules, Piece, Room
from store.trade.layout.search import lay_room
from tui.cli import main
from tui.words.lays import (
    cut_list_lines,
    lay_text,
    say_best,
    say_first_wall,
    say_left_over,
    say_narrowest,
    say_row,
)

OAK = BoardSize(length_mm=1900, width_mm=190, boards_per_pack=6)
RULES = LayRules(stagger_mm=400)
PARLOUR = Room(
    outline=((0, 0), (5400, 0), (5400, 4300), (3500, 4300), (3500, 3900), (2000, 3900), (2000, 4300), (0, 4300)),
    cut_outs=(((2100, 3400), (3400, 3400), (3400, 3850), (2100, 3850)),),
)


def piece(row, start, end, board, near):
    return Piece(row=row, from_mm=start, to_mm=end, board=board, board_from_mm=near, board_to_mm=near + end - start)


# Three rows by hand: the first closes with 1580 of board 3; its 317 (1900 − 1580 − 3) begins the second, which is
# ripped; the third has a break, and takes 200 out of the middle of what board 6 has left (1900 − 900 − 3 = 997).
BY_HAND = Lay(
    boards=7,
    packs=2,
    net_area_mm2=3_000_000,
    floor_area_mm2=2_400_000.0,
    board=OAK,
    direction_deg=0,
    least_boards=6,
    row_edges_mm=((10, 200), (200, 303), (303, 493)),
    pieces=(
        piece(0, 10, 1910, 1, 0),
        piece(0, 1910, 3810, 2, 0),
        piece(0, 3810, 5390, 3, 0),
        piece(1, 10, 327, 3, 1583),
        piece(1, 327, 2227, 4, 0),
        piece(1, 2227, 4127, 5, 0),
        piece(1, 4127, 5027, 6, 0),
        piece(2, 10, 210, 6, 903),
        piece(2, 900, 1300, 7, 1500),
    ),
)


def rows_by_hand():
    return [say_row(row, RULES) for row in rows_of_cuts(BY_HAND, 3)]


def test_a_row_tells_whole_boards_the_cut_its_offcut_and_the_row_that_takes_it():
    assert rows_by_hand()[0] == (
        "Row 1 (full width 190): whole 1900 · whole 1900 · "
        "cut 1580 from board 3 (3a), near end kept, offcut 317 → row 2."
    )


def test_a_ripped_row_tells_its_width_and_that_length_goes_before_width():
    assert rows_by_hand()[1] == (
        "Row 2 (ripped to 103): the offcut 317 of board 3 (3b), far end kept · whole 1900 · whole 1900 · "
        "cut 900 from board 6 (6a), near end kept, offcut 997 → row 3. Cut to length first, then rip."
    )


def test_a_row_with_a_break_tells_so_and_what_nobody_takes_is_left_over():
    assert rows_by_hand()[2] == (
        "Row 3 (full width 190): cut 200 from the offcut 997 of board 6 (6b), both ends cut, 794 left over; "
        "then, past the break: cut 400 from board 7 (7a), far end kept, 1497 left over."
    )


def test_offcuts_left_over_are_all_that_no_row_takes():
    assert left_over(BY_HAND, 3) == (1497, 794)


def test_many_whole_boards_are_said_at_once():
    long = replace(
        BY_HAND,
        pieces=tuple(piece(0, 1900 * i, 1900 * (i + 1), i + 1, 0) for i in range(5)),
        row_edges_mm=((0, 190),),
    )
    assert say_row(rows_of_cuts(long, 3)[0], RULES) == "Row 1 (full width 190): 5 × whole 1900."


def test_the_first_two_rows_are_set_out_dry_and_stand_apart():
    lines = list(cut_list_lines(BY_HAND, RULES))
    assert lines[0].startswith("Set rows 1 and 2 out dry first")
    blank = lines.index("")
    assert lines[blank + 1].startswith("Row 3")
    assert any(line.startswith("Row 2") for line in lines[:blank])


@pytest.fixture(scope="module")
def parlour():
    return lay_room(PARLOUR, board=OAK, rules=RULES)


def test_the_parlour_is_cut_as_two_rows_measured_by_hand(parlour):
    # Between the walls lie 5400 − 2 × 10 = 5380. Row 1: 2 × 1900 leave 1580; 1900 − 1580 − 3 = 317.
    said = [say_row(row, RULES) for row in rows_of_cuts(parlour, 3)]
    assert said[0].startswith(
        "Row 1 (full width 190): whole 1900 · whole 1900 · cut 1580 from board 3 (3a), near end kept"
    )
    assert "offcut 317 → row" in said[0]
    # The last row lies between 10 + 22 × 190 = 4190 and 4300 − 10: ripped to 100, on both sides of the chimney breast.
    assert said[22].startswith("Row 23 (ripped to 100): ")
    assert said[22].count("; then, past the break: ") == 1
    in_row = [one for one in parlour.pieces if one.row == 22]
    left = sum(one.to_mm - one.from_mm for one in in_row if one.to_mm <= 2000)
    right = sum(one.to_mm - one.from_mm for one in in_row if one.from_mm >= 3500)
    assert (left, right) == (2000 - 20, 1900 - 20)


def test_following_the_words_uses_every_board_from_end_to_end(parlour):
    of_board = defaultdict(list)
    for cut in cuts_of(parlour, 3):
        of_board[cut.piece.board].append(cut)
    for cuts in of_board.values():
        assert [cut.out_of_mm is None for cut in cuts] == [True] + [False] * (len(cuts) - 1)
        never = sum(offcut.length_mm for cut in cuts for offcut in cut.leaves if not offcut.rows)
        sawdust = 1900 - sum(cut.length_mm for cut in cuts) - never
        if cuts[0].kept is Kept.WHOLE:
            assert (len(cuts), never, sawdust) == (1, 0, 0)
        else:
            assert 1 <= sawdust <= 2 * 3 * len(cuts)


def test_every_offcut_that_goes_to_a_row_is_taken_up_there(parlour):
    for cut in cuts_of(parlour, 3):
        for offcut in cut.leaves:
            for row in offcut.rows:
                later = [
                    one for one in cuts_of(parlour, 3) if one.piece.row == row and one.piece.board == cut.piece.board
                ]
                assert any(one.out_of_mm is not None and one.length_mm <= offcut.length_mm for one in later)


def test_the_narrowest_strip_names_its_wall(parlour):
    # Hearth and chimney breast leave 3900 − 3850 − 2 × 10 = 30 mm between them.
    figures = figures_of(PARLOUR, parlour, RULES)
    assert (
        say_narrowest(figures, PARLOUR, RULES)
        == "30 mm in row 21, at wall E (1500 mm): less than 60 mm, between two walls"
    )
    assert say_first_wall(figures, PARLOUR) == "along wall A (5400 mm)"


@pytest.mark.parametrize(
    ("outline", "walls"),
    [
        # 4280 = 22 × 190 + 100 from wall A; wall E ends at 3890 = 20 × 190 + 80 + 10.
        (((0, 0), (5400, 0), (5400, 4300), (3500, 4300), (3500, 3900), (2000, 3900), (2000, 4300), (0, 4300)),
         {0: 190, 2: 100, 4: 80, 6: 100}),
        # The same walls, the other way round.
        (((0, 0), (0, 4300), (2000, 4300), (2000, 3900), (3500, 3900), (3500, 4300), (5400, 4300), (5400, 0)),
         {7: 190, 5: 100, 3: 80, 1: 100}),
    ],
)  # fmt: skip
def test_strips_are_measured_at_every_wall_along_the_rows(outline, walls):
    room = Room(outline=outline)
    lay = lay_room(room, board=OAK, rules=RULES)
    assert {one.wall: one.width_mm for one in strips_at_walls(room, lay)} == walls


def test_a_full_board_start_is_told_beside_the_rows_that_are():
    # 3835 − 24 = 3811 = 20 × 190 + 11: begun with a full board the last row would be 11 mm (common practice).
    room = Room(outline=((0, 0), (4000, 0), (4000, 3835), (0, 3835)), gap_mm=12)
    figures = figures_of(room, lay_room(room, board=OAK, rules=RULES), RULES)
    assert figures.last_if_full_mm == 11
    assert min(figures.first_mm, figures.last_mm) >= 60


def test_a_lay_is_proved_best_or_told_how_far_from_perfect_it_can_be():
    figures = figures_of(PARLOUR, lay_room(PARLOUR, board=OAK, rules=RULES), RULES)
    assert say_best(replace(figures, boards_from_perfect=1), replace(BY_HAND, boards=7)) == (
        "at most 1 board from perfect (6)"
    )
    assert say_best(figures, replace(BY_HAND, boards=6)) == "proved best: no lay takes fewer boards"


def test_offcuts_are_told_longest_first_and_short_ones_together():
    figures = figures_of(PARLOUR, lay_room(PARLOUR, board=OAK, rules=RULES), RULES)
    assert say_left_over(replace(figures, left_over_mm=(835, 368, 201, 2)), RULES) == "835, 368 and 2 under 300"
    assert say_left_over(replace(figures, left_over_mm=()), RULES) == "none"
    assert say_left_over(replace(figures, left_over_mm=(200,)), RULES) == "1 under 300"


def test_the_print_keeps_within_80_columns_and_a_hostile_title_is_shown(parlour):
    text = lay_text(PARLOUR, parlour, RULES, title="[/] \x1b[31m" + "x" * 200)
    assert all(cell_len(line) <= 80 for line in text.splitlines())
    assert "\x1b" not in text
    assert "[/] ␛[31m" in text


@pytest.fixture
def room_file(tmp_path):
    path = tmp_path / "parlour.json"
    path.write_text(json.dumps({"name": "Parlour", "outline": [list(corner) for corner in PARLOUR.outline]}))
    return path


ASKED = ("--length", "1900", "--width", "190", "--per-pack", "6")


def test_the_command_prints_a_summary_the_drawing_and_the_cut_list(room_file, capsys):
    assert main(["sum", "lay", "--room", str(room_file), *ASKED]) == 0
    said = capsys.readouterr().out
    assert said.startswith("parlour\n\n")
    assert "boards in" in said
    assert "┌" in said
    assert "\nCut list\nSet rows 1 and 2 out dry first" in said
    assert "\nRow 1 (full width 190): " in said


def test_the_command_writes_the_drawing_and_its_keys_stay_what_they_were(room_file, tmp_path, capsys):
    drawing = tmp_path / "parlour.svg"
    assert main(["sum", "lay", "--room", str(room_file), *ASKED, "--svg", str(drawing), "--json"]) == 0
    answer = json.loads(capsys.readouterr().out)
    assert set(answer) >= {"rows", "boards", "packs", "least_boards", "row_edges_mm", "pieces", "cut_loss_percent"}
    root = ElementTree.fromstring(drawing.read_bytes())
    drawn = [one for one in root.iter() if one.get("id", "").startswith("piece-")]
    assert len(drawn) == len(answer["pieces"])


def test_a_drawing_that_cannot_be_written_is_refused_in_a_sentence(room_file, capsys):
    assert main(["sum", "lay", "--room", str(room_file), *ASKED, "--svg", str(room_file.parent / "no" / "a.svg")]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert "cannot be written" in said.err


def test_the_command_tells_of_the_doorways_the_pipes_and_the_line_in_the_file(tmp_path, capsys):
    path, drawing = tmp_path / "bay.json", tmp_path / "bay.svg"
    survey = {
        "name": "Bay",
        "outline": [[0, 0], [5200, 0], [5200, 4100], [0, 4100]],
        "direction_deg": 0,
        "line_mm": 95,
        "doorways": [{"wall": 1, "from_mm": 1600, "width_mm": 900, "to": "Hall"}],
        "fixed_things": [{"name": "radiator pipe", "x_mm": 300, "y_mm": 300, "size_mm": 22}],
    }
    path.write_text(json.dumps(survey))
    assert main(["sum", "lay", "--room", str(path), *ASKED, "--svg", str(drawing)]) == 0
    said = " ".join(capsys.readouterr().out.split())
    # An edge between two rows lies at 95: the first row is 95 less the gap of 10.
    assert "the first 85 mm wide" in said
    # Edges lie at 95 + k × 190: 1615 is the first past the jamb at 1600, 2375 the last before the one at 2500.
    assert "Doorway in wall B to Hall: rows 9 to 14 run through, 15 and 125 mm beside the jambs." in said
    # The pipe's middle is 300 − 285 = 15 mm into the row from 285 to 475.
    assert "Row 3: cut round radiator pipe (22)" in said
    assert "radiator pipe" in drawing.read_text()


@pytest.mark.parametrize(
    ("found", "said"),
    [
        ({"doorways": [{"wall": 7, "from_mm": 0, "width_mm": 900}]}, "doorways: Doorway 1 is in a wall 7"),
        ({"fixed_things": [{"name": "post", "x_mm": 9000, "y_mm": 0, "size_mm": 90}]}, "is outside the room"),
    ],
)
def test_a_doorway_or_a_pipe_that_cannot_be_there_is_refused_with_its_place(found, said, tmp_path, capsys):
    path = tmp_path / "room.json"
    path.write_text(json.dumps({"outline": [[0, 0], [5200, 0], [5200, 4100], [0, 4100]], **found}))
    assert main(["sum", "lay", "--room", str(path), *ASKED]) == 1
    assert said in capsys.readouterr().err
