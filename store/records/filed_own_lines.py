"""Files and reads back the lines of a job's take-off that were set by hand."""

from peewee import JOIN, Expression, ModelInsert

from store.records.database import OpenFile
from store.records.event_tables import OwnLineRow
from store.records.filed_events import Filed
from store.records.nouns import build
from store.records.tables import ProductRow
from store.trade.buying.nouns import OwnLine, OwnLineDraft
from store.trade.things import Thing

_PLAIN = ("at", "wanted", "units", "size", "width_mm", "rate", "notch", "why")


def insert_of_own_line(job_id: int, product_id: int | None, draft: OwnLineDraft) -> "ModelInsert":
    """Return what files a line set by hand."""
    columns = {name: getattr(draft, name) for name in _PLAIN}
    return OwnLineRow.insert(job_id=job_id, thing=draft.thing.value, product_id=product_id, **columns)


def own_lines(file: OpenFile, which: Expression) -> Filed[OwnLine]:
    """Return lines set by hand."""
    query = OwnLineRow.select(
        OwnLineRow.job_id,
        OwnLineRow.id,
        OwnLineRow.thing,
        ProductRow.code.alias("product"),
        *(getattr(OwnLineRow, name) for name in _PLAIN),
    )
    query = query.join(ProductRow, JOIN.LEFT_OUTER, on=(OwnLineRow.product_id == ProductRow.id))
    return file.rows(query.where(which).order_by(OwnLineRow.id), _own_line)


def _own_line(*, job_id: int, thing: str, product: str | None, **columns: object) -> tuple[int, OwnLine]:
    return job_id, build(OwnLine, columns, thing=Thing(thing), product=product or "")
