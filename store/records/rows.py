"""What all tables have in common, as peewee sees them."""

import re
from typing import TypeVar

from peewee import AutoField, Model

from store.records.fields import WholeField


def table_of(model: type[Model]) -> str:
    """Return the name of a model's table: the class's name in small letters, without its ``Row``.

    >>> table_of(type("TakenBackRow", (), {}))
    'taken_back'
    """
    return re.sub(r"(?<!^)(?=[A-Z])", "_", model.__name__.removesuffix("Row")).lower()


class Row(Model):
    """A row with a number of its own, which is never given twice."""

    id = AutoField()

    class Meta:
        """How tables get their names."""

        table_function = table_of


class RowOfJob(Row):
    """A row that belongs to a job."""

    job_id = WholeField()


AnyRow = TypeVar("AnyRow", bound=Row)
