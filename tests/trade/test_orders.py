"""What an order will bring by what its supplier says, how far it is, and what it costs."""

from dataclasses import replace
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from store.trade.confirmations import ConfirmationDraft, ConfirmedLine
from store.trade.diary import start_of
from store.trade.events import Order, OrderLine
from store.trade.order_states import OrderState, later_rest, order_standing
from store.trade.orders import (
    as_due,
    costs_minor,
    each_minor,
    is_confirmed,
    lines_to_come,
    packs_never_coming,
    problems_with_confirmation,
)
from store.trade.stacks import packs_delivered, still_owed
from store.trade.verdict import HoldKind, HoldState, Why
from tests.trade.conftest import FIRM, OAK, a_delivery, a_job, an_order, hold, when

NOW = when("2026-11-20 08:00")
TODAY = NOW.date()


def line(packs: int, due: str | None = "2026-12-01", price: int | None = None, of: str = OAK.code) -> ConfirmedLine:
    due_on = date.fromisoformat(due) if due else None
    return ConfirmedLine(product=of, packs=packs, due_on=due_on, price_minor=price)


def said(*lines: ConfirmedLine, at: str = "2026-11-12 10:00") -> ConfirmationDraft:
    return ConfirmationDraft(at=when(at), lines=lines, number="C-1")


def confirmed(*said_of_it: ConfirmationDraft, packs: int = 12) -> Order:
    return replace(an_order(packs, due="2026-11-24"), confirmed=said_of_it)


def owed(order: Order, *events: object) -> list[tuple[int, str]]:
    return [(one.packs, str(one.due_on)) for one in still_owed(a_job(order, *events), OAK.code)]


# ---- what comes


def test_an_order_that_nobody_confirmed_brings_what_it_asked_for_on_its_own_day() -> None:
    assert owed(confirmed()) == [(12, "2026-11-24")]
    assert not is_confirmed(confirmed())


def test_a_confirmation_moves_the_packs_to_the_day_it_names() -> None:
    assert owed(confirmed(said(line(12)))) == [(12, "2026-12-01")]


def test_what_comes_later_stands_by_itself_and_is_filled_last() -> None:
    order = confirmed(said(line(8), line(4, "2026-12-15")))
    assert owed(order) == [(8, "2026-12-01"), (4, "2026-12-15")]
    assert owed(order, a_delivery("2026-11-19 09:00", packs=9)) == [(3, "2026-12-15")]


def test_what_the_supplier_does_not_send_is_not_owed() -> None:
    order = confirmed(said(line(10)))
    assert owed(order) == [(10, "2026-12-01")]
    assert packs_never_coming(order, OAK.code) == 2
    assert owed(confirmed(said(line(0)))) == []


def test_of_two_confirmations_the_later_one_holds_and_only_for_what_it_names() -> None:
    order = confirmed(said(line(12), at="2026-11-14 10:00"), said(line(9), at="2026-11-12 10:00"))
    assert owed(order) == [(12, "2026-12-01")]
    two = replace(order, lines=(*order.lines, OrderLine(product="MS-15", packs=3)))
    assert [(one.product, one.packs, str(one.due_on)) for one in lines_to_come(two)] == [
        (OAK.code, 12, "2026-12-01"),
        ("MS-15", 3, "2026-11-24"),
    ]
    assert not is_confirmed(two)


def test_a_floor_waits_for_the_confirmed_day_and_asks_again_for_what_never_comes() -> None:
    late = hold(a_job(confirmed(said(line(12)))), HoldKind.PACKS, "2026-11-20 08:00")
    assert (late.state, late.clears_at) == (HoldState.WAITING, start_of(FIRM, date(2026, 12, 1)))
    short = hold(a_job(confirmed(said(line(10)))), HoldKind.PACKS, "2026-11-20 08:00")
    assert (short.state, short.why, short.packs) == (HoldState.TO_DO, Why.ORDERED_TOO_FEW, 1)  # 11 are needed


def test_a_what_if_moves_all_of_a_confirmed_order() -> None:
    order = as_due(confirmed(said(line(8), line(4, "2026-12-15"))), date(2026, 12, 20))
    assert owed(order) == [(8, "2026-12-20"), (4, "2026-12-20")]


# ---- how far it is


@pytest.mark.parametrize(
    ("order", "came", "state"),
    [
        (confirmed(), 0, OrderState.PLACED),
        (confirmed(said(line(12))), 0, OrderState.CONFIRMED),
        (confirmed(said(line(12))), 5, OrderState.PART_COME),
        (confirmed(said(line(12))), 12, OrderState.ALL_COME),
        (confirmed(said(line(10))), 10, OrderState.ALL_COME),
        (confirmed(said(line(12, "2026-11-19"))), 5, OrderState.LATE),
        (confirmed(said(line(12, "2026-11-20"))), 5, OrderState.PART_COME),  # due today is not late
        (confirmed(said(line(12, None))), 0, OrderState.CONFIRMED),
        (confirmed(said(line(0))), 0, OrderState.NONE_COMES),
        (confirmed(said(line(0, None)), said(line(12), at="2026-11-13 10:00")), 0, OrderState.CONFIRMED),
    ],
)
def test_how_far_an_order_is_follows_from_what_is_on_file(order: Order, came: int, state: OrderState) -> None:
    events = (a_delivery("2026-11-19 09:00", packs=came),) if came else ()
    facts = a_job(order, *events)
    assert order_standing(facts, facts.orders[0], TODAY).state is state


def test_of_two_products_none_comes_only_if_none_of_either_does() -> None:
    two = (*confirmed().lines, OrderLine(product="MS-15", packs=3))

    def state(*said_of_it: ConfirmationDraft, came: int = 0) -> OrderState:
        events = (a_delivery("2026-11-19 09:00", packs=came, of="MS-15"),) if came else ()
        facts = a_job(replace(confirmed(*said_of_it), lines=two), *events)
        return order_standing(facts, facts.orders[0], TODAY).state

    assert state(said(line(0))) is OrderState.PLACED  # of the glue nobody has said anything
    assert state(said(line(0)), came=3) is OrderState.ALL_COME
    assert state(said(line(0), line(0, of="MS-15"))) is OrderState.NONE_COMES


def test_an_order_of_which_nothing_comes_says_so_and_what_was_not_sent() -> None:
    facts = a_job(confirmed(said(line(0))))
    standing = order_standing(facts, facts.orders[0], TODAY)
    assert (standing.owed, standing.short, standing.confirmed) == ((), ((OAK.code, 12),), True)


def test_what_was_held_back_is_what_comes_after_the_first_of_its_product() -> None:
    order = confirmed(said(line(8), line(4, "2026-12-15")))
    facts = a_job(order)
    standing = order_standing(facts, facts.orders[0], TODAY)
    assert [(code, one.packs) for code, one in standing.held_back] == [(OAK.code, 4)]
    assert (standing.due_on, standing.short) == (date(2026, 12, 1), ())


def test_a_new_day_for_the_rest_leaves_what_has_come_on_its_day() -> None:
    order = confirmed(said(line(8), line(4, "2026-12-15", 17_000)))
    facts = a_job(order, a_delivery("2026-11-19 09:00", packs=5))
    rest = later_rest(facts, facts.orders[0], date(2026, 12, 22), NOW)
    assert [(one.packs, str(one.due_on)) for one in rest.lines] == [
        (5, "2026-12-01"),
        (3, "2026-12-22"),
        (4, "2026-12-22"),
    ]
    moved = a_job(replace(facts.orders[0], confirmed=(*order.confirmed, rest)), *facts.deliveries)
    assert [(one.packs, str(one.due_on)) for one in still_owed(moved, OAK.code)] == [
        (3, "2026-12-22"),
        (4, "2026-12-22"),
    ]


# ---- what it costs


def test_a_confirmed_price_goes_before_the_orders_and_that_before_the_sheets() -> None:
    plain = an_order(10)
    assert costs_minor(plain, OAK) == (10, 10 * 18_240)
    agreed = replace(plain, lines=(OrderLine(product=OAK.code, packs=10, price_minor=17_000),))
    assert costs_minor(agreed, OAK) == (10, 170_000)
    told = replace(agreed, confirmed=(said(line(6, price=16_000), line(4)),))
    assert costs_minor(told, OAK) == (10, 6 * 16_000 + 4 * 17_000)
    assert each_minor((told,), OAK) == Fraction(164_000, 10)
    assert each_minor((), OAK) == 18_240


# ---- what is typed


@pytest.mark.parametrize(
    ("draft", "field"),
    [
        (said(), "lines"),
        (said(line(13)), "lines.0.packs"),
        (said(line(8), line(5)), "lines.0.packs"),
        (said(line(-1)), "lines.0.packs"),
        (said(line(3, of="MS-15")), "lines.0.product"),
        (said(line(3, "2026-11-01")), "lines.0.due_on"),
        (said(line(3, price=-1)), "lines.0.price_minor"),
        (said(line(3), at="2026-11-21 10:00"), "at"),
    ],
)
def test_a_confirmation_that_does_not_fit_its_order_is_told_beside_its_field(
    draft: ConfirmationDraft, field: str
) -> None:
    assert field in {one.field for one in problems_with_confirmation(draft, confirmed(), NOW)}


def test_a_confirmation_that_fits_is_taken() -> None:
    assert problems_with_confirmation(said(line(8), line(4, None)), confirmed(), NOW) == ()


# ---- identities

_days = st.dates(date(2026, 11, 10), date(2027, 2, 1))
_confirmations = st.builds(
    ConfirmationDraft,
    at=st.integers(0, 200).map(lambda hours: when("2026-11-11 08:00") + timedelta(hours=hours)),
    lines=st.lists(
        st.builds(ConfirmedLine, product=st.just(OAK.code), packs=st.integers(0, 6), due_on=st.none() | _days),
        min_size=1,
        max_size=2,
    ).map(tuple),
)
_orders = st.builds(
    Order,
    id=st.integers(1, 9),
    on=st.just(date(2026, 11, 10)),
    due_on=st.none() | _days,
    lines=st.integers(12, 20).map(lambda packs: (OrderLine(product=OAK.code, packs=packs),)),
    confirmed=st.lists(_confirmations, max_size=2).map(tuple),
)


@given(st.lists(_orders, min_size=1, max_size=3, unique_by=lambda one: one.id), st.integers(0, 40))
def test_every_pack_asked_for_has_come_is_owed_or_never_comes(orders: list[Order], came: int) -> None:
    events = [a_delivery("2026-11-19 09:00", packs=came)] if came else []
    facts = a_job(*orders, *events)
    asked = sum(one.packs for order in orders for one in order.lines)
    never = sum(packs_never_coming(order, OAK.code) for order in orders)
    to_come = asked - never
    left = sum(one.packs for one in still_owed(facts, OAK.code))
    assert left == max(0, to_come - packs_delivered(facts, OAK.code))
    dues = [one.due_on or date.max for one in still_owed(facts, OAK.code)]
    assert dues == sorted(dues)


@given(_orders, st.integers(0, 25), _days)
def test_putting_the_rest_off_changes_no_count(order: Order, came: int, due_on: date) -> None:
    events = [a_delivery("2026-11-19 09:00", packs=came)] if came else []
    facts = a_job(order, *events)
    if not still_owed(facts, OAK.code):
        return
    rest = later_rest(facts, facts.orders[0], due_on, NOW + timedelta(days=1))
    after = a_job(replace(order, confirmed=(*order.confirmed, rest)), *events)
    before = sum(one.packs for one in still_owed(facts, OAK.code))
    assert {one.due_on for one in still_owed(after, OAK.code)} == {due_on}
    assert sum(one.packs for one in still_owed(after, OAK.code)) == before
    assert costs_minor(after.orders[0], OAK) == costs_minor(order, OAK)
