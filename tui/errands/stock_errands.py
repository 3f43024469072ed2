"""Errands of the unit: a stock-take, and a line of one taken back."""

from store.trade.stock_take import Booked, StockTake
from tui.dialogs.choose import Choose
from tui.dialogs.stock_take_form import StockTakeForm
from tui.dialogs.word_forms import TakeBack
from tui.errands.subject import Subject
from tui.words.facts import say_difference
from tui.words.stock import say_booked, say_booked_line, say_of_unit
from tui.words.wording import clean


class StockErrands(Subject):
    """Counting the unit, and taking back what was booked by mistake."""

    async def count(self) -> bool:
        """Ask what lies in the unit, and book by how much it differs from the file."""
        products, lines = self.desk.products.all(), self.desk.stock.lines()
        if not products:
            return self.not_now("No product is on file yet, so there is nothing to count; add one under Products (4).")
        form = StockTakeForm(
            lines=lines,
            products=products,
            batches=self.desk.packs.batches(),
            clock=self.clock,
            check=self.desk.stock.problems,
        )
        booked: list[Booked] = []
        take: StockTake | None = await self.ask(form, lambda answer: booked.extend(self.desk.stock.book(answer)))
        if take is None:
            return False
        known = {(one.product, one.batch, one.job_ref) for one in lines}
        left_out = len(known - {one.where for one in take.lines})
        return self.done(say_booked(booked, {one.code: one for one in products}, len(take.lines), left_out))

    async def take_back(self) -> bool:
        """Ask which line of a stock-take was booked by mistake, and take it back."""
        booked = self.desk.stock.booked()
        if not booked:
            return self.not_now("No stock-take has booked a difference yet, so there is none to take back.")
        products = {one.code: one for one in self.desk.products.all()}
        options = [
            (str(place), f"{self.clock.say(one.difference.at)}  {say_booked_line(one, products)}")
            for place, one in enumerate(booked)
        ]
        ask = Choose("Which line of a stock-take is taken back?", label="Booked", options=options)
        chosen = await self._view.app.push_screen_wait(ask)
        if chosen is None:
            return False
        one = booked[int(chosen)]
        told = one.difference
        words = f"{self.clock.say(told.at)}: {say_difference(told, products)}, {say_of_unit(one)}"
        form = TakeBack(what=f"the stock-take of {words}", follows=f"It was booked because: “{clean(told.why)}”.")
        why = await self.ask(form, lambda reason: self.desk.stock.take_back(one, reason))
        return why is not None and self.done(f"Taken back: the stock-take of {words}. The history keeps it.")
