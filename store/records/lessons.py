"""The lessons' drawer: what each closed job taught, kept so that a report need not read every job again."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from typing import TypeVar

from peewee import JOIN, SQL, ModelSelect, fn

from store.records.database import OpenFile
from store.records.lesson_tables import FloorLessonRow, GlueLessonRow
from store.records.nouns import build
from store.records.products import ProductDrawer
from store.records.tables import JobRow, ProductRow
from store.records.trouble import making_sense
from store.trade.jobs import Subfloor
from store.trade.products import Board, Glue, Product
from store.trade.surveyed import Pattern
from store.trade.taught.nouns import FloorLesson, GlueLesson, PastFloor, PastGlue, Shape, SizeBand, Taught

_FLOOR = (
    "rooms",
    "fitters",
    "planned",
    "allowed_percent",
    "laid_mm2",
    "ordered",
    "used",
    "kept",
    "scrapped",
    "gone",
    "adds_up",
    "paid_packs",
    "paid_minor",
)
_FLOOR_KINDS: dict[str, type[StrEnum]] = {"pattern": Pattern, "shape": Shape, "size": SizeBand}
_GLUE = ("rooms", "notch", "base", "glued_mm2", "ordered", "tubs", "paid_packs", "paid_minor")

Kind = TypeVar("Kind", bound=StrEnum)
_LessonRow = TypeVar("_LessonRow", FloorLessonRow, GlueLessonRow)


class LessonDrawer:
    """Holds what closed jobs taught. It is worked out from facts, and put again whenever they change."""

    def __init__(self, file: OpenFile) -> None:
        self._file = file
        self._products = ProductDrawer(file)

    def put(self, job_id: int, taught: Taught) -> None:
        """Keep these lessons of a job in the place of those that are kept; inside a deed."""
        if self.of_job(job_id) == taught:
            return
        self._file.alter(FloorLessonRow.delete().where(FloorLessonRow.job_id == job_id))
        self._file.alter(GlueLessonRow.delete().where(GlueLessonRow.job_id == job_id))
        for floor in taught.floors:
            told = {name: getattr(floor, name) for name in (*_FLOOR, *_FLOOR_KINDS)}
            product_id = self._products.number_of(floor.product)
            self._file.file_away(FloorLessonRow.insert(job_id=job_id, product_id=product_id, **told))
        for glue in taught.glues:
            told = {name: getattr(glue, name) for name in _GLUE}
            product_id = self._products.number_of(glue.product)
            self._file.file_away(GlueLessonRow.insert(job_id=job_id, product_id=product_id, **told))

    def of_job(self, job_id: int) -> Taught:
        """Return the lessons kept of one job, in the order they were put."""
        return self._by_job(job_id).get(job_id, Taught())

    def by_job(self) -> Mapping[int, Taught]:
        """Return the lessons kept of every job that has any, by the job's number."""
        return self._by_job(None)

    def refs_without(self) -> tuple[str, ...]:
        """Return the references of the closed jobs of which no lesson is kept, in the order of filing."""
        kept = FloorLessonRow.select(SQL("1")).where(FloorLessonRow.job_id == JobRow.id)
        query = JobRow.select(JobRow.ref).where(JobRow.closed_at.is_null(False), ~fn.EXISTS(kept))
        return self._file.rows(query.order_by(JobRow.id), _ref)

    def past(self, until: datetime) -> tuple[tuple[PastFloor, ...], tuple[PastGlue, ...]]:
        """Return the lessons of the jobs closed by then, each with its job and its product as they are today."""
        with self._file.standing_still():
            products = {one.code: one for one in self._products.all()}
            floors = self._file.rows(
                _lessons(FloorLessonRow, (*_FLOOR, *_FLOOR_KINDS)).where(JobRow.closed_at <= until), _floor
            )
            glues = self._file.rows(_lessons(GlueLessonRow, _GLUE).where(JobRow.closed_at <= until), _glue)
        with making_sense(self._file.path):
            return (
                tuple(_past_floor(job, lesson, products) for job, lesson in floors),
                tuple(_past_glue(job, lesson, products) for job, lesson in glues),
            )

    def _by_job(self, job_id: int | None) -> dict[int, Taught]:
        floors, glues = _lessons(FloorLessonRow, (*_FLOOR, *_FLOOR_KINDS)), _lessons(GlueLessonRow, _GLUE)
        if job_id is not None:
            floors = floors.where(FloorLessonRow.job_id == job_id)
            glues = glues.where(GlueLessonRow.job_id == job_id)
        told: dict[int, Taught] = {}
        for job, floor in self._file.rows(floors, _floor):
            before = told.get(job.job_id, Taught())
            told[job.job_id] = Taught(floors=(*before.floors, floor), glues=before.glues)
        for job, glue in self._file.rows(glues, _glue):
            before = told.get(job.job_id, Taught())
            told[job.job_id] = Taught(floors=before.floors, glues=(*before.glues, glue))
        return told


@dataclass(frozen=True, slots=True, kw_only=True)
class _JobOf:
    """The job a lesson is of."""

    job_id: int
    ref: str
    title: str
    closed_at: datetime


def _lessons(row: type[_LessonRow], names: tuple[str, ...]) -> "ModelSelect[_LessonRow]":
    """Every lesson of one kind with its job and the code of its product, in the order they were put."""
    own = (getattr(row, name) for name in names)
    query = row.select(row.job_id, JobRow.ref, JobRow.title, JobRow.closed_at, ProductRow.code.alias("product"), *own)
    query = query.join(JobRow, JOIN.INNER, on=(row.job_id == JobRow.id))
    return query.join(ProductRow, JOIN.INNER, on=(row.product_id == ProductRow.id)).order_by(row.id)


def _ref(*, ref: str) -> str:
    return ref


def _floor(*, job_id: int, ref: str, title: str, closed_at: datetime, **columns: object) -> tuple[_JobOf, FloorLesson]:
    kinds: dict[str, object] = {name: _kind(kind, columns[name]) for name, kind in _FLOOR_KINDS.items()}
    job = _JobOf(job_id=job_id, ref=ref, title=title, closed_at=closed_at)
    return job, build(FloorLesson, columns, **kinds)


def _glue(*, job_id: int, ref: str, title: str, closed_at: datetime, **columns: object) -> tuple[_JobOf, GlueLesson]:
    job = _JobOf(job_id=job_id, ref=ref, title=title, closed_at=closed_at)
    return job, build(GlueLesson, columns, base=_kind(Subfloor, columns["base"]))


def _kind(kind: type[Kind], word: object) -> Kind | None:
    return None if word is None else kind(str(word))


def _past_floor(job: _JobOf, lesson: FloorLesson, products: Mapping[str, Product]) -> PastFloor:
    board = products[lesson.product]
    if not isinstance(board, Board):
        raise ValueError("What was laid is no board.")  # noqa: TRY004 - what was read is wrong, not how it was asked
    return PastFloor(ref=job.ref, title=job.title, closed_at=job.closed_at, board=board, lesson=lesson)


def _past_glue(job: _JobOf, lesson: GlueLesson, products: Mapping[str, Product]) -> PastGlue:
    glue = products[lesson.product]
    if not isinstance(glue, Glue):
        raise ValueError("What was spread is no glue.")  # noqa: TRY004 - what was read is wrong, not how it was asked
    return PastGlue(ref=job.ref, title=job.title, closed_at=job.closed_at, glue=glue, lesson=lesson)
