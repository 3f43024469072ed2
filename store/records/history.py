"""The history's drawer: a sealed line for every deed, in the order of filing."""

from collections.abc import Iterator
from dataclasses import fields
from datetime import UTC, datetime

from peewee import ModelSelect

from store.records.database import OpenFile
from store.records.event_tables import HistoryRow
from store.records.fields import read_moment, written
from store.records.nouns import build, filed
from store.records.trouble import saying_no
from store.trade.history import HistoryDraft, HistoryLine, seal_of

_COLUMNS = tuple(getattr(HistoryRow, field.name) for field in fields(HistoryLine))
_SEALED = ("at", "who", "deed", "job_ref", "subject", "before", "after", "seal")
_UNREAD = datetime.min.replace(tzinfo=UTC)  # the seal is over the letters of the moment, which need not be a moment


class HistoryDrawer:
    """Holds what was done, by whom and when; each line's seal is over the line and the seal before it."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def write(self, draft: HistoryDraft) -> HistoryLine:
        """Seal a line and file it."""
        last = self._file.first(HistoryRow.select(HistoryRow.seal).order_by(HistoryRow.id.desc()), _seal)
        at_utc = written(draft.at)
        seal = seal_of(draft, at_utc, last or "")
        own = {field.name: getattr(draft, field.name) for field in fields(HistoryDraft)}
        row_id = self._file.file_away(HistoryRow.insert(**(own | {"at": at_utc, "seal": seal})))
        return filed(HistoryLine, draft, id=row_id, seal=seal)

    def of_job(self, ref: str, limit: int = 200, until: datetime | None = None) -> tuple[HistoryLine, ...]:
        """Return the latest lines about a job, the newest first; none written after ``until``, if it is given."""
        query = HistoryRow.select(*_COLUMNS).where(HistoryRow.job_ref == ref)
        return self._newest(query if until is None else query.where(HistoryRow.at <= written(until)), limit)

    def latest(self, limit: int = 200) -> tuple[HistoryLine, ...]:
        """Return the latest lines, the newest first."""
        return self._newest(HistoryRow.select(*_COLUMNS), limit)

    def broken(self) -> int | None:
        """Return the number of the first line whose seal does not fit, or None; reads line by line."""
        before = ""
        for row_id, draft, at_utc, seal in self._as_written():
            if seal != seal_of(draft, at_utc, before):
                return row_id
            before = seal
        return None

    def _newest(self, query: "ModelSelect[HistoryRow]", limit: int) -> tuple[HistoryLine, ...]:
        return self._file.rows(query.order_by(HistoryRow.id.desc()).limit(limit), _line)

    def _as_written(self) -> Iterator[tuple[int, HistoryDraft, str, str]]:
        # As bytes: a damaged letter may be no letter at all, and is to be found, not stumbled over.
        letters = (getattr(HistoryRow, name).cast("BLOB") for name in _SEALED)
        query = HistoryRow.select(HistoryRow.id, *letters).order_by(HistoryRow.id).tuples()
        with saying_no(self._file.path):
            rows = query.execute(self._file.database).iterator()
            for row_id, *columns in rows:
                texts = dict(
                    zip(
                        _SEALED,
                        (bytes(column or b"").decode(errors="surrogateescape") for column in columns),
                        strict=True,
                    )
                )
                at_utc, seal = texts.pop("at"), texts.pop("seal")
                yield row_id, build(HistoryDraft, texts, at=_UNREAD), at_utc, seal


def _seal(*, seal: str) -> str:
    return seal


def _line(*, at: str, **columns: object) -> HistoryLine:
    return build(HistoryLine, columns, at=read_moment(at))
