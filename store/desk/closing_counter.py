"""The counter for closing a job: leftovers, the signature, snags, notes, and lines taken back."""

from collections.abc import Iterable
from datetime import datetime

from store.desk.counter import Bench, must_be_of_job, refuse
from store.errors import Problem, Refused
from store.trade import checks
from store.trade.buying.nouns import OwnLine
from store.trade.confirmations import Confirmation
from store.trade.count_checks import problems_with_counts
from store.trade.credits import Credit
from store.trade.events import (
    Count,
    CountDraft,
    Delivery,
    Handover,
    HandoverDraft,
    Laying,
    Move,
    Note,
    NoteDraft,
    Opening,
    Order,
    Smoothing,
    Snag,
    SnagDraft,
)
from store.trade.facts import JobFacts
from store.trade.ledger import Heap
from store.trade.morning import MorningCheck
from store.trade.on_hand import short_of, worse
from store.trade.plans import Plan, in_short
from store.trade.readings import Reading
from store.trade.stock_take import Difference
from store.trade.voiding import Voiding

Problems = tuple[Problem, ...]


TakenBack = (
    Order
    | Delivery
    | Move
    | Opening
    | Reading
    | Smoothing
    | Laying
    | Count
    | Handover
    | Snag
    | Note
    | Plan
    | MorningCheck
    | Voiding
    | Difference
    | OwnLine
    | Confirmation
    | Credit
)
_KINDS: dict[type[TakenBack], str] = {
    Order: "order",
    Delivery: "delivery",
    Move: "move",
    Opening: "opening",
    Reading: "reading",
    Smoothing: "smoothing",
    Laying: "laying",
    Count: "count",
    Handover: "handover",
    Snag: "snag",
    Note: "note",
    Plan: "plan",
    MorningCheck: "morning list",
    Voiding: "voiding",
    Difference: "stock-take",
    OwnLine: "own line",
    Confirmation: "confirmation",
    Credit: "credit",
}


class ClosingCounter:
    """Leftovers counted, the handover signed, snags and notes, and lines taken back."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def count_problems(self, ref: str, drafts: tuple[CountDraft, ...]) -> Problems:
        return problems_with_counts(drafts, self._bench.facts(ref), self._bench.now())

    def count(self, ref: str, drafts: tuple[CountDraft, ...]) -> tuple[Count, ...]:
        """File what is left over and where it goes, all lines together."""
        with self._bench.deed():
            refuse(self.count_problems(ref, drafts))
            job_id = self._bench.job_id(ref)
            counts = tuple(self._bench.cabinet.events.add_count(job_id, draft) for draft in drafts)
            subject = ", ".join(dict.fromkeys(draft.product for draft in drafts))
            self._bench.write_down("leftovers counted", ref=ref, subject=subject, after=counts)
            self._bench.settle(ref)
        return counts

    def handover_problems(self, ref: str, draft: HandoverDraft) -> Problems:
        return checks.problems_with_handover(draft, self._bench.facts(ref), self._bench.now())

    def sign(self, ref: str, draft: HandoverDraft) -> Handover:
        """File the customer's signature."""
        with self._bench.deed():
            refuse(self.handover_problems(ref, draft))
            handover = self._bench.cabinet.events.add_handover(self._bench.job_id(ref), draft)
            self._bench.write_down("handover signed", ref=ref, subject=draft.by, after=handover)
            self._bench.settle(ref)
        return handover

    def snag_problems(self, ref: str, draft: SnagDraft) -> Problems:
        found = checks.problems_with_text("what", draft.what, "Say what is to be put right.")
        if draft.room and all(room.name != draft.room for room in self._bench.facts(ref).rooms):
            found += (Problem(field="room", say=f"The job has no room “{draft.room}”."),)
        return found + checks.problems_with_moment("at", draft.at, self._bench.now())

    def add_snag(self, ref: str, draft: SnagDraft) -> Snag:
        """File something to put right."""
        with self._bench.deed():
            refuse(self.snag_problems(ref, draft))
            snag = self._bench.cabinet.events.add_snag(self._bench.job_id(ref), draft)
            self._bench.write_down("snag added", ref=ref, subject=draft.what[:80], after=snag)
        return snag

    def mend_problems(self, snag: Snag, at: datetime) -> Problems:
        found = checks.problems_with_moment("at", at, self._bench.now())
        if at < snag.at:
            found += (Problem(field="at", say="It cannot have been put right before it was found."),)
        return found

    def mend(self, ref: str, snag: Snag, at: datetime) -> Snag:
        """File that a snag has been put right."""
        with self._bench.deed():
            refuse(self.mend_problems(snag, at))
            must_be_of_job(ref, snag, self._bench.facts(ref).snags)
            mended = self._bench.cabinet.events.mend_snag(snag.id, at, snag.rev)
            self._bench.write_down("snag mended", ref=ref, subject=snag.what[:80], before=snag, after=mended)
        return mended

    def note_problems(self, draft: NoteDraft) -> Problems:
        return checks.problems_with_text("text", draft.text, "Write the note.")

    def add_note(self, ref: str, draft: NoteDraft) -> Note:
        """File a note."""
        with self._bench.deed():
            refuse(self.note_problems(draft))
            note = self._bench.cabinet.events.add_note(self._bench.job_id(ref), draft)
            self._bench.write_down("note added", ref=ref, subject=draft.text[:80], after=note)
        return note

    def take_back(self, ref: str, fact: TakenBack, why: str) -> None:
        """Take back a line filed by mistake: it stays on file and in the history, and counts no longer."""
        kind = _KINDS[type(fact)]
        with self._bench.deed():
            refuse(checks.problems_with_text("why", why, "Say why it is taken back."))
            facts = self._bench.facts(ref)
            must_be_of_job(ref, fact, _of_its_kind(fact, facts))
            now = self._bench.now()
            self._bench.cabinet.events.take_back(kind, fact.id, at=now, who=self._bench.who, why=why)
            missing = _first_lot(worse(short_of(self._bench.facts(ref)), short_of(facts)))
            if missing:
                raise Refused(f"{missing} would be less than nothing then; take back what came after it first.")
            before = in_short(fact) if isinstance(fact, Plan) else fact
            self._bench.write_down(f"{kind} taken back", ref=ref, subject=why[:80], before=before)
            self._bench.settle(ref)


def _of_its_kind(fact: TakenBack, facts: JobFacts) -> Iterable[TakenBack]:
    own: dict[type[TakenBack], Iterable[TakenBack]] = {
        Order: facts.orders,
        Delivery: facts.deliveries,
        Move: facts.moves,
        Opening: facts.openings,
        Reading: facts.readings,
        Smoothing: facts.smoothings,
        Laying: facts.layings,
        Count: facts.counts,
        Handover: (facts.handover,) if facts.handover else (),
        Snag: facts.snags,
        Note: facts.notes,
        Plan: facts.plans,
        MorningCheck: facts.mornings,
        Voiding: facts.voidings,
        Difference: facts.differences,
        OwnLine: facts.own_lines,
        Confirmation: [one for order in facts.orders for one in order.confirmed if isinstance(one, Confirmation)],
        Credit: facts.credits,
    }
    return own[type(fact)]


def _first_lot(heaps: Iterable[Heap]) -> str:
    """Name the first batch that lies in some heaps; empty where there are none."""
    lots = sorted((heap.product, heap.batch) for heap in heaps)
    return checks.batch_word(*lots[0]) if lots else ""
