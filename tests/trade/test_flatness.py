"""Flatness limits, and the compound that brings a floor up."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.errors import Refused
from store.trade.flatness import flatness, smoothing

# BS 8204 surface regularity classes.
BS = [("sr1", 3), ("sr2", 5), ("sr3", 10)]

# DIN 18202 Table 3 as extended by the German building trade's screed handbook: rule, span mm, limit mm.
DIN = [
    *(("din2", span, limit) for span, limit in [(100, 5), (600, 7), (1000, 8), (1500, 9), (2000, 9), (3000, 11)]),
    *(("din2", span, limit) for span, limit in [(4000, 12), (6000, 13), (8000, 14), (10000, 15), (15000, 20)]),
    *(("din3", span, limit) for span, limit in [(100, 2), (600, 3), (1000, 4), (1500, 5), (2000, 6), (2500, 7)]),
    *(("din3", span, limit) for span, limit in [(3000, 8), (4000, 10), (6000, 11), (8000, 11), (10000, 12)]),
    *(("din3", span, limit) for span, limit in [(12000, 13), (15000, 15)]),
    *(("din4", span, limit) for span, limit in [(100, 1), (600, 2), (1000, 3), (1500, 4), (2000, 5), (3000, 7)]),
    *(("din4", span, limit) for span, limit in [(4000, 9), (6000, 10), (8000, 11), (10000, 12), (15000, 15)]),
]


@pytest.mark.parametrize(("rule", "limit"), BS)
def test_the_british_classes_hold_under_a_two_metre_straightedge(rule, limit):
    assert flatness(rule=rule, span_mm=2000, gap_mm=limit).ok
    answer = flatness(rule=rule, span_mm=2000, gap_mm=limit + 0.1)
    assert (answer.limit_mm, answer.ok) == (limit, False)


@pytest.mark.parametrize(("rule", "span", "limit"), DIN)
def test_the_german_limits_are_those_of_the_extended_table(rule, span, limit):
    assert flatness(rule=rule, span_mm=span, gap_mm=0).limit_mm == limit


@pytest.mark.parametrize(("rule", "shortest", "longest"), [("din2", 5, 20), ("din3", 2, 15), ("din4", 1, 15)])
def test_beyond_the_table_its_end_values_hold(rule, shortest, longest):
    assert flatness(rule=rule, span_mm=50, gap_mm=0).limit_mm == shortest
    assert flatness(rule=rule, span_mm=25_000, gap_mm=0).limit_mm == longest


@given(st.sampled_from(["din2", "din3", "din4"]), st.integers(1, 20_000), st.integers(1, 20_000))
def test_a_longer_span_is_never_allowed_less(rule, one, other):
    short, long = sorted((one, other))
    limits = [flatness(rule=rule, span_mm=span, gap_mm=0).limit_mm for span in (short, long)]
    assert limits == sorted(limits)


@given(st.integers(1, 20_000), st.floats(0, 30))
def test_the_german_rows_only_grow_stricter(span, gap):
    by_row = [flatness(rule=rule, span_mm=span, gap_mm=gap) for rule in ("din4", "din3", "din2")]
    assert [answer.limit_mm for answer in by_row] == sorted(answer.limit_mm for answer in by_row)
    assert all(answer.ok is (gap <= answer.limit_mm) for answer in by_row)


@pytest.mark.parametrize(
    ("rule", "span", "gap", "say"),
    [
        ("sr1", 3000, 2, "straightedge of 2000 mm, not 3000: give span 2000 or a din rule"),
        ("sr9", 2000, 2, "'sr9' is not known: give sr1 or sr2"),
        ("din3", 0, 2, "Span 0 mm"),
        ("din3", 2000, -1, "Gap under the straightedge -1 mm"),
        ("din3", float("inf"), 2, "finite"),
        ("sr1", 2000, float("nan"), "finite"),
    ],
)
def test_a_rule_is_not_stretched_to_what_it_does_not_cover(rule, span, gap, say):
    with pytest.raises(Refused, match=say):
        flatness(rule=rule, span_mm=span, gap_mm=gap)


# Worked by hand; 6 m² by 30 mm is a published consumer example (306 kg, 13 bags).
@pytest.mark.parametrize(
    ("area", "depth", "rate", "waste", "bag", "kg", "bags"),
    [
        (20, 3, 1.7, 0, 25, 102.0, 5),
        (20, 3, 1.7, 10, 25, 112.2, 5),
        (35, 5, 1.5, 5, 25, 275.625, 12),
        (12.5, 2, 1.6, 10, 25, 44.0, 2),
        (60, 4, 1.7, 5, 25, 428.4, 18),
        (6, 30, 1.7, 0, 25, 306, 13),
        (20, 3, 1.5, 0, 25, 90, 4),
        (12, 2, 1.6, 0, 25, 38.4, 2),
        (40, 5, 1.7, 0, 25, 340, 14),
        (8, 3, 1.5, 0, 20, 36, 2),
        (100, 3, 1.5, 0, 25, 450, 18),
        (16.7, 1, 1.5, 0, 25, 25.05, 2),
    ],
)
def test_smoothing_compound_comes_in_whole_bags(area, depth, rate, waste, bag, kg, bags):
    answer = smoothing(area_m2=area, depth_mm=depth, rate_kg_per_m2_mm=rate, waste_percent=waste, bag_kg=bag)
    assert (answer.kg, answer.bags) == (kg, bags)


def test_no_rounding_error_buys_a_bag():
    assert 1.1 * 3 / 3.3 > 1  # what floats make of it
    assert smoothing(area_m2=1.1, depth_mm=3, rate_kg_per_m2_mm=1, bag_kg=3.3).bags == 1


@pytest.mark.parametrize("bad", [{"area_m2": 0}, {"depth_mm": -2}, {"bag_kg": 0}, {"waste_percent": float("nan")}])
def test_compound_for_what_cannot_be_is_refused(bad):
    with pytest.raises(Refused):
        smoothing(**({"area_m2": 20, "depth_mm": 3} | bad))
