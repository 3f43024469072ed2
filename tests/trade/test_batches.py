"""Batches: one typed two ways is asked about, and two of one board in one room are told."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.batches import alike, batches_by_room, look_alike, meeting, mixed_rooms
from tests.trade.conftest import OAK, READING_ROOM, a_delivery, a_job, a_move

anything = st.text(max_size=12)
ascii_batches = st.text(string.ascii_letters + string.digits + " -", max_size=10)
parting = st.sampled_from([" ", "-", "–", "—", "‑", "−", "_", "\t", "\u00a0", "  "])


@pytest.mark.parametrize("typed", ["k41", "K 41", "K-41", "k\u201141", "0K41", "K041", " K41 ", "Ｋ41"])
def test_a_batch_typed_another_way_is_alike(typed: str) -> None:
    assert alike("K41", typed)


@pytest.mark.parametrize("typed", ["K42", "K410", "K401", "L41", "41", "K41B", "", "K4"])
def test_another_batch_is_not(typed: str) -> None:
    assert not alike("K41", typed)


@given(batch=anything)
def test_every_batch_is_like_itself(batch: str) -> None:
    assert alike(batch, batch)


@given(one=ascii_batches, other=ascii_batches)
def test_likeness_goes_both_ways(one: str, other: str) -> None:
    assert alike(one, other) is alike(other, one)


@given(batch=anything)
def test_capitals_make_no_difference(batch: str) -> None:
    assert alike(batch, batch.casefold())


@given(batch=ascii_batches)
def test_neither_upper_nor_lower_case_makes_a_difference(batch: str) -> None:
    assert alike(batch, batch.upper())
    assert alike(batch, batch.lower())


@given(batch=ascii_batches, sign=parting, place=st.integers(0, 10))
def test_a_blank_or_a_dash_anywhere_makes_no_difference(batch: str, sign: str, place: int) -> None:
    assert alike(batch, batch[:place] + sign + batch[place:])


@given(number=st.integers(0, 999), width=st.integers(1, 6), word=st.sampled_from(["", "K", "AB"]))
def test_noughts_before_a_number_make_no_difference(number: int, width: int, word: str) -> None:
    assert alike(f"{word}{number}", f"{word}{number:0{width}}")


@given(one=st.integers(0, 999), other=st.integers(0, 999), word=st.sampled_from(["", "K", "AB"]))
def test_two_numbers_are_never_alike(one: int, other: int, word: str) -> None:
    assert alike(f"{word}{one}", f"{word}{other}") is (one == other)


@given(known=st.lists(ascii_batches, max_size=5), typed=ascii_batches)
def test_only_what_is_like_and_not_equal_is_asked_about(known: list[str], typed: str) -> None:
    found = look_alike(typed, known)
    if found:
        assert found in known
        assert found != typed
        assert alike(found, typed)
        assert typed not in known
    elif typed not in known and typed.strip(" -"):
        assert not any(alike(one, typed) for one in known)


def test_a_batch_that_is_on_file_as_it_is_typed_is_not_asked_about_though_another_is_like_it() -> None:
    assert look_alike("K-41", ["K41", "K-41"]) == ""


def test_a_dash_alone_looks_like_nothing() -> None:
    assert look_alike("-", [" ", "K41"]) == ""


@given(lying=st.lists(ascii_batches, max_size=4), coming=st.lists(ascii_batches, max_size=4))
def test_batches_meet_only_where_something_new_joins_another_one(lying: list[str], coming: list[str]) -> None:
    there, together = set(filter(None, lying)), set(filter(None, lying + coming))
    assert set(meeting(lying, coming)) == (together if len(together) > 1 and together > there else set())


def test_the_rooms_in_which_two_batches_lie_are_told() -> None:
    facts = a_job(
        a_delivery(packs=8),
        a_delivery(packs=4, batch="K42", into="unit"),
        a_move("2026-11-18 09:00", 4, "unit", READING_ROOM, batch="K42"),
    )
    assert mixed_rooms(facts) == {(READING_ROOM, OAK.code): ("K41", "K42")}


def test_a_batch_that_was_carried_out_again_lies_there_no_longer() -> None:
    facts = a_job(
        a_delivery(packs=8),
        a_delivery(packs=4, batch="K42"),
        a_move("2026-11-18 09:00", 4, READING_ROOM, "unit", batch="K42"),
    )
    assert batches_by_room(facts)[READING_ROOM, OAK.code] == ("K41",)
    assert not mixed_rooms(facts)
