"""A stock-take: what was counted in the firm's unit against the file, and the differences that are booked."""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from store.trade.events import FOUND, MISSING, SHELF, UNIT, Place


class Way(StrEnum):
    """Whether more was counted than the file said, or less."""

    FOUND = "found"
    MISSING = "missing"


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedLine:
    """What was counted of one batch in the unit: full packs (or tubs) and loose boards.

    ``job_ref`` is empty for free stock. ``filed`` is what the file said when it was counted, in single boards (tubs).
    """

    product: str
    batch: str
    job_ref: str
    packs: int
    boards: int
    filed: int

    @property
    def where(self) -> tuple[str, str, str]:
        """What tells the line from every other one."""
        return self.product, self.batch, self.job_ref


@dataclass(frozen=True, slots=True, kw_only=True)
class StockTake:
    """The lines that were counted, and one reason for all that differs."""

    lines: tuple[CountedLine, ...]
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceDraft:
    """Packs and loose boards of one batch found in the unit beyond the file, or missing from it, and why."""

    at: datetime
    product: str
    batch: str
    packs: int
    boards: int
    way: Way
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference(DifferenceDraft):
    """A difference on file; never changed, only taken back."""

    id: int

    @property
    def packs_more(self) -> int:
        """The packs by which the unit holds more than was known; less than nought where they are missing."""
        return self.packs if self.way is Way.FOUND else -self.packs


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """A difference on file with the job it belongs to; ``job_ref`` is empty for free stock."""

    job_ref: str
    difference: Difference


def ends(way: Way, job_ref: str) -> tuple[Place, Place]:
    """Return where a difference comes from and where it goes; without a job, from or to the free stock."""
    home = UNIT if job_ref else SHELF
    return (FOUND, home) if way is Way.FOUND else (home, MISSING)


def difference(line: CountedLine, per_pack: int, at: datetime, why: str) -> DifferenceDraft | None:
    """Return by how much a line differs from the file, or None where it does not.

    >>> from datetime import UTC
    >>> line = CountedLine(product="OAK-190", batch="K41", job_ref="", packs=1, boards=4, filed=12)
    >>> gone = difference(line, 6, datetime(2026, 11, 28, tzinfo=UTC), "a pack lent")
    >>> gone.way.value, gone.packs, gone.boards
    ('missing', 0, 2)
    """
    more = line.packs * per_pack + line.boards - line.filed
    packs, boards = divmod(abs(more), per_pack)
    if not more:
        return None
    way = Way.FOUND if more > 0 else Way.MISSING
    return DifferenceDraft(
        at=at, product=line.product, batch=line.batch, packs=packs, boards=boards, way=way, why=why.strip()
    )
