"""Somebody else's inputs for the floor itself: rows, glue, the gap at the walls, and patterns."""

import pytest

from tests.tui.somebody_asks import Row, answers, ask, each, each_no, near, refuses

# The rule as published (common practice, no source), by hand: A = across − 2 × gap, n = ⌊A ÷ board⌋, r = A − n × board.
# Board, across and what else is typed; then rows, first, last, and r where there is one.
ROWS = [
    (180, 3620, "", 20, 180, 180, None),  # 3600 = 20 × 180
    (180, 3621, "", 21, 90.5, 90.5, 1),  # the twentieth and the strip of 1 make two of (180 + 1) ÷ 2
    (180, 3679, "", 21, 119.5, 119.5, 59),  # a mm under the least
    (180, 3680, "", 21, 180, 60, 60),  # just the least
    (180, 3799, "", 21, 180, 179, 179),  # almost full
    (180, 3621, "--least 1", 21, 180, 1, 1),
    (180, 3621, "--least 0", 21, 180, 1, 1),
    (220, 4444, "--gap 15", 21, 117, 117, 14),  # 4414 = 20 × 220 + 14
    (127, 6333, "--least 63 --gap 8", 50, 127, 94, 94),  # 6317 = 49 × 127 + 94
    (190, 2500, "--gap 12 --least 95", 14, 98, 98, 6),  # 2476 = 13 × 190 + 6
    (190, 5201, "--least 200", 28, 120.5, 120.5, 51),  # no strip is wide enough for such a least
    (100, 1000, "--gap 0", 10, 100, 100, None),
    (100, 1015, "--gap 0", 11, 57.5, 57.5, 15),
    (70, 30000, "--gap 20", 428, 70, 70, None),  # a hall in strips: 29 960 = 428 × 70
    (190, 210, "", 1, 190, 190, None),  # just a board
    (190, 211, "", 2, 95.5, 95.5, 1),  # and a mm more
    (190, 269, "", 2, 124.5, 124.5, 59),
    (190, 270, "", 2, 190, 60, 60),
    (190, 200, "", 1, 180, 180, 180),  # narrower than a board: one row of that width
    (190, 40, "", 1, 20, 20, 20),  # narrower than the narrowest row
    (190, 21, "", 1, 1, 1, 1),  # as narrow as can be
]


@pytest.mark.parametrize(("board", "across", "more", "rows", "first", "last", "strip"), ROWS)
def test_rows_fill_the_floor_as_the_rule_says(
    board: int, across: int, more: str, rows: int, first: float, last: float, strip: int | None
) -> None:
    right: dict[str, object] = {"rows": rows, "first_mm": first, "last_mm": last}
    answers(
        f"rows --board {board} --across {across} {more}",
        right if strip is None else right | {"last_if_full_mm": strip},
    )


# Area × rate in whole tubs, and ⌊open time × pace ÷ (board × run)⌋ rows, at least one and at most three: by hand.
# The notches' names are TKB note 6's, their grams from memory: the most on a rough base, the least on a smooth one.
GLUE: list[Row] = [
    ("two tubs to the gram", "glue --area 24 --rate 1250 --tub 15", {"kg": near(30, 1e-9), "tubs": 2}),
    ("and a gram over", "glue --area 24.001 --rate 1250 --tub 15", {"tubs": 3}),
    ("tubs of ten", "glue --area 45,5 --rate 1100 --tub 10", {"kg": near(50.05, 1e-9), "tubs": 6}),
    ("a threshold", "glue --area 0.09 --rate 900 --tub 6", {"kg": near(0.081, 1e-9), "tubs": 1}),
    ("0.7 kg in tubs of 0.1", "glue --area 0.7 --rate 1000 --tub 0.1", {"tubs": 7}),
    ("no pace, no rows", "glue --area 20 --rate 1000 --tub 16", {"tubs": 2, "rows_at_once": None}),
    ("just three rows of 1 m²", "glue --area 9 --rate 1000 --tub 9 --open-time 60 --pace 3 --board 200 --run 5000",
     {"tubs": 1, "rows_at_once": 3}),
    ("a mm longer, two", "glue --area 9 --rate 1000 --tub 9 --open-time 60 --pace 3 --board 200 --run 5001",
     {"rows_at_once": 2}),
    ("just two", "glue --area 9 --rate 1000 --tub 9 --open-time 30 --pace 4 --board 200 --run 5000",
     {"rows_at_once": 2}),
    ("just under two", "glue --area 9 --rate 1000 --tub 9 --open-time 29 --pace 4 --board 200 --run 5000",
     {"rows_at_once": 1}),
    ("half a row is one", "glue --area 9 --rate 1000 --tub 9 --open-time 20 --pace 2,5 --board 260 --run 6400",
     {"rows_at_once": 1}),
    ("never more than three", "glue --area 9 --rate 1000 --tub 9 --open-time 90 --pace 9 --board 70 --run 1000",
     {"rows_at_once": 3}),
    ("B6 on a rough base", "glue --area 25 --tub 15 --notch B6", {"kg": near(30, 1e-9), "tubs": 2}),
    ("B6 on a smooth base", "glue --area 25 --tub 15 --notch B6 --base smooth", {"kg": near(25, 1e-9), "tubs": 2}),
    ("B15, long wide boards", "glue --area 20 --tub 15 --notch b15", {"kg": near(30, 1e-9), "tubs": 2}),
    ("A2, smooth", "glue --area 50 --tub 15 --notch A2 --base smooth", {"kg": near(15, 1e-9), "tubs": 1}),
]  # fmt: skip

# A maker's rule of 1.5 mm for each metre of width, in whole mm, never under 10; what loose wood would move is
# width × swelling (after DIN 68100) × points: by hand.
GAP: list[Row] = [
    ("a narrow room", "gap --across 3000", {"asked_mm": 10, "enough": True}),
    ("9.999 is still ten", "gap --across 6666", {"asked_mm": 10, "enough": True}),
    ("10.0005 is eleven", "gap --across 6667", {"asked_mm": 11, "enough": False}),
    ("eleven are enough", "gap --across 7333 --gap 11", {"asked_mm": 11, "enough": True}),
    ("just twelve", "gap --across 8000 --gap 12", {"asked_mm": 12, "enough": True}),
    ("a wide hall", "gap --across 15000 --gap 22", {"asked_mm": 23, "enough": False}),
    ("glued floors are asked nothing", "gap --across 9000 --method glued --species beech",
     {"asked_mm": None, "free_movement_mm": near(110.7, 1e-6)}),
    ("oak over four points", "gap --across 3600 --species oak --points 4", {"free_movement_mm": near(51.84, 1e-6)}),
]  # fmt: skip

# Integral geometry: A ÷ (l × w) × (1 + u × P × (l + w) ÷ (2√2 × A)) blocks, u the share of the border's offcuts that is
# not used again; worked out in a script of its own.
HERRINGBONE = [
    (30, 24, 500, 70, "", 927, 8.061),
    (12, 14, 490, 70, "", 391, 11.549),
    (12, 14, 490, 70, "--unused 100", 431, 23.099),
    (12, 14, 490, 70, "--unused 30", 375, 6.930),
    (12, 14, 490, 70, "--unused 0", 350, 0),
    (65.5, 34, 600, 120, "", 970, 6.607),
    (16, 16, 700, 120, "--unused 100", 246, 28.991),
    (9.5, 13, 600, 90, "--unused 25", 191, 8.346),
]


@pytest.mark.parametrize(("area", "around", "length", "width", "more", "blocks", "loss"), HERRINGBONE)
def test_herringbone_takes_the_floor_and_what_its_border_loses(
    area: float, around: float, length: int, width: int, more: str, blocks: int, loss: float
) -> None:
    half = (blocks + 1) // 2  # the tongued blocks of each hand are rounded up
    right: dict[str, object] = {"blocks": blocks, "left_hand": half, "right_hand": half}
    typed = f"herringbone --area {area} --perimeter {around} --length {length} --width {width} {more}"
    answers(typed, right | {"loss_percent": near(loss, 0.001)})


# Columns of length × sin a across, blocks of width ÷ sin a along, one slope more, all in whole blocks: by hand.
CHEVRON: list[Row] = [
    ("a room turned round", "chevron --across 5000 --along 4000 --length 600 --width 90", {"blocks": 420}),
    ("a hall", "chevron --across 6000 --along 8000 --length 600 --width 90", {"blocks": 1005}),
    ("small blocks", "chevron --across 4000 --along 5000 --length 500 --width 70", {"blocks": 660}),
    ("ends of 60°", "chevron --across 4000 --along 5000 --length 600 --width 90 --end 60",
     {"blocks": 408, "left_hand": 204, "right_hand": 204, "loss_percent": near(10.16, 0.005)}),
    ("60° in a box room", "chevron --across 3900 --along 2800 --length 650 --width 120 --end 60", {"blocks": 161}),
    ("ten columns just fit", "chevron --across 4242 --along 5000 --length 600 --width 90",
     {"blocks": 430, "loss_percent": near(9.48, 0.005)}),
    ("a mm more, eleven", "chevron --across 4243 --along 5000 --length 600 --width 90",
     {"blocks": 473, "loss_percent": near(20.40, 0.005)}),
]  # fmt: skip

# Perimeter × width ÷ (2√2 × area): by hand.
DIAGONAL: list[Row] = [
    ("narrow boards", "diagonal --area 20 --perimeter 18 --width 90", {"extra_loss_percent": near(2.864, 0.001)}),
    ("a small room", "diagonal --area 9 --perimeter 12 --width 190", {"extra_loss_percent": near(8.957, 0.001)}),
    ("a big one", "diagonal --area 48 --perimeter 28 --width 190", {"extra_loss_percent": near(3.919, 0.001)}),
    ("commas", "diagonal --area 33,3 --perimeter 26,4 --width 220", {"extra_loss_percent": near(6.166, 0.001)}),
]


@pytest.mark.parametrize(("typed", "right"), each([*GLUE, *GAP, *CHEVRON, *DIAGONAL]))
def test_glue_gaps_and_patterns_come_out_as_worked_by_hand(typed: str, right: dict[str, object]) -> None:
    answers(typed, right)


NOT_COVERED = [
    ("a floor that its gaps eat up", "rows --across 20 --board 190"),
    ("a floor its gaps more than eat up", "rows --across 300 --board 190 --gap 200"),
    ("half a mm of floor", "rows --across 4000.5 --board 190"),
    ("thousands with a comma", "rows --across 3,600 --board 190"),
    ("a board of nothing", "rows --across 4000 --board 0"),
    ("a gap below nought", "rows --across 4000 --board 190 --gap -1"),
    ("a tub of nothing", "glue --area 20 --rate 1000 --tub 0"),
    ("a rate below nought", "glue --area 20 --rate -1000 --tub 15"),
    ("an open time without a pace", "glue --area 20 --rate 1000 --tub 15 --open-time 40 --board 190 --run 5000"),
    ("a rate and a notch", "glue --area 20 --rate 1000 --notch B3 --tub 15"),
    ("a notch nobody cuts", "glue --area 20 --notch B99 --tub 15"),
    ("a gap for no floor", "gap --across 0"),
    ("a pattern on no floor", "herringbone --area 0 --perimeter 18 --length 600 --width 90"),
    ("more offcuts than there are", "herringbone --area 20 --perimeter 18 --length 600 --width 90 --unused 101"),
    ("ends cut flat", "chevron --across 4000 --along 5000 --length 600 --width 90 --end 0"),
    ("a diagonal of nothing", "diagonal --area 20 --perimeter 18 --width 0"),
]


@pytest.mark.parametrize("typed", each_no(NOT_COVERED))
def test_a_floor_that_no_rule_covers_is_refused(typed: str) -> None:
    refuses(typed)


def test_ripped_rows_are_said_in_words_with_their_half_millimetre() -> None:
    assert {"rows: 21", "first (mm): 90.5", "last (mm): 90.5"} <= set(
        ask("rows --across 3621 --board 180").said.splitlines()
    )
