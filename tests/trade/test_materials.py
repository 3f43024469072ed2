"""Materials on file: their sheets, the take-off that reckons with them, what is still to order, and what it costs."""

from dataclasses import replace

import pytest

from store.trade.buying.cost import cost_of, price_of
from store.trade.buying.job_take_off import job_take_off
from store.trade.buying.nouns import Caution, OwnLine, OwnLineDraft
from store.trade.buying.own_line_checks import problems_with_own_line
from store.trade.buying.sizes import USUAL
from store.trade.facts import JobFacts
from store.trade.flights import Flight
from store.trade.jobs import Method, Subfloor
from store.trade.materials import Material, MaterialDraft
from store.trade.products import problems_with_product, same_product
from store.trade.shopping import still_to_order
from store.trade.things import MATERIALS, Thing
from tests.trade.conftest import (
    FIRM,
    OAK,
    a_delivery,
    a_job,
    a_move,
    a_room,
    an_order,
    laid,
    standing,
    when,
)

NOW = when("2026-11-25 07:00")
STICK = Material(id=5, rev=1, code="SK-3", name="Oak skirting", thing=Thing.SKIRTING, size=3000, price_minor=2150)
SHORT = replace(STICK, id=6, code="SK-9", name="Ash skirting", size=2000, price_minor=0)
PRIMER = Material(
    id=7, rev=1, code="PR", name="Primer", thing=Thing.PRIMER, size=5, rate=150, needs_training=True, safety="Gloves."
)
SCREED = a_room(subfloor=Subfloor.CEMENT_SCREED)
FILM = Material(id=8, rev=1, code="PE", name="Film", thing=Thing.FILM, size=50, width_mm=4000, price_minor=5000)


def facts_with(*materials: Material, own: tuple[OwnLine, ...] = (), **more: object) -> JobFacts:
    job = a_job(**more)
    chosen = {one.code: one for one in materials if one.code in {line.product for line in own}}
    return replace(job, materials=materials, own_lines=own, products={**job.products, **chosen})


def line_of(facts: JobFacts, thing: Thing):
    return next(one for one in job_take_off(facts, FIRM).lines if one.thing is thing)


def own(thing: Thing, **said: object) -> OwnLine:
    return OwnLine(**{"thing": thing, "at": NOW, "why": "as told", "id": 1} | said)


def test_a_thing_on_file_is_reckoned_with_its_sheet_and_not_with_what_is_usual() -> None:
    without, line = line_of(facts_with(), Thing.SKIRTING), line_of(facts_with(STICK), Thing.SKIRTING)
    assert (without.product, without.size, without.usual) == ("", 2400, True)
    assert (line.product, line.size, line.usual, line.sheet) == ("SK-3", 3000, False, STICK)
    # The walls of 5.2 × 4.1 m are 18.6 m: 7 sticks of 3 m at least, and 8 of 2.4 m.
    assert (line.units, without.units) == (7, 8)


def test_the_rate_the_width_and_the_training_of_a_sheet_hold() -> None:
    primer = line_of(facts_with(PRIMER, rooms=(SCREED,)), Thing.PRIMER)
    assert (primer.how.g_per_m2, primer.size) == (150, 5)
    assert Caution.TRAINING in primer.cautions
    floating = a_room(method=Method.FLOATING, glue=None, subfloor=Subfloor.CONCRETE)
    assert line_of(facts_with(FILM, rooms=(floating,)), Thing.FILM).how.width_mm == 4000


def test_the_first_on_file_is_taken_until_another_one_is_chosen_and_figures_by_hand_go_before_both() -> None:
    assert line_of(facts_with(STICK, SHORT), Thing.SKIRTING).product == "SK-3"
    chosen = facts_with(STICK, SHORT, own=(own(Thing.SKIRTING, product="SK-9"),))
    assert (line_of(chosen, Thing.SKIRTING).product, line_of(chosen, Thing.SKIRTING).size) == ("SK-9", 2000)
    longer = facts_with(STICK, SHORT, own=(own(Thing.SKIRTING, product="SK-9", size=2500),))
    assert (line_of(longer, Thing.SKIRTING).product, line_of(longer, Thing.SKIRTING).size) == ("SK-9", 2500)


def test_a_line_may_be_set_to_a_product_of_its_thing_only() -> None:
    draft = OwnLineDraft(thing=Thing.SKIRTING, at=NOW, why="dearer", product="SK-3")
    facts = facts_with(STICK, PRIMER)
    assert problems_with_own_line(draft, facts, NOW) == ()
    for wrong in ("PR", "NONE", OAK.code):
        (problem,) = problems_with_own_line(replace(draft, product=wrong), facts, NOW)
        assert problem.field == "product"


def materials_to_order(facts: JobFacts, moment: str = "2026-11-12 08:00") -> dict[str, int]:
    lines = still_to_order(facts, standing(facts, moment), when(moment).date(), job_take_off(facts, FIRM).lines)
    return {line.product: line.packs for line in lines if line.product not in {OAK.code, "MS-15"}}


def test_what_has_a_product_and_was_not_ordered_is_still_to_order() -> None:
    assert materials_to_order(facts_with()) == {}
    assert materials_to_order(facts_with(STICK, PRIMER)) == {"SK-3": 7}, "primer is only offered"
    taken_up = facts_with(STICK, PRIMER, own=(own(Thing.PRIMER, units=2),), rooms=(SCREED,))
    assert materials_to_order(taken_up) == {"PR": 2, "SK-3": 7}


def test_what_was_ordered_brought_from_free_stock_or_crushed_counts() -> None:
    def still(*events: object) -> int:
        job = replace(a_job(*events), materials=(STICK,))
        return materials_to_order(job).get("SK-3", 0)

    brought = replace(a_move("2026-11-11 08:00", 1, source="shelf", target="unit", batch=""), product="SK-3")
    assert still(an_order(5, of="SK-3")) == 2
    assert still(an_order(7, of="SK-3")) == 0
    assert still(an_order(5, of="SK-3"), brought) == 1
    assert still(an_order(7, of="SK-3"), a_delivery("2026-11-11 08:00", 7, of="SK-3", damaged=3)) == 3


def test_nothing_more_is_offered_once_the_floors_are_laid() -> None:
    done = replace(
        a_job(an_order(11), a_delivery("2026-11-10 08:00", 11), laid("2026-11-20 08:00", "2026-11-20 16:00", 21.32)),
        materials=(STICK,),
    )
    assert materials_to_order(done, "2026-11-21 08:00") == {}


def test_boards_for_stairs_are_ordered_beside_those_of_the_floors() -> None:
    stairs = Flight(
        id=1, rev=1, name="Hall", rise_mm=2600, width_mm=860, code="irc", going_mm=255, risers=14, board=OAK.code
    )
    facts = replace(a_job(), flights=(stairs,))
    cladding = line_of(facts, Thing.CLADDING).units
    take_off = job_take_off(facts, FIRM).lines

    def boards(job: JobFacts) -> int:
        found = still_to_order(job, standing(job, "2026-11-12 08:00"), NOW.date(), take_off)
        return sum(line.packs for line in found if line.product == OAK.code)

    assert boards(facts) == 11 + cladding
    assert boards(replace(a_job(an_order(11)), flights=(stairs,))) == cladding
    assert boards(replace(a_job(an_order(11 + cladding)), flights=(stairs,))) == 0


def test_the_cost_is_the_sum_of_the_prices_on_file_and_says_what_has_none() -> None:
    facts = facts_with(STICK)
    take_off = job_take_off(facts, FIRM)
    cost = cost_of(take_off, facts)
    # 11 packs at 182.40, 2 tubs at 99.00, 7 sticks at 21.50.
    assert cost.minor == 11 * 18240 + 2 * 9900 + 7 * 2150
    assert cost.unpriced == sum(price_of(line, facts) is None for line in take_off.lines if line.to_buy)


@pytest.mark.parametrize("thing", MATERIALS)
def test_every_thing_may_be_a_material_of_a_usual_size(thing) -> None:
    draft = MaterialDraft(
        code="X", name="Any", thing=thing, size=USUAL[thing].size or 1, width_mm=USUAL[thing].width_mm
    )
    assert problems_with_product(draft) == ()


BAD = {
    "a board": ({"thing": Thing.BOARDS}, "thing"),
    "no size": ({"size": 0}, "size"),
    "half a stick": ({"size": 2400.5}, "size"),
    "a stick with a width": ({"width_mm": 60}, "width_mm"),
    "a stick with a rate": ({"rate": 3.0}, "rate"),
    "a roll with no width": ({"thing": Thing.FILM, "size": 25}, "width_mm"),
    "a set of two": ({"thing": Thing.CARE_SET, "size": 2}, "size"),
    "a long story": ({"safety": "x" * 501}, "safety"),
    "a price": ({"price_minor": -1}, "price_minor"),
    "a code": ({"code": ""}, "code"),
}


@pytest.mark.parametrize("name", BAD)
def test_a_sheet_that_cannot_be_is_refused_beside_its_field(name) -> None:
    changes, field = BAD[name]
    draft = replace(MaterialDraft(code="SK", name="Skirting", thing=Thing.SKIRTING, size=2400), **changes)
    assert [problem.field for problem in problems_with_product(draft)] == [field]


def test_a_material_on_file_says_the_same_as_its_draft_and_not_as_another_kind() -> None:
    draft = MaterialDraft(code="SK-3", name="Oak skirting", thing=Thing.SKIRTING, size=3000, price_minor=2150)
    assert same_product(draft, STICK)
    assert not same_product(draft, SHORT)
    assert not same_product(draft, OAK)
