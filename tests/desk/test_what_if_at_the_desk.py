"""What if at the desk: nothing is filed for asking, and what was told is what comes true once it is done for real."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from store.desk.desk import Desk
from store.desk.supposing_counter import can_be_taken_up
from store.errors import ChangedMeanwhile, Refused
from store.trade.people import DaysOff
from store.trade.planning.suppose import (
    FloorLater,
    OrderComes,
    PromiseMoves,
    ScreedDriesLater,
    SomebodyAway,
    Supposition,
    owed_orders,
)
from tests.tui.firm_window import demo_desk

WEEK_OFF = DaysOff(first=date(2026, 11, 30), last=date(2026, 12, 4), reason="Ill")


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[Desk]:
    with demo_desk(tmp_path) as opened:
        yield opened


def oak_for_the_gallery(desk: Desk) -> OrderComes:
    facts = desk.jobs.card("GQ-0143").facts
    (owed, _), *_ = owed_orders(facts)
    return OrderComes(ref="GQ-0143", order=owed.order.id, due_on=date(2026, 12, 7), was=owed.due_on)


def of_every_kind(desk: Desk) -> list[Supposition]:
    return [
        oak_for_the_gallery(desk),
        SomebodyAway(person="Tove Ruud", days=WEEK_OFF),
        FloorLater(ref="GQ-0146", room="Hall", on=date(2026, 12, 9)),
        ScreedDriesLater(ref="GQ-0145", room="Shop floor", on=date(2027, 1, 11)),
        PromiseMoves(ref="GQ-0149", on=date(2026, 12, 18)),
    ]


def test_asking_what_if_files_nothing(desk: Desk) -> None:
    folders, lines = desk.papers.export(), len(desk.diary.on_file())
    situation = desk.supposing.now()
    seen = desk.supposing.outlook(situation, of_every_kind(desk))
    plan = list(desk.supposing.search(desk.supposing.planning(seen), seen.situation))[-1]
    assert plan.ends
    assert (desk.papers.export(), len(desk.diary.on_file())) == (folders, lines)
    assert desk.supposing.now() == situation


def test_what_was_told_comes_true_once_it_is_done_for_real(desk: Desk) -> None:
    kinds = [one for one in of_every_kind(desk) if can_be_taken_up(one)]
    situation = desk.supposing.now()
    told = desk.supposing.outlook(situation, kinds)
    for one in kinds:
        desk.supposing.take_up(desk.supposing.now(), one)
    found = desk.supposing.outlook(desk.supposing.now())
    assert found.times["GQ-0143"].handover_from != desk.supposing.outlook(situation).times["GQ-0143"].handover_from
    assert {ref: (one.handover_from, one.days_late) for ref, one in found.times.items()} == {
        ref: (one.handover_from, one.days_late) for ref, one in told.times.items()
    }
    assert {key: one.clash for key, one in found.told.items()} == {key: one.clash for key, one in told.told.items()}


def test_what_is_done_for_real_is_filed_by_the_deeds_there_are(desk: Desk) -> None:
    for one in of_every_kind(desk):
        if can_be_taken_up(one):
            desk.supposing.take_up(desk.supposing.now(), one)
    assert desk.jobs.history("GQ-0143")[0].deed == "order due on another day"
    assert next(one for one in desk.firm.people() if one.name == "Tove Ruud").days_off[-1] == WEEK_OFF
    assert desk.jobs.card("GQ-0146").facts.room("Hall").site_ready_on == date(2026, 12, 9)
    assert desk.jobs.card("GQ-0149").facts.job.promised_on == date(2026, 12, 18)


def test_a_screed_is_held_by_its_readings_and_by_no_supposition(desk: Desk) -> None:
    damp = of_every_kind(desk)[3]
    assert not can_be_taken_up(damp)
    with pytest.raises(Refused, match="held by its readings"):
        desk.supposing.take_up(desk.supposing.now(), damp)


def test_what_another_window_changed_meanwhile_is_not_taken_up(desk: Desk) -> None:
    situation, order = desk.supposing.now(), oak_for_the_gallery(desk)
    promise = PromiseMoves(ref="GQ-0149", on=date(2026, 12, 18))
    away = SomebodyAway(person="Tove Ruud", days=WEEK_OFF)
    for one in (order, promise, away):
        desk.supposing.take_up(situation, one)
    for one in (order, promise, away):
        with pytest.raises(ChangedMeanwhile):
            desk.supposing.take_up(situation, one)


def test_what_is_not_there_any_longer_is_refused(desk: Desk) -> None:
    situation = desk.supposing.now()
    for gone in (
        OrderComes(ref="GQ-0143", order=999, due_on=date(2026, 12, 7)),
        FloorLater(ref="GQ-0143", room="Cellar", on=date(2026, 12, 7)),
        PromiseMoves(ref="GQ-9999", on=date(2026, 12, 7)),
        SomebodyAway(person="Ode", days=WEEK_OFF),
    ):
        with pytest.raises(Refused, match="any longer"):
            desk.supposing.take_up(situation, gone)
