"""The counter for what-if: how things stand, what would follow from something else, and taking it up for real."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from store.desk.counter import Bench
from store.desk.firm_counter import FirmCounter
from store.desk.job_counter import JobCounter
from store.desk.pack_counter import PackCounter
from store.desk.proposal_counter import ProposalCounter
from store.errors import Problem, Refused
from store.trade.planning.consequences import Outlook, outlook
from store.trade.planning.nouns import Proposal
from store.trade.planning.propose import propose
from store.trade.planning.situation import Planning, Situation, planning_of
from store.trade.planning.suppose import (
    FloorLater,
    OrderComes,
    PromiseMoves,
    ScreedDriesLater,
    SomebodyAway,
    Supposition,
    problems_with,
    suppose,
)


class SupposingCounter:
    """Asks how things stand; all else but ``take_up`` are sums that touch nothing on file and are fit for a thread."""

    def __init__(
        self, bench: Bench, proposals: ProposalCounter, packs: PackCounter, jobs: JobCounter, firm: FirmCounter
    ) -> None:
        self._bench = bench
        self._proposals, self._packs, self._jobs, self._firm = proposals, packs, jobs, firm

    def now(self) -> Situation:
        """Return how things stand now."""
        return self._proposals.situation()

    def problems(self, situation: Situation, supposition: Supposition) -> tuple[Problem, ...]:
        """Return what is wrong with a supposition."""
        return problems_with(situation, supposition)

    def outlook(self, situation: Situation, suppositions: Sequence[Supposition] = ()) -> Outlook:
        """Reckon how things would stand; Refused where the firm never works."""
        return outlook(suppose(situation, suppositions))

    def planning(self, seen: Outlook) -> Planning:
        """Return what a plan would be made from; Refused where nobody is on file or no floor is left."""
        return planning_of(seen.situation)

    def search(self, planning: Planning, situation: Situation) -> Iterator[Proposal]:
        """Yield ever better plans for how things stand or would stand."""
        return propose(planning.firm, planning.floors, planning.fitters, situation.now)

    def take_up(self, situation: Situation, supposition: Supposition) -> None:
        """File a supposition for real: a new due day, days off, the day a site is ready, another promise.

        Raises:
            Refused: what it is about is not on file any longer, or no deed stands behind it (a screed is released or
                held by its readings alone).
            ChangedMeanwhile: somebody changed it since ``situation`` was looked up.
        """
        if isinstance(supposition, SomebodyAway):
            self._give_days_off(situation, supposition)
            return
        facts = situation.job(supposition.ref)
        if facts is None:
            raise Refused("That job is not open any longer.")
        if isinstance(supposition, OrderComes):
            orders = [one for one in facts.orders if one.id == supposition.order]
            if not orders:
                raise Refused("That order is not on file any longer.")
            self._packs.postpone(supposition.ref, orders[0], supposition.due_on)
        elif isinstance(supposition, PromiseMoves):
            self._jobs.change(facts.job, replace(facts.job, promised_on=supposition.on))
        elif isinstance(supposition, FloorLater):
            room = next((one for one in facts.rooms if one.name == supposition.room), None)
            if room is None:
                raise Refused("That room is not in the job any longer.")
            self._jobs.change_room(supposition.ref, room, replace(room, site_ready_on=supposition.on))
        else:
            raise Refused("A screed is held by its readings: file the one that failed in the job's folder (r).")

    def _give_days_off(self, situation: Situation, supposition: SomebodyAway) -> None:
        person = situation.person(supposition.person)
        if person is None:
            raise Refused("They do not work for the firm any longer.")
        self._firm.change_person(person, replace(person, days_off=(*person.days_off, supposition.days)))


def can_be_taken_up(supposition: Supposition) -> bool:
    """Whether a deed stands behind a supposition."""
    return not isinstance(supposition, ScreedDriesLater)
