"""Output per fitter and day: the trade's rules, the firm's own records, and how the one gives way to the other."""

from dataclasses import replace
from datetime import time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.jobs import Method
from store.trade.outline import rectangle
from store.trade.planning.grid import halves_needed
from store.trade.planning.nouns import Fitter
from store.trade.planning.rates import (
    M2_A_DAY,
    Laid,
    laid_in,
    laying_hours,
    rates_from,
    skirting_hours,
    smoothing_hours,
)
from store.trade.surveyed import Doorway, FixedThing, Pattern
from tests.trade.conftest import FIRM, a_job, a_room, laid

STRAIGHT = (Method.GLUED, Pattern.STRAIGHT)


def record(area=30.0, took=10.0, pattern=Pattern.STRAIGHT):
    return Laid(method=Method.GLUED, pattern=pattern, area_m2=area, fitter_hours=took)


@pytest.mark.parametrize(
    ("area_m2", "m2_a_day", "round_things", "halves"),
    [  # the trade handbook's examples for one fitter, in days: 1.25, 0.605, 2.6
        (20, 16, 0, 3),
        (12, 25, 2, 2),
        (13, 5, 0, 6),
        (30, 10, 0, 6),  # 3 days exactly take no more
    ],
)
def test_the_half_days_of_a_floor_are_those_of_the_worked_examples(area_m2, m2_a_day, round_things, halves):
    pipe = FixedThing(name="pipe", x_mm=100, y_mm=100, size_mm=22)
    room = a_room(wide=area_m2 * 1000, deep=1000, fixed_things=(pipe,) * round_things)
    rate = replace(rates_from()[STRAIGHT], m2_a_day=float(m2_a_day))
    firm = replace(FIRM, day_ends=time(16))  # eight hours a day, as the rule has it
    assert halves_needed(firm, laying_hours(room, {STRAIGHT: rate}), Fitter(name="Maren")) == halves


def test_every_method_and_pattern_has_a_rule_inside_the_range_of_common_practice():
    assert set(M2_A_DAY) == {(method, pattern) for method in Method for pattern in Pattern}
    assert 12 <= M2_A_DAY[STRAIGHT] <= 20
    assert 20 <= M2_A_DAY[Method.FLOATING, Pattern.STRAIGHT] <= 30
    assert 5 <= M2_A_DAY[Method.GLUED, Pattern.HERRINGBONE] <= 10
    assert 5 <= M2_A_DAY[Method.GLUED, Pattern.CHEVRON] <= 8


def test_without_records_the_rate_is_the_rule_and_says_that_nothing_stands_behind_it():
    for (method, pattern), rate in rates_from().items():
        assert rate.m2_a_day == pytest.approx(M2_A_DAY[method, pattern])
        assert rate.records == 0


def test_records_draw_the_rate_away_from_the_rule_the_more_of_them_there_are():
    seen = [rates_from([record()] * many)[STRAIGHT].m2_a_day for many in (0, 1, 5, 50, 5000)]
    assert seen == sorted(seen)
    assert seen[2] == pytest.approx(19.2)  # (150 m² + 150 m²) ÷ (75 h + 50 h) × 8
    assert seen[-1] == pytest.approx(24, abs=0.02)  # 30 m² in 10 hours


def test_herringbones_teach_nothing_about_rows():
    rates = rates_from([record(pattern=Pattern.HERRINGBONE)])
    assert rates[STRAIGHT].records == 0
    assert rates[Method.GLUED, Pattern.HERRINGBONE].records == 1


@given(st.lists(st.tuples(st.floats(1, 100), st.floats(1, 100)), max_size=8))
def test_a_rate_lies_between_the_rule_and_what_was_measured(pairs):
    rate = rates_from([record(*pair) for pair in pairs])[STRAIGHT]
    area, took = sum(pair[0] for pair in pairs), sum(pair[1] for pair in pairs)
    measured = 8 * area / took if pairs else 16
    low, high = sorted((16, measured))
    assert low - 1e-9 <= rate.m2_a_day <= high + 1e-9


def test_layings_on_file_become_records_in_working_hours():
    facts = a_job(
        laid("2026-11-19 14:30", "2026-11-20 10:00", 14.5),  # 2 hours on Thursday, 2 on Friday
        laid("2026-11-22 10:00", "2026-11-22 12:00", 5),  # a Sunday
        laid("2026-11-23 08:00"),  # still going on
    )
    assert list(laid_in(FIRM, facts)) == [record(14.5, 4.0)]
    assert [one.fitter_hours for one in laid_in(FIRM, facts, {1: 2})] == [8.0]


def test_a_room_takes_its_floor_at_the_rate_and_half_an_hour_for_each_thing_cut_round():
    room = a_room(outline=rectangle(5000, 4000))  # 20 m²
    assert laying_hours(room, rates_from()) == pytest.approx(10)
    busy = a_room(
        outline=rectangle(5000, 4000),
        doorways=(Doorway(wall=0, from_mm=100, width_mm=900),),
        fixed_things=(FixedThing(name="pipe", x_mm=100, y_mm=100, size_mm=22),),
    )
    assert laying_hours(busy, rates_from()) == pytest.approx(11)
    assert skirting_hours(room) == pytest.approx(3)  # 18 m at 6 m an hour
    assert skirting_hours(busy) == pytest.approx(17.1 / 6)
    assert smoothing_hours(room) == pytest.approx(2)
