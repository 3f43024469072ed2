"""Somebody else's inputs for what a floor lies on: drying, first heating, moisture tests, flatness and smoothing."""

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta

from tests.tui.somebody_asks import Row, answers, ask, each, each_no, near, refuses

# One day a mm to 50 mm (cement, a rule quoted from the British Standard) or 40 mm (calcium sulphate, screed layers),
# two days for each mm beyond, rounded up to whole days: by hand. The days of the calendar are dateutil's.
DRYING = [
    ("cement", "1", "2028-02-28", 1), ("cement", "40", "2027-01-31", 40), ("cement", "49.5", "2026-11-25", 50),
    ("cement", "50", "2028-01-10", 50), ("cement", "50.5", "2027-12-01", 51), ("cement", "51", "2027-12-01", 52),
    ("cement", "65,5", "2027-03-28", 81), ("cement", "72", "2027-10-31", 94), ("cement", "120", "2027-06-30", 190),
    ("calcium-sulphate", "30", "2027-02-28", 30), ("calcium-sulphate", "39.2", "2026-12-24", 40),
    ("calcium-sulphate", "40", "2027-02-01", 40), ("calcium-sulphate", "40.5", "2027-09-15", 41),
    ("calcium-sulphate", "41", "2027-11-20", 42), ("calcium-sulphate", "60", "2099-12-31", 80),
    ("calcium-sulphate", "100", "2027-03-01", 160),
]  # fmt: skip


@pytest.mark.parametrize(("screed", "thickness", "laid", "days"), DRYING)
def test_a_screed_is_forecast_dry_by_its_rule_of_thumb(screed: str, thickness: str, laid: str, days: int) -> None:
    dry = date.fromisoformat(laid) + relativedelta(days=days)
    answers(f"drying --laid {laid} --thickness {thickness} --screed {screed}", {"days": days, "dry_on": str(dry)})


# EN 1264-4: from 21 days on (cement) or 7 (calcium sulphate), three at 25 °C, then four at full flow; by the calendar.
HEATING = [
    ("cement", "2028-02-08", "2028-02-29", "2028-03-03", "2028-03-07"),
    ("cement", "2027-12-11", "2028-01-01", "2028-01-04", "2028-01-08"),
    ("cement", "2027-02-07", "2027-02-28", "2027-03-03", "2027-03-07"),
    ("cement", "2026-10-04", "2026-10-25", "2026-10-28", "2026-11-01"),
    ("calcium-sulphate", "2027-12-25", "2028-01-01", "2028-01-04", "2028-01-08"),
    ("calcium-sulphate", "2028-02-22", "2028-02-29", "2028-03-03", "2028-03-07"),
    ("calcium-sulphate", "2026-11-25", "2026-12-02", "2026-12-05", "2026-12-09"),
]


@pytest.mark.parametrize(("screed", "laid", "start", "full", "end"), HEATING)
def test_first_heating_waits_for_the_screed_and_then_takes_a_week(
    screed: str, laid: str, start: str, full: str, end: str
) -> None:
    right: dict[str, object] = {"start_on": start, "full_on": full, "end_on": end}
    answers(f"first-heating --screed {screed} --laid {laid}", right)


# Carbide: two, and one for each 200 m² begun where that is more (a testing firm's schedule). In-situ probe
# (ASTM F2170, 2018 and later): three, and one for each 100 m² begun above 100; 40 or 20 % of the depth.
TESTS: list[Row] = [
    ("a cupboard", "tests --method carbide --area 0.5", {"tests": 2, "depth_mm": None}),
    ("carbide just over 200", "tests --method carbide --area 200.01", {"tests": 2}),
    ("carbide at 400", "tests --method carbide --area 400", {"tests": 2}),
    ("carbide just over 400", "tests --method carbide --area 400,01", {"tests": 3}),
    ("carbide at 600", "tests --method carbide --area 600", {"tests": 3}),
    ("carbide at 601", "tests --method carbide --area 601", {"tests": 4}),
    ("carbide in a hall", "tests --method carbide --area 2000", {"tests": 10}),
    ("carbide in a hall and a step", "tests --method carbide --area 2000.5", {"tests": 11}),
    ("one probe each for a metre", "tests --method in-situ-rh --area 1", {"tests": 3, "depth_mm": None}),
    ("probes just under 100", "tests --method in-situ-rh --area 99.99", {"tests": 3}),
    ("probes a tenth over 100", "tests --method in-situ-rh --area 100,1", {"tests": 4}),
    ("probes a tenth over 200", "tests --method in-situ-rh --area 200.1", {"tests": 5}),
    ("probes in a hall", "tests --method in-situ-rh --area 1000", {"tests": 12}),
    ("probes in a hall and a metre", "tests --method in-situ-rh --area 1001", {"tests": 13}),
    ("deep in 90 mm", "tests --method in-situ-rh --area 30 --thickness 90", {"tests": 3, "depth_mm": 36}),
    ("both sides of 90 mm", "tests --method in-situ-rh --area 30 --drying both --thickness 90", {"depth_mm": 18}),
    ("one side of 55 mm, said", "tests --method in-situ-rh --area 30 --drying one --thickness 55", {"depth_mm": 22}),
    ("both sides of 340 mm", "tests --method in-situ-rh --area 30 --drying both --thickness 340", {"depth_mm": 68}),
]

# BS 8204 under a straightedge of 2 m. DIN 18202 Table 3: straight lines between 0.1, 1, 4, 10 and 15 m, then whole mm,
# half away from nought; worked by hand at the very points where the rounding turns.
FLAT: list[Row] = [
    ("sr1 no gap", "flatness --rule sr1 --span 2000 --gap 0", {"limit_mm": 3, "ok": True}),
    ("sr1 a hair over", "flatness --rule sr1 --span 2000 --gap 3,01", {"limit_mm": 3, "ok": False}),
    ("sr2 just at it", "flatness --rule sr2 --span 2000 --gap 5", {"limit_mm": 5, "ok": True}),
    ("sr3 just at it", "flatness --rule sr3 --span 2000 --gap 10.0", {"limit_mm": 10, "ok": True}),
    ("sr3 a tenth over", "flatness --rule sr3 --span 2000 --gap 10.1", {"ok": False}),
    ("din2 5.497 is 5", "flatness --rule din2 --span 249 --gap 5", {"limit_mm": 5, "ok": True}),
    ("din2 5.5 is 6", "flatness --rule din2 --span 250 --gap 6", {"limit_mm": 6, "ok": True}),
    ("din2 8.499 is 8", "flatness --rule din2 --span 1374 --gap 9", {"limit_mm": 8, "ok": False}),
    ("din2 8.5 is 9", "flatness --rule din2 --span 1375 --gap 9", {"limit_mm": 9, "ok": True}),
    ("din2 12.5 is 13", "flatness --rule din2 --span 5000 --gap 13.1", {"limit_mm": 13, "ok": False}),
    ("din2 15.5 is 16", "flatness --rule din2 --span 10500 --gap 16", {"limit_mm": 16, "ok": True}),
    ("din3 2.498 is 2", "flatness --rule din3 --span 324 --gap 2.1", {"limit_mm": 2, "ok": False}),
    ("din3 2.5 is 3", "flatness --rule din3 --span 325 --gap 2.1", {"limit_mm": 3, "ok": True}),
    ("din3 4.499 is 4", "flatness --rule din3 --span 1249 --gap 4.5", {"limit_mm": 4, "ok": False}),
    ("din3 4.5 is 5", "flatness --rule din3 --span 1250 --gap 4,5", {"limit_mm": 5, "ok": True}),
    ("din3 8.67 is 9", "flatness --rule din3 --span 3333 --gap 9", {"limit_mm": 9, "ok": True}),
    ("din3 10.5 is 11", "flatness --rule din3 --span 5500 --gap 11", {"limit_mm": 11, "ok": True}),
    ("din3 13.2 is 13", "flatness --rule din3 --span 12000 --gap 13.2", {"limit_mm": 13, "ok": False}),
    ("din4 at 10 cm", "flatness --rule din4 --span 100 --gap 1", {"limit_mm": 1, "ok": True}),
    ("din4 below the table", "flatness --rule din4 --span 20 --gap 1.1", {"limit_mm": 1, "ok": False}),
    ("din4 3.5 is 4", "flatness --rule din4 --span 1250 --gap 4", {"limit_mm": 4, "ok": True}),
    ("din4 9.5 is 10", "flatness --rule din4 --span 5000 --gap 10", {"limit_mm": 10, "ok": True}),
    ("din4 beyond the table", "flatness --rule din4 --span 40000 --gap 15", {"limit_mm": 15, "ok": True}),
]

# m² × mean mm × kg for each, more for waste, in whole bags: by hand. The last three empty their bags exactly, where
# sums in floats come out a hair above or below.
SMOOTHING: list[Row] = [
    ("a common hall", "smoothing --area 18.4 --depth 2.5", {"kg": near(78.2, 1e-9), "bags": 4}),
    ("a smear in a cupboard", "smoothing --area 0.8 --depth 1", {"kg": near(1.36, 1e-9), "bags": 1}),
    ("a light compound", "smoothing --area 41 --depth 2 --rate 1.3", {"kg": near(106.6, 1e-9), "bags": 5}),
    ("a twentieth wasted", "smoothing --area 20 --depth 3 --waste 5", {"kg": near(107.1, 1e-9), "bags": 5}),
    ("one bag to the gram", "smoothing --area 10 --depth 2.5 --rate 1", {"kg": near(25, 1e-9), "bags": 1}),
    ("and a gram over it", "smoothing --area 10.001 --depth 2.5 --rate 1", {"kg": near(25.0025, 1e-9), "bags": 2}),
    ("small bags, an eighth wasted", "smoothing --area 16 --depth 2 --rate 1,5 --waste 12,5 --bag 18", {"bags": 3}),
    ("2.2 × 3 in a bag of 6.6", "smoothing --area 2.2 --depth 3 --rate 1 --bag 6.6", {"bags": 1}),
    ("0.7 in bags of 0.1", "smoothing --area 0.7 --depth 1 --rate 1 --bag 0.1", {"bags": 7}),
    ("1.1 × 1.1 in a bag of 1.21", "smoothing --area 1.1 --depth 1.1 --rate 1 --bag 1.21", {"bags": 1}),
]


@pytest.mark.parametrize(("typed", "right"), each([*TESTS, *FLAT, *SMOOTHING]))
def test_a_base_is_tested_judged_and_filled_by_its_rule(typed: str, right: dict[str, object]) -> None:
    answers(typed, right)


NOT_COVERED = [
    ("a screed of no thickness", "drying --screed cement --thickness 0 --laid 2027-01-04"),
    ("a screed below nought", "drying --screed calcium-sulphate --thickness -40 --laid 2027-01-04"),
    ("dry after the last day there is", "drying --screed cement --thickness 50 --laid 9999-12-01"),
    ("heated after the last day there is", "first-heating --screed cement --laid 9999-12-10"),
    ("no area to test", "tests --method in-situ-rh --area 0"),
    ("a slab of no thickness", "tests --method in-situ-rh --area 20 --thickness 0"),
    ("sr under a straightedge too short", "flatness --rule sr1 --span 1999 --gap 1"),
    ("sr under a straightedge too long", "flatness --rule sr3 --span 2001 --gap 1"),
    ("sr under the older 3 m", "flatness --rule sr2 --span 3000 --gap 1"),
    ("no span", "flatness --rule din3 --span 0 --gap 1"),
    ("a gap below nought", "flatness --rule din3 --span 2000 --gap -0,5"),
    ("a gap that is no number", "flatness --rule din4 --span 2000 --gap nan"),
    ("no depth to fill", "smoothing --area 20 --depth 0"),
    ("a bag of nothing", "smoothing --area 20 --depth 3 --bag 0"),
    ("a waste below nought", "smoothing --area 20 --depth 3 --waste -1"),
    ("a floor without end", "smoothing --area inf --depth 3"),
]


@pytest.mark.parametrize("typed", each_no(NOT_COVERED))
def test_a_base_that_no_rule_covers_is_refused(typed: str) -> None:
    refuses(typed)


MISUSED = [
    ("a day that is none", "drying --screed cement --thickness 50 --laid 2027-02-29"),
    ("a day the other way round", "first-heating --screed cement --laid 04.01.2027"),
    ("a screed of neither kind", "drying --screed concrete --thickness 50 --laid 2027-01-04"),
    ("a rule of another country", "flatness --rule dtu --span 2000 --gap 5"),
    ("a method of another trade", "tests --method nose --area 20"),
    ("drying to three sides", "tests --method in-situ-rh --area 20 --drying three"),
    ("a percent sign", "smoothing --area 20 --depth 3 --waste 10%"),
    ("no depth given", "smoothing --area 20"),
]


@pytest.mark.parametrize("typed", each_no(MISUSED))
def test_a_sum_of_the_base_asked_wrongly_says_how_to_ask(typed: str) -> None:
    ran = ask(typed)
    assert (ran.status, ran.out) == (2, b"")
    assert f"layday sum {typed.split(maxsplit=1)[0]}" in ran.complained
    assert "Traceback" not in ran.complained


def test_a_forecast_says_the_weekday_and_never_that_the_floor_may_be_laid() -> None:
    # 1 March 2027 is a Monday, 8 August a Sunday: by the calendar.
    ran = ask("drying --screed calcium-sulphate --thickness 100 --laid 2027-03-01")
    assert "dry on: Sun 2027-08-08" in ran.said
    assert "ok" not in ran.said
