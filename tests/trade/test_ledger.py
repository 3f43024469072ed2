"""The ledger of packs: what came in is always somewhere, in whatever order it was written down."""

from collections import Counter
from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from store.trade.events import Place, PlaceKind
from store.trade.ledger import Cause, Heap, Movement, balances
from store.trade.on_hand import batches_on_site, boards_on_site, packs_at, unopened_in_room
from tests.trade.conftest import (
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    a_place,
    an_opening,
    when,
)

PACK = {OAK.code: 6, "MS-15": 1}
HALL = "Hall"


def place(word):
    kinds = {kind.value for kind in PlaceKind} - {"room", "unit"}
    return Place(kind=PlaceKind(word)) if word in kinds else a_place(word)


def moved(cause, source, target, packs=0, *, at="2026-11-17 09:30", job="L-0007", **more):
    usual = {"id": 1, "job_closed": False, "product": OAK.code, "batch": "K41", "damaged_packs": 0, "boards": 0}
    return Movement(
        job_ref=job,
        at=when(at),
        cause=Cause(cause),
        packs=packs,
        source=place(source),
        target=place(target),
        **(usual | more),
    )


def came(packs, into=READING_ROOM, **more):
    return moved("delivery", "supplier", into, packs, **more)


def counted(packs, boards, to, **more):
    return moved("count", "site", to, packs, boards=boards, at="2026-11-24 17:00", **more)


def opened(packs, room=READING_ROOM, **more):
    return moved("opening", room, "opened", packs, at="2026-11-24 10:00", **more)


def by_stock_take(packs, boards, job, *, found):
    """What a stock-take found or missed, of packs kept for a job or of free stock."""
    home = "unit" if job else "shelf"
    ends = ("found", home) if found else (home, "missing")
    return moved("stock-take", *ends, packs, boards=boards, at="2026-11-20 16:00", job=job)


def kept(movements, **where):
    """The boards in all heaps that answer to this."""
    return sum(
        boards
        for heap, boards in balances(movements, PACK).items()
        if all(getattr(heap, field) == value for field, value in where.items())
    )


def test_what_comes_in_lies_where_it_was_put_in_boards():
    heap = Heap(product=OAK.code, batch="K41", kind=PlaceKind.ROOM, room=READING_ROOM, job_ref="L-0007")
    assert balances([came(12)], PACK) == {heap: 72}


def test_tubs_are_counted_in_tubs():
    assert kept([came(3, product="MS-15")], product="MS-15") == 3


def test_damaged_packs_are_set_aside():
    ledger = [came(12, damaged_packs=2)]
    assert (kept(ledger, kind=PlaceKind.ROOM), kept(ledger, kind=PlaceKind.ASIDE)) == (60, 12)


def test_a_heap_moved_away_altogether_is_no_heap():
    ledger = [came(12, "unit"), moved("move", "unit", READING_ROOM, 12, at="2026-11-18 09:00")]
    assert {heap.kind: boards for heap, boards in balances(ledger, PACK).items()} == {PlaceKind.ROOM: 72}


def test_free_stock_belongs_to_no_job():
    ledger = [came(12, "unit"), moved("move", "unit", "shelf", 5, at="2026-11-18 09:00")]
    assert kept(ledger, kind=PlaceKind.SHELF, job_ref="") == 30
    taken = moved("move", "shelf", "unit", 2, at="2026-11-19 09:00", job="L-0008")
    assert kept([*ledger, taken], kind=PlaceKind.SHELF) == 18
    assert kept([*ledger, taken], kind=PlaceKind.UNIT, job_ref="L-0008") == 12


def test_leftovers_counted_to_the_unit_are_free_for_any_job():
    ledger = [came(12), opened(11), counted(1, 0, "shelf")]
    assert kept(ledger, kind=PlaceKind.SHELF, job_ref="") == 6


def test_counted_packs_leave_the_rooms_and_loose_boards_leave_what_was_opened():
    ledger = [came(12), opened(10), counted(2, 3, "customer")]
    assert kept(ledger, kind=PlaceKind.ROOM) == 0
    assert kept(ledger, kind=PlaceKind.OPENED) == 57
    assert kept(ledger, kind=PlaceKind.CUSTOMER) == 15


def test_full_packs_are_taken_from_the_fullest_room_first():
    ledger = [came(2), came(5, HALL), counted(1, 0, "customer")]
    assert (kept(ledger, room=READING_ROOM), kept(ledger, room=HALL)) == (12, 24)


def test_loose_boards_leave_what_was_opened_though_full_packs_still_lie_in_the_room():
    ledger = [came(12), opened(7), counted(2, 3, "customer")]
    assert kept(ledger, kind=PlaceKind.ROOM) == 18
    assert kept(ledger, kind=PlaceKind.OPENED) == 39


def test_loose_boards_leave_the_room_where_nobody_wrote_down_an_opening():
    assert kept([came(12), counted(2, 3, "customer")], kind=PlaceKind.ROOM) == 57


def test_counting_more_than_there_is_shows_as_less_than_nought_opened():
    assert kept([came(2), counted(3, 0, "customer")], kind=PlaceKind.OPENED) == -6


def test_of_two_rooms_with_as_much_the_same_gives_up_its_packs_whichever_was_filled_first():
    one_way = [came(2, id=1), came(2, HALL, id=2), counted(1, 0, "customer", id=3)]
    other_way = [came(2, HALL, id=1), came(2, id=2), counted(1, 0, "customer", id=3)]
    assert balances(one_way, PACK) == balances(other_way, PACK)


def test_a_count_written_down_before_the_delivery_of_the_same_moment_still_finds_it():
    count = replace(counted(1, 0, "customer", id=1), at=came(2).at)
    assert kept([count, came(2, id=2)], kind=PlaceKind.ROOM) == 6


def test_a_count_takes_only_the_batch_and_the_job_it_names():
    others = [came(4, batch="K42"), came(4, job="L-0008")]
    ledger = [came(4), *others, counted(2, 0, "return")]
    assert kept(ledger, batch="K42") == 24
    assert kept(ledger, job_ref="L-0008") == 24
    assert kept(ledger, kind=PlaceKind.ROOM, batch="K41", job_ref="L-0007") == 12


rooms = st.sampled_from([READING_ROOM, HALL])
anywhere = st.sampled_from(["unit", "shelf", READING_ROOM, HALL])
leaving = st.sampled_from(["customer", "shelf", "return", "scrap"])
causes = st.sampled_from(list(Cause))
packs = st.integers(0, 9)


def a_movement(cause, packs, more, places, job, batch):
    """One movement; ``places`` are two that packs may go between, a room, and where leftovers may go."""
    source, target, room, out = places
    at = when(f"2026-11-{17 + more % 3} 09:30")
    made = {
        Cause.DELIVERY: lambda: came(packs + more, target, damaged_packs=more),
        Cause.MOVE: lambda: moved("move", source, target, packs, at="2026-11-18 09:00"),
        Cause.OPENING: lambda: opened(packs, room),
        Cause.COUNT: lambda: counted(packs, more, out),
        Cause.STOCK_TAKE: lambda: by_stock_take(packs, 0 if job else more, job, found=source < target),
    }[cause]()
    job = job or "L-0007" if cause is not Cause.STOCK_TAKE else job
    return replace(made, at=at, job_ref=job, batch=batch)


movements = st.builds(
    a_movement,
    cause=causes,
    packs=packs,
    more=packs,
    places=st.tuples(anywhere, anywhere, rooms, leaving),
    job=st.sampled_from(["L-0007", "L-0008", ""]),
    batch=st.sampled_from(["K41", "K42"]),
)
ledgers = st.lists(movements, max_size=10).map(
    lambda ledger: [replace(one, id=number) for number, one in enumerate(ledger, start=1)]
)


@settings(suppress_health_check=[HealthCheck.too_slow])
@given(ledger=ledgers)
def test_what_came_in_is_always_somewhere(ledger):
    came_in, lies = Counter(), Counter()
    for one in ledger:
        if one.source.kind in {PlaceKind.SUPPLIER, PlaceKind.FOUND}:
            came_in[one.batch] += one.packs * 6 + one.boards
    for heap, boards in balances(ledger, PACK).items():
        lies[heap.batch] += boards
    assert {batch: count for batch, count in came_in.items() if count} == {b: n for b, n in lies.items() if n}


@given(ledger=ledgers, order=st.randoms(use_true_random=False))
def test_the_order_of_entry_changes_no_balance(ledger, order):
    shuffled = list(ledger)
    order.shuffle(shuffled)
    renumbered = [replace(one, id=number) for number, one in enumerate(shuffled, start=1)]
    assert balances(renumbered, PACK) == balances(ledger, PACK)


@given(ledger=ledgers, more=movements)
def test_a_movement_that_is_taken_back_leaves_every_balance_as_it_was(ledger, more):
    before = balances(ledger, PACK)
    filed = [*ledger, replace(more, id=len(ledger) + 1)]
    balances(filed, PACK)
    assert balances([one for one in filed if one.id != len(ledger) + 1], PACK) == before


@given(ledger=ledgers, more=movements)
def test_a_movement_and_the_same_one_back_again_cancel_out(ledger, more):
    # Counts leave a site as a whole and know no way back; all else is a sum, so what goes and returns is as if never.
    if more.source.kind in {PlaceKind.SITE, PlaceKind.SUPPLIER}:
        return
    last = when("2026-11-27 18:00")
    there = replace(more, id=98, at=last, damaged_packs=0)
    back = replace(there, id=99, source=there.target, target=there.source)
    assert balances([*ledger, there, back], PACK) == balances(ledger, PACK)


def test_what_a_stock_take_missed_is_no_longer_free_and_lies_under_its_own_word():
    ledger = [came(12, "unit"), moved("move", "unit", "shelf", 5, at="2026-11-18 09:00")]
    missed = by_stock_take(1, 2, "", found=False)
    assert kept([*ledger, missed], kind=PlaceKind.SHELF) == 22
    assert kept([*ledger, missed], kind=PlaceKind.MISSING) == 8


def test_what_a_stock_take_found_for_a_job_is_kept_for_it():
    ledger = [came(12, "unit"), by_stock_take(2, 0, "L-0007", found=True)]
    assert kept(ledger, kind=PlaceKind.UNIT, job_ref="L-0007") == 84
    assert kept(ledger, kind=PlaceKind.FOUND) == 0


@given(ledger=ledgers)
def test_no_heap_of_nought_is_kept(ledger):
    assert 0 not in balances(ledger, PACK).values()


# ---- what is on hand for one job


MIXED = a_job(
    a_delivery(packs=8, damaged=1),
    a_delivery("2026-11-18 09:00", packs=4, batch="K42"),
    a_delivery("2026-11-18 09:00", packs=3, into="unit", batch="K42"),
    a_move("2026-11-19 09:00", 2, "unit", READING_ROOM, batch="K42"),
    a_move("2026-11-19 10:00", 1, READING_ROOM, "shelf"),
    an_opening("2026-11-24 10:00", 5),
    a_count("2026-11-24 17:00", packs=1, boards=2),
)


def test_packs_on_hand_are_what_came_less_what_was_damaged_carried_off_opened_or_counted():
    assert packs_at(MIXED, a_place("unit"), OAK.code, "K42") == 1
    assert packs_at(MIXED, a_place(READING_ROOM), OAK.code, "K42") == 6
    assert packs_at(MIXED, a_place(READING_ROOM), OAK.code, "K41") == 0


def test_packs_opened_are_no_longer_unopened():
    facts = a_job(a_delivery(packs=8), an_opening("2026-11-24 10:00", 5))
    assert unopened_in_room(facts, READING_ROOM, OAK.code, "K41") == 3
    assert unopened_in_room(facts, READING_ROOM, OAK.code, "K42") == 0


def test_boards_on_site_include_those_of_opened_packs_and_leave_out_those_counted_away():
    assert boards_on_site(MIXED, OAK.code, "K41") == 6 * 6 - 8
    assert boards_on_site(MIXED, OAK.code, "K42") == 36


def test_every_batch_that_came_to_site_is_named_once():
    assert batches_on_site(MIXED) == ((OAK.code, "K41"), (OAK.code, "K42"))
