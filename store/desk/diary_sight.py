"""Everything that the diary is judged by, looked up once: open jobs as they stand, people, and all bookings to come."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from datetime import date
from typing import Self

from store.desk.counter import Bench
from store.desk.diary_cards import DiaryCard, DiaryJob, Placed
from store.trade.bookings import Booking, days_of
from store.trade.clashes import Ground, Key, Told, clashes_of, told_of
from store.trade.diary import day_of
from store.trade.facts import JobFacts
from store.trade.firm import Firm
from store.trade.people import PersonDraft
from store.trade.standing import standing_at
from store.trade.waits import waits_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Sight:
    """The diary at one moment; ``titles`` are those of every job that anybody is booked on."""

    firm: Firm
    ground: Ground
    people: tuple[PersonDraft, ...]
    bookings: tuple[Booking, ...]
    titles: dict[str, str]

    def card(self, first: date, last: date) -> DiaryCard:
        """Return who is where in a stretch of days."""
        today = day_of(self.firm, self.ground.now)
        touching = [one for one in self.bookings if one.first <= last and one.last >= first]
        on_file = {person.name for person in self.people}
        gone = dict.fromkeys(one.person for one in touching if one.person not in on_file)
        return DiaryCard(
            first=first,
            last=last,
            today=today,
            firm=self.firm,
            people=(*self.people, *(PersonDraft(name=name) for name in gone)),
            jobs=tuple(self._job(facts, today) for facts, _ in self.ground.jobs.values()),
            placed=tuple(self._placed(one) for one in touching),
        )

    def _placed(self, booking: Booking) -> Placed:
        days = days_of(self.firm, booking)
        found = clashes_of(self.ground, booking, self.bookings)
        return Placed(booking=booking, title=self.titles.get(booking.ref, ""), days=days, clashes=found)

    def _job(self, facts: JobFacts, today: date) -> DiaryJob:
        standing = self.ground.jobs[facts.job.ref][1]
        return DiaryJob(
            ref=facts.job.ref,
            title=facts.job.title,
            customer=facts.job.customer.name,
            rooms=tuple(room.name for room in facts.rooms),
            promised_on=facts.job.promised_on,
            waits=waits_of(self.firm, facts, standing, today),
        )

    def clashes_of_people(self, names: Collection[str]) -> dict[Key, Told]:
        """Return what speaks against the bookings of these people; two sights tell what came and what went."""
        return told_of(self.ground, self.bookings, names)

    def after(self, done: Iterable[Booking]) -> Self:
        """Return the diary as it is once these bookings have been made or changed."""
        now = {one.id: one for one in self.bookings} | {one.id: one for one in done}
        return replace(self, bookings=tuple(one for one in now.values() if not one.cancelled))


def look(bench: Bench) -> Sight:
    """Look the diary up, by a fixed number of questions."""
    firm, now, cabinet = bench.firm(), bench.now(), bench.cabinet
    facts = cabinet.facts.open_at(now)
    bookings = tuple(one for one in cabinet.bookings.all() if not one.cancelled)
    people = cabinet.people.all()
    titles = {one.job.ref: one.job.title for one in facts}
    closed = {one.ref for one in bookings} - titles.keys()
    if closed:
        titles |= {job.ref: job.title for job in cabinet.jobs.of_refs(closed)}
    return Sight(
        firm=firm,
        ground=Ground(
            firm=firm,
            now=now,
            people={person.name: person for person in people},
            jobs={one.job.ref: (one, standing_at(firm, one, now)) for one in facts},
        ),
        people=people,
        bookings=bookings,
        titles=titles,
    )
