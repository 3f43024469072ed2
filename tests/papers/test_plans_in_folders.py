"""Lay plans leave the shop and enter it again to the byte, and one that never was a lay is refused at its place."""

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest

from store.papers.folder import Folder
from store.papers.reading_in import read_folder
from store.papers.writing_out import write_folder
from store.trade.layout.lay import LayRules
from store.trade.outline import rectangle
from store.trade.plans import PlanDraft, search, shape_of

Refusal = Callable[[bytes], str]
RULES = LayRules(stagger_mm=400, kerf_mm=2)


@pytest.fixture
def folder(whole_folder: dict[str, Any]) -> Folder:
    """A folder with one small room and two plans for it, the first for a shape it no longer has."""
    read = read_folder(json.dumps(whole_folder).encode())
    room = replace(read.jobs[0].rooms[0], outline=rectangle(3000, 2000), cut_outs=(), direction_deg=90.0, start=None)
    board = next(product for product in read.products if product.code == room.board)
    plans = []
    for measured in (replace(room, outline=rectangle(2500, 2000)), room):
        *_, best = search(measured, board, RULES, 3)
        plans.append(
            PlanDraft(
                room=room.name,
                at=datetime(2026, 11, 9, 9, tzinfo=UTC),
                board=board.code,
                rules=RULES,
                seed=3,
                culls_percent=2.5,
                spare_packs=1,
                shape=shape_of(measured, board),
                lay=best.lay,
            )
        )
    job = replace(read.jobs[0], rooms=(room, *read.jobs[0].rooms[1:]), plans=tuple(plans))
    return replace(read, jobs=(job, *read.jobs[1:]))


def test_plans_come_back_whole_and_their_bytes_stay_the_same(folder: Folder) -> None:
    raw = write_folder(folder)
    again = read_folder(raw)
    assert again == folder
    assert write_folder(again) == raw


def test_a_job_without_plans_says_nothing_of_them(folder: Folder) -> None:
    bare = replace(folder, jobs=(replace(folder.jobs[0], plans=()), *folder.jobs[1:]))
    assert "plans" not in json.loads(write_folder(bare))["jobs"][0]


def test_a_plan_is_written_with_its_terms_and_six_whole_numbers_for_each_piece(folder: Folder) -> None:
    plan = json.loads(write_folder(folder))["jobs"][0]["plans"][1]
    lay, draft = plan.pop("lay"), folder.jobs[0].plans[1]
    assert plan == {
        "room": draft.room,
        "at": "2026-11-09T10:00:00+01:00",
        "board": draft.board,
        "stagger_mm": 400,
        "shortest_mm": 300,
        "kerf_mm": 2,
        "least_mm": 60,
        "seed": 3,
        "culls_percent": 2.5,
        "confidence_percent": 90,
        "spare_packs": 1,
        "shape": draft.shape,
    }
    first = draft.lay.pieces[0]
    on_board = [first.board, first.board_from_mm, first.board_to_mm]
    assert lay["pieces"][0] == [first.row, first.from_mm, first.to_mm, *on_board]
    assert lay["row_edges_mm"] == [list(edges) for edges in draft.lay.row_edges_mm]
    assert (lay["boards"], lay["least_boards"]) == (draft.lay.boards, draft.lay.least_boards)


@pytest.mark.parametrize(
    ("place", "value", "says"),
    [
        ("room", "Cellar", "plans[1].room: there is no room “Cellar” in this job."),
        ("board", "ELM-120", "plans[1].board: there is no board “ELM-120”"),
        ("at", "yesterday", "plans[1].at: must be an instant"),
        ("kerf_mm", -1, "plans[1].kerf_mm: must be a whole number from 0"),
        ("kerf_mm", 3.5, "plans[1].kerf_mm: must be a whole number"),
        ("seed", -1, "plans[1].seed: The seed"),
        ("seed", 10**300, "plans[1].seed: is a number of more than 60 figures"),
        ("culls_percent", 51, "plans[1].culls_percent: The culls are from 0 to 50 %"),
        ("confidence_percent", 100, "plans[1].confidence_percent: The confidence is from 50 to 99.9 %"),
        ("spare_packs", 1001, "plans[1].spare_packs: The spare packs are from 0 to 1,000"),
        ("shape", "FFFFFFFFFFFFFFFF", "plans[1].shape: must be 16 hexadecimal figures"),
        ("colour", "red", "plans[1].colour: is a key that no job folder has here."),
        ("lay.boards", 1, "plans[1].lay: This is no lay"),
        ("lay.boards_per_pack", 0, "plans[1].lay.boards_per_pack: must be a whole number from 1"),
        ("lay.floor_area_mm2", 5, "plans[1].lay: This lay covers another floor"),
        ("lay.direction_deg", True, "plans[1].lay.direction_deg: must be a number"),
        ("lay.pieces", [], "plans[1].lay: This is no lay"),
        ("lay.pieces", [[1, 2, 3]], "plans[1].lay.pieces[0]: must be 6 whole numbers, not 3."),
        ("lay.pieces", {}, "plans[1].lay.pieces: must be a list"),
        ("lay.row_edges_mm", [[1]], "plans[1].lay.row_edges_mm[0]: must be 2 whole numbers, not 1."),
        ("lay", None, "plans[1].lay: must be an object"),
    ],
)
def test_a_plan_that_cannot_be_is_refused_at_its_place(
    folder: Folder, refusal: Refusal, place: str, value: object, says: str
) -> None:
    written = json.loads(write_folder(folder))
    *way, last = place.split(".")
    at = written["jobs"][0]["plans"][1]
    for step in way:
        at = at[step]
    at[last] = value
    assert says in refusal(json.dumps(written).encode())


def test_a_lay_of_a_smaller_floor_is_not_passed_off_as_one_for_the_room(folder: Folder, refusal: Refusal) -> None:
    written = json.loads(write_folder(folder))
    small, right = written["jobs"][0]["plans"]
    small["shape"] = right["shape"]
    assert "plans[0].lay: This lay covers another floor" in refusal(json.dumps(written).encode())
