"""Shows a plan that gets better while one looks, and asks which floors of it are to be booked."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from rich.text import Text
from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.message import Message
from textual.widgets import DataTable, Footer
from textual.worker import get_current_worker

from store.trade.planning.nouns import Decider, FloorKey, Proposal, Reason, Visit
from store.trade.planning.situation import Planning
from tui.dialogs.helped import Helped
from tui.widgets.safe import Line, cell
from tui.words.proposals import say_floor, say_plan_sum, say_reason, say_visit, say_where_to

Taken = tuple[Proposal, frozenset[FloorKey]]
_COLUMNS = (("", 1), ("Floor", 20), ("Who", 11), ("When", 31))


class ProposedPlan(Helped[Taken | None]):
    """Answers the plan and the floors of it that are to be booked; None if nothing is.

    Args:
        planning: what the plan is made from.
        search: searches ever better plans; runs in a thread.
        today: the day it is for the firm.
        title: what the plan is for, if not for how things stand.
    """

    DEFAULT_CSS = """
    ProposedPlan { background: $background; }
    ProposedPlan > Vertical { width: 100%; height: 1fr; padding: 0 1; background: $surface; border: round $border; }
    ProposedPlan .plan--title { text-style: bold; color: $text-accent; }
    ProposedPlan .plan--sum { height: auto; max-height: 7; }
    ProposedPlan DataTable { height: 1fr; margin: 1 0 0 0; }
    ProposedPlan .plan--why { height: 2; color: $text-muted; }
    """
    CALLED: ClassVar[str] = "a proposed plan"
    TEACHES: ClassVar[tuple[str, ...]] = (
        "A plan is looked for until nothing better is found: the fewest days late, then the fewest moves.",
        "Nothing is booked before Enter; Space leaves a floor out, and its booking stays as it is.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("space", "pick", "In or out", key_display="Space", id="plan.pick"),
        Binding("a", "pick_all", "All or none", id="plan.all"),
        Binding("enter,b", "book", "Book marked", key_display="Enter", id="plan.book", priority=True),
        Binding("escape,q", "leave", "Book nothing", key_display="Esc", id="plan.leave"),
    ]

    @dataclass
    class Better(Message):
        """A better plan was found."""

        proposal: Proposal

        def can_replace(self, message: Message) -> bool:
            return isinstance(message, ProposedPlan.Better)

    def __init__(
        self,
        planning: Planning,
        *,
        search: Callable[[], Iterator[Proposal]],
        today: date,
        title: str = "Who could lay what, and when",
    ) -> None:
        super().__init__()
        self._title = title
        self._planning, self._search, self._today = planning, search, today
        self._best: Proposal | None = None
        self._out: set[FloorKey] = set()

    def compose(self) -> ComposeResult:
        with Vertical():
            yield Line(self._title, classes="plan--title")
            yield Line("Looking for a plan …", classes="plan--sum")
            yield DataTable[Text](cursor_type="row", cell_padding=0)
            yield Line("", classes="plan--why")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        table = self._table
        for words, width in _COLUMNS:
            table.add_column(cell(words), width=width + 1, key=words or "in")
        table.focus()
        self._go_on()

    @property
    def _table(self) -> DataTable[Text]:
        return self.query_one(DataTable)

    @work(thread=True, exclusive=True, group="plan")
    def _go_on(self) -> None:
        worker = get_current_worker()
        for proposal in self._search():
            if worker.is_cancelled:
                return
            self.post_message(self.Better(proposal))

    @on(Better)
    def _better(self, event: Better) -> None:
        event.stop()
        self._best = event.proposal
        self._show()

    def _show(self) -> None:
        best, table = self._best, self._table
        if best is None:
            return
        here = table.cursor_row
        table.clear()
        for reason in self._reasons(best):
            mark, floor, who, when = self._words(reason, best)
            table.add_row(cell(mark), cell(floor), cell(who), cell(when), key=_key(reason.floor))
        table.move_cursor(row=max(0, min(here, table.row_count - 1)))
        said = say_plan_sum(best, self._planning, self._today)
        looking = "" if best.done >= 1 else f" Still looking, {100 * best.done:.0f} %."
        self.query_one(".plan--sum", Line).say("\n".join([said[0] + looking, *said[1:]]))
        self._say_why()

    def _reasons(self, best: Proposal) -> list[Reason]:
        """The floors by the day on which they are laid, those without one last."""
        order = {visit.floor: place for place, visit in enumerate(best.visits)}
        return sorted(best.reasons, key=lambda one: order.get(one.floor, len(order)))

    def _visit(self, best: Proposal, key: FloorKey) -> Visit | None:
        return next((one for one in best.visits if one.floor == key), None)

    def _moves(self, reason: Reason) -> bool:
        """Whether booking this floor would change anything."""
        return reason.decider not in {Decider.BOOKED, Decider.PINNED, Decider.NOBODY, Decider.NO_DAY}

    def _words(self, reason: Reason, best: Proposal) -> tuple[str, str, str, str]:
        visit = self._visit(best, reason.floor)
        mark = "=" if not self._moves(reason) else "·" if reason.floor in self._out else "✓"
        when = say_visit(visit, self._today) if visit else f"▲ {say_reason(reason, self._today)}"
        return mark, say_floor(reason.floor), visit.fitter if visit else "", when

    @on(DataTable.RowHighlighted)
    def _say_why(self) -> None:
        reason = self._chosen
        if reason is None:
            return
        why = say_reason(reason, self._today)
        words = f"{say_where_to(reason, self._planning)}: {why}."
        self.query_one(".plan--why", Line).say(words)

    @property
    def _chosen(self) -> Reason | None:
        if self._best is None or not self._table.row_count:
            return None
        return self._reasons(self._best)[self._table.cursor_row]

    def action_pick(self) -> None:
        """Take the floor under the cursor into what is booked, or out of it."""
        reason = self._chosen
        if reason is not None and self._moves(reason):
            self._out ^= {reason.floor}
            self._show()

    def action_pick_all(self) -> None:
        """Mark every floor, or none."""
        if self._best is not None:
            every = {one.floor for one in self._best.reasons if self._moves(one)}
            self._out = set() if self._out else every
            self._show()

    def action_book(self) -> None:
        """Book the marked floors."""
        if self._best is None:
            return
        chosen = frozenset(one.floor for one in self._best.reasons if self._moves(one) and one.floor not in self._out)
        self.dismiss((self._best, chosen) if chosen else None)

    def action_leave(self) -> None:
        """Book nothing."""
        self.dismiss(None)


def _key(floor: FloorKey) -> str:
    return f"{floor.job}\n{floor.room}"
