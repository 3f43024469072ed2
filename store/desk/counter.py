"""What every counter of the desk shares: the cabinet, the clock, who is there, and how a deed is done."""

import dataclasses
import json
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime
from typing import Protocol

from store.desk.clock import Clock
from store.errors import DraftRefused, Problem, Refused, StoreDamaged
from store.records.cabinet import Cabinet
from store.trade.diary import day_of
from store.trade.facts import JobFacts
from store.trade.firm import Firm, problems_with_firm
from store.trade.history import HistoryDraft
from store.trade.standing import closed_at
from store.trade.taught.lessons import taught_by


class Numbered(Protocol):
    """A fact on file, known by its number among its kind."""

    @property
    def id(self) -> int: ...


@dataclass(slots=True, kw_only=True)
class Bench:
    """What a desk works with. ``who`` is named in the history; ``looking_back`` refuses every deed."""

    cabinet: Cabinet
    clock: Clock
    who: str = ""
    looking_back: bool = False
    _touched: set[str] = field(default_factory=set)

    def now(self) -> datetime:
        """Return the present instant, or the one that is being looked back (or ahead) to."""
        return self.clock()

    def firm(self) -> Firm:
        """Return the firm on file.

        Raises:
            Refused: no firm has been set up.
            StoreDamaged: another program has put settings on file that no sum could be made with.
        """
        firm = self.cabinet.firm.get()
        if firm is None:
            raise Refused("These records have no firm yet; open Layday and say who you are.")
        must_make_sense("The firm's card", problems_with_firm(firm))
        return firm

    def today(self) -> date:
        """Return the calendar day in the firm's zone."""
        return day_of(self.firm(), self.now())

    def facts(self, ref: str) -> JobFacts:
        """Return everything on file about a job.

        Raises:
            Refused: there is no such job.
        """
        facts = self.cabinet.facts.of_ref(ref)
        if facts is None:
            raise Refused(f"There is no job “{shown(ref)}” on file.")
        return facts

    def job_id(self, ref: str) -> int:
        """Return a job's number on file, which costs far less than its facts; Refused if there is no such job."""
        job = self.cabinet.jobs.by_ref(ref)
        if job is None:
            raise Refused(f"There is no job “{shown(ref)}” on file.")
        return job.id

    @contextmanager
    def deed(self) -> Iterator[None]:
        """Open one transaction: all that is filed inside is kept together, or nothing is.

        A closed job that the deed wrote down something about is settled before it ends: what it taught may be another.
        """
        if self.looking_back:
            raise Refused("Nothing can be changed while looking at another moment; leave --at out.")
        with self.cabinet.deed():
            self._touched.clear()
            yield
            if self._touched:
                self.settle(*self.cabinet.jobs.closed_of(self._touched))

    def write_down(
        self, deed: str, *, ref: str = "", subject: str = "", before: object = None, after: object = None
    ) -> None:
        """Write one line of history; inside a deed."""
        if ref:
            self.touch(ref)
        self.cabinet.history.write(
            HistoryDraft(
                at=self.now(),
                who=self.who,
                deed=deed,
                job_ref=ref,
                subject=subject,
                before=as_text(before),
                after=as_text(after),
            )
        )

    def settle(self, *refs: str) -> None:
        """Keep what is noted of closed jobs in step with their facts: when they closed, and what they taught.

        Inside every deed that may close a job or open it again; closed ones that a deed writes down something about are
        settled by themselves.
        """
        if refs:
            self._touched.difference_update(refs)
            for facts in self.cabinet.facts.many(refs, pieces=False):
                self.cabinet.jobs.mark_closed(facts.job.id, closed_at(facts))
                self.cabinet.lessons.put(facts.job.id, taught_by(facts))

    def touch(self, *refs: str) -> None:
        """Have the closed ones of these jobs settled as the deed ends, though nothing is written down about them."""
        self._touched.update(refs)


def refuse(problems: tuple[Problem, ...]) -> None:
    """Raise DraftRefused if there is any problem."""
    if problems:
        raise DraftRefused(problems)


def must_make_sense(what: str, problems: tuple[Problem, ...]) -> None:
    """Raise StoreDamaged for something on file that could never have been filed here, before a sum stumbles over it."""
    if problems:
        raise StoreDamaged(f"{what} on file makes no sense: {problems[0].say} Put a backup back with “layday restore”.")


def must_be_of_job(ref: str, fact: Numbered, facts: Iterable[Numbered]) -> None:
    """Raise Refused unless a filed fact is one of a job's own, whatever it says by now."""
    if all(one.id != fact.id for one in facts):
        raise Refused(f"That is not on file in job “{shown(ref)}” any longer, or belongs to another one.")


def shown(text: str) -> str:
    """Return a typed word short enough to stand in a sentence."""
    return text if len(text) <= 60 else text[:57] + "…"


def as_text(fact: object) -> str:
    """Return a frozen noun as compact JSON for the history; empty for None."""
    if fact is None:
        return ""
    plain = dataclasses.asdict(fact) if dataclasses.is_dataclass(fact) and not isinstance(fact, type) else fact
    return json.dumps(plain, default=_plain, ensure_ascii=False, separators=(",", ":"))


def _plain(value: object) -> object:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return dataclasses.asdict(value)
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    return str(value)
