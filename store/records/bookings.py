"""The bookings' drawer: who is where on which days."""

from dataclasses import replace
from datetime import date

from peewee import JOIN, Expression, ModelSelect, fn

from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.rooms import RoomDrawer
from store.records.tables import BookingRow, JobRow, RoomRow
from store.records.within import one_of
from store.trade.bookings import Booking, BookingDraft, Part, mark_of

_OWN = ("person", "first", "last", "mark", "changes", "cancelled")


class BookingDrawer:
    """Holds bookings. They are changed as plans change, each change counted; a cancelled one stays as a row."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._rooms = RoomDrawer(file)

    def add(self, job_id: int, ref: str, draft: BookingDraft) -> Booking:
        """File a booking; Refused for a room the job has not. One without a mark gets one."""
        marked = draft if draft.mark else replace(draft, mark=self._new_mark(ref, draft))
        columns = self._columns(job_id, marked) | {"mark": marked.mark, "changes": marked.changes}
        row_id = self._file.file_away(BookingRow.insert(job_id=job_id, cancelled=False, **columns))
        return filed(Booking, marked, id=row_id, ref=ref, cancelled=False)

    def _new_mark(self, ref: str, draft: BookingDraft) -> str:
        number = self._file.number(BookingRow.select(fn.MAX(BookingRow.id))) or 0
        while True:
            number += 1
            mark = mark_of(ref, draft, number)
            # A booking that came in from a folder may bear the mark already that its number gave it elsewhere.
            if self._file.number(BookingRow.select(BookingRow.id).where(BookingRow.mark == mark)) is None:
                return mark

    def change(self, job_id: int, booking: Booking) -> Booking:
        """Put days, person, room or cancelling in the place of what was shown; ChangedMeanwhile if it is not so now."""
        changes = booking.changes + 1
        columns = self._columns(job_id, booking) | {"cancelled": booking.cancelled, "changes": changes}
        query = BookingRow.update(**columns)
        query = query.where(BookingRow.id == booking.id, BookingRow.changes == booking.changes)
        self._file.alter_as_shown(query, f"The booking of {booking.person}")
        return replace(booking, changes=changes)

    def rename(self, person: str, new_name: str) -> None:
        """Let bookings follow somebody who goes by another name now."""
        self._file.alter(BookingRow.update(person=new_name).where(BookingRow.person == person))

    def between(self, first: date, last: date) -> tuple[Booking, ...]:
        """Return the bookings that touch these days, not cancelled, by their first day."""
        touch = (BookingRow.last >= first) & (BookingRow.first <= last) & ~BookingRow.cancelled
        return self._those(touch)

    def all(self) -> tuple[Booking, ...]:
        """Return every booking there ever was, cancelled ones too, by their first day."""
        return self._those(None)

    def of_person(self, person: str) -> tuple[Booking, ...]:
        """Return somebody's bookings, not cancelled, by their first day."""
        return self._those((BookingRow.person == person) & ~BookingRow.cancelled)

    def by_id(self, booking_id: int) -> Booking | None:
        """Return a booking as it is now, cancelled or not."""
        return next(iter(self._those(BookingRow.id == booking_id)), None)

    def of_jobs(self, job_ids: tuple[int, ...] | None) -> tuple[tuple[int, Booking], ...]:
        """Return the standing bookings of these jobs (None: all), with the job's number, in the order of filing."""
        query = _bookings().where(~BookingRow.cancelled)
        if job_ids is not None:
            query = query.where(one_of(BookingRow.job_id, job_ids))
        return self._file.rows(query.order_by(BookingRow.id), _with_job)

    def _those(self, which: Expression | None) -> tuple[Booking, ...]:
        query = _bookings()
        if which is not None:
            query = query.where(which)
        rows = self._file.rows(query.order_by(BookingRow.first, BookingRow.id), _with_job)
        return tuple(booking for _, booking in rows)

    def _columns(self, job_id: int, draft: BookingDraft) -> dict[str, object]:
        room_id = self._rooms.number_of(job_id, draft.room) if draft.room else None
        return {
            "room_id": room_id,
            "person": draft.person,
            "first": draft.first,
            "last": draft.last,
            "part": draft.part.value,
        }


def _bookings() -> "ModelSelect[BookingRow]":
    own = (getattr(BookingRow, name) for name in _OWN)
    columns = (BookingRow.id, BookingRow.job_id, BookingRow.part, *own)
    query = BookingRow.select(*columns, RoomRow.name.alias("room"), JobRow.ref.alias("ref"))
    query = query.join(RoomRow, JOIN.LEFT_OUTER, on=(BookingRow.room_id == RoomRow.id))
    return query.join(JobRow, JOIN.INNER, on=(BookingRow.job_id == JobRow.id))


def _with_job(*, job_id: int, part: str, room: str | None, **columns: object) -> tuple[int, Booking]:
    return job_id, build(Booking, columns, part=Part(part), room=room or "")
