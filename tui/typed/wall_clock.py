"""The firm's wall clock at one moment: it says instants in words and reads the ones that are typed."""

from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from tui.typed.figures import Misread
from tui.typed.when import read_day, read_instant
from tui.words.wording import say_day, say_instant, typed_instant


@dataclass(frozen=True, slots=True, kw_only=True)
class WallClock:
    """``now`` is aware; ``zone`` is the firm's."""

    now: datetime
    zone: tzinfo

    @property
    def today(self) -> date:
        """The day it is for the firm."""
        return self.now.astimezone(self.zone).date()

    def day(self, at: datetime) -> date:
        """Return the day of an instant for the firm."""
        return at.astimezone(self.zone).date()

    def say(self, at: datetime) -> str:
        """Return an instant in words: “Sat 28 Nov 09:30”."""
        return say_instant(at, self.now, self.zone)

    def say_day(self, day: date) -> str:
        """Return a day in words: “Sat 28 Nov”."""
        return say_day(day, self.today)

    def typed(self, at: datetime | None = None) -> str:
        """Return an instant, or now, as a field is filled with it."""
        return typed_instant(at or self.now, self.zone)

    def read(self, text: str) -> datetime | Misread:
        """Read a moment that has been typed."""
        return read_instant(text, self.now, self.zone)

    def read_day(self, text: str) -> date | Misread:
        """Read a day that has been typed; a weekday is the next of its name."""
        return read_day(text, self.today)

    def read_past_day(self, text: str) -> date | Misread:
        """Read a day that has been typed; a weekday is the last of its name."""
        return read_day(text, self.today, back=True)

    def echo(self, text: str) -> str:
        """Return what a typed moment means, in words; nothing while it cannot be read."""
        at = self.read(text)
        return "" if isinstance(at, Misread) else self.say(at)

    def echo_day(self, text: str) -> str:
        """Return what a typed day means, in words; nothing while it cannot be read."""
        day = self.read_day(text)
        return "" if isinstance(day, Misread) else self.say_day(day)

    def echo_past_day(self, text: str) -> str:
        """Return what a typed day that is over means, in words; nothing while it cannot be read."""
        day = self.read_past_day(text)
        return "" if isinstance(day, Misread) else self.say_day(day)
