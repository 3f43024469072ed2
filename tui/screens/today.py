"""The first screen in the morning: what can be laid, what to do, what waits, and the job under the cursor."""

from typing import ClassVar

from textual import events, on, work
from textual.app import ComposeResult
from textual.binding import Binding, BindingType

from store.desk.cards import JobCard
from store.desk.desk import Desk
from store.trade.planning.job_network import JobTimes
from store.trade.verdict import NextDeed
from tui.doors import OpenJob, ViewName
from tui.errands.errands import Errands
from tui.telling import tell
from tui.view import View
from tui.widgets.day_count import DayCount
from tui.widgets.day_list import DayList
from tui.widgets.deed_list import DeedList
from tui.widgets.job_sheet import JobSheet
from tui.widgets.safe import Line
from tui.words.diary import say_team
from tui.words.sheet import Glance
from tui.words.today import say_signs

_TALL_FROM = 30


class TodayScreen(View):
    """Every open job under its part of the day, and below it the chosen one at a glance."""

    NAME: ClassVar[ViewName | None] = ViewName.TODAY
    TEACHES: ClassVar[tuple[str, ...]] = (
        "Every open job, the most pressing first: what can be laid today, what somebody must do, what waits or "
        "cures by itself, and what is to be counted, signed and closed. Above it, where everybody is on the next day "
        "that is worked, by the number of the job.",
        "d does the first thing to do of the job under the cursor; Tab goes to its list of things to do, and Enter "
        "does the one under the cursor there. Enter in the list of jobs opens the job's folder.",
        f"{say_signs()}. late: the promised day is over. slips: it will be missed as things stand; the job's own "
        "lines say by how much.",
    )
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("d", "do_next", "Do next", id="today.do", tooltip="Do the first thing to do of this job"),
        Binding("escape", "back", "Back to the list of jobs", show=False, id="today.back"),
        Binding("n", "take_on", "New job", id="today.new", tooltip="Take on a job: add a customer, enter an enquiry"),
    ]
    DEFAULT_CSS = """
    TodayScreen DayList { height: auto; }
    TodayScreen .today--team { padding: 0 1; max-height: 2; color: $text-muted; }
    TodayScreen.-tall JobSheet { border-top: solid $border-blurred; }
    TodayScreen.-idle JobSheet { display: none; }
    """

    def __init__(self, desk: Desk) -> None:
        super().__init__(desk)
        self._cards: dict[str, JobCard] = {}
        self._times: dict[str, JobTimes] = {}
        self.errands = Errands(self)

    def parts(self) -> ComposeResult:
        yield DayCount()
        yield Line("", classes="today--team")
        yield DayList()
        yield JobSheet()

    def on_mount(self) -> None:
        self.query_one(DayList).focus_list()

    def again(self) -> None:
        cards = self.desk.jobs.today()
        self._cards = {card.ref: card for card in cards}
        firm, now = self.desk.firm.card(), self.desk.now()
        self._times = self.desk.times.of_all(card.facts for card in cards)
        self.query_one(DayCount).show(cards)
        self._say_team(say_team(cards, self.desk.firm.people(), firm, now))
        self._share_rows()
        self.query_one(DayList).show(cards, firm, now, self._times)
        self._show_chosen()

    def _say_team(self, words: str) -> None:
        line = self.query_one(".today--team", Line)
        line.say(words)
        line.display = bool(words)

    def _share_rows(self) -> None:
        """Give the list the rows it needs, up to a little more than half; the job below it gets the rest."""
        jobs = self.query_one(DayList)
        jobs.styles.height = min(len(self._cards), max((self.size.height - 3) * 6 // 10, 3)) if self._cards else "1fr"

    def on_resize(self, event: events.Resize) -> None:
        self.set_class(event.size.height >= _TALL_FROM, "-tall")
        self._share_rows()

    @property
    def chosen(self) -> JobCard | None:
        """The job under the cursor."""
        key = self.query_one(DayList).chosen
        return self._cards.get(key) if key else None

    def _show_chosen(self) -> None:
        self.set_class(self.chosen is None, "-idle")
        card = self.chosen
        if card is not None:
            times, firm = self._times.get(card.ref), self.desk.firm.card()
            self.query_one(JobSheet).show(Glance(card=card, firm=firm, now=self.desk.now(), times=times))

    @on(DayList.Chosen)
    def _moved(self) -> None:
        self._show_chosen()

    @on(DayList.Opened)
    def _opened(self, event: DayList.Opened) -> None:
        self.post_message(OpenJob(event.key))

    @on(DeedList.Do)
    def _picked(self, event: DeedList.Do) -> None:
        if self.chosen is not None:
            self._do(event.deed, self.chosen.ref)

    def action_do_next(self) -> None:
        """Do the first thing to do of the chosen job, or the one under the cursor in its list."""
        if self.chosen is None:
            return
        deeds = self.query_one(DeedList)
        first = next(iter(self.chosen.standing.to_do), None)
        deed = deeds.under_cursor if deeds.has_focus else first
        if deed is None:
            tell(self.app, "There is nothing to do about this job now; it waits by itself.")
            return
        self._do(deed, self.chosen.ref)

    @work
    async def _do(self, deed: NextDeed, ref: str) -> None:
        await self.errands.do(deed, ref)

    @work
    async def _take_on(self) -> None:
        ref = await self.errands.take_on()
        if ref is not None:
            self.query_one(DayList).choose(ref)
            self.post_message(OpenJob(ref))

    def action_take_on(self) -> None:
        """Take on a job, and open its folder: its rooms come next."""
        self._take_on()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        if action == "do_next":
            return bool(self._cards)
        if action == "back":
            return self.is_mounted and not self.query_one(DayList).has_focus_within
        return True

    def action_back(self) -> None:
        """Put the cursor back into the list of jobs."""
        self.query_one(DayList).focus_list()
