"""The form for a room and the floor wanted in it, with its area and a drawing as one types."""

from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

from textual import on
from textual.containers import Horizontal, Vertical
from textual.widget import Widget

from store.trade.jobs import Method, RoomDraft, Subfloor
from store.trade.outline import Ring, net_area_mm2, perimeter_mm
from store.trade.products import Board, Glue
from store.trade.surveyed import Finds, Pattern
from store.trade.walls import wall_letter
from tui.dialogs.base_fields import BaseFields
from tui.dialogs.dialog import Check, Dialog
from tui.dialogs.parts import day_field, past_day_field, product_options
from tui.dialogs.slip import Reader, Slip
from tui.typed.figures import Misread, read_mm, read_number, read_text
from tui.typed.finds import (
    read_direction,
    read_doorways,
    read_fixed_things,
    read_wall,
    typed_doorways,
    typed_fixed_things,
)
from tui.typed.outline import read_cut_outs, read_measured, read_ring, typed_cut_outs, typed_ring
from tui.typed.wall_clock import WallClock
from tui.widgets.choices import SelectField, TickField
from tui.widgets.fields import Field, TextField
from tui.widgets.room_sketch import RoomSketch
from tui.widgets.safe import Line
from tui.words.vocabulary import METHODS, PATTERNS, SUBFLOORS
from tui.words.wording import figure, say_area, typed_number

Found = TypeVar("Found")
_STAND_IN: Ring = ((0, 0), (1000, 0), (1000, 1000), (0, 1000))
OLD_FLOOR = (
    "An old floor underneath: tiles or black glue from before 2000 may hold asbestos. Stop; do not sand, "
    "scrape or drill; have a sample tested first. Local rules decide."
)


class RoomForm(Dialog[RoomDraft]):
    """Asks for a room's shape, its subfloor and its floor; answers a ``RoomDraft``.

    Args:
        boards: the boards on file.
        glues: the glues on file.
        clock: the firm's wall clock.
        check: what the shop finds wrong with the room.
        draft: the room to change; None for a new one.
        taught: what closed jobs say to such a room, in a sentence; empty where they say nothing.
    """

    DEFAULT_CSS = """
    RoomForm .room--shape { height: auto; }
    RoomForm .room--shape > Vertical { height: auto; width: 1fr; }
    RoomForm RoomSketch { width: 28; height: 9; margin: 0 0 0 1; }
    RoomForm.-wide > .dialog--box { width: 108; }
    RoomForm.-wide RoomSketch { width: 48; }
    RoomForm.-narrow RoomSketch { display: none; }
    RoomForm .room--taught { display: none; height: auto; color: $text-secondary; }
    RoomForm .room--taught.-told { display: block; }
    RoomForm.-wide .room--taught { padding: 0 0 0 18; }
    RoomForm .room--area { padding: 0 0 0 18; color: $text-secondary; }
    """

    def __init__(
        self,
        *,
        boards: Sequence[Board],
        glues: Sequence[Glue],
        clock: WallClock,
        check: Check[RoomDraft],
        draft: RoomDraft | None = None,
        taught: Callable[[RoomDraft], str] = lambda _: "",
    ) -> None:
        super().__init__("Change a room" if draft else "Add a room", check)
        self._clock = clock
        self._hint_for = taught
        start = draft or RoomDraft(
            name="",
            outline=(),
            subfloor=Subfloor.CEMENT_SCREED,
            method=Method.GLUED,
            board="",
            glue=glues[0].code if glues else None,
        )
        self._shape_fields(start)
        self._floor_fields(boards, glues, start)
        self._subfloor_fields(start)
        self._base = BaseFields(start, clock)

    def _shape_fields(self, start: RoomDraft) -> None:
        self._start_with = start
        self._called = TextField("name", "Room", start.name, hint="Like Reading room.")
        self._outline = TextField(
            "outline",
            "Shape",
            typed_ring(start.outline),
            hint="5200 x 4100, with diagonals 6622 6610 too, or walls: 5200 right, 4100 up, …",
        )
        self._cut_outs = TextField(
            "cut_outs",
            "Left out",
            typed_cut_outs(start.cut_outs),
            hint="A hearth: 1000 x 500 at 200,0 (right and up from the first corner); …",
        )
        self._area = Line("", classes="room--area")
        self._sketch = RoomSketch()
        self._taught = Line("", classes="room--taught")

    def _floor_fields(self, boards: Sequence[Board], glues: Sequence[Glue], start: RoomDraft) -> None:
        self._board = SelectField(
            "board",
            "Board",
            product_options(boards),
            start.board,
            hint="Space opens the list.",
        )
        self._method = SelectField(
            "method",
            "Laid",
            [(one.value, METHODS[one]) for one in Method],
            start.method.value,
            hint="Space opens the list.",
        )
        self._glue = SelectField(
            "glue",
            "Glue",
            [("", "none"), *product_options(glues)],
            start.glue or "",
            hint="The maker's data sheet goes before everything that is said here.",
        )
        self._gap = TextField("gap_mm", "Gap at walls mm", str(start.gap_mm), hint="In mm, like 10.")
        self._loss = TextField(
            "cut_loss_percent",
            "Cut loss %",
            typed_number(start.cut_loss_percent),
            hint="In % of the floor, like 10; a lay or a pattern is counted instead.",
        )
        self._pattern = SelectField(
            "pattern",
            "Pattern",
            [(one.value, PATTERNS[one]) for one in Pattern],
            start.pattern.value,
            hint="Space opens the list. Herringbone and chevron are counted block by block.",
        )
        self._border = TextField(
            "border_mm",
            "Border mm",
            str(start.border_mm) if start.border_mm else "",
            hint="A border of straight boards along the walls, its width in mm; may stay empty.",
        )
        self._doorways = TextField(
            "doorways", "Doorways", typed_doorways(start.doorways), hint="C 600 900 Hall: wall, from, width, to; …"
        )
        self._fixed = TextField(
            "fixed_things",
            "Fixed things",
            typed_fixed_things(start.fixed_things),
            hint="radiator pipe 22 at 1200,300: right and up from the first corner; …",
        )

    def _subfloor_fields(self, start: RoomDraft) -> None:
        self._subfloor = SelectField(
            "subfloor",
            "Subfloor",
            [(one.value, SUBFLOORS[one]) for one in Subfloor],
            start.subfloor.value,
            hint="What the boards are laid on. Space opens the list.",
        )
        self._heated = TickField(
            "heated",
            "Floor heating",
            start.heated,
            hint="Space changes it. Heated: drill and test only at marked points.",
        )
        self._screed = TextField(
            "screed_mm",
            "Screed depth mm",
            str(start.screed_mm) if start.screed_mm is not None else "",
            hint="In mm, like 65; with the day it was laid, drying can be forecast.",
        )
        self._laid = past_day_field("screed_laid_on", "Screed laid on", self._clock, start.screed_laid_on)
        self._ready = day_field("site_ready_on", "Room ready on", self._clock, start.site_ready_on)
        self._direction = TextField(
            "direction_deg",
            "Rows turned °",
            typed_number(start.direction_deg) if start.direction_deg is not None else "",
            hint="Degrees like 90, or B: along wall B; long wall; light C: away from a window there.",
        )
        self._start = TextField(
            "start",
            "First row at",
            wall_letter(start.start) if start.start is not None else "",
            hint="The letter of the wall; the first walked is A. May stay empty.",
        )

    def questions(self) -> Iterable[Widget]:
        left = (
            self._called,
            self._outline,
            self._cut_outs,
            self._area,
            self._board,
            self._method,
            self._glue,
        )
        yield Horizontal(Vertical(*left, self._gap, self._loss), self._sketch, classes="room--shape")
        yield self._taught
        yield self._subfloor
        yield self._heated
        yield self._screed
        yield self._laid
        yield self._ready
        yield self._direction
        yield self._start
        yield self._pattern
        yield self._border
        yield self._doorways
        yield self._fixed
        yield from self._base.fields
        yield Line(OLD_FLOOR, classes="caution note")

    def on_mount(self) -> None:
        super().on_mount()
        self._draw()

    @on(Field.Changed)
    def _answered(self, event: Field.Changed) -> None:
        if event.field in {self._outline, self._cut_outs, self._doorways, self._fixed}:
            self._draw()
        elif event.field in {self._board, self._pattern}:
            self._say_taught()
        elif event.field in {self._subfloor, self._method, self._heated} or self._base.has(event.field):
            self._show_what_applies()

    def _draw(self) -> None:
        measured, cut_outs = read_measured(self._outline.raw), read_cut_outs(self._cut_outs.raw)
        self._show_what_applies()
        if isinstance(measured, Misread) or isinstance(cut_outs, Misread):
            self._sketch.show(())
            self._area.say("")
            self._taught.remove_class("-told")
            return
        doorways, fixed = read_doorways(self._doorways.raw), read_fixed_things(self._fixed.raw)
        finds = Finds(
            doorways=() if isinstance(doorways, Misread) else doorways,
            fixed_things=() if isinstance(fixed, Misread) else fixed,
        )
        self._sketch.show(measured.ring, cut_outs, finds)
        around = f"{figure(perimeter_mm(measured.ring) / 1000, 2)} m round"
        says = f"; {measured.say}" if measured.say else ""
        self._area.say(f"= {say_area(net_area_mm2(measured.ring, cut_outs))}, {around}{says}")
        self._say_taught()

    def _say_taught(self) -> None:
        """Say below the cut loss what closed jobs took; it changes no figure."""
        said = self._hint_for(self.fill_in(Slip())) if self._area.words else ""
        self._taught.say(said)
        self._taught.set_class(bool(said), "-told")

    def _show_what_applies(self) -> None:
        screed = Subfloor(self._subfloor.raw).is_screed
        self._screed.display = self._laid.display = screed
        self._glue.display = self._method.raw == Method.GLUED.value
        self._base.show_what_applies(heated=self._heated.yes)

    def fill_in(self, slip: Slip) -> RoomDraft:
        screed = Subfloor(self._subfloor.raw).is_screed
        outline = slip.read(self._outline, read_ring, _STAND_IN)
        room = RoomDraft(
            name=slip.read(self._called, read_text, ""),
            outline=outline,
            subfloor=Subfloor(self._subfloor.raw),
            method=Method(self._method.raw),
            board=self._board.raw,
            glue=(self._glue.raw or None) if self._method.raw == Method.GLUED.value else None,
            cut_outs=slip.read(self._cut_outs, read_cut_outs, ()),
            heated=self._heated.yes,
            gap_mm=slip.read(self._gap, read_mm, 10),
            cut_loss_percent=slip.read(self._loss, read_number, 10.0),
            screed_mm=slip.read_if_given(self._screed, read_mm) if screed else None,
            screed_laid_on=slip.read_if_given(self._laid, self._clock.read_past_day) if screed else None,
            site_ready_on=slip.read_if_given(self._ready, self._clock.read_day),
            direction_deg=slip.read_if_given(self._direction, lambda text: read_direction(text, outline)),
            start=slip.read_if_given(self._start, read_wall),
            line_mm=self._start_with.line_mm,
            pattern=Pattern(self._pattern.raw),
            border_mm=slip.read_if_given(self._border, read_mm) or 0,
            doorways=self._finds(slip, self._doorways, read_doorways, typed_doorways, self._start_with.doorways),
            fixed_things=self._finds(
                slip, self._fixed, read_fixed_things, typed_fixed_things, self._start_with.fixed_things
            ),
        )
        return self._base.fill_in(slip, room, heated=room.heated)

    @staticmethod
    def _finds(
        slip: Slip, field: TextField, read: Reader[Found], typed: Callable[[Found], str], before: Found
    ) -> Found:
        """Return what a field holds; what nobody touched stays as it is on file, whatever its names hold."""
        return before if field.raw == typed(before) else slip.read(field, read, before)
