"""What the words about a job's holds need beside the hold itself."""

from dataclasses import dataclass
from datetime import date, datetime

from store.trade.facts import JobFacts
from store.trade.firm import ClimateRange, FirmDraft
from store.trade.limits import damp_limits
from store.trade.readings import KINDS
from store.trade.verdict import Hold
from tui.words.limits import say_source
from tui.words.wording import say_day, say_instant


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """What the words need beside the hold itself: the job, the firm and the moment it is read."""

    facts: JobFacts
    firm: FirmDraft
    now: datetime

    def at(self, instant: datetime | None) -> str:
        return say_instant(instant, self.now, self.firm.zone) if instant else "a moment not known"

    def day(self, day: date | None) -> str:
        return say_day(day, self.now.astimezone(self.firm.zone).date()) if day else "a day not known"

    def source_of(self, hold: Hold) -> str:
        """Return whose limit a moisture reading is held to: “ (EN 1264-4:2021, table 2)”; empty if that is unknown."""
        try:
            taken = damp_limits(self.firm, self.facts, self.facts.room(hold.room)).get(KINDS[hold.reading])
        except KeyError:
            return ""
        return f" ({say_source(taken)})" if taken else ""

    def range_of(self, room: str) -> ClimateRange:
        try:
            return self.facts.board(self.facts.room(room).board).climate or self.firm.climate
        except KeyError:
            return self.firm.climate
