"""The people's drawer."""

from store.records.database import OpenFile
from store.records.tables import PersonRow
from store.trade.people import Person, PersonDraft


class PeopleDrawer:
    """Holds who works for the firm."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def all(self) -> tuple[Person, ...]:
        """Return everybody, in the order of filing."""
        query = PersonRow.select(PersonRow.id, PersonRow.name).order_by(PersonRow.id)
        return self._file.rows(query, Person)

    def add(self, draft: PersonDraft) -> Person:
        """File somebody; Refused if there is somebody of that name."""
        return Person(id=self._file.file_away(PersonRow.insert(name=draft.name)), name=draft.name)

    def remove(self, person_id: int) -> None:
        """Take somebody off the list; what they did stays in the history under their name."""
        self._file.alter(PersonRow.delete().where(PersonRow.id == person_id))
