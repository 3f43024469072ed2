"""What closed floors make of the next order: offered only where it changes the packs, and never by itself."""

from dataclasses import replace

import pytest

from store.trade.needs import wanted
from store.trade.surveyed import Pattern
from store.trade.taught.hints import Hint
from store.trade.taught.report import By, LossLine
from store.trade.taught.suggest import suggestions
from tests.trade.conftest import OAK, a_job, a_plan, a_room, an_order, laid

ROOM = a_room()  # 21.32 m², 10 % allowed: 10.83 packs


def a_hint(percent: float, floors: int = 5) -> Hint:
    line = LossLine(
        by=By.PATTERN,
        of=Pattern.STRAIGHT,
        refs=(),
        floors=floors,
        planned=0,
        laid_mm2=100_000_000,
        real_percent=5.0,
        allowed_percent=10.0,
        trade_percent=7.5,
        enough_percent=percent,
        suggested_percent=percent,
        expected_percent=5.0,
    )
    return Hint(pattern=Pattern.STRAIGHT, width_mm=190, shape=None, line=line)


def test_where_less_is_enough_fewer_packs_are_offered() -> None:
    # At 1.5 % the floor takes 9.99 packs, at 1.6 % a hair more than ten.
    (one,) = suggestions(a_job(rooms=(ROOM,)), lambda room: a_hint(1.5))
    assert (one.product, one.packs_now, one.packs_then, one.percent) == (OAK.code, 11, 10, 1.5)
    assert wanted(a_job(rooms=one.rooms), OAK.code).packs == 10


def test_where_more_is_wanted_more_packs_are_offered() -> None:
    (one,) = suggestions(a_job(rooms=(ROOM,)), lambda room: a_hint(14.2))
    assert (one.packs_now, one.packs_then) == (11, 12)


def test_percents_are_rounded_upward_to_tenths() -> None:
    (one,) = suggestions(a_job(rooms=(ROOM,)), lambda room: a_hint(13.01))
    assert one.percent == 13.1


@pytest.mark.parametrize(
    "facts",
    [
        a_job(an_order(1), rooms=(ROOM,)),
        a_job(a_plan(ROOM), rooms=(ROOM,)),
        a_job(laid("2026-11-24 08:00", "2026-11-24 15:00", 21.32), rooms=(ROOM,)),
        a_job(rooms=(replace(ROOM, pattern=Pattern.HERRINGBONE),)),
    ],
    ids=["ordered already", "planned board by board", "laid", "counted block by block"],
)
def test_what_does_not_go_by_its_allowance_any_longer_is_not_asked_about(facts) -> None:  # type: ignore[no-untyped-def]
    assert suggestions(facts, lambda room: a_hint(20.0)) == ()


def test_the_same_packs_are_no_reason_to_ask_nor_are_two_floors() -> None:
    facts = a_job(rooms=(ROOM,))
    assert suggestions(facts, lambda room: a_hint(9.0)) == ()
    assert suggestions(facts, lambda room: a_hint(20.0, floors=2)) == ()
    assert suggestions(facts, lambda room: None) == ()
