"""The slip on which a form notes what cannot be read, while it makes a draft of what can."""

from collections.abc import Callable
from typing import TypeVar

from store.errors import Problem
from tui.typed.figures import Misread
from tui.widgets.fields import Field
from tui.widgets.row_field import RowField

Value = TypeVar("Value")
Reader = Callable[[str], Value | Misread]


class Slip:
    """Reads answers one by one; each that cannot be read leaves a problem and a stand-in value."""

    def __init__(self) -> None:
        self.problems: list[Problem] = []

    def read(self, field: Field, reader: Reader[Value], otherwise: Value) -> Value:
        """Return what a field holds, or ``otherwise`` with a problem noted beside the field."""
        if field.raw.strip() or not field.hint:
            return self._noted(field.key, reader(field.raw), otherwise)
        read = reader("")
        if isinstance(read, Misread):
            read = Misread(say=f"Fill this in: {field.hint[0].lower()}{field.hint[1:]}")
        return self._noted(field.key, read, otherwise)

    def read_if_given(self, field: Field, reader: Reader[Value]) -> Value | None:
        """Return what a field holds; None for an empty one, and for one that cannot be read."""
        if not field.raw.strip():
            return None
        read = reader(field.raw)
        if isinstance(read, Misread):
            self.wrong(field.key, read.say)
            return None
        return read

    def read_part(self, row: RowField, name: str, reader: Reader[Value], otherwise: Value) -> Value:
        """Return one answer of a row, or ``otherwise`` with a problem noted under the row."""
        return self._noted(f"{row.key}.{name}", reader(row.part(name)), otherwise)

    def wrong(self, key: str, say: str) -> None:
        """Note a problem beside a field."""
        self.problems.append(Problem(field=key, say=say))

    def _noted(self, key: str, read: Value | Misread, otherwise: Value) -> Value:
        if isinstance(read, Misread):
            self.wrong(key, read.say)
            return otherwise
        return read
