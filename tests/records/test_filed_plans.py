"""A lay plan is filed whole, every piece of it, and comes back as it was."""

from dataclasses import replace
from datetime import timedelta

import pytest

from store.errors import Refused, StoreError
from store.trade.layout.lay import Piece
from store.trade.outline import rectangle
from store.trade.plans import in_short
from tests.records.conftest import PLAN, ROOM, RULES


def file_plan(shop, draft):
    with shop.cabinet.deed():
        return shop.cabinet.events.add_plan(shop.job.id, draft)


def whole(shop):
    (facts,) = shop.cabinet.facts.many(("L-0001",))
    return facts.plans


def test_facts_that_are_only_counted_come_without_the_pieces(shop) -> None:
    filed = file_plan(shop, PLAN)
    (found,) = shop.cabinet.facts.of_ref("L-0001").plans
    assert found == in_short(filed)
    assert shop.cabinet.events.whole_plan(found.id) == filed
    assert shop.cabinet.events.whole_plan(filed.id + 1) is None


def test_a_plan_comes_back_as_it_was_filed(shop) -> None:
    filed = file_plan(shop, PLAN)
    assert filed.lay.pieces
    assert whole(shop) == (filed,)
    for name in PLAN.__dataclass_fields__:
        assert getattr(filed, name) == getattr(PLAN, name), name


def test_figures_keep_their_fractions_and_lengths_their_sign(shop) -> None:
    piece = Piece(row=0, from_mm=-1200, to_mm=-700, board=1, board_from_mm=0, board_to_mm=500)
    lay = replace(PLAN.lay, direction_deg=-33.3, floor_area_mm2=0.1 + 0.2, row_edges_mm=((-5, 0),), pieces=(piece,))
    draft = replace(PLAN, lay=lay, culls_percent=0.1, confidence_percent=99.9, rules=replace(RULES, kerf_mm=0))
    filed = file_plan(shop, draft)
    (found,) = whole(shop)
    assert found == filed
    assert (found.lay, found.culls_percent, found.rules.kerf_mm) == (lay, 0.1, 0)


def test_plans_come_in_the_order_of_filing_and_those_of_past_rooms_and_boards_too(shop) -> None:
    first = file_plan(shop, PLAN)
    second = file_plan(shop, replace(PLAN, at=PLAN.at - timedelta(days=1), seed=8))
    other = replace(ROOM, outline=rectangle(900, 900))
    with shop.cabinet.deed():
        shop.cabinet.rooms.change(shop.room.id, other, shop.room.rev)
    assert whole(shop) == (first, second)


def test_a_plan_goes_with_its_room_when_the_room_gets_another_name(shop) -> None:
    file_plan(shop, PLAN)
    with shop.cabinet.deed():
        shop.cabinet.rooms.change(shop.room.id, replace(ROOM, name="Library"), shop.room.rev)
    assert [plan.room for plan in shop.cabinet.facts.of_ref("L-0001").plans] == ["Library"]


def test_a_room_that_a_plan_names_stays_on_file_and_its_board_is_told_with_the_job(shop) -> None:
    file_plan(shop, PLAN)
    with pytest.raises(Refused, match="stays"), shop.cabinet.deed():
        shop.cabinet.rooms.remove(shop.room.id, shop.room.rev)
    with shop.cabinet.deed():
        shop.cabinet.products.add(replace(shop.cabinet.products.by_code("OAK-190"), code="ASH-140"))
    file_plan(shop, replace(PLAN, board="ASH-140"))
    assert "ASH-140" in shop.cabinet.facts.of_ref("L-0001").products


def test_a_plan_of_a_room_or_board_not_on_file_is_refused_by_name(shop) -> None:
    for draft, name in ((replace(PLAN, room="Cellar"), "Cellar"), (replace(PLAN, board="ELM-120"), "ELM-120")):
        with pytest.raises(Refused, match=name):
            file_plan(shop, draft)
    assert shop.cabinet.facts.of_ref("L-0001").plans == ()


@pytest.mark.parametrize(
    "changes",
    [
        {"spare_packs": -1},
        {"culls_percent": 101.0},
        {"confidence_percent": float("nan")},
        {"shape": "short"},
        {"seed": 2**63},
        {"lay": replace(PLAN.lay, boards=0)},
        {"lay": replace(PLAN.lay, least_boards=PLAN.lay.boards + 1)},
    ],
)
def test_a_plan_that_cannot_be_is_refused_by_the_file_itself(shop, changes: dict[str, object]) -> None:
    with pytest.raises(StoreError):
        file_plan(shop, replace(PLAN, **changes))
    assert shop.cabinet.facts.of_ref("L-0001").plans == ()
