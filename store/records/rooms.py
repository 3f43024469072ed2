"""The rooms' drawer."""

from collections.abc import Collection, Sequence
from dataclasses import fields

from peewee import JOIN, ModelSelect

from store.errors import Refused
from store.records.database import OpenFile
from store.records.nouns import build, filed
from store.records.products import ProductDrawer
from store.records.tables import ProductRow, RoomRow
from store.records.trouble import BoundTo
from store.records.within import one_of
from store.trade.jobs import Method, OldFloor, Room, RoomDraft, Sample, Subfloor
from store.trade.surveyed import Doorway, FixedThing, Pattern

_OWN = tuple(field.name for field in fields(RoomDraft) if field.name not in {"board", "glue"})


class RoomDrawer:
    """Holds the rooms of jobs; a room names its board and glue by their codes."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._products = ProductDrawer(file)

    def add(self, job_id: int, draft: RoomDraft) -> Room:
        """File a room; Refused if the job has one of that name, or for a board or glue not on file."""
        row_id = self._file.file_away(RoomRow.insert(job_id=job_id, rev=1, **self._columns(draft)))
        return filed(Room, draft, id=row_id, rev=1)

    def change(self, room_id: int, draft: RoomDraft, rev: int) -> Room:
        """Correct the room shown at ``rev``; ChangedMeanwhile if it says something else by now."""
        query = RoomRow.update(rev=rev + 1, **self._columns(draft)).where(RoomRow.id == room_id, RoomRow.rev == rev)
        self._file.alter_as_shown(query, f"“{draft.name}”")
        return filed(Room, draft, id=room_id, rev=rev + 1)

    def remove(self, room_id: int, rev: int) -> None:
        """Take a room out of its job; Refused where anything on file, taken back or not, names it."""
        query = RoomRow.delete().where(RoomRow.id == room_id, RoomRow.rev == rev)
        try:
            self._file.alter_as_shown(query, "The room")
        except BoundTo as error:
            raise Refused("Something is on file about this room, so it stays.") from error

    def of_jobs(self, job_ids: Collection[int] | None) -> tuple[tuple[int, Room], ...]:
        """Return the rooms of these jobs (None: all), with the job's number, in the order of filing."""
        query = _rooms()
        if job_ids is not None:
            query = query.where(one_of(RoomRow.job_id, job_ids))
        return self._file.rows(query.order_by(RoomRow.id), _with_job)

    def number_of(self, job_id: int, name: str) -> int:
        """Return the row number of a job's room; Refused if it has no such room."""
        query = RoomRow.select(RoomRow.id).where(RoomRow.job_id == job_id, RoomRow.name == name)
        number = self._file.number(query)
        if number is None:
            raise Refused(f"There is no room “{name}” in this job.")
        return number

    def _columns(self, draft: RoomDraft) -> dict[str, object]:
        own = {name: getattr(draft, name) for name in _OWN}
        glue_id = None if draft.glue is None else self._products.number_of(draft.glue)
        doorways = [(one.wall, one.from_mm, one.width_mm, one.to, one.deep_mm) for one in draft.doorways]
        things = [(one.name, one.x_mm, one.y_mm, one.size_mm) for one in draft.fixed_things]
        own |= {"old_floor": draft.old_floor.value, "old_floor_sample": draft.old_floor_sample.value}
        own |= {"pattern": draft.pattern.value, "doorways": doorways, "fixed_things": things}
        return own | {"board_id": self._products.number_of(draft.board), "glue_id": glue_id}


def _rooms() -> "ModelSelect[RoomRow]":
    board, glue = ProductRow.alias(), ProductRow.alias()
    own = (getattr(RoomRow, name) for name in _OWN)
    query = RoomRow.select(
        RoomRow.id, RoomRow.job_id, RoomRow.rev, *own, board.code.alias("board"), glue.code.alias("glue")
    )
    with_board = query.join(board, JOIN.INNER, on=(RoomRow.board_id == board.id))
    return with_board.join(glue, JOIN.LEFT_OUTER, on=(RoomRow.glue_id == glue.id))


def _with_job(
    *,
    job_id: int,
    subfloor: str,
    method: str,
    pattern: str,
    doorways: Sequence[tuple[int, int, int, str, int]],
    fixed_things: Sequence[tuple[str, int, int, int]],
    **columns: object,
) -> tuple[int, Room]:
    return job_id, build(
        Room,
        columns,
        subfloor=Subfloor(subfloor),
        method=Method(method),
        pattern=Pattern(pattern),
        old_floor=OldFloor(str(columns["old_floor"])),
        old_floor_sample=Sample(str(columns["old_floor_sample"])),
        doorways=tuple(_doorway(*one) for one in doorways),
        fixed_things=tuple(_fixed_thing(*one) for one in fixed_things),
    )


def _doorway(wall: int, from_mm: int, width_mm: int, to: str, deep_mm: int) -> Doorway:
    return Doorway(wall=wall, from_mm=from_mm, width_mm=width_mm, to=to, deep_mm=deep_mm)


def _fixed_thing(name: str, x_mm: int, y_mm: int, size_mm: int) -> FixedThing:
    return FixedThing(name=name, x_mm=x_mm, y_mm=y_mm, size_mm=size_mm)
