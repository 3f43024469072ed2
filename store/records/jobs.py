"""The jobs' drawer, with the customers and sites they belong to."""

from collections.abc import Collection
from datetime import datetime

from peewee import JOIN, ModelCompoundSelectQuery, ModelSelect

from store.errors import Refused
from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.tables import CustomerRow, JobRow, RoomRow, SiteRow
from store.records.within import MOST_ASKED
from store.trade.jobs import CustomerDraft, Job, JobDraft, JobLine


class JobDrawer:
    """Holds the jobs, each under the firm's own reference."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file

    def add(self, draft: JobDraft) -> Job:
        """File a job; Refused if its reference is taken. A customer or site on file is not filed twice."""
        site_id = self._site(draft)
        job_id = self._file.file_away(
            JobRow.insert(
                rev=1,
                ref=draft.ref,
                title=draft.title,
                site_id=site_id,
                promised_on=draft.promised_on,
                closed_at=None,
            )
        )
        return filed(Job, draft, id=job_id, rev=1)

    def change(self, job_id: int, draft: JobDraft, rev: int) -> Job:
        """Correct the card shown at ``rev``; ChangedMeanwhile if it says something else by now."""
        site_id = self._site(draft)
        query = JobRow.update(
            rev=rev + 1, ref=draft.ref, title=draft.title, site_id=site_id, promised_on=draft.promised_on
        )
        self._file.alter_as_shown(query.where(JobRow.id == job_id, JobRow.rev == rev), f"“{draft.ref}”")
        self._forget_whom_nothing_names()
        return filed(Job, draft, id=job_id, rev=rev + 1)

    def by_ref(self, ref: str) -> Job | None:
        return self._file.first(_cards().where(JobRow.ref == ref), _job)

    def of_refs(self, refs: Collection[str]) -> tuple[Job, ...]:
        """Return the jobs of these references, in the order of filing."""
        query = _cards().order_by(JobRow.id)
        if len(refs) <= MOST_ASKED:
            query = query.where(JobRow.ref.in_(list(refs)))
        wanted = frozenset(refs)
        return tuple(job for job in self._file.rows(query, _job) if job.ref in wanted)

    def all(self) -> tuple[Job, ...]:
        """Return every job, in the order of filing."""
        return self._file.rows(_cards().order_by(JobRow.id), _job)

    def open_at(self, now: datetime) -> tuple[Job, ...]:
        """Return the jobs not closed by then, in the order of filing."""
        return self._file.rows(_cards().where(JobRow.id.in_(not_closed_by(now))).order_by(JobRow.id), _job)

    def refs(self) -> tuple[str, ...]:
        """Return every reference, the latest filed first."""
        query = JobRow.select(JobRow.ref).order_by(JobRow.id.desc())
        return self._file.rows(query, _ref)

    def refs_glued_with(self, product_id: int) -> tuple[str, ...]:
        """Return the references of the jobs, open or closed, in which a room is laid with this glue."""
        with_rooms = JobRow.select(JobRow.ref).join(RoomRow, JOIN.INNER, on=(RoomRow.job_id == JobRow.id))
        return self._file.rows(with_rooms.where(RoomRow.glue_id == product_id).distinct().order_by(JobRow.id), _ref)

    def refs_laid_with(self, product_id: int) -> tuple[str, ...]:
        """Return the references of the jobs, open or closed, in which a room is laid with this board."""
        with_rooms = JobRow.select(JobRow.ref).join(RoomRow, JOIN.INNER, on=(RoomRow.job_id == JobRow.id))
        return self._file.rows(with_rooms.where(RoomRow.board_id == product_id).distinct().order_by(JobRow.id), _ref)

    def closed_of(self, refs: Collection[str]) -> tuple[str, ...]:
        """Return which of these jobs are noted as closed, or as closing at a moment still to come."""
        query = JobRow.select(JobRow.ref).where(JobRow.closed_at.is_null(False)).order_by(JobRow.id)
        if len(refs) <= MOST_ASKED:
            query = query.where(JobRow.ref.in_(list(refs)))
        wanted = frozenset(refs)
        return tuple(ref for ref in self._file.rows(query, _ref) if ref in wanted)

    def lines(self) -> tuple[JobLine, ...]:
        """Return the list of all jobs, in the order of filing, by one question."""
        query = _joined(
            JobRow.select(
                JobRow.id,
                JobRow.ref,
                JobRow.title,
                CustomerRow.name.alias("customer"),
                SiteRow.address,
                JobRow.promised_on,
                JobRow.closed_at,
            )
        )
        return self._file.rows(query.order_by(JobRow.id), JobLine)

    def customers(self) -> tuple[CustomerDraft, ...]:
        """Return everybody a floor is or was for, by name."""
        query = CustomerRow.select(CustomerRow.name, CustomerRow.phone, CustomerRow.email)
        return self._file.rows(query.order_by(CustomerRow.name, CustomerRow.id), CustomerDraft)

    def mark_closed(self, job_id: int, closed_at: datetime | None) -> None:
        """Note when the job became closed, or that it is open again."""
        if self._file.alter(JobRow.update(closed_at=closed_at).where(JobRow.id == job_id)) != 1:
            raise Refused("The job is no longer on file.")

    def _site(self, draft: JobDraft) -> int:
        asked = draft.customer
        same = (
            CustomerRow.name == asked.name,
            CustomerRow.phone == asked.phone,
            CustomerRow.email == asked.email,
        )
        customer_id = self._file.number(CustomerRow.select(CustomerRow.id).where(*same))
        if customer_id is None:
            customer_id = self._file.file_away(
                CustomerRow.insert(name=asked.name, phone=asked.phone, email=asked.email)
            )
        at_address = (SiteRow.customer_id == customer_id, SiteRow.address == draft.address)
        site_id = self._file.number(SiteRow.select(SiteRow.id).where(*at_address))
        if site_id is None:
            site_id = self._file.file_away(SiteRow.insert(customer_id=customer_id, address=draft.address))
        return site_id

    def _forget_whom_nothing_names(self) -> None:
        self._file.alter(SiteRow.delete().where(SiteRow.id.not_in(JobRow.select(JobRow.site_id))))
        self._file.alter(CustomerRow.delete().where(CustomerRow.id.not_in(SiteRow.select(SiteRow.customer_id))))


def not_closed_by(now: datetime) -> ModelCompoundSelectQuery:
    """Return the question for the numbers of the jobs that are open at ``now``; one may be noted to close later."""
    # Two questions of the index in place of one OR, for which SQLite would read every job there ever was.
    still_open = JobRow.select(JobRow.id).where(JobRow.closed_at.is_null())
    return still_open | JobRow.select(JobRow.id).where(JobRow.closed_at > now)


def _cards() -> "ModelSelect[JobRow]":
    return _joined(
        JobRow.select(
            JobRow.id,
            JobRow.rev,
            JobRow.ref,
            JobRow.title,
            JobRow.promised_on,
            SiteRow.address,
            CustomerRow.name.alias("customer_name"),
            CustomerRow.phone,
            CustomerRow.email,
        )
    )


def _joined(query: "ModelSelect[JobRow]") -> "ModelSelect[JobRow]":
    with_site = query.join(SiteRow, JOIN.INNER, on=(JobRow.site_id == SiteRow.id))
    return with_site.join(CustomerRow, JOIN.INNER, on=(SiteRow.customer_id == CustomerRow.id))


def _ref(*, ref: str) -> str:
    return ref


def _job(*, customer_name: str, phone: str, email: str, **columns: object) -> Job:
    return build(Job, columns, customer=CustomerDraft(name=customer_name, phone=phone, email=email))
