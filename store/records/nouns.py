"""Makes the nouns of the trade out of rows and drafts."""

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from typing import TypeVar

from store.trade.events import Place, PlaceKind

Noun = TypeVar("Noun")


def filed(noun: type[Noun], draft: object, **more: object) -> Noun:
    """Return the noun that a draft has become: its own fields, and ``more`` that filing has added."""
    if not is_dataclass(noun):
        raise TypeError(noun)
    own = {field.name: getattr(draft, field.name) for field in fields(noun) if field.name not in more}
    return noun(**own, **more)


def build(noun: Callable[..., Noun], columns: Mapping[str, object], **more: object) -> Noun:
    """Return the noun that a row's columns tell, with ``more`` in the place of those that need a hand."""
    return noun(**(dict(columns) | more))


def place(kind: str, room: str | None) -> Place:
    """Return the place that two columns name."""
    return Place(kind=PlaceKind(kind), room=room or "")
