"""What a job's material costs: planned by the take-off, ordered, and real once it is counted."""

import random
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.buying.cost import cost_of as list_cost
from store.trade.buying.job_take_off import job_take_off
from store.trade.credits import Credit, CreditDraft
from store.trade.events import OrderLine
from store.trade.facts import JobFacts
from store.trade.firm import FirmDraft
from store.trade.material_cost import CostLine, MaterialCost, material_cost
from store.trade.returns import credits_for, problems_with_credit
from store.trade.suppliers import Supplier
from tests.trade.conftest import FIRM, MS, OAK, a_count, a_delivery, a_job, a_move, an_order, when

YARD = Supplier(name="Timber yard", return_fee_percent=25, return_days=30)
BUYING = replace(FIRM, suppliers=(YARD,))
FROM_YARD = replace(OAK, supplier="Timber yard", price_minor=18_000)


def cost_of(facts: JobFacts, firm: FirmDraft = BUYING) -> MaterialCost:
    return material_cost(facts, job_take_off(facts, firm), credits_for(firm, facts))


def oak_of(facts: JobFacts, firm: FirmDraft = BUYING) -> CostLine:
    return next(one for one in cost_of(facts, firm).lines if one.product == OAK.code)


def job(*events: object) -> JobFacts:
    return a_job(*events, products=(FROM_YARD, MS))


def test_before_anything_is_ordered_the_plan_is_what_the_take_off_asks_for_at_the_sheets_price() -> None:
    cost = cost_of(job())
    oak = oak_of(job())
    assert (oak.planned_packs, oak.planned_minor, oak.ordered_minor, oak.real_minor) == (11, 11 * 18_000, 0, None)
    # 21.32 m² at 1 kg/m² are 22 kg, two tubs of 15 kg.
    glue = next(one for one in cost.lines if one.product == MS.code)
    assert (glue.planned_packs, glue.planned_minor) == (2, 2 * 9_900)
    assert (cost.planned_minor, cost.ordered_minor, cost.real_minor) == (11 * 18_000 + 19_800, 0, None)


def test_the_list_to_buy_and_the_cost_of_the_job_name_the_same_sum() -> None:
    facts = job()
    buying = job_take_off(facts, BUYING)
    assert cost_of(facts).planned_minor == list_cost(buying, facts).minor


def test_an_order_costs_what_was_agreed_and_its_way_here() -> None:
    order = replace(an_order(), lines=(OrderLine(product=OAK.code, packs=12, price_minor=17_000),), freight_minor=5_500)
    cost = cost_of(job(order))
    assert cost.ordered_minor == 12 * 17_000 + 5_500
    assert cost.real_minor is None


def test_the_way_here_is_real_once_something_of_its_order_has_come() -> None:
    near = replace(an_order(8), freight_minor=500)
    far = replace(an_order(4, on="2026-11-12", due="2026-12-10"), id=2, freight_minor=9_000)
    came = cost_of(job(near, far, a_delivery(packs=8)))
    assert (came.freight_minor, came.freight_come_minor) == (9_500, 500)
    assert came.real_minor == 8 * 18_000 + 500
    both = cost_of(job(near, far, a_delivery(packs=9)))
    assert both.real_minor == 9 * 18_000 + 9_500


def test_real_is_what_came_and_stayed() -> None:
    events = (an_order(), a_delivery(packs=12, damaged=1), a_move("2026-11-18 09:00", 2, READING, "shelf"))
    assert oak_of(job(*events)).real_minor == (12 - 1 - 2) * 18_000
    kept = a_count("2026-12-01 09:00", 1, 3, to="unit")
    assert oak_of(job(*events, kept)).real_minor == (12 - 1 - 2 - 1) * 18_000 - 3 * 3_000
    # What stays with the customer or is thrown away is part of what the job costs.
    gone = (a_count("2026-12-01 09:00", 1, to="customer"), a_count("2026-12-01 09:00", 1, to="scrap"))
    assert oak_of(job(*events, *gone)).real_minor == (12 - 1 - 2) * 18_000


def test_packs_from_free_stock_cost_what_their_sheet_says() -> None:
    assert oak_of(job(a_move("2026-11-18 09:00", 4, "shelf", "unit"))).real_minor == 4 * 18_000


def test_a_credit_that_is_expected_is_taken_off_and_one_that_came_smaller_in_its_place() -> None:
    back = (an_order(), a_delivery(packs=12), a_count("2026-12-01 09:00", 2, to="return"))
    assert oak_of(job(*back)).real_minor == 12 * 18_000 - 2 * 13_500
    note = Credit(id=1, at=when("2026-12-05 09:00"), product=OAK.code, amount_minor=20_000)
    assert oak_of(job(*back, note)).real_minor == 12 * 18_000 - 20_000
    part = replace(note, settles=False)
    assert oak_of(job(*back, part)).real_minor == 12 * 18_000 - 2 * 13_500


def test_a_product_without_any_price_is_named_and_counts_as_nothing() -> None:
    free = a_job(an_order(), products=(replace(OAK, price_minor=0), MS))
    assert cost_of(free).unpriced == (OAK.code,)


# ---- credits


def credit(amount: int, **changes: object) -> CreditDraft:
    return replace(CreditDraft(at=when("2026-12-05 09:00"), product=OAK.code, amount_minor=amount), **changes)  # type: ignore[arg-type]


def test_a_credit_is_due_until_it_came_or_was_settled() -> None:
    back = (an_order(), a_delivery(packs=12), a_count("2026-12-01 09:00", 2, to="return"))
    (due,) = credits_for(BUYING, job(*back))
    assert (due.credit_minor, due.come_minor, due.due_minor) == (27_000, 0, 27_000)
    (part,) = credits_for(BUYING, job(*back, Credit(id=1, **_told(credit(20_000, settles=False)))))
    assert (part.come_minor, part.due_minor) == (20_000, 7_000)
    (done,) = credits_for(BUYING, job(*back, Credit(id=1, **_told(credit(20_000)))))
    assert (done.come_minor, done.due_minor, done.settled) == (20_000, 0, True)


def test_tubs_that_go_back_are_credited_too() -> None:
    tubs = replace(a_count("2026-12-01 09:00", 2, to="return"), product=MS.code)
    (due,) = credits_for(BUYING, job(an_order(4, of=MS.code), a_delivery(packs=4, of=MS.code), tubs))
    assert (due.product, due.due_minor) == (MS.code, 2 * 9_900)


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (credit(-1), "amount_minor"),
        (credit(0, settles=False), "amount_minor"),
        (credit(1, product=MS.code), "product"),
        (credit(1, at=when("2026-11-30 09:00")), "at"),
        (credit(1, at=when("2026-12-25 09:00")), "at"),
    ],
)
def test_a_credit_that_cannot_be_is_told_beside_its_field(draft: CreditDraft, field: str) -> None:
    back = job(an_order(), a_delivery(packs=12), a_count("2026-12-01 09:00", 2, to="return"))
    assert field in {one.field for one in problems_with_credit(draft, back, when("2026-12-20 08:00"))}


def test_a_credit_refused_is_a_credit_of_nothing_that_settles_it() -> None:
    back = job(an_order(), a_delivery(packs=12), a_count("2026-12-01 09:00", 2, to="return"))
    assert problems_with_credit(credit(0), back, when("2026-12-20 08:00")) == ()


# ---- identities


def _told(draft: CreditDraft) -> dict[str, object]:
    return {name: getattr(draft, name) for name in CreditDraft.__dataclass_fields__}


READING = "Reading room"
_some = st.integers(0, 6)


@given(
    _some, _some, _some, st.dictionaries(st.sampled_from(["customer", "unit", "return", "scrap"]), _some), st.randoms()
)
def test_every_pack_that_came_is_paid_for_freed_or_credited_in_any_order_of_entry(
    damaged: int, from_shelf: int, to_shelf: int, counts: dict[str, int], dice: random.Random
) -> None:
    events = [
        an_order(30),
        a_delivery(packs=30, damaged=damaged),
        *([a_move("2026-11-18 09:00", from_shelf, "shelf", READING)] if from_shelf else []),
        *([a_move("2026-11-18 10:00", to_shelf, READING, "shelf")] if to_shelf else []),
        *(a_count("2026-12-01 09:00", packs, to=to) for to, packs in counts.items() if packs),
    ]
    line = oak_of(job(*events))
    stayed = 30 - damaged + from_shelf - to_shelf - counts.get("unit", 0)
    credited = Fraction(counts.get("return", 0) * 18_000 * 75, 100)
    assert line.real_minor == stayed * 18_000 - credited
    assert line.ordered_minor == 30 * 18_000
    dice.shuffle(events)
    assert oak_of(job(*events)) == line
