"""The form for a credit that has come, for packs that went back to their supplier or that came damaged."""

from collections.abc import Iterable

from textual.widget import Widget

from store.trade.credits import CreditDraft, CreditFor
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import moment_field
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_money, read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import TickField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.wording import counted, typed_money


class CreditForm(Dialog[CreditDraft]):
    """Asks how much a supplier has credited, and whether that is all; answers a ``CreditDraft``.

    Args:
        what: what went back, in words, and what is expected for it.
        product: of which product.
        due_minor: how much is still to come.
        damaged: how many damaged packs are still to be made good; None where the credit is for packs that went back.
        clock: the firm's wall clock.
        currency: of the amount.
        check: what the shop finds wrong with it.
    """

    def __init__(
        self,
        *,
        what: str,
        product: str,
        due_minor: int,
        clock: WallClock,
        currency: str,
        check: Check[CreditDraft],
        damaged: int | None = None,
    ) -> None:
        title = "A credit has come" if damaged is None else "What came for damaged packs"
        super().__init__(title, check)
        self._is_claim = damaged is not None
        hint = f"Sound packs sent for the {counted(damaged or 0, 'pack')}; take them in as well (i)."
        self._replaced = TextField("replaced_packs", "Packs sent", "0", hint=hint)
        self._what, self._product, self._clock, self._currency = what, product, clock, currency
        self._at = moment_field("at", "Came at", clock)
        amount = typed_money(due_minor, currency)
        self._amount = TextField("amount_minor", "Amount", amount, hint=f"In {currency}, like 384.00; 0: they refused.")
        self._number = TextField("number", "Note number", "", hint="As it stands on the credit note; may stay empty.")
        self._settles = TickField("settles", "That is all", True, hint="No: more is to come, and stays to be followed.")

    def questions(self) -> Iterable[Widget]:
        yield Line(self._what, classes="note")
        yield self._at
        if self._is_claim:
            yield self._replaced
        yield self._amount
        yield self._number
        yield self._settles

    def _read_amount(self, text: str) -> int | Misread:
        return read_money(text, self._currency)

    def fill_in(self, slip: Slip) -> CreditDraft:
        return CreditDraft(
            at=slip.read(self._at, self._clock.read, self._clock.now),
            product=self._product,
            amount_minor=slip.read(self._amount, self._read_amount, 0),
            number=slip.read(self._number, read_text, ""),
            settles=self._settles.yes,
            owed_for=CreditFor.DAMAGE if self._is_claim else CreditFor.RETURN,
            replaced_packs=slip.read(self._replaced, read_whole, 0) if self._is_claim else 0,
        )
