"""Will it last, asked at the desk and on the command line: by rows where a plan is on file, else by the allowance."""

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from store.trade.events import UNIT, DeliveryDraft, DeliveryLine, LayingDraft, OrderDraft, OrderLine
from tests.desk.shop_floor import NOW, desk_at
from tests.desk.test_every_deed import OPENING, ROOM, facts, plan_for
from tests.tui.somebodys_folder import run

HERE = "FRESH"
BEGUN = NOW - timedelta(hours=5)


def lay_half(desk, *, planned):
    room = facts(desk, HERE).room(ROOM)
    desk.jobs.remove_room(HERE, facts(desk, HERE).room("Spare"))
    if planned:
        desk.plans.file(HERE, replace(plan_for(desk, room), at=BEGUN))
    half = LayingDraft(room=ROOM, begun_at=BEGUN, ended_at=NOW, area_mm2=room.net_mm2 // 2)
    desk.laying.start(HERE, half, (replace(OPENING, at=BEGUN, packs=6),))


def test_a_floor_with_a_plan_is_told_by_its_rows_from_the_pieces_on_file(records: Path) -> None:
    with desk_at(records) as desk:
        lay_half(desk, planned=True)
        plan = desk.plans.current(HERE, ROOM)
        assert plan is not None
        (one,) = desk.laying.lasting(facts(desk, HERE)).boards
        # 4,080 mm of floor are 22 rows of 190 mm, the last one ripped: ten rows are 46.6 % of it, eleven 51.2 %.
        assert [(room.rows, room.of_rows) for room in one.rooms] == [(12, 22)]
        gone = {piece.board for piece in plan.lay.pieces if piece.row < 10}
        assert one.to_go == plan.lay.boards - len(gone)
        # Twelve packs came, two more lie in the unit; six were opened.
        assert (one.packs, one.boards, one.in_unit) == (6, 36 - len(gone), 2)


def test_a_floor_without_a_plan_is_told_by_its_area_and_in_json(records: Path) -> None:
    with desk_at(records) as desk:
        lay_half(desk, planned=False)
    told = run("job", HERE, "--json", "--file", records, "--at", "2026-12-01T11:00:00+01:00").answer["lasting"]
    (boards,) = told["boards"]
    assert boards["rooms"] == [{"room": ROOM, "floor_m2": 10.66, "rows": None, "of_rows": None}]
    # 10.66 m² with a tenth for cuts, 33 boards, went in and are still to go: 36 opened, three left loose.
    assert (boards["to_go"], boards["left"], boards["short"]) == (33, {"packs": 6, "boards": 3}, 0)
    assert boards["say"] == "OAK-190: 10.66 m² to go, 33 boards; 6 packs and 3 boards left, 6 boards over."
    assert told["glue"][0]["product"] == "MS-15"
    plain = run("job", HERE, "--file", records, "--at", "2026-12-01T11:00:00+01:00").said
    assert "Will it last? Left on site against what is to go" in plain
    assert "OAK-190: 6 packs opened on 1 day so far" in plain


def test_a_job_that_is_not_being_laid_says_nothing_of_lasting(records: Path) -> None:
    told = run("job", HERE, "--json", "--file", records, "--at", "2026-12-01T11:00:00+01:00").answer
    assert told["lasting"] == {"boards": [], "glue": []}
    assert "Will it last" not in run("job", HERE, "--file", records).said


def test_tubs_past_their_day_do_not_last_are_told_apart_and_stand_among_what_is_to_order(records: Path) -> None:
    with desk_at(records) as desk:
        tubs = DeliveryLine(product="MS-15", batch="G1", packs=3, use_by=date(2026, 11, 30))
        order = OrderDraft(on=BEGUN.date(), due_on=None, lines=(OrderLine(product="MS-15", packs=3),))
        desk.packs.order(HERE, order)
        desk.packs.take_in(HERE, DeliveryDraft(at=BEGUN, into=UNIT, lines=(tubs,)))
        lay_half(desk, planned=False)
        # 10.66 m² at 1,000 g/m² are still to go: 0.71 of a tub of 15 kg.
        assert desk.shopping.of_job(desk.jobs.card(HERE)) == (OrderLine(product="MS-15", packs=1),)
    told = run("job", HERE, "--json", "--file", records, "--at", "2026-12-01T11:00:00+01:00").answer["lasting"]
    (glue,) = told["glue"]
    assert (glue["left_tubs"], glue["too_old_tubs"], glue["short"]) == (0, 2.289, 1)
    assert "0 tubs left in date, 2.3 tubs too old, short by 1 tub." in glue["say"]
