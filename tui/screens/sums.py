"""The sums of the trade, without a job: one is chosen at the left, asked at the right, and answered as one types."""

import argparse
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal, VerticalScroll
from textual.message import Message
from textual.widgets import Input, OptionList
from textual.widgets.option_list import Option as Listed

from store.desk.desk import Desk
from store.errors import StoreError
from tui.command.sums import SUMS
from tui.command.sums_on_offer import Sum
from tui.doors import ViewName
from tui.view import View
from tui.widgets.choices import Pick, Tick
from tui.widgets.fields import Field
from tui.widgets.one_line import OneLine
from tui.widgets.safe import Line, plain
from tui.widgets.sum_form import SumForm
from tui.words.sums import say_sum

_NAMES = {
    "rows": "Rows between two walls",
    "emc": "Wood in a room's air",
    "dew-point": "Dew point",
    "movement": "Wood's movement",
    "gap": "Gap along the walls",
    "drying": "Screed's drying",
    "first-heating": "First heating",
    "flatness": "Flatness",
    "smoothing": "Smoothing compound",
    "glue": "Glue",
    "tests": "Moisture tests",
    "moisture-gap": "Boards and subfloor",
    "trims": "Skirting and trims",
    "herringbone": "Herringbone blocks",
    "chevron": "Chevron blocks",
    "diagonal": "Laying at 45°",
    "film": "Film and underlay",
    "primer": "Primer",
    "screws": "Screws",
    "stairs": "Stairs",
    "skirting": "Skirting of a room",
    "lay": "A room of a file, laid",
    "random-lengths": "Boards as they come",
}


class _SumList(OptionList):
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("enter", "select", "Fill in", key_display="Enter", id="list.open"),
    ]


class SumsScreen(View):
    """The sums that need no job; nothing is stored."""

    NAME: ClassVar[ViewName | None] = ViewName.SUMS
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Choose a sum at the left, and type at the right: the answer stands below as soon as nothing is missing. "
        "Commas and points are both read. Nothing is stored.",
    )
    DEFAULT_CSS = """
    SumsScreen OptionList { width: 27; height: 1fr; border: none; background: $surface; scrollbar-size-vertical: 1; }
    SumsScreen OptionList:focus { border: none; background-tint: $foreground 0%; }
    SumsScreen .field--label { width: 13; }
    SumsScreen Field > .field--problem { padding: 0 0 0 13; }
    SumsScreen .sum--number OneLine { width: 12; }
    SumsScreen .sum--number .field--echo { width: 1fr; max-width: 100%; color: $text-muted; }
    SumsScreen VerticalScroll { width: 1fr; height: 1fr; padding: 0 1; scrollbar-size-vertical: 1; }
    SumsScreen .sum--form { height: auto; }
    SumsScreen .sum--about { text-style: bold; color: $text-accent; margin: 0 0 1 0; }
    SumsScreen .sum--answer { margin: 1 0 0 0; padding: 0 1; border-left: thick $border; }
    SumsScreen .sum--answer.-yet { color: $text-muted; border-left: thick $border-blurred; }
    SumsScreen .sum--answer.-no { color: $text-error; }
    SumsScreen .sum--source { color: $text-muted; margin: 1 0 0 0; }
    SumsScreen .sum--hint { color: $text-muted; height: 1; padding: 0 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape", "back", "List of sums", key_display="Esc", id="sums.back"),
    ]

    @dataclass
    class Answered(Message):
        """A sum is worked out; ``say`` is its answer, or why there is none."""

        count: int
        say: str
        tone: str

        def can_replace(self, message: Message) -> bool:
            return isinstance(message, SumsScreen.Answered)

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._count = 0
        self._is_turning = False
        self._form = SumForm(*next(iter(SUMS.items())))

    def parts(self) -> ComposeResult:
        with Horizontal():
            yield _SumList(*(Listed(plain(_NAMES.get(name, name)), id=name) for name in SUMS), markup=False)
            with VerticalScroll(can_focus=False):
                yield self._form
        yield Line("", classes="sum--hint")

    def on_mount(self) -> None:
        self.query_one(OptionList).focus()
        self.query_one(OptionList).highlighted = 0

    def again(self) -> None:
        pass

    @property
    def form(self) -> SumForm:
        """The sum that is asked now."""
        return self._form

    @on(OptionList.OptionHighlighted)
    async def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        name = event.option_id
        if name is None or name == self.form.sum_name:
            return
        self._count += 1
        self._is_turning = True  # a form that is only half there cannot be read
        side = self.query_one(VerticalScroll)
        async with self.batch():
            before, self._form = self._form, SumForm(name, SUMS[name])
            await before.remove()
            await side.mount(self._form)
        self._is_turning = False
        side.scroll_home(animate=False)
        self._work_out(is_asked=False)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        first = next(iter(self.form.query("OneLine, Pick").results()), None)
        if first is not None:
            first.focus()

    @on(Field.Changed)
    def _changed(self, event: Field.Changed) -> None:
        event.stop()
        self._work_out(is_asked=False)

    @on(Input.Submitted)
    @on(Pick.GoOn)
    @on(Tick.GoOn)
    def _go_on(self, event: Input.Submitted | Pick.GoOn | Tick.GoOn) -> None:
        event.stop()
        answers = list(_answers(self.form))
        here = next((place for place, one in enumerate(answers) if one.has_focus), len(answers))
        if here + 1 < len(answers):
            answers[here + 1].focus()
        else:
            answers[0].focus()
        self._work_out(is_asked=True)

    def on_descendant_focus(self) -> None:
        field = next((one for one in self.form.fields if one.has_focus_within), None)
        hint = "Enter goes to the fields; Esc comes back." if field is None else field.hint
        self.query_one(".sum--hint", Line).say(hint)

    def _work_out(self, *, is_asked: bool) -> None:
        if self._is_turning:
            return
        self._count += 1
        form = self.form
        asked = form.read()
        if asked is None:
            form.answer("The answer stands here as soon as nothing is missing.", "yet")
        elif form.sum.at_once or is_asked:
            if not form.sum.at_once:
                form.answer("Working it out…", "yet")
            columns = max(self.query_one(VerticalScroll).size.width - 5, 40)
            self._reckon(self._count, form.sum, asked, partial(say_sum, today=self.clock.today, columns=columns))
        else:
            form.answer("Enter works it out.", "yet")

    @work(thread=True, exclusive=True, group="sum")
    def _reckon(self, count: int, sum_: Sum, asked: argparse.Namespace, say_it: Callable[[object], str]) -> None:
        try:
            say, tone = say_it(sum_.work_out(asked)), ""
        except StoreError as error:
            say, tone = f"✗ {error}", "no"
        self.post_message(self.Answered(count, say, tone))

    @on(Answered)
    def _answered(self, event: Answered) -> None:
        event.stop()
        if event.count == self._count:
            self.form.answer(event.say, event.tone)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        return action != "back" or not self.query_one(OptionList).has_focus

    def action_back(self) -> None:
        """Go back to the list."""
        self.query_one(OptionList).focus()


def _answers(form: SumForm) -> Iterator[OneLine | Pick]:
    for one in form.query("*").results():
        if isinstance(one, OneLine | Pick):
            yield one
