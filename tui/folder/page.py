"""One job's folder as it was answered at one moment: what every section is written from."""

from dataclasses import dataclass, field

from rich.text import Text

from store.desk.cards import JobCard
from store.desk.closing_counter import TakenBack
from store.trade.facts import JobFacts
from store.trade.firm import Firm
from store.trade.flights import Flight
from store.trade.history import HistoryLine
from store.trade.jobs import Room
from store.trade.lasting import Lasting
from store.trade.material_cost import MaterialCost
from store.trade.planning.activities import Times
from store.trade.planning.job_network import JobTimes
from store.trade.readings import WithdrawnReading
from store.trade.taught.hints import Hint
from store.trade.verdict import HoldState, NextDeed
from tui.typed.wall_clock import WallClock
from tui.widgets.rows import Row
from tui.widgets.signed_lines import Said, Tone

STATE_TONES = {
    HoldState.CLEAR: Tone.OK,
    HoldState.WAITING: Tone.WAIT,
    HoldState.TO_DO: Tone.WARN,
    HoldState.FAILED: Tone.BAD,
}
Fact = TakenBack | Room | Flight | HistoryLine | Times | WithdrawnReading


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """What the desk answered about a job: its card, the firm, the moment, and its history, the latest first.

    ``times`` are its earliest and latest days; None where nothing is left to be done. ``withdrawn`` are the readings
    that were taken back, where they are to be shown; ``lasting`` is what is left of boards and glue being laid,
    ``hints`` what closed jobs say to the floors whose boards are not all ordered; ``cost`` is what the material costs.
    """

    card: JobCard
    firm: Firm
    clock: WallClock
    history: tuple[HistoryLine, ...] = ()
    times: JobTimes | None = None
    withdrawn: tuple[WithdrawnReading, ...] = ()
    lasting: Lasting = field(default_factory=Lasting)
    hints: tuple[Hint, ...] = ()
    cost: MaterialCost | None = None

    @property
    def facts(self) -> JobFacts:
        return self.card.facts

    @property
    def next_deed(self) -> NextDeed | None:
        """The first thing to do that can help now, else the first; None if there is nothing to do."""
        to_do = self.card.standing.to_do
        now = [one for one in to_do if one.not_before is None or one.not_before <= self.clock.now]
        return next(iter(now or to_do), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of a section: its cells, what is on file behind it, and all there is to say about it."""

    key: str
    cells: tuple[str | Text, ...]
    fact: Fact
    title: str
    whole: tuple[Said, ...]

    @property
    def row(self) -> Row:
        return Row(key=self.key, cells=self.cells)
