"""Errands about closing a job: leftovers, the signature, snags, notes, and lines taken back."""

from datetime import datetime

from store.desk.cards import JobCard
from store.desk.closing_counter import TakenBack
from store.errors import Problem
from store.trade.checks import problems_with_moment
from store.trade.events import SITE, Delivery, HandoverDraft, Laying, NoteDraft, Order, Snag
from store.trade.facts import JobFacts
from store.trade.on_hand import batches_on_site, boards_on_site, unopened_in_room
from store.trade.products import Board
from store.trade.verdict import Stage
from tui.dialogs.count_form import Counted, CountForm
from tui.dialogs.mend_form import MendForm
from tui.dialogs.parts import Lying
from tui.dialogs.sign_form import SignForm
from tui.dialogs.word_forms import NoteForm, SnagForm, TakeBack
from tui.errands.subject import Shown, Subject
from tui.telling import list_of
from tui.words.facts import say_fact
from tui.words.vocabulary import STAGES
from tui.words.wording import clean, counted, say_money, upper


class ClosingErrands(Subject):
    """Counting, signing, snags, notes, and taking back."""

    async def count(self, ref: str) -> bool:
        """Count what is left of every batch on site, and say where it goes."""
        card = self.card(ref)
        if not card.facts.layings:
            return self.not_now("Nothing is laid yet, so nothing is left over; packs are carried elsewhere with c.")
        lying = _on_site(card.facts)
        if not lying:
            return self.not_now("No packs of this job are on site any more; there is nothing to count.")
        if card.facts.counts and not await self._count_again(card):
            return False
        form = CountForm(
            lying=lying,
            clock=self.clock,
            check=lambda counted_: self.desk.closing.count_problems(ref, counted_.counts),
            books=[_books(card.facts, one) for one in lying],
        )
        answer: Counted | None = await self.ask(form, lambda one: self.desk.closing.count(ref, one.counts))
        return answer is not None and self.done(self._say_counted(ref))

    async def _count_again(self, card: JobCard) -> bool:
        said = "\n".join(f"· {upper(say_fact(one, card.facts, self.clock))}" for one in card.facts.counts)
        detail = f"What you count now comes on top of it; a wrong count is taken back with x.\n{said}"
        return await self.sure("Count more leftovers?", yes="Count more", no="Leave it", detail=detail)

    def _say_counted(self, ref: str) -> str:
        card, currency = self.card(ref), self.firm.currency
        missing = [one for one in card.reckoning if one.counted and not one.adds_up]
        if missing:
            worth = sum(one.unaccounted_minor for one in missing)
            if not worth:
                return "The leftovers are counted, but more floor was laid than boards were used for it: count again."
            return f"The leftovers are counted, but {say_money(abs(worth), currency)} of boards is unaccounted for."
        return f"The leftovers are counted, and every board is accounted for. {_now_at(card)}"

    async def sign(self, ref: str) -> bool:
        """Have the floor signed for."""
        card, now = self.card(ref), self.clock.now
        in_the_way = self.desk.closing.handover_problems(ref, HandoverDraft(signed_at=now, by="-"))
        if in_the_way:
            return self.not_now(list_of(in_the_way))
        if card.standing.stage is Stage.CURE and not await self._sign_while_it_cures(card):
            return False
        form = SignForm(
            customer=card.facts.job.customer.name,
            clock=self.clock,
            check=lambda draft: self.desk.closing.handover_problems(ref, draft),
            snags=[one.what for one in card.facts.snags if one.mended_at is None],
        )
        draft: HandoverDraft | None = await self.ask(form, lambda one: self.desk.closing.sign(ref, one))
        if draft is None:
            return False
        return self.done(f"{clean(draft.by)} has signed for the floor. {_now_at(self.card(ref))}")

    async def _sign_while_it_cures(self, card: JobCard) -> bool:
        full_load = card.standing.windows.full_load
        when = f"until {self.clock.say(full_load)}" if full_load else "for a time nobody has put on file"
        detail = f"The glue cures {when}. Who signs must know when the floor may be walked on and loaded."
        return await self.sure("Have it signed before the glue has cured?", yes="Sign now", no="Wait", detail=detail)

    async def add_snag(self, ref: str) -> bool:
        """Put something to put right on file."""
        form = SnagForm(
            rooms=[room.name for room in self.card(ref).facts.rooms],
            clock=self.clock,
            check=lambda draft: self.desk.closing.snag_problems(ref, draft),
        )
        draft = await self.ask(form, lambda one: self.desk.closing.add_snag(ref, one))
        return draft is not None and self.done(f"The snag “{clean(draft.what)}” is on file, still to put right.")

    async def mend(self, ref: str, snag: Snag) -> bool:
        """Put on file that a snag was put right."""
        if snag.mended_at is not None:
            return self.not_now(f"That snag was put right {self.clock.say(snag.mended_at)} already.")
        shown = Shown(snag)

        def check(at: datetime) -> tuple[Problem, ...]:
            return problems_with_moment("at", at, self.clock.now)

        form = MendForm(snag=snag, clock=self.clock, check=check)
        at = await self.ask(
            form,
            lambda moment: self.desk.closing.mend(ref, shown.fact, moment),
            if_changed=lambda: shown.see(self._snag(ref, snag)),
        )
        return at is not None and self.done(f"The snag “{clean(snag.what)}” is put right.")

    def _snag(self, ref: str, snag: Snag) -> Snag:
        return next((one for one in self.card(ref).facts.snags if one.id == snag.id), snag)

    async def add_note(self, ref: str) -> bool:
        """Write a note."""
        self.card(ref)
        form = NoteForm(clock=self.clock, check=self.desk.closing.note_problems)
        draft: NoteDraft | None = await self.ask(form, lambda one: self.desk.closing.add_note(ref, one))
        return draft is not None and self.done(f"The note is on file with job {clean(ref)}.")

    async def take_back(self, ref: str, fact: TakenBack) -> bool:
        """Take back a line that was filed by mistake, and say why."""
        words = say_fact(fact, self.card(ref).facts, self.clock)
        form = TakeBack(what=words, follows=_follows(fact))
        why = await self.ask(form, lambda reason: self.desk.closing.take_back(ref, fact, reason))
        return why is not None and self.done(f"Taken back: {words}. The history keeps it.")


def _now_at(card: JobCard) -> str:
    if card.standing.stage is Stage.CLOSED:
        snags = sum(one.mended_at is None for one in card.facts.snags)
        if snags:
            return f"The job is closed and out of the day's list, with {counted(snags, 'snag')} still to put right."
        return "The job is closed, and out of the day's list."
    return f"The job's stage now: {STAGES[card.standing.stage]}."


def _follows(fact: TakenBack) -> str:
    if isinstance(fact, Laying):
        return "Packs opened for it stay opened; take those lines back too if they were not."
    if isinstance(fact, Order):
        return "What has come in already stays on file."
    return "Its packs are not on file any more then." if isinstance(fact, Delivery) else ""


def _on_site(facts: JobFacts) -> list[Lying]:
    """Every batch of which something is on site by the books, boards first."""
    found = []
    for code, batch in batches_on_site(facts):
        product, boards = facts.products[code], boards_on_site(facts, code, batch)
        if boards > 0:
            packs, loose = divmod(boards, product.boards_per_pack if isinstance(product, Board) else 1)
            thing = product.thing
            found.append(Lying(product=code, batch=batch, place=SITE, packs=packs, boards=loose, thing=thing))
    return sorted(found, key=lambda one: not one.is_board)


def _books(facts: JobFacts, lying: Lying) -> str:
    """What the books say of a batch, in a sentence."""
    if not lying.is_board:
        return f"{upper(lying.amount)} came; may stay empty."
    unopened = sum(unopened_in_room(facts, room.name, lying.product, lying.batch) for room in facts.rooms)
    opened = lying.packs - unopened
    if not any(one.product == lying.product for one in facts.openings):
        return f"{upper(lying.amount)} came, none noted as opened."
    return f"{counted(max(0, opened), 'pack')} opened, {max(0, unopened):,} unopened by the books."
