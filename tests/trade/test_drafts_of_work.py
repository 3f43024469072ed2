"""What the shop refuses to file about readings, laying, counting and handing over."""

from dataclasses import replace

import pytest

from store.trade.checks import (
    problems_with_handover,
    problems_with_laying,
    problems_with_reading,
)
from store.trade.count_checks import problems_with_counts
from store.trade.events import DeliveryLine, HandoverDraft, LayingDraft
from store.trade.materials import Material
from store.trade.readings import Air, Carbide, Straightedge
from store.trade.things import Thing
from tests.trade.conftest import (
    MS,
    OAK,
    READING_ROOM,
    a_count,
    a_delivery,
    a_job,
    a_reading,
    a_room,
    air,
    an_order,
    laid,
    signed,
    when,
)

NOW = when("2026-11-24 18:00")
ON_SITE = a_job(an_order(), a_delivery("2026-11-17 09:30", packs=12, damaged=1))
BILLION = 1_000_000_000


def fields(problems):
    return [problem.field for problem in problems]


def laying_faults(laying, facts=ON_SITE):
    return problems_with_laying(laying, facts, NOW)


def count_faults(*counts, facts=ON_SITE):
    return problems_with_counts(counts, facts, NOW)


# ---- layings


def test_no_floor_is_laid_before_its_packs_came():
    assert fields(laying_faults(laid("2026-11-17 09:00"))) == ["begun_at"]
    assert fields(laying_faults(laid("2026-11-24 09:00"), a_job(an_order()))) == ["begun_at"]
    in_unit = a_job(an_order(), a_delivery(into="unit"))
    assert fields(laying_faults(laid("2026-11-24 09:00"), in_unit)) == ["begun_at"]


def test_a_laying_does_not_end_before_it_starts():
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 09:59", 5))) == ["ended_at"]


# A tape is read to a hundredth or two: up to 2 % more than the outline gives is taken (a house rule, no source).
@pytest.mark.parametrize("m2", [0, -5, 21.75, BILLION])
def test_no_less_than_some_floor_is_laid_and_no_more_than_the_room_has(m2):
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", m2))) == ["area_mm2"]


def test_a_finished_laying_says_how_much_floor_it_covered():
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00"))) == ["area_mm2"]


def test_no_more_is_laid_than_is_left_of_the_room():
    begun = a_job(*ON_SITE.deliveries, laid("2026-11-23 10:00", "2026-11-23 16:00", 15))
    assert laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 6.74), begun) == ()
    assert fields(laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 6.75), begun)) == ["area_mm2"]


def test_the_most_floor_a_refusal_names_is_floor_that_would_be_taken():
    (problem,) = laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 22))
    assert "at most 21.74 m²" in problem.say
    assert laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 21.74)) == ()


def test_a_room_laid_already_has_nothing_left_to_lay():
    done = a_job(*ON_SITE.deliveries, laid("2026-11-23 10:00", "2026-11-23 16:00", 21.7464))
    (problem,) = laying_faults(laid("2026-11-24 10:00", "2026-11-24 16:00", 1), done)
    assert "laid already" in problem.say


def test_floor_that_was_covered_was_covered_by_some_moment():
    assert fields(laying_faults(laid("2026-11-24 10:00", m2=5))) == ["ended_at"]


def test_no_more_tubs_are_used_than_came_but_one_may_be_begun_here_and_emptied_there():
    came = replace(a_delivery(packs=3, batch="G1"), lines=(DeliveryLine(product=MS.code, batch="G1", packs=3),))
    facts = a_job(a_delivery(packs=12), came)
    draft = LayingDraft(
        room=READING_ROOM,
        begun_at=when("2026-11-24 10:00"),
        ended_at=when("2026-11-24 16:00"),
        area_mm2=5_000_000,
        tubs=3,
    )
    now = when("2026-11-30 09:00")
    assert not problems_with_laying(draft, facts, now)
    (problem,) = problems_with_laying(replace(draft, tubs=4), facts, now)
    assert (problem.field, problem.say) == (
        "tubs",
        "At most 3 tubs of MS-15 can have been used: 3 came for this job, 0 used before, 0 counted away.",
    )
    before = replace(laid("2026-11-23 10:00", "2026-11-23 16:00", 5), tubs=2)
    after = replace(facts, layings=(before,))
    assert not problems_with_laying(replace(draft, tubs=2), after, now)
    assert [one.field for one in problems_with_laying(draft, after, now)] == ["tubs"]
    # Where no tub was written down as come, nobody can say.
    assert not problems_with_laying(replace(draft, tubs=9), replace(facts, deliveries=facts.deliveries[:1]), now)


def test_the_tubs_of_a_laying_are_a_sensible_number():
    laying = laid("2026-11-24 10:00", "2026-11-24 16:00", 5)
    assert laying_faults(replace(laying, tubs=0)) == ()
    for tubs in (-1, BILLION):
        assert fields(laying_faults(replace(laying, tubs=tubs))) == ["tubs"]


def test_a_floor_is_laid_in_a_room_of_the_job():
    assert "room" in fields(laying_faults(laid("2026-11-24 10:00", room="Attic")))


# ---- counts


STICK = Material(id=5, rev=1, code="SK-3", name="Oak skirting", thing=Thing.SKIRTING, size=3000)


@pytest.mark.parametrize("code", ["MS-15", "SK-3"])
def test_what_is_no_board_is_counted_whole_and_never_loose(code):
    facts = a_job(a_delivery("2026-11-17 09:30", 3, of=code), products=(OAK, MS, STICK))

    def counted(packs, boards, to="unit"):
        return replace(a_count("2026-11-24 17:00", packs, boards, to=to), product=code)

    assert count_faults(counted(2, 0), facts=facts) == ()
    for to in ("unit", "scrap", "return"):
        (problem,) = count_faults(counted(0, 2, to), facts=facts)
        assert problem.field == "lines.0.boards"
        assert problem.say == f"Only boards are counted loose; count {code} whole, as packs."
    # The line that is wrong is told by its number, and counts for nothing against the others.
    assert fields(count_faults(counted(3, 0), counted(0, 1), facts=facts)) == ["lines.1.boards"]


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
    (found,) = fields(problems_with_reading(a_reading("2026-11-20 09:00", measure), ON_SITE, NOW))
    assert found == field


def test_a_reading_is_taken_in_a_room_of_the_job():
    assert fields(problems_with_reading(air("2026-11-20 09:00", room="Attic"), ON_SITE, NOW)) == ["room"]
