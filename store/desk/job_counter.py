"""The counter for jobs and their rooms: the day's list, a job whole, taking on and changing."""

import re
from collections.abc import Iterable
from datetime import UTC, datetime

from store.desk.cards import JobCard, Slot
from store.desk.counter import Bench, must_make_sense, refuse, shown
from store.errors import Problem
from store.trade.counts import reckon
from store.trade.damage import claims_for
from store.trade.diary import day_of
from store.trade.facts import JobFacts, known_at
from store.trade.firm import Firm
from store.trade.history import HistoryLine
from store.trade.jobs import (
    CustomerDraft,
    Job,
    JobDraft,
    JobLine,
    Room,
    RoomDraft,
    problems_with_job,
    problems_with_room,
)
from store.trade.needs import current_plan
from store.trade.products import Board, Glue, problems_with_product
from store.trade.returns import credits_for
from store.trade.standing import standing_at
from store.trade.verdict import Stage, Standing, Verdict

_LAST_NUMBER = re.compile(r"(\d+)(?!.*\d)")
_FAR_AHEAD = datetime.max.replace(tzinfo=UTC)


class JobCounter:
    """Questions and deeds about jobs and rooms."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def today(self) -> tuple[JobCard, ...]:
        """Return every open job, the most pressing part of the day's list first."""
        now, firm = self._bench.now(), self._bench.firm()
        cards = [card_of(firm, facts, now) for facts in self._bench.cabinet.facts.open_at(now)]
        return tuple(sorted(cards, key=_pressing))

    def lines(self) -> tuple[JobLine, ...]:
        """Return every job ever taken on, open or closed, latest first."""
        return self._bench.cabinet.jobs.lines()

    def card(self, ref: str) -> JobCard:
        """Return one job whole; Refused where there is none."""
        return card_of(self._bench.firm(), self._bench.facts(ref), self._bench.now())

    def history(self, ref: str) -> tuple[HistoryLine, ...]:
        """Return what was done to a job, the latest first; when looking at another moment, nothing done after it."""
        until = self._bench.now() if self._bench.looking_back else None
        return self._bench.cabinet.history.of_job(ref, until=until)

    def customers(self) -> tuple[CustomerDraft, ...]:
        """Return the customers on file, to choose from."""
        return self._bench.cabinet.jobs.customers()

    def next_ref(self) -> str:
        """Return a free reference that carries on from the latest one."""
        refs = self._bench.cabinet.jobs.refs()
        taken, latest = set(refs), refs[0] if refs else "L-0000"
        for _ in range(len(taken) + 1):
            latest = _one_on(latest)
            if latest not in taken:
                break
        return latest

    def problems(self, draft: JobDraft, *, job: Job | None = None) -> tuple[Problem, ...]:
        """Return what is wrong with a job's card; ``job`` is the one being changed, if any."""
        found = problems_with_job(draft)
        other = self._bench.cabinet.jobs.by_ref(draft.ref)
        if other is not None and (job is None or other.id != job.id):
            found += (Problem(field="ref", say=f"There is a job “{draft.ref}” on file already."),)
        return found

    def take_on(self, draft: JobDraft) -> Job:
        """File a new job."""
        with self._bench.deed():
            refuse(self.problems(draft))
            job = self._bench.cabinet.jobs.add(draft)
            self._bench.write_down("job taken on", ref=job.ref, subject=job.title, after=job)
        return job

    def change(self, job: Job, draft: JobDraft) -> Job:
        """Change a job's card; its reference stays. ChangedMeanwhile if ``job`` is not the latest."""
        with self._bench.deed():
            found = self.problems(draft, job=job)
            if draft.ref != job.ref:
                found += (Problem(field="ref", say="A job keeps its reference for good."),)
            refuse(found)
            changed = self._bench.cabinet.jobs.change(job.id, draft, job.rev)
            self._bench.write_down("job changed", ref=job.ref, subject=job.title, before=job, after=changed)
        return changed

    def room_problems(self, ref: str, draft: RoomDraft, *, room: Room | None = None) -> tuple[Problem, ...]:
        """Return what is wrong with a room; ``room`` is the one being changed, if any."""
        return problems_of_room(self._bench, ref, draft, room=room)

    def add_room(self, ref: str, draft: RoomDraft) -> Room:
        """File a room of a job."""
        with self._bench.deed():
            refuse(self.room_problems(ref, draft))
            room = self._bench.cabinet.rooms.add(self._bench.job_id(ref), draft)
            self._bench.write_down("room added", ref=ref, subject=room.name, after=room)
            self._bench.settle(ref)
        return room

    def change_room(self, ref: str, room: Room, draft: RoomDraft) -> Room:
        """Change a room; ChangedMeanwhile if ``room`` is not the latest."""
        with self._bench.deed():
            refuse(self.room_problems(ref, draft, room=room))
            changed = self._bench.cabinet.rooms.change(room.id, draft, room.rev)
            self._bench.write_down("room changed", ref=ref, subject=room.name, before=room, after=changed)
            self._bench.settle(ref)
        return changed

    def remove_room(self, ref: str, room: Room) -> None:
        """Take a room out of a job; Refused once anything was filed about it."""
        with self._bench.deed():
            self._bench.cabinet.rooms.remove(room.id, room.rev)
            self._bench.write_down("room removed", ref=ref, subject=room.name, before=room)
            self._bench.settle(ref)


def problems_of_room(bench: Bench, ref: str, draft: RoomDraft, *, room: Room | None = None) -> tuple[Problem, ...]:
    """Return what is wrong with a room of a job; ``room`` is the one being changed, if any."""
    products = bench.cabinet.products.all()
    boards = {one.code for one in products if isinstance(one, Board)}
    glues = {one.code for one in products if isinstance(one, Glue)}
    others = {one.name for one in bench.facts(ref).rooms if room is None or one.id != room.id}
    return problems_with_room(draft, boards, glues, others)


def card_of(firm: Firm, everything: JobFacts, now: datetime) -> JobCard:
    """Return the card of a job from everything on file about it, as it stood at ``now``.

    Raises:
        StoreDamaged: another program has put a product on file that no sum could be made with.
    """
    for product in everything.products.values():
        must_make_sense(f"Product “{shown(product.code)}”", problems_with_product(product))
    facts = known_at(everything, now, day_of(firm, now))
    standing = standing_at(firm, facts, now)
    sums = tuple(reckon(facts, code) for code in facts.board_codes)
    plans = tuple(plan for room in facts.rooms if (plan := current_plan(facts, room)) is not None)
    return JobCard(
        facts=facts,
        standing=standing,
        slot=slot_of(standing, now),
        reckoning=sums,
        plans=plans,
        credits=credits_for(firm, facts),
        claims=claims_for(firm, facts),
    )


def slot_of(standing: Standing, now: datetime) -> Slot:
    """Return the part of the day's list that a job belongs to; what nobody can help before a later day waits."""
    if standing.stage is Stage.CLOSED:
        return Slot.CLOSED
    if standing.stage is Stage.HANDOVER:
        return Slot.CLOSE_OUT
    if standing.stage is Stage.CURE:
        return Slot.CURING
    if standing.verdict is Verdict.READY:
        return Slot.LAY
    deeds = standing.to_do
    waits = bool(deeds) and all(one.not_before is not None and one.not_before > now for one in deeds)
    return Slot.WAITING if waits or standing.verdict is Verdict.READY_FROM else Slot.TO_DO


def moments_of(standing: Standing) -> Iterable[datetime]:
    """Return the moments a job waits for, the one that decides first."""
    windows = standing.windows
    candidates = (standing.ready_from, windows.walk_on, windows.full_load, windows.handover, standing.best_case)
    return (moment for moment in candidates if moment is not None)


def _pressing(card: JobCard) -> tuple[int, datetime, str, str]:
    order = (Slot.LAY, Slot.TO_DO, Slot.WAITING, Slot.CURING, Slot.CLOSE_OUT, Slot.CLOSED)
    promised = card.facts.job.promised_on
    soonest = next(iter(moments_of(card.standing)), _FAR_AHEAD)
    waits = card.slot in {Slot.WAITING, Slot.CURING}
    return (
        order.index(card.slot),
        soonest if waits else _FAR_AHEAD,
        promised.isoformat() if promised else "9999",
        card.ref,
    )


def _one_on(ref: str) -> str:
    """Return the reference after this one: its last number counted up, its width kept."""
    match = _LAST_NUMBER.search(ref)
    if match is None:
        return f"{ref}-2"
    digits = match.group(1)
    return f"{ref[: match.start()]}{int(digits) + 1:0{len(digits)}d}{ref[match.end() :]}"
