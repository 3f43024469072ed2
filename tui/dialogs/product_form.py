"""The form for a product: a board, a glue or a material, as its maker's sheet describes it."""

from collections.abc import Iterable, Sequence

from textual import on
from textual.widget import Widget

from store.trade.firm import ClimateRange
from store.trade.materials import MaterialDraft
from store.trade.products import BoardDraft, GlueDraft, ProductDraft
from store.trade.things import ProductKind, Thing
from tui.dialogs.climate_fields import ClimateFields
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.material_fields import MaterialFields
from tui.dialogs.slip import Reader, Slip
from tui.typed.figures import Misread, read_hours, read_mm, read_money, read_number, read_text, read_whole
from tui.typed.lengths import PackLengths, read_lengths, read_run_mm, say_lengths
from tui.typed.limits import read_limits, typed_limits
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import Field, TextField
from tui.widgets.safe import Line
from tui.words.vocabulary import PRODUCT_KINDS
from tui.words.wording import typed_money, typed_number

_UNITS = {ProductKind.BOARD: "pack", ProductKind.GLUE: "tub", ProductKind.MATERIAL: "unit"}


class ProductForm(Dialog[ProductDraft]):
    """Asks for a product; answers a ``BoardDraft``, a ``GlueDraft`` or a ``MaterialDraft``.

    Args:
        kind: what is asked for; a draft's own kind goes before it.
        currency: the firm's currency.
        check: what the shop finds wrong with the product.
        draft: the product to change; None for a new one.
        climate: the firm's own range of room air, which an empty range leaves in force.
        suppliers: the names of those on file.
    """

    def __init__(
        self,
        *,
        kind: ProductKind,
        currency: str,
        check: Check[ProductDraft],
        draft: ProductDraft | None = None,
        climate: ClimateRange | None = None,
        suppliers: Sequence[str] = (),
    ) -> None:
        self._kind = draft.kind if draft else kind
        word = PRODUCT_KINDS[self._kind]
        super().__init__(f"Change a {word}" if draft else f"Add a {word}", check)
        self._currency = currency
        self._code = TextField("code", "Code", draft.code if draft else "", hint="Your own short code, like OAK-190.")
        self._called = TextField("name", "Name", draft.name if draft else "", hint="As the maker calls it.")
        price = typed_money(draft.price_minor, currency) if draft else "0"
        unit = _UNITS[self._kind]
        self._price = TextField("price_minor", f"Price of a {unit}", price, hint=f"In {currency}, like 182.40.")
        self._board_fields(draft if isinstance(draft, BoardDraft) else None)
        self._glue_fields(draft if isinstance(draft, GlueDraft) else None)
        self._material = MaterialFields(draft if isinstance(draft, MaterialDraft) else None)
        self._limits = TextField(
            "sheet_limits",
            "Subfloor at most",
            typed_limits(draft.sheet_limits) if isinstance(draft, BoardDraft | GlueDraft) else "",
            hint="As the sheet says, like carbide cement 2; hygrometer 75; timber 10. May stay empty.",
        )
        self._lead = TextField(
            "lead_days",
            "Days to come",
            "" if draft is None or draft.lead_days is None else str(draft.lead_days),
            hint="Calendar days from an order to its delivery, like 14; empty: the supplier's, else 14.",
        )
        bought_from = draft.supplier if draft else ""
        names = [("", "not said"), *((name, name) for name in dict.fromkeys([*suppliers, bought_from]) if name)]
        self._supplier = SelectField(
            "supplier", "Supplier", names, bought_from, hint="Space opens the list; s in the Products view adds one."
        )
        self._climate = ClimateFields(draft.climate if isinstance(draft, BoardDraft) else None, climate)

    def _board_fields(self, board: BoardDraft | None) -> None:
        def whole(key: str, label: str, hint: str) -> TextField:
            return TextField(key, label, str(getattr(board, key)) if board else "", hint=hint)

        self._length = whole("length_mm", "Length mm", "In mm, like 1900.")
        self._width = whole("width_mm", "Width mm", "In mm, like 190: what lies open, without the tongue.")
        self._thickness = whole("thickness_mm", "Thickness mm", "In mm, like 14.")
        self._per_pack = whole("boards_per_pack", "Boards in a pack", "Like 6.")
        self._wait = whole("acclimatise_hours", "Acclimatise h", "Hours in the room before laying: 168 or 7 days.")
        lengths = f"{board.shortest_mm} - {board.length_mm}" if board and board.shortest_mm else ""
        lengths = say_lengths(board.lengths) if board and board.lengths else lengths
        self._lengths = TextField(
            "lengths", "Mixed lengths", lengths, hint="If boards differ: 5 x 1900, 1 x 1000, 1 x 900; or 500 - 1900."
        )
        run = typed_number(board.pack_run_mm / 1000) if board and board.pack_run_mm else ""
        self._run = TextField(
            "pack_run_mm", "Run of a pack m", run, hint="For 500 - 1900: all boards end to end, 11.4."
        )
        self._handed = TickField(
            "handed", "Left and right", board.handed if board else False, hint="Yes for blocks that come in two hands."
        )
        self._stable = TickField(
            "ready_when_stable",
            "Until it is still",
            board.ready_when_stable if board else False,
            hint="Yes: the wait ends when the boards' moisture stands still, not after hours.",
        )
        self._build = TextField("build", "Build", board.build if board else "", hint="Like engineered; may stay empty.")
        self._species = TextField("species", "Wood", board.species if board else "", hint="Like oak; may stay empty.")

    def _glue_fields(self, glue: GlueDraft | None) -> None:
        def whole(key: str, label: str, hint: str) -> TextField:
            return TextField(key, label, str(getattr(glue, key)) if glue else "", hint=hint)

        self._rate = whole("rate_g_per_m2", "Rate g/m²", "Glue for a square metre, in g, like 1000.")
        tub = typed_number(glue.tub_kg) if glue else ""
        self._tub = TextField("tub_kg", "Tub kg", tub, hint="What a tub holds, in kg, like 15.")
        self._open_time = whole("open_time_min", "Open time min", "Minutes in which boards must lie in it, like 40.")
        self._training = TickField(
            "needs_training",
            "Needs training",
            glue.needs_training if glue else False,
            hint="Yes for glue with diisocyanates: its label says that training is required.",
        )
        self._walk_on = whole("walk_on_hours", "Walk on after h", "Hours, like 24.")
        self._full_load = whole("full_load_hours", "Full load after h", "Hours or days, like 72 or 3 days.")

    def questions(self) -> Iterable[Widget]:
        yield self._code
        yield self._called
        if self._kind is ProductKind.BOARD:
            yield self._length
            yield self._width
            yield self._thickness
            yield self._per_pack
            yield self._wait
            yield from self._climate.fields
            yield self._build
            yield self._species
        elif self._kind is ProductKind.GLUE:
            yield self._rate
            yield self._tub
            yield self._open_time
            yield self._walk_on
            yield self._full_load
        else:
            yield from self._material.first
        yield self._price
        if self._kind is ProductKind.BOARD:
            yield self._lengths
            yield self._run
            yield self._handed
        if self._kind is ProductKind.MATERIAL:
            yield from self._material.last
        else:
            yield self._limits
            yield self._stable if self._kind is ProductKind.BOARD else self._training
        yield self._supplier
        yield self._lead
        yield Line("The figures of the maker's data sheet go before anything said here.", classes="muted note")

    def _read_price(self, text: str) -> int | Misread:
        return read_money(text, self._currency)

    def fill_in(self, slip: Slip) -> ProductDraft:
        if self._kind is ProductKind.MATERIAL:
            return self._material.fill_in(slip, self._shared(slip))
        return self._board(slip) if self._kind is ProductKind.BOARD else self._glue(slip)

    def on_mount(self) -> None:
        super().on_mount()
        if self._kind is ProductKind.MATERIAL:
            self._material.show_what_applies()

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if self._kind is ProductKind.MATERIAL and self._material.has(event.field):
            self._material.begin_anew()

    def _shared(self, slip: Slip) -> MaterialDraft:
        """What a material has in common with other products, in one that is to be filled in."""
        return MaterialDraft(
            code=slip.read(self._code, read_text, "-"),
            name=slip.read(self._called, read_text, "-"),
            thing=Thing.CARE_SET,
            price_minor=slip.read(self._price, self._read_price, 0),
            lead_days=slip.read_if_given(self._lead, read_whole),
            supplier=self._supplier.raw,
        )

    def _board(self, slip: Slip) -> BoardDraft:
        lengths = slip.read(self._lengths, read_lengths, PackLengths())
        return BoardDraft(
            code=slip.read(self._code, read_text, "-"),
            name=slip.read(self._called, read_text, "-"),
            length_mm=_read_or(slip, self._length, read_mm, lengths.longest_mm or 0, 1000),
            width_mm=slip.read(self._width, read_mm, 100),
            thickness_mm=slip.read(self._thickness, read_mm, 10),
            boards_per_pack=_read_or(slip, self._per_pack, read_whole, lengths.boards or 0, 1),
            lengths=lengths.each,
            shortest_mm=lengths.shortest_mm,
            pack_run_mm=slip.read_if_given(self._run, read_run_mm),
            handed=self._handed.yes,
            acclimatise_hours=slip.read(self._wait, read_hours, 0),
            build=slip.read(self._build, read_text, ""),
            species=slip.read(self._species, read_text, ""),
            price_minor=slip.read(self._price, self._read_price, 0),
            climate=self._climate.fill_in(slip),
            sheet_limits=slip.read(self._limits, read_limits, ()),
            ready_when_stable=self._stable.yes,
            lead_days=slip.read_if_given(self._lead, read_whole),
            supplier=self._supplier.raw,
        )

    def _glue(self, slip: Slip) -> GlueDraft:
        return GlueDraft(
            code=slip.read(self._code, read_text, "-"),
            name=slip.read(self._called, read_text, "-"),
            rate_g_per_m2=slip.read(self._rate, read_whole, 1000),
            tub_kg=slip.read(self._tub, read_number, 1.0),
            open_time_min=slip.read(self._open_time, read_whole, 1),
            walk_on_hours=slip.read(self._walk_on, read_hours, 0),
            full_load_hours=slip.read(self._full_load, read_hours, 4000),
            price_minor=slip.read(self._price, self._read_price, 0),
            sheet_limits=slip.read(self._limits, read_limits, ()),
            needs_training=self._training.yes,
            lead_days=slip.read_if_given(self._lead, read_whole),
            supplier=self._supplier.raw,
        )


def _read_or(slip: Slip, field: TextField, reader: Reader[int], if_empty: int, otherwise: int) -> int:
    """Return what a field holds; where it is empty, what the lengths in the pack say, if they do."""
    return if_empty if if_empty and not field.raw.strip() else slip.read(field, reader, otherwise)
