"""Every job ever taken on: the open ones by stage, the past ones after them, found as one types."""

from datetime import date, tzinfo
from typing import ClassVar

from textual import on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from store.desk.cards import JobCard, Slot
from store.desk.desk import Desk
from store.trade.jobs import JobLine
from store.trade.verdict import Stage, Verdict
from tui.doors import OpenJob, OpenTaught, ViewName
from tui.errands.errands import Errands
from tui.view import View
from tui.widgets.fitted_list import FitCell, FitColumn, FitRow, FittedList
from tui.words.today import PARTS, say_promised, say_signs
from tui.words.vocabulary import STAGES
from tui.words.wording import say_day

_COLUMNS = (
    FitColumn(label="Stage"),
    FitColumn(label="Laying", only_wide=True),
    FitColumn(label="Job", most=16),
    FitColumn(label="Floor", gives=True, most=44),
    FitColumn(label="Customer", gives=True, most=36, only_wide=True),
    FitColumn(label="Promised"),
)
_VERDICTS = {
    Verdict.READY: "ready to lay",
    Verdict.READY_FROM: "ready later",
    Verdict.BLOCKED: "to do first",
    None: "all laid",
}
_EMPTY = """No job is on file yet.

Press n to take on the first one: its reference, whom the floor is for, and
where. Closed jobs stay in this list, to be found again by a word of their
title, customer, address or reference.

To look round a made-up firm first, leave with q and run: layday --demo"""


class JobsScreen(View):
    """A list of every job; Enter opens its folder."""

    NAME: ClassVar[ViewName | None] = ViewName.JOBS
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Every job, the open ones first by how far they are, then the past ones, the latest closed first. / finds a "
        "job by a word of its reference, floor, customer, address, stage or day.",
        "t shows what the closed ones taught: what their floors really took beside what was allowed.",
        f"{say_signs()}.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("n", "take_on", "New job", id="jobs.new", tooltip="Take on a job: add a customer, enter an enquiry"),
        Binding("t", "taught", "Taught", id="jobs.taught", tooltip="What closed jobs taught: cut loss, glue, worth"),
    ]

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self.errands = Errands(self)

    def parts(self) -> ComposeResult:
        yield FittedList(_COLUMNS, noun="jobs", empty=_EMPTY)

    def on_mount(self) -> None:
        self.query_one(FittedList).focus_list()

    def again(self) -> None:
        firm, now = self.desk.firm.card(), self.desk.now()
        today = now.astimezone(firm.zone).date()
        cards = sorted(self.desk.jobs.today(), key=lambda card: card.standing.stage.step)
        still_open = {card.ref for card in cards}
        past = [line for line in self.desk.jobs.lines() if line.ref not in still_open]
        past.sort(key=lambda line: line.closed_at or now, reverse=True)
        rows = [_open_row(card, today, firm.zone) for card in cards]
        rows += [_past_row(line, today, firm.zone) for line in past]
        self.query_one(FittedList).show_rows(rows)

    @on(FittedList.Opened)
    def _opened(self, event: FittedList.Opened) -> None:
        self.post_message(OpenJob(event.key))

    def action_taught(self) -> None:
        """Show what closed jobs taught."""
        self.post_message(OpenTaught())

    def action_take_on(self) -> None:
        """Take on a job, and open its folder: its rooms come next."""
        self._take_on()

    @work
    async def _take_on(self) -> None:
        ref = await self.errands.take_on()
        if ref is not None:
            self.query_one(FittedList).choose(ref)
            self.post_message(OpenJob(ref))


def _open_row(card: JobCard, today: date, zone: tzinfo) -> FitRow:
    job, standing, part = card.facts.job, card.standing, PARTS[card.slot]
    verdict = _VERDICTS[standing.verdict]
    if card.slot is Slot.WAITING and standing.best_case is not None:
        verdict = f"till {say_day(standing.best_case.astimezone(zone).date(), today)}"
    elif standing.ready_from is not None:
        verdict = f"from {say_day(standing.ready_from.astimezone(zone).date(), today)}"
    words = (f"{part.sign} {STAGES[standing.stage]}", verdict, job.ref, job.title, job.customer.name)
    return _row(job.ref, (*words, say_promised(job, today)), part.tone, job.address)


def _past_row(line: JobLine, today: date, zone: tzinfo) -> FitRow:
    closed = f"closed {say_day(line.closed_at.astimezone(zone).date(), today)}" if line.closed_at else ""
    past = PARTS[Slot.CLOSED]
    words = (f"{past.sign} {STAGES[Stage.CLOSED]}", "", line.ref, line.title, line.customer, closed)
    return _row(line.ref, words, past.tone, line.address)


def _row(ref: str, words: tuple[str, ...], tone: str, found_by: str) -> FitRow:
    stage, *others = words
    cells = (FitCell(parts=(stage,), tone=tone), *(FitCell(parts=(one,)) for one in others))
    return FitRow(key=ref, cells=cells, found_by=found_by)
