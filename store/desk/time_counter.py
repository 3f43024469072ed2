"""The counter for a job's days: when its floors can be laid and handed over, when they must, and what decides."""

from store.desk.counter import Bench
from store.trade.facts import JobFacts, known_at
from store.trade.planning.job_network import JobTimes, job_times, lead_days_of


class TimeCounter:
    """Questions about days; nothing is filed here."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def of_job(self, ref: str) -> JobTimes | None:
        """Return a job's earliest and latest times; None where no room is measured or the floor is handed over.

        Raises:
            Refused: there is no such job, or the firm never works.
        """
        return self.of(self._bench.facts(ref))

    def of(self, facts: JobFacts) -> JobTimes | None:
        """Return the times of a job whose facts were asked for already."""
        known = known_at(facts, self._bench.now(), self._bench.today())
        if not known.rooms or known.handover is not None:
            return None
        return job_times(self._bench.firm(), known, self._bench.now(), lead_days=lead_days_of(known))
