"""Deeds let through one after the other, whatever their dates: nothing is ever taken from where it was not."""

from dataclasses import fields, replace

from hypothesis import given, settings
from hypothesis import strategies as st

from store.trade.checks import problems_with_move, problems_with_opening
from store.trade.count_checks import problems_with_counts
from store.trade.events import (
    SHELF,
    UNIT,
    Count,
    CountDraft,
    Delivery,
    DeliveryLine,
    Destination,
    Move,
    MoveDraft,
    Opening,
    OpeningDraft,
    PlaceKind,
    in_room,
)
from store.trade.facts import JobFacts
from store.trade.ledger import balances
from store.trade.on_hand import movements_of, packs_at, short_of, unopened_in_room
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_room,
    an_opening,
    an_order,
    hours,
    when,
)

ROOMS = (a_room(READING_ROOM), a_room("Parlour", id=2))
BEGUN, NOW = when("2026-11-17 09:00"), when("2026-12-20 09:00")
PER_PACK = {OAK.code: OAK.boards_per_pack}
PLACES = (UNIT, SHELF, *(in_room(room.name) for room in ROOMS))
at = st.integers(0, 12).map(lambda hour: BEGUN + hours(hour))
batch, packs = st.sampled_from(["K1", "K2"]), st.integers(1, 6)
DRAFTS = st.one_of(
    st.builds(
        MoveDraft,
        at=at,
        product=st.just(OAK.code),
        batch=batch,
        packs=packs,
        source=st.sampled_from(PLACES),
        target=st.sampled_from(PLACES),
    ),
    st.builds(
        OpeningDraft,
        at=at,
        room=st.sampled_from([room.name for room in ROOMS]),
        product=st.just(OAK.code),
        batch=batch,
        packs=packs,
    ),
    st.builds(
        CountDraft,
        at=at,
        product=st.just(OAK.code),
        batch=batch,
        packs=st.integers(0, 4),
        boards=st.integers(0, 11),
        to=st.sampled_from(Destination),
    ),
)
CAME = st.builds(
    lambda at, into, batch, packs, damaged: Delivery(
        id=1,
        at=at,
        into=into,
        lines=(DeliveryLine(product=OAK.code, batch=batch, packs=packs, damaged_packs=min(packs, damaged)),),
    ),
    at=st.integers(0, 4).map(lambda hour: BEGUN + hours(hour)),
    into=st.sampled_from([UNIT, *(in_room(room.name) for room in ROOMS)]),
    batch=batch,
    packs=packs,
    damaged=st.sampled_from([0, 0, 1]),
)


def on_shelf(facts: JobFacts) -> dict[str, int]:
    """The free stock this job brought, by batch, as it stands after all."""
    heaps = balances(movements_of(facts, OAK.code), PER_PACK)
    return {heap.batch: boards // 6 for heap, boards in heaps.items() if heap.kind is PlaceKind.SHELF}


def done(facts: JobFacts, draft: MoveDraft | OpeningDraft | CountDraft, number: int) -> JobFacts:
    """The facts with a deed more, if it is let through."""
    told = {field.name: getattr(draft, field.name) for field in fields(draft)}
    if isinstance(draft, MoveDraft):
        refused = problems_with_move(draft, facts, on_shelf(facts), NOW)
        return facts if refused else replace(facts, moves=(*facts.moves, Move(id=number, **told)))
    if isinstance(draft, OpeningDraft):
        refused = problems_with_opening(draft, facts, NOW)
        return facts if refused else replace(facts, openings=(*facts.openings, Opening(id=number, **told)))
    refused = problems_with_counts((draft,), facts, NOW)
    return facts if refused else replace(facts, counts=(*facts.counts, Count(id=number, **told)))


@settings(max_examples=300, deadline=None)
@given(came=st.lists(CAME, min_size=1, max_size=4), drafts=st.lists(DRAFTS, max_size=10))
def test_no_place_is_ever_short_and_a_place_holds_the_packs_the_ledger_says(came, drafts) -> None:
    facts = a_job(an_order(100), *came, rooms=ROOMS, products=(OAK, MS))
    for number, draft in enumerate(drafts):
        facts = done(facts, draft, number)
    assert short_of(facts) == {}
    heaps = balances(movements_of(facts, OAK.code), PER_PACK)
    for heap, boards in heaps.items():
        if heap.kind in {PlaceKind.ROOM, PlaceKind.UNIT}:
            place = in_room(heap.room) if heap.kind is PlaceKind.ROOM else UNIT
            assert packs_at(facts, place, OAK.code, heap.batch) == boards // 6


TWO_ROOMS = a_job(
    an_order(10),
    a_delivery(packs=5, into=READING_ROOM),
    a_delivery(packs=5, into="Parlour"),
    an_opening("2026-11-24 10:00", 5),
    a_count("2026-11-24 17:00", packs=2),
    rooms=ROOMS,
)


def test_what_was_counted_away_from_another_room_can_no_longer_be_opened_there() -> None:
    """All of the reading room is opened, so that the two packs counted came from the parlour."""
    assert unopened_in_room(TWO_ROOMS, "Parlour", OAK.code, "K41") == 3
    draft = OpeningDraft(at=when("2026-11-25 09:00"), room="Parlour", product=OAK.code, batch="K41", packs=5)
    (problem,) = problems_with_opening(draft, TWO_ROOMS, NOW)
    assert "Parlour had 3 packs of OAK-190, batch K41 to spare" in problem.say
    assert not problems_with_opening(replace(draft, packs=3), TWO_ROOMS, NOW)


def test_a_pack_that_loose_boards_were_counted_from_is_no_whole_pack_any_more() -> None:
    facts = a_job(an_order(3), a_delivery(packs=3), a_count("2026-11-24 17:00", boards=5))
    assert unopened_in_room(facts, READING_ROOM, OAK.code, "K41") == 2
    off = MoveDraft(
        at=when("2026-11-25 09:00"), product=OAK.code, batch="K41", packs=3, source=in_room(READING_ROOM), target=SHELF
    )
    assert problems_with_move(off, facts, {}, NOW)
    assert not problems_with_move(replace(off, packs=2), facts, {}, NOW)


def test_a_count_dated_back_leaves_what_was_opened_since() -> None:
    """Five packs each in two rooms, the parlour's opened later: a count from before may take the others only."""
    facts = replace(TWO_ROOMS, openings=(), counts=())
    later = OpeningDraft(at=when("2026-11-25 09:00"), room="Parlour", product=OAK.code, batch="K41", packs=5)
    facts = done(facts, later, 1)
    count = CountDraft(
        at=when("2026-11-24 17:00"), product=OAK.code, batch="K41", packs=3, boards=0, to=Destination.CUSTOMER
    )
    (problem,) = problems_with_counts((count,), facts, NOW)
    assert "count as of a later one" in problem.say
    assert not problems_with_counts((replace(count, at=when("2026-11-25 17:00")),), facts, NOW)
