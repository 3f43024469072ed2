"""What the shop refuses to file, each with a sentence beside the field it belongs to."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.trade.checks import (
    problems_with_counts,
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
from store.trade.events import SUPPLIER, HandoverDraft
from store.trade.readings import Air, Carbide, Straightedge
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_move,
    a_reading,
    a_room,
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
    assert fields(delivery_faults(a_delivery("2026-11-09 09:30"))) == ["lines.0.product"]


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


def test_no_more_packs_come_off_the_shelf_than_are_free():
    move = a_move("2026-11-18 09:00", 3, "shelf", READING_ROOM)
    assert move_faults(move, shelf={"K41": 3}) == ()
    assert fields(move_faults(move, shelf={"K41": 2})) == ["packs"]
    assert fields(move_faults(move, shelf={"K42": 9})) == ["packs"]


def test_packs_are_carried_from_one_place_to_another():
    assert fields(move_faults(a_move("2026-11-18 09:00", 1, READING_ROOM, READING_ROOM))) == ["target"]
    assert "target" in fields(move_faults(a_move("2026-11-18 09:00", 1, READING_ROOM, "Attic")))


def test_no_more_packs_are_opened_than_lie_unopened_in_the_room():
    assert fields(opening_faults(an_opening("2026-11-24 10:00", 12))) == ["packs"]
    opened = a_job(*ON_SITE.deliveries, an_opening("2026-11-24 09:00", 8))
    assert fields(opening_faults(an_opening("2026-11-24 10:00", 4), opened)) == ["packs"]
    assert opening_faults(an_opening("2026-11-24 10:00", 3), opened) == ()


# ---- readings


@pytest.mark.parametrize(
    ("measure", "field"),
    [
        (Air(temp_c=20, rh_percent=140), "rh_percent"),
        (Air(temp_c=20, rh_percent=-1), "rh_percent"),
        (Air(temp_c=200, rh_percent=50), "temp_c"),
        (Air(temp_c=float("nan"), rh_percent=50), "temp_c"),
        (Air(temp_c=float("inf"), rh_percent=50), "temp_c"),
        (Carbide(percent=-0.1), "percent"),
        (Straightedge(span_mm=0, gap_mm=2), "span_mm"),
        (Straightedge(span_mm=2000, gap_mm=-1), "gap_mm"),
    ],
)
def test_a_figure_no_instrument_shows_is_a_slip_of_the_key(measure, field):
    assert [field in one for one in fields(problems_with_reading(a_reading("2026-11-20 09:00", measure), ON_SITE, NOW))]


def test_a_reading_is_taken_in_a_room_of_the_job():
    assert fields(problems_with_reading(air("2026-11-20 09:00", room="Attic"), ON_SITE, NOW)) == ["room"]


# ---- layings


def test_no_floor_is_laid_before_its_packs_came():
    assert fields(laying_faults(laid("2026-11-17 09:00"))) == ["begun_at"]
    assert fields(laying_faults(laid("2026-11-24 09:00"), a_job(an_order()))) == ["begun_at"]
    in_unit = a_job(an_order(), a_delivery(into="unit"))
    assert fields(laying_faults(laid("2026-11-24 09:00"), in_unit)) == ["begun_at"]


def test_a_laying_does_not_end_before_it_starts():
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 09:59", 5))) == ["ended_at"]


@pytest.mark.parametrize("m2", [0, -5, 21.33, BILLION])
def test_no_less_than_some_floor_is_laid_and_no_more_than_the_room_has(m2):
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", m2))) == ["area_mm2"]


def test_a_finished_laying_says_how_much_floor_it_covered():
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00"))) == ["area_mm2"]


def test_no_more_is_laid_than_is_left_of_the_room():
    begun = a_job(*ON_SITE.deliveries, laid("2026-11-23 10:00", "2026-11-23 16:00", 15))
    assert laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 6.32), begun) == ()
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 6.33), begun)) == ["area_mm2"]


def test_the_tubs_of_a_laying_are_a_sensible_number():
    laying = laid("2026-11-24 10:00", "2026-11-24 16:00", 5)
    assert laying_faults(replace(laying, tubs=0)) == ()
    for tubs in (-1, BILLION):
        assert fields(laying_faults(replace(laying, tubs=tubs))) == ["tubs"]


def test_a_floor_is_laid_in_a_room_of_the_job():
    assert "room" in fields(laying_faults(laid("2026-11-24 10:00", room="Attic")))


# ---- counts


def test_no_more_is_counted_than_there_is():
    assert fields(count_faults(a_count("2026-11-24 17:00", packs=12))) == ["lines.0.packs"]
    assert fields(count_faults(a_count("2026-11-24 17:00", packs=10, boards=7))) == ["lines.0.packs"]
    assert fields(count_faults(a_count("2026-11-24 17:00", packs=1, batch="K99"))) == ["lines.0.packs"]


def test_the_lines_of_one_count_are_taken_together():
    lines = (a_count("2026-11-24 17:00", packs=6), a_count("2026-11-24 17:00", packs=6, to="return"))
    assert fields(count_faults(*lines)) == ["lines.1.packs"]


def test_what_was_counted_before_is_no_longer_there():
    before = a_job(*ON_SITE.deliveries, a_count("2026-11-23 17:00", packs=6))
    assert fields(count_faults(a_count("2026-11-24 17:00", packs=6), facts=before)) == ["lines.0.packs"]
    assert count_faults(a_count("2026-11-24 17:00", packs=5), facts=before) == ()


@pytest.mark.parametrize("changes", [{"packs": -1}, {"boards": -1}, {"packs": BILLION}, {"boards": BILLION}])
def test_a_count_is_of_nought_or_more_and_no_thousand_million(changes):
    assert fields(count_faults(a_count("2026-11-24 17:00", **changes))) == ["lines.0.packs"]


def test_a_count_of_nothing_at_all_is_no_count():
    assert fields(count_faults()) == ["lines"]
    assert fields(count_faults(replace(a_count("2026-11-24 17:00"), product="ASH-140"))) == ["lines.0.product"]


# ---- handover


DONE = a_job(*ON_SITE.deliveries, laid("2026-11-24 10:00", "2026-11-24 16:00", 21.32))


def handover_faults(signature, facts=DONE):
    return problems_with_handover(signature, facts, NOW)


def test_a_finished_floor_is_signed_for_once_and_by_somebody():
    assert handover_faults(signed("2026-11-24 17:00")) == ()
    assert fields(handover_faults(HandoverDraft(signed_at=NOW, by="  "))) == ["by"]
    assert fields(handover_faults(signed("2026-11-24 17:00"), replace(DONE, handover=signed("2026-11-24 16:30")))) == [
        "by"
    ]


def test_nobody_signs_for_a_floor_that_is_not_laid():
    assert len(handover_faults(signed("2026-11-24 17:00"), ON_SITE)) == 1
    two = a_job(*DONE.layings, rooms=(a_room(), a_room("Hall")))
    (problem,) = handover_faults(signed("2026-11-24 17:00"), two)
    assert "Hall" in problem.say
    assert READING_ROOM not in problem.say


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
        assert "1 unopened packs" not in problem.say


def test_every_refusal_is_one_sentence_that_ends_like_one():
    said = [
        *order_faults(an_order(BILLION, on="2026-11-25", due="2026-11-24", of="ASH-140")),
        *delivery_faults(a_delivery("2026-11-24 18:01", packs=0, damaged=1, into="Attic", of="MS-15")),
        *move_faults(a_move("2026-11-24 18:01", 40, READING_ROOM, READING_ROOM)),
        *opening_faults(an_opening("2026-11-24 18:01", 40)),
        *laying_faults(laid("2026-11-24 18:01", "2026-11-24 17:00", 99)),
        *count_faults(a_count("2026-11-24 18:01", packs=40)),
        *handover_faults(HandoverDraft(signed_at=NOW + timedelta(days=1), by=""), ON_SITE),
        *problems_with_text("text", " ", "Write the note."),
    ]
    assert len(said) >= 16
    for problem in said:
        assert problem.say.endswith("."), problem
        assert "\n" not in problem.say, problem
        assert len(problem.say) < 160, problem
