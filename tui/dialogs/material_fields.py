"""The fields of a product form that only a material has: what it is, what one unit holds, its rate, what to mind."""

from textual.widget import Widget

from store.trade.buying.sizes import IN_MM, RATES, SIZES, USUAL, WIDTHS
from store.trade.materials import MaterialDraft
from store.trade.things import MATERIALS, Thing
from tui.dialogs.slip import Slip
from tui.typed.figures import read_mm, read_number, read_text
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import Field, TextField
from tui.words.buying import THINGS
from tui.words.units import UNITS
from tui.words.wording import typed_number


class MaterialFields:
    """What a material's sheet or label says; fields that the thing chosen does not have are hidden."""

    def __init__(self, draft: MaterialDraft | None) -> None:
        things = [(one.value, f"{THINGS[one]}, by the {UNITS[one]}") for one in MATERIALS]
        start = draft.thing if draft else Thing.PRIMER
        self._shown = start.value
        self._thing = SelectField("thing", "It is", things, start.value, hint="Space opens the list.")
        self._size = TextField(
            "size",
            "One holds",
            typed_number(draft.size if draft else USUAL[start].size or 1),
            hint="kg of a can or bag, m of a roll, mm of a stick or tread, pieces in a box.",
        )
        self._width = TextField(
            "width_mm",
            "Width mm",
            str(draft.width_mm) if draft and draft.width_mm else "",
            hint="Of a roll; how deep a tread is, or how high a riser.",
        )
        self._rate = TextField(
            "rate",
            "Rate",
            typed_number(draft.rate) if draft and draft.rate is not None else "",
            hint="As the sheet says: primer in g/m², compound in kg for each m² and mm.",
        )
        self._training = TickField(
            "needs_training",
            "Needs training",
            draft.needs_training if draft else False,
            hint="Yes if it holds diisocyanates: its label says that training is required.",
        )
        self._safety = TextField(
            "safety",
            "Mind",
            draft.safety if draft else "",
            hint="What its safety sheet says, like Dust: mask P2. Gloves. May stay empty.",
        )

    @property
    def first(self) -> tuple[Widget, ...]:
        """The fields that stand before the price."""
        return (self._thing, self._size, self._width, self._rate)

    @property
    def last(self) -> tuple[Widget, ...]:
        """The fields that stand after the price."""
        return (self._training, self._safety)

    def has(self, field: Field) -> bool:
        """Whether another thing was just chosen in a field."""
        return field is self._thing and self._thing.raw != self._shown

    def begin_anew(self) -> None:
        """Fill in what a unit of the thing usually holds; what was typed for another thing says nothing of it."""
        usual, self._shown = USUAL[Thing(self._thing.raw)], self._thing.raw
        self._size.fill(typed_number(usual.size or 1))
        self._width.fill(str(usual.width_mm or ""))
        self._rate.fill("")
        self.show_what_applies()

    def show_what_applies(self) -> None:
        """Hide the fields that the thing chosen does not have."""
        thing = Thing(self._thing.raw)
        for field, bounds in ((self._size, SIZES), (self._width, WIDTHS), (self._rate, RATES)):
            field.display = bounds[thing] is not None

    def _read_size(self, slip: Slip) -> float:
        return slip.read(self._size, read_number, 1.0)

    def fill_in(self, slip: Slip, shared: MaterialDraft) -> MaterialDraft:
        """Return the material whose code, name, price and supplier ``shared`` says."""
        thing = Thing(self._thing.raw)
        size = 1.0
        if SIZES[thing] is not None:
            size = float(slip.read(self._size, read_mm, 1000)) if thing in IN_MM else self._read_size(slip)
        return MaterialDraft(
            code=shared.code,
            name=shared.name,
            thing=thing,
            size=size,
            width_mm=slip.read_if_given(self._width, read_mm) if WIDTHS[thing] is not None else None,
            rate=slip.read_if_given(self._rate, read_number) if RATES[thing] is not None else None,
            price_minor=shared.price_minor,
            needs_training=self._training.yes,
            safety=slip.read(self._safety, read_text, ""),
            lead_days=shared.lead_days,
            supplier=shared.supplier,
        )
