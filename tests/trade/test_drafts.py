"""What the shop refuses to file, each with a sentence beside the field it belongs to."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.trade.checks import (
    problems_with_delivery,
    problems_with_handover,
    problems_with_laying,
    problems_with_moment,
    problems_with_move,
    problems_with_opening,
    problems_with_order,
    problems_with_reading,
    problems_with_text,
)
from store.trade.count_checks import problems_with_counts
from store.trade.events import SUPPLIER, HandoverDraft
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    air,
    an_opening,
    an_order,
    hours,
    laid,
    signed,
    when,
)

NOW = when("2026-11-24 18:00")
TODAY = date(2026, 11, 24)
CODES = frozenset({OAK.code, MS.code})
ON_SITE = a_job(an_order(), a_delivery("2026-11-17 09:30", packs=12, damaged=1))
BILLION = 1_000_000_000


def fields(problems):
    return [problem.field for problem in problems]


def order_faults(order):
    return problems_with_order(order, CODES, TODAY)


def delivery_faults(delivery, facts=ON_SITE):
    return problems_with_delivery(delivery, facts, NOW, delivery.at.date())


def move_faults(move, facts=ON_SITE, shelf=None):
    return problems_with_move(move, facts, shelf or {}, NOW)


def opening_faults(opening, facts=ON_SITE):
    return problems_with_opening(opening, facts, NOW)


def laying_faults(laying, facts=ON_SITE):
    return problems_with_laying(laying, facts, NOW)


def count_faults(*counts, facts=ON_SITE):
    return problems_with_counts(counts, facts, NOW)


# ---- what is right is taken


def test_what_is_right_is_taken_without_a_word():
    assert order_faults(an_order()) == ()
    assert order_faults(an_order(due=None)) == ()
    assert order_faults(an_order(on="2026-11-24", due="2026-11-24")) == ()
    assert delivery_faults(a_delivery()) == ()
    assert delivery_faults(a_delivery(into="unit", damaged=12)) == ()
    assert delivery_faults(a_delivery("2026-11-10 08:00")) == ()
    assert move_faults(a_move("2026-11-18 09:00", 11, READING_ROOM, "unit")) == ()
    assert opening_faults(an_opening("2026-11-24 10:00", 11)) == ()
    assert laying_faults(laid("2026-11-24 10:00")) == ()
    assert laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32)) == ()
    assert count_faults(a_count("2026-11-24 17:00", packs=11)) == ()
    assert count_faults(a_count("2026-11-24 17:00", packs=10, boards=6)) == ()
    assert count_faults(a_count("2026-11-24 17:00")) == ()
    assert problems_with_reading(air("2026-11-24 18:00"), ON_SITE, NOW) == ()


# ---- dates in the future


def test_nothing_is_filed_before_it_has_happened():
    assert fields(order_faults(an_order(on="2026-11-25", due="2026-11-30"))) == ["on"]
    assert fields(delivery_faults(a_delivery("2026-11-24 18:01"))) == ["at"]
    assert fields(move_faults(a_move("2026-11-24 18:01", 1, READING_ROOM, "unit"))) == ["at"]
    assert fields(opening_faults(an_opening("2026-11-24 18:01", 1))) == ["at"]
    assert fields(problems_with_reading(air("2026-11-24 18:01"), ON_SITE, NOW)) == ["at"]
    assert fields(laying_faults(laid("2026-11-24 18:01"))) == ["begun_at"]
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 18:01", 5))) == ["ended_at"]
    assert fields(count_faults(a_count("2026-11-24 18:01"))) == ["lines.0.at"]
    done = a_job(*ON_SITE.deliveries, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32))
    assert fields(problems_with_handover(signed("2026-11-24 18:01"), done, NOW)) == ["signed_at"]
    assert fields(problems_with_moment("at", NOW + hours(1), NOW)) == ["at"]


def test_what_happens_at_this_very_moment_has_happened():
    assert problems_with_moment("at", NOW, NOW) == ()


# ---- orders


def test_an_order_cannot_be_due_before_it_was_placed():
    assert fields(order_faults(an_order(on="2026-11-10", due="2026-11-09"))) == ["due_on"]


def test_an_order_names_a_product_on_file_and_some_packs_of_it():
    assert fields(order_faults(replace(an_order(), lines=()))) == ["lines"]
    assert fields(order_faults(an_order(of="ASH-140"))) == ["lines.0.product"]


@pytest.mark.parametrize("packs", [0, -1, BILLION])
def test_nobody_orders_receives_moves_or_opens_no_packs_fewer_or_a_thousand_million(packs):
    assert fields(order_faults(an_order(packs))) == ["lines.0.packs"]
    assert "lines.0.packs" in fields(delivery_faults(a_delivery(packs=packs)))
    assert "packs" in fields(move_faults(a_move("2026-11-18 09:00", packs, READING_ROOM, "unit")))
    assert "packs" in fields(opening_faults(an_opening("2026-11-24 10:00", packs)))


def test_a_problem_with_the_second_line_stands_beside_the_second_line():
    two = replace(an_order(), lines=(*an_order().lines, *an_order(of="ASH-140").lines))
    assert fields(order_faults(two)) == ["lines.1.product"]


# ---- deliveries


def test_no_more_packs_are_damaged_than_came():
    assert fields(delivery_faults(a_delivery(packs=12, damaged=13))) == ["lines.0.damaged_packs"]
    assert fields(delivery_faults(a_delivery(packs=12, damaged=-1))) == ["lines.0.damaged_packs"]


def test_a_delivery_does_not_come_before_its_order():
    assert fields(delivery_faults(a_delivery("2026-11-09 09:30"))) == ["at"]


def test_a_delivery_of_what_nobody_ordered_is_asked_about():
    assert fields(delivery_faults(a_delivery(), a_job())) == ["lines.0.product"]
    assert fields(delivery_faults(a_delivery(of="MS-15"))) == ["lines.0.product"]


def test_a_delivery_is_put_into_a_room_of_the_job_or_the_unit():
    assert fields(delivery_faults(a_delivery(into="Attic"))) == ["into"]
    assert fields(delivery_faults(replace(a_delivery(), into=SUPPLIER))) == ["into"]


def test_a_delivery_of_nothing_is_no_delivery():
    assert fields(delivery_faults(replace(a_delivery(), lines=()))) == ["lines"]


# ---- moves and openings


def test_no_more_packs_are_carried_than_lie_there():
    assert fields(move_faults(a_move("2026-11-18 09:00", 12, READING_ROOM, "unit"))) == ["packs"]
    assert fields(move_faults(a_move("2026-11-18 09:00", 1, "unit", READING_ROOM))) == ["packs"]
    assert fields(move_faults(a_move("2026-11-18 09:00", 1, READING_ROOM, "unit", batch="K99"))) == ["packs"]


def test_packs_are_carried_opened_and_counted_only_after_they_came():
    assert fields(move_faults(a_move("2026-11-17 09:00", 1, READING_ROOM, "unit"))) == ["packs"]
    assert fields(opening_faults(an_opening("2026-11-17 09:00", 1))) == ["packs"]
    assert fields(count_faults(a_count("2026-11-17 09:00", packs=1))) == ["lines.0.packs"]


def test_what_is_entered_late_does_not_take_what_was_taken_in_between():
    carried = a_move("2026-11-19 09:00", 8, READING_ROOM, "unit")
    back = a_move("2026-11-20 09:00", 8, "unit", READING_ROOM)
    facts = a_job(*ON_SITE.deliveries, carried, back)
    assert opening_faults(an_opening("2026-11-18 09:00", 3), facts) == ()
    assert fields(opening_faults(an_opening("2026-11-18 09:00", 4), facts)) == ["packs"]
    assert opening_faults(an_opening("2026-11-20 09:00", 4), facts) == ()


def test_no_more_packs_come_off_the_shelf_than_are_free():
    move = a_move("2026-11-18 09:00", 3, "shelf", READING_ROOM)
    assert move_faults(move, shelf={"K41": 3}) == ()
    assert fields(move_faults(move, shelf={"K41": 2})) == ["packs"]
    assert fields(move_faults(move, shelf={"K42": 9})) == ["packs"]


def test_packs_are_carried_from_one_place_to_another():
    assert fields(move_faults(a_move("2026-11-18 09:00", 1, READING_ROOM, READING_ROOM))) == ["target"]
    assert "target" in fields(move_faults(a_move("2026-11-18 09:00", 1, READING_ROOM, "Attic")))
    out_of_the_firm = replace(a_move("2026-11-18 09:00", 1, READING_ROOM, "unit"), target=SUPPLIER)
    assert fields(move_faults(out_of_the_firm)) == ["target"]


def test_no_more_packs_are_opened_than_lie_unopened_in_the_room():
    assert fields(opening_faults(an_opening("2026-11-24 10:00", 12))) == ["packs"]
    opened = a_job(*ON_SITE.deliveries, an_opening("2026-11-24 09:00", 8))
    assert fields(opening_faults(an_opening("2026-11-24 10:00", 4), opened)) == ["packs"]
    assert opening_faults(an_opening("2026-11-24 10:00", 3), opened) == ()


# ---- the sentences


def test_one_pack_is_not_called_packs():
    one = a_job(an_order(1), a_delivery(packs=1))
    said = [
        *move_faults(a_move("2026-11-18 09:00", 2, READING_ROOM, "unit"), one),
        *opening_faults(an_opening("2026-11-24 10:00", 2), one),
        *count_faults(a_count("2026-11-24 17:00", packs=2), facts=one),
    ]
    assert len(said) == 3
    for problem in said:
        assert "1 pack " in problem.say


def test_every_refusal_is_one_sentence_that_ends_like_one():
    said = [
        *order_faults(an_order(BILLION, on="2026-11-25", due="2026-11-24", of="ASH-140")),
        *delivery_faults(a_delivery("2026-11-24 18:01", packs=0, damaged=1, into="Attic", of="MS-15")),
        *move_faults(a_move("2026-11-24 18:01", 40, READING_ROOM, READING_ROOM)),
        *opening_faults(an_opening("2026-11-24 18:01", 40)),
        *laying_faults(laid("2026-11-24 18:01", "2026-11-24 17:00", 99)),
        *count_faults(a_count("2026-11-24 18:01", packs=40)),
        *problems_with_handover(HandoverDraft(signed_at=NOW + timedelta(days=1), by=""), ON_SITE, NOW),
        *problems_with_text("text", " ", "Write the note."),
    ]
    assert len(said) >= 16
    for problem in said:
        assert problem.say.endswith("."), problem
        assert "\n" not in problem.say, problem
        assert len(problem.say) < 160, problem
