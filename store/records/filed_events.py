"""Reads back what happened to jobs: nouns in the order of filing, each with its job's number."""

from collections.abc import Callable, Collection, Iterable
from typing import TypeVar

from peewee import JOIN, Expression, ModelSelect

from store.records.database import OpenFile
from store.records.event_tables import (
    DeliveryRow,
    HandoverRow,
    LayingRow,
    NoteRow,
    ReadingRow,
    SmoothingRow,
    SnagRow,
)
from store.records.fields import WholeField
from store.records.nouns import build, place
from store.records.rows import AnyRow, RowOfJob
from store.records.tables import RoomRow
from store.records.within import one_of, stands
from store.trade.events import (
    Delivery,
    DeliveryLine,
    Handover,
    Laying,
    Note,
    Smoothing,
    Snag,
)
from store.trade.evidence import Evidence
from store.trade.readings import KINDS, Reading

Noun = TypeVar("Noun")
Filed = tuple[tuple[int, Noun], ...]


def of_jobs(row: type[RowOfJob], kind: str, job_ids: Collection[int] | None) -> Expression:
    """Whether a row counts and belongs to one of these jobs; None stands for all of them."""
    return stands(row, kind) if job_ids is None else stands(row, kind) & one_of(row.job_id, job_ids)


def deliveries(file: OpenFile, which: Expression, lines: dict[int, list[DeliveryLine]]) -> Filed[Delivery]:
    """Return deliveries with their lines, which the ledger has told."""

    def delivery(
        *,
        job_id: int,
        id: int,  # noqa: A002 - the column's name
        into_place: str,
        room: str | None,
        **columns: object,
    ) -> tuple[int, Delivery]:
        into = place(into_place, room)
        return job_id, build(Delivery, columns, id=id, into=into, lines=tuple(lines.get(id, ())))

    query = DeliveryRow.select(
        DeliveryRow.job_id, DeliveryRow.id, DeliveryRow.at, DeliveryRow.into_place, RoomRow.name.alias("room")
    )
    query = query.join(RoomRow, JOIN.LEFT_OUTER, on=(DeliveryRow.into_room_id == RoomRow.id))
    return file.rows(query.where(which).order_by(DeliveryRow.id), delivery)


def readings(file: OpenFile, which: Expression) -> Filed[Reading]:
    """Return readings."""
    columns = (
        ReadingRow.temp_c,
        ReadingRow.rh_percent,
        ReadingRow.percent,
        ReadingRow.span_mm,
        ReadingRow.gap_mm,
        ReadingRow.point,
        ReadingRow.instrument,
        ReadingRow.sample_g,
        ReadingRow.gauge_bar,
        ReadingRow.depth_mm,
        ReadingRow.hours,
        ReadingRow.zone,
        ReadingRow.checked_on,
        ReadingRow.figures,
        ReadingRow.spacing_mm,
        ReadingRow.heights_mm,
    )
    query = ReadingRow.select(
        ReadingRow.job_id,
        ReadingRow.id,
        RoomRow.name.alias("room"),
        ReadingRow.at,
        ReadingRow.kind,
        *columns,
        ReadingRow.taken_by,
        ReadingRow.note,
        ReadingRow.corrects,
    )
    return file.rows(_in_rooms(query, ReadingRow.room_id).where(which).order_by(ReadingRow.id), _reading)


def smoothings(file: OpenFile, which: Expression) -> Filed[Smoothing]:
    """Return smoothings."""
    query = SmoothingRow.select(
        SmoothingRow.job_id, SmoothingRow.id, RoomRow.name.alias("room"), SmoothingRow.at, SmoothingRow.note
    )
    query = _in_rooms(query, SmoothingRow.room_id).where(which).order_by(SmoothingRow.id)

    return file.rows(query, plain(Smoothing))


def layings(file: OpenFile, which: Expression) -> Filed[Laying]:
    """Return layings, ended or not."""
    query = LayingRow.select(
        LayingRow.job_id,
        LayingRow.id,
        LayingRow.rev,
        RoomRow.name.alias("room"),
        LayingRow.begun_at,
        LayingRow.ended_at,
        LayingRow.area_mm2,
        LayingRow.tubs,
    )
    query = _in_rooms(query, LayingRow.room_id).where(which).order_by(LayingRow.id)

    return file.rows(query, plain(Laying))


def handovers(file: OpenFile, which: Expression) -> Filed[Handover]:
    """Return signatures."""
    query = HandoverRow.select(
        HandoverRow.job_id, HandoverRow.id, HandoverRow.signed_at, HandoverRow.signed_by.alias("by")
    )

    return file.rows(query.where(which).order_by(HandoverRow.id), plain(Handover))


def snags(file: OpenFile, which: Expression) -> Filed[Snag]:
    """Return snags, mended or not."""
    query = SnagRow.select(
        SnagRow.job_id,
        SnagRow.id,
        SnagRow.rev,
        RoomRow.name.alias("room"),
        SnagRow.at,
        SnagRow.what,
        SnagRow.mended_at,
    )
    query = query.join(RoomRow, JOIN.LEFT_OUTER, on=(SnagRow.room_id == RoomRow.id))

    def snag(*, job_id: int, room: str | None, **columns: object) -> tuple[int, Snag]:
        return job_id, build(Snag, columns, room=room or "")

    return file.rows(query.where(which).order_by(SnagRow.id), snag)


def notes(file: OpenFile, which: Expression) -> Filed[Note]:
    """Return notes."""
    query = NoteRow.select(NoteRow.job_id, NoteRow.id, NoteRow.at, NoteRow.text)

    return file.rows(query.where(which).order_by(NoteRow.id), plain(Note))


def plain(noun: Callable[..., Noun]) -> Callable[..., tuple[int, Noun]]:
    """Return what makes a noun, and its job's number, of a row whose columns are the noun's fields."""

    def made(*, job_id: int, **columns: object) -> tuple[int, Noun]:
        return job_id, build(noun, columns)

    return made


def grouped(pairs: Iterable[tuple[int, Noun]]) -> dict[int, list[Noun]]:
    """Return nouns by the number that stands before each, in the order they came."""
    groups: dict[int, list[Noun]] = {}
    for number, noun in pairs:
        groups.setdefault(number, []).append(noun)
    return groups


def _in_rooms(query: "ModelSelect[AnyRow]", room_id: WholeField) -> "ModelSelect[AnyRow]":
    return query.join(RoomRow, JOIN.INNER, on=(room_id == RoomRow.id))


def _reading(*, job_id: int, kind: str, **columns: object) -> tuple[int, Reading]:
    noun = KINDS[kind]
    measure = build(noun, {name: columns[name] for name in noun.__dataclass_fields__})
    own = {name: columns[name] for name in ("id", "room", "at", "taken_by", "note", "corrects")}
    evidence = build(Evidence, {name: columns[name] for name in Evidence.__dataclass_fields__})
    return job_id, build(Reading, own, measure=measure, evidence=evidence)
