"""Every sum is asked for by its published options and answers with its published keys, refuses, or is used wrongly."""

import json
import math
from pathlib import Path

import pytest

from tests.tui.somebodys_folder import refused, room, run

# Each figure is worked out by hand from the rule as published, or from the source named beside it.
SUMS: list[tuple[str, dict[str, object]]] = [
    # 5000 − 20 = 4980 = 26 × 190 + 40: the strip of 40 is under 60, so both ends are ripped to (190 + 40) ÷ 2.
    ("rows --across 5000 --board 190", {"first_mm": 115, "last_mm": 115, "last_if_full_mm": 40}),
    # 4960 = 26 × 190 + 20, and 20 is kept where 20 is enough.
    ("rows --across 4980 --board 190 --gap 10 --least 20", {"rows": 27, "first_mm": 190, "last_mm": 20}),
    ("rows --across 1920 --board 190 --gap 10", {"rows": 10, "first_mm": 190, "last_mm": 190}),
    # USDA Wood Handbook FPL-GTR-190, eq. 4-5.
    ("emc --temp 20 --rh 65", {"emc_percent": pytest.approx(12.0, abs=0.01)}),
    # Its table prints 9.5 at 30 °F (-1.1 °C) and at 40 °F alike; a comma is as good as a point below nought too.
    ("emc --temp -0,5 --rh 50", {"emc_percent": pytest.approx(9.5, abs=0.06)}),
    # Magnus form of the WMO guide (WMO No. 8): 20 °C and 65 % give 13.22 °C.
    ("dew-point --temp 20 --rh 65", {"dew_point_c": pytest.approx(13.22, abs=0.01), "margin_c": None, "ok": None}),
    (
        "dew-point --temp 20 --rh 65 --surface 16.3",
        {"margin_c": pytest.approx(3.08, abs=0.01), "ok": True},
    ),
    ("dew-point --temp 20 --rh 65 --surface 15", {"ok": False}),
    # 50 days for the first 50 mm of cement, two for each of the 15 beyond (a rule quoted from the British Standard).
    ("drying --screed cement --thickness 65 --laid 2027-01-04", {"days": 80, "dry_on": "2027-03-25"}),
    # 40 days for 40 mm of calcium sulphate, two for each of the 35 beyond (printed example of screed layers).
    ("drying --screed calcium-sulphate --thickness 75 --laid 2027-01-04", {"days": 110, "dry_on": "2027-04-24"}),
    # EN 1264-4: 21 days, three at 25 °C, four at full flow.
    (
        "first-heating --screed cement --laid 2027-01-04",
        {"start_on": "2027-01-25", "full_on": "2027-01-28", "end_on": "2027-02-01"},
    ),
    # BS 8204: SR1 3 mm, SR2 5 mm, SR3 10 mm under 2 m.
    ("flatness --rule sr1 --span 2000 --gap 3", {"limit_mm": 3, "ok": True}),
    ("flatness --rule sr2 --span 2000 --gap 5.1", {"limit_mm": 5, "ok": False}),
    # 20 m² × 3 mm × 1.7 kg = 102 kg, and a tenth more: 112.2 kg, five bags of 25.
    ("smoothing --area 20 --depth 3 --waste 10", {"kg": pytest.approx(112.2), "bags": 5}),
    ("smoothing --area 20 --depth 3", {"kg": pytest.approx(102), "bags": 5}),
    # 30 m² at 1000 g: two tubs of 15 exactly.
    ("glue --area 30 --rate 1000 --tub 15", {"kg": pytest.approx(30), "tubs": 2, "rows_at_once": None}),
    # In 40 min at 9 m² an hour 6 m² are laid; a row of 190 mm × 10 m is 1.9 m²: three rows.
    (
        "glue --area 30.1 --rate 1000 --tub 15 --open-time 40 --pace 9 --board 190 --run 10000",
        {"tubs": 3, "rows_at_once": 3},
    ),
    ("glue --area 9 --rate 900 --tub 6 --open-time 20 --pace 3 --board 190 --run 10000", {"rows_at_once": 1}),
    # TKB note 6 names the notch; its grams are from memory: 1,000 on a rough base, 800 on a smooth one.
    ("glue --area 30 --tub 15 --notch b3", {"kg": pytest.approx(30), "tubs": 2, "rate_g_per_m2": 1000}),
    ("glue --area 30 --tub 15 --notch B3 --base smooth", {"kg": pytest.approx(24), "tubs": 2, "by_notch": "B3"}),
    ("tests --method carbide --area 200", {"tests": 2}),
    ("tests --method carbide --area 401", {"tests": 3}),
    # ASTM F2170: three for the first 100 m², one for each 100 begun; at 40 % of the depth, 20 % drying to both sides.
    ("tests --method in-situ-rh --area 101 --thickness 100", {"tests": 4, "depth_mm": 40}),
    ("tests --method in-situ-rh --area 100 --thickness 100 --drying both", {"tests": 3, "depth_mm": 20}),
    ("moisture-gap --board 9 --subfloor 11 --width 190", {"difference": 2, "limit": 2, "ok": True}),
    ("moisture-gap --board 9 --subfloor 13.1 --width 60", {"limit": 4, "ok": False}),
    # 1200 + 1197 + one cut of 3 is a stick of 2400 exactly.
    ("trims --stick 2400 --kerf 3 --pieces 1200,1197", {"sticks": 1, "cuts": [[1200, 1197]], "left_mm": [0]}),
    ("trims --stick 2400 --kerf 3 --pieces 1200,1198", {"sticks": 2}),
    # Three strips of 30 m from rolls of 25 m, lapped by 200 mm wherever a roll ends: 90.6 m.
    (
        "film --along 30000 --across 4000 --roll-width 2000 --roll-length 25",
        {"strips": 3, "strip_mm": 30000, "rolls": 4, "joined": True},
    ),
    # 20 m² × 150 g; a full canister of 10 kg is not followed by an empty one.
    ("primer --area 20", {"kg": pytest.approx(3), "canisters": 1}),
    ("primer --area 50 --rate 200", {"kg": pytest.approx(10), "canisters": 1}),
    # 50 mm from the ends, no more than 400 mm apart.
    ("screws --pieces 100,300,2400", {"screws": 10, "each": [1, 2, 7]}),
    # Integral geometry, counted with random offsets: 412 blocks at 10.98 %, 206 of each hand.
    (
        "herringbone --area 20 --perimeter 18 --length 600 --width 90",
        {"blocks": 412, "left_hand": 206, "right_hand": 206, "loss_percent": pytest.approx(11, abs=0.3)},
    ),
    # Ten columns of 43 blocks.
    ("chevron --across 4000 --along 5000 --length 600 --width 90", {"blocks": 430}),
    # 13 risers of 200 and a going of 225 (Approved Document K, 2013, Table 1.1): 2R + G 625, twelve treads of 250;
    # two boards of 190 side by side, two steps from a board of 1900.
    (
        "stairs --total-rise 2600 --going 225 --width 860 --code ad-k-private --risers 13 --board-length 1900"
        " --board-width 190",
        {
            "rise_mm": 200,
            "treads": 12,
            "twice_rise_and_going_mm": 625,
            "ok": True,
            "boards": {"tread_boards": 12, "riser_boards": 13, "nosing_sticks": 7},
        },
    ),
    ("stairs --total-rise 2600 --going 225 --width 860 --code din-18065 --risers 12", {"ok": False, "boards": None}),
    # 18 × 0.19 ÷ (2·√2·20).
    ("diagonal --area 20 --perimeter 18 --width 190", {"extra_loss_percent": pytest.approx(6.05, abs=0.005)}),
]


@pytest.mark.parametrize(("asked", "answer"), SUMS, ids=[one[0] for one in SUMS])
def test_a_sum_answers_as_its_rule_says(asked: str, answer: dict[str, object]) -> None:
    ran = run("sum", *asked.split(), "--json")
    assert (ran.status, ran.err) == (0, b"")
    assert {key: ran.answer[key] for key in answer} == answer


KEYS = {
    "rows": "rows first_mm last_mm last_if_full_mm",
    "emc": "emc_percent",
    "dew-point": "dew_point_c margin_c ok",
    "movement": "change_mm",
    "drying": "days dry_on",
    "first-heating": "start_on full_on end_on",
    "flatness": "limit_mm ok",
    "smoothing": "kg bags",
    "glue": "kg tubs rows_at_once",
    "tests": "tests depth_mm",
    "moisture-gap": "difference limit ok",
    "trims": "sticks cuts left_mm",
    "herringbone": "blocks left_hand right_hand loss_percent",
    "chevron": "blocks left_hand right_hand loss_percent",
    "diagonal": "extra_loss_percent",
    "film": "strips strip_mm rolls joined",
    "primer": "kg canisters",
    "screws": "screws each",
    "stairs": "risers rise_mm going_mm treads twice_rise_and_going_mm pitch_deg ok code_source checks tread_depth_mm "
    "piece_mm tread_m2 riser_m2 nosings nosing_m boards",
}


def test_every_sum_has_its_published_keys_and_reads_well_without_json() -> None:
    asked = {one[0].split()[0]: one[0] for one in SUMS}
    asked["movement"] = "movement --species oak --width 190 --from 9 --to 11"
    assert set(asked) == set(KEYS)
    for name, typed in asked.items():
        assert set(run("sum", *typed.split(), "--json").answer) >= set(KEYS[name].split()), name
        told = run("sum", *typed.split())
        assert (told.status, told.err) == (0, b"")
        assert all(line.isprintable() and ": " in line for line in told.said.splitlines())


def test_a_floor_narrower_than_a_board_is_one_row_of_that_width() -> None:
    answer = run("sum", "rows", "--across", "150", "--board", "190", "--json").answer
    assert (answer["rows"], answer["first_mm"], answer["last_mm"]) == (1, 130, 130)


def test_european_woods_go_by_plain_names_and_american_ones_by_whole_names() -> None:
    def change(species: str) -> float:
        typed = ["--species", species, "--width", "100", "--from", "8", "--to", "10", "--json"]
        return float(run("sum", "movement", *typed).answer["change_mm"])

    # USDA Wood Handbook FPL-GTR-190, table 13-5: white oak, flat-grain, 0.00365 for each % and mm.
    assert change("white-oak") == pytest.approx(0.73, abs=0.001)
    assert change("oak") != change("white-oak")


@pytest.mark.parametrize(
    "asked",
    [
        "emc --temp 50 --rh 50",
        "emc --temp 20 --rh 96",
        "dew-point --temp 20 --rh 0",
        "dew-point --temp 20 --rh 101",
        "movement --species oak --width 190 --from 5 --to 9",
        "movement --species mist --width 190 --from 8 --to 9",
        "flatness --rule sr1 --span 1000 --gap 1",
        "rows --across 10 --board 190",
        "rows --across -5000 --board 190",
        "glue --area 10 --rate 1000 --tub 0",
        "smoothing --area 1e400 --depth 3",
        "emc --temp nan --rh 50",
        "emc --temp inf --rh 50",
        "tests --method carbide --area 0",
        "trims --stick 1000 --kerf 3 --pieces 1200",
        "film --along 5000 --across 4000 --roll-width 200 --roll-length 25",
        "primer --area 0",
        "screws --pieces 0",
        "drying --screed cement --thickness 60 --laid 9999-12-31",
        "lay --room /nowhere --length 1900 --width 190 --per-pack 6",
        "glue --area 10 --rate 1000 --tub 15 --open-time 40",
        "glue --area 10 --rate 1000 --tub 15 --notch B3",
        "glue --area 10 --tub 15 --notch X9",
        "stairs --total-rise 0 --going 225 --width 860 --code irc",
        "stairs --total-rise 2600 --going 0 --width 860 --code irc",
        "stairs --total-rise 2600 --going 225 --width 860 --code irc --risers 0",
        "stairs --total-rise 2600 --going 225 --width 860 --code irc --board-length 2000",
    ],
)
def test_what_a_rule_does_not_cover_is_refused_in_a_sentence(asked: str) -> None:
    for more in ([], ["--json"]):
        refused(run("sum", *asked.split(), *more))


@pytest.mark.parametrize(
    "asked",
    [
        "",
        "nonsense",
        "emc",
        "emc --temp 20",
        "emc --temp x --rh 50",
        "glue --area 9 --tub 6",
        "flatness --rule sr9 --span 1 --gap 1",
    ],
)
def test_a_sum_that_is_not_one_is_used_wrongly(asked: str) -> None:
    ran = run("sum", *asked.split())
    assert (ran.status, ran.out) == (2, b"")
    assert ran.err


def test_help_for_sums_names_every_one_of_them() -> None:
    told = run("sum", "--help").said
    assert all(name in told for name in [*KEYS, "lay"])


def test_the_help_of_a_flight_of_stairs_names_its_keys() -> None:
    told = " ".join(run("sum", "stairs", "--help").said.split())
    assert all(key in told for key in KEYS["stairs"].split())


def test_the_skirting_of_a_room_covers_its_walls_less_its_doorways(tmp_path: Path) -> None:
    given = tmp_path / "room.json"
    door = {"wall": 0, "from_mm": 500, "width_mm": 900}
    given.write_text(json.dumps({"outline": [[0, 0], [3000, 0], [3000, 2000], [0, 2000]], "doorways": [door]}))
    asked = ["sum", "skirting", "--room", given, "--stick", "2400"]
    answer = run(*asked, "--json").answer
    # 2 × (3 + 2) m less 0.9 m.
    assert (answer["metres"], answer["left_out_metres"]) == (pytest.approx(9.1), pytest.approx(0.9))
    assert (answer["sticks"], answer["proved"]) == (5, True)
    assert answer["pieces"][0]["ends"] == {"how": "square", "corner_deg": None, "saw_deg": None}
    told = run(*asked)
    assert (told.status, told.err) == (0, b"")
    assert all(len(line) <= 80 and line.isprintable() and ": " in line for line in told.said.splitlines())
    given.write_text(
        json.dumps(
            {
                "outline": [[0, 0], [30000, 0], [30000, 20000], [0, 20000]],
                "cut_outs": [[[1000, 1000], [9000, 1000], [9000, 2000], [8000, 3000]]],
            }
        )
    )
    assert "mitre 45° on 90°" in run(*asked).said
    assert all(len(line) <= 80 or line.startswith("Stick ") for line in run(*asked).said.splitlines())
    assert all(key in run("sum", "skirting", "--help").said for key in answer)
    refused(run("sum", "skirting", "--room", tmp_path / "none.json", "--stick", "2400"))
    refused(run(*asked[:-1], "0"))


def test_glue_by_the_notch_sends_to_the_makers_sheet() -> None:
    asked = ["sum", "glue", "--area", "30", "--tub", "15"]
    assert "sheet" in run(*asked, "--notch", "B3").said
    assert "sheet" not in run(*asked, "--rate", "1000").said


def test_a_lay_is_the_same_to_the_byte_and_has_its_published_keys(tmp_path: Path) -> None:
    given = tmp_path / "room.json"
    given.write_text(json.dumps(room(across=2000, along=1500) | {"direction_deg": 0, "start": None}))
    asked = ["sum", "lay", "--room", given, "--length", "900", "--width", "140", "--per-pack", "8", "--json"]
    ran = run(*asked)
    assert (ran.status, ran.err) == (0, b"")
    keys = "rows boards packs net_area_m2 bought_area_m2 cut_loss_percent least_boards proved_best row_edges_mm pieces"
    assert set(ran.answer) >= set(keys.split())
    assert set(ran.answer["pieces"][0]) >= {"row", "from_mm", "to_mm", "board", "board_from_mm", "board_to_mm"}
    assert ran.answer["packs"] == math.ceil(ran.answer["boards"] / 8)
    assert ran.out == run(*asked).out
