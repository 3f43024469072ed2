"""The last safe day to order goes by the days a product takes to come, where they are on file."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from store.trade.planning.job_network import job_times, lead_days_of
from store.trade.products import problems_with_product
from tests.trade.conftest import FIRM, MS, OAK, a_job, when


@pytest.mark.parametrize("days", [0, 7, 30])
def test_the_order_is_due_so_many_calendar_days_before_the_delivery_or_the_working_day_before(days):
    facts = a_job(products=(replace(OAK, lead_days=days), MS))
    facts = replace(facts, job=replace(facts.job, promised_on=date(2027, 3, 12)))
    (oak,) = job_times(FIRM, facts, when("2026-11-09 08:00"), lead_days=lead_days_of(FIRM, facts)).boards
    assert oak.lead_days == days
    asked = oak.deliver_by - timedelta(days=days)
    assert oak.order_by == asked - timedelta(days=max(0, asked.weekday() - 4))


def test_without_days_on_file_the_usual_ones_are_reckoned_with():
    assert lead_days_of(FIRM, a_job()) == {}


@pytest.mark.parametrize("days", [-1, 731])
def test_days_that_cannot_be_are_told(days):
    (problem,) = problems_with_product(replace(OAK, lead_days=days))
    assert problem.field == "lead_days"
