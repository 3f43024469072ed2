"""A lay drawn to scale in the terminal: every row and every joint, larger or smaller, with one row chosen."""

from dataclasses import dataclass
from typing import ClassVar

from rich.segment import Segment
from rich.style import Style
from textual import events
from textual.binding import Binding, BindingType
from textual.geometry import Region, Size
from textual.message import Message
from textual.scroll_view import ScrollView
from textual.strip import Strip

from store.papers.brickwork import Brickwork, DrawnLine, brickwork
from store.trade.layout.cuts import Kept, RowOfCuts

ZOOMS = (1.0, 1.5, 2.0, 3.0, 4.5, 7.0)
_CELL_RATIO = 2.0  # a terminal's cell is about twice as high as it is wide
_MOST_HIGH = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    size: Size
    zoom: float
    work: Brickwork
    order: tuple[int, ...]


class LayDrawing(ScrollView, can_focus=True):
    """Rows one above another, the first where it lies on the floor; up and down choose a row.

    The chosen row carries a sign as well as its colour; pieces that are cut are dotted and carry a letter. Lines are
    worked out once for each size and zoom, when the first of them is asked for.
    """

    DEFAULT_CSS = """
    LayDrawing { height: 1fr; width: 1fr; scrollbar-size: 1 1; background: $background; }
    LayDrawing > .lay--wall { color: $text-muted; }
    LayDrawing > .lay--whole { color: $foreground; background: $surface; }
    LayDrawing > .lay--whole-odd { color: $foreground; background: $panel; }
    LayDrawing > .lay--cut { color: $text-secondary; background: $surface; }
    LayDrawing > .lay--cut-odd { color: $text-secondary; background: $panel; }
    LayDrawing > .lay--number { color: $text-muted; }
    LayDrawing > .lay--chosen { color: $block-cursor-blurred-foreground; background: $block-cursor-blurred-background;
                                text-style: bold; }
    LayDrawing:focus > .lay--chosen { color: $block-cursor-foreground; background: $block-cursor-background;
                                      text-style: bold; }
    """
    COMPONENT_CLASSES = {  # noqa: RUF012 - Textual reads it from the class
        "lay--wall",
        "lay--whole",
        "lay--whole-odd",
        "lay--cut",
        "lay--cut-odd",
        "lay--number",
        "lay--chosen",
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("up", "step(-1)", "Row above", show=False, id="drawing.up"),
        Binding("down", "step(1)", "Row below", show=False, id="drawing.down"),
        Binding("pageup", "step(-8)", "Eight rows up", show=False),
        Binding("pagedown", "step(8)", "Eight rows down", show=False),
        Binding("left", "scroll_left", "Left", show=False),
        Binding("right", "scroll_right", "Right", show=False),
        Binding("home", "step(-100000)", "Top row", show=False),
        Binding("end", "step(100000)", "Bottom row", show=False),
        Binding("plus,equals_sign", "zoom(1)", "Zoom", key_display="+ −", id="drawing.larger"),
        Binding("minus", "zoom(-1)", "Zoom", show=False, id="drawing.smaller"),
    ]

    @dataclass
    class Chosen(Message):
        """Another row is chosen; rows count from 0."""

        row: int

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id)
        self._rows: tuple[RowOfCuts, ...] = ()
        self._edges: tuple[tuple[int, int], ...] = ()
        self._board_mm = 1
        self._zoom = 0
        self._drawn: _Drawn | None = None
        self.chosen = 0

    def show(self, rows: tuple[RowOfCuts, ...], edges_mm: tuple[tuple[int, int], ...], board_mm: int) -> None:
        """Draw another lay; the chosen row stays where there still is one."""
        self._rows, self._edges, self._board_mm = rows, edges_mm, max(board_mm, 1)
        self.chosen = min(self.chosen, max(len(rows) - 1, 0))
        self._draw_again()

    @property
    def scale_words(self) -> str:
        """What a column stands for, and how large the floor is drawn."""
        drawn = self._work()
        if drawn is None:
            return ""
        return f"1 column = {drawn.work.mm_per_column:.0f} mm · size {ZOOMS[self._zoom]:g}"

    def _draw_again(self) -> None:
        self._drawn = None
        drawn = self._work()
        if drawn is not None:
            width = max((len(line.text) for line in drawn.work.lines), default=0)
            self.virtual_size = Size(self._lead + width, len(drawn.work.lines))
            self._bring_in(drawn)
        self.refresh()

    @property
    def _lead(self) -> int:
        return len(str(len(self._rows))) + 2

    def _work(self) -> _Drawn | None:
        size, zoom = self.size, ZOOMS[self._zoom]
        if not any(row.runs for row in self._rows) or size.width < 4:
            return None
        if self._drawn is None or (self._drawn.size, self._drawn.zoom) != (size, zoom):
            columns = max(int((self.container_size.width - self._lead - 1) * zoom), 8)
            pieces = [cut.piece for row in self._rows for run in row.runs for cut in run]
            long = max(piece.to_mm for piece in pieces) - min(piece.from_mm for piece in pieces)
            lines = self._board_mm / (long / (columns - 1)) / _CELL_RATIO
            high = min(max(round(lines), 1), _MOST_HIGH)
            order = tuple(sorted(range(len(self._rows)), key=lambda row: -self._edges[row][0]))
            work = brickwork(self._rows, self._edges, columns, high)
            self._drawn = _Drawn(size=size, zoom=zoom, work=work, order=order)
        return self._drawn

    def on_resize(self) -> None:
        self._draw_again()

    def render_line(self, y: int) -> Strip:
        drawn = self._work()
        scroll_x, scroll_y = self.scroll_offset
        place, width = y + scroll_y, self.size.width
        if drawn is None or place >= len(drawn.work.lines):
            return Strip.blank(width, self.rich_style)
        line = drawn.work.lines[place]
        lead = Strip([self._number(line, drawn, place)], self._lead)
        body = Strip(list(self._segments(line))).crop(scroll_x, scroll_x + width - self._lead)
        return Strip.join([lead, body]).extend_cell_length(width, self.rich_style).crop(0, width)

    def _number(self, line: DrawnLine, drawn: _Drawn, place: int) -> Segment:
        above = drawn.work.lines[place - 1].row if place else None
        is_chosen = line.row is not None and line.row == self.chosen
        is_first_line = line.row is not None and line.row != above
        sign = "▸" if is_chosen and is_first_line else " "
        number = str(line.row + 1) if line.row is not None and is_first_line else ""
        style = self._style("chosen" if is_chosen else "number")
        return Segment(f"{sign}{number:>{self._lead - 2}} ", style)

    def _segments(self, line: DrawnLine) -> list[Segment]:
        wall = self._style("chosen" if line.row is not None and line.row == self.chosen else "wall")
        odd = "-odd" if line.row is not None and line.row % 2 else ""
        segments: list[Segment] = []
        at = 0
        for one in sorted(line.stretches, key=lambda stretch: stretch.start):
            name = "whole" if one.cut.kept is Kept.WHOLE else "cut"
            style = wall if line.row == self.chosen else self._style(f"{name}{odd}")
            segments.append(Segment(line.text[at : one.start], wall))
            segments.append(Segment(line.text[one.start : one.end].ljust(max(one.end - one.start, 0)), style))
            at = max(at, one.end)
        segments.append(Segment(line.text[at:], wall))
        return [segment for segment in segments if segment.text]

    def _style(self, name: str) -> Style:
        return self.get_component_rich_style(f"lay--{name}", partial=False)

    def action_step(self, by: int) -> None:
        """Choose the row so many rows further down."""
        drawn = self._work()
        if drawn is None:
            return
        here = drawn.order.index(self.chosen)
        self.choose(drawn.order[min(max(here + by, 0), len(drawn.order) - 1)])

    def choose(self, row: int) -> None:
        """Choose a row, and bring it into the window."""
        if not 0 <= row < len(self._rows):
            return
        self.chosen = row
        self.refresh()
        drawn = self._work()
        if drawn is not None:
            self._bring_in(drawn)
        self.post_message(self.Chosen(row))

    def _bring_in(self, drawn: _Drawn) -> None:
        """Scroll so that the chosen row, and the rows beside it, are in the window."""
        of_row = [place for place, line in enumerate(drawn.work.lines) if line.row == self.chosen]
        top, bottom = max(of_row[0] - 1, 0), min(of_row[-1] + 1, len(drawn.work.lines) - 1)
        region = Region(self.scroll_offset.x, top, 1, bottom - top + 1)
        self.scroll_to_region(region, animate=False, force=True)

    def action_zoom(self, by: int) -> None:
        """Draw the floor larger or smaller."""
        self._zoom = min(max(self._zoom + by, 0), len(ZOOMS) - 1)
        self._draw_again()
        self.choose(self.chosen)

    def on_click(self, event: events.Click) -> None:
        drawn = self._work()
        place = event.y + self.scroll_offset.y
        if drawn is None or not 0 <= place < len(drawn.work.lines):
            return
        row = drawn.work.lines[place].row
        if row is not None:
            self.choose(row)
