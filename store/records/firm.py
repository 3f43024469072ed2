"""The firm's drawer: one card."""

from dataclasses import fields

from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.tables import FirmRow
from store.trade.firm import ClockForm, Firm, FirmDraft
from store.trade.traditions import Tradition

_NUMBER = 1


class FirmDrawer:
    """Holds what the firm tells about itself."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def get(self) -> Firm | None:
        query = FirmRow.select(*(getattr(FirmRow, field.name) for field in fields(Firm)))
        return self._file.first(query, _firm)

    def put(self, draft: FirmDraft) -> Firm:
        """File the firm for the first time; Refused if it is on file already."""
        self._file.file_away(FirmRow.insert(id=_NUMBER, rev=1, **_columns(draft)))
        return filed(Firm, draft, rev=1)

    def change(self, draft: FirmDraft, rev: int) -> Firm:
        """Put others in the place of those shown at ``rev``; ChangedMeanwhile if they are others by now."""
        query = FirmRow.update(rev=rev + 1, **_columns(draft)).where(FirmRow.rev == rev)
        self._file.alter_as_shown(query, "The firm's card")
        return filed(Firm, draft, rev=rev + 1)


def _columns(draft: FirmDraft) -> dict[str, object]:
    return {field.name: getattr(draft, field.name) for field in fields(FirmDraft)}


def _firm(*, clock_form: str, tradition: str, **columns: object) -> Firm:
    return build(Firm, columns, clock_form=ClockForm(clock_form), tradition=Tradition(tradition))
