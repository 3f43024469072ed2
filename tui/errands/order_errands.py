"""Errands about what becomes of orders: what their suppliers confirm, and credits that come."""

from store.desk.cards import CreditDue
from store.trade.confirmations import ConfirmationDraft
from store.trade.credits import CreditDraft
from store.trade.events import Order
from store.trade.orders import lines_to_come
from store.trade.returns import ReturnCredit
from tui.dialogs.choose import Choose
from tui.dialogs.confirm_form import ConfirmForm
from tui.dialogs.credit_form import CreditForm
from tui.errands.subject import Subject
from tui.words.facts import say_order
from tui.words.orders import say_credit_due, say_credits_due, say_filed_confirmation
from tui.words.wording import clean, counted, say_money, upper


class OrderErrands(Subject):
    """Confirmations of orders, and credits for what went back."""

    async def confirm(self, ref: str, order: Order) -> bool:
        """Ask what a supplier confirms of an order, beginning with what is known so far, and file it."""
        card = self.card(ref)
        codes = {line.product for line in order.lines}
        supplier = f" from {clean(order.supplier)}" if order.supplier else ""
        form = ConfirmForm(
            what=f"Ordered {self.clock.say_day(order.on)}{supplier}: {say_order(order, card.facts)}.",
            lines=lines_to_come(order),
            products=[one for one in self.desk.products.all() if one.code in codes],
            clock=self.clock,
            currency=self.firm.currency,
            check=lambda draft: self.desk.orders.confirmation_problems(order, draft),
        )
        draft: ConfirmationDraft | None = await self.ask(form, lambda one: self.desk.orders.confirm(ref, order, one))
        if draft is None:
            return False
        return self.done(say_filed_confirmation(draft, order, self.card(ref).facts, self.clock))

    async def credit(self, ref: str, product: str) -> bool:
        """Ask how much a supplier has credited for what went back from a job, and file it."""
        card = self.card(ref)
        expected = next((one for one in card.credits if one.product == product), None)
        if expected is None:
            return self.not_now(f"No whole pack of {clean(product)} went back to its supplier from this job.")
        if expected.settled:
            return self.not_now("That credit is settled already; x takes a credit back that was filed by mistake.")
        currency = self.firm.currency
        form = CreditForm(
            what=_what(expected, currency),
            product=product,
            due_minor=expected.due_minor,
            clock=self.clock,
            currency=currency,
            check=lambda draft: self.desk.orders.credit_problems(ref, draft),
        )
        draft: CreditDraft | None = await self.ask(form, lambda one: self.desk.orders.credit(ref, one))
        if draft is None:
            return False
        left = next((one.due_minor for one in self.card(ref).credits if one.product == product), 0)
        rest = f"{say_money(left, currency)} are still to come." if left else "Nothing more is to come."
        return self.done(f"{upper(say_money(draft.amount_minor, currency))} credited for {clean(product)}. {rest}")

    async def credits_due(self) -> bool:
        """Show the credits that are still to come, and file the one that has come."""
        due, currency = self.desk.orders.credits_due(), self.firm.currency
        if not due:
            return self.not_now(
                "No credit is to come. Packs counted back to their supplier (k in a folder) are followed here."
            )
        options = [(str(place), say_credit_due(one, self.clock, currency)) for place, one in enumerate(due)]
        ask = Choose(f"{say_credits_due(due, currency)}. Which has come?", label="From, how much", options=options)
        chosen = await self._view.app.push_screen_wait(ask)
        if chosen is None:
            return False
        one: CreditDue = due[int(chosen)]
        return await self.credit(one.job_ref, one.of.product)


def _what(expected: ReturnCredit, currency: str) -> str:
    """What went back and is expected for it, in a sentence."""
    whom = f" to {clean(expected.terms.name)}" if expected.terms is not None else ""
    words = f"{counted(expected.packs, 'pack')} of {clean(expected.product)} went back{whom}; "
    if expected.come_minor:
        words += f"{say_money(expected.come_minor, currency)} came, "
    return f"{words}{say_money(expected.due_minor, currency)} are to come."
