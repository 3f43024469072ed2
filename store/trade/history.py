"""The history: one line for every deed, chained so that a changed line shows."""

import hashlib
import json
from dataclasses import dataclass
from datetime import datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryDraft:
    """One deed: when, by whom, what was done, to which job (its reference, or empty) and to what.

    ``before`` and ``after`` are the changed fact as compact JSON, empty where there was or is none.
    """

    at: datetime
    who: str
    deed: str
    job_ref: str
    subject: str
    before: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class HistoryLine(HistoryDraft):
    """A line of history on file; ``seal`` is the hash over this line and the seal of the one before."""

    id: int
    seal: str


def seal_of(line: HistoryDraft, at_utc: str, seal_before: str) -> str:
    """Return the SHA-256 (hex) over a line and the seal before it; ``at_utc`` is the instant as written down."""
    parts = [seal_before, at_utc, line.who, line.deed, line.job_ref, line.subject, line.before, line.after]
    return hashlib.sha256(json.dumps(parts, ensure_ascii=True).encode()).hexdigest()
