"""One happening of the made-up firm: the job it belongs to, its moment, and what demo_data tells about it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import cast

from store.desk.demo_drafts import Toml
from store.trade.events import SHELF, UNIT, Place, in_room
from store.trade.flights import FlightDraft
from store.trade.jobs import UNIT_WORD, JobDraft, RoomDraft


@dataclass(frozen=True, slots=True, kw_only=True)
class Scene:
    """One happening: the job it belongs to, its moment, and what demo_data tells about it."""

    ref: str
    at: datetime
    told: Toml
    job: JobDraft
    rooms: tuple[RoomDraft, ...]
    flights: tuple[FlightDraft, ...]
    day: Callable[[str], date]

    def word(self, key: str) -> str:
        return str(self.told.get(key, ""))

    def lines(self) -> list[Toml]:
        return cast("list[Toml]", self.told["lines"])


def place_called(word: str) -> Place:
    """Return the place of a word in demo_data: the unit, its shelf, or a room."""
    return {UNIT_WORD: UNIT, "shelf": SHELF}.get(word) or in_room(word)
