"""Somebody else's inputs for wood in its air: moisture, dew point, movement, and boards against their base."""

import psychrolib
import pytest

from tests.tui.somebody_asks import Row, answers, ask, each, each_no, near, refuses

psychrolib.SetUnitSystem(psychrolib.SI)

# USDA Wood Handbook FPL-GTR-190, Table 4-2: °F, RH %, printed EMC %. These cells are from memory; each was held against
# equation 4-5 in a script of its own and agrees to the 0.06 that separates the printed table from its equation.
PRINTED = [
    (40, 20, 4.6), (50, 45, 8.7), (50, 90, 20.9), (60, 10, 2.5), (70, 35, 6.9), (70, 90, 20.5), (80, 15, 3.5),
    (80, 85, 17.7), (90, 20, 4.3), (100, 25, 5.0), (100, 90, 19.5), (110, 40, 7.0), (110, 80, 14.7), (120, 5, 1.1),
    (120, 60, 9.7), (120, 95, 22.0),
]  # fmt: skip


@pytest.mark.parametrize(("fahrenheit", "rh", "printed"), PRINTED)
def test_wood_takes_on_the_moisture_of_the_printed_table(fahrenheit: int, rh: int, printed: float) -> None:
    celsius = round((fahrenheit - 32) / 1.8, 3)
    answers(f"emc --temp {celsius} --rh {rh}", {"emc_percent": near(printed, 0.06)})


# The same handbook's equation 4-5 with the coefficients in °C, typed again from its text into a script of its own.
EMC: list[Row] = [
    ("the coldest the table goes", "emc --temp -1 --rh 50", {"emc_percent": near(9.515, 0.001)}),
    ("coldest and driest", "emc --temp -1 --rh 5", {"emc_percent": near(1.399, 0.001)}),
    ("coldest and dampest", "emc --temp -1 --rh 95", {"emc_percent": near(24.333, 0.001)}),
    ("hottest and driest", "emc --temp 49 --rh 5", {"emc_percent": near(1.053, 0.001)}),
    ("hottest and dampest", "emc --temp 49 --rh 95", {"emc_percent": near(21.985, 0.001)}),
    ("at freezing", "emc --temp 0 --rh 65", {"emc_percent": near(12.373, 0.001)}),
    ("tenths of both", "emc --temp 21.5 --rh 47.3", {"emc_percent": near(8.805, 0.001)}),
    ("decimal commas", "emc --temp 21,5 --rh 47,3", {"emc_percent": near(8.805, 0.001)}),
    ("a decimal comma under nought", "emc --temp -0,5 --rh 50", {"emc_percent": near(9.518, 0.001)}),
    ("cool and dry end of a room", "emc --rh 40 --temp 18", {"emc_percent": near(7.761, 0.001)}),
    ("warm and damp end of a room", "emc --temp 24 --rh 65", {"emc_percent": near(11.852, 0.001)}),
    ("a damp cellar", "emc --temp 12.5 --rh 82", {"emc_percent": near(17.051, 0.001)}),
    ("a hot attic", "emc --temp 30 --rh 33", {"emc_percent": near(6.440, 0.001)}),
]

# Magnus with 17.62 and 243.12 °C (WMO No. 8), worked by hand; the surface is 3 °C above it or more (ISO 8502-4).
DEW: list[Row] = [
    (
        "a surface just warm enough",
        "dew-point --temp 21 --rh 63 --surface 16.7",
        {"dew_point_c": near(13.684, 0.001), "margin_c": near(3.016, 0.001), "ok": True},
    ),
    (
        "a tenth colder is not",
        "dew-point --temp 21 --rh 63 --surface 16.6",
        {"margin_c": near(2.916, 0.001), "ok": False},
    ),
    ("a cold screed in spring", "dew-point --temp 18 --rh 65 --surface 14,3", {"ok": False}),
    ("the same a little warmer", "dew-point --temp 18 --rh 65 --surface 14,4", {"ok": True}),
    (
        "a surface below its dew point",
        "dew-point --temp 26 --rh 72 --surface 15",
        {"margin_c": near(-5.558, 0.002), "ok": False},
    ),
    ("no surface, nothing said of it", "dew-point --temp 5 --rh 95", {"dew_point_c": near(4.265, 0.001), "ok": None}),
    ("frost outside", "dew-point --temp -5 --rh 80", {"dew_point_c": near(-7.917, 0.001)}),
    ("saturated at freezing", "dew-point --temp 0 --rh 100 --surface 3", {"dew_point_c": 0, "margin_c": 3, "ok": True}),
    ("almost no water in the air", "dew-point --temp 20 --rh 0.1", {"dew_point_c": near(-58.383, 0.002)}),
]


@pytest.mark.parametrize(("typed", "right"), each([*EMC, *DEW]))
def test_wood_and_water_settle_where_the_formula_says(typed: str, right: dict[str, object]) -> None:
    answers(typed, right)


@pytest.mark.parametrize(
    ("temp", "rh"),
    [(17, 58), (19.5, 47.5), (23, 41), (28, 66), (35, 80), (8, 85), (13, 99), (27, 35), (16, 45), (40, 20), (21, 49)],
)
def test_dew_points_are_those_of_psychrolib(temp: float, rh: float) -> None:
    right = psychrolib.GetTDewPointFromRelHum(temp, rh / 100)
    answers(f"dew-point --temp {temp} --rh {rh}", {"dew_point_c": near(right, 0.04)})


# Saturated air is at its dew point, whatever the formula: so 3 °C more is just enough, a hundredth less is not.
@pytest.mark.parametrize("tenths", [0, 8, 80, 201, 210, 230, 290, 300, 320, 333, 370, 407])
def test_a_surface_just_three_degrees_above_saturated_air_is_warm_enough(tenths: int) -> None:
    at, just, short = tenths / 10, (tenths + 30) / 10, (10 * tenths + 299) / 100
    answers(f"dew-point --temp {at} --rh 100 --surface {just}", {"dew_point_c": near(at, 1e-9), "ok": True})
    answers(f"dew-point --temp {at} --rh 100 --surface {short}", {"ok": False})


# Width × coefficient × points of moisture, by hand. Plain names: differential swelling after DIN 68100 as German
# timber-trade tables print it. American woods: USDA Wood Handbook, Table 13-5. Jatoba: a US association's list.
MOVEMENT = [
    ("oak", 137, "11", "8", "flat", -1.4796), ("oak", 137, "11", "8", "quarter", -0.6576),
    ("beech", 95, "6", "14", "flat", 3.116), ("beech", 95, "6", "14", "quarter", 1.52),
    ("ash", 120, "14", "6", "flat", -3.648), ("ash", 120, "14", "6", "quarter", -2.016),
    ("birch", 70, "8.5", "7.25", "flat", -0.35875), ("birch", 70, "8,5", "7,25", "quarter", -0.25375),
    ("spruce", 145, "10", "12", "flat", 1.131), ("spruce", 145, "10", "12", "quarter", 0.551),
    ("larch", 145, "10", "12", "flat", 0.87), ("larch", 145, "10", "12", "quarter", 0.406),
    ("pine", 27, "9", "9.5", "flat", 0.0486), ("pine", 113, "13.9", "14", "quarter", 0.02147),
    ("iroko", 90, "7", "11", "flat", 1.008), ("iroko", 90, "7", "11", "quarter", 0.684),
    ("afzelia", 90, "7", "11", "flat", 0.792), ("afzelia", 90, "7", "11", "quarter", 0.396),
    ("walnut", 160, "12", "9", "flat", -1.392), ("oak", 200, "9", "9", "flat", 0),
    ("red-oak", 57, "7", "12", "flat", 1.05165), ("red-oak", 57, "7", "12", "quarter", 0.4503),
    ("white-oak", 127, "9", "6", "quarter", -0.6858), ("red-maple", 83, "6", "10", "flat", 0.95948),
    ("red-maple", 83, "6", "10", "quarter", 0.45484), ("hard-maple", 83, "6", "10", "quarter", 0.5478),
    ("american-beech", 100, "8", "11", "flat", 1.293), ("white-ash", 150, "9", "7.5", "flat", -0.6165),
    ("black-cherry", 101, "10", "6.6", "flat", -0.851632), ("yellow-birch", 76, "6", "9", "quarter", 0.58368),
    ("american-elm", 125, "8", "9", "flat", 0.4225), ("american-chestnut", 200, "12", "8", "quarter", -0.928),
    ("black-locust", 88, "7", "10.5", "flat", 0.77616), ("red-alder", 140, "6", "14", "quarter", 1.6912),
    ("black-walnut", 127, "9", "6", "quarter", -0.7239), ("jatoba", 82, "8", "9.9", "flat", 0.4674),
]  # fmt: skip


@pytest.mark.parametrize(("wood", "width", "start", "end", "cut", "change"), MOVEMENT)
def test_a_board_moves_by_its_width_its_wood_and_the_moisture_between(
    wood: str, width: int, start: str, end: str, cut: str, change: float
) -> None:
    typed = f"movement --species {wood} --width {width} --from {start} --to {end}"
    answers(f"{typed} --cut {cut}", {"change_mm": near(change, 1e-5)})
    if cut == "flat":
        answers(typed, {"change_mm": near(change, 1e-5)})


# US wood-floor association: 4 points up to 3 in (76 mm and more is wide), 2 points from there on; by hand.
GAP: list[Row] = [
    (
        "strips just at four",
        "moisture-gap --board 8.4 --subfloor 12.4 --width 57",
        {"difference": near(4, 1e-9), "limit": 4, "ok": True},
    ),
    ("strips a hair over four", "moisture-gap --board 8.4 --subfloor 12.41 --width 57", {"limit": 4, "ok": False}),
    (
        "the widest strip",
        "moisture-gap --board 7 --subfloor 10.5 --width 75.9",
        {"difference": near(3.5, 1e-9), "limit": 4, "ok": True},
    ),
    ("the narrowest plank", "moisture-gap --board 7 --subfloor 10.5 --width 76", {"limit": 2, "ok": False}),
    ("planks just at two, in tenths", "moisture-gap --board 8.1 --subfloor 10.1 --width 190", {"limit": 2, "ok": True}),
    ("planks a tenth over", "moisture-gap --board 8.1 --subfloor 10.2 --width 190", {"ok": False}),
    (
        "boards wetter than the base",
        "moisture-gap --board 11.9 --subfloor 9.9 --width 140",
        {"difference": near(2, 1e-9), "ok": True},
    ),
    (
        "boards far wetter",
        "moisture-gap --board 14 --subfloor 8,5 --width 70",
        {"difference": near(5.5, 1e-9), "ok": False},
    ),
    (
        "no difference at all",
        "moisture-gap --board 9 --subfloor 9 --width 300",
        {"difference": 0, "limit": 2, "ok": True},
    ),
]


@pytest.mark.parametrize(("typed", "right"), each(GAP))
def test_boards_lie_as_close_to_their_base_as_their_width_asks(typed: str, right: dict[str, object]) -> None:
    answers(typed, right)


NOT_COVERED = [
    ("air a tenth too cold", "emc --temp -1.1 --rh 50"),
    ("air a tenth too cold, with a comma", "emc --temp -1,1 --rh 50"),
    ("air a tenth too hot", "emc --temp 49.1 --rh 50"),
    ("air a tenth too dry", "emc --temp 20 --rh 4.9"),
    ("air a tenth too damp", "emc --temp 20 --rh 95.1"),
    ("saturated wood", "emc --temp 20 --rh 100"),
    ("a moisture that is no number", "emc --temp 20 --rh nan"),
    ("no water at all", "dew-point --temp 20 --rh 0 --surface 20"),
    ("more water than air holds", "dew-point --temp 20 --rh 100.01"),
    ("a humidity under nought", "dew-point --temp 20 --rh -1"),
    ("a surface without an end", "dew-point --temp 20 --rh 50 --surface inf"),
    ("drier than the equation", "movement --species oak --width 140 --from 5.99 --to 8"),
    ("wetter than the equation", "movement --species oak --width 140 --from 8 --to 14.01"),
    ("a board of no width", "movement --species oak --width 0 --from 8 --to 9"),
    ("a wood nobody measured", "movement --species cork --width 140 --from 8 --to 9"),
    ("maple, without saying which", "movement --species maple --width 140 --from 8 --to 9"),
    ("jatoba, whose quarter is not known", "movement --species jatoba --width 82 --from 8 --to 9 --cut quarter"),
    ("a board wetter than wet", "moisture-gap --board 140 --subfloor 9 --width 140"),
    ("a strip of no width", "moisture-gap --board 9 --subfloor 9 --width 0"),
]


@pytest.mark.parametrize("typed", each_no(NOT_COVERED))
def test_air_and_wood_that_no_rule_covers_are_refused(typed: str) -> None:
    refuses(typed)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("dew-point --temp 18 --rh 65 --surface 14.3", "ok: no"),
        ("moisture-gap --board 8.4 --subfloor 12.4 --width 57", "ok: yes"),
        ("movement --species beech --width 95 --from 6 --to 14", "change (mm): 3.116"),
    ],
)
def test_the_same_is_said_in_words(typed: str, said: str) -> None:
    ran = ask(typed)
    assert (ran.status, ran.err) == (0, b"")
    assert said in ran.said.splitlines()
