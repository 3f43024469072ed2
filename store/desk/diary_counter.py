"""The counter of the diary: who is booked where; what was done can be moved, stretched, swapped, cancelled, undone."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from store.desk.counter import Bench, refuse, shown
from store.desk.diary_calendar import calendar_of
from store.desk.diary_cards import Booked, DiaryCard
from store.desk.diary_sight import Sight, look
from store.errors import ChangedMeanwhile, Problem, Refused
from store.papers.on_disk import write_whole
from store.trade.bookings import Booking, BookingDraft, moved, problems_with_booking, stretched

Turn = tuple[Booking | None, Booking]
"""A booking as it was before a deed, None for one that was not there, and as it was after it."""


class DiaryCounter:
    """Questions and deeds about the diary.

    What was done at this desk since it was opened can be turned back, the last first; each turning back is a deed of
    its own, with its own line of history.
    """

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._done: list[tuple[Turn, ...]] = []

    def card(self, first: date, last: date) -> DiaryCard:
        """Return who is where from the first day to the last, and what speaks against it."""
        return self._sight().card(first, last)

    def week(self, day: date, *, person: str = "") -> DiaryCard:
        """Return the week that a day is in, from Monday to Sunday (ISO 8601); one person's where one is named.

        Raises:
            Refused: nobody of that name is on file or in this week.
        """
        monday = day - timedelta(days=day.weekday())
        card = self.card(monday, monday + timedelta(days=6))
        if not person:
            return card
        people = tuple(one for one in card.people if one.name == person)
        if not people:
            raise Refused(f"There is nobody called “{shown(person)}” on file.")
        return replace(card, people=people, placed=tuple(card.of_person(person)))

    def on_file(self) -> tuple[Booking, ...]:
        """Return every booking there ever was, cancelled ones too."""
        return self._bench.cabinet.bookings.all()

    def of_person(self, name: str) -> tuple[Booking, ...]:
        """Return somebody's bookings, by their first day."""
        return self._bench.cabinet.bookings.of_person(name)

    def calendar(self, *, person: str = "", ref: str = "") -> bytes:
        """Return bookings as an iCalendar file: somebody's, a job's, or all of them; cancelled ones say so.

        Raises:
            Refused: there is no such person or job, or nobody is booked there.
        """
        return calendar_of(self._bench, person=person, ref=ref)

    def save_calendar(self, target: Path, *, person: str = "") -> int:
        """Write somebody's bookings, or all of them, to a new calendar file; return its size in bytes.

        Raises:
            Refused: nobody is booked there, or the file may not be written.
            DiskFull: there was no room; nothing is left behind.
        """
        raw = self.calendar(person=person)
        write_whole(target, raw)
        return len(raw)

    def problems(self, ref: str, draft: BookingDraft) -> tuple[Problem, ...]:
        """Return what is wrong with a booking."""
        # The rooms alone, not all that is on file: a move is answered at once.
        rooms = self._bench.cabinet.rooms.of_jobs([self._bench.job_id(ref)])
        found = problems_with_booking(draft, {room.name for _, room in rooms})
        known = {person.name for person in self._bench.cabinet.people.all()}
        if draft.person.strip() and draft.person not in known:
            say = f"{shown(draft.person)} does not work for the firm; add them in the Firm view first."
            found += (Problem(field="person", say=say),)
        return found

    def book(self, ref: str, draft: BookingDraft) -> Booked:
        """Book somebody on a job or one of its rooms."""
        sight = self._sight()
        with self._bench.deed():
            refuse(self.problems(ref, draft))
            booking = self._bench.cabinet.bookings.add(self._bench.job_id(ref), ref, draft)
            self._bench.write_down("booked", ref=ref, subject=booking.person, after=booking)
        return self._told(sight, ((None, booking),))

    def change(self, booking: Booking, draft: BookingDraft) -> Booked:
        """Say otherwise of a booking who comes, to which room, or when; its job stays."""
        changed = replace(
            booking, person=draft.person, room=draft.room, first=draft.first, last=draft.last, part=draft.part
        )
        return self._put("booking changed", ((booking, changed),))

    def move(self, booking: Booking, steps: int) -> Booked:
        """Move a booking so many working days later, or earlier; it takes as many days as before."""
        return self._put("booking moved", ((booking, moved(self._bench.firm(), booking, steps)),))

    def give(self, booking: Booking, person: str) -> Booked:
        """Let somebody else do it."""
        return self._put("booking given to another", ((booking, replace(booking, person=person)),))

    def stretch(self, booking: Booking, steps: int) -> Booked:
        """Let a booking end so many working days later, or earlier.

        Raises:
            Refused: it would be shorter than a day; half days stay one.
        """
        longer = stretched(self._bench.firm(), booking, steps)
        if longer == booking:
            raise Refused("A booking takes a day at least; x cancels it.")
        return self._put("booking stretched", ((booking, longer),))

    def swap(self, one: Booking, other: Booking) -> Booked:
        """Let two people change places."""
        if one.id == other.id or one.person == other.person:
            raise Refused("Two bookings of two people change places; these are one person's.")
        turns = ((one, replace(one, person=other.person)), (other, replace(other, person=one.person)))
        return self._put("bookings swapped", turns)

    def cancel(self, booking: Booking) -> Booked:
        """Cancel a booking; it stays on file as cancelled, so that calendars can be told."""
        return self._put("booking cancelled", ((booking, replace(booking, cancelled=True)),))

    def rebook(
        self,
        deed: str,
        changed: Sequence[tuple[Booking, Booking]],
        cancelled: Sequence[Booking],
        fresh: Sequence[tuple[str, BookingDraft]],
    ) -> Booked:
        """Change, cancel and make several bookings in one deed, as a plan that is taken up; turned back as one.

        Raises:
            DraftRefused: one of them has problems; nothing is done then.
            ChangedMeanwhile: one of them is not any more as it was shown.
        """
        sight, done = self._sight(), list[Turn]()
        bookings = self._bench.cabinet.bookings
        with self._bench.deed():
            turns = [*changed, *((one, replace(one, cancelled=True)) for one in cancelled)]
            for before, after in turns:
                if not after.cancelled:
                    refuse(self.problems(after.ref, after))
                done.append((before, bookings.change(self._bench.job_id(after.ref), after)))
            for ref, draft in fresh:
                refuse(self.problems(ref, draft))
                done.append((None, bookings.add(self._bench.job_id(ref), ref, draft)))
            for was, booking in done:
                self._bench.write_down(deed, ref=booking.ref, subject=booking.person, before=was, after=booking)
        return self._told(sight, tuple(done))

    def undo(self) -> Booked:
        """Turn back the last deed that was done here and not turned back yet.

        Raises:
            Refused: there is none.
            ChangedMeanwhile: another window has changed the booking since; it is left as it is.
        """
        if not self._done:
            raise Refused("There is nothing to turn back since this window was opened.")
        last = self._done.pop()
        back: list[tuple[Booking, Booking]] = []
        for before, after in last:
            now = self._bench.cabinet.bookings.by_id(after.id)
            if now is None or replace(now, changes=0) != replace(after, changes=0):
                raise ChangedMeanwhile("Another window has changed this booking since; look at it again.")
            was = replace(now, cancelled=True) if before is None else replace(before, changes=now.changes)
            back.append((now, was))
        try:
            return self._put("diary turned back", back, keep=False)
        except BaseException:
            self._done.append(last)
            raise

    def _put(self, deed: str, turns: Sequence[tuple[Booking, Booking]], *, keep: bool = True) -> Booked:
        sight = self._sight()
        done: list[Turn] = []
        with self._bench.deed():
            for before, after in turns:
                if not after.cancelled and keep:
                    refuse(self.problems(after.ref, after))
                changed = self._bench.cabinet.bookings.change(self._bench.job_id(after.ref), after)
                done.append((before, changed))
            # One line of history is written for all of them; closed jobs may have been laid by somebody else now.
            self._bench.touch(*(before.ref for before, _ in turns))
            self._bench.write_down(
                deed,
                ref=turns[0][0].ref,
                subject=" and ".join(dict.fromkeys(before.person for before, _ in turns)),
                before=_one_or_all(before for before, _ in turns),
                after=_one_or_all(after for _, after in done),
            )
        return self._told(sight, tuple(done), keep=keep)

    def _told(self, before: Sight, done: tuple[Turn, ...], *, keep: bool = True) -> Booked:
        if keep:
            self._done.append(done)
        bookings = tuple(booking for _, booking in done)
        # What speaks against a booking is its job, its person, and that person's other bookings.
        people = {one.person for was, booking in done for one in (was, booking) if one is not None}
        was = before.clashes_of_people(people)
        is_now = before.after(bookings).clashes_of_people(people)
        return Booked(
            bookings=bookings,
            breaks=tuple(one for key, one in is_now.items() if key not in was),
            saves=tuple(one for key, one in was.items() if key not in is_now),
        )

    def _sight(self) -> Sight:
        return look(self._bench)


def _one_or_all(bookings: Iterable[Booking]) -> object:
    listed = list(bookings)
    return listed[0] if len(listed) == 1 else listed
