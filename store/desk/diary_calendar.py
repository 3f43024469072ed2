"""The diary as a calendar file: which bookings go in, and what each of them says."""

from store.desk.counter import Bench, shown
from store.errors import Refused
from store.papers.calendar import Entry, write_calendar
from store.trade.bookings import Booking, Part, days_of
from store.trade.clashes import hours_of
from store.trade.firm import Firm
from store.trade.jobs import Job


def calendar_of(bench: Bench, *, person: str, ref: str) -> bytes:
    """Return somebody's bookings, a job's, or all of them as an iCalendar file."""
    firm, everything = bench.firm(), bench.cabinet.bookings.all()
    if person:
        names = {one.name for one in bench.cabinet.people.all()} | {one.person for one in everything}
        if person not in names:
            raise Refused(f"There is nobody called “{shown(person)}” in the diary.")
    if ref:
        bench.job_id(ref)
    wanted = [one for one in everything if (not person or one.person == person) and (not ref or one.ref == ref)]
    jobs = {job.ref: job for job in bench.cabinet.jobs.of_refs({one.ref for one in wanted})}
    name = f"{person or ref}, {firm.name}" if person or ref else firm.name
    return write_calendar(name, [_entry(firm, one, jobs[one.ref]) for one in wanted], bench.now())


def _entry(firm: Firm, booking: Booking, job: Job) -> Entry:
    room = f", {booking.room}" if booking.room else ""
    days = days_of(firm, booking)
    return Entry(
        uid=f"{booking.mark}@layday",
        sequence=booking.changes,
        summary=f"{booking.person}: {job.ref} {job.title}{room}",
        location=job.address,
        description=f"For {job.customer.name}",
        days=days,
        hours=None if booking.part is Part.WHOLE else hours_of(firm, booking.part, days[0]),
        cancelled=booking.cancelled,
    )
