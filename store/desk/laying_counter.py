"""The counters for work on site: readings, smoothing, and floors laid."""

from dataclasses import replace

from store.desk.counter import Bench, must_be_of_job, refuse
from store.errors import Problem
from store.trade import checks
from store.trade.diary import day_of
from store.trade.events import (
    Laying,
    LayingDraft,
    Opening,
    OpeningDraft,
    Smoothing,
    SmoothingDraft,
)
from store.trade.facts import JobFacts
from store.trade.lasting import Lasting, will_it_last
from store.trade.morning import MorningCheck, MorningCheckDraft
from store.trade.needs import current_plan
from store.trade.readings import Reading, ReadingDraft, WithdrawnReading
from store.trade.site_checks import problems_with_morning, problems_with_voiding
from store.trade.voiding import Voiding, VoidingDraft

Problems = tuple[Problem, ...]


class ReadingCounter:
    """Readings taken on site, and the smoothing that makes old ones void."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def problems(self, ref: str, draft: ReadingDraft) -> Problems:
        return checks.problems_with_reading(draft, self._bench.facts(ref), self._bench.now())

    def take(self, ref: str, draft: ReadingDraft) -> Reading:
        """File a reading."""
        with self._bench.deed():
            refuse(self.problems(ref, draft))
            reading = self._bench.cabinet.events.add_reading(self._bench.job_id(ref), draft)
            self._bench.write_down("reading taken", ref=ref, subject=f"{draft.kind}, {draft.room}", after=reading)
        return reading

    def withdrawn(self, ref: str) -> tuple[WithdrawnReading, ...]:
        """Return the readings of a job that were taken back, in the order of filing."""
        return self._bench.cabinet.events.withdrawn_readings(self._bench.job_id(ref))

    def put_right(self, ref: str, reading: Reading, draft: ReadingDraft, why: str) -> Reading:
        """Take a reading back and file what it should have said, in one deed and one line of history.

        Raises:
            Refused: the reading has been taken back already, or is another job's.
            DraftRefused: the new one cannot be filed, or no reason was given; the old one stands.
        """
        with self._bench.deed():
            refuse(self.problems(ref, draft) + checks.problems_with_text("why", why, "Say why it is put right."))
            must_be_of_job(ref, reading, self._bench.facts(ref).readings)
            events, now = self._bench.cabinet.events, self._bench.now()
            events.take_back("reading", reading.id, at=now, who=self._bench.who, why=why)
            right = events.add_reading(self._bench.job_id(ref), draft, corrects=reading.id)
            self._bench.write_down("reading put right", ref=ref, subject=why[:80], before=reading, after=right)
            self._bench.settle(ref)
        return right

    def smoothing_problems(self, ref: str, draft: SmoothingDraft) -> Problems:
        facts = self._bench.facts(ref)
        found = checks.problems_with_moment("at", draft.at, self._bench.now())
        if all(room.name != draft.room for room in facts.rooms):
            found += (Problem(field="room", say=f"The job has no room “{draft.room}”."),)
        return found

    def smoothed(self, ref: str, draft: SmoothingDraft) -> Smoothing:
        """File compound laid in a room."""
        with self._bench.deed():
            refuse(self.smoothing_problems(ref, draft))
            smoothing = self._bench.cabinet.events.add_smoothing(self._bench.job_id(ref), draft)
            self._bench.write_down("subfloor smoothed", ref=ref, subject=draft.room, after=smoothing)
        return smoothing

    def voiding_problems(self, ref: str, draft: VoidingDraft) -> Problems:
        return problems_with_voiding(draft, self._bench.facts(ref), self._bench.now())

    def void(self, ref: str, draft: VoidingDraft) -> Voiding:
        """File what makes a room's moisture readings from before it void."""
        with self._bench.deed():
            refuse(self.voiding_problems(ref, draft))
            voiding = self._bench.cabinet.events.add_voiding(self._bench.job_id(ref), draft)
            self._bench.write_down("readings made void", ref=ref, subject=draft.room, after=voiding)
        return voiding


class LayingCounter:
    """The morning list, and laying started and finished."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def problems(self, ref: str, draft: LayingDraft) -> Problems:
        return checks.problems_with_laying(draft, self._bench.facts(ref), self._bench.now())

    def start(self, ref: str, draft: LayingDraft, openings: tuple[OpeningDraft, ...] = ()) -> Laying:
        """File a laying that has begun (or is done), together with the packs opened for it."""
        with self._bench.deed():
            facts = self._bench.facts(ref)
            found = self.problems(ref, draft) + self.opening_problems(ref, openings)
            if any(one.room == draft.room and one.ended_at is None for one in facts.layings):
                say = f"Laying is going on in {draft.room} already; finish that first."
                found += (Problem(field="room", say=say),)
            refuse(found)
            job_id = facts.job.id
            laying = self._bench.cabinet.events.add_laying(job_id, draft)
            for opening in openings:
                self._bench.cabinet.events.add_opening(job_id, opening)
            deed = "laying started" if draft.ended_at is None else "floor laid"
            self._bench.write_down(deed, ref=ref, subject=draft.room, after=(laying, openings))
            self._bench.settle(ref)
        return laying

    def morning_problems(self, ref: str, draft: MorningCheckDraft) -> Problems:
        return problems_with_morning(draft, self._bench.facts(ref), self._bench.now())

    def look_round(self, ref: str, draft: MorningCheckDraft) -> MorningCheck:
        """File a morning list, whatever it found."""
        with self._bench.deed():
            refuse(self.morning_problems(ref, draft))
            check = self._bench.cabinet.events.add_morning(self._bench.job_id(ref), draft)
            self._bench.write_down("morning list", ref=ref, subject=draft.room, after=check)
        return check

    def opening_problems(self, ref: str, openings: tuple[OpeningDraft, ...]) -> Problems:
        """Return what is wrong with the packs opened for a laying; fields are ``openings.N.what``."""
        facts, now = self._bench.facts(ref), self._bench.now()
        found: list[Problem] = []
        for index, draft in enumerate(openings):
            wrong = checks.problems_with_opening(draft, facts, now)
            found += (replace(one, field=f"openings.{index}.{one.field}") for one in wrong)
            # What one line opens is no longer there for the next.
            opened = Opening(
                id=0, at=draft.at, room=draft.room, product=draft.product, batch=draft.batch, packs=draft.packs
            )
            facts = replace(facts, openings=(*facts.openings, opened))
        return tuple(found)

    def lasting(self, facts: JobFacts) -> Lasting:
        """Return what is left on site against what is to go, from the facts of a job's card; see ``will_it_last``."""
        firm = self._bench.firm()
        current = (current_plan(facts, room) for room in facts.rooms) if facts.layings else ()
        whole = (self._bench.cabinet.events.whole_plan(one.id) for one in current if one is not None)
        plans = {one.room: one for one in whole if one is not None}
        return will_it_last(firm, facts, plans, day_of(firm, self._bench.now()))

    def finish(self, ref: str, laying: Laying, draft: LayingDraft, openings: tuple[OpeningDraft, ...] = ()) -> Laying:
        """Fill in the end, the area and the glue of a laying that is going on, with the packs opened since."""
        with self._bench.deed():
            refuse(self.problems(ref, draft) + self.opening_problems(ref, openings))
            must_be_of_job(ref, laying, self._bench.facts(ref).layings)
            done = self._bench.cabinet.events.end_laying(laying.id, draft, laying.rev)
            for opening in openings:
                self._bench.cabinet.events.add_opening(self._bench.job_id(ref), opening)
            after = (done, openings) if openings else done
            self._bench.write_down("floor laid", ref=ref, subject=draft.room, before=laying, after=after)
            self._bench.settle(ref)
        return done
