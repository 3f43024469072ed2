"""The people's drawer."""

from store.records.database import OpenFile
from store.records.nouns import filed
from store.records.tables import PersonRow
from store.trade.people import Person, PersonDraft


class PeopleDrawer:
    """Holds who works for the firm."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def all(self) -> tuple[Person, ...]:
        """Return everybody, in the order of filing."""
        query = PersonRow.select(PersonRow.id, PersonRow.name, PersonRow.trained_until).order_by(PersonRow.id)
        return self._file.rows(query, Person)

    def add(self, draft: PersonDraft) -> Person:
        """File somebody; Refused if there is somebody of that name."""
        row_id = self._file.file_away(PersonRow.insert(name=draft.name, trained_until=draft.trained_until))
        return filed(Person, draft, id=row_id)

    def train(self, person_id: int, draft: PersonDraft) -> Person:
        """Note until when somebody's training is in force; their name stays."""
        query = PersonRow.update(trained_until=draft.trained_until).where(PersonRow.id == person_id)
        self._file.alter(query)
        return filed(Person, draft, id=person_id)

    def remove(self, person_id: int) -> None:
        """Take somebody off the list; what they did stays in the history under their name."""
        self._file.alter(PersonRow.delete().where(PersonRow.id == person_id))
