"""What a job needs bought, line by line: how each was worked out, set by hand, left out, and written out."""

from collections.abc import Iterator
from typing import ClassVar, Protocol

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen
from textual.widgets import Footer

from store.trade.buying.cost import cost_of
from store.trade.buying.nouns import Buying, BuyingLine
from store.trade.facts import JobFacts
from tui.dialogs.help_screen import help_for
from tui.telling import or_tell
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line
from tui.widgets.signed_lines import Said, SignedLines, Tone
from tui.words.buying import (
    cautions_of,
    say_bought_as,
    say_cost,
    say_gap,
    say_name,
    say_own,
    say_short_name,
    say_to_buy,
)
from tui.words.buying_how import say_how
from tui.words.wording import clean, upper

_COLUMNS = (
    Column(label="What", width=21),
    Column(label="Buy", width=24),
    Column(label="Worked out from"),
)
_EMPTY = (
    "Nothing is to be bought yet.\n\nMeasure a room first (Esc, then a). Boards, glue, film, skirting and all the rest "
    "are worked out from the rooms, their lay plans and what was read on site; a line for each stands here then."
)
_TEACHES = (
    "Each line says how it was worked out. Sizes and rules marked “common practice” have no sheet behind them: e sets "
    "the size that your merchant sells, the rate of the sheet, or how many to buy, with a reason, or leaves the line "
    "out. x takes back what was set by hand. Primer is offered where a base may ask for it, and bought once e takes it "
    "up.",
    "A thing that is a product on file (4, then n) is reckoned with its sheet and its price, and o in the folder "
    "offers to order what of it is still missing. Where several will do, e chooses one.",
    "The list is for the whole job, whatever of it is ordered already. w writes it out for the merchant, as text and "
    "for a spreadsheet. PgDn and PgUp read on below.",
)


class BuyingDoor(Protocol):
    """What the list asks of the shop."""

    @property
    def currency(self) -> str:
        """The firm's currency."""

    def read(self) -> tuple[Buying, JobFacts]:
        """Return the take-off as it stands now, with the facts it is worked out from."""

    async def set_line(self, line: BuyingLine) -> bool:
        """Ask what holds for a line, and file it; answer whether it was done."""

    async def take_back(self, line: BuyingLine) -> bool:
        """Ask why what was set by hand is taken back, and do it; answer whether it was done."""

    async def write_out(self, buying: Buying, facts: JobFacts) -> bool:
        """Ask where to, and write the list out; answer whether it was done."""


class WhatToBuy(ModalScreen[bool]):
    """The take-off of a job; answers whether anything was filed from it."""

    DEFAULT_CSS = """
    WhatToBuy { background: $background; }
    WhatToBuy > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    WhatToBuy .buying--title { text-style: bold; color: $text-accent; }
    WhatToBuy VerticalScroll { height: 7; border-top: solid $border; scrollbar-size-vertical: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("e", "set_line", "Set by hand", id="buying.set", tooltip="Set or leave out the chosen line, and why"),
        Binding("x", "take_back", "Take back", id="buying.back", tooltip="Take back what was set by hand"),
        Binding("w", "write_out", "Write out", id="buying.write", tooltip="Write the list out for the merchant"),
        Binding("pagedown", "read_on(1)", "Read on", show=False, priority=True, id="buying.on"),
        Binding("pageup", "read_on(-1)", "Read back", show=False, priority=True, id="buying.before"),
        Binding("question_mark,f1", "help", "Help", key_display="?", id="view.help"),
        Binding("escape,q", "leave", "Back", key_display="Esc", id="buying.leave"),
    ]
    AUTO_FOCUS = "DataTable"

    def __init__(self, door: BuyingDoor) -> None:
        super().__init__()
        self._door, self._currency = door, door.currency
        self._buying, self._facts = door.read()
        self._has_filed = False

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line("", classes="buying--title")
            yield FilterList(_COLUMNS, noun="lines", empty=_EMPTY)
            with VerticalScroll(can_focus=False):
                yield SignedLines()
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        cost = say_cost(cost_of(self._buying, self._facts), self._currency)
        self.query_one(".buying--title", Line).say(f"To buy for {clean(self._facts.job.ref)}{cost}")
        self.query_one(FilterList).fill([Row(key=_key(line), cells=_cells(line)) for line in self._buying.lines])
        self._tell()
        self.refresh_bindings()

    @on(FilterList.Chosen)
    def _chosen_anew(self, event: FilterList.Chosen) -> None:
        event.stop()
        self._tell()
        self.refresh_bindings()

    def _tell(self) -> None:
        self.query_one(SignedLines).show(tuple(self._said()))
        self.query_one(VerticalScroll).scroll_home(animate=False)

    def _said(self) -> Iterator[Said]:
        line = self._chosen
        if line is not None:
            yield Said(words=say_name(line, self._facts), tone=Tone.HEAD)
            yield Said(words=f"{upper(say_to_buy(line))}: {say_how(line)}.")
            yield Said(words=say_bought_as(line, self._facts, self._currency), tone=Tone.MUTED)
            if line.own is not None:
                yield Said(words=f"✎ {upper(say_own(line))}")
            for caution in cautions_of(line):
                yield Said(words=f"▲ {caution}", tone=Tone.WARN)
        for gap in self._buying.gaps:
            yield Said(words=f"▲ {say_gap(gap)}", tone=Tone.WARN)

    @property
    def _chosen(self) -> BuyingLine | None:
        key = self.query_one(FilterList).chosen
        return next((line for line in self._buying.lines if _key(line) == key), None)

    @on(FilterList.Opened)
    def _opened(self, event: FilterList.Opened) -> None:
        event.stop()
        self.action_set_line()

    @work
    async def action_set_line(self) -> None:
        """Set the chosen line by hand."""
        line = self._chosen
        if line is not None and await or_tell(self.app, self._door.set_line(line), False):
            self._again()

    @work
    async def action_take_back(self) -> None:
        """Take back what was set by hand."""
        line = self._chosen
        if line is not None and await or_tell(self.app, self._door.take_back(line), False):
            self._again()

    @work
    async def action_write_out(self) -> None:
        """Write the list out for the merchant."""
        await or_tell(self.app, self._door.write_out(self._buying, self._facts), False)

    def _again(self) -> None:
        self._has_filed = True
        self._buying, self._facts = self._door.read()
        self._show()

    def action_read_on(self, pages: int) -> None:
        """Scroll what is said of the chosen line."""
        below = self.query_one(VerticalScroll)
        below.scroll_relative(y=pages * max(1, below.size.height - 1), animate=False)

    def action_help(self) -> None:
        """Show the keys that work here."""
        self.app.push_screen(help_for(self, "To buy", _TEACHES))

    def action_leave(self) -> None:
        """Go back to the folder."""
        self.dismiss(self._has_filed)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if not self.is_mounted:
            return True
        if action in {"set_line", "write_out"}:
            return bool(self._buying.lines)
        return self._chosen is not None and self._chosen.own is not None if action == "take_back" else True


def _key(line: BuyingLine) -> str:
    return line.key


def _cells(line: BuyingLine) -> tuple[str, ...]:
    if line.beyond_sum:
        sign = "▲"
    else:
        sign = "·" if line.is_left_out else "✎" if line.own is not None else "▲" if line.warns else " "
    return (f"{sign} {say_short_name(line)}", say_to_buy(line), say_how(line))
