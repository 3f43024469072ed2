"""Lines of long lists that only the filing cabinet can put together cheaply."""

from dataclasses import dataclass
from datetime import date, datetime

from store.trade.events import Place


@dataclass(frozen=True, slots=True, kw_only=True)
class JobLine:
    """A job in a list of many; ``closed_at`` is None while it is open."""

    id: int
    ref: str
    title: str
    customer: str
    address: str
    promised_on: date | None
    closed_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """One row of the ledger: packs and loose boards of one batch that went from one place to another.

    ``cause`` is delivery, move, opening or count. ``damaged_packs`` of the ``packs`` are not fit to lay
    and do not reach the target: they are set apart.
    """

    id: int
    job_ref: str
    job_closed: bool
    at: datetime
    cause: str
    product: str
    batch: str
    packs: int
    boards: int
    damaged_packs: int
    source: Place
    target: Place
