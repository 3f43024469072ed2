"""The counter for a job's days: when its floors can be laid and handed over, when they must, and what decides."""

from collections.abc import Iterable
from datetime import date

from store.desk.counter import Bench
from store.errors import Refused
from store.trade.facts import JobFacts
from store.trade.planning.job_network import JobTimes, job_times, lead_days_of
from store.trade.planning.order_days import order_day
from store.trade.products import Product


class TimeCounter:
    """Questions about days; nothing is filed here."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def of_job(self, ref: str) -> JobTimes | None:
        """Return a job's earliest and latest times; None where there are none. Refused if there is no such job."""
        return self.of(self._bench.facts(ref))

    def of(self, facts: JobFacts) -> JobTimes | None:
        """Return the times of a job whose facts were asked for already."""
        return self.of_all([facts]).get(facts.job.ref)

    def order_days(self, times: JobTimes | None, products: Iterable[Product]) -> dict[str, date | None]:
        """Return the last safe day to order each of some products of a job, by code; none of a job without times."""
        firm = self._bench.firm()
        return {} if times is None else {one.code: order_day(firm, times, one) for one in products}

    def of_all(self, jobs: Iterable[JobFacts]) -> dict[str, JobTimes]:
        """Return the times of jobs, by reference.

        Left out is a job without rooms, one that is handed over, and one of which no day can be told: the firm works
        on no day within ten years.
        """
        firm, now = self._bench.firm(), self._bench.now()
        found: dict[str, JobTimes] = {}
        for facts in jobs:
            if not facts.rooms or (facts.handover is not None and facts.handover.signed_at <= now):
                continue
            try:
                found[facts.job.ref] = job_times(firm, facts, now, lead_days=lead_days_of(firm, facts))
            except Refused:
                continue
        return found
