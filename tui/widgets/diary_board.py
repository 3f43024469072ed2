"""The board of the diary: rows of bars over days. Only what is in the window is ever drawn."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import ClassVar

from rich.cells import set_cell_size
from rich.segment import Segment
from textual import events
from textual.binding import Binding, BindingType
from textual.message import Message
from textual.strip import Strip
from textual.widget import Widget

from store.trade.diary import is_worked
from store.trade.firm import FirmDraft
from tui.widgets.safe import cut
from tui.words.diary_rows import Bar, BoardRow
from tui.words.wording import MONTHS, WEEKDAYS

NAME_WIDTH, WIDE_NAME_WIDTH = 13, 24
CELL_WIDTH = 7
HEAD_LINES = 2
_WIDE_FROM = 110


class DiaryBoard(Widget, can_focus=True):
    """Days across, rows down; the arrows move the cursor, and the window follows it day by day.

    The row of the cursor carries a sign, its day an arrow: neither is shown by colour alone.
    """

    DEFAULT_CSS = """
    DiaryBoard { height: 1fr; width: 1fr; background: $background; }
    DiaryBoard > .board--head { color: $text-muted; background: $panel; }
    DiaryBoard > .board--head-cursor { color: $text-accent; background: $panel; text-style: bold; }
    DiaryBoard > .board--name { color: $foreground; }
    DiaryBoard > .board--name-cursor { color: $text-accent; text-style: bold; }
    DiaryBoard > .board--free { color: $text-muted; }
    DiaryBoard > .board--idle { color: $text-muted; background: $surface; }
    DiaryBoard > .board--bar { color: $foreground; background: $primary-muted; }
    DiaryBoard > .board--clash { color: $text-warning; background: $warning-muted; text-style: bold; }
    DiaryBoard > .board--wait { color: $text-secondary; background: $surface; }
    DiaryBoard > .board--cursor { color: $block-cursor-foreground; background: $block-cursor-background;
                                  text-style: bold; }
    DiaryBoard:nocolor > .board--cursor { text-style: bold reverse; }
    """
    COMPONENT_CLASSES = {  # noqa: RUF012 - Textual reads it from the class
        "board--head",
        "board--head-cursor",
        "board--name",
        "board--name-cursor",
        "board--free",
        "board--idle",
        "board--bar",
        "board--clash",
        "board--wait",
        "board--cursor",
    }
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("left", "step(-1, 0)", "Day before", show=False, id="board.left"),
        Binding("right", "step(1, 0)", "Day after", show=False, id="board.right"),
        Binding("up", "step(0, -1)", "Row above", show=False, id="board.up"),
        Binding("down", "step(0, 1)", "Row below", show=False, id="board.down"),
        Binding("pageup,left_square_bracket", "step(-7, 0)", "Week before", show=False, id="board.week_before"),
        Binding("pagedown,right_square_bracket", "step(7, 0)", "Week after", show=False, id="board.week_after"),
    ]

    @dataclass
    class Carry(Message):
        """An arrow was pressed while a booking is being carried: so many days and rows."""

        days: int
        rows: int

    @dataclass
    class Moved(Message):
        """The cursor stands elsewhere."""

        day: date

    def __init__(self, today: date) -> None:
        super().__init__()
        self.day = today
        self.carries = False
        self._today = today
        self._first = today - timedelta(days=today.weekday())
        self._top = 0
        self._line = 0
        self._firm = FirmDraft(name="")
        self._rows: tuple[BoardRow, ...] = ()
        self._lines: list[tuple[BoardRow, int]] = []

    def show(self, rows: tuple[BoardRow, ...], firm: FirmDraft, today: date) -> None:
        """Show other rows; the cursor stays on its day and its row while there is one."""
        at = self.chosen_row
        self._rows, self._firm, self._today = rows, firm, today
        self._lines = [(row, lane) for row in rows for lane in range(len(row.lanes))]
        if at is not None and (self.chosen_row is None or self.chosen_row.key != at.key):
            self._line = next((place for place, (row, _) in enumerate(self._lines) if row.key == at.key), self._line)
        self._line = min(self._line, max(len(self._lines) - 1, 0))
        self._bring_in()

    @property
    def chosen_row(self) -> BoardRow | None:
        """The row that the cursor is in."""
        return self._lines[self._line][0] if self._line < len(self._lines) else None

    @property
    def chosen_bar(self) -> Bar | None:
        """The bar under the cursor; in the empty lane of a row, none."""
        return self._bar_at(self._line, self.day)

    def _bar_at(self, line: int, day: date) -> Bar | None:
        if line >= len(self._lines):
            return None
        row, lane = self._lines[line]
        return next((bar for bar in row.lanes[lane] if day in bar.days), None)

    @property
    def days_shown(self) -> int:
        """How many days the window holds."""
        return max((self.size.width - self._name_width) // CELL_WIDTH, 1)

    @property
    def _name_width(self) -> int:
        return WIDE_NAME_WIDTH if self.size.width >= _WIDE_FROM else NAME_WIDTH

    def go_to(self, day: date) -> None:
        """Put the cursor on a day."""
        self.day = day
        self._bring_in()

    def find(self, booking_id: int, day: date) -> None:
        """Put the cursor on a booking, on one of its days."""
        for place, (row, lane) in enumerate(self._lines):
            for bar in row.lanes[lane]:
                if bar.placed is not None and bar.placed.booking.id == booking_id:
                    self._line = place
                    day = day if day in bar.days else min(bar.days, key=lambda one: abs(one - day))
        self.go_to(day)

    def action_step(self, days: int, rows: int) -> None:
        """Move the cursor, or what is being carried."""
        if self.carries:
            self.post_message(self.Carry(days, rows))
            return
        self._line = min(max(self._line + rows, 0), max(len(self._lines) - 1, 0))
        self.go_to(self.day + timedelta(days=days))

    def _bring_in(self) -> None:
        if not self.size.width:
            return
        shown, high = self.days_shown, max(self.size.height - HEAD_LINES, 1)
        if self.day < self._first:
            self._first = self.day
        elif self.day > self._first + timedelta(days=shown - 1):
            self._first = self.day - timedelta(days=shown - 1)
        self._top = min(max(self._top, self._line - high + 1), self._line)
        self.refresh()
        self.post_message(self.Moved(self.day))

    def on_resize(self) -> None:
        self._bring_in()

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        event.stop()
        self.action_step(1, 0)

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        event.stop()
        self.action_step(-1, 0)

    def on_click(self, event: events.Click) -> None:
        place, column = event.y - HEAD_LINES + self._top, event.x - self._name_width
        if event.y >= HEAD_LINES and place < len(self._lines):
            self._line = place
        if 0 <= column < self.days_shown * CELL_WIDTH:
            self.day = self._first + timedelta(days=column // CELL_WIDTH)
        self._bring_in()

    def render_line(self, y: int) -> Strip:
        days = [self._first + timedelta(days=ahead) for ahead in range(self.days_shown)]
        line = y - HEAD_LINES + self._top
        if y < HEAD_LINES:
            segments = self._head(days, y)
        elif line < len(self._lines):
            segments = [self._called(line), *self._cells(line, days)]
        else:
            segments = []
        return Strip(segments).extend_cell_length(self.size.width, self.rich_style).crop(0, self.size.width)

    def _head(self, days: list[date], y: int) -> list[Segment]:
        month = f"{MONTHS[self.day.month - 1]} {self.day.year}" if y == 0 else ""
        segments = [self._text(month, self._name_width, "head")]
        for day in days:
            if y == 0:
                week = f"week {day.isocalendar().week}" if day.weekday() == 0 else ""
                words = "today" if day == self._today else week
            else:
                words = f"{WEEKDAYS[day.weekday()]} {day.day}".ljust(CELL_WIDTH - 1) + ("▾" if day == self.day else "")
            style = self.get_component_rich_style(f"board--head{'-cursor' if day == self.day else ''}", partial=False)
            segments.append(Segment(set_cell_size(words, CELL_WIDTH), style))
        return segments

    def _called(self, line: int) -> Segment:
        row, lane = self._lines[line]
        here = line == self._line
        first = lane == 0 or line == self._top
        words = f"{'▸' if here else ' '}{row.label if first else ''}"
        return self._text(words, self._name_width, "name-cursor" if here else "name")

    def _cells(self, line: int, days: list[date]) -> list[Segment]:
        row, lane = self._lines[line]
        segments: list[Segment] = []
        at = 0
        while at < len(days):
            bar = next((one for one in row.lanes[lane] if days[at] in one.days), None)
            if bar is None:
                segments.append(self._free(row, lane, days[at], is_here=line == self._line and days[at] == self.day))
                at += 1
                continue
            run = 1
            while at + run < len(days) and days[at + run] in bar.days:
                run += 1
            is_here = line == self._line and self.day in bar.days
            segments += self._drawn(bar, days[at], run, is_here=is_here)
            at += run
        return segments

    def _free(self, row: BoardRow, lane: int, day: date, *, is_here: bool) -> Segment:
        worked = is_worked(self._firm, day)
        mark = row.marks.get(day, "") if lane == 0 else ""
        words = mark or ("·" if worked else "holiday" if day in self._firm.holidays else "–")
        return self._text(words, CELL_WIDTH, "cursor" if is_here else "free" if worked and not mark else "idle")

    def _drawn(self, bar: Bar, first: date, run: int, *, is_here: bool) -> list[Segment]:
        width = run * CELL_WIDTH - 1
        words = bar.words if first == bar.days[0] else f"»{bar.words.lstrip('▲')}"
        shown = cut(words, width)
        filled = set_cell_size(shown + bar.fill * width, width)
        name = "wait" if bar.placed is None else "clash" if bar.placed.clashes else "bar"
        style = self.get_component_rich_style(f"board--{'cursor' if is_here else name}", partial=False)
        return [Segment(filled, style), Segment(" ", self.rich_style)]

    def _text(self, words: str, width: int, name: str) -> Segment:
        style = self.get_component_rich_style(f"board--{name}", partial=False)
        return Segment(set_cell_size(f"{cut(words, width - 1)} ", width), style)
