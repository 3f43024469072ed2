"""Errands about what becomes of orders: what their suppliers confirm, and credits that come."""

from collections.abc import Callable, Sequence

from store.desk.cards import CreditDue
from store.trade.confirmations import ConfirmationDraft
from store.trade.credits import CreditDraft, CreditFor
from store.trade.damage import DamageClaim
from store.trade.events import Order
from store.trade.orders import lines_to_come
from store.trade.returns import ReturnCredit
from tui.dialogs.choose import Choose
from tui.dialogs.confirm_form import ConfirmForm
from tui.dialogs.credit_form import CreditForm
from tui.errands.subject import Subject
from tui.words.facts import say_order
from tui.words.orders import say_claim, say_credit_came, say_credit_due, say_credits_due, say_filed_confirmation
from tui.words.wording import clean, counted, say_money


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
        expected = next((one for one in self.card(ref).credits if one.product == product), None)
        if expected is None:
            return self.not_now(f"No whole pack of {clean(product)} went back to its supplier from this job.")
        if expected.settled:
            return self.not_now("That credit is settled already; x takes a credit back that was filed by mistake.")
        form = CreditForm(
            what=_what(expected, self.firm.currency),
            product=product,
            due_minor=expected.due_minor,
            clock=self.clock,
            currency=self.firm.currency,
            check=lambda draft: self.desk.orders.credit_problems(ref, draft),
        )
        return await self._file_credit(ref, form, lambda: self.card(ref).credits)

    async def claim(self, ref: str, products: Sequence[str]) -> bool:
        """Ask what came for packs that came damaged to a job, of the product that is chosen, and file it."""
        claims = [one for one in self.card(ref).claims if one.product in products]
        if not claims:
            return self.not_now("None of these packs came damaged; x takes the line back if it was filed by mistake.")
        waiting = [one for one in claims if one.is_open]
        if not waiting:
            return self.not_now("What is owed for those packs is settled; x takes a credit back (Close-out).")
        one = waiting[0] if len(waiting) == 1 else await self._which_claim(waiting)
        if one is None:
            return False
        currency = self.firm.currency
        form = CreditForm(
            what=f"{clean(one.product)}: {say_claim(one, currency)}.",
            product=one.product,
            due_minor=one.due_minor,
            clock=self.clock,
            currency=currency,
            check=lambda draft: self.desk.orders.credit_problems(ref, draft),
            damaged=one.packs - one.replaced_packs,
        )
        return await self._file_credit(ref, form, lambda: self.card(ref).claims)

    async def _which_claim(self, waiting: Sequence[DamageClaim]) -> DamageClaim | None:
        options = [
            (one.product, f"{clean(one.product)} · {say_money(one.due_minor, self.firm.currency)}") for one in waiting
        ]
        ask = Choose("What came damaged. For which has something come?", label="Of, how much", options=options)
        chosen = await self._view.app.push_screen_wait(ask)
        return next((one for one in waiting if one.product == chosen), None)

    async def _file_credit(
        self, ref: str, form: CreditForm, owed: Callable[[], Sequence[ReturnCredit | DamageClaim]]
    ) -> bool:
        draft: CreditDraft | None = await self.ask(form, lambda one: self.desk.orders.credit(ref, one))
        if draft is None:
            return False
        currency = self.firm.currency
        left = next((one.due_minor for one in owed() if one.product == draft.product), 0)
        rest = f"{say_money(left, currency)} are still to come." if left else "Nothing more is to come."
        return self.done(f"On file: {say_credit_came(draft, currency)}. {rest}")

    async def credits_due(self) -> bool:
        """Show the credits that are still to come, and file the one that has come."""
        due, currency = self.desk.orders.credits_due(), self.firm.currency
        if not due:
            return self.not_now(
                "No credit is to come. Packs counted back to their supplier (k in a folder), and packs that came"
                " damaged, are followed here."
            )
        options = [(str(place), say_credit_due(one, self.clock, currency)) for place, one in enumerate(due)]
        ask = Choose(f"{say_credits_due(due, currency)}. Which has come?", label="From, how much", options=options)
        chosen = await self._view.app.push_screen_wait(ask)
        if chosen is None:
            return False
        one: CreditDue = due[int(chosen)]
        if one.owed_for is CreditFor.DAMAGE:
            return await self.claim(one.job_ref, [one.product])
        return await self.credit(one.job_ref, one.product)


def _what(expected: ReturnCredit, currency: str) -> str:
    """What went back and is expected for it, in a sentence."""
    whom = f" to {clean(expected.terms.name)}" if expected.terms is not None else ""
    words = f"{counted(expected.packs, 'pack')} of {clean(expected.product)} went back{whom}; "
    if expected.come_minor:
        words += f"{say_money(expected.come_minor, currency)} came, "
    return f"{words}{say_money(expected.due_minor, currency)} are to come."
