"""Before anything is ordered, free stock in the unit is offered: the same board, of one batch."""

from datetime import date

from hypothesis import given
from hypothesis import strategies as st

from store.trade.batches import alike
from store.trade.events import OrderLine
from store.trade.from_stock import FreeLot, boards_from_stock, left_to_order, tubs_from_stock

TODAY = date(2026, 11, 30)


def test_a_job_that_has_a_batch_is_offered_no_other() -> None:
    assert boards_from_stock(3, {"K42": 8, "K43": 2}, with_job=["K43"]) == {"K43": 2}
    assert boards_from_stock(3, {"K42": 8}, with_job=["K43"]) == {}


def test_a_batch_typed_another_way_is_the_same_batch() -> None:
    assert boards_from_stock(3, {"k-042": 8}, with_job=["K42"]) == {"k-042": 3}


def test_a_job_without_boards_is_offered_the_smallest_heap_that_is_enough() -> None:
    assert boards_from_stock(3, {"K42": 8, "K43": 4, "K44": 2}, with_job=()) == {"K43": 3}


def test_where_no_heap_is_enough_the_largest_is_a_beginning_and_none_is_mixed_with_it() -> None:
    assert boards_from_stock(9, {"K42": 6, "K44": 2, "K45": 6}, with_job=()) == {"K42": 6}
    assert boards_from_stock(2, {}, with_job=()) == {}


def test_tubs_that_go_off_first_go_first_and_what_is_past_its_day_stays() -> None:
    old = FreeLot(product="MS", batch="A", packs=4, use_by=date(2026, 11, 29))
    today = FreeLot(product="MS", batch="B", packs=1, use_by=TODAY)
    undated = FreeLot(product="MS", batch="C", packs=9)
    assert tubs_from_stock(3, (undated, old, today), TODAY) == {"B": 1, "C": 2}


def test_what_is_kept_is_not_ordered() -> None:
    needed = (OrderLine(product="OAK", packs=8), OrderLine(product="MS", packs=2))
    assert left_to_order(needed, {"OAK": 3, "MS": 2}) == (OrderLine(product="OAK", packs=5),)


_batches = st.sampled_from(["K41", "k 41", "K42", "K43", "L1"])


@given(st.integers(0, 40), st.dictionaries(_batches, st.integers(0, 12)), st.lists(_batches, max_size=2))
def test_no_more_is_taken_than_is_needed_or_lies_there_and_never_a_second_batch(
    needed: int, free: dict[str, int], mine: list[str]
) -> None:
    taken = boards_from_stock(needed, free, mine)
    assert sum(taken.values()) <= needed
    assert all(0 < packs <= free[batch] for batch, packs in taken.items())
    if mine:
        assert all(any(alike(batch, one) for one in mine) for batch in taken)
    else:
        assert len(taken) <= 1
