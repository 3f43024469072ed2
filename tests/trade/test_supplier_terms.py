"""A supplier says how long packs take to come, and what it gives back for those that return."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.firm import problems_with_firm
from store.trade.planning.job_network import job_times, lead_days_of
from store.trade.returns import credit_for
from store.trade.suppliers import Supplier, problems_with_supplier, return_credit_minor
from tests.trade.conftest import FIRM, MS, OAK, a_count, a_delivery, a_job, an_order, when

YARD = Supplier(name="Skerry Timber Yard", lead_days=21, least_return_packs=3, return_days=30, return_fee_percent=20)
FROM_YARD = replace(OAK, supplier=YARD.name)
BUYING = replace(FIRM, suppliers=(YARD,))


# Packs, the fewest taken, price, share kept and freight: the trade handbook's check values, computed there, for the
# terms of five published return policies.
@pytest.mark.parametrize(
    ("packs", "least", "price", "fee", "freight", "credit"),
    [
        (1, 4, 180, 25, 60, 0),
        (4, 4, 180, 25, 60, 480),
        (5, 3, 120, 15, 0, 510),
        (2, 1, 150, 35, 90, 105),
        (3, 4, 200, 20, 0, 0),
        (6, 4, 95, 30, 80, 319),
    ],
)
def test_what_comes_back_is_the_price_less_the_fee_and_the_freight(
    packs: int, least: int, price: int, fee: float, freight: int, credit: int
) -> None:
    terms = Supplier(name="-", least_return_packs=least, return_fee_percent=fee, return_freight_minor=freight * 100)
    assert return_credit_minor(packs=packs, price_minor=price * 100, terms=terms) == credit * 100


@given(
    st.integers(0, 500),
    st.integers(0, 100_000),
    st.builds(
        Supplier,
        name=st.just("-"),
        least_return_packs=st.integers(1, 20),
        return_fee_percent=st.integers(0, 10_000).map(lambda hundredths: hundredths / 100),
        return_freight_minor=st.integers(0, 50_000),
    ),
)
def test_nobody_pays_for_returning_and_nobody_gets_more_than_was_paid(packs: int, price: int, terms: Supplier) -> None:
    credit = return_credit_minor(packs=packs, price_minor=price, terms=terms)
    assert 0 <= credit <= packs * price
    assert return_credit_minor(packs=packs + 1, price_minor=price, terms=terms) >= credit


# ---- days to come


def test_a_products_own_days_go_before_its_suppliers_and_those_before_the_usual_fourteen() -> None:
    assert lead_days_of(BUYING, a_job(products=(FROM_YARD, MS))) == {OAK.code: 21}
    assert lead_days_of(BUYING, a_job(products=(replace(FROM_YARD, lead_days=7), MS))) == {OAK.code: 7}
    assert lead_days_of(BUYING, a_job(products=(replace(OAK, supplier="somebody else"), MS))) == {}


def test_a_slower_supplier_must_be_ordered_from_sooner() -> None:
    facts = replace(a_job(products=(FROM_YARD, MS)), job=replace(a_job().job, promised_on=when("2027-01-29").date()))
    now = when("2026-11-20 08:00")

    def order_by(firm: object) -> object:
        (oak,) = job_times(firm, facts, now, lead_days=lead_days_of(firm, facts)).boards  # type: ignore[arg-type, union-attr]
        return oak.order_by

    fast = replace(FIRM, suppliers=(replace(YARD, lead_days=7),))
    # Both fall on a Monday to Friday: 21 days are two weeks more than 7.
    assert (order_by(fast) - order_by(BUYING)).days == 14  # type: ignore[operator]


# ---- credit


def returned(packs: int, boards: int = 0, *, at: str = "2026-12-01 09:00", firm=BUYING):  # type: ignore[no-untyped-def]
    facts = a_job(
        an_order(),
        a_delivery("2026-11-17 09:30"),
        a_count(at, packs, boards, to="return"),
        products=(FROM_YARD, MS),
    )
    return credit_for(firm, facts, OAK.code)


def test_whole_packs_in_time_bring_their_price_less_the_fee() -> None:
    found = returned(3)
    assert (found.credit_minor, found.is_late, found.too_few) == (3 * 18240 * 80 // 100, False, False)


def test_too_few_packs_bring_nothing() -> None:
    found = returned(2)
    assert (found.credit_minor, found.too_few) == (0, True)


@pytest.mark.parametrize(("at", "late"), [("2026-12-17 16:00", False), ("2026-12-18 08:00", True)])
def test_packs_that_go_back_after_the_last_day_bring_nothing(at: str, late: bool) -> None:
    found = returned(3, at=at)
    assert (found.is_late, found.credit_minor > 0) == (late, not late)
    assert str(found.last_day) == "2026-12-17"


def test_loose_boards_are_told_and_bring_nothing() -> None:
    found = returned(3, 4)
    assert (found.loose_boards, found.credit_minor) == (4, returned(3).credit_minor)


def test_without_terms_on_file_the_whole_price_is_expected() -> None:
    assert returned(2, firm=FIRM).credit_minor == 2 * 18240


def test_nothing_is_expected_where_nothing_went_back() -> None:
    assert credit_for(BUYING, a_job(a_count("2026-12-01 09:00", 2)), OAK.code) is None


# ---- what is typed


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"name": " "}, "name"),
        ({"lead_days": -1}, "lead_days"),
        ({"least_return_packs": 0}, "least_return_packs"),
        ({"return_days": -1}, "return_days"),
        ({"return_fee_percent": 100.5}, "return_fee_percent"),
        ({"return_fee_percent": float("nan")}, "return_fee_percent"),
        ({"return_freight_minor": -1}, "return_freight_minor"),
    ],
)
def test_terms_that_cannot_be_are_said_beside_their_field(change: dict[str, object], field: str) -> None:
    assert [one.field for one in problems_with_supplier(replace(YARD, **change))] == [field]  # type: ignore[arg-type]
    assert list(problems_with_supplier(YARD)) == []


def test_two_suppliers_of_one_name_are_one_too_many() -> None:
    (problem,) = problems_with_firm(replace(FIRM, suppliers=(YARD, YARD)))
    assert problem.say == "There is a supplier “Skerry Timber Yard” already."
