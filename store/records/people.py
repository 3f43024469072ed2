"""The people's drawer."""

from collections.abc import Sequence
from dataclasses import fields
from datetime import date

from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.tables import PersonRow
from store.trade.people import DaysOff, Person, PersonDraft


class PeopleDrawer:
    """Holds who works for the firm, what they can do and when they are away."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def all(self) -> tuple[Person, ...]:
        """Return everybody, in the order of filing."""
        columns = (getattr(PersonRow, field.name) for field in fields(Person))
        return self._file.rows(PersonRow.select(*columns).order_by(PersonRow.id), _person)

    def add(self, draft: PersonDraft) -> Person:
        """File somebody; Refused if there is somebody of that name."""
        return filed(Person, draft, id=self._file.file_away(PersonRow.insert(rev=1, **_columns(draft))), rev=1)

    def change(self, person_id: int, draft: PersonDraft, rev: int) -> Person:
        """Put another card in the place of the one shown at ``rev``; ChangedMeanwhile if it is another by now."""
        query = PersonRow.update(rev=rev + 1, **_columns(draft))
        query = query.where(PersonRow.id == person_id, PersonRow.rev == rev)
        self._file.alter_as_shown(query, f"The card of {draft.name}")
        return filed(Person, draft, id=person_id, rev=rev + 1)

    def remove(self, person_id: int) -> None:
        """Take somebody off the list; what they did stays in the history under their name."""
        self._file.alter(PersonRow.delete().where(PersonRow.id == person_id))


def _columns(draft: PersonDraft) -> dict[str, object]:
    own: dict[str, object] = {field.name: getattr(draft, field.name) for field in fields(PersonDraft)}
    return own | {"days_off": [(one.first.isoformat(), one.last.isoformat(), one.reason) for one in draft.days_off]}


def _person(*, days_off: Sequence[tuple[str, str, str]], **columns: object) -> Person:
    return build(Person, columns, days_off=tuple(_days_off(*one) for one in days_off))


def _days_off(first: str, last: str, reason: str) -> DaysOff:
    return DaysOff(first=date.fromisoformat(first), last=date.fromisoformat(last), reason=reason)
