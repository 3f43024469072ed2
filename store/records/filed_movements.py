"""Reads the ledger back: as what happened to jobs, or as bare movements of stock."""

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date, datetime

from peewee import JOIN, SQL, Case, Expression, ModelSelect, Tuple, Value, fn

from store.records.database import OpenFile
from store.records.event_tables import DifferenceRow, MovementRow, TakenBackRow
from store.records.jobs import not_closed_by
from store.records.nouns import build, place
from store.records.tables import JobRow, ProductRow, RoomRow
from store.records.trouble import making_sense
from store.records.within import one_of, stands
from store.trade.events import Count, DeliveryLine, Move, Opening, PlaceKind
from store.trade.ledger import WHERE_COUNTED_GO, Age, Movement

_UNIT, _SHELF = str(PlaceKind.UNIT), str(PlaceKind.SHELF)
_DESTINATIONS = {kind: destination for destination, kind in WHERE_COUNTED_GO.items()}


@dataclass(frozen=True, slots=True)
class Pages:
    """The ledger of some jobs: moves, openings and counts by job, lines of deliveries by delivery."""

    moves: dict[int, list[Move]] = field(default_factory=dict)
    openings: dict[int, list[Opening]] = field(default_factory=dict)
    counts: dict[int, list[Count]] = field(default_factory=dict)
    delivered: dict[int, list[DeliveryLine]] = field(default_factory=dict)


def ledger_of(file: OpenFile, job_ids: Collection[int] | None) -> Pages:
    """Return the ledger of these jobs (None for all), by one question."""
    query = _rows(MovementRow.job_id, MovementRow.delivery_id).where(movement_stands())
    if job_ids is not None:
        query = query.where(one_of(MovementRow.job_id, job_ids))
    ledger = Pages()
    rows = file.rows(query.order_by(MovementRow.id), _of_job)
    with making_sense(file.path):
        for job_id, delivery_id, row in rows:
            _enter(ledger, job_id, delivery_id, row)
    return ledger


def _enter(ledger: Pages, job_id: int, delivery_id: int | None, row: Movement) -> None:
    if delivery_id is not None:
        line = DeliveryLine(
            product=row.product,
            batch=row.batch,
            packs=row.packs,
            damaged_packs=row.damaged_packs,
            use_by=row.use_by,
        )
        ledger.delivered.setdefault(delivery_id, []).append(line)
    elif row.cause == "move":
        ledger.moves.setdefault(job_id, []).append(_move(row))
    elif row.cause == "opening":
        ledger.openings.setdefault(job_id, []).append(_opening(row))
    else:
        ledger.counts.setdefault(job_id, []).append(_count(row))


def movements(file: OpenFile, now: datetime, *, spares: bool) -> tuple[Movement, ...]:
    """Return what stock is made of: all of jobs open at ``now``, and past jobs' to or from the shelf.

    Of past jobs also what went through the unit, of the lots that did not all leave it again, which few are. With
    ``spares`` what past jobs left with their customers too, which in ten years is most of it.
    """
    kept = (str(PlaceKind.SHELF), *([str(PlaceKind.CUSTOMER)] if spares else []))
    lot = Tuple(MovementRow.job_id, MovementRow.product_id, MovementRow.batch)
    numbers = (
        MovementRow.select(MovementRow.id).where(MovementRow.job_id.in_(not_closed_by(now)))
        | MovementRow.select(MovementRow.id).where(MovementRow.source.in_(kept))
        | MovementRow.select(MovementRow.id).where(MovementRow.target.in_(kept))
        | MovementRow.select(MovementRow.id).where(_in_unit(), lot.in_(_lots_left_in_unit()))
    )
    closed = fn.COALESCE(JobRow.closed_at <= now, 0)
    query = _rows(JobRow.ref.alias("job_ref"), closed.alias("job_closed"))
    query = query.join_from(MovementRow, JobRow, JOIN.INNER, on=(MovementRow.job_id == JobRow.id))
    query = query.where(MovementRow.id.in_(numbers), movement_stands()).order_by(MovementRow.id)
    return file.rows(query, _movement)


def _lots_left_in_unit() -> object:
    """The lots of jobs of which not as much left the unit as came into it.

    And those that went between the unit and the shelf, or of which a stock-take spoke: of them something is told
    anyway, and so all of it has to be.
    """
    into = Case(
        None, [(MovementRow.target == _UNIT, MovementRow.packs - MovementRow.damaged_packs)], 0 - MovementRow.packs
    )
    by_shelf = fn.MAX((MovementRow.source == _SHELF) | (MovementRow.target == _SHELF))
    lot = (MovementRow.job_id, MovementRow.product_id, MovementRow.batch)
    through = MovementRow.select(*lot).where(_in_unit(), movement_stands()).group_by(*lot)
    counted = DifferenceRow.select(DifferenceRow.job_id, DifferenceRow.product_id, DifferenceRow.batch)
    counted = counted.where(DifferenceRow.job_id > 0, stands(DifferenceRow, "stock-take"))
    return through.having((fn.SUM(into) != 0) | (by_shelf == 1)) | counted


def _in_unit() -> Expression:
    return (MovementRow.source == _UNIT) | (MovementRow.target == _UNIT)


def batches(file: OpenFile) -> dict[str, tuple[str, ...]]:
    """Return the batches of each product that stand in the ledger, by its code, the latest first."""
    latest = fn.MAX(MovementRow.id)
    query = MovementRow.select(ProductRow.code, MovementRow.batch)
    query = query.join(ProductRow, JOIN.INNER, on=(MovementRow.product_id == ProductRow.id))
    query = query.where(MovementRow.batch != "", movement_stands()).group_by(ProductRow.code, MovementRow.batch)
    found: dict[str, list[str]] = {}
    for code, batch in file.rows(query.order_by(latest.desc()), _batch):
        found.setdefault(code, []).append(batch)
    return {code: tuple(some) for code, some in found.items()}


def ages(file: OpenFile, now: datetime, refs: Collection[str]) -> dict[tuple[str, str, str], Age]:
    """Return when the first of each batch was delivered to each of the jobs, and the earliest last day of its tubs.

    By product, batch and job; under no job it is the batch's whole, over all jobs that ever were, which a batch that
    nobody wrote down has not.
    """
    by_job = _ages(now, JobRow.ref).where(one_of(JobRow.ref, refs)).group_by_extend(JobRow.ref)
    whole = _ages(now, Value("").alias("ref")).where(MovementRow.batch != "")
    return dict((*file.rows(by_job, _age), *file.rows(whole, _age)))


def movement_stands() -> Expression:
    """Whether a movement has not been taken back."""
    # A delivery is taken back whole, under its own number; everything else under the ledger's.
    number = fn.COALESCE(MovementRow.delivery_id, MovementRow.id)
    taken = TakenBackRow.select(SQL("1"))
    taken = taken.where(TakenBackRow.kind == MovementRow.cause, TakenBackRow.row_id == number)
    standing: Expression = ~fn.EXISTS(taken)
    return standing


def _ages(now: datetime, ref: object) -> "ModelSelect[MovementRow]":
    query = MovementRow.select(
        ProductRow.code,
        MovementRow.batch,
        ref,
        fn.MIN(MovementRow.at).alias("since"),
        fn.MIN(MovementRow.use_by).alias("use_by"),
    )
    query = query.join(ProductRow, JOIN.INNER, on=(MovementRow.product_id == ProductRow.id))
    query = query.join_from(MovementRow, JobRow, JOIN.INNER, on=(MovementRow.job_id == JobRow.id))
    came = (MovementRow.cause == "delivery") & (MovementRow.at <= now)
    return query.where(came, movement_stands()).group_by(ProductRow.code, MovementRow.batch)


def _age(*, code: str, batch: str, ref: str, since: datetime, use_by: date | None) -> tuple[tuple[str, str, str], Age]:
    return (code, batch, ref), Age(since=since, use_by=use_by)


def _batch(*, code: str, batch: str) -> tuple[str, str]:
    return code, batch


def _rows(*more: object) -> "ModelSelect[MovementRow]":
    source_room, target_room = RoomRow.alias(), RoomRow.alias()
    query = MovementRow.select(
        *more,
        MovementRow.id,
        MovementRow.at,
        MovementRow.cause,
        ProductRow.code.alias("product"),
        MovementRow.batch,
        MovementRow.packs,
        MovementRow.boards,
        MovementRow.damaged_packs,
        MovementRow.use_by,
        MovementRow.source,
        source_room.name.alias("source_room"),
        MovementRow.target,
        target_room.name.alias("target_room"),
    )
    query = query.join(ProductRow, JOIN.INNER, on=(MovementRow.product_id == ProductRow.id))
    query = query.join_from(
        MovementRow, source_room, JOIN.LEFT_OUTER, on=(MovementRow.source_room_id == source_room.id)
    )
    return query.join_from(MovementRow, target_room, JOIN.LEFT_OUTER, on=(MovementRow.target_room_id == target_room.id))


def _of_job(*, job_id: int, delivery_id: int | None, **columns: object) -> tuple[int, int | None, Movement]:
    return job_id, delivery_id, build(_movement, columns, job_ref="", job_closed=0)


def _movement(
    *,
    source: str,
    source_room: str | None,
    target: str,
    target_room: str | None,
    job_closed: int,
    **columns: object,
) -> Movement:
    return build(
        Movement,
        columns,
        source=place(source, source_room),
        target=place(target, target_room),
        job_closed=bool(job_closed),
    )


def _move(row: Movement) -> Move:
    return Move(
        id=row.id,
        at=row.at,
        product=row.product,
        batch=row.batch,
        packs=row.packs,
        source=row.source,
        target=row.target,
    )


def _opening(row: Movement) -> Opening:
    return Opening(id=row.id, at=row.at, room=row.source.room, product=row.product, batch=row.batch, packs=row.packs)


def _count(row: Movement) -> Count:
    return Count(
        id=row.id,
        at=row.at,
        product=row.product,
        batch=row.batch,
        packs=row.packs,
        boards=row.boards,
        to=_DESTINATIONS[row.target.kind],
    )
