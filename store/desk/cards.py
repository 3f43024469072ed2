"""What the desk answers: frozen cards that the window shows and never changes."""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from pathlib import Path

from store.trade.counts import Reckoning
from store.trade.credits import CreditFor
from store.trade.damage import DamageClaim
from store.trade.events import PlaceKind
from store.trade.facts import JobFacts
from store.trade.plans import Plan
from store.trade.returns import ReturnCredit
from store.trade.things import ProductKind, Thing
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

    ``plans`` are the lay plans that its rooms are counted by, in the order of the rooms; ``credits`` what to expect for
    packs that went back to their supplier, ``claims`` for those that came damaged.
    """

    facts: JobFacts
    standing: Standing
    slot: Slot
    reckoning: tuple[Reckoning, ...] = ()
    plans: tuple[Plan, ...] = ()
    credits: tuple[ReturnCredit, ...] = ()
    claims: tuple[DamageClaim, ...] = ()

    @property
    def ref(self) -> str:
        return self.facts.job.ref


@dataclass(frozen=True, slots=True, kw_only=True)
class ToOrder:
    """Packs, tubs or other units that a job needs and has not ordered, whom they are bought from, and by when.

    ``supplier`` is empty where the product names none; ``by`` is None where no day can be told.
    """

    product: str
    thing: Thing
    packs: int
    supplier: str
    by: date | None
    job_ref: str
    job_title: str
    worth_minor: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLine:
    """What lies in one place of one batch: full packs (or tubs) and loose boards.

    ``job_ref`` is empty for free stock. ``worth_minor`` is what it cost, in the firm's minor money unit.
    ``batches`` counts the batches of this board that lie with the job, opened or not. ``since`` is when the first of
    the batch came to the firm, None where nobody wrote that down; ``use_by`` the last day on which a glue may be used,
    the earliest of the batch.
    """

    product: str
    product_name: str
    kind: ProductKind
    thing: Thing
    batch: str
    place: PlaceKind
    room: str
    job_ref: str
    job_title: str
    packs: int
    boards: int
    worth_minor: int
    batches: int
    since: datetime | None = None
    use_by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class CreditDue:
    """A credit that is still to come: for packs of a job that went back, or came damaged, on the day ``since``."""

    job_ref: str
    job_title: str
    supplier: str
    owed_for: CreditFor
    product: str
    packs: int
    since: date
    due_minor: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StockSum:
    """What lies unopened and sound in the unit and in the rooms: packs and loose boards, tubs, and their worth.

    ``materials`` counts the units of everything else, whatever each is. ``stale`` tubs are past the last day that one
    of their batch says: they are in no other figure.
    """

    packs: int
    boards: int
    tubs: int
    materials: int
    worth_minor: int
    stale: int = 0


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A copy that lies in the folder of copies or beside the records, and when its name says it was made (UTC)."""

    path: Path
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordsCard:
    """The records as a file: where they lie, how large they are, and their newest copy.

    ``copy_days`` counts the calendar days since that copy was made, None where there is none.
    """

    path: Path
    size_bytes: int
    last_copy: Kept | None
    copies: int
    copy_days: int | None
