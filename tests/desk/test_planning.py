"""A lay is searched for, chosen and filed at the desk; from then on the room's packs are counted by it."""

import json
import threading
from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from store.desk.copies import import_into
from store.desk.demo import furnish
from store.desk.desk import Desk, open_desk
from store.errors import DraftRefused
from store.trade.layout.lay import LayRules
from store.trade.outline import rectangle
from store.trade.plans import PlanDraft, in_short, shape_of
from tests.desk.shop_floor import NOW, Hand, desk_at, history

ROOM = "Spare"
RULES = LayRules(stagger_mm=400)


def a_draft(desk: Desk, **changes: object) -> PlanDraft:
    facts = desk.jobs.card("FRESH").facts
    room = facts.room(ROOM)
    board = facts.board(room.board)
    usual = PlanDraft(
        room=ROOM,
        at=NOW - timedelta(hours=1),
        board=board.code,
        rules=RULES,
        seed=1,
        spare_packs=2,
        shape=shape_of(room, board),
        lay=next(desk.plans.search(room, board, RULES, 1)).lay,
    )
    return replace(usual, **changes)


def test_a_plan_filed_is_the_one_the_room_is_counted_by(records: Path) -> None:
    with desk_at(records) as desk:
        before = desk.jobs.card("FRESH").standing.needs
        assert desk.plans.current("FRESH", ROOM) is None
        plan = desk.plans.file("FRESH", a_draft(desk))
        assert desk.plans.current("FRESH", ROOM) == plan
        card = desk.jobs.card("FRESH")
    assert (before[0].by_plan, before[0].spare_packs) == (False, 0)
    assert (card.standing.needs[0].lay_boards, card.standing.needs[0].spare_packs) == (plan.lay.boards, 2)
    assert card.standing.packs[0].needed == card.standing.needs[0].packs
    assert card.plans == (in_short(plan),)


def test_a_room_measured_anew_is_counted_by_its_plan_no_longer(records: Path) -> None:
    with desk_at(records) as desk:
        plan = desk.plans.file("FRESH", a_draft(desk))
        room = desk.jobs.card("FRESH").facts.room(ROOM)
        changed = desk.jobs.change_room("FRESH", room, replace(room, outline=rectangle(3000, 3000)))
        assert desk.plans.current("FRESH", ROOM) is None
        assert desk.jobs.card("FRESH").plans == ()
        desk.jobs.change_room("FRESH", changed, room)
        assert desk.plans.current("FRESH", ROOM) == plan


def test_a_plan_taken_back_counts_no_longer_and_the_one_before_does_again(records: Path) -> None:
    with desk_at(records) as desk:
        first = desk.plans.file("FRESH", a_draft(desk))
        second = desk.plans.file("FRESH", a_draft(desk, seed=2))
        assert desk.plans.current("FRESH", ROOM) == second
        desk.closing.take_back("FRESH", second, "wrong rules")
        assert desk.plans.current("FRESH", ROOM) == first
        desk.closing.take_back("FRESH", first, "none at all")
        assert desk.plans.current("FRESH", ROOM) is None
    assert [deed for _, deed, _ in history(records)][-4:] == ["lay planned"] * 2 + ["plan taken back"] * 2


def test_the_history_tells_counts_and_rules_but_not_every_piece(records: Path) -> None:
    with desk_at(records) as desk:
        plan = desk.plans.file("FRESH", a_draft(desk))
        desk.closing.take_back("FRESH", plan, "wrong rules")
        back, filed = desk.jobs.history("FRESH")[:2]
    for told in (json.loads(filed.after), json.loads(back.before)):
        assert (told["lay"]["boards"], told["rules"]["stagger_mm"]) == (plan.lay.boards, 400)
        assert told["lay"]["pieces"] == []


def test_before_its_moment_a_plan_is_not_known(records: Path) -> None:
    with desk_at(records) as desk:
        plan = desk.plans.file("FRESH", a_draft(desk))
        desk.look_at(plan.at - timedelta(seconds=1))
        assert desk.plans.current("FRESH", ROOM) is None
        desk.look_at(plan.at)
        assert desk.plans.current("FRESH", ROOM) == plan


def test_a_room_the_job_has_not_has_no_plan(records: Path) -> None:
    with desk_at(records) as desk:
        assert desk.plans.current("FRESH", "Cellar") is None


def test_a_plan_for_a_room_changed_meanwhile_is_refused_and_nothing_is_filed(records: Path) -> None:
    with desk_at(records) as desk:
        draft = a_draft(desk)
        room = desk.jobs.card("FRESH").facts.room(ROOM)
        desk.jobs.change_room("FRESH", room, replace(room, gap_mm=15))
        assert [problem.field for problem in desk.plans.problems("FRESH", draft)] == ["shape"]
        with pytest.raises(DraftRefused):
            desk.plans.file("FRESH", draft)
        assert desk.jobs.card("FRESH").facts.plans == ()


def test_a_search_asks_nothing_on_file_and_may_run_in_a_thread(records: Path) -> None:
    found = []
    with desk_at(records) as desk:
        facts = desk.jobs.card("FRESH").facts
        room = replace(facts.room(ROOM), outline=rectangle(2000, 1500))
        attempts = desk.plans.search(room, facts.board(room.board), RULES, 1)
        thread = threading.Thread(target=lambda: found.extend(attempts))
        thread.start()
        thread.join()
    assert found[-1].done == 1.0


def test_what_is_exported_with_plans_is_exported_again_to_the_byte(records: Path, tmp_path: Path) -> None:
    with desk_at(records) as desk:
        desk.plans.file("FRESH", a_draft(desk))
        taken_back = desk.plans.file("FRESH", a_draft(desk, seed=2))
        desk.closing.take_back("FRESH", taken_back, "wrong rules")
        raw, facts = desk.papers.export(), desk.jobs.card("FRESH").facts
    import_into(tmp_path / "other.layday", raw, clock=Hand(), who="Ode")
    with desk_at(tmp_path / "other.layday") as other:
        assert other.papers.export() == raw
        (plan,) = other.jobs.card("FRESH").facts.plans
        assert replace(plan, id=facts.plans[0].id) == facts.plans[0]
        assert '"pieces":[]' in other.jobs.history("FRESH")[0].after


def test_the_made_up_firm_has_a_room_planned_board_by_board(tmp_path: Path) -> None:
    path = tmp_path / "demo.layday"
    furnish(path, NOW)
    with open_desk(path, clock=Hand()) as desk:
        plan = desk.plans.current("GQ-0149", "Parlour")
        assert plan is not None
        (need,) = desk.jobs.card("GQ-0149").standing.needs
    assert (need.by_plan, need.lay_boards, need.spare_packs) == (True, plan.lay.boards, 1)
    assert need.allowed_boards > 0  # the study is not planned
