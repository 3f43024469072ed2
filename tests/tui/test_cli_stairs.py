"""Stairs and materials on the command line, and a folder with both taken in again byte for byte."""

import json
from pathlib import Path

from store.desk.copies import import_into
from store.desk.desk import open_desk
from tests.tui.firm_window import MovingClock, demo_desk
from tests.tui.somebodys_folder import run

STAIRS = "GQ-0150"


def test_a_job_tells_its_stairs_and_what_they_take(tmp_path: Path) -> None:
    with demo_desk(tmp_path):
        pass
    file = ("--file", str(tmp_path / "demo.layday"))
    answer = run("job", STAIRS, "--json", *file).answer
    (stairs,) = answer["stairs"]
    # 2600 mm over at most 220 mm are 12 risers; 3 of the 11 treads are winders, the other 8 share 2000 mm.
    assert (stairs["steps"]["risers"], stairs["steps"]["each_going_mm"], stairs["winders"]) == (12, 250, 3)
    assert stairs["steps"]["ok"] is True
    nosing = next(line for line in answer["to_buy"] if line["thing"] == "nosing")
    assert (nosing["product"], nosing["supplier"], nosing["price_minor"]) == ("NOSE-24", "Fulmar Hardwoods", 2860)
    assert (nosing["unit"], nosing["common_practice"]) == ("stick", False)
    assert answer["to_buy_cost"]["minor"] > nosing["to_buy"] * 2860
    flat = " ".join(run("job", STAIRS, *file).said.split())
    assert "Loft stairs: 12 risers of 216.7 mm, 11 treads of 250 mm going, 3 of them winders; clad with" in flat
    assert "Nosing NOSE-24 Ash nosing profile, 2400: 6 sticks of 2400 mm" in flat
    assert "Cost by the prices on file: EUR" in flat
    assert "People fall on half-made stairs" in flat


def test_a_job_without_stairs_has_an_empty_list(tmp_path: Path) -> None:
    with demo_desk(tmp_path):
        pass
    assert run("job", "GQ-0149", "--json", "--file", str(tmp_path / "demo.layday")).answer["stairs"] == []


def test_a_folder_with_stairs_and_materials_is_taken_in_byte_for_byte(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        raw = desk.papers.export()
    told = json.loads(raw)
    job = next(one for one in told["jobs"] if one["ref"] == STAIRS)
    assert job["flights"][0]["name"] == "Loft stairs"
    assert {one["kind"] for one in told["products"]} == {"board", "glue", "material"}
    path = tmp_path / "copy.layday"
    import_into(path, raw, clock=MovingClock(), who="Maren Holt")
    with open_desk(path, clock=MovingClock()) as copy:
        assert copy.papers.export() == raw
        assert all(one.good for one in copy.papers.look_over())
