"""A stock-take: what differs is found or missing, a wrong count is refused, and the job's sums stay whole."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.counts import reckon
from store.trade.events import SHELF, UNIT, MoveDraft, PlaceKind
from store.trade.on_hand import packs_at, spare_packs
from store.trade.stacks import packs_in_unit
from store.trade.stock_take import CountedLine, Difference, StockTake, Way, difference, ends
from store.trade.stock_take_checks import problems_with_difference, problems_with_stock_take
from tests.trade.conftest import OAK, a_count, a_delivery, a_job, a_move, an_opening, hold, laid, when

PACKS = {OAK.code: 6, "MS-15": 1}
AT = when("2026-11-20 16:00")


def line(packs: int = 2, boards: int = 0, *, filed: int = 12, **changes: str) -> CountedLine:
    usual = {"product": OAK.code, "batch": "K41", "job_ref": ""}
    return CountedLine(packs=packs, boards=boards, filed=filed, **(usual | changes))


def said(*lines: CountedLine, why: str = "counted twice", on_file: dict[tuple[str, str, str], int] | None = None):
    known = {one.where: one.filed for one in lines} if on_file is None else on_file
    problems = problems_with_stock_take(StockTake(lines=lines, why=why), known, PACKS)
    return {one.field: one.say for one in problems}


def gone(packs: int, way: str = "missing", *, at: str = "2026-11-20 16:00", batch: str = "K41") -> Difference:
    return Difference(
        id=1, at=when(at), product=OAK.code, batch=batch, packs=packs, boards=0, way=Way(way), why="no idea"
    )


@given(packs=st.integers(0, 99), boards=st.integers(0, 99), filed=st.integers(-20, 900), per_pack=st.integers(1, 12))
def test_what_the_file_said_and_the_difference_make_what_was_counted(packs, boards, filed, per_pack) -> None:
    found = difference(line(packs, boards, filed=filed), per_pack, AT, "")
    more = 0
    if found is not None:
        assert found.packs >= 0
        assert 0 <= found.boards < per_pack
        assert found.packs + found.boards > 0
        sign = 1 if found.way is Way.FOUND else -1
        more = sign * (found.packs * per_pack + found.boards)
    assert filed + more == packs * per_pack + boards


def test_more_than_the_file_says_is_found_and_less_is_missing() -> None:
    more, less = (difference(line(packs), 6, AT, " why ") for packs in (3, 1))
    assert more is not None
    assert less is not None
    assert (more.way, more.packs, less.way, less.packs, less.why) == (Way.FOUND, 1, Way.MISSING, 1, "why")
    assert difference(line(2), 6, AT, "") is None


def test_a_difference_goes_from_or_to_the_free_stock_or_what_is_kept_for_a_job() -> None:
    kinds = [tuple(place.kind for place in ends(way, ref)) for way in Way for ref in ("", "L-0007")]
    found, missing = PlaceKind.FOUND, PlaceKind.MISSING
    assert kinds == [
        (found, PlaceKind.SHELF),
        (found, PlaceKind.UNIT),
        (PlaceKind.SHELF, missing),
        (PlaceKind.UNIT, missing),
    ]


def test_a_negative_count_is_refused() -> None:
    assert "from 0 to" in said(line(-1))["lines.0.packs"]
    assert "from 0 to" in said(line(2, -1))["lines.0.boards"]


def test_a_count_that_cannot_be_is_refused() -> None:
    assert "from 0 to" in said(line(10_001))["lines.0.packs"]
    assert "no product" in said(line(product="PINE"))["lines.0.product"]
    assert "free stock only" in said(line(2, 3, job_ref="L-0007"))["lines.0.boards"]
    assert "free stock only" in said(line(2, 3, product="MS-15", filed=2))["lines.0.boards"]
    assert "at least one line" in said()["lines"]


def test_a_batch_counted_in_two_lines_is_refused() -> None:
    assert "another line" in said(line(), line())["lines.1.batch"]


def test_a_line_that_the_file_says_otherwise_by_now_is_counted_again() -> None:
    assert "has changed" in said(line(), on_file={(OAK.code, "K41", ""): 6})["lines.0.packs"]
    assert "has changed" in said(line(), on_file={})["lines.0.packs"]


def test_a_difference_asks_for_a_reason_and_none_does_not() -> None:
    assert "Say why" in said(line(1), why=" ")["why"]
    assert said(line(2), why="") == {}
    assert said(line(1)) == {}


def test_a_difference_from_outside_is_held_against_the_same_rules() -> None:
    right = difference(line(1), 6, AT, "lent")
    assert right is not None
    assert problems_with_difference(right, of_job=True) == ()
    for field, wrong, of_job in (
        ("packs", replace(right, packs=0), False),
        ("packs", replace(right, packs=10_001), False),
        ("boards", replace(right, boards=-1), False),
        ("boards", replace(right, boards=2), True),
        ("why", replace(right, why=" "), False),
    ):
        assert [one.field for one in problems_with_difference(wrong, of_job=of_job)] == [field]


def test_packs_missed_in_the_unit_are_short_for_the_floor() -> None:
    there = a_job(a_delivery(packs=12, into="unit"))
    missed = a_job(a_delivery(packs=12, into="unit"), gone(2))
    assert (packs_in_unit(there, OAK.code), packs_in_unit(missed, OAK.code)) == (12, 10)
    assert packs_at(missed, UNIT, OAK.code, "K41") == 10
    assert hold(missed, "packs", "2026-11-21 09:00").state.value != hold(there, "packs", "2026-11-21 09:00").state.value


def off(at: str) -> MoveDraft:
    """Twenty packs carried off to free stock."""
    return MoveDraft(at=when(at), product=OAK.code, batch="K41", packs=20, source=UNIT, target=SHELF)


def test_packs_found_in_the_unit_count_from_the_moment_they_were_counted() -> None:
    facts = a_job(a_delivery(packs=8, into="unit"), gone(3, "found"))
    assert spare_packs(facts, off("2026-11-19 09:00")) == 8
    assert spare_packs(facts, off("2026-11-21 09:00")) == 11


def test_packs_missed_later_cannot_be_carried_earlier() -> None:
    facts = a_job(a_delivery(packs=8, into="unit"), gone(3))
    assert spare_packs(facts, off("2026-11-19 09:00")) == 5


@pytest.mark.parametrize(("way", "used"), [("missing", 10), ("found", 10)])
def test_packs_found_or_missed_in_the_unit_are_no_packs_used(way: str, used: int) -> None:
    sums = reckon(
        a_job(
            a_delivery(packs=11),
            a_delivery(packs=3, into="unit"),
            an_opening("2026-11-24 08:00", 11),
            laid("2026-11-24 08:00", "2026-11-24 16:00", 21.32),
            a_count("2026-11-24 17:00", packs=1),
            gone(2, way),
        ),
        OAK.code,
    )
    assert sums.used == used * 6
    assert sums.unaccounted == 0
    assert (sums.found, sums.missing) == ((0, 12) if way == "missing" else (12, 0))
    into = sums.ordered + sums.from_stock + sums.more_came + sums.found
    left = sums.customer + sums.unit + sums.returned + sums.scrapped + sums.unaccounted
    assert into == sums.never_came + sums.damaged + sums.to_stock + sums.missing + sums.used + left


def test_what_was_found_is_carried_into_a_room_like_any_other_pack() -> None:
    facts = a_job(
        a_delivery(packs=8, into="unit"),
        gone(3, "found"),
        a_move("2026-11-21 09:00", 11, "unit", "Reading room"),
    )
    assert packs_in_unit(facts, OAK.code) == 0
