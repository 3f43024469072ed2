"""What the desk answers: frozen cards that the window shows and never changes."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from store.trade.counts import Reckoning
from store.trade.events import PlaceKind
from store.trade.facts import JobFacts
from store.trade.plans import Plan
from store.trade.verdict import Standing


class Slot(StrEnum):
    """The part of the day's list a job belongs to."""

    LAY = "lay"
    TO_DO = "to_do"
    WAITING = "waiting"
    CURING = "curing"
    CLOSE_OUT = "close_out"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True, kw_only=True)
class JobCard:
    """One job whole: what is on file, where it stands now, and the part of the day's list it is in.

    ``plans`` are the lay plans that its rooms are counted by, in the order of the rooms.
    """

    facts: JobFacts
    standing: Standing
    slot: Slot
    reckoning: tuple[Reckoning, ...] = ()
    plans: tuple[Plan, ...] = ()

    @property
    def ref(self) -> str:
        return self.facts.job.ref


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """What lies in one place of one batch: full packs and loose boards. ``job_ref`` is empty for free stock."""

    product: str
    product_name: str
    batch: str
    place: PlaceKind
    room: str
    job_ref: str
    packs: int
    boards: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One result of looking whether everything is in order; ``good`` is False where it is not."""

    what: str
    good: bool
    say: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Saved:
    """A verified copy of the records: where it lies, when it was made, how large it is, and its SHA-256."""

    path: Path
    at: datetime
    size_bytes: int
    sha256: str
