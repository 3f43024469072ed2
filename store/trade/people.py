"""The people of the firm."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonDraft:
    """Somebody who works for the firm, by the name they go by.

    ``trained_until`` is the last day on which their training for glues with diisocyanates is in force: it is renewed
    every five years at least, and the employer keeps the proof (REACH Annex XVII entry 74, Regulation (EU) 2020/1149).
    """

    name: str
    trained_until: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Person(PersonDraft):
    """Somebody on file."""

    id: int
