"""The people of the firm."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonDraft:
    """Somebody who works for the firm, by the name they go by."""

    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Person(PersonDraft):
    """Somebody on file."""

    id: int
