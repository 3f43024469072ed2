"""Files and reads back what is noted on site beside readings: morning lists, and what makes readings void."""

from peewee import JOIN, Expression, ModelInsert

from store.records.database import OpenFile
from store.records.event_tables import MorningCheckRow, VoidingRow
from store.records.filed_events import Filed, plain
from store.records.nouns import build
from store.records.tables import RoomRow
from store.trade.morning import MorningCheck, MorningCheckDraft
from store.trade.voiding import VoidedBy, Voiding, VoidingDraft


def insert_of_morning(job_id: int, room_id: int, draft: MorningCheckDraft) -> "ModelInsert":
    """Return what files a morning list."""
    return MorningCheckRow.insert(
        job_id=job_id,
        room_id=room_id,
        at=draft.at,
        who=draft.who,
        temp_c=draft.temp_c,
        rh_percent=draft.rh_percent,
        surface_c=draft.surface_c,
        mixed=draft.mixed,
        wedges=draft.wedges,
        extraction=draft.extraction,
        note=draft.note,
    )


def insert_of_voiding(job_id: int, room_id: int, draft: VoidingDraft) -> "ModelInsert":
    """Return what files a voiding."""
    return VoidingRow.insert(job_id=job_id, room_id=room_id, at=draft.at, cause=draft.cause.value, note=draft.note)


def mornings(file: OpenFile, which: Expression) -> Filed[MorningCheck]:
    """Return morning lists."""
    query = MorningCheckRow.select(
        MorningCheckRow.job_id,
        MorningCheckRow.id,
        RoomRow.name.alias("room"),
        MorningCheckRow.at,
        MorningCheckRow.who,
        MorningCheckRow.temp_c,
        MorningCheckRow.rh_percent,
        MorningCheckRow.surface_c,
        MorningCheckRow.mixed,
        MorningCheckRow.wedges,
        MorningCheckRow.extraction,
        MorningCheckRow.note,
    )
    query = query.join(RoomRow, JOIN.INNER, on=(MorningCheckRow.room_id == RoomRow.id))
    return file.rows(query.where(which).order_by(MorningCheckRow.id), plain(MorningCheck))


def voidings(file: OpenFile, which: Expression) -> Filed[Voiding]:
    """Return voidings."""
    query = VoidingRow.select(
        VoidingRow.job_id, VoidingRow.id, RoomRow.name.alias("room"), VoidingRow.at, VoidingRow.cause, VoidingRow.note
    )
    query = query.join(RoomRow, JOIN.INNER, on=(VoidingRow.room_id == RoomRow.id))
    return file.rows(query.where(which).order_by(VoidingRow.id), _voiding)


def _voiding(*, job_id: int, cause: str, **columns: object) -> tuple[int, Voiding]:
    return job_id, build(Voiding, columns, cause=VoidedBy(cause))
