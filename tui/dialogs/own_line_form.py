"""The form in which a line of a job's take-off is set by hand, or left out, and why."""

from collections.abc import Iterable, Sequence

from textual.widget import Widget

from store.errors import Problem
from store.trade.buying.nouns import BuyingLine, OwnLineDraft
from store.trade.buying.sizes import IN_MM, RATES, SIZES, USUAL, WIDTHS
from store.trade.materials import Material
from store.trade.things import Thing
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import product_options
from tui.dialogs.slip import Slip
from tui.typed.figures import read_mm, read_number, read_text, read_whole
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import TextField
from tui.widgets.safe import Line
from tui.words.buying import THINGS, cautions_of, say_own
from tui.words.buying_how import say_how
from tui.words.units import UNITS, say_units
from tui.words.wording import clean, figure, typed_number

_SIZE_WORDS = {
    Thing.BOARDS: "by the board's sheet",
    Thing.GLUE: "by the tub's sheet",
    Thing.PRIMER: "kg in a canister",
    Thing.COMPOUND: "kg in a bag",
    Thing.FILM: "m on a roll",
    Thing.UNDERLAY: "m on a roll",
    Thing.SKIRTING: "mm, a stick as sold",
    Thing.SCREWS: "in a box",
    Thing.PROFILES: "mm, a profile as sold",
    Thing.WEDGES: "in a bag",
    Thing.FELT_PADS: "a set",
    Thing.CARE_SET: "a set",
    Thing.CLADDING: "by the board's sheet",
    Thing.TREADS: "mm, a tread as sold",
    Thing.RISERS: "mm, a riser as sold",
    Thing.NOSING: "mm, a stick as sold",
}


class OwnLineForm(Dialog[OwnLineDraft]):
    """Asks what holds for one line instead of what was worked out; answers an ``OwnLineDraft``.

    Args:
        line: the line as it stands.
        clock: the firm's wall clock.
        check: what the shop finds wrong with what was set.
        sheets: the products on file that the thing could be bought as.
    """

    def __init__(
        self, line: BuyingLine, *, clock: WallClock, check: Check[OwnLineDraft], sheets: Sequence[Material] = ()
    ) -> None:
        about = f" {clean(line.product)}" if line.thing.is_product else ""
        super().__init__(f"Set by hand: {THINGS[line.thing]}{about}", self._problems)
        self._look, self._is_misread = check, False
        self._line, self._clock = line, clock
        own, thing = line.own, line.thing
        usual = USUAL[thing]
        self._sheets = tuple(sheets)
        first = f"the first on file, {sheets[0].code}" if sheets else "none on file"
        chosen = own.product if own and not thing.is_product else ""
        self._bought_as = SelectField(
            "product", "Bought as", [("", first), *product_options(sheets)], chosen, hint="Space opens the list."
        )
        self._wanted = TickField("wanted", "Buy it", own is None or own.wanted, hint="No leaves the line out.")
        self._units = _given("units", f"{UNITS[thing].capitalize()}s", own.units if own else None, self._units_hint())
        if thing is Thing.SCREWS:
            self._units.label = "Boxes"
        self._one_holds = _given("size", "One holds", own.size if own else None, self._size_hint(usual.size))
        by_sheet = line.sheet.width_mm if line.sheet else None
        empty = f"{by_sheet:,}, by its sheet" if by_sheet else f"{usual.width_mm or 0:,}, usual"
        label = "Depth" if thing in IN_MM else "Roll's width"
        self._roll_width = _given("width_mm", label, own.width_mm if own else None, f"mm; empty: {empty}.")
        self._rate = _given("rate", "Rate", own.rate if own else None, self._rate_hint(usual.rate))
        notch = own.notch if own else ""
        self._notch = TextField("notch", "Notch", notch, hint="Like B11, where no rate is known; its usual g/m².")
        self._why = TextField("why", "Why", own.why if own else "", hint="Like The merchant sells 3 m sticks.")

    def _units_hint(self) -> str:
        return f"How many to buy; empty: as worked out, {say_units(self._line.thing, self._line.units)}."

    def _size_hint(self, usual: float | None) -> str:
        words = _SIZE_WORDS[self._line.thing]
        if self._line.sheet is not None:
            return f"{words}; empty: {figure(self._line.sheet.size)}, by its sheet."
        return f"{words}; empty: {figure(usual)}, usual." if usual is not None else words

    def _rate_hint(self, usual: float | None) -> str:
        unit = "kg for each m² and mm" if self._line.thing is Thing.COMPOUND else "g/m²"
        if self._line.sheet is not None and self._line.sheet.rate is not None:
            return f"{unit}; empty: {figure(self._line.sheet.rate)}, by its sheet."
        return f"{unit}; empty: {f'{figure(usual)}, usual' if usual is not None else 'by the sheet of the tub'}."

    def questions(self) -> Iterable[Widget]:
        yield Line(f"Worked out: {say_how(self._line)}.", classes="muted")
        if self._line.own is not None:
            yield Line(f"Set by hand: {say_own(self._line)}.", classes="muted")
        yield self._wanted
        if self._sheets:
            yield self._bought_as
        yield self._units
        thing = self._line.thing
        if SIZES[thing] is not None:
            yield self._one_holds
        if WIDTHS[thing] is not None:
            yield self._roll_width
        if RATES[thing] is not None:
            yield self._rate
        if thing is Thing.GLUE:
            yield self._notch
        yield self._why
        for caution in cautions_of(self._line):
            yield Line(caution, classes="caution")

    def _problems(self, draft: OwnLineDraft) -> tuple[Problem, ...]:
        """Return what is wrong; that nothing is set is not said while something typed could not be read."""
        found = self._look(draft)
        return tuple(one for one in found if one.field != "units") if self._is_misread else found

    def fill_in(self, slip: Slip) -> OwnLineDraft:
        draft = self._filled_in(slip)
        self._is_misread = any(one.field != "why" for one in slip.problems)
        return draft

    def _filled_in(self, slip: Slip) -> OwnLineDraft:
        return OwnLineDraft(
            thing=self._line.thing,
            product=self._line.product if self._line.thing.is_product else self._bought_as.raw,
            at=self._clock.now,
            why=slip.read(self._why, read_text, ""),
            wanted=self._wanted.yes,
            units=slip.read_if_given(self._units, read_whole),
            size=self._read_size(slip),
            width_mm=slip.read_if_given(self._roll_width, read_mm),
            rate=slip.read_if_given(self._rate, read_number),
            notch=slip.read_if_given(self._notch, read_text) or "",
        )

    def _read_size(self, slip: Slip) -> float | None:
        if self._line.thing in IN_MM:
            length = slip.read_if_given(self._one_holds, read_mm)
            return None if length is None else float(length)
        return slip.read_if_given(self._one_holds, read_number)


def _given(key: str, label: str, value: float | None, hint: str) -> TextField:
    return TextField(key, label, "" if value is None else typed_number(value), hint=hint)
