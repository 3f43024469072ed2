"""What if, side by side: what is supposed, what would follow, and what another plan could do; nothing is filed."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.message import Message
from textual.screen import ModalScreen
from textual.widgets import Footer
from textual.worker import get_current_worker

from store.desk.diary_cards import Booked
from store.errors import StoreError
from store.trade.planning.consequences import Consequences, Outlook, consequences, plan_moves
from store.trade.planning.nouns import Proposal
from store.trade.planning.situation import Planning, Situation
from store.trade.planning.suppose import Supposition
from tui.dialogs.help_screen import help_for
from tui.dialogs.supposing_door import Door
from tui.telling import or_tell
from tui.widgets.filter_list import FilterList
from tui.widgets.rows import Column, Row
from tui.widgets.safe import Line
from tui.words.supposing import say_another_plan, say_supposition, say_what_follows

_MOST_ROWS = 5
_EMPTY = (
    "Nothing is supposed yet. n adds a what-if: a delivery that comes later, somebody who is ill, a floor that is not "
    "ready, a screed that stays damp, another promised day."
)
_TEACHES = (
    "Several what-ifs count together. What would follow is worked out from the facts on file and these, and nothing is "
    "changed by it. PgDn and PgUp read on and back.",
    "f files the what-if under the cursor for real: a new due day of an order, days off, the day a site is ready, "
    "another promised day. x leaves it out. p shows the plan that is best then; what is booked from it is booked for "
    "real, and u in the diary turns it back.",
)


class Supposing(ModalScreen[Booked | None]):
    """Shows what would follow from what is supposed; answers what was booked from a plan, or None."""

    DEFAULT_CSS = """
    Supposing { background: $background; }
    Supposing > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    Supposing .supposing--title { text-style: bold; color: $text-accent; }
    Supposing .supposing--follows { height: 1fr; border-top: solid $border; scrollbar-size-vertical: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "add", "Add", id="suppose.add", tooltip="Suppose something else too"),
        Binding("f", "take_up", "File it", id="suppose.file", tooltip="File it for real"),
        Binding("x", "leave_out", "Leave out", id="suppose.out"),
        Binding("p", "plan", "Plan", id="suppose.plan", tooltip="The plan that is best then"),
        Binding("pagedown", "read_on(1)", "Read on", show=False, priority=True, id="suppose.on"),
        Binding("pageup", "read_on(-1)", "Read back", show=False, priority=True, id="suppose.back"),
        Binding("question_mark,f1", "help", "Help", key_display="?", id="view.help"),
        Binding("escape,q", "leave", "Back", key_display="Esc", id="suppose.leave"),
    ]
    AUTO_FOCUS = "DataTable"

    @dataclass
    class Followed(Message):
        """What would follow is known."""

        number: int
        found: Consequences

    @dataclass
    class Planned(Message):
        """A plan for how things would stand, as against the best one for how they stand."""

        number: int
        planning: Planning
        situation: Situation
        was: Proposal
        plan: Proposal

        def can_replace(self, message: Message) -> bool:
            return isinstance(message, Supposing.Planned) and message.number == self.number

    @dataclass
    class Refused(Message):
        """The shop cannot tell; ``say`` is why."""

        number: int
        say: str

    def __init__(self, door: Door) -> None:
        super().__init__()
        self._door = door
        self._situation = door.situation()
        self._supposed: list[Supposition] = []
        self._number = 0
        self._as_it_is: tuple[Outlook, Proposal] | None = None
        self._follows: tuple[str, ...] = ()
        self._planned: Supposing.Planned | None = None

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line("What if? Nothing on file is touched.", classes="supposing--title")
            yield FilterList([Column(label="Suppose that")], noun="what-ifs", empty=_EMPTY)
            with VerticalScroll(classes="supposing--follows", can_focus=False):
                yield Line("")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        self._show()
        self.action_add()

    @property
    def _rows(self) -> FilterList:
        return self.query_one(FilterList)

    def _show(self) -> None:
        """Show what is supposed, and reckon anew what would follow."""
        words = [say_supposition(one, self._situation) for one in self._supposed]
        self._rows.fill([Row(key=str(place), cells=(said,)) for place, said in enumerate(words)])
        self._rows.styles.height = min(len(words) or 3, _MOST_ROWS) + 2
        self._number += 1
        self._follows, self._planned = (), None
        self._say("◐ Working out what would follow …" if words else "")
        if words:
            self._reckon(self._number, self._situation, tuple(self._supposed))
        self.refresh_bindings()

    def _say(self, *lines: str) -> None:
        self.query_one(".supposing--follows Line", Line).say("\n".join(lines))

    @work(thread=True, exclusive=True, group="suppose")
    def _reckon(self, number: int, situation: Situation, supposed: Sequence[Supposition]) -> None:
        worker, door = get_current_worker(), self._door
        try:
            kept = self._as_it_is
            before = kept[0] if kept else door.outlook(situation, ())
            after = door.outlook(situation, supposed)
            self.post_message(self.Followed(number, consequences(before, after)))
            was = kept[1] if kept else None
            if was is None:
                for plan in door.search(door.planning(before), before.situation):
                    if worker.is_cancelled:
                        return
                    was = plan
            if was is None:
                return
            self._as_it_is = (before, was)
            planning = door.planning(after)
            for plan in door.search(planning, after.situation):
                if worker.is_cancelled:
                    return
                self.post_message(self.Planned(number, planning, after.situation, was, plan))
        except StoreError as error:
            self.post_message(self.Refused(number, str(error)))

    @on(Followed)
    def _followed(self, event: Followed) -> None:
        event.stop()
        if event.number == self._number:
            zone = self._situation.firm.zone
            self._follows = tuple(say_what_follows(event.found, self._situation, zone))
            self._say(*self._follows, "", "◐ Looking for another plan …")

    @on(Planned)
    def _another_plan(self, event: Planned) -> None:
        event.stop()
        if event.number == self._number:
            self._planned = event
            moves = plan_moves(event.was, event.plan, event.planning.titles)
            said = say_another_plan(event.was, event.plan, moves, self._situation.today)
            self._say(*self._follows, "", *said)
            self.refresh_bindings()

    @on(Refused)
    def _no_plan(self, event: Refused) -> None:
        event.stop()
        if event.number == self._number:
            self._say(*self._follows, *([""] if self._follows else []), f"▲ {event.say}")

    @property
    def _chosen(self) -> Supposition | None:
        key = self._rows.chosen
        return self._supposed[int(key)] if key is not None and int(key) < len(self._supposed) else None

    @work
    async def action_add(self) -> None:
        """Ask for another what-if, and put it to the others."""
        found = await or_tell(self.app, self._door.another(self._situation), None)
        if found is not None:
            self._supposed.append(found)
            self._show()
            self._rows.choose(str(len(self._supposed) - 1))

    @on(FilterList.Opened)
    def _opened(self, event: FilterList.Opened) -> None:
        event.stop()
        self.action_take_up()

    @work
    async def action_take_up(self) -> None:
        """File the what-if under the cursor for real; it is none any longer then."""
        chosen = self._chosen
        if chosen is None:
            return
        if await or_tell(self.app, self._door.take_up(self._situation, chosen), False):
            self._supposed.remove(chosen)
        self._situation, self._as_it_is = self._door.situation(), None
        self._show()

    def action_leave_out(self) -> None:
        """Leave the what-if under the cursor out."""
        chosen = self._chosen
        if chosen is not None:
            self._supposed.remove(chosen)
            self._show()

    @work
    async def action_plan(self) -> None:
        """Show the plan that is best then; go back to the diary if something of it is booked."""
        planned = self._planned
        if planned is not None:
            booked = await or_tell(self.app, self._door.show_plan(planned.planning, planned.situation), None)
            if booked is not None:
                self.dismiss(booked)

    def action_read_on(self, pages: int) -> None:
        """Scroll what would follow."""
        follows = self.query_one(".supposing--follows", VerticalScroll)
        follows.scroll_relative(y=pages * max(1, follows.size.height - 1), animate=False)

    def action_help(self) -> None:
        """Show the keys that work here."""
        self.app.push_screen(help_for(self, "What if", _TEACHES))

    def action_leave(self) -> None:
        """Go back; what was supposed is forgotten."""
        self.dismiss(None)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action in {"take_up", "leave_out"}:
            return bool(self._supposed)
        return self._planned is not None if action == "plan" else True
