"""The people of the firm: what they can do, and when they are away."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from store.errors import Problem
from store.trade.jobs import RoomDraft
from store.trade.surveyed import Pattern

BLOCKS = "blocks"
"""The skill for floors of blocks, herringbone or chevron."""

_FIRST_YEAR, _LAST_YEAR = 1900, 2199


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysOff:
    """Days on which somebody does not work, the first and the last included, and why."""

    first: date
    last: date
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonDraft:
    """Somebody who works for the firm, by the name they go by.

    ``isocyanates_until`` is the last day on which their training for products with isocyanates counts: in the
    European Union it is renewed every five years (Regulation (EU) 2020/1149, told from memory). The maker's
    safety sheet and the local rule go before it.
    """

    name: str
    herringbone: bool = False
    stairs: bool = False
    isocyanates_until: date | None = None
    days_off: tuple[DaysOff, ...] = ()

    @property
    def skills(self) -> frozenset[str]:
        """What they can do that not everybody can."""
        return frozenset({BLOCKS}) if self.herringbone else frozenset()

    def away_on(self, day: date) -> DaysOff | None:
        """Return the days off that a day is one of, or None."""
        return next((one for one in self.days_off if one.first <= day <= one.last), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person(PersonDraft):
    """Somebody on file; ``rev`` counts the changes of their card."""

    id: int
    rev: int


def skills_for(room: RoomDraft) -> frozenset[str]:
    """Return what a room's floor asks of whoever lays it."""
    return frozenset() if room.pattern is Pattern.STRAIGHT else frozenset({BLOCKS})


def problems_with_person(draft: PersonDraft, others: Collection[str] = ()) -> tuple[Problem, ...]:
    """Return what is wrong with a person's card; ``others`` are the names of everybody else on file."""
    found: list[Problem] = []
    if not draft.name.strip():
        found.append(Problem(field="name", say="Write the name they go by."))
    elif draft.name in others:
        found.append(Problem(field="name", say=f"{draft.name} is on file already."))
    for index, off in enumerate(draft.days_off):
        if off.last < off.first:
            say = "These days off end before they start."
            found.append(Problem(field=f"days_off.{index}", say=say))
        elif not _FIRST_YEAR <= off.first.year <= off.last.year <= _LAST_YEAR:
            say = f"Days off lie between {_FIRST_YEAR} and {_LAST_YEAR}."
            found.append(Problem(field=f"days_off.{index}", say=say))
    return tuple(found)
