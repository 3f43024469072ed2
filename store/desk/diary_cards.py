"""What the diary answers: who is where in a stretch of days, and what a deed has broken or saved."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from store.trade.bookings import Booking
from store.trade.clashes import Clash, Told
from store.trade.firm import Firm
from store.trade.people import PersonDraft
from store.trade.waits import Wait


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A booking with its job's title, the days it takes and what speaks against it."""

    booking: Booking
    title: str
    days: tuple[date, ...]
    clashes: tuple[Clash, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryJob:
    """An open job in the diary: its rooms, the day it is promised for, and its waits."""

    ref: str
    title: str
    customer: str
    rooms: tuple[str, ...]
    promised_on: date | None
    waits: tuple[Wait, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class DiaryCard:
    """A stretch of days, the first and the last included: the people, the open jobs, and every booking that touches it.

    ``people`` ends with those who are booked and no longer on file.
    """

    first: date
    last: date
    today: date
    firm: Firm
    people: tuple[PersonDraft, ...]
    jobs: tuple[DiaryJob, ...]
    placed: tuple[Placed, ...]

    def of_person(self, name: str) -> Iterator[Placed]:
        return (one for one in self.placed if one.booking.person == name)

    def of_job(self, ref: str) -> Iterator[Placed]:
        return (one for one in self.placed if one.booking.ref == ref)


@dataclass(frozen=True, slots=True, kw_only=True)
class Booked:
    """What a deed of the diary has done: the bookings as they are now, and the clashes it brought and ended."""

    bookings: tuple[Booking, ...]
    breaks: tuple[Told, ...]
    saves: tuple[Told, ...]
