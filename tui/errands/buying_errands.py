"""Errands about what a job needs bought: the list, lines set by hand, and the list written out for the merchant."""

from store.papers.sheets import write_sheet
from store.trade.buying.nouns import Buying, BuyingLine, OwnLineDraft
from store.trade.facts import JobFacts
from tui.dialogs.own_line_form import OwnLineForm
from tui.dialogs.what_to_buy import WhatToBuy
from tui.dialogs.word_forms import TakeBack
from tui.errands.lay_errands import file_name
from tui.errands.subject import Subject
from tui.words.buying import say_own_line
from tui.words.buying_sheet import SHEET_HEADER, merchant_text, sheet_rows
from tui.words.wording import clean


class BuyingErrands(Subject):
    """What a job needs bought."""

    async def show(self, ref: str) -> bool:
        """Show the list; whether anything was filed from it."""
        filed: bool | None = await self._view.app.push_screen_wait(WhatToBuy(_Door(self, ref)))
        if filed:
            self._view.ask_again()
        return bool(filed)

    def read(self, ref: str) -> tuple[Buying, JobFacts]:
        """Return the take-off of a job as it stands now."""
        facts = self.card(ref).facts
        return self.desk.buying.of(facts), facts

    async def set_line(self, ref: str, line: BuyingLine) -> bool:
        """Ask what holds for a line, and file it."""
        form = OwnLineForm(
            line,
            clock=self.clock,
            check=lambda draft: self.desk.buying.problems(ref, draft),
            sheets=[one for one in self.card(ref).facts.materials if one.thing is line.thing],
        )
        draft: OwnLineDraft | None = await self.ask(form, lambda one: self.desk.buying.set_line(ref, one))
        return draft is not None and self.done(f"{say_own_line(draft)}. x takes it back.")

    async def take_back(self, ref: str, line: BuyingLine) -> bool:
        """Take back what was set by hand for a line."""
        own = line.own
        if own is None:
            return self.not_now("Nothing is set by hand here.")
        words = say_own_line(own)
        form = TakeBack(what=words, follows="What was set before it holds again, or what is worked out.")
        why = await self.ask(form, lambda reason: self.desk.closing.take_back(ref, own, reason))
        return why is not None and self.done(f"Taken back: {words}. The history keeps it.")

    async def write_out(self, buying: Buying, facts: JobFacts) -> bool:
        """Write the list out for the merchant."""
        name = file_name(f"{facts.job.ref} to buy")
        folder = await self.write_files(
            "Write out what is to be bought",
            f"Two files for the merchant: “{name}.txt” to read, “{name}.csv” for a spreadsheet.",
            lambda: {
                f"{name}.txt": merchant_text(buying, facts).encode(),
                f"{name}.csv": write_sheet(SHEET_HEADER, sheet_rows(buying, facts)),
            },
        )
        if folder is None:
            return False
        return self.done(f"The list is in {clean(str(folder))}, as “{name}”.")


class _Door:
    """What the list asks of the shop, about one job."""

    def __init__(self, errands: BuyingErrands, ref: str) -> None:
        self._errands, self._ref = errands, ref

    @property
    def currency(self) -> str:
        return self._errands.firm.currency

    def read(self) -> tuple[Buying, JobFacts]:
        return self._errands.read(self._ref)

    async def set_line(self, line: BuyingLine) -> bool:
        return await self._errands.set_line(self._ref, line)

    async def take_back(self, line: BuyingLine) -> bool:
        return await self._errands.take_back(self._ref, line)

    async def write_out(self, buying: Buying, facts: JobFacts) -> bool:
        return await self._errands.write_out(buying, facts)
