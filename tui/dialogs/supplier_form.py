"""The form for a supplier: how long it takes, and on what terms it takes packs back."""

from collections.abc import Iterable

from textual.widget import Widget

from store.trade.suppliers import Supplier
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.slip import Slip
from tui.typed.figures import Misread, read_money, read_number, read_text, read_whole
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.wording import typed_money, typed_number


class SupplierForm(Dialog[Supplier]):
    """Asks for a supplier's card; answers a ``Supplier``. Only the name must be told."""

    def __init__(self, *, currency: str, check: Check[Supplier], draft: Supplier | None = None) -> None:
        super().__init__("Change a supplier's card" if draft else "Add a supplier", check)
        self._currency = currency
        shown = draft or Supplier(name="")

        def whole(key: str, label: str, hint: str) -> TextField:
            value = getattr(shown, key)
            return TextField(key, label, "" if value is None else str(value), hint=hint)

        self._called = TextField("name", "Name", shown.name, hint="The name you order under.")
        self._contact = TextField("contact", "Phone, mail", shown.contact, hint="May stay empty.")
        self._lead = whole("lead_days", "Days to come", "Calendar days from an order to its delivery; empty: 14.")
        self._least = whole("least_return_packs", "Returns from", "The fewest packs taken back at once, like 3.")
        self._within = whole("return_days", "Within days", "Days after delivery, like 30; empty if nobody says.")
        fee = typed_number(shown.return_fee_percent)
        self._fee = TextField("return_fee_percent", "Keeps %", fee, hint="Of the price of what goes back, like 25.")
        freight = typed_money(shown.return_freight_minor, currency)
        self._freight = TextField("return_freight_minor", "Way back", freight, hint=f"In {currency}, like 60.00.")

    def questions(self) -> Iterable[Widget]:
        yield self._called
        yield self._contact
        yield self._lead
        yield self._least
        yield self._within
        yield self._fee
        yield self._freight
        yield Line(
            "Returns are of whole packs, closed and dry; what the supplier wrote goes before this.", classes="note"
        )

    def _read_freight(self, text: str) -> int | Misread:
        return read_money(text, self._currency)

    def fill_in(self, slip: Slip) -> Supplier:
        name = slip.read(self._called, read_text, "-")
        if not name:
            slip.wrong("name", "Write the name.")
        return Supplier(
            name=name,
            contact=slip.read(self._contact, read_text, ""),
            lead_days=slip.read_if_given(self._lead, read_whole),
            least_return_packs=slip.read(self._least, read_whole, 1),
            return_days=slip.read_if_given(self._within, read_whole),
            return_fee_percent=slip.read(self._fee, read_number, 0.0),
            return_freight_minor=slip.read(self._freight, self._read_freight, 0),
        )
