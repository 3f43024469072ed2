"""Shows the public holidays to come, and asks which of them the firm is shut on."""

from collections.abc import Sequence
from datetime import date
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Footer

from store.desk.holiday_counter import OfferedDay
from tui.dialogs.helped import Helped
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line
from tui.words.wording import clean, counted, say_day

_COLUMNS = (Column(label="", width=1), Column(label="Day", width=16), Column(label="Public holiday"))
_EMPTY = "No public holiday is known there from today to the end of next year. Write the firm's own with e."


class HolidaysOffered(Helped[tuple[date, ...] | None]):
    """Answers the days that are to be filed as the firm's holidays; None if none are.

    Args:
        where: the country, and its part, in words.
        offered: the public holidays to come.
        today: the day it is for the firm.
    """

    DEFAULT_CSS = """
    HolidaysOffered { background: $background; }
    HolidaysOffered > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    HolidaysOffered .holidays--title { text-style: bold; color: $text-accent; }
    HolidaysOffered .holidays--sum { height: auto; color: $text-muted; margin: 0 0 1 0; }
    """
    CALLED: ClassVar[str] = "public holidays"
    TEACHES: ClassVar[tuple[str, ...]] = (
        "The days come from a library of public holidays; nothing is filed before f, and names are not kept.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "pick", "In or out", key_display="Space", id="holidays.pick"),
        Binding("a", "pick_all", "All or none", id="holidays.all"),
        Binding("f", "file", "File marked", id="holidays.file"),
        Binding("escape", "leave", "File none", key_display="Esc", id="holidays.leave"),
    ]
    AUTO_FOCUS = "DataTable"

    def __init__(self, where: str, offered: Sequence[OfferedDay], *, today: date) -> None:
        super().__init__()
        self._where, self._offered, self._today = where, {one.day: one for one in offered}, today
        # A day on which nobody works anyway need not be filed; it may be, where Saturdays come to be worked.
        self._in = {one.day for one in offered if one.worked and not one.on_file}

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(f"Public holidays: {clean(self._where)}", classes="holidays--title")
            yield Line("", classes="holidays--sum")
            yield FilterList(_COLUMNS, noun="holidays", empty=_EMPTY)
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        self.query_one(FilterList).fill([self._row(one) for one in self._offered.values()])
        marked = counted(len(self._in), "day")
        self.query_one(".holidays--sum", Line).say(
            f"{marked} marked ✓ would be filed as the firm's own; = is on file already. Check them: the firm says when "
            "it is shut, and the law of the place goes before this list."
        )

    def _row(self, one: OfferedDay) -> Row:
        mark = "=" if one.on_file else "✓" if one.day in self._in else "·"
        name = clean(one.name) + ("" if one.worked else " (nobody works that day)")
        return Row(key=one.day.isoformat(), cells=(mark, say_day(one.day, self._today), name))

    @on(FilterList.Opened)
    def _opened(self, event: FilterList.Opened) -> None:
        event.stop()
        self.action_pick()

    def action_pick(self) -> None:
        """Take the day under the cursor into what is filed, or out of it."""
        key = self.query_one(FilterList).chosen
        day = date.fromisoformat(key) if key else None
        if day is not None and not self._offered[day].on_file:
            self._in ^= {day}
            self._show()

    def action_pick_all(self) -> None:
        """Mark every day on which the firm would work, or none."""
        every = {one.day for one in self._offered.values() if one.worked and not one.on_file}
        self._in = set() if self._in else every
        self._show()

    def action_file(self) -> None:
        """File the marked days."""
        self.dismiss(tuple(sorted(self._in)) or None)

    def action_leave(self) -> None:
        """File nothing."""
        self.dismiss(None)
