"""By which day glue and materials must be ordered, so that they have come before the first board is laid."""

from dataclasses import replace
from datetime import date

from store.trade.planning.job_network import job_times, lead_days_of
from store.trade.planning.order_days import order_day
from store.trade.suppliers import Supplier
from tests.trade.conftest import FIRM, MS, OAK, a_delivery, a_job, air, an_order, straightedge, timber, when

NOW = when("2026-11-25 08:00")
READY = (an_order(), a_delivery("2026-11-17 09:30"), air("2026-11-24 08:00"), timber("2026-11-24 08:00"))


def times(promised: str | None, firm=FIRM):  # type: ignore[no-untyped-def]
    facts = a_job(*READY, straightedge("2026-11-24 08:00"))
    day = date.fromisoformat(promised) if promised else None
    facts = replace(facts, job=replace(facts.job, promised_on=day))
    return job_times(firm, facts, NOW, lead_days=lead_days_of(firm, facts))


def test_glue_is_here_the_working_day_before_the_floor_must_be_begun() -> None:
    found = times("2026-12-18")
    assert found is not None
    assert found.lay_by is not None
    begun = found.lay_by.astimezone(FIRM.zone).date()
    day = order_day(FIRM, found, replace(MS, lead_days=0))
    assert day is not None
    assert day < begun
    assert (begun - day).days == (3 if begun.weekday() == 0 else 1)


def test_a_lead_time_is_the_products_own_else_its_suppliers_else_fourteen_days() -> None:
    found = times("2027-01-29")
    assert found is not None
    yard = replace(FIRM, suppliers=(Supplier(name="Yard", lead_days=7),))
    at_once = order_day(FIRM, found, replace(MS, lead_days=0))
    week = order_day(yard, found, replace(MS, supplier="Yard"))
    usual = order_day(FIRM, found, MS)
    assert at_once is not None
    assert week is not None
    assert usual is not None
    assert ((at_once - week).days, (at_once - usual).days) == (7, 14)


def test_boards_keep_the_day_by_which_they_still_acclimatise() -> None:
    facts = replace(a_job(), job=replace(a_job().job, promised_on=date(2027, 1, 29)))
    found = job_times(FIRM, facts, NOW, lead_days={})
    assert found is not None
    (oak,) = found.boards
    assert order_day(FIRM, found, OAK) == oak.order_by
    glue = order_day(FIRM, found, MS)
    assert oak.order_by is not None
    assert glue is not None
    # A week of lying, and the days around it, lie between them.
    assert (glue - oak.order_by).days >= 7


def test_without_a_promise_there_is_no_day() -> None:
    found = times(None)
    assert found is not None
    assert order_day(FIRM, found, MS) is None
