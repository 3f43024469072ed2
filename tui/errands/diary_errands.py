"""Errands of the diary: booking by a form, and every move told at once with what it breaks or saves."""

from collections.abc import Callable
from datetime import date

from store.desk.copies import dated_copy_path
from store.desk.diary_cards import Booked, DiaryCard
from store.trade.bookings import Booking, BookingDraft
from tui.dialogs.booking_form import BookingForm, BookingWish, where_of
from tui.dialogs.choose import Choose
from tui.dialogs.proposed_plan import ProposedPlan, Taken
from tui.dialogs.supposing import Supposing
from tui.dialogs.where_form import WhereForm
from tui.errands.subject import Subject
from tui.errands.supposing_errands import SupposingErrands
from tui.telling import refusal_of, tell_no
from tui.widgets.choices import Option
from tui.words.diary import say_booked
from tui.words.wording import clean

Deed = Callable[[], Booked]


class DiaryErrands(Subject):
    """Booking, moving, stretching, swapping, cancelling, turning back; each answers what was done, or None."""

    async def book(self, card: DiaryCard, day: date, person: str = "", ref: str = "") -> Booked | None:
        """Ask whom to book where, beginning with a day, and a person or a job."""
        people = [one.name for one in self.desk.firm.people()]
        if not people:
            self.not_now("Nobody is on file yet; add somebody in the Firm view (5, then n).")
            return None
        if not card.jobs:
            self.not_now("There is no open job to book anybody on; take one on in Today (1, then n).")
            return None
        draft = BookingDraft(person=person if person in people else people[0], first=day, last=day)
        wish = BookingWish(ref=ref if any(job.ref == ref for job in card.jobs) else "", draft=draft)
        return await self._asked(people, _places(card), wish, lambda one: self.desk.diary.book(one.ref, one.draft))

    async def change(self, card: DiaryCard, booking: Booking) -> Booked | None:
        """Ask for a booking anew; its job stays."""
        people = [one.name for one in self.desk.firm.people()]
        if booking.person not in people:
            people.append(booking.person)
        places = [one for one in _places(card) if one[0].startswith(f"{booking.ref}\n")]
        places = places or [(where_of(booking.ref, booking.room), clean(booking.ref))]
        wish = BookingWish(ref=booking.ref, draft=booking)
        return await self._asked(
            people, places, wish, lambda one: self.desk.diary.change(booking, one.draft), is_new=False
        )

    async def propose(self) -> Booked | None:
        """Show who could lay what when, and book what is taken up of it."""
        planning = self.desk.proposals.facts()
        plan = ProposedPlan(planning, search=lambda: self.desk.proposals.search(planning), today=self.desk.today())
        taken: Taken | None = await self._view.app.push_screen_wait(plan)
        if taken is None:
            return None
        return self.desk.proposals.take_up(planning, *taken)

    async def suppose(self) -> Booked | None:
        """Show what would follow if something came otherwise; return what is booked from a plan made for that."""
        return await self._view.app.push_screen_wait(Supposing(SupposingErrands(self._view)))

    async def write_calendar(self) -> bool:
        """Ask whose calendar and where to, and write it there."""
        everybody = [("", "Everybody"), *((one.name, one.name) for one in self.desk.firm.people())]
        whose = await self._view.app.push_screen_wait(Choose("Whose calendar?", label="Name", options=everybody))
        if whose is None:
            return False
        start = dated_copy_path(self.desk.path, self.desk.now())
        form = WhereForm(
            "Write a calendar",
            words="An iCalendar file for a telephone or a desk; taken in again after a change, it moves what moved.",
            start=start.with_name(f"{start.stem.replace('-copy-', '-diary-')}.ics"),
            check=self.desk.papers.target_problems,
        )
        target = await self.ask(form, lambda path: self.desk.diary.save_calendar(path, person=whose))
        return target is not None and self.done(f"Written: {target}.")

    async def _asked(
        self,
        people: list[str],
        places: list[Option],
        wish: BookingWish,
        file: Callable[[BookingWish], Booked],
        *,
        is_new: bool = True,
    ) -> Booked | None:
        done: list[Booked] = []
        form = BookingForm(
            people=people,
            where=places,
            clock=self.clock,
            check=lambda one: self.desk.diary.problems(one.ref, one.draft),
            wish=wish,
            is_new=is_new,
        )
        answer = await self.ask(form, lambda one: done.append(file(one)))
        return done[-1] if answer is not None and done else None

    def do(self, deed: Deed) -> Booked | None:
        """Do a deed that asks nothing; a no is told."""
        found: list[Booked] = []
        error = refusal_of(lambda: found.append(deed()))
        if error is not None:
            tell_no(self._view.app, error)
        return found[0] if found else None

    def say(self, what: str, booked: Booked) -> str:
        """Return what a deed did in one line."""
        firm, now = self.firm, self.desk.now()
        return say_booked(what, booked, self.desk.today(), now, firm.zone)


def _places(card: DiaryCard) -> list[Option]:
    places: list[Option] = []
    for job in card.jobs:
        name = f"{job.ref}  {job.title}"
        places.append((where_of(job.ref, ""), name))
        if len(job.rooms) > 1:
            places += [(where_of(job.ref, room), f"{name}, {room}") for room in job.rooms]
        elif job.rooms:
            places[-1] = (where_of(job.ref, job.rooms[0]), name)
    return places
