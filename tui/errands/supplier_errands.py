"""Errands about suppliers: their cards, and what is still to be ordered from whom."""

from store.desk.cards import ToOrder
from store.trade.suppliers import Supplier, supplier_of
from tui.dialogs.choose import Choose
from tui.dialogs.supplier_form import SupplierForm
from tui.errands.subject import Subject
from tui.words.suppliers import say_lead, say_terms
from tui.words.units import say_units
from tui.words.wording import clean, counted, say_day, say_money

_NEW = "\n"  # no name has a line break in it
_WHAT = (("change", "Change its card"), ("remove", "Take it off the list"))


class SupplierErrands(Subject):
    """Adding, changing and taking off whom the firm buys from."""

    async def look_after(self) -> bool:
        """Choose a supplier, or add one, and change its card."""
        firm = self.firm
        options = [
            (one.name, f"{one.name} · {say_lead(one)} · {say_terms(one, firm.currency)}") for one in firm.suppliers
        ]
        question = "Which supplier?" if options else "No supplier is on file yet. Add one?"
        app = self._view.app
        chosen = await app.push_screen_wait(
            Choose(question, label="Supplier", options=[*options, (_NEW, "Add a supplier")])
        )
        if chosen is None:
            return False
        if chosen == _NEW:
            return await self._fill_in(None)
        what = await app.push_screen_wait(Choose(f"What about {clean(chosen)}?", label="Deed", options=_WHAT))
        if what == "remove":
            self.desk.firm.remove_supplier(chosen)
            return self.done(f"{clean(chosen)} is off the list; products bought there name no supplier now.")
        return what is not None and await self._fill_in(supplier_of(firm.suppliers, chosen))

    async def _fill_in(self, standing: Supplier | None) -> bool:
        name = standing.name if standing else ""
        form = SupplierForm(
            currency=self.firm.currency,
            check=lambda draft: self.desk.firm.supplier_problems(draft, instead_of=name),
            draft=standing,
        )
        draft = await self.ask(form, lambda one: self.desk.firm.put_supplier(one, instead_of=name))
        if draft is None:
            return False
        done = "changed" if standing else "on file; name it on the sheets of what you buy there"
        return self.done(f"The card of {clean(draft.name)} is {done}.")

    async def choose_to_order(self) -> ToOrder | None:
        """Show what the open jobs need and have not ordered, by supplier; the line that was chosen."""
        lines = self.desk.shopping.to_order()
        if not lines:
            self.not_now("Every open job has ordered what it needs; nothing is left to order.")
            return None
        options = [(str(place), self._say(one)) for place, one in enumerate(lines)]
        worth = say_money(sum(one.worth_minor for one in lines), self.firm.currency)
        question = f"{counted(len(lines), 'line')} to order, {worth}. Order which?"
        chosen = await self._view.app.push_screen_wait(
            Choose(question, label="Supplier, by when, what", options=options)
        )
        return None if chosen is None else lines[int(chosen)]

    def _say(self, one: ToOrder) -> str:
        today, by = self.clock.today, ""
        if one.by is not None:
            by = f"by {say_day(one.by, today)}{' ▲ late' if one.by < today else ''} · "
        what = f"{say_units(one.thing, one.packs)} of {one.product}"
        return f"{one.supplier or 'no supplier'} · {by}{what} · {one.job_ref} {one.job_title}"
