"""The counter for lay plans: a lay searched for, chosen for a room, and the one that counts."""

from collections.abc import Iterator

from store.desk.counter import Bench, refuse
from store.desk.job_counter import problems_of_room
from store.errors import Problem
from store.trade import plans
from store.trade.diary import day_of
from store.trade.facts import known_at
from store.trade.jobs import Room, RoomDraft
from store.trade.layout.lay import Attempt, LayRules
from store.trade.needs import current_plan
from store.trade.plan_checks import problems_with_plan
from store.trade.plans import Plan, PlanDraft, in_short
from store.trade.products import BoardDraft


class PlanCounter:
    """Lay plans of rooms; one filed by mistake is taken back where every line is."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def problems(self, ref: str, draft: PlanDraft) -> tuple[Problem, ...]:
        """Return what is wrong with a plan for a room of a job."""
        return problems_with_plan(draft, self._bench.facts(ref), self._bench.now())

    def file(self, ref: str, draft: PlanDraft) -> Plan:
        """File a lay chosen for a room; from then on the room's packs are counted by it."""
        with self._bench.deed():
            refuse(self.problems(ref, draft))
            plan = self._bench.cabinet.events.add_plan(self._bench.job_id(ref), draft)
            self._bench.write_down("lay planned", ref=ref, subject=draft.room, after=in_short(plan))
        return plan

    def file_for(self, ref: str, room: Room, terms: RoomDraft, draft: PlanDraft) -> Plan:
        """Change a room to what a lay was searched for, and file the lay with it: both, or neither.

        Raises:
            DraftRefused: the room or the plan has problems.
            ChangedMeanwhile: ``room`` is not the latest.
        """
        with self._bench.deed():
            refuse(problems_of_room(self._bench, ref, terms, room=room))
            changed = self._bench.cabinet.rooms.change(room.id, terms, room.rev)
            refuse(self.problems(ref, draft))
            plan = self._bench.cabinet.events.add_plan(self._bench.job_id(ref), draft)
            self._bench.write_down(
                "room changed and its lay planned",
                ref=ref,
                subject=room.name,
                before=room,
                after=(changed, in_short(plan)),
            )
            self._bench.settle(ref)
        return plan

    def current(self, ref: str, room_name: str) -> Plan | None:
        """Return the plan that a room is counted by, with every piece: the latest that still fits; None if none does.

        Raises:
            Refused: there is no such job.
        """
        now, firm = self._bench.now(), self._bench.firm()
        facts = known_at(self._bench.facts(ref), now, day_of(firm, now))
        room = next((one for one in facts.rooms if one.name == room_name), None)
        counted_by = None if room is None else current_plan(facts, room)
        return None if counted_by is None else self._bench.cabinet.events.whole_plan(counted_by.id)

    @staticmethod
    def search(room: RoomDraft, board: BoardDraft, rules: LayRules, seed: int) -> Iterator[Attempt]:
        """Yield ever better lays of a room, the best last; a sum, which asks nothing on file and may run in a thread.

        Raises:
            Refused: the room, the board or the rules allow no lay; the sentence says why.
        """
        return plans.search(room, board, rules, seed)
