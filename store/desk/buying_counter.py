"""The counter for the take-off of a whole job: what it needs bought, and lines of it set by hand."""

from store.desk.counter import Bench, refuse
from store.errors import Problem
from store.trade.buying.job_take_off import job_take_off
from store.trade.buying.nouns import Buying, OwnLine, OwnLineDraft
from store.trade.buying.own_line_checks import problems_with_own_line
from store.trade.diary import day_of
from store.trade.facts import JobFacts, known_at


class BuyingCounter:
    """What a job needs bought; a line set by hand is taken back where every line is."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def of(self, facts: JobFacts) -> Buying:
        """Return the take-off of a job from its facts, as far as they are known by now."""
        firm, now = self._bench.firm(), self._bench.now()
        return job_take_off(known_at(facts, now, day_of(firm, now)), firm)

    def problems(self, ref: str, draft: OwnLineDraft) -> tuple[Problem, ...]:
        """Return what is wrong with a line set by hand."""
        return problems_with_own_line(draft, self._bench.facts(ref), self._bench.now())

    def set_line(self, ref: str, draft: OwnLineDraft) -> OwnLine:
        """File a line set by hand; it holds from then on, until a later one or until it is taken back."""
        with self._bench.deed():
            refuse(self.problems(ref, draft))
            line = self._bench.cabinet.events.add_own_line(self._bench.job_id(ref), draft)
            said = f"{draft.thing.value} {draft.product}".strip()
            self._bench.write_down("line of the take-off set", ref=ref, subject=said, after=line)
        return line
