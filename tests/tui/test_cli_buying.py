"""``layday job`` tells what the job needs bought, in words and in JSON, with what was set by hand."""

from datetime import timedelta
from pathlib import Path

from store.trade.buying.nouns import OwnLineDraft
from store.trade.things import Thing
from tests.tui.firm_window import MovingClock, demo_desk
from tests.tui.somebodys_folder import run


def test_a_job_tells_what_it_needs_bought_and_what_was_set_by_hand(tmp_path: Path) -> None:
    clock = MovingClock()
    with demo_desk(tmp_path, clock) as desk:
        at = clock() - timedelta(hours=1)
        draft = OwnLineDraft(thing=Thing.SKIRTING, at=at, size=3000, units=9, why="Sold in 3 m; one more for the bay")
        desk.buying.set_line("GQ-0145", draft)
    file = ("--file", str(tmp_path / "demo.layday"))
    answer = run("job", "GQ-0145", "--json", *file).answer
    lines = {line["thing"]: line for line in answer["to_buy"]}
    # 27.92 m² at 1,000 g: 27.92 kg, two tubs of 15.
    assert (lines["glue"]["to_buy"], lines["glue"]["unit_holds"], lines["glue"]["holds_unit"]) == (2, 15, "kg")
    assert (lines["primer"]["to_buy"], lines["primer"]["worked_out"], lines["primer"]["left_out"]) == (0, 1, True)
    skirting = lines["skirting"]
    # 8 sticks of 3 m hold the 23.8 m in 14 pieces; nine are wanted.
    assert (skirting["to_buy"], skirting["worked_out"], skirting["unit_holds"]) == (9, 8, 3000)
    assert (skirting["by_hand"]["units"], skirting["by_hand"]["why"]) == (9, draft.why)
    assert skirting["common_practice"] is True
    assert answer["not_worked_out"] == []
    said = run("job", "GQ-0145", *file).said
    assert "To buy for the whole job" in said
    told = " ".join(said.split())
    assert "Skirting: 9 sticks of 3000 mm; 23.8 m of wall" in told
    assert "set to 9 sticks, reckoned with sticks of 3000 mm (worked out: 8 sticks): Sold in 3 m" in told
    assert "▲ Caution: look for pipes and cables" in told


def test_a_closed_job_needs_nothing_said_of_buying(tmp_path: Path) -> None:
    with demo_desk(tmp_path) as desk:
        closed = next(line.ref for line in desk.jobs.lines() if line.closed_at is not None)
    said = run("job", closed, "--file", str(tmp_path / "demo.layday")).said
    assert "To buy" not in said
