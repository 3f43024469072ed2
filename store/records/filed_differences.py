"""Files and reads back what stock-takes found or missed, as differences and as movements of the ledger."""

from collections.abc import Collection
from datetime import datetime

from peewee import JOIN, ModelInsert, ModelSelect, fn

from store.records.database import OpenFile
from store.records.event_tables import DifferenceRow
from store.records.filed_events import Filed
from store.records.nouns import build
from store.records.tables import JobRow, ProductRow
from store.records.within import one_of, stands
from store.trade.ledger import Cause, Movement
from store.trade.stock_take import Booked, Difference, DifferenceDraft, Way, ends

KIND = "stock-take"
"""The word by which a difference is taken back."""


def insert_of(job_id: int | None, product_id: int, draft: DifferenceDraft) -> "ModelInsert":
    """Return what files a difference; without a job, of free stock."""
    return DifferenceRow.insert(
        job_id=job_id,
        at=draft.at,
        product_id=product_id,
        batch=draft.batch,
        packs=draft.packs,
        boards=draft.boards,
        way=draft.way.value,
        why=draft.why,
    )


def differences(file: OpenFile, job_ids: Collection[int] | None) -> Filed[Difference]:
    """Return the differences of these jobs (None for all), by the job's number; those of free stock are left out."""
    query = _rows(DifferenceRow.job_id).where(DifferenceRow.job_id.is_null(False))
    if job_ids is not None:
        query = query.where(one_of(DifferenceRow.job_id, job_ids))

    def of_job(*, job_id: int, **columns: object) -> tuple[int, Difference]:
        return job_id, build(_difference, columns)

    return file.rows(query, of_job)


def booked(file: OpenFile) -> tuple[Booked, ...]:
    """Return every difference that was not taken back, in the order of filing."""
    return file.rows(_with_refs(), _booked)


def as_movements(file: OpenFile, now: datetime) -> tuple[Movement, ...]:
    """Return the differences of free stock and of jobs, open or closed at ``now``, as movements of the ledger."""
    closed = fn.COALESCE(JobRow.closed_at <= now, 0)
    # Two questions of the index in place of one of the whole table.
    free = DifferenceRow.select(DifferenceRow.id).where(DifferenceRow.job_id.is_null())
    numbers = free | DifferenceRow.select(DifferenceRow.id).where(DifferenceRow.job_id > 0)
    query = _with_refs(closed.alias("job_closed")).where(DifferenceRow.id.in_(numbers))
    return file.rows(query, _as_movement)


def _rows(*more: object) -> "ModelSelect[DifferenceRow]":
    query = DifferenceRow.select(
        *more,
        DifferenceRow.id,
        DifferenceRow.at,
        ProductRow.code.alias("product"),
        DifferenceRow.batch,
        DifferenceRow.packs,
        DifferenceRow.boards,
        DifferenceRow.way,
        DifferenceRow.why,
    )
    query = query.join(ProductRow, JOIN.INNER, on=(DifferenceRow.product_id == ProductRow.id))
    return query.where(stands(DifferenceRow, KIND)).order_by(DifferenceRow.id)


def _with_refs(*more: object) -> "ModelSelect[DifferenceRow]":
    query = _rows(fn.COALESCE(JobRow.ref, "").alias("job_ref"), *more)
    return query.join_from(DifferenceRow, JobRow, JOIN.LEFT_OUTER, on=(DifferenceRow.job_id == JobRow.id))


def _difference(*, way: str, **columns: object) -> Difference:
    return build(Difference, columns, way=Way(way))


def _booked(*, job_ref: str, **columns: object) -> Booked:
    return Booked(job_ref=job_ref, difference=build(_difference, columns))


def _as_movement(*, job_closed: int, **columns: object) -> Movement:
    one = build(_booked, columns)
    told = one.difference
    source, target = ends(told.way, one.job_ref)
    return Movement(
        id=told.id,
        job_ref=one.job_ref,
        job_closed=bool(job_closed),
        at=told.at,
        cause=Cause.STOCK_TAKE,
        product=told.product,
        batch=told.batch,
        packs=told.packs,
        damaged_packs=0,
        boards=told.boards,
        source=source,
        target=target,
    )
