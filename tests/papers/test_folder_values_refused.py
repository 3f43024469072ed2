"""Values that cannot be in a job folder: each is refused in one sentence that names its place."""

from collections.abc import Callable

import pytest

Spoiled = Callable[[str, object], bytes]
Refusal = Callable[[bytes], str]

LEFT_OUT = "(left out)"
ROOM = "jobs[0].rooms[1]"
ORDER, CAME, MOVED = "jobs[0].orders[0]", "jobs[0].deliveries[0]", "jobs[0].moves[0]"
AIR, EDGE = "jobs[0].readings[0]", "jobs[0].readings[1]"
LAID, COUNT = "jobs[0].laid[0]", "jobs[0].counts[0]"


# place put wrong, what is put there, a part of the sentence
WRONG: list[tuple[str, object, str]] = [
    ("layday_folder", LEFT_OUT, "no job folder"),
    ("layday_folder", None, "no job folder"),
    ("layday_folder", 2, "newer release"),
    ("layday_folder", 0, "version 0"),
    ("layday_folder", True, "whole number"),
    ("layday_folder", "1", "whole number"),
    ("firm", LEFT_OUT, "missing"),
    ("firm", [], "an object, not a list"),
    ("firm.name", " ", "needs a name"),
    ("firm.name", None, "text, not null"),
    ("firm.time_zone", LEFT_OUT, "missing"),
    ("firm.time_zone", "Europe/Gannet Quay", "no time zone"),
    ("firm.time_zone", "../../etc/passwd", "no time zone"),
    ("firm.time_zone", "", "no time zone"),
    ("firm.time_zone", "Europe", "no time zone"),
    ("firm.time_zone", "z" * 9_000, "no time zone"),
    ("firm.time_zone", "\x1b[31m", "no time zone"),
    ("firm.working_days", [], "working day"),
    ("firm.day_ends", "07:00", "ends before it starts"),
    (
        "firm.climate",
        {"temp_min_c": 24, "temp_max_c": 18, "rh_min_percent": 40, "rh_max_percent": 65},
        "cold",
    ),
    ("people", {}, "a list, not an object"),
    ("products[0].kind", LEFT_OUT, "missing"),
    ("products[0].width_mm", 0, "width"),
    ("products[0].width_mm", -190, "width"),
    ("products[0].boards_per_pack", 0, "boards in a pack"),
    ("products[0].price_minor", -1, "price"),
    ("products[0].length_mm", 1900.0, "whole number, not 1900.0"),
    ("products[0].length_mm", True, "whole number, not true"),
    ("products[0].length_mm", "1900", "whole number, not “1900”"),
    ("products[0].length_mm", 10**400, "more than 60 figures"),
    ("products[0].code", "C" * 41, "40 characters"),
    (
        "products[0].climate",
        {"temp_min_c": 10, "temp_max_c": 30, "rh_min_percent": 60, "rh_max_percent": 40},
        "dampest",
    ),
    ("products[1].tub_kg", 0, "kg"),
    ("products[1].full_load_hours", 1, "Full load"),
    ("products[1].code", "OAK-190", "twice"),
    ("jobs[0].ref", "", "1 to 40"),
    ("jobs[0].ref", "R" * 41, "1 to 40"),
    ("jobs[0].rooms", LEFT_OUT, "missing"),
    ("jobs[0].rooms", None, "a list, not null"),
    ("jobs[0].promised_on", "18-12-2026", "a date"),
    ("jobs[0].promised_on", "1899-12-31", "1900 to 2199"),
    ("jobs[0].promised_on", "2200-01-01", "1900 to 2199"),
    ("jobs[0].promised_on", "2026-12-18T00:00:00+01:00", "a date"),
    (f"{ROOM}.name", "Hall", "already"),
    (f"{ROOM}.name", "Unit", "store"),
    (f"{ROOM}.outline", LEFT_OUT, "missing"),
    (f"{ROOM}.outline", [], "three corners"),
    (f"{ROOM}.outline", [[0, 0], [5000, 4000], [5000, 0], [0, 4000]], "crosses"),
    (f"{ROOM}.outline", [[0, 0], [10**50, 0], [0, 100]], "kilometre"),
    (f"{ROOM}.outline", [[n, n * n] for n in range(2_001)], "corners"),
    (f"{ROOM}.cut_outs", [[[9000, 0], [9900, 0], [9900, 900]]], "ut-out 0"),
    (f"{ROOM}.cut_outs", [[[0, 0], [900, 900], [900, 0], [0, 900]]], "crosses"),
    (f"{ROOM}.subfloor", "carpet", "one of cement_screed"),
    (f"{ROOM}.subfloor", 3, "one of cement_screed"),
    (f"{ROOM}.subfloor", [], "one of cement_screed"),
    (f"{ROOM}.method", "taped", "one of glued"),
    (f"{ROOM}.heated", 1, "true or false, not 1"),
    (f"{ROOM}.board", "ELM-90", "no board “ELM-90”"),
    (f"{ROOM}.board", "MS-15", "no board “MS-15”"),
    (f"{ROOM}.glue", "OAK-190", "no glue “OAK-190”"),
    (f"{ROOM}.gap_mm", -1, "gap"),
    (f"{ROOM}.cut_loss_percent", -0.5, "cut loss"),
    (f"{ROOM}.screed_mm", 0, "screed"),
    (f"{ROOM}.start", 4, "no wall 4"),
    (f"{ROOM}.start", -1, "no wall -1"),
    (f"{ROOM}.direction_deg", 361, "degrees"),
    (f"{ORDER}.lines", [], "one line"),
    (f"{ORDER}.due_on", "2026-11-09", "before"),
    (f"{ORDER}.lines[0].packs", 0, "from 1 to 1,000,000"),
    (f"{ORDER}.lines[0].packs", -12, "from 1 to 1,000,000"),
    (f"{ORDER}.lines[0].packs", 1_000_001, "from 1 to 1,000,000"),
    (f"{ORDER}.lines[0].packs", 12.0, "whole number"),
    (f"{ORDER}.lines[0].product", "ELM-90", "no product “ELM-90”"),
    (f"{CAME}.into", "Cellar", "no room “Cellar”"),
    (f"{CAME}.into", "shelf", "no room “shelf”"),
    (f"{CAME}.into", {"place": "shelf"}, "text, not an object"),
    (f"{CAME}.at", "2026-11-17T09:30:00", "offset"),
    (f"{CAME}.at", "2026-11-17", "offset"),
    (f"{CAME}.at", "2026-11-17x09:30:00Z", "an instant"),
    (f"{CAME}.at", "2026-02-30T09:30:00Z", "an instant"),
    (f"{CAME}.at", "yesterday", "an instant"),
    (f"{CAME}.at", 1_763_368_200, "text"),
    (f"{CAME}.at", "0001-01-01T00:00:00+14:00", "1900 to 2199"),
    (f"{CAME}.at", "9999-12-31T23:59:59-14:00", "1900 to 2199"),
    (f"{CAME}.at", "1899-12-31T23:59:59Z", "1900 to 2199"),
    (f"{CAME}.lines[0].damaged_packs", 13, "only 12 came"),
    (f"{CAME}.lines[0].damaged_packs", -1, "from 0"),
    (f"{CAME}.lines[0].packs", 0, "from 1"),
    (f"{CAME}.lines[0].product", "ELM-90", "no product"),
    (f"{MOVED}.from", "Cellar", "no room"),
    (f"{MOVED}.to.place", "moon", "one of shelf"),
    (f"{MOVED}.to.place", "site", "one of shelf"),
    (f"{MOVED}.packs", 0, "from 1"),
    ("jobs[0].openings[0].room", "unit", "no room “unit”"),
    (f"{AIR}.room", "Cellar", "no room “Cellar”"),
    (f"{AIR}.kind", "smell", "one of air"),
    (f"{AIR}.rh_percent", 140, "not 140"),
    (f"{AIR}.rh_percent", LEFT_OUT, "missing"),
    (f"{AIR}.temp_c", "20", "a number, not “20”"),
    (f"{AIR}.temp_c", True, "a number, not true"),
    (f"{AIR}.percent", 9, "is a key that"),
    (f"{EDGE}.span_mm", 2000.5, "whole number"),
    (f"{EDGE}.gap_mm", -1, "gap"),
    ("jobs[0].smoothings[0].room", "Cellar", "no room"),
    (f"{LAID}.room", "Cellar", "no room"),
    (f"{LAID}.to", "2026-11-26T07:00:00+01:00", "ends before it starts"),
    (f"{LAID}.to", LEFT_OUT, "missing"),
    (f"{LAID}.area_m2", 0, "area of more than 0"),
    (f"{LAID}.area_m2", -1, "area of more than 0"),
    (f"{LAID}.area_m2", 1_000_000.1, "area of more than 0"),
    (f"{LAID}.area_m2", LEFT_OUT, "missing"),
    (f"{COUNT}.boards", -1, "from 0"),
    (f"{COUNT}.product", "ELM-90", "no product"),
    (f"{COUNT}.to", "shelf", "one of customer"),
    ("jobs[0].snags[0].room", "Cellar", "no room"),
    ("jobs[0].handover.by", "", "must not be empty"),
    ("jobs[0].handover.signed_at", LEFT_OUT, "missing"),
]


@pytest.mark.parametrize(("place", "value", "say"), WRONG)
def test_a_value_that_cannot_be_is_refused_at_its_place(
    place: str, value: object, say: str, spoiled: Spoiled, refusal: Refusal
) -> None:
    said = refusal(spoiled(place, value))
    assert said.startswith(f"{place}: ")
    assert say in said
